"""One sowing as a page: how it was sown, what became of it, what is next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

from seedbox.cli.tables import fields, one_line, wrapped
from seedbox.cli.words import count, day, day_of_month
from seedbox.season.sowing.tray_fields import cells_text
from seedbox.tin.codes import shown
from seedbox.tin.garden_records import EventKind, SowingEvent

if TYPE_CHECKING:
    from seedbox.season.jobs import Job
    from seedbox.season.sowing.in_progress import Growing
    from seedbox.season.sowing.sowing_jobs import SowingJob


def title(growing: Growing) -> str:
    """Code, crop and variety."""
    named = ", ".join(filter(None, (growing.crop, growing.packet.variety)))
    return f"{growing.code}  {named}"


def page(growing: Growing, jobs: Sequence[Job], places: dict[int, str]) -> Iterator[str]:
    """All that is known of a sowing, with the commands for what is next."""
    sowing = growing.sowing
    yield title(growing)
    yield ""
    yield from fields(
        [
            ("packet", shown(growing.packet.code)),
            ("sown", f"{day(sowing.on)}, {growing.sown_in.name}"),
            ("seeds", _seeds(growing)),
            ("for", count(growing.sown_for, "plant")),
            ("now", _now(growing)),
            ("note", sowing.note),
        ]
    )
    if growing.events:
        yield ""
        yield "What happened"
        for event in growing.events:
            yield from wrapped(f"{event.on.isoformat()}  {happened(event, places)}", "  ", "    ")
    if jobs:
        yield ""
        yield "Next"
        for job in jobs:
            yield from wrapped(f"{job.kind}: {when(job)}. {job.why}", "  ", "    ")
            yield f"    {to_type(job)}"


def _seeds(growing: Growing) -> str:
    sowing = growing.sowing
    seeds = count(sowing.seeds, "seed")
    if sowing.cells is None:
        return cells_text(sowing)
    deep = f", {sowing.pot_depth_cm:g} cm deep" if sowing.pot_depth_cm else ""
    left = f", {sowing.left_per_cell} left in each" if sowing.left_per_cell > 1 else ""
    return f"{seeds}: {cells_text(sowing)}{deep}{left}"


def _now(growing: Growing) -> str:
    where = f", {growing.stands_in.name}" if growing.open else ""
    plants = f", {count(growing.plants, 'plant')}" if growing.open else ""
    return f"{growing.stage.value}{plants}{where}"


def happened(event: SowingEvent, places: dict[int, str]) -> str:
    """One event in words."""
    if event.kind.of_a_job:
        until = f" until {day(event.until)}" if event.until else ""
        told = f"{event.kind.value}: {event.job}{until}"
    elif event.kind is EventKind.EMERGED:
        told = f"{event.count} came up"
    else:
        told = event.kind.value + (f", {event.count}" if event.count is not None else "")
    where = f", {places[event.place_id]}" if event.place_id in places else ""
    deep = f", {event.pot_depth_cm:g} cm deep" if event.pot_depth_cm else ""
    note = f" ({event.note})" if event.note else ""
    return one_line(f"{told}{where}{deep}{note}")


def when(job: Job) -> str:
    """When a job is due, and how late it is."""
    due = day_of_month(job.due)
    return f"{due}, {count(job.days_late, 'day')} late" if job.days_late else due


def to_type(job: Job) -> str:
    """The command to type when a job is done."""
    if job.kind in ("resow", "sow again"):
        return f"seedbox resow {job.code}"
    number = " --count NUMBER" if job.kind == "count emergence" else ""
    return f"seedbox done {job.job}{number}"


def facts(growing: Growing, jobs: Sequence[Job], places: dict[int, str]) -> dict[str, Any]:
    """One sowing for JSON."""
    from seedbox.season.sowing.fields import sowing_fields

    sowing = growing.sowing
    return {
        **sowing_fields(growing),
        "sown_in": growing.sown_in.name,
        "left_per_cell": sowing.left_per_cell,
        "cell_depth_cm": sowing.pot_depth_cm,
        "note": sowing.note,
        "events": [_event_facts(event, places) for event in growing.events],
        "jobs": jobs,
    }


def _event_facts(event: SowingEvent, places: dict[int, str]) -> dict[str, Any]:
    return {
        "on": event.on,
        "kind": event.kind,
        "count": event.count,
        "place": places.get(event.place_id) if event.place_id else None,
        "pot_depth_cm": event.pot_depth_cm,
        "job": event.job or None,
        "until": event.until,
        "note": event.note,
    }


def as_jobs(jobs: Sequence[SowingJob], today: date) -> list[Job]:
    """Jobs of a sowing as every list of jobs shows them."""
    from seedbox.season.sowing.sowing_jobs import as_job

    return [as_job(job, today) for job in jobs]


def next_lines(jobs: Sequence[SowingJob], today: date, *, heading: str = "Next:") -> list[str]:
    """What is to be done next with a sowing, after something was written down."""
    if not jobs:
        return ["Nothing more is to be done with it."]
    lines = [heading]
    for job in as_jobs(jobs, today):
        lines += wrapped(f"{when(job)}: {job.kind}. {to_type(job)}", "  ", "    ")
    return lines
