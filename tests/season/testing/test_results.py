"""What a finished test says, what it does to the forecast, and tests that stop early."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.season.listing import Listing
from seedbox.season.testing.current import progress_of
from seedbox.season.testing.evidence import weighed
from seedbox.season.testing.results import finish, result
from seedbox.season.testing.starting import Wishes, start
from seedbox.tin.file import Tin
from seedbox.tin.history import undo
from seedbox.tin.records import GerminationTest, Packet, TestState
from seedbox.tin.tests import record_test

CountAll = Callable[..., None]


@pytest.fixture
def code(tin: Tin, doubtful: Packet, today: date, start_day: date) -> str:
    return start(tin, doubtful.code, Wishes(20), today=today, on=start_day).test.code


def test_a_finished_test_speaks(tin: Tin, code: str, today: date, count_all: CountAll) -> None:
    count_all(code, [(7, 6), (10, 5), (14, 2)])
    found = finish(tin, code, today=today)
    assert found.test.state is TestState.FINISHED
    said = found.sentences
    assert said[0].startswith("13 of 20 germinated, 65 % (")
    assert "Apart: 7 dead." in said
    assert any(each.startswith("Forecast before: ") for each in said)
    assert found.indices is not None
    # Mean germination time (Ellis & Roberts 1981): (6 x 7 + 5 x 10 + 2 x 14) / 13.
    assert found.indices.mean_time == pytest.approx(120 / 13)
    # Maguire (1962): 6/7 + 5/10 + 2/14.
    assert found.indices.speed == pytest.approx(6 / 7 + 5 / 10 + 2 / 14)


def test_the_forecast_moves_towards_the_result(
    tin: Tin, code: str, doubtful: Packet, today: date, count_all: CountAll
) -> None:
    count_all(code, [(7, 12), (10, 6), (14, 1)])
    listing = Listing(tin, today)
    before = listing.forecast(listing.line(doubtful.code)).forecast
    found = finish(tin, code, today=today)
    assert found.before == before
    assert found.before.mean is not None
    assert found.after.mean is not None
    assert found.before.mean < found.after.mean < 0.97
    assert found.after.high is not None
    assert found.before.high is not None
    narrower = found.after.high - (found.after.low or 0) < found.before.high - (
        found.before.low or 0
    )
    assert narrower
    listing = Listing(tin, today)
    assert listing.forecast(listing.line(doubtful.code)).forecast == found.after
    undo(tin)
    listing = Listing(tin, today)
    assert listing.forecast(listing.line(doubtful.code)).forecast == before


def test_earlier_tests_are_compared(
    tin: Tin, code: str, doubtful: Packet, today: date, count_all: CountAll
) -> None:
    record_test(tin, doubtful, date(2026, 3, 1), 20, 18, today=today)
    record_test(tin, doubtful, date(2025, 3, 1), 400, 350, today=today)
    count_all(code, [(7, 2), (14, 1)])
    found = finish(tin, code, today=today)
    assert [each.earlier.seeds for each in found.comparisons] == [400, 20]
    assert all(not each.spread.agree for each in found.comparisons)
    assert any("3 of 20 now, 18 of 20 on 1 March 2026." in each for each in found.sentences)


def test_one_look_gives_no_indices(tin: Tin, code: str, today: date, count_all: CountAll) -> None:
    count_all(code, [(14, 9)])
    found = finish(tin, code, today=today)
    assert found.indices is None
    assert "Counted too few times to say how fast it came." in found.sentences


def test_hard_and_fresh_seed_are_told_apart(tin: Tin, code: str, today: date) -> None:
    from seedbox.tin.counting import count

    count(tin, code, on=date(2027, 2, 15), normal=9, hard=4, fresh=2, abnormal=1, today=today)
    found = finish(tin, code, today=today)
    apart = next(each for each in found.sentences if each.startswith("Apart"))
    assert "1 abnormal" in apart
    assert "4 hard seed: alive" in apart
    assert "2 fresh" in apart
    assert "4 dead" in apart
    assert found.progress.germination.estimate == 9 / 20


def test_a_result_can_be_asked_for_again(
    tin: Tin, code: str, today: date, count_all: CountAll
) -> None:
    count_all(code, [(7, 6), (14, 5)])
    assert finish(tin, code, today=today) == result(tin, code, today)


def test_an_early_stop_counts_only_what_could_have_come(
    tin: Tin, code: str, today: date, count_all: CountAll, start_day: date
) -> None:
    count_all(code, [(7, 16)])
    assert progress_of(tin, code, today).decision.may_stop
    found = finish(tin, code, today=today, on=start_day + timedelta(days=7))
    assert found.test.stopped_early
    assert 16 <= weighed(found.test)[0] < 20
    assert any("might still have come" in each for each in found.sentences)
    assert any("stopped early, counted as of" in each for each in found.after.rests_on)


def test_a_reported_test_says_so_and_what_it_counts_for(
    tin: Tin, doubtful: Packet, today: date, code: str, count_all: CountAll
) -> None:
    theirs = record_test(
        tin, doubtful, date(2027, 1, 2), 20, 17, today=today, take_from_packet=False,
        reported_by="Maud Orr",
    )  # fmt: skip
    said = result(tin, theirs.code, today).sentences
    assert said[1] == (
        "Reported by Maud Orr, so the forecast counts it as a test of 9 seeds of your own."
    )
    count_all(code, [(7, 6), (14, 5)])
    after = finish(tin, code, today=today).sentences
    assert any("17 of 20 reported by Maud Orr on 2 January 2027." in each for each in after)
    assert not any(each.startswith("Reported by") for each in after)


def test_a_finish_long_after_the_last_look_says_what_it_takes_for_dead(
    tin: Tin, code: str, today: date, count_all: CountAll, start_day: date
) -> None:
    count_all(code, [(7, 9)])
    late = finish(tin, code, today=today)
    assert late.test.dead == 11
    assert any(each.startswith("Last counted on 8 February") for each in late.sentences)
    undo(tin)
    in_time = finish(tin, code, today=today, on=start_day + timedelta(days=7))
    assert in_time.test.dead is None
    assert not any(each.startswith("Last counted on") for each in in_time.sentences)


def stopped(seeds: int, normal: int, day: int) -> GerminationTest:
    begun = date(2027, 2, 1)
    return GerminationTest(
        1, "", 1, begun + timedelta(days=day), seeds, normal, started_on=begun,
        first_count_day=6, final_count_day=14,
    )  # fmt: skip


@given(seeds=st.integers(1, 400), share=st.floats(0, 1), day=st.integers(1, 20))
def test_weighing_never_loses_a_seedling_nor_invents_a_seed(
    seeds: int, share: float, day: int
) -> None:
    normal = round(seeds * share)
    counted, alive = weighed(stopped(seeds, normal, day))
    assert alive == normal
    assert max(normal, 1) <= counted <= seeds
    if day >= 14:
        assert counted == seeds


@pytest.mark.parametrize("day", [5, 6, 8, 11])
@pytest.mark.parametrize("germination", [0.3, 0.6, 0.9])
def test_weighing_is_fair_to_seed_that_is_merely_late(day: int, germination: float) -> None:
    """What comes by a day is `g x share`; of the seeds counted that must be g again."""
    from seedbox.science.time_course import course_prior, time_course

    seeds = 400
    share = time_course(course_prior(6, 14), 1, (), 0.0).come_by(day)
    counted, alive = weighed(stopped(seeds, round(seeds * germination * share), day))
    assert alive / counted == pytest.approx(germination, abs=0.01)
