"""`backup`: one whole copy of the tin."""

from __future__ import annotations

from pathlib import Path

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json
from seedbox.cli.session import Session


@seedbox_command("backup")
@click.argument("file", type=click.Path(path_type=Path))
@json_option
@click.pass_obj
def command(session: Session, file: Path, as_json: bool) -> None:
    """Write a checked copy of the whole tin to FILE, which must not exist yet.

    The copy is a tin itself: open it with `seedbox --tin FILE`.
    """
    from seedbox.tin.backup import backup

    with session.tin() as tin:
        copy = backup(tin, file)
    if as_json:
        say_json({"copy": str(copy), "bytes": copy.stat().st_size})
    else:
        size = max(1, round(copy.stat().st_size / 1000))
        say(f"The tin was copied to {copy} ({size:,} kB) and the copy was checked.")
