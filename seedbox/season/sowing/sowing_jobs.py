"""Jobs of the sowings in a tin: derived from each sowing and what became of it, never stored."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta

from seedbox.errors import NotFoundError
from seedbox.season.jobs import Job
from seedbox.season.sowing import job_constants as c
from seedbox.season.sowing.as_sown import as_sown, is_of
from seedbox.season.sowing.climate import GardenClimate, spoken
from seedbox.season.sowing.course import Sown
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.in_progress import Growing
from seedbox.season.sowing.job_dates import JobDate, JobKind, jobs, resow_job
from seedbox.season.sowing.job_names import EVENT_OF, WORDS, parse_job
from seedbox.season.sowing.needs import NEARLY
from seedbox.season.sowing.windows import open_ways
from seedbox.tin import codes
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import EventKind, SowingEvent

_BY_WARMTH_ALONE = (JobKind.COUNT, JobKind.THIN)


@dataclass(frozen=True, slots=True)
class SowingJob:
    """One job of one sowing, put off or not. `id` can be typed; `when` has its reason and price."""

    growing: Growing
    when: JobDate
    put_off: bool = False

    @property
    def id(self) -> str:
        return f"{self.growing.sowing.code}-{WORDS[self.when.kind]}"

    def days_late(self, on: date) -> int:
        """Days past its last good day, or past the day to which it was put off."""
        return self.when.days_late(on)


def sowing_jobs(tin: Tin, today: date, within_days: int) -> Iterable[Job]:
    """Jobs of sowings that are due by a day, or within so many days more, for the list of jobs."""
    if not tin.sowings():
        return []
    found = jobs_of(Desk(tin, today))
    return [as_job(one, today) for one in found if (one.when.due - today).days <= within_days]


def jobs_of(desk: Desk) -> tuple[SowingJob, ...]:
    """Every job still to come of every open sowing, in order of date."""
    found = [job for growing in desk.sowings for job in _jobs(desk, growing)]
    return tuple(sorted(found, key=lambda job: (job.when.due, job.id)))


def jobs_of_one(desk: Desk, growing: Growing) -> tuple[SowingJob, ...]:
    """The jobs of one sowing, in order of date."""
    return tuple(sorted(_jobs(desk, growing), key=lambda job: job.when.due))


def find_job(desk: Desk, text: str) -> SowingJob:
    """The open job that a typed text names.

    Raises NotFoundError, with the open jobs of the sowing, when it is not to be done.
    """
    code, kind = parse_job(text)
    growing = growing_of(desk, code)
    open_jobs = jobs_of_one(desk, growing)
    found = next((job for job in open_jobs if job.when.kind is kind), None)
    if found is None:
        names = ", ".join(WORDS[job.when.kind] for job in open_jobs)
        raise NotFoundError(
            f"{growing.code} has no job “{WORDS[kind]}” open.",
            hint=f"Open are: {names}." if names else "Nothing is left to do with it.",
        )
    return found


def growing_of(desk: Desk, code: str) -> Growing:
    """The sowing of a code, as it stands."""
    for growing in desk.sowings:
        if growing.sowing.code == code:
            return growing
    raise NotFoundError(f"There is no sowing {codes.shown(code)} in the tin.")


def as_job(job: SowingJob, today: date) -> Job:
    """The job as every list of jobs shows it."""
    late = job.days_late(today)
    price = job.when.if_it_waits
    why = (
        f"{job.when.why}; {price}"
        if price and (late or job.when.kind is JobKind.POT_ON)
        else job.when.why
    )
    return Job(
        job=job.id,
        kind=job.when.kind.value,
        due=job.when.due,
        days_late=late,
        code=job.growing.sowing.code,
        crop=job.growing.crop,
        variety=job.growing.packet.variety,
        what=_what(job),
        why=f"{why[0].upper()}{why[1:]}." if why else "",
    )


def _what(job: SowingJob) -> str:
    """What to do, with the numbers of this sowing."""
    growing, kind = job.growing, job.when.kind
    plants, place = growing.plants, growing.stands_in.name
    said = {
        JobKind.COUNT: f"Count what came up of {growing.sowing.seeds} seeds: 0 counts too.",
        JobKind.THIN: f"Thin {growing.what}.",
        JobKind.POT_ON: f"Pot on {_plants(plants)}, from {place}.",
        JobKind.HARDEN_OFF: f"Begin to harden off {_plants(plants)}.",
        JobKind.PLANT_OUT: f"Plant out {_plants(plants)}.",
        JobKind.HARVEST: "Look whether it is ready; harvest begins about now.",
        JobKind.SOW_AGAIN: f"Sow {growing.what} again.",
        JobKind.RESOW: f"Sow for {_plants(max(growing.sown_for - plants, 1))} more.",
    }
    return said[kind]


def _plants(number: int) -> str:
    return "1 plant" if number == 1 else f"{number} plants"


def _jobs(desk: Desk, growing: Growing) -> Iterator[SowingJob]:
    figures, climate = desk.facts.figures(growing.packet.crop_id), desk.garden.climate
    if figures is None:
        return
    sown = as_sown(desk, growing, figures)
    if climate is None:
        yield from _without_climate(desk, growing, sown)
        return
    found: list[JobDate] = []
    if growing.open:
        derived = _moved_by_a_late_count(desk, growing, sown, climate)
        found += [one for one in derived if _still_to_do(desk, growing, one)]
    again = _resow(desk, growing, sown, climate)
    if again:
        found = [one for one in found if growing.plants] + [again]
    for one in found:
        moved = _put_off(growing, one)
        if moved is not None:
            yield moved


def _without_climate(desk: Desk, growing: Growing, sown: Sown) -> Iterator[SowingJob]:
    """Before the garden has said its frosts: only what does not depend on them."""
    found = _moved_by_a_late_count(desk, growing, sown, GardenClimate(None, None, 0.0))
    for one in found:
        if one.kind in _BY_WARMTH_ALONE and growing.open and _still_to_do(desk, growing, one):
            moved = _put_off(growing, one)
            if moved is not None:
                yield moved


def _moved_by_a_late_count(
    desk: Desk, growing: Growing, sown: Sown, climate: GardenClimate
) -> list[JobDate]:
    """The jobs; while an overdue count says that nothing is up yet, the others wait for it.

    Who skips the count tells that it came up as expected.
    """
    expected = list(jobs(sown, climate))
    count = next((job for job in expected if job.kind is JobKind.COUNT), None)
    overdue = count is not None and desk.today > count.good_until
    if count is None or not overdue or _put_off(growing, count) is None:
        return expected
    return [count, *jobs(replace(sown, emerged_on=desk.today), climate)]


def _still_to_do(desk: Desk, growing: Growing, job: JobDate) -> bool:
    """Whether what happened leaves the job open."""
    kind = job.kind
    if kind is JobKind.COUNT:
        return growing.emerged is None
    if growing.emerged == 0:
        return kind is JobKind.SOW_AGAIN and not _sown_later(desk, growing)
    if kind is JobKind.THIN:
        return growing.last(EventKind.THINNED) is None and growing.crowded
    if kind is JobKind.HARVEST:
        return growing.last(EventKind.HARVESTED) is None
    if kind is JobKind.SOW_AGAIN:
        return growing.last(EventKind.SOWN_AGAIN) is None and not _sown_later(desk, growing)
    return True


def _sown_later(desk: Desk, growing: Growing) -> bool:
    """Whether the same crop (or, where a plan names it, the variety) was sown after this."""
    named = {
        plan.variety.casefold()
        for plan in desk.garden.plans
        if plan.variety and is_of(plan, growing)
    }
    return any(
        one.packet.crop_id == growing.packet.crop_id
        and (not named or one.packet.variety.casefold() in named)
        and (one.sowing.on, one.sowing.id) > (growing.sowing.on, growing.sowing.id)
        for one in desk.sowings
    )


def _resow(desk: Desk, growing: Growing, sown: Sown, climate: GardenClimate) -> JobDate | None:
    """After too few came up, or the sowing failed; until the crop is sown again."""
    poor = growing.emerged is not None and growing.plants < NEARLY * growing.sown_for
    failed = growing.last(EventKind.FAILED)
    told = failed or (growing.last(EventKind.EMERGED) if poor else None)
    if told is None or growing.last(EventKind.ENDED) or growing.day_of(EventKind.PLANTED_OUT):
        return None
    if growing.last(EventKind.SOWN_AGAIN) or _sown_since(desk, growing, told.on):
        return None
    job = resow_job(sown, climate, desk.today)
    if job is None:
        return None
    opened = [way.opens for way in open_ways(sown.figures, climate, desk.today) if way.opens]
    due = max([told.on, *opened[:1]])
    seeds = f"{growing.emerged} of {growing.sowing.seeds} came up"
    came = "it failed" if growing.emerged is None else seeds
    why = f"{came}, {_plants(growing.plants)} of {growing.sown_for} wanted: {job.why}"
    return replace(job, due=due, good_until=due + timedelta(days=c.RESOW_WAITS), why=why)


def _sown_since(desk: Desk, growing: Growing, day: date) -> bool:
    return any(
        one.packet.crop_id == growing.packet.crop_id
        and one.sowing.id != growing.sowing.id
        and one.sowing.on >= day
        for one in desk.sowings
    )


def _put_off(growing: Growing, job: JobDate) -> SowingJob | None:
    """The job as put off, or None when it was skipped. Doing a job of the kind forgets both."""
    word, done = WORDS[job.kind], growing.day_of(EVENT_OF[job.kind])
    said = [
        one for one in growing.events if _is_about(one, word) and (done is None or one.on >= done)
    ]
    if not said:
        return SowingJob(growing, job)
    last = said[-1]
    if last.kind is EventKind.SKIPPED:
        return None
    until = last.until or job.due
    if until <= job.due:
        return SowingJob(growing, job)
    why = f"{job.why}; put off on {spoken(last.on)} to {spoken(until)}"
    moved = replace(job, due=until, good_until=max(until, job.good_until), why=why)
    return SowingJob(growing, moved, put_off=True)


def _is_about(event: SowingEvent, word: str) -> bool:
    return event.kind.of_a_job and event.job == word
