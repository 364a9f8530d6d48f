"""A swap list on paper: portions to give away with codes that scan, and what is looked for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from seedbox.printing.coded_list import CodedColumn, CodedList, CodedRow, print_coded_list
from seedbox.printing.content import Printed
from seedbox.printing.measuring import Correction

_COLUMNS = (
    CodedColumn("crop", 26.0),
    CodedColumn("variety", 28.0),
    CodedColumn("year", 13.0),
    CodedColumn("germination", 38.0),
    CodedColumn("portions", 15.0, right=True),
    CodedColumn("seeds each", 18.0, right=True),
)
_FOOT = "Check your own local law before you pass seed on."


@dataclass(frozen=True, slots=True)
class SwapRow:
    """One offer in words, nothing private among them. `seeds` is of one portion, `year` that of
    harvest, else as `packed 2025`; what is not known is empty.
    """

    code: str
    crop: str
    variety: str = ""
    portions: int = 1
    seeds: str = ""
    germination: str = ""
    year: str = ""
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WantRow:
    """One want in words; `variety` is empty where any will do, `worth` as `worth 4 of 5`."""

    crop: str
    variety: str = ""
    portions: int = 1
    worth: str = ""


def draw_swap_list(
    path: Path,
    title: str,
    rows: Sequence[SwapRow],
    page: str,
    on: date | str,
    *,
    wants: Sequence[WantRow] = (),
    dpi: int = 300,
    proof: bool = True,
    corrected: Correction | None = None,
) -> Printed:
    """Writes the list as a PDF and reads its codes back; `page` is a4 or letter, `on` the day.

    The wants follow under a heading of their own. `corrected` is what was measured of the printer.

    Raises UsageError where no PDF can be written, BadDataError for what no code can hold.
    """
    portions = sum(row.portions for row in rows)
    note = f"{on}. {_count(portions, 'portion')} of {_count(len(rows), 'packet')}"
    looked_for = f", {_count(len(wants), 'want')}" if wants else ""
    listed = CodedList(
        title,
        f"{note}{looked_for}.",
        _COLUMNS,
        (*map(_listed, rows), *(_wanted(want, at) for at, want in enumerate(wants))),
        foot=_FOOT,
        empty="Nothing is offered.",
    )
    return print_coded_list(listed, path, page=page, dpi=dpi, proof=proof, corrected=corrected)


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _listed(row: SwapRow) -> CodedRow:
    words = (row.crop, row.variety, row.year, row.germination, str(row.portions), row.seeds)
    return CodedRow(row.code, words, row.cautions)


def _wanted(want: WantRow, at: int) -> CodedRow:
    """In the columns of the offers, the worth where germination stands there."""
    words = (want.crop, want.variety or "any", "", want.worth, str(want.portions), "")
    return CodedRow("", words, above="" if at else "Looked for")
