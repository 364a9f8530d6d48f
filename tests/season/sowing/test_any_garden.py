"""Whatever the garden is like, every question has an answer that holds together."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from seedbox.errors import BadDataError
from seedbox.season.sowing.buying import buying
from seedbox.season.sowing.calendar_events import calendar_events
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.fields import now_fields
from seedbox.season.sowing.garden import season_of, set_garden
from seedbox.season.sowing.now import SowingNow, now
from seedbox.season.sowing.saving_seed import saving_advice
from seedbox.season.sowing.sow import Wish, sow
from seedbox.season.sowing.sowing_jobs import jobs_of
from seedbox.season.sowing.tin_year import tin_year
from seedbox.season.sowing.today import today_jobs
from seedbox.tin.file import Tin
from seedbox.tin.places import edit_place
from seedbox.tin.plans import set_plan

Planted = Callable[..., Tin]
CROPS = ("tomato", "lettuce", "carrot", "leek", "onion_bulb", "beetroot", "foxglove", "okra")
DAYS = st.dates(date(2027, 1, 1), date(2029, 12, 31))
FROSTS = st.one_of(
    st.just(("none", "none")),
    st.tuples(DAYS, DAYS)
    .map(lambda days: tuple(f"{day:%m-%d}" for day in days))
    .filter(lambda days: days[0] != days[1] and "02-29" not in days),
)


@settings(
    max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    frosts=FROSTS,
    latitude=st.integers(-70, 70),
    today=DAYS,
    bed=st.tuples(st.floats(-10, 20), st.floats(0, 20)),
    plan=st.tuples(st.sampled_from(CROPS), st.integers(1, 200), st.none() | st.integers(7, 60)),
    cells=st.integers(1, 30),
)
def test_every_question_has_an_answer(
    planted: Planted,
    frosts: tuple[str, str],
    latitude: int,
    today: date,
    bed: tuple[float, float],
    plan: tuple[str, int, int | None],
    cells: int,
) -> None:
    with planted(crops=CROPS) as tin:
        set_garden(
            tin,
            last_spring_frost=frosts[0],
            first_autumn_frost=frosts[1],
            latitude=str(latitude),
        )
        edit_place(tin, "Bed", coolest_c=bed[0], warmest_c=bed[0] + bed[1])
        set_plan(tin, plan[0], plan[1], again_days=plan[2])
        _offers_hold(tin, now(tin, today), today)
        packet = tin.packets()[cells % len(CROPS)]
        sow(tin, packet.code, "Windowsill", Wish(cells=cells, per_cell=1), today=today)
        _the_rest_answers(tin, today)


def _offers_hold(tin: Tin, found: SowingNow, today: date) -> None:
    assert len(found.offers) + len(found.left_out) == len(CROPS)
    for offer in found.offers:
        assert offer.choice.emerging.verdict.sows
        assert offer.closes is None or offer.closes >= today
        assert 0 < offer.plan.seeds <= 600
        assert 0 < offer.plan.plants <= offer.wanted
        assert offer.plan.falls_short or offer.plan.assurance >= 0.9 - 1e-9
    order = [round(offer.urgency, 6) for offer in found.offers]
    assert order == sorted(order, reverse=True)
    assert len(now_fields(found)) == len(found.offers)
    year, start = season_of(_climate(tin, today), today)
    assert start < today <= start + timedelta(days=366)
    assert abs(year - today.year) <= 1


def _climate(tin: Tin, today: date) -> Any:
    climate = Desk(tin, today).garden.climate
    assert climate is not None
    return climate


def _the_rest_answers(tin: Tin, today: date) -> None:
    desk = Desk(tin, today)
    jobs = jobs_of(desk)
    assert jobs
    assert all(job.when.due >= today for job in jobs)
    assert all(job.when.good_until >= job.when.due for job in jobs)
    for later in (today, today + timedelta(days=90)):
        listed = [job.days_late for job in today_jobs(tin, later)]
        assert listed == sorted(listed, reverse=True)
    assert len({event.uid for event in calendar_events(tin, today)}) == len(
        calendar_events(tin, today)
    )
    assert len(tin_year(desk, today.year).crops) == len(CROPS)
    assert all(0 <= line.sure < line.plants for line in buying(desk))
    assert saving_advice(desk)


def test_frosts_that_do_not_go_together_are_refused(planted: Planted) -> None:
    tin = planted(crops=("leek",))
    for last, first in (("none", "10-25"), ("04-25", "none"), ("05-01", "05-01")):
        before = tin.settings()
        try:
            set_garden(tin, last_spring_frost=last, first_autumn_frost=first)
        except BadDataError as error:
            assert error.sentence
        else:
            raise AssertionError((last, first))
        assert tin.settings() == before
