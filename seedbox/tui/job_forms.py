"""Forms for the jobs of a sowing: done, put off; and for whatever else happens to it."""

from __future__ import annotations

from datetime import date

from seedbox.errors import NotFoundError
from seedbox.season.sowing.done import Done, done, happened, put_off
from seedbox.season.sowing.job_dates import JobKind
from seedbox.season.sowing.sowing_jobs import as_job
from seedbox.tin.garden_records import EventKind
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values
from seedbox.tui.packet_plans import NOTE, WHEN
from seedbox.tui.sowing_words import counted, due_words, long_day
from seedbox.tui.sowings_reading import Standing

SAME = "where it is"
USUAL_DELAY_DAYS = 7
# Done by sowing anew, and not by a tick.
BY_SOWING = (JobKind.SOW_AGAIN, JobKind.RESOW)
_CAN_HAPPEN = (
    EventKind.MOVED, EventKind.EMERGED, EventKind.THINNED, EventKind.POTTED_ON,
    EventKind.HARDENING, EventKind.PLANTED_OUT, EventKind.HARVESTED,
    EventKind.FAILED, EventKind.ENDED,
)  # fmt: skip
COUNT = Field("count", "How many", "Plants that there are now; for emergence, what came up so far.")
DEPTH = Field("depth", "Pot depth cm", "Of the new pots, when it was potted on.")


def done_plan(desk: Desk, standing: Standing) -> FormPlan:
    """A job is done: which, when, how many, where the plants stand now."""
    jobs = {j.when.kind.value: j for j in standing.jobs if j.when.kind not in BY_SOWING}
    if not jobs:
        raise NotFoundError(
            f"{standing.growing.code} has no job to be done.",
            hint="w writes down whatever else happened, r sows it again.",
        )

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        job = jobs[values["job"]]
        emergence = job.when.kind is JobKind.COUNT
        if emergence and not reader.text("count"):
            reader.fault("count", "Say how many came up: 0 is a count too.")
        count = reader.count("count") if reader.text("count") else None
        on, depth = _day(reader, standing), reader.number("depth")
        place = _place(values)
        reader.finish()
        found = desk.change(
            lambda tin: done(
                tin, job.id, today=desk.today, on=on, count=count, place=place,
                pot_depth_cm=depth, note=values["note"],
            )
        )  # fmt: skip
        return done_words(standing, found, desk.today)

    first = next(iter(jobs.values()))
    return FormPlan(
        title=f"Done: {standing.growing.what} ({standing.growing.code})",
        fields=[
            *_count_first(first.when.kind),
            Field("job", "Job", "Left and right arrows choose.", tuple(jobs)),
            *([] if first.when.kind is JobKind.COUNT else [COUNT]),
            WHEN,
            _where(desk),
            DEPTH,
            NOTE,
        ],
        save=save,
        initial={"job": first.when.kind.value, "on": "today"},
        draft_key=f"done {standing.growing.sowing.code}",
        advice=as_job(first, desk.today).what,
    )


def _count_first(kind: JobKind) -> list[Field]:
    """Emergence is nothing but its count: that is asked first."""
    if kind is not JobKind.COUNT:
        return []
    return [Field("count", "Came up", "All seedlings that you see so far; 0 is a count too.")]


def _where(desk: Desk) -> Field:
    names = tuple(place.name for place in desk.tin().places())
    return Field("place", "Stands now", "Where the plants stand from then on.", (SAME, *names))


def _place(values: Values) -> str:
    return "" if values["place"] == SAME else values["place"]


def _day(reader: FieldReader, standing: Standing) -> date | None:
    """The day it was done; not before it was sown."""
    on = reader.day("on")
    if on is not None and on < standing.growing.sowing.on:
        reader.fault("on", f"It was sown on {long_day(standing.growing.sowing.on)}.")
    return on


def done_words(standing: Standing, found: Done, today: date) -> str:
    """What was written down, what is next, and the way back."""
    event = found.event
    if event.kind is EventKind.EMERGED:
        told = f"{event.count} of {counted(standing.growing.sowing.seeds, 'seed')} came up"
    else:
        plants = f", {counted(event.count, 'plant')}" if event.count is not None else ""
        told = f"{event.kind.value}{plants}"
    return f"{standing.growing.what}: {told}.{next_words(found, today)} u takes it back."


def next_words(found: Done, today: date) -> str:
    """What comes next, in a sentence; empty when nothing does."""
    if not found.next_jobs:
        return ""
    job = found.next_jobs[0]
    due = due_words(job.when.due, job.days_late(today), today)
    return f" Next: {job.when.kind.value}, {due}."


def put_off_plan(desk: Desk, standing: Standing) -> FormPlan:
    """A job waits until a day."""
    jobs = {job.when.kind.value: job for job in standing.jobs}
    if not jobs:
        raise NotFoundError(f"{standing.growing.code} has no job to put off.")
    first = standing.jobs[0]
    usual = max(desk.today, first.when.due).toordinal() + USUAL_DELAY_DAYS

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        job = jobs[values["job"]]
        until = reader.last_day("until")
        if until is None:
            reader.fault("until", "Say until when: a day such as 2027-03-21.")
        elif until <= desk.today:
            reader.fault("until", "A job is put off to a later day.")
        reader.finish()
        desk.change(
            lambda tin: put_off(tin, job.id, today=desk.today, until=until, note=values["note"])
        )
        day = long_day(until) if until else ""
        return f"{standing.growing.what}: {values['job']} put off to {day}. u takes it back."

    return FormPlan(
        title=f"Put off: {standing.growing.what} ({standing.growing.code})",
        fields=[
            Field("until", "Until", "A day such as 2027-03-21."),
            Field("job", "Job", "Left and right arrows choose.", tuple(jobs)),
            NOTE,
        ],
        save=save,
        initial={"job": first.when.kind.value, "until": date.fromordinal(usual).isoformat()},
        draft_key=f"put off {standing.growing.sowing.code}",
        advice=first.when.if_it_waits and f"If it waits: {first.when.if_it_waits}.",
    )


def happened_plan(desk: Desk, standing: Standing, kind: EventKind) -> FormPlan:
    """Whatever happened to a sowing, whether a job asked for it or not."""
    growing = standing.growing

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        what = EventKind(values["kind"])
        count = reader.count("count") if reader.text("count") else None
        if what is EventKind.EMERGED and count is None:
            reader.fault("count", "Say how many came up: 0 is a count too.")
        if what is EventKind.MOVED and values["place"] == SAME:
            reader.fault("place", "Say where it stands now.")
        on, depth = _day(reader, standing), reader.number("depth")
        reader.finish()
        found = desk.change(
            lambda tin: happened(
                tin, growing.sowing.code, what, today=desk.today, on=on, count=count,
                place=_place(values), pot_depth_cm=depth, note=values["note"],
            )
        )  # fmt: skip
        return done_words(standing, found, desk.today)

    return FormPlan(
        title=f"What happened to {growing.what} ({growing.code})",
        fields=[
            Field("kind", "What", "Left and right arrows choose.", tuple(map(str, _CAN_HAPPEN))),
            WHEN,
            COUNT,
            _where(desk),
            DEPTH,
            NOTE,
        ],
        save=save,
        initial={"kind": kind.value, "on": "today"},
        draft_key=f"{kind.value} {growing.sowing.code}",
        advice="Failed: nothing will come of it. Ended: harvested, cleared or given away.",
    )


def marks_at_once(standing: Standing) -> bool:
    """Whether the next job needs nothing but to be ticked."""
    job = standing.next
    return job is not None and job.when.kind not in (*BY_SOWING, JobKind.COUNT)
