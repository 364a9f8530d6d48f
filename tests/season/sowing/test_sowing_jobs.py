"""Jobs derived from sowings: their names, what happened, putting off, failure, late ones first."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pytest

from seedbox.errors import BadDataError, NotFoundError
from seedbox.season.listing import Listing
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.done import Done, count_again, done, ended, failed, put_off, skip
from seedbox.season.sowing.in_progress import Stage
from seedbox.season.sowing.job_dates import JobKind
from seedbox.season.sowing.job_names import WORDS, parse_job
from seedbox.season.sowing.sow import Wish, sow
from seedbox.season.sowing.sowing_jobs import growing_of, jobs_of, sowing_jobs
from seedbox.season.sowing.today import board, today_jobs
from seedbox.tin import codes
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import EventKind, PlaceKind
from seedbox.tin.history import redo, undo
from seedbox.tin.places import add_place
from seedbox.tin.plans import set_plan
from seedbox.tin.settings import reset_setting

Planted = Callable[..., Tin]
SOWN = date(2027, 3, 11)


@pytest.fixture
def celery(planted: Planted) -> tuple[Tin, str]:
    """A tin with celery sown on a windowsill, and the sowing's code."""
    tin = planted(crops=("celery",))
    made = sow(tin, tin.packets()[0].code, "Windowsill", Wish(plants=12), today=SOWN)
    return tin, made.sowing.code


def due(tin: Tin, today: date) -> dict[JobKind, date]:
    return {job.when.kind: job.when.due for job in jobs_of(Desk(tin, today))}


def words(told: Done) -> list[str]:
    return [WORDS[job.when.kind] for job in told.next_jobs]


# --- Names ---------------------------------------------------------------------------------------
@pytest.mark.parametrize("kind", list(JobKind))
def test_a_job_can_be_typed_in_any_spelling(kind: JobKind) -> None:
    code, word = "S27557XW", WORDS[kind]
    for text in (
        f"{code}-{word}",
        f"{codes.shown(code).lower()} {word.replace('-', ' ')}",
        f" s2755-7xw  {word} ",
    ):
        assert parse_job(text) == (code, kind)


def test_what_names_no_job_is_told(celery: tuple[Tin, str]) -> None:
    tin, code = celery
    with pytest.raises(BadDataError, match="names no job"):
        parse_job("S27557XW-dance")
    with pytest.raises(BadDataError, match="check character"):
        parse_job("S27557XX-thin")
    with pytest.raises(NotFoundError, match="no job “resow” open"):
        done(tin, f"{code}-resow", today=SOWN)


def test_names_stay_while_days_move(celery: tuple[Tin, str]) -> None:
    tin, code = celery
    before = {job.id for job in jobs_of(Desk(tin, SOWN))}
    week = SOWN + timedelta(days=25)
    done(tin, f"{code}-count", today=week, count=20)
    after = {job.id for job in jobs_of(Desk(tin, week))}
    assert after < before
    assert before - after == {f"{code}-count"}


# --- Common practice, no source ------------------------------------------------------------------
def test_celery_goes_out_after_the_frosts_and_is_cut_from_july_or_august(
    celery: tuple[Tin, str],
) -> None:
    tin, _ = celery
    days = due(tin, SOWN)
    assert days[JobKind.PLANT_OUT] >= date(2027, 4, 25)
    assert date(2027, 7, 1) <= days[JobKind.HARVEST] <= date(2027, 8, 31)
    hardening = timedelta(days=tin.settings().hardening_days)
    assert days[JobKind.HARDEN_OFF] + hardening == days[JobKind.PLANT_OUT]


def test_parsnips_are_ready_by_autumn(planted: Planted) -> None:
    tin = planted(crops=("parsnip",))
    day = date(2027, 4, 1)
    sow(tin, tin.packets()[0].code, "Bed", Wish(plants=10), today=day)
    assert date(2027, 7, 1) <= due(tin, day)[JobKind.HARVEST] <= date(2027, 10, 15)


def test_tap_roots_in_shallow_cells_are_late_soonest(planted: Planted) -> None:
    tin = planted(crops=("leek", "lettuce"))
    day = date(2027, 2, 1)
    for packet in tin.packets():
        wish = Wish(plants=10, pot_depth_cm=4)
        made = sow(tin, packet.code, "Windowsill", wish, today=day)
        done(tin, f"{made.sowing.code}-count", today=day + timedelta(20), count=10)
    late = {job.crop: job for job in today_jobs(tin, date(2027, 4, 1)) if job.kind == "pot on"}
    assert "leek" in late
    assert late["leek"].days_late > 0
    assert "pot-bound" in late["leek"].why


# --- What happened moves the rest ----------------------------------------------------------------
def test_late_emergence_moves_every_later_job(celery: tuple[Tin, str]) -> None:
    tin, code = celery
    before = due(tin, SOWN)
    seen = before[JobKind.COUNT] + timedelta(days=30)
    done(tin, f"{code}-count", today=seen, count=20)
    after = due(tin, seen)
    for kind in (JobKind.PLANT_OUT, JobKind.HARVEST, JobKind.HARDEN_OFF):
        assert after[kind] > before[kind], kind
    undo(tin)
    assert due(tin, SOWN) == before
    redo(tin)
    assert due(tin, seen) == after


def test_overdue_emergence_says_what_to_check_and_rises(celery: tuple[Tin, str]) -> None:
    tin, code = celery
    first = today_jobs(tin, SOWN + timedelta(days=8))
    assert [job.days_late for job in first] == [0]
    later = [today_jobs(tin, SOWN + timedelta(days=days))[0] for days in (25, 40)]
    assert all(job.job == f"{code}-count" for job in later)
    assert 0 < later[0].days_late < later[1].days_late
    for word in ("dry", "cold", "deep"):
        assert word in later[0].why


def test_what_is_not_up_yet_is_not_thinned_nor_potted_on(planted: Planted) -> None:
    tin = planted(crops=("leek",))
    day = date(2027, 1, 20)
    wish = Wish(cells=30, per_cell=3, plants=30)
    code = sow(tin, tin.packets()[0].code, "Windowsill", wish, today=day).sowing.code
    waiting = date(2027, 4, 15)
    assert [job.kind for job in today_jobs(tin, waiting)] == ["count emergence"]
    skip(tin, f"{code}-count", today=waiting, note="they are up, nobody counted")
    assert {"thin", "pot on"} <= {job.kind for job in today_jobs(tin, waiting)}


def test_few_enough_seedlings_are_not_thinned(planted: Planted) -> None:
    tin = planted(crops=("carrot",))
    day = date(2027, 4, 5)
    for count, thins in ((12, False), (60, True)):
        made = sow(tin, tin.packets()[0].code, "Bed", Wish(seeds=80, plants=12), today=day)
        told = done(tin, f"{made.sowing.code}-count", today=date(2027, 5, 5), count=count)
        assert ("thin" in words(told)) == thins


def test_a_season_of_jobs_is_done_one_after_the_other(celery: tuple[Tin, str]) -> None:
    tin, code = celery
    bed = "Bed"
    told = done(tin, f"{code}-count", today=date(2027, 3, 20), count=22)
    assert "count" not in words(told)
    if "thin" in words(told):
        done(tin, f"{code}-thin", today=date(2027, 4, 1), count=14)
    told = done(tin, f"{code}-pot-on", today=date(2027, 4, 15), count=13, pot_depth_cm=10)
    assert growing_of(Desk(tin, date(2027, 4, 15)), code).plants == 13
    told = done(tin, f"{code}-harden-off", today=date(2027, 5, 10))
    assert "harden-off" not in words(told)
    told = done(tin, f"{code}-plant-out", today=date(2027, 5, 21), count=12, place=bed)
    growing = growing_of(Desk(tin, date(2027, 5, 21)), code)
    assert (growing.stage, growing.plants, growing.stands_in.name) == (Stage.PLANTED_OUT, 12, bed)
    assert words(told) == ["harvest"]
    told = done(tin, f"{code}-harvest", today=date(2027, 8, 20))
    assert words(told) == []
    ended(tin, code, today=date(2027, 11, 1))
    assert today_jobs(tin, date(2027, 12, 1), within_days=400) == ()
    with pytest.raises(BadDataError, match="was ended"):
        count_again(tin, code, 3, today=date(2027, 12, 1))


def test_emergence_needs_a_count_and_0_is_one(celery: tuple[Tin, str]) -> None:
    tin, code = celery
    with pytest.raises(BadDataError, match="0 is a count"):
        done(tin, f"{code}-count", today=SOWN + timedelta(days=12))
    told = done(tin, f"{code}-count", today=SOWN + timedelta(days=30), count=0)
    assert words(told) == ["resow"]


# --- Putting off and skipping --------------------------------------------------------------------
def test_a_job_put_off_is_due_then_and_says_so(celery: tuple[Tin, str]) -> None:
    tin, code = celery
    late = SOWN + timedelta(days=25)
    until = late + timedelta(days=10)
    put_off(tin, f"{code}-count", today=late, until=until)
    assert today_jobs(tin, late) == ()
    job = today_jobs(tin, until)[0]
    assert (job.due, job.days_late) == (until, 0)
    assert "put off" in job.why
    assert today_jobs(tin, until + timedelta(days=3))[0].days_late == 3


def test_a_skipped_job_stays_away_and_the_later_ones_stay(celery: tuple[Tin, str]) -> None:
    tin, code = celery
    before = set(due(tin, SOWN))
    skip(tin, f"{code}-harden-off", today=SOWN)
    assert set(due(tin, SOWN)) == before - {JobKind.HARDEN_OFF}
    with pytest.raises(NotFoundError, match="no job “harden-off” open"):
        put_off(tin, f"{code}-harden-off", today=SOWN)


# --- Failure -------------------------------------------------------------------------------------
def test_too_few_offer_to_resow_for_those_that_lack(celery: tuple[Tin, str]) -> None:
    tin, code = celery
    day = SOWN + timedelta(days=20)
    done(tin, f"{code}-count", today=day, count=5)
    job = next(job for job in today_jobs(tin, day) if job.kind == "resow")
    assert job.what == "Sow for 7 plants more."
    assert "5 of" in job.why
    again = tin.packets()[0].code
    with pytest.raises(BadDataError, match="so doubtful that even 295 seeds give 5 plants"):
        sow(tin, again, "Windowsill", Wish(plants=7), today=day)
    sow(tin, again, "Windowsill", Wish(cells=20, per_cell=3), today=day)
    assert not [job for job in today_jobs(tin, day) if job.kind == "resow"]


def test_a_failed_sowing_offers_to_resow_while_there_is_time(planted: Planted) -> None:
    tin = planted(crops=("tomato",))
    made = sow(tin, tin.packets()[0].code, "Windowsill", Wish(plants=4), today=SOWN)
    failed(tin, made.sowing.code, today=date(2027, 3, 28), note="slugs")
    assert [job.kind for job in today_jobs(tin, date(2027, 3, 28))] == ["resow"]
    assert today_jobs(tin, date(2027, 3, 28))[0].what == "Sow for 4 plants more."
    assert today_jobs(tin, date(2027, 9, 1)) == ()


# --- What a count teaches ------------------------------------------------------------------------
def test_counted_emergence_teaches_packet_and_place_once(planted: Planted) -> None:
    tin = planted(crops=("cabbage", "kale"))
    cabbage, kale = tin.packets()
    day = date(2027, 3, 30)
    before = Listing(tin, day)
    made = sow(tin, cabbage.code, "Greenhouse", Wish(cells=40, per_cell=1), today=SOWN)
    done(tin, f"{made.sowing.code}-count", today=day, on=date(2027, 3, 25), count=30)
    count_again(tin, made.sowing.code, 6, today=day)  # slugs? the last count is what stands
    after = Listing(tin, day)
    trays = after.line(cabbage.code).dossier.trays
    assert [(tray.place, tray.sown, tray.emerged) for tray in trays] == [("Greenhouse", 40, 6)]

    def mean(listing: Listing, code: str) -> float:
        forecast = listing.forecast(listing.line(code)).forecast
        assert forecast is not None
        assert forecast.mean is not None
        return forecast.mean

    assert mean(after, cabbage.code) < mean(before, cabbage.code)
    assert mean(after, kale.code) == mean(before, kale.code)
    assert after.place_factor("Greenhouse").mean() < before.place_factor("Greenhouse").mean()
    assert after.place_factor("Windowsill").mean() == before.place_factor("Windowsill").mean()
    assert tin.tray_counts() == []  # told once, by the sowing


def test_counts_of_two_sowings_are_two_trays(planted: Planted) -> None:
    tin = planted(crops=("cabbage",))
    code, day = tin.packets()[0].code, date(2027, 3, 30)
    means = []
    for _ in range(3):
        made = sow(tin, code, "Greenhouse", Wish(cells=40, per_cell=1), today=SOWN)
        done(tin, f"{made.sowing.code}-count", today=day, count=12)
        means.append(Listing(tin, day).place_factor("Greenhouse").mean())
    assert means == sorted(means, reverse=True)
    assert len(set(means)) == 3


# --- Today ---------------------------------------------------------------------------------------
def test_the_demo_day_has_late_due_and_coming_jobs(demo: Tin) -> None:
    found = board(demo, date(2027, 2, 20))
    assert found.late
    assert found.due
    assert found.coming
    lateness = [job.days_late for job in found.late]
    assert lateness == sorted(lateness, reverse=True)
    assert {"count emergence", "thin"} <= {job.kind for job in found.late}
    assert all(job.what and job.why for job in found.all)
    assert len({job.job for job in found.all}) == len(found.all)


def test_sowings_again_come_by_the_plan(planted: Planted) -> None:
    tin = planted(crops=("lettuce",))
    set_plan(tin, "lettuce", 6, again_days=20)
    made = sow(tin, tin.packets()[0].code, "Windowsill", Wish(plants=6), today=SOWN)
    assert due(tin, SOWN)[JobKind.SOW_AGAIN] == SOWN + timedelta(days=20)
    later = SOWN + timedelta(days=21)
    again = sow(tin, tin.packets()[0].code, "Windowsill", Wish(plants=6), today=later)
    ids = {job.id for job in jobs_of(Desk(tin, later))}
    assert f"{made.sowing.code}-sow-again" not in ids
    assert f"{again.sowing.code}-sow-again" in ids


def test_while_frosts_are_not_said_only_emergence_and_thinning_are_asked_for(
    celery: tuple[Tin, str],
) -> None:
    tin, code = celery
    reset_setting(tin, "last_spring_frost")
    assert set(due(tin, SOWN)) <= {JobKind.COUNT, JobKind.THIN}
    assert JobKind.COUNT in due(tin, SOWN)
    done(tin, f"{code}-count", today=SOWN + timedelta(days=20), count=12)


def test_jobs_of_a_garden_in_the_south_are_half_a_year_away(
    celery: tuple[Tin, str], planted: Planted
) -> None:
    north = due(celery[0], SOWN)
    tin, day = planted("10-25", "04-25", "-52", crops=("celery",)), date(2027, 9, 10)
    sow(tin, tin.packets()[0].code, "Windowsill", Wish(plants=12), today=day)
    south = due(tin, day)
    assert south.keys() == north.keys()
    for kind, when in north.items():
        assert abs((south[kind] - when).days - 183) <= 4, kind


def test_a_tin_without_sowings_has_no_jobs(planted: Planted) -> None:
    assert list(sowing_jobs(planted(crops=("leek",)), SOWN, 400)) == []


def test_plants_that_moved_stand_in_the_new_place(celery: tuple[Tin, str]) -> None:
    from seedbox.season.sowing.done import happened

    tin, code = celery
    add_place(tin, "Shelf", PlaceKind.SHELF, coolest_c=16, ppfd=200, light_hours=14)
    happened(tin, code, EventKind.MOVED, today=SOWN + timedelta(days=9), place="Shelf")
    growing = growing_of(Desk(tin, SOWN + timedelta(days=9)), code)
    assert (growing.sown_in.name, growing.stands_in.name) == ("Windowsill", "Shelf")
