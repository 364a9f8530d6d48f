"""What the page of a sowing says, as lines for a given width."""

from __future__ import annotations

from collections.abc import Iterator

from seedbox.season.sowing.as_sown import as_sown
from seedbox.season.sowing.climate import spoken
from seedbox.season.sowing.course import emergence_of
from seedbox.season.sowing.desk import Desk as Season
from seedbox.season.sowing.in_progress import Growing
from seedbox.season.sowing.sowing_jobs import SowingJob, as_job
from seedbox.tin.codes import shown
from seedbox.tui.sowing_words import (
    counted,
    due_words,
    happened_words,
    long_day,
    now_words,
    sown_words,
)
from seedbox.tui.sowings_reading import Standing
from seedbox.tui.text_lines import Line, heading, item, pair, paragraph
from seedbox.tui.units import unbroken

NOTHING_LEFT = "Nothing is left to do with it."
NOT_DESCRIBED = "Its jobs are reckoned once the garden's frosts and latitude are said."


def sowing_lines(season: Season, standing: Standing, width: int) -> list[Line]:
    """Heading, how it was sown, jobs with their reasons, what happened."""
    growing = standing.growing
    return [
        [(growing.what, "bold"), (f"  {growing.code}", "$quiet")],
        *_facts(season, growing, width),
        *heading("To do"),
        *_jobs(season, standing, width),
        *heading("What happened"),
        *_events(season, growing, width),
    ]


def _facts(season: Season, growing: Growing, width: int) -> Iterator[Line]:
    sowing = growing.sowing
    facts = (
        ("Now", now_words(growing)),
        ("Sown", f"{long_day(sowing.on)}, {growing.sown_in.name}"),
        ("Seed", f"{sown_words(growing)}, from packet {shown(growing.packet.code)}"),
        ("For", counted(growing.sown_for, "plant")),
        ("Came up", came_up(season, growing)),
        ("Note", sowing.note),
    )
    for label, text in facts:
        if text:
            yield from pair(label, text, width)


def came_up(season: Season, growing: Growing) -> str:
    """What was counted, or when it is expected."""
    sowing = growing.sowing
    if growing.emerged is not None:
        event = next(e for e in reversed(growing.events) if e.count == growing.emerged)
        days = (event.on - sowing.on).days
        seeds = counted(sowing.seeds, "seed")
        return f"{growing.emerged} of {seeds}, counted after {counted(days, 'day')}"
    expected = expected_words(season, growing)
    return f"not counted yet; expected {expected}" if expected else "not counted yet"


def expected_words(season: Season, growing: Growing) -> str:
    """When the model expects emergence, and at what temperature."""
    figures = season.facts.figures(growing.packet.crop_id)
    if figures is None:
        return ""
    found = emergence_of(as_sown(season, growing, figures))
    between = f"{spoken(found.first)} to {spoken(found.last)}, about {spoken(found.middle)}"
    return unbroken(f"{between}: {found.expected.sentence}")


def _jobs(season: Season, standing: Standing, width: int) -> Iterator[Line]:
    if not standing.jobs:
        described = season.garden.climate is not None
        yield from paragraph(NOTHING_LEFT if described else NOT_DESCRIBED, width)
    for number, job in enumerate(standing.jobs):
        yield from _job(standing, job, width, is_next=number == 0)


def _job(standing: Standing, job: SowingJob, width: int, *, is_next: bool) -> Iterator[Line]:
    """A job with its day; the next one and late ones with all that is known of them."""
    told = as_job(job, standing.today)
    due = due_words(told.due, told.days_late, standing.today)
    style = "$warning" if told.days_late else ""
    head = f"{told.kind}: {due}, {spoken(told.due)}"
    yield from item(
        head, width, f"bold {style}".strip() if is_next else style, ">" if is_next else "-"
    )
    waits = job.when.if_it_waits
    price = f" If it waits: {waits}." if waits and not told.days_late else ""
    if is_next or told.days_late:
        why = told.why.partition("; " + waits)[0] if waits and not told.days_late else told.why
        why = why if why.endswith(".") or not why else f"{why}."
        yield from paragraph(unbroken(f"{told.what} {why}{price}"), width, indent=2)
    elif job.when.why:
        yield from paragraph(unbroken(_sentence(job.when.why)), width, "$quiet", indent=2)


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


def _events(season: Season, growing: Growing, width: int) -> Iterator[Line]:
    places = {place.id: place.name for place in season.garden.places}
    if not growing.events:
        yield from paragraph("Nothing since it was sown.", width, "$quiet")
    for event in reversed(growing.events):
        yield from pair(event.on.isoformat(), happened_words(event, places), width)
