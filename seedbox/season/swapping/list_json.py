"""Reading a swap list from JSON: the document becomes cells, which are read as those of a table."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from seedbox.errors import BadDataError
from seedbox.problems import Problem
from seedbox.season.crops import CropBook
from seedbox.season.swapping.list_fields import OFFER, PARTED, WANT, Col
from seedbox.season.swapping.list_reading import ReadList, date_reader, named_after, read_rows
from seedbox.season.swapping.list_writing import FORMAT, HEADER, VERSION
from seedbox.season.swapping.records import Offer
from seedbox.tin.exchange.dates import Reader
from seedbox.tin.exchange.decoding import decoded
from seedbox.tin.exchange.neutral import guarded
from seedbox.tin.exchange.reading import file_bytes
from seedbox.tin.exchange.shapes import percent_text
from seedbox.tin.exchange.table import Table

_GERMINATION = {
    "mean": Col.MEAN,
    "low": Col.LOW,
    "high": Col.HIGH,
    "tested_on": Col.TESTED_ON,
    "tested_seeds": Col.TESTED_SEEDS,
    "germinated": Col.GERMINATED,
    "printed": Col.PRINTED,
    "printed_on": Col.PRINTED_ON,
}
_SHARES = frozenset({"mean", "low", "high", "printed"})
_PLAIN = (
    Col.CODE, Col.CROP, Col.CROP_ID, Col.VARIETY, Col.PORTIONS, Col.SEEDS, Col.HARVEST, Col.PACKED,
    Col.TREATMENT, Col.HYBRID, Col.WORTH, Col.NOTE,
)  # fmt: skip


def is_json(path: Path) -> bool:
    """Whether a file is JSON, by what is in it."""
    if not path.is_file():
        return False
    with path.open("rb") as file:
        return file.read(200).lstrip(b"\xef\xbb\xbf \r\n\t").startswith((b"{", b"["))


def refuse_folder(path: Path) -> None:
    """A folder holds lists; which one of them is meant nobody can tell."""
    if path.is_dir():
        raise BadDataError(f"{path.name} is a folder, not a file.", hint="Name the file in it.")


def read_json(path: Path, book: CropBook, today: date) -> ReadList:
    """A list in the form that `swap_list.schema.json` describes. Raises BadDataError."""
    document = parsed(path, FORMAT, VERSION, "swap list")
    dates = date_reader(today)
    for name in ("offers", "wants"):
        if not isinstance(document.get(name, []), list):
            raise BadDataError(f"{path.name}: “{name}” must be a list in brackets.")
    found = [_part(document.get(name, []), name, book, dates) for name in ("offers", "wants")]
    offers, wants = (part.swap_list for part in found)
    faults: list[Problem] = []
    head = {key: _head(document, key, faults) for key in ("grower", "town", "made_on")}
    made = read_rows(_head_table(head), book, dates, "list")
    listed = replace(
        offers,
        name=made.swap_list.name,
        town=made.swap_list.town,
        made_on=made.swap_list.made_on,
        wishes=wants.wishes,
    )
    problems = (*faults, *made.problems, *(one for part in found for one in part.problems))
    notes = dict.fromkeys(note for part in found for note in part.notes)
    return named_after(path, ReadList(listed, problems, tuple(notes)))


def parsed(path: Path, form: str, version: int, what: str) -> dict[str, Any]:
    """A JSON object of one of our forms. Raises NotFoundError or BadDataError with a sentence."""
    refuse_folder(path)
    text = decoded(file_bytes(path), path.name).text
    try:
        document = json.loads(text, parse_constant=_no_number)
    except json.JSONDecodeError as fault:
        raise BadDataError(
            f"{path.name} is no JSON: line {fault.lineno} cannot be read.",
            hint="Take the file as Seedbox wrote it; it may have been cut short or edited.",
        ) from fault
    except (ValueError, RecursionError) as fault:
        raise BadDataError(f"{path.name} holds JSON that cannot be read: {_why(fault)}.") from fault
    if not isinstance(document, dict) or document.get("format") != form:
        raise BadDataError(f"{path.name} is no {what}: its “format” is not “{form}”.")
    if not isinstance(document.get("version"), int) or document["version"] > version:
        raise BadDataError(
            f"{path.name} was written by a newer Seedbox; this one reads version {version}."
        )
    return document


def _no_number(word: str) -> float:
    raise ValueError(f"{word} is no number")


def _why(fault: Exception) -> str:
    return "it is nested too deeply" if isinstance(fault, RecursionError) else str(fault)


def _head(document: Mapping[str, Any], key: str, faults: list[Problem]) -> str:
    return _cell(document.get(key), key, 0, "list", faults)


def _head_table(head: Mapping[str, str]) -> Table:
    """The head of the document as a row of an offer that is thrown away."""
    names = [Col.CROP.value, *head]
    return Table(names, [["list", *head.values()]], 1)


def _part(entries: Sequence[Any], name: str, book: CropBook, dates: Reader) -> ReadList:
    faults: list[Problem] = []
    rows = [_row(entry, name, number, faults) for number, entry in enumerate(entries, 1)]
    bad = {fault.row for fault in faults}
    kept = [[] if number in bad else row for number, row in enumerate(rows, 1)]
    read = read_rows(Table(list(HEADER), kept, 1), book, dates, name)
    problems = sorted((*faults, *read.problems), key=lambda one: one.row)
    return replace(read, problems=tuple(problems))


def _row(entry: Any, name: str, number: int, faults: list[Problem]) -> list[str]:
    """One entry as cells in the order of the columns."""
    if not isinstance(entry, dict):
        faults.append(Problem("An entry must be an object in braces.", number, "", name))
        return []
    found = {Col.WHAT: OFFER if name == "offers" else WANT}
    for column in _PLAIN:
        found[column] = _cell(entry.get(column.value), column.value, number, name, faults)
    found[Col.CAUTIONS] = _cautions(entry.get("cautions"), number, name, faults)
    for key, column in _GERMINATION.items():
        found[column] = _germination(entry.get("germination"), key, number, name, faults)
    return [found.get(column, "") for column in Col]


def _germination(known: Any, key: str, number: int, name: str, faults: list[Problem]) -> str:
    if known is None:
        return ""
    if not isinstance(known, dict):
        if key == "mean":  # said once
            faults.append(Problem("It must be an object in braces.", number, "germination", name))
        return ""
    value = known.get(key)
    if key in _SHARES and isinstance(value, int | float) and not isinstance(value, bool):
        return percent_text(float(value))
    return _cell(value, f"germination {key}", number, name, faults)


def _cautions(value: Any, number: int, name: str, faults: list[Problem]) -> str:
    if value is None:
        return ""
    if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
        faults.append(Problem("It must be a list of texts.", number, "cautions", name))
        return ""
    return guarded(PARTED.join(value))


def _cell(value: Any, key: str, number: int, name: str, faults: list[Problem]) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return f"{value:.0f}" if float(value).is_integer() else str(value)
    if isinstance(value, str):
        return guarded(value)
    faults.append(Problem("It must be a text or a number.", number, key, name))
    return ""


def offer_from(entry: Any, book: CropBook, today: date) -> tuple[Offer | None, tuple[Problem, ...]]:
    """One offer of a JSON document, and what is wrong with it."""
    read = _part([entry], "offers", book, date_reader(today))
    offers = read.swap_list.offers
    return (offers[0] if offers else None), read.problems
