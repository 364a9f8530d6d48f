"""The file that a form names."""

from __future__ import annotations

from pathlib import Path

from seedbox.tui.field_values import FieldReader


def file_named(reader: FieldReader) -> Path:
    """What stands in the field `file`."""
    return reader.path()
