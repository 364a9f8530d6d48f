"""`labels measured`: what a ruler says of the printed page, kept as the printer's correction."""

from __future__ import annotations

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import changed, warn
from seedbox.cli.params import Number
from seedbox.cli.session import Session

_MM = Number("mm", 0, 400)


@seedbox_command("measured", short_help="Say what you measured on that page; labels follow.")
@click.option("--left", type=_MM, help="From the left edge of the paper to the first cross.")
@click.option("--top", type=_MM, help="From the upper edge of the paper to the first cross.")
@click.option("--across", type=_MM, help="From the first cross to the one on its right.")
@click.option("--down", type=_MM, help="From the first cross to the one below it.")
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    left: float | None,
    top: float | None,
    across: float | None,
    down: float | None,
    as_json: bool,
) -> None:
    """Say what you measured on the page of `seedbox labels calibrate`, in mm. From then on labels
    are moved and stretched so that they land true; what you do not say stays as it was.

    \b
    seedbox labels measured --left 30.5 --top 29 --across 149.5 --down 220
    """
    from seedbox.cli.printer import as_settings
    from seedbox.printing.measuring import Measured, correction, correction_of, looks_fitted
    from seedbox.tin.settings import set_settings

    with session.tin(create=True) as tin:
        before = correction_of(tin.settings())
        found = correction(Measured(left, top, across, down), before)
        set_settings(tin, as_settings(found), "Measured the printer")
    if looks_fitted(found):
        warn(
            "That is more than printers stretch a page: it may have been made to fit the paper. "
            "Print it again at 100 % (“actual size”) and measure once more."
        )
    told = (
        f"Labels are now moved {_moved(found.offset_x_mm, 'right', 'left')} and "
        f"{_moved(found.offset_y_mm, 'down', 'up')}, and drawn {_stretched(found.scale_x)} across "
        f"and {_stretched(found.scale_y)} down."
    )
    changed(told, as_json=as_json, **{name: float(value) for name, value in
                                      as_settings(found).items()})  # fmt: skip


def _moved(offset: float, forward: str, back: str) -> str:
    return f"{abs(offset):g} mm {forward if offset >= 0 else back}"


def _stretched(scale: float) -> str:
    """The size at which they are drawn, so that they come out right."""
    return f"at {100 / scale:.2f} %"
