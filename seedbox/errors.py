"""The few ways in which a command can fail, each with its exit code.

Faults in a person's data (a bad row, an impossible date) are values, see `seedbox.problems`;
an exception is raised only when the work asked for cannot be done at all.
"""

from __future__ import annotations

from enum import IntEnum


class ExitCode(IntEnum):
    """What the shell is told. README documents the same list; a test compares them."""

    DONE = 0
    NOT_DONE = 1
    USAGE = 2
    NOT_FOUND = 3
    BAD_DATA = 4
    TIN = 5
    UNREADABLE_CODE = 6


class SeedboxError(Exception):
    """A sentence for the person and an exit code for the shell."""

    exit_code: ExitCode = ExitCode.NOT_DONE

    def __init__(self, sentence: str, *, hint: str = "") -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.hint = hint


class UsageError(SeedboxError):
    """What was asked makes no sense as it stands: options that exclude each other, a bad date."""

    exit_code = ExitCode.USAGE


class NotFoundError(SeedboxError):
    """A packet, crop, store, sheet or design that does not exist; `hint` names near misses."""

    exit_code = ExitCode.NOT_FOUND


class BadDataError(SeedboxError):
    """A file or a figure that cannot be used: says which, where and why."""

    exit_code = ExitCode.BAD_DATA


class TinError(SeedboxError):
    """The tin file itself: missing, locked, damaged, newer than this program."""

    exit_code = ExitCode.TIN


class UnreadableCodeError(SeedboxError):
    """A printed page on which a code could not be read back."""

    exit_code = ExitCode.UNREADABLE_CODE
