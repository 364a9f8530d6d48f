"""Where `labels/` and `sample_data/` lie: beside the package in a checkout, in it in a wheel."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def labels_dir() -> Path:
    """Folder of sheets, designs and fonts that came with Seedbox."""
    return _shipped("labels")


def sample_data_dir() -> Path:
    """Folder of the demo tin as plain files."""
    return _shipped("sample_data")


def _shipped(name: str) -> Path:
    packed = _PACKAGE / f"_{name}"
    return packed if packed.is_dir() else _PACKAGE.parent / name
