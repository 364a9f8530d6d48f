"""A season of the demo garden, played day by day from its own day on.

Seed is sown when it is offered, jobs are done when they are due (some late, some never), one
sowing fails and is sown again, one is potted on late, plants go out, seed is saved.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta

import pytest

from seedbox.season.jobs import Job
from seedbox.season.listing import Listing
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.done import done, ended
from seedbox.season.sowing.in_progress import Stage
from seedbox.season.sowing.job_names import parse_job
from seedbox.season.sowing.new_seed import save_seed
from seedbox.season.sowing.now import now
from seedbox.season.sowing.offers import Offer
from seedbox.season.sowing.sow import Wish, sow
from seedbox.season.sowing.sowing_jobs import growing_of
from seedbox.season.sowing.today import today_jobs
from seedbox.tin.file import Tin
from seedbox.tin.history import undo

FIRST, LAST = date(2027, 2, 20), date(2027, 10, 30)
PLAYED = ("tomato", "leek", "courgette", "lettuce", "cabbage")
POTTED_LATE_DAYS = 5


@dataclass
class Diary:
    """What was done on which day, of the sowings of this season alone."""

    tin: Tin
    sown: dict[str, str] = field(default_factory=dict)  # code of the sowing: crop
    did: list[tuple[date, str, str]] = field(default_factory=list)  # day, job, kind
    late: dict[str, int] = field(default_factory=dict)  # most days late, by job

    def kinds(self, code: str) -> list[str]:
        return [kind for _, job, kind in self.did if job.startswith(code)]


def _days() -> Iterator[date]:
    day = FIRST
    while day <= LAST:
        yield day
        day += timedelta(days=1)


def _sow_what_is_offered(diary: Diary, today: date) -> None:
    """On Saturdays: the first choice of each played crop whose plan is not met."""
    for crop in PLAYED:
        if crop in diary.sown.values():
            continue
        found = now(diary.tin, today, crop_id=crop)
        wanted = [one for one in found.offers if not one.instead_of and _is_wanted(one)]
        if wanted:
            offer = wanted[0]
            code, place = offer.line.packet.code, offer.choice.place.name
            wish = Wish(plants=min(offer.plan.plants, 12))
            made = sow(diary.tin, code, place, wish, today=today)
            diary.sown[made.sowing.code] = crop


def _is_wanted(offer: Offer) -> bool:
    return offer.need is None or not offer.need.met


def _do(diary: Diary, job: Job, today: date) -> None:
    """Does what is due. The first cabbage never comes up; the leeks are potted on late."""
    code, _ = parse_job(job.job)
    crop = diary.sown.get(code)
    if crop is None or (job.kind == "pot on" and job.days_late < POTTED_LATE_DAYS):
        return
    tin, growing = diary.tin, growing_of(Desk(diary.tin, today), code)
    seeds, wanted = growing.sowing.seeds, growing.sown_for
    if job.kind == "count emergence":
        fails = crop == "cabbage" and list(diary.sown.values()).count("cabbage") == 1
        done(tin, job.job, today=today, count=0 if fails else max(round(0.8 * seeds), wanted))
    elif job.kind == "resow":
        again = sow(tin, growing.packet.code, growing.sown_in.name, Wish(plants=8), today=today)
        diary.sown[again.sowing.code] = crop
    elif job.kind == "sow again":
        return
    elif job.kind == "plant out":
        done(tin, job.job, today=today, count=growing.plants, place="Open beds")
    else:
        done(tin, job.job, today=today)
    diary.did.append((today, job.job, job.kind))


@pytest.fixture
def diary(demo: Tin) -> Diary:
    """The whole season. Looking for jobs each day, for seed to sow each week."""
    diary = Diary(demo)
    for today in _days():
        if today.isoweekday() == 6 and today < date(2027, 6, 1):
            _sow_what_is_offered(diary, today)
        for job in today_jobs(demo, today):
            diary.late[job.job] = max(diary.late.get(job.job, 0), job.days_late)
            if job.kind in _SOWN_JOBS:
                _do(diary, job, today)
    return diary


_SOWN_JOBS = {
    "count emergence", "thin", "pot on", "harden off", "plant out", "harvest from", "resow",
    "sow again",
}  # fmt: skip


def test_a_season_of_the_demo_garden(diary: Diary) -> None:
    _everything_was_done_in_its_turn(diary)
    _seed_is_saved_and_the_books_balance(diary)


def _everything_was_done_in_its_turn(diary: Diary) -> None:
    tin = diary.tin
    assert set(diary.sown.values()) == set(PLAYED)

    # Every sowing that was not replaced came to the beds and was harvested in its turn.
    desk = Desk(tin, LAST)
    for code, crop in diary.sown.items():
        growing, kinds = growing_of(desk, code), diary.kinds(code)
        if growing.emerged == 0:
            assert kinds == ["count emergence", "resow"], crop
            continue
        assert kinds[0] == "count emergence", crop
        assert growing.stage in (Stage.PLANTED_OUT, Stage.HARVESTED), (crop, growing.stage)
        if growing.sowing.cells is not None:
            assert kinds.index("harden off") < kinds.index("plant out"), crop
        assert growing.plants > 0, crop

    # Tender crops went out after the last frost, and what was harvested came after that.
    frost = date(2027, 4, 25)
    day_of = {(job, kind): day for day, job, kind in diary.did}
    for code, crop in diary.sown.items():
        out = day_of.get((f"{code}-plant-out", "plant out"))
        if crop in ("tomato", "courgette"):
            assert out is not None, crop
            assert out > frost, crop
    tomato = next(code for code, crop in diary.sown.items() if crop == "tomato")
    harvest = day_of[f"{tomato}-harvest", "harvest from"]
    assert date(2027, 6, 20) < harvest < date(2027, 9, 15)

    # The failed cabbage was sown again, and only once.
    cabbages = [code for code, crop in diary.sown.items() if crop == "cabbage"]
    assert len(cabbages) == 2

    # What waited rose with the days: every pot-on was done late, as played.
    potted = [job for _, job, kind in diary.did if kind == "pot on"]
    assert potted
    assert all(diary.late[job] >= POTTED_LATE_DAYS for job in potted)

    # Nothing of this season's sowings is left to do but sowing again.
    open_jobs = [job for job in today_jobs(tin, LAST) if job.job[:8] in diary.sown]
    assert {job.kind for job in open_jobs} <= {"sow again", "harvest from"}


def _seed_is_saved_and_the_books_balance(diary: Diary) -> None:
    tin = diary.tin
    lettuce = next(code for code, crop in diary.sown.items() if crop == "lettuce")
    parent = growing_of(Desk(tin, LAST), lettuce).packet
    child = save_seed(tin, lettuce, today=LAST, amount=500, store="Cold shed")
    assert child.parent_id == parent.id
    ended(tin, lettuce, today=LAST, note="seed saved")

    # Every seed sown this season is in the journal of its packet under its sowing.
    for code in diary.sown:
        sowing = tin.sowing(code)
        notes = [move for move in tin.movements(sowing.packet_id) if code[:4] in move.note]
        assert [move.on for move in notes] == [sowing.on]
        assert all(one.left is None or one.left >= 0 for one in tin.dossiers())

    # The failed tray and the good ones are evidence on packet and place, each once.
    listing = Listing(tin, LAST)
    cabbage = next(code for code, crop in diary.sown.items() if crop == "cabbage")
    trays = listing.line(growing_of(Desk(tin, LAST), cabbage).packet.code).dossier.trays
    assert len(trays) == 2
    assert 0 in [tray.emerged for tray in trays]

    # And the last steps can be taken back.
    undo(tin)
    assert growing_of(Desk(tin, LAST), lettuce).open
    undo(tin)
    assert child.code not in {packet.code for packet in tin.packets()}
