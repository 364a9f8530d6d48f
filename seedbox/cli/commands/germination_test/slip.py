"""`test slip`: the slip that lies with a test in its bag, as a PDF that was read back."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import click

from seedbox.cli import completing
from seedbox.cli.codes import whole_codes
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.handing_over import hand_over, handing_over_options
from seedbox.cli.params import WORDS, Whole
from seedbox.cli.session import Session
from seedbox.errors import UsageError


def _codes_and_file(ctx: click.Context, param: click.Parameter, words: Sequence[str]) -> Any:
    """Codes, in one word or two each, and the file after them; the file may stand first too."""
    files = [word for word in words if word.lower().endswith(".pdf")]
    if len(files) != 1:
        raise UsageError(
            "Name one file that ends in .pdf, such as slip.pdf.",
            hint="Read more with: seedbox test slip --help",
        )
    return whole_codes([word for word in words if word != files[0]]), Path(files[0])


@seedbox_command("slip", short_help="Write the slip for the bag of a test as a PDF.")
@click.argument(
    "what",
    nargs=-1,
    required=True,
    metavar="[TEST]... FILE.pdf",
    callback=_codes_and_file,
    shell_complete=completing.tests,
)
@click.option("--sheet", type=WORDS, help="Which label sheet; plain paper to cut as it is.")
@click.option("--start", type=Whole("number", 1), default=1, help="First free label of the sheet.")
@click.option("--outlines/--no-outlines", default=True, help="Draw lines to cut along, or do not.")
@click.option("--length", type=Whole("mm", 10, 2000), help="Length of a label on a roll, in mm.")
@handing_over_options
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    what: tuple[list[str], Path],
    opened: bool,
    sent: bool,
    as_json: bool,
    **given: Any,
) -> None:
    """Write slips for the tests TEST to FILE.pdf, one for each replicate; without TEST, for all
    that run. Each carries the test's code, the days of its counts, and blanks to write in.

    \b
    seedbox test slip T18MQ0D8 slip.pdf
    """
    from seedbox.cli.slips import print_slips, report_slips, tests_for

    codes, file = what
    with session.tin() as tin:
        printed = print_slips(tin, tests_for(tin, codes), file, given)
    report_slips(printed, as_json)
    hand_over(file, opened=opened, sent=sent)
