"""Source keys of the data files, spelled out."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from seedbox.almanac.tables import rows


@cache
def _texts() -> dict[str, str]:
    return {row["source"]: row["text"] for row in rows("sources")}


def spell(keys: str) -> str:
    """`A;B` as the full names of both sources. An unknown key is a fault in the data files."""
    return "; ".join(_texts()[key] for key in keys.split(";"))


def spell_all(cells: Iterable[str]) -> str:
    """Several source cells as one text, each source named once, in order."""
    return spell(";".join(dict.fromkeys(key for cell in cells for key in cell.split(";"))))
