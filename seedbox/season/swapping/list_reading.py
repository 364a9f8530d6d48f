"""Reading other people's swap lists: validated as any import, row by row, and nothing guessed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from seedbox.errors import BadDataError
from seedbox.problems import Problem
from seedbox.season.crops import CropBook
from seedbox.season.swapping import list_fields as cells
from seedbox.season.swapping.list_fields import COLUMN_OF, KNOWN, Col
from seedbox.season.swapping.records import USUAL_WORTH, Germination, Offer, SwapList, Wish
from seedbox.season.swapping.words import understood
from seedbox.tin.exchange import texts, words
from seedbox.tin.exchange.amounts import exact_percent, percent
from seedbox.tin.exchange.dates import Reader
from seedbox.tin.exchange.headers import folded
from seedbox.tin.exchange.neutral import shown
from seedbox.tin.exchange.reading import read_table
from seedbox.tin.exchange.sheet import Sheet
from seedbox.tin.exchange.table import Table
from seedbox.tin.records import Treatment

MOST_ROWS = 5_000
_LONGEST_NAME = 80
_PERCENTS = (Col.MEAN, Col.LOW, Col.HIGH, Col.PRINTED)


@dataclass(frozen=True, slots=True)
class ReadList:
    """A list as it was understood. `problems` name rows that were left out, `notes` what was
    assumed.
    """

    swap_list: SwapList
    problems: tuple[Problem, ...] = ()
    notes: tuple[str, ...] = ()


def read_list(
    path: Path,
    book: CropBook,
    today: date,
    *,
    month_first: bool = False,
) -> ReadList:
    """Reads a list from CSV, XLSX or JSON.

    `month_first` says how 3/4/2026 is read. Raises NotFoundError or BadDataError with a sentence
    where there is no list to read. A row that cannot be read is left out and said; an unknown
    crop keeps its own words.
    """
    path = Path(path)
    from seedbox.season.swapping.list_json import is_json, read_json, refuse_folder

    refuse_folder(path)
    if is_json(path):
        return read_json(path, book, today)
    table = read_table(path, known=KNOWN)
    try:
        found = read_rows(table, book, date_reader(today, month_first))
    except BadDataError as fault:
        raise BadDataError(f"{path.name}: {fault.sentence}", hint=fault.hint) from fault
    return named_after(path, found)


def date_reader(today: date, month_first: bool = False) -> Reader:
    """Reads dates of other people, for some of whom it may be tomorrow already."""
    return Reader(today + timedelta(days=1), month_first)


def read_rows(table: Table, book: CropBook, dates: Reader, where: str = "") -> ReadList:
    """The offers and wants of a table. `where` names the part of a document that it is."""
    at = _columns(table)
    if Col.CROP not in at and Col.CROP_ID not in at:
        headings = ", ".join(filter(None, table.headers)) or "none"
        raise BadDataError(
            f"No column names the crop; the headings are: {headings[:200]}.",
            hint="Call it crop, and the others as in: seedbox swap list --columns",
        )
    sheet = Sheet(table, at, where)
    sheet.note_faulty_rows()
    if len(sheet.rows) > MOST_ROWS:
        raise BadDataError(f"The list has {len(sheet.rows):,} rows; {MOST_ROWS:,} are the most.")
    values = _values(sheet, dates)
    entries = [
        _entry({column: values[column][place] for column in Col}, book)
        for place in range(len(sheet.rows))
        if _whole_row(sheet, values, place)
    ]
    offers = tuple(entry for entry in entries if isinstance(entry, Offer))
    wishes = tuple(entry for entry in entries if isinstance(entry, Wish))
    listed = SwapList(
        _first(values[Col.GROWER]),
        offers,
        wishes,
        _first(values[Col.MADE_ON]) or None,
        _first(values[Col.TOWN]),
    )
    notes = (*table.notes, *_one_grower(values[Col.GROWER]), *_unknown(entries))
    return ReadList(listed, tuple(sheet.problems()), notes)


def _columns(table: Table) -> dict[Col, int]:
    """Where each column lies, by the heading that names it best."""
    ranked = [
        (found[1], index, found[0])
        for index, heading in enumerate(table.headers)
        if (found := _column(heading)) is not None
    ]
    at: dict[Col, int] = {}
    for _, index, column in sorted(ranked):
        at.setdefault(column, index)
    what = at.get(Col.WHAT)
    if what is not None and not _tells_what(table, what, beside_crop=Col.CROP in at):
        del at[Col.WHAT]
        at.setdefault(Col.CROP, what)
    return at


def _column(heading: str) -> tuple[Col, int] | None:
    bare, _, bracket = heading.partition("(")
    return COLUMN_OF.get(folded(heading)) or (COLUMN_OF.get(folded(bare)) if bracket else None)


def _tells_what(table: Table, index: int, *, beside_crop: bool) -> bool:
    """Whether a column tells offers from wants. Beside one that names the crop, a single such word
    shows it, and what else it holds is a fault; alone, a column “What” may well be the crop.
    """
    filled = [row[index] for row in table.rows if index < len(row) and row[index].strip()]
    said = [cells.is_what(text) for text in filled]
    return any(said) or not said if beside_crop else all(said)


def _values(sheet: Sheet, dates: Reader) -> dict[Col, list[Any]]:
    """Every column read; what cannot be read is noted with its row."""
    readers: dict[Col, tuple[Any, Any]] = {
        Col.WHAT: (cells.what, cells.OFFER),
        Col.CODE: (cells.code, ""),
        Col.CROP: (cells.crop, ""),
        Col.CROP_ID: (texts.line, ""),
        Col.VARIETY: (texts.line, ""),
        Col.PORTIONS: (cells.portions, 1),
        Col.SEEDS: (cells.seeds, None),
        Col.TESTED_ON: (dates.past_day, None),
        Col.TESTED_SEEDS: (cells.seeds, None),
        Col.GERMINATED: (cells.counted, None),
        Col.PRINTED_ON: (dates.past_day, None),
        Col.HARVEST: (dates.year, None),
        Col.PACKED: (dates.year, None),
        Col.TREATMENT: (words.treatment, Treatment.NONE),
        Col.HYBRID: (words.yes_or_no, False),
        Col.CAUTIONS: (cells.cautions, ()),
        Col.WORTH: (cells.worth, USUAL_WORTH),
        Col.GROWER: (_name, ""),
        Col.TOWN: (_name, ""),
        Col.MADE_ON: (lambda text: dates.period(text)[0], None),
        Col.NOTE: (texts.note, ""),
    }
    for column in _PERCENTS:
        readers[column] = (_percent_reader(sheet, column), None)
    return {column: sheet.read(column, *readers[column]) for column in Col}


def _percent_reader(sheet: Sheet, column: Col) -> Any:
    """0.5 is half a per cent under our own heading; under others it may be half of the seed."""
    index = sheet.at.get(column)
    ours = index is not None and folded(sheet.heading(index)) == folded(column.value)
    return exact_percent if ours else percent


def _name(text: str) -> str:
    return texts.line(text, _LONGEST_NAME)


def _whole_row(sheet: Sheet, values: dict[Col, list[Any]], place: int) -> bool:
    """Whether a row can be used; what only the whole row tells is noted here."""
    if sheet.faults.get(place):
        return False
    sentence, column = _row_fault({column: values[column][place] for column in Col})
    if not sentence:
        return True
    index = sheet.at.get(column)
    sheet.fault(place, sentence, "" if index is None else sheet.heading(index))
    return False


def _row_fault(row: dict[Col, Any]) -> tuple[str, Col]:
    low, mean, high = row[Col.LOW], row[Col.MEAN], row[Col.HIGH]
    known = [share for share in (low, mean, high) if share is not None]
    if not row[Col.CROP] and not row[Col.CROP_ID]:
        return "The crop is empty.", Col.CROP
    if known != sorted(known):
        return "The lowest, expected and highest germination must rise in that order.", Col.MEAN
    seeds, germinated = row[Col.TESTED_SEEDS], row[Col.GERMINATED]
    if germinated is not None and (seeds is None or germinated > seeds):
        return "More seeds germinated than were tested.", Col.GERMINATED
    return "", Col.CROP


def _entry(row: dict[Col, Any], book: CropBook) -> Offer | Wish:
    name = row[Col.CROP] or row[Col.CROP_ID]
    crop, crop_id = understood(name, row[Col.CROP_ID], book)
    if row[Col.WHAT] == cells.WANT:
        return Wish(crop, crop_id, row[Col.VARIETY], row[Col.PORTIONS], row[Col.WORTH])
    return Offer(
        code=row[Col.CODE],
        crop=crop,
        crop_id=crop_id,
        variety=row[Col.VARIETY],
        portions=row[Col.PORTIONS],
        seeds_per_portion=row[Col.SEEDS],
        germination=Germination(
            row[Col.MEAN],
            row[Col.LOW],
            row[Col.HIGH],
            row[Col.TESTED_ON],
            row[Col.TESTED_SEEDS],
            row[Col.GERMINATED],
            row[Col.PRINTED],
            row[Col.PRINTED_ON],
        ),
        harvest_year=row[Col.HARVEST],
        treatment=row[Col.TREATMENT],
        hybrid=row[Col.HYBRID],
        cautions=row[Col.CAUTIONS],
        packed_year=row[Col.PACKED],
        note=row[Col.NOTE],
    )


def _first(column: Sequence[Any]) -> Any:
    return next((value for value in column if value), "")


def _one_grower(names: Sequence[str]) -> list[str]:
    """A list is one person's: rows of others would be taken for theirs."""
    people = tuple(dict.fromkeys(filter(None, names)))
    if len(people) < 2:
        return []
    said = f"Its rows name {len(people)} people; all of it is taken for the list of"
    return [f"{said} {shown(people[0])}. Write a file for each of them."]


def _unknown(entries: Sequence[Offer | Wish]) -> list[str]:
    """Crops that keep their own words, said once each."""
    names = dict.fromkeys(entry.crop for entry in entries if not entry.crop_id)
    return [
        f"{shown(name)} is no crop that Seedbox knows for sure; it matches equal words only."
        for name in names
    ]


def named_after(path: Path, found: ReadList) -> ReadList:
    """A list that does not say whose it is bears the name of its file; an empty one is said."""
    listed = found.swap_list
    if not (listed.offers or listed.wishes or found.problems):
        found = replace(found, notes=(*found.notes, "It holds neither offers nor wants."))
    if listed.name:
        return found
    listed = replace(listed, name=texts.line(path.stem[:_LONGEST_NAME]) or "a list")
    return replace(found, swap_list=listed)
