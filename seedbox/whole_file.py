"""A file written all or nothing: beside its place first, then put into it."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from seedbox.errors import UsageError


@contextmanager
def beside(path: Path) -> Iterator[Path]:
    """An empty file in the same folder to write into; it takes the place of `path` at the end, or
    is gone when anything went wrong. Raises UsageError where the folder cannot be written.
    """
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except OSError as e:
        raise UsageError(f"{path} cannot be written: {e.strerror}.") from e
    os.close(handle)
    made = Path(name)
    try:
        yield made
        made.chmod(0o644)
        made.replace(path)
    except OSError as e:
        raise UsageError(f"{path} cannot be written: {e.strerror}.") from e
    finally:
        made.unlink(missing_ok=True)


def write_whole(path: Path, data: bytes) -> None:
    """All of the file or nothing. Raises UsageError where it cannot be written."""
    with beside(path) as made:
        made.write_bytes(data)
