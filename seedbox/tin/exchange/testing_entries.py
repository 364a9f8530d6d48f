"""Germination tests, their counts, and tray counts of a whole tin, read to the letter."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from seedbox.problems import Problem
from seedbox.tin.counting import CATEGORIES, entry_problem
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
from seedbox.tin.records import GerminationTest, Substrate, TestCount, TestState, TrayCount
from seedbox.tin.testing import TestPlan, check_plan
from seedbox.tin.tests import check_test
from seedbox.tin.trays import check_tray


def read_tests(sheet: Sheet, today: date) -> Entries:
    """Rows are (packet code, test code or empty, then the columns of the tin's own table)."""
    packets = sheet.read("packet", words.packet_code, "")
    codes = sheet.read("code", words.test_code, "")
    days = sheet.read("on", past_day(today))
    seeds, germinated = (sheet.read(name, whole_number) for name in ("seeds", "germinated"))
    columns = (
        packets,
        codes,
        days,
        seeds,
        germinated,
        sheet.read("hard", whole_number, 0),
        sheet.read("note", texts.exact_note, ""),
        sheet.read("state", _state, TestState.FINISHED.value),
        sheet.read("started_on", past_day(today)),
        sheet.read("replicates", whole_number, 1),
        sheet.read("substrate", _substrate),
        sheet.read("temperature_c", number),
        sheet.read("night_c", number),
        sheet.read("first_count_day", whole_number),
        sheet.read("final_count_day", whole_number),
        sheet.read("pretreatment", texts.line, ""),
        *(sheet.read(name, whole_number) for name in ("abnormal", "fresh", "dead")),
        sheet.read("reported_by", texts.line, ""),
    )
    refuse_gaps(sheet, {"packet": packets, "on": days, "seeds": seeds, "germinated": germinated})
    rows = list(zip(*columns, strict=True))
    for place, row in enumerate(rows):
        if place not in sheet.faults:
            for problem in _test_problems(row, today):
                sheet.fault(place, problem.sentence, problem.field)
    refuse_repeats(sheet, [code or place for place, code in enumerate(codes)])
    return Entries(sheet, rows)


def read_test_counts(
    sheet: Sheet, tests: Entries, in_tin: Mapping[str, str], today: date
) -> Entries:
    """Rows are (packet code, test code, day, replicate, then a number for each category).

    `in_tin` gives the packet of each test that the tin has.
    """
    codes = sheet.read("test", words.test_code, "")
    days = sheet.read("on", past_day(today))
    replicates = sheet.read("replicate", whole_number, 1)
    figures = [sheet.read(name, whole_number, 0) for name in CATEGORIES]
    refuse_gaps(sheet, {"test": codes, "on": days})
    known = {**in_tin} | {row[1]: row[0] for row in tests.rows if row[1]}
    for place, code in enumerate(codes):
        if code and code not in known:
            sheet.fault(place, f"There is no germination test {shown(code)}.", "test")
    refuse_repeats(sheet, list(zip(codes, days, replicates, strict=True)))
    packets = [known.get(code, "") for code in codes]
    rows = list(zip(packets, codes, days, replicates, *figures, strict=True))
    _refuse_impossible(sheet, rows, tests, today)
    return Entries(sheet, rows)


def read_tray_counts(sheet: Sheet, today: date) -> Entries:
    """Rows are (packet code, day, place, sown, emerged, note)."""
    packets = sheet.read("packet", words.packet_code, "")
    days = sheet.read("on", past_day(today))
    places = sheet.read("place", texts.line, "")
    sown, emerged = (sheet.read(name, whole_number) for name in ("sown", "emerged"))
    notes = sheet.read("note", texts.exact_note, "")
    refuse_gaps(sheet, {"packet": packets, "on": days, "sown": sown, "emerged": emerged})
    rows = list(zip(packets, days, places, sown, emerged, notes, strict=True))
    for place, (_, day, *rest) in enumerate(rows):
        if place not in sheet.faults:
            for problem in check_tray(TrayCount(0, date.fromisoformat(day), *rest), today):
                sheet.fault(place, problem.sentence, problem.field)
    return Entries(sheet, rows)


def _test_problems(row: tuple[Any, ...], today: date) -> Iterable[Problem]:
    on, seeds, germinated, hard, note = date.fromisoformat(row[2]), *row[3:7]
    started_on, replicates = row[8], row[9]
    others = dict(zip(("abnormal", "fresh", "dead"), row[16:19], strict=True))
    yield from check_test(
        on, seeds, germinated, hard, note=note, today=today, others=others, reported_by=row[19]
    )
    plan = TestPlan(seeds, replicates, Substrate.PAPER, *row[11:16])
    yield from (each for each in check_plan(plan, on, today) if each.field not in ("seeds", "on"))
    if started_on and started_on > row[2]:
        yield Problem("The test cannot have been started after its day.", field="started_on")
    if row[7] == TestState.RUNNING and not started_on:
        yield Problem("A running test needs the day of its start.", field="started_on")


def _refuse_impossible(
    sheet: Sheet, rows: list[tuple[Any, ...]], tests: Entries, today: date
) -> None:
    """Counts that the test of this file cannot have: other tests are not brought in."""
    laid = {row[1]: _as_test(row) for place, row in enumerate(tests.rows) if place not in
            tests.sheet.faults}  # fmt: skip
    before: dict[str, list[TestCount]] = {}
    for place, (_, code, day, replicate, *figures) in enumerate(rows):
        if place in sheet.faults or code not in laid:
            continue
        counted = before.setdefault(code, [])
        found = TestCount(0, date.fromisoformat(day), replicate, *figures)
        problem = entry_problem(laid[code], found, counted, today)
        if problem:
            sheet.fault(place, problem, "on")
        else:
            counted.append(found)


def _as_test(row: tuple[Any, ...]) -> GerminationTest:
    started_on = date.fromisoformat(row[8]) if row[8] else None
    on, seeds = date.fromisoformat(row[2]), row[3]
    return GerminationTest(0, row[1], 0, on, seeds, 0, started_on=started_on, replicates=row[9])


def _state(text: str) -> str:
    return _one_of(text, TestState)


def _substrate(text: str) -> str:
    return _one_of(text, Substrate)


def _one_of(text: str, known: type[TestState] | type[Substrate]) -> str:
    word = text.casefold()
    if word not in tuple(known):
        raise CellFaultError(f"{shown(text)} is none of {', '.join(known)}.")
    return word
