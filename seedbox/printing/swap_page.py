"""A swap list on paper: portions to give away, with codes that scan, on A4 or Letter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from seedbox.printing.coded_list import CodedColumn, CodedList, CodedRow, print_coded_list
from seedbox.printing.content import Printed

_COLUMNS = (
    CodedColumn("crop", 26.0),
    CodedColumn("variety", 28.0),
    CodedColumn("harvest", 13.0),
    CodedColumn("germination", 38.0),
    CodedColumn("portions", 15.0, right=True),
    CodedColumn("seeds each", 18.0, right=True),
)
_FOOT = "Check your own local law before you pass seed on."


@dataclass(frozen=True, slots=True)
class SwapRow:
    """One offer in words, nothing private among them. `seeds` is of one portion, `year` that of
    harvest; what is not known is empty.
    """

    code: str
    crop: str
    variety: str = ""
    portions: int = 1
    seeds: str = ""
    germination: str = ""
    year: str = ""
    cautions: tuple[str, ...] = ()


def draw_swap_list(
    path: Path,
    title: str,
    rows: Sequence[SwapRow],
    page: str,
    on: date | str,
    *,
    dpi: int = 300,
    proof: bool = True,
) -> Printed:
    """Writes the list as a PDF and reads its codes back; `page` is a4 or letter, `on` the day.

    Raises UsageError where no PDF can be written, BadDataError for what no code can hold.
    """
    portions = sum(row.portions for row in rows)
    note = f"{on}. {portions} {'portion' if portions == 1 else 'portions'} of {_kinds(len(rows))}."
    listed = CodedList(
        title,
        note,
        _COLUMNS,
        tuple(_listed(row) for row in rows),
        foot=_FOOT,
        empty="Nothing is offered.",
    )
    return print_coded_list(listed, path, page=page, dpi=dpi, proof=proof)


def _kinds(count: int) -> str:
    return f"{count} {'packet' if count == 1 else 'packets'}"


def _listed(row: SwapRow) -> CodedRow:
    words = (row.crop, row.variety, row.year, row.germination, str(row.portions), row.seeds)
    return CodedRow(row.code, words, row.cautions)
