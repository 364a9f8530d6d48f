"""Places, plans, sowings and their events of a whole tin, read to the letter."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from enum import StrEnum
from typing import Any

from seedbox.tin.exchange import texts, words
from seedbox.tin.exchange.entries import (
    Entries,
    number,
    past_day,
    refuse_gaps,
    refuse_repeats,
    whole_number,
)
from seedbox.tin.exchange.neutral import shown
from seedbox.tin.exchange.outcome import CellFaultError
from seedbox.tin.exchange.sheet import Sheet
from seedbox.tin.garden_records import EventKind, Place, PlaceKind, Plan, Sowing, SowingEvent
from seedbox.tin.places import check_place
from seedbox.tin.plans import check_plan
from seedbox.tin.sowing_events import check_event
from seedbox.tin.sowings import SowingDraft, check_sowing


def read_places(sheet: Sheet) -> Entries:
    """Rows are `Place` records with id 0."""
    names = sheet.read("name", texts.line, "")
    kinds = sheet.read("kind", _place_kind)
    coolest, warmest = (sheet.read(name, number) for name in ("coolest_c", "warmest_c"))
    columns = (
        sheet.read("covered", words.yes_or_no),
        sheet.read("months_c", _months, ()),
        sheet.read("ppfd", number),
        sheet.read("light_hours", number),
        sheet.read("note", texts.exact_note, ""),
    )
    needed = {"name": names, "kind": kinds, "coolest_c": coolest, "warmest_c": warmest}
    refuse_gaps(sheet, needed)
    rows: list[tuple[Any, ...]] = []
    for at, row in enumerate(zip(names, kinds, coolest, warmest, *columns, strict=True)):
        if at in sheet.faults:
            rows.append((None,))
            continue
        name, kind, cool, warm, covered, *rest = row
        roofed = kind.usually_covered if covered is None else covered
        place = Place(0, name, kind, roofed, cool, warm, *rest)
        for problem in check_place(place):
            sheet.fault(at, problem.sentence, problem.field)
        rows.append((place,))
    refuse_repeats(sheet, [name.casefold() for name in names])
    return Entries(sheet, rows)


def read_plans(sheet: Sheet) -> Entries:
    """Rows are `Plan` records with id 0."""
    crops = sheet.read("crop_id", texts.line, "")
    plants = sheet.read("plants", whole_number)
    varieties = sheet.read("variety", texts.line, "")
    years, again = (sheet.read(name, whole_number) for name in ("year", "again_days"))
    notes = sheet.read("note", texts.exact_note, "")
    refuse_gaps(sheet, {"crop_id": crops, "plants": plants})
    rows: list[tuple[Any, ...]] = []
    columns = zip(crops, plants, varieties, years, again, notes, strict=True)
    for at, (crop_id, wanted, *rest) in enumerate(columns):
        plan = Plan(0, crop_id, wanted or 0, *rest)
        if at not in sheet.faults:
            for problem in check_plan(plan):
                sheet.fault(at, problem.sentence, problem.field)
        rows.append((plan,))
    marks = [
        (crop, variety.casefold(), year)
        for crop, variety, year in zip(crops, varieties, years, strict=True)
    ]
    refuse_repeats(sheet, marks)
    return Entries(sheet, rows)


def read_sowings(sheet: Sheet, places: Mapping[str, Place], today: date) -> Entries:
    """Rows are (packet code, sowing code, day, place in small letters, then a `SowingDraft`)."""
    packets = sheet.read("packet", words.packet_code, "")
    codes = sheet.read("code", words.sowing_code, "")
    days = sheet.read("on", past_day(today))
    names = [name.casefold() for name in sheet.read("place", texts.line, "")]
    seeds, cells, per_cell = (
        sheet.read(name, whole_number) for name in ("seeds", "cells", "per_cell")
    )
    rest = (
        sheet.read("row_m", number),
        sheet.read("left_per_cell", whole_number, 1),
        sheet.read("plants_wanted", whole_number),
        sheet.read("pot_depth_cm", number),
        sheet.read("note", texts.exact_note, ""),
    )
    needed = {"packet": packets, "code": codes, "on": days, "place": names, "seeds": seeds}
    refuse_gaps(sheet, needed)
    _refuse_unknown_places(sheet, names, places)
    drafts = [SowingDraft(*row) for row in zip(seeds, cells, per_cell, *rest, strict=True)]
    rows = list(zip(packets, codes, days, names, drafts, strict=True))
    for at, (_, _, day, _, draft) in enumerate(rows):
        if at not in sheet.faults:
            for problem in check_sowing(draft, date.fromisoformat(day), today):
                sheet.fault(at, problem.sentence, problem.field)
    refuse_repeats(sheet, [code or at for at, code in enumerate(codes)])
    return Entries(sheet, rows)


def read_sowing_events(
    sheet: Sheet,
    sowings: Entries,
    in_tin: Mapping[str, str],
    places: Mapping[str, Place],
    today: date,
) -> Entries:
    """Rows are (packet code, sowing code, place in small letters or empty, `SowingEvent`).

    `in_tin` gives the packet of each sowing that the tin has.
    """
    codes = sheet.read("sowing", words.sowing_code, "")
    days = sheet.read("on", past_day(today))
    kinds = sheet.read("kind", _event_kind)
    counts = sheet.read("count", whole_number)
    names = [name.casefold() for name in sheet.read("place", texts.line, "")]
    depths = sheet.read("pot_depth_cm", number)
    jobs = sheet.read("job", texts.line, "")
    untils = sheet.read("until", _day)
    notes = sheet.read("note", texts.exact_note, "")
    refuse_gaps(sheet, {"sowing": codes, "on": days, "kind": kinds})
    _refuse_unknown_places(sheet, names, places)
    known = {**in_tin} | {row[1]: row[0] for row in sowings.rows if row[1]}
    for at, code in enumerate(codes):
        if code and code not in known:
            sheet.fault(at, f"There is no sowing {shown(code)}.", "sowing")
    rows: list[tuple[Any, ...]] = []
    columns = zip(days, kinds, counts, depths, jobs, untils, notes, strict=True)
    for at, (day, kind, count, depth, job, until, note) in enumerate(columns):
        on = date.fromisoformat(day) if day else today
        event = SowingEvent(0, on, kind or EventKind.ENDED, count, None, depth, job, until, note)
        rows.append((known.get(codes[at], ""), codes[at], names[at], event))
    _refuse_impossible(sheet, rows, sowings, today)
    return Entries(sheet, rows)


def _refuse_impossible(
    sheet: Sheet, rows: list[tuple[Any, ...]], sowings: Entries, today: date
) -> None:
    """Events that the sowing of this file cannot have had: other sowings are not brought in."""
    sown = {
        row[1]: Sowing(0, row[1], 0, date.fromisoformat(row[2]), 0, row[4].all_seeds)
        for at, row in enumerate(sowings.rows)
        if at not in sowings.sheet.faults
    }
    before: dict[str, list[SowingEvent]] = {}
    for at, (_, code, _, event) in enumerate(rows):
        if at in sheet.faults or code not in sown:
            continue
        others = before.setdefault(code, [])
        problems = check_event(event, sown[code], others, today)
        for problem in problems:
            sheet.fault(at, problem.sentence, problem.field)
        if not problems:
            others.append(event)


def _refuse_unknown_places(sheet: Sheet, names: list[str], places: Mapping[str, Place]) -> None:
    for at, name in enumerate(names):
        if name and name not in places:
            sheet.fault(at, f"There is no place {shown(name)} in the tin or in places.", "place")


def _place_kind(text: str) -> PlaceKind:
    return PlaceKind(_one_of(text, PlaceKind))


def _event_kind(text: str) -> EventKind:
    return EventKind(_one_of(text, EventKind))


def _one_of(text: str, known: type[StrEnum]) -> str:
    word = text.casefold()
    if word not in tuple(known):
        raise CellFaultError(f"{shown(text)} is none of {', '.join(known)}.")
    return word


def _months(text: str) -> tuple[float, ...]:
    return tuple(number(part) for part in text.split())


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise CellFaultError(f"{shown(text)} is no day, such as 2027-04-25.") from None
