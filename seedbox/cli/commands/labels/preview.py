"""`labels preview`: pictures of the pages that would be printed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.filters import Chosen
from seedbox.cli.handing_over import hand_over, opening_option
from seedbox.cli.label_choice import label_options, wanted_labels
from seedbox.cli.label_jobs import printed_labels
from seedbox.cli.label_pictures import report_pictures
from seedbox.cli.params import Whole
from seedbox.cli.proof_options import no_proof_option
from seedbox.cli.session import Session


@seedbox_command("preview", short_help="Write pictures of the pages, to look at first.")
@click.argument("file", metavar="FILE.png", type=click.Path(path_type=Path))
@label_options
@click.option("--dpi", type=Whole("number", 30, 600), default=150, help="Dots per inch to draw.")
@no_proof_option
@opening_option
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    file: Path,
    codes: list[str],
    chosen: Chosen,
    dpi: int,
    opened: bool,
    as_json: bool,
    **given: Any,
) -> None:
    """Write what `seedbox labels` would print as PNG pictures, with the same options.

    One page is written to FILE.png, several to FILE-1.png, FILE-2.png and so on.

    \b
    seedbox labels preview look.png --tag new --start 7
    """
    from seedbox.printing.pictures import check_folder, preview

    check_folder(file)
    wanted = wanted_labels(session, codes, chosen, given)
    printed = preview(
        lambda path: printed_labels(wanted.settings, path, wanted.items, wanted.given),
        file,
        dpi=dpi,
    )
    report_pictures(printed, file, "label", as_json)
    hand_over(printed.path, opened=opened)
