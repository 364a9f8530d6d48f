"""What a file is, told from its first bytes, before SQLite is allowed to touch it."""

from __future__ import annotations

from pathlib import Path

from seedbox.errors import TinError
from seedbox.tin.frozen import record
from seedbox.tin.schema import APPLICATION_ID

# SQLite database file format, section 1.3 "The Database Header".
_MAGIC = b"SQLite format 3\x00"
_HEADER_BYTES = 100
_WRITE_VERSION_AT, _WAL = 18, 2
_USER_VERSION_AT = 60
_APPLICATION_ID_AT = 68


@record
class Header:
    """The marks of a tin: which layout it has, and whether it writes ahead."""

    version: int
    writes_ahead: bool


def read_header(path: Path) -> Header:
    """Reads and judges the first 100 bytes; anything but a writable tin is a `TinError`."""
    first = _first_bytes(path)
    if not first:
        raise TinError(f"{path} is empty: it holds no tin.", hint="Remove it, or use a backup.")
    if not first.startswith(_MAGIC):
        raise TinError(f"{path} is not a tin: it is some other kind of file.")
    if len(first) < _HEADER_BYTES:
        raise TinError(f"{path} is damaged: its end is missing.", hint="Go back to a backup.")
    if _number(first, _APPLICATION_ID_AT) != APPLICATION_ID:
        raise TinError(f"{path} is not a tin: it is a database of another program.")
    return Header(_number(first, _USER_VERSION_AT), first[_WRITE_VERSION_AT] == _WAL)


def _first_bytes(path: Path) -> bytes:
    try:
        # Asking to write, without writing, is the honest test of whether one may.
        with path.open("r+b") as file:
            return file.read(_HEADER_BYTES)
    except FileNotFoundError as error:
        raise _missing(path) from error
    except IsADirectoryError as error:
        raise TinError(f"{path} is a folder, not a tin.", hint="Name a file in it.") from error
    except PermissionError as error:
        raise _not_allowed(path) from error
    except OSError as error:
        raise TinError(f"{path} could not be read: {error.strerror}.") from error


def _missing(path: Path) -> TinError:
    if not path.parent.is_dir():
        return TinError(f"There is no folder {path.parent}, so there is no tin in it.")
    return TinError(f"There is no tin at {path}.")


def _not_allowed(path: Path) -> TinError:
    if path.is_dir():  # Windows reports a folder as a matter of permission
        return TinError(f"{path} is a folder, not a tin.", hint="Name a file in it.")
    try:
        with path.open("rb"):
            pass
    except OSError:
        return TinError(f"You have no permission to read {path}.")
    return TinError(
        f"{path} may only be read, and a tin must be writable.",
        hint="Change the permissions of the file, or work on a copy.",
    )


def _number(header: bytes, at: int) -> int:
    return int.from_bytes(header[at : at + 4], "big")
