"""`export`: the whole tin, or its packets, as files that other programs read."""

from __future__ import annotations

from pathlib import Path

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.lookup import crop_book
from seedbox.cli.output import say, say_json
from seedbox.cli.session import Session
from seedbox.cli.words import count

_FORMATS = ("csv", "json", "xlsx")


@seedbox_command("export")
@click.argument("path", type=click.Path(path_type=Path))
@click.option("--format", "form", type=click.Choice(_FORMATS), help="If the ending does not tell.")
@click.option("--force", is_flag=True, help="Write over a file that is no export.")
@json_option
@click.pass_obj
def command(session: Session, path: Path, form: str | None, force: bool, as_json: bool) -> None:
    """Write the tin to PATH: .json or .xlsx (all of it), .csv (packets), or a folder of CSV.

    What .json, .xlsx and a folder hold can be imported again and gives an equal tin.
    """
    from seedbox.tin.exchange.exporting import export

    with session.tin() as tin:
        packets = len(tin.packets())
        files = export(tin, path, format=form, force=force, name_of_crop=crop_book(tin).name)
    if as_json:
        say_json({"path": str(path), "packets": packets, "files": [str(file) for file in files]})
    else:
        parts = f" in {count(len(files), 'file')}" if len(files) > 1 else ""
        say(f"Wrote {count(packets, 'packet')} to {path}{parts}.")
