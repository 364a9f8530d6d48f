"""`labels calibrate`: a page that shows how far a printer moves and stretches what it prints."""

from __future__ import annotations

from pathlib import Path

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.handing_over import hand_over, handing_over_options
from seedbox.cli.output import say, say_json
from seedbox.cli.params import Choice
from seedbox.cli.session import Session

_PAGE = Choice("paper", ("a4", "letter"))


@seedbox_command("calibrate", short_help="Write a page that shows how true the printer is.")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--page", type=_PAGE, help="a4 or letter; as in the settings where you do not say.")
@click.option("--corrected", is_flag=True, help="Draw it corrected, to check what was measured.")
@handing_over_options
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    file: Path,
    page: str | None,
    corrected: bool,
    opened: bool,
    sent: bool,
    as_json: bool,
) -> None:
    """Write a page with crosses and rulers to FILE. Print it at 100 %, measure four lengths with a
    ruler, and say them with `seedbox labels measured`: labels then land where they should.
    """
    from seedbox.printing.calibration import draw_calibration
    from seedbox.printing.measuring import correction_of
    from seedbox.tin.preferences import Settings

    settings = Settings()
    if session.tin_path.exists():
        with session.tin() as tin:
            settings = tin.settings()
    now = correction_of(settings) if corrected else None
    draw_calibration(file, page=page or settings.page, corrected=now)
    if as_json:
        say_json({"path": str(file), "corrected": corrected})
    else:
        say(f"Wrote the page to {file}. Print it at 100 %, and measure.")
        if not corrected:
            say("Then say what you measured: seedbox labels measured -h")
    hand_over(file, opened=opened, sent=sent)
