"""What became of a sowing: came up, thinned, potted on, planted out, failed, put off."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from seedbox.errors import BadDataError, NotFoundError
from seedbox.problems import Problem
from seedbox.tin import codes
from seedbox.tin.drafts import LONGEST_NOTE, past_day_problem
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import EventKind, Place, Sowing, SowingEvent
from seedbox.tin.text import clean_line, clean_note

MOST_PLANTS = 1_000_000
MOST_PER_SEED = 10  # a beet cluster gives up to five; more seedlings than this were miscounted
LONGEST_WAIT_DAYS = 3 * 366


def record_event(
    tin: Tin,
    sowing: Sowing,
    kind: EventKind,
    on: date,
    *,
    today: date,
    count: int | None = None,
    place: Place | None = None,
    pot_depth_cm: float | None = None,
    job: str = "",
    until: date | None = None,
    note: str = "",
) -> SowingEvent:
    """Writes down what happened to a sowing on a day, as one change.

    Emergence is counted over all that came up so far: a later count takes the place of an earlier
    one as evidence on packet and place.
    """
    event = SowingEvent(
        sowing.id,
        on,
        kind,
        count,
        place.id if place else None,
        pot_depth_cm,
        clean_line(job),
        until,
        clean_note(note),
    )
    with tin.change(_label(sowing, event)) as change:
        problems = check_event(event, sowing, tin.sowing_events(sowing.id), today)
        if problems:
            raise BadDataError(" ".join(problem.sentence for problem in problems))
        return replace(event, id=change.insert("sowing_event", event_columns(event)))


def remove_event(tin: Tin, event_id: int) -> None:
    """Strikes out what was written down by mistake."""
    found = next((one for one in tin.sowing_events() if one.id == event_id), None)
    if found is None:
        raise NotFoundError(f"There is no entry number {event_id} among the sowings.")
    with tin.change(f"Remove “{found.kind}” of {found.on}") as change:
        change.delete("sowing_event", event_id)


def check_event(
    event: SowingEvent, sowing: Sowing, others: Sequence[SowingEvent], today: date
) -> list[Problem]:
    """Everything wrong with an event, each with its field; empty when it is sound."""
    found = [
        *_day_problems(event, sowing, others, today),
        *_count_problems(event, sowing),
        *_job_problems(event),
    ]
    if len(event.note) > LONGEST_NOTE:
        found.append(("note", f"The note has more than {LONGEST_NOTE} characters."))
    return [Problem(sentence, field=field) for field, sentence in found]


def event_columns(event: SowingEvent) -> dict[str, Any]:
    """An event as it lies in the table."""
    return {
        "sowing_id": event.sowing_id,
        "on_date": event.on.isoformat(),
        "kind": event.kind.value,
        "count": event.count,
        "place_id": event.place_id,
        "pot_depth_cm": event.pot_depth_cm,
        "job": event.job,
        "until_date": None if event.until is None else event.until.isoformat(),
        "note": event.note,
    }


def _label(sowing: Sowing, event: SowingEvent) -> str:
    count = "" if event.count is None else f" {event.count}"
    job = f" {event.job}" if event.job else ""
    return f"Sowing {codes.shown(sowing.code)}:{job} {event.kind}{count}"


Fault = tuple[str, str]


def _day_problems(
    event: SowingEvent, sowing: Sowing, others: Sequence[SowingEvent], today: date
) -> Iterator[Fault]:
    code = codes.shown(sowing.code)
    wrong = past_day_problem(event.on, today)
    if wrong:
        yield "on", wrong
    if event.on < sowing.on:
        yield "on", f"{code} was sown on {sowing.on}: nothing happened to it before."
    ends = [one for one in others if one.kind.ends]
    if ends and (event.on >= ends[0].on or event.kind.ends):
        yield "kind", f"{code} {_ENDED[ends[0].kind]} on {ends[0].on}."
    after = [one.on for one in others if one.on > event.on and not one.kind.of_a_job]
    if event.kind.ends and after:
        yield "on", f"Something happened to {code} on {max(after)}, after that day."


_ENDED = {EventKind.FAILED: "failed", EventKind.ENDED: "was ended"}


def _count_problems(event: SowingEvent, sowing: Sowing) -> Iterator[Fault]:
    if event.count is None:
        if event.kind is EventKind.EMERGED:
            yield "count", "Say how many came up; 0 is a count."
        return
    if not 0 <= event.count <= MOST_PLANTS:
        yield "count", f"The count cannot be {event.count}."
    elif event.kind is EventKind.EMERGED and event.count > MOST_PER_SEED * sowing.seeds:
        yield "count", f"{event.count} came up of {sowing.seeds} sown: count again."


def _job_problems(event: SowingEvent) -> Iterator[Fault]:
    if event.kind.of_a_job and not event.job:
        yield "job", f"Say which job is {event.kind}."
    if event.kind is EventKind.PUT_OFF and event.until is None:
        yield "until", "Say until when the job is put off."
    if event.until is not None and not 1 <= (event.until - event.on).days <= LONGEST_WAIT_DAYS:
        yield "until", f"A job is put off to a later day, not from {event.on} to {event.until}."
    if event.pot_depth_cm is not None and not 0 < event.pot_depth_cm <= 200:
        yield "pot_depth_cm", f"A pot is not {event.pot_depth_cm:g} cm deep."
