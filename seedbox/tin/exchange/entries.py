"""The tables of a whole tin beside its packets, read to the letter."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from seedbox.problems import Problem
from seedbox.tin.drafts import moisture_problem, past_day_problem
from seedbox.tin.exchange import texts, words
from seedbox.tin.exchange.neutral import shown
from seedbox.tin.exchange.outcome import CellFaultError
from seedbox.tin.exchange.plans import Reject
from seedbox.tin.exchange.shapes import share_of
from seedbox.tin.exchange.sheet import Sheet
from seedbox.tin.exchange.table import Table
from seedbox.tin.quantity import amount_problem
from seedbox.tin.records import MovementKind, OwnCrop, OwnFigure, Store, Unit
from seedbox.tin.stores import check_store

_KINDS = {kind.value: kind for kind in MovementKind}


@dataclass(slots=True)
class Entries:
    """Rows read from one table. `places` are those of the packets; faults lie in `sheet`."""

    sheet: Sheet
    rows: list[tuple[Any, ...]]

    def sound(self) -> list[tuple[Any, ...]]:
        return [row for place, row in enumerate(self.rows) if place not in self.sheet.faults]


@dataclass(slots=True)
class Gathered:
    """Problems and rejects of all tables."""

    problems: list[Problem] = field(default_factory=list)
    rejects: list[Reject] = field(default_factory=list)

    def take_in(self, sheet: Sheet) -> None:
        self.problems += sheet.problems()
        self.rejects += sheet.rejects()


def sheet_of(tables: Mapping[str, Table], name: str) -> Sheet:
    """The rows of a table; of an empty one where there is none."""
    table = tables.get(name) or Table([], [], 2)
    sheet = Sheet(table, {heading: at for at, heading in enumerate(table.headers)}, name)
    sheet.note_faulty_rows()
    return sheet


def read_stores(sheet: Sheet) -> Entries:
    """Rows are `Store` records with id 0."""
    columns = (
        sheet.read("name", texts.line, ""),
        sheet.read("coolest_c", number),
        sheet.read("warmest_c", number),
        sheet.read("humidity_percent", _share),
        sheet.read("sealed", words.yes_or_no, False),
        sheet.read("sealed_moisture_percent", number),
        sheet.read("note", texts.exact_note, ""),
    )
    seen: set[str] = set()
    rows: list[tuple[Any, ...]] = []
    for place, (name, coolest, warmest, *rest) in enumerate(zip(*columns, strict=True)):
        complete = coolest is not None and warmest is not None
        store = Store(0, name, coolest or 0.0, warmest or 0.0, *rest)
        if not complete:
            sheet.fault(place, "A store needs the temperature of its coolest and warmest month.")
        elif place not in sheet.faults:
            for problem in check_store(store):
                sheet.fault(place, problem.sentence, problem.field)
        if name.casefold() in seen:
            sheet.fault(place, f"There are two stores named {shown(name)}.", "name")
        seen.add(name.casefold())
        rows.append((store,))
    return Entries(sheet, rows)


def read_own_crops(sheet: Sheet) -> Entries:
    """Rows are `OwnCrop` records."""
    ids = sheet.read("crop_id", texts.line, "")
    names = sheet.read("name", texts.line, "")
    rest = (sheet.read("family", texts.line, ""), sheet.read("note", texts.exact_note, ""))
    for place, (crop_id, name) in enumerate(zip(ids, names, strict=True)):
        if not crop_id.startswith("own:") or len(crop_id) < 5 or not name:
            sheet.fault(place, "A crop of your own needs a name, and an id that starts with own:.")
    refuse_repeats(sheet, ids)
    return Entries(sheet, [(OwnCrop(*row),) for row in zip(ids, names, *rest, strict=True)])


def read_own_figures(sheet: Sheet) -> Entries:
    """Rows are `OwnFigure` records."""
    columns = [sheet.read(name, texts.line, "") for name in ("crop_id", "figure", "value")]
    columns.append(sheet.read("note", texts.exact_note, ""))
    rows = [OwnFigure(*row) for row in zip(*columns, strict=True)]
    for place, one in enumerate(rows):
        if not (one.crop_id and one.figure and one.value):
            sheet.fault(place, "A figure of your own needs a crop, a name and a value.")
    refuse_repeats(sheet, [(one.crop_id, one.figure) for one in rows])
    return Entries(sheet, [(one,) for one in rows])


def read_settings(sheet: Sheet, parse: Callable[[str, str], Any]) -> Entries:
    """Rows are (name, value); `parse` raises what is no setting."""
    from seedbox.errors import SeedboxError

    names = sheet.read("setting", texts.line, "")
    values = sheet.read("value", texts.line, "")
    for place, (name, value) in enumerate(zip(names, values, strict=True)):
        try:
            parse(name, value)
        except SeedboxError as fault:
            sheet.fault(place, fault.sentence, "setting")
    refuse_repeats(sheet, names)
    return Entries(sheet, list(zip(names, values, strict=True)))


def read_journal(sheet: Sheet, units: Mapping[str, Unit | None], today: date) -> Entries:
    """Rows are (code, day, kind, amount, note)."""
    codes = sheet.read("packet", words.packet_code, "")
    days = sheet.read("on", past_day(today))
    kinds = sheet.read("kind", _movement_kind)
    counted = sheet.read("amount", number)
    notes = sheet.read("note", texts.line, "")
    refuse_gaps(sheet, {"packet": codes, "on": days, "kind": kinds})
    for place, (code, kind, amount) in enumerate(zip(codes, kinds, counted, strict=True)):
        if amount is None and kind == MovementKind.RECOUNT and place not in sheet.faults:
            sheet.fault(place, "A recount needs an amount.", "amount")
        sentence = amount_problem(amount, units.get(code)) if amount is not None else ""
        if sentence:
            sheet.fault(place, sentence, "amount")
    return Entries(sheet, list(zip(codes, days, kinds, counted, notes, strict=True)))


def read_storage(sheet: Sheet, stores: Mapping[str, Store], today: date) -> Entries:
    """Rows are (code, day, store in small letters, sealed, moisture)."""
    codes = sheet.read("packet", words.packet_code, "")
    days = sheet.read("from", past_day(today))
    names = [name.casefold() for name in sheet.read("store", texts.line, "")]
    sealed = sheet.read("sealed", words.yes_or_no, False)
    moistures = sheet.read("moisture_percent", _moisture)
    refuse_gaps(sheet, {"packet": codes, "from": days, "store": names})
    for place, name in enumerate(names):
        if name and name not in stores:
            sheet.fault(place, f"There is no store {shown(name)} in the tin or in stores.", "store")
    refuse_repeats(sheet, list(zip(codes, days, strict=True)))
    return Entries(sheet, list(zip(codes, days, names, sealed, moistures, strict=True)))


def by_packet(entries: Entries) -> dict[str, list[int]]:
    """Places of the rows of each packet."""
    found: dict[str, list[int]] = defaultdict(list)
    for place, row in enumerate(entries.rows):
        found[row[0]].append(place)
    return found


def number(text: str) -> float:
    """A number with a decimal point. `1,5` is read as well."""
    try:
        return float(text.replace(",", ".")) + 0.0
    except ValueError:
        raise CellFaultError(f"{shown(text)} is no number.") from None


def whole_number(text: str) -> int:
    value = number(text)
    if not value.is_integer():
        raise CellFaultError(f"{shown(text)} is no whole number.")
    return int(value)


def _share(text: str) -> float:
    try:
        return share_of(text.removesuffix("%").strip())
    except (ValueError, ArithmeticError):
        raise CellFaultError(f"{shown(text)} is no percentage.") from None


def _moisture(text: str) -> float:
    value = number(text)
    sentence = moisture_problem(value)
    if sentence:
        raise CellFaultError(sentence)
    return value


def past_day(today: date) -> Callable[[str], str]:
    """Reads the date of something that has happened, as ISO text."""

    def read(text: str) -> str:
        try:
            day = date.fromisoformat(text)
        except ValueError:
            raise CellFaultError(
                f"{shown(text)} is no date; one such as 2025-05-31 was expected."
            ) from None
        sentence = past_day_problem(day, today)
        if sentence:
            raise CellFaultError(sentence)
        return day.isoformat()

    return read


def _movement_kind(text: str) -> str:
    if text.casefold() not in _KINDS:
        raise CellFaultError(f"{shown(text)} is no movement; there are {', '.join(_KINDS)}.")
    return text.casefold()


def refuse_gaps(sheet: Sheet, needed: Mapping[str, list[Any]]) -> None:
    """A fault for each empty cell that is needed."""
    for heading, column in needed.items():
        for place, value in enumerate(column):
            if value in (None, "") and place not in sheet.faults:
                sheet.fault(place, "The cell is empty.", heading)


def refuse_repeats(sheet: Sheet, marks: list[Any]) -> None:
    """A fault for each row whose mark an earlier row has."""
    first: dict[Any, int] = {}
    for place, mark in enumerate(marks):
        if mark in first:
            sheet.fault(place, f"This stands in row {sheet.numbers[first[mark]]} already.")
        else:
            first[mark] = place
