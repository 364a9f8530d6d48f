"""Files named in a form: where they may be written, and names offered while one types."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

from seedbox.errors import UsageError

PARTED = ";"
_HEAD_BYTES = 200


def refuse_other_file(path: Path, sign: bytes) -> None:
    """Refuses a place where no file can go. A file that is there already must bear the `sign` of
    its kind in its first bytes to be written anew.
    """
    if path.is_dir():
        raise UsageError(f"{path} is a folder: name a file in it.")
    if not path.parent.is_dir():
        raise UsageError(f"There is no folder {path.parent} to write {path.name} into.")
    try:
        if path.is_file() and path.stat().st_size and sign not in _head(path):
            raise UsageError(f"{path} exists and is another file; it is left alone.")
    except OSError as error:
        raise UsageError(f"{path} cannot be looked at: {error.strerror}.") from error


def _head(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(_HEAD_BYTES)


def files_named(text: str) -> list[str]:
    """The names in a field, parted by semicolons, each once.

    >>> files_named("maud.csv; lists/iestyn.json;maud.csv; ")
    ['maud.csv', 'lists/iestyn.json']
    """
    return list(dict.fromkeys(filter(None, (part.strip() for part in text.split(PARTED)))))


class FileNames:
    """Names of files with certain endings, and of folders, offered for the last name typed."""

    def __init__(self, endings: Iterable[str]) -> None:
        self._endings = frozenset(endings)

    def __call__(self, typed: str) -> list[tuple[str, str]]:
        before, parted, last = typed.rpartition(PARTED)
        start = f"{before}{parted} " if parted else ""
        return [(f"{start}{name}", remark) for name, remark in self._beginning(last.strip())]

    def _beginning(self, begun: str) -> list[tuple[str, str]]:
        folder, slash, start = begun.rpartition("/")
        found = []
        try:
            with os.scandir(Path(f"{folder}{slash}" or ".").expanduser()) as entries:
                for entry in entries:
                    if not entry.name.casefold().startswith(start.casefold()):
                        continue
                    if not entry.name.isprintable() or (entry.name[0] == "." and not start):
                        continue
                    if entry.is_dir():
                        found.append((f"{folder}{slash}{entry.name}/", "folder"))
                    elif Path(entry.name).suffix.lower() in self._endings:
                        found.append((f"{folder}{slash}{entry.name}", ""))
        except (OSError, RuntimeError, ValueError):
            return []  # half a name is no fault while one types
        return sorted(found)
