"""What is due: any source joins, the latest stands first, and a test tells its own jobs."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.season import jobs
from seedbox.season.jobs import Job, jobs_due
from seedbox.tin.counting import count
from seedbox.tin.drafts import PacketDraft
from seedbox.tin.file import Tin
from seedbox.tin.packets import add_packet
from seedbox.tin.testing import TestPlan, start_test

DAY = date(2027, 2, 20)
LAID = DAY - timedelta(days=15)


@pytest.fixture
def lay(tin: Tin) -> Callable[..., str]:
    """Starts a test of 20 seeds that is counted on days 6 to 14, and gives its code."""

    def lay(on: date = LAID) -> str:
        draft = PacketDraft("leek", "Flagstaff Lane", amount=200, received_on=date(2026, 12, 1))
        plan = TestPlan(20, first_count_day=6, final_count_day=14)
        packet = add_packet(tin, draft, today=DAY)
        return start_test(tin, packet, plan, on=on, today=DAY).code

    return lay


def _told(name: str, due: date) -> Job:
    return Job(name, "thin", due, max((DAY - due).days, 0), "S0000000", "leek", "", "Thin.", "Now.")


@given(st.lists(st.integers(-30, 30), max_size=8), st.lists(st.integers(-30, 30), max_size=8))
def test_sources_are_put_together_with_the_latest_first(first: list[int], then: list[int]) -> None:
    def source(days: list[int], mark: str) -> jobs.Source:
        def told(tin: Tin, today: date, within_days: int) -> Iterable[Job]:
            return [_told(f"{mark}{n}", today + timedelta(d)) for n, d in enumerate(days)]

        return told

    sources = (source(first, "a"), source(then, "b"))
    found = jobs_due(None, DAY, sources=sources)  # type: ignore[arg-type]
    assert len({job.job for job in found}) == len(found) == len(first) + len(then)
    late = [job.days_late for job in found]
    assert late == sorted(late, reverse=True)
    ahead = [job.due for job in found if not job.days_late]
    assert ahead == sorted(ahead)


def test_a_test_has_one_job_at_a_time(tin: Tin, lay: Callable[..., str]) -> None:
    code = lay()

    def job() -> Job:
        (only,) = jobs_due(tin, DAY)
        assert (only.code, only.crop, only.variety) == (code, "leek", "Flagstaff Lane")
        return only

    assert (job().kind, job().due, job().days_late) == ("first count", LAID + timedelta(6), 9)
    assert job().why == "20 seeds were laid on 5 February. The last was day 14, 1 day ago."
    names = [job().job]
    for day in (6, 8, 10, 12):
        count(tin, code, on=LAID + timedelta(day), normal=2, today=DAY)
        assert job().due == LAID + timedelta(day + 2)
        names.append(job().job)
    assert job().kind == "last count"
    count(tin, code, on=DAY, normal=1, today=DAY)
    assert (job().kind, job().days_late) == ("finish", 1)
    assert len({*names, job().job}) == 6


def test_a_test_with_every_seed_found_waits_to_be_finished(
    tin: Tin, lay: Callable[..., str]
) -> None:
    code = lay(on=DAY - timedelta(7))
    count(tin, code, on=DAY, normal=15, dead=5, today=DAY)
    (job,) = jobs_due(tin, DAY)
    assert (job.kind, job.due, job.days_late) == ("finish", DAY, 0)


def test_what_lies_ahead_joins_within_its_days(tin: Tin, lay: Callable[..., str]) -> None:
    lay(on=DAY - timedelta(3))
    assert jobs_due(tin, DAY) == jobs_due(tin, DAY, within_days=2) == ()
    (job,) = jobs_due(tin, DAY, within_days=3)
    assert (job.due, job.days_late) == (DAY + timedelta(3), 0)
    assert job.why == "20 seeds were laid on 17 February. Today is day 3 of 14."
    (again,) = jobs_due(tin, DAY + timedelta(3))
    assert again.job == job.job
