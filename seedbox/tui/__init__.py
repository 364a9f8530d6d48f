"""Screens over the tin, for a terminal. Everything here can be done by a command too."""

from __future__ import annotations

from datetime import date
from pathlib import Path


def run(tin_path: Path, today: date, *, mouse: bool = True) -> None:
    """Open the screens over a tin; a missing one is made when the first thing is saved.

    `mouse` False leaves the mouse to the terminal, for selecting text with it.
    """
    import gc
    import sys

    # Nothing made while starting becomes rubbish soon: collecting would only delay the first page.
    # The first page turns it on again when it has been painted.
    gc.disable()
    # While a thread forecasts, a key is answered after at most a thousandth of a second.
    sys.setswitchinterval(0.001)
    from seedbox.tui.app import SeedboxApp

    app = SeedboxApp(Path(tin_path), today)
    app.run(mouse=mouse)
    if app.return_code:
        raise SystemExit(app.return_code)
