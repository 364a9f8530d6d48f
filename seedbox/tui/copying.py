"""Copying out: the system's own clipboard program first, then the terminal's escape sequence."""

from __future__ import annotations

import shutil
import subprocess
from typing import Any

from textual.app import App

# Each reads standard input. Which of them works depends on the desktop, so all are tried in turn.
_PROGRAMS = (
    ("wl-copy",),
    ("xclip", "-selection", "clipboard"),
    ("xsel", "--clipboard", "--input"),
    ("pbcopy",),
    ("clip.exe",),
)


def copy(app: App[Any], text: str) -> str:
    """Copy `text`; returns a sentence that claims no more than is known."""
    for program in _PROGRAMS:
        if shutil.which(program[0]) and _given_to(program, text):
            return f"{text} was handed to {program[0]}, the system's clipboard."
    app.copy_to_clipboard(text)
    return f"{text} was sent to the terminal's clipboard. Not every terminal takes it."


def _given_to(program: tuple[str, ...], text: str) -> bool:
    try:
        done = subprocess.run(
            program,
            input=text.encode(),
            timeout=1.5,
            check=False,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
    except (OSError, subprocess.TimeoutExpired):
        return False
    return done.returncode == 0
