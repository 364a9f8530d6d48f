"""`labels`: a PDF of labels whose codes were read back before it is handed over."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from seedbox.cli.codes import refuse_code_as_file
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.filters import Chosen
from seedbox.cli.handing_over import hand_over, handing_over_options
from seedbox.cli.label_choice import label_options, wanted_labels
from seedbox.cli.label_jobs import printed_labels
from seedbox.cli.label_report import report
from seedbox.cli.proof_options import proof_options
from seedbox.cli.session import Session
from seedbox.errors import UsageError


@seedbox_command("write", short_help="Write labels; the word write may be left out.")
@click.argument("file", type=click.Path(path_type=Path), required=False)
@label_options
@proof_options
@click.option("--sheets", is_flag=True, help="List the label sheets and print nothing.")
@click.option("--designs", is_flag=True, help="List the designs and print nothing.")
@handing_over_options
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    file: Path | None,
    codes: list[str],
    chosen: Chosen,
    opened: bool,
    sent: bool,
    as_json: bool,
    **given: Any,
) -> None:
    """Write labels for packets to FILE as a PDF, and read every code back from it.

    Name the packets by CODE, or by the same filters as in `seedbox list`; without either, all
    packets that hold seed get a label. Print at 100 %, never "fit to page".

    The codes of running germination tests, or --design test alone, print slips for their bags.
    The codes of sowings, or --design tray alone, print labels for trays, pots and rows.

    \b
    seedbox labels new.pdf --tag new --sheet a4-24-64x34-gap --start 7
    """
    if given["sheets"] or given["designs"]:
        from seedbox.cli.label_stock import show_designs, show_sheets

        (show_sheets if given["sheets"] else show_designs)(as_json)
        return
    if file is None:
        raise UsageError(
            "Name the file to write, such as labels.pdf.", hint="Read more with: seedbox labels -h"
        )
    refuse_code_as_file(file, "labels.pdf")
    _refuse_word(file)
    wanted = wanted_labels(session, codes, chosen, given)
    report(printed_labels(wanted.settings, file, wanted.items, wanted.given), as_json)
    hand_over(file, opened=opened, sent=sent)


def _refuse_word(file: Path) -> None:
    """A mistyped word of this family would become the name of a file."""
    from difflib import get_close_matches

    above = click.get_current_context().parent
    family = above.command if above else None
    words = family.list_commands(above) if above and isinstance(family, click.Group) else []
    near = get_close_matches(str(file), words, n=1, cutoff=0.75)
    if near:
        raise UsageError(
            f"There is no command “{file}” here. Did you mean {near[0]}? "
            f"A file of that name is written as {file}.pdf."
        )
