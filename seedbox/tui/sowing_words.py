"""Sowings in words: when the next job is due, what came up, how it was sown, what happened."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from seedbox.season.sowing.in_progress import Growing
from seedbox.season.sowing.tray_fields import cells_text
from seedbox.tin.garden_records import EventKind, SowingEvent


def counted(number: int, word: str) -> str:
    """A number with its word.

    >>> counted(1, "day"), counted(2, "day")
    ('1 day', '2 days')
    """
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def due_words(due: date, days_late: int, today: date) -> str:
    """How late, or how soon.

    >>> today = date(2027, 3, 6)
    >>> due_words(date(2027, 3, 8), 0, today), due_words(date(2027, 3, 1), 3, today)
    ('in 2 days', '3 days late')
    """
    if days_late:
        return f"{counted(days_late, 'day')} late"
    ahead = (due - today).days
    if ahead <= 0:
        return "now"
    return "tomorrow" if ahead == 1 else f"in {counted(ahead, 'day')}"


def short_day(day: date, today: date) -> str:
    """A day of this year; of another year the month.

    >>> short_day(date(2027, 3, 8), date(2027, 5, 1)), short_day(date(2026, 3, 8), date(2027, 5, 1))
    ('8 Mar', 'Mar 2026')
    """
    return f"{day.day} {day:%b}" if day.year == today.year else f"{day:%b %Y}"


def long_day(day: date) -> str:
    """`8 March 2027`."""
    return f"{day.day} {day:%B %Y}"


def up_words(growing: Growing) -> str:
    """What came up of what was sown; `-` before anybody counted."""
    up = growing.emerged
    return "-" if up is None else f"{up} of {growing.sowing.seeds}"


def sown_words(growing: Growing) -> str:
    """Seeds, cells and their depth, or the row."""
    sowing = growing.sowing
    if sowing.cells is None:
        return cells_text(sowing)
    deep = f", {sowing.pot_depth_cm:g} cm deep" if sowing.pot_depth_cm else ""
    left = f", {sowing.left_per_cell} left in each" if sowing.left_per_cell > 1 else ""
    return f"{counted(sowing.seeds, 'seed')}: {cells_text(sowing)}{deep}{left}"


def now_words(growing: Growing) -> str:
    """How far it has come, how many plants there are, where they stand."""
    if not growing.open:
        return growing.stage.value
    return f"{growing.stage.value}, {counted(growing.plants, 'plant')}, {growing.stands_in.name}"


def happened_words(event: SowingEvent, places: Mapping[int, str]) -> str:
    """One event, without its day."""
    if event.kind.of_a_job:
        until = f" to {long_day(event.until)}" if event.until else ""
        told = f"{event.job.replace('-', ' ')} {event.kind.value}{until}"
    elif event.kind is EventKind.EMERGED:
        told = f"{event.count} came up"
    else:
        told = event.kind.value + (f", {event.count}" if event.count is not None else "")
    place = places.get(event.place_id, "") if event.place_id is not None else ""
    where = f", {place}" if place else ""
    deep = f", {event.pot_depth_cm:g} cm deep" if event.pot_depth_cm else ""
    note = f" ({event.note})" if event.note else ""
    return f"{told}{where}{deep}{note}"
