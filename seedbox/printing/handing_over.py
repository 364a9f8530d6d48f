"""A finished file handed to the system's own program: opened on the screen, or sent to the printer.

A path is data: the command gets it as one argument of a list, made absolute so that no name can
be taken for an option, and no shell ever sees it.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import IO

from seedbox.errors import SeedboxError

_LONGEST_REASON = 200


@dataclass(frozen=True, slots=True)
class _Task:
    """What is to be done with a file: the commands that may do it, the first that there is."""

    commands: tuple[tuple[str, ...], ...]
    does: str
    otherwise: str
    patience_s: float
    may_stay: bool
    verb: str

    def hint(self, path: Path) -> str:
        return f"The file is there. {self.otherwise}: {path}"


def _opening() -> _Task:
    command = "open" if sys.platform == "darwin" else "xdg-open"
    # A viewer may stay in the foreground: that is no failure, and is not waited for.
    return _Task(((command,),), "opens files", "Open it yourself", 3.0, True, "open")


def _printing() -> _Task:
    # `lp` is of POSIX (IEEE Std 1003.1); print-scaling is the attribute of PWG 5100.16 that keeps
    # 100 %. A system that does not know it leaves it aside.
    options = ("-o", "print-scaling=none")
    otherwise = "Open it, and print it from there at 100 %"
    return _Task(
        (("lp", *options), ("lpr", *options)), "prints files", otherwise, 60.0, False, "print"
    )


def open_file(path: Path) -> None:
    """Shows a file in the program that the system uses for its kind.

    Raises SeedboxError when there is no command for it, or when that says that it failed.
    """
    _hand_over(_opening(), path)


def print_file(path: Path) -> None:
    """Sends a PDF to the usual printer at 100 %; raises SeedboxError as `open_file` does."""
    _hand_over(_printing(), path)


def _hand_over(task: _Task, path: Path) -> None:
    if sys.platform == "win32":
        _by_windows(task, path)
        return
    for command in task.commands:
        program = shutil.which(command[0])
        if program is not None:
            _run(task, [program, *command[1:], str(path.resolve())], path)
            return
    names = " or ".join(command[0] for command in task.commands)
    raise SeedboxError(
        f"There is no command here that {task.does} ({names}).", hint=task.hint(path)
    )


def _run(task: _Task, arguments: Sequence[str], path: Path) -> None:
    name = Path(arguments[0]).name
    # Not a pipe: a viewer that the command leaves behind would hold it open.
    with tempfile.TemporaryFile() as told:
        try:
            code = _ended(task, arguments, told)
        except OSError as error:
            sentence = f"{name} could not be started: {error.strerror}."
            raise SeedboxError(sentence, hint=task.hint(path)) from error
        except subprocess.TimeoutExpired as error:
            if task.may_stay:
                return
            sentence = f"{name} has not ended after {task.patience_s:g} seconds."
            raise SeedboxError(sentence, hint=task.hint(path)) from error
        if code != 0:
            sentence = f"{name} did not take {path.name}. {_reason(told, code)}"
            raise SeedboxError(sentence, hint=task.hint(path))


def _ended(task: _Task, arguments: Sequence[str], told: IO[bytes]) -> int:
    """The exit code; in a session of its own, so that Ctrl+C here does not close the viewer."""
    running = subprocess.Popen(
        arguments,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=told,
        start_new_session=True,
    )
    return running.wait(timeout=task.patience_s)


def _reason(told: IO[bytes], code: int) -> str:
    told.seek(0)
    words = " ".join(told.read(4 * _LONGEST_REASON).decode(errors="replace").split())
    return f"It said: {words[:_LONGEST_REASON]}" if words else f"It ended with {code}."


def _by_windows(task: _Task, path: Path) -> None:
    """Windows has no command for it, but a call."""
    start = getattr(os, "startfile")  # noqa: B009  (no other system has it)
    try:
        start(str(path.resolve()), task.verb)
    except OSError as error:
        sentence = f"Windows could not {task.verb} {path.name}: {error.strerror}."
        raise SeedboxError(sentence, hint=task.hint(path)) from error
