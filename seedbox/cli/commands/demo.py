"""`demo`: an invented garden's tin, printed, labelled, and ready to be opened."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.session import Session

DEMO_DAY = date(2027, 2, 20)  # the day on which sample_data is set; its README says the same


@seedbox_command("demo")
@click.option(
    "--into",
    "folder",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path("seedbox-demo"),
    show_default=True,
    help="The folder to make; one that is not a demo's own is never touched.",
)
@click.pass_obj
def command(session: Session, folder: Path) -> None:
    """Make the tin of an invented garden, show what is in it, and print labels.

    It is made afresh each time, as of a fixed day, so that it always tells the same.
    """
    from seedbox.cli.demo_folder import make
    from seedbox.cli.demo_tour import tour

    tour(make(folder, DEMO_DAY))
