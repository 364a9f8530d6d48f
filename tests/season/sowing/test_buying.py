"""What to buy: only what plans need and the tin is not sure of, in seeds, grams and reasons."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest

from seedbox.season.sowing.buying import BuyLine, buying, buying_rows
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.done import done
from seedbox.season.sowing.sow import Wish, sow
from seedbox.tin.file import Tin
from seedbox.tin.packets import recount, take
from seedbox.tin.plans import set_plan

Planted = Callable[..., Tin]
DAY = date(2027, 2, 1)


def lines(tin: Tin, day: date = DAY) -> dict[str, BuyLine]:
    return {line.plan.crop_id: line for line in buying(Desk(tin, day))}


def test_nothing_is_bought_that_is_there_or_that_nobody_wants(planted: Planted) -> None:
    tin = planted()
    assert lines(tin) == {}
    set_plan(tin, "cabbage", 12)
    assert lines(tin) == {}


def test_what_the_tin_has_not_is_bought_with_assurance(planted: Planted) -> None:
    tin = planted(crops=("cabbage",))
    set_plan(tin, "swede", 30)
    line = lines(tin)["swede"]
    assert (line.plants, line.sure, line.sowings) == (30, 0, 1)
    assert line.seeds > 30
    assert line.grams is not None
    assert line.grams > 0
    assert line.reason == "none in the tin; 30 plants wanted"
    assert line.by is not None
    assert line.by >= DAY


def test_old_seed_counts_for_what_it_is_sure_of(planted: Planted) -> None:
    tin = planted(crops=("onion_bulb",), packed_year=1995, today=DAY)
    set_plan(tin, "onion_bulb", 50)
    line = lines(tin)["onion_bulb"]
    assert line.sure == 0
    assert "sure of 0 of 50" in line.reason


def test_a_packet_nearly_empty_is_topped_up(planted: Planted) -> None:
    tin = planted(crops=("cabbage",))
    set_plan(tin, "cabbage", 20)
    packet = tin.packets()[0]
    take(tin, packet, 590, today=DAY)
    line = lines(tin)["cabbage"]
    assert 0 < line.sure < 10
    fewer = line.seeds
    recount(tin, packet, 0, today=DAY)
    assert lines(tin)["cabbage"].seeds > fewer


def test_a_packet_that_nobody_counted_is_to_be_counted_first(planted: Planted) -> None:
    tin = planted(crops=("cabbage",))
    set_plan(tin, "cabbage", 20)
    packet = tin.packets()[0]
    take(tin, packet, None, today=DAY)
    line = lines(tin)["cabbage"]
    assert line.uncounted == (packet.code,)
    assert "count" in line.reason


def test_successions_multiply_what_is_wanted(planted: Planted) -> None:
    tin = planted(crops=("cabbage",))
    set_plan(tin, "lettuce", 10, again_days=21)
    line = lines(tin)["lettuce"]
    assert line.sowings > 3
    assert line.plants == 10 * line.sowings


def test_what_was_sown_and_came_up_is_not_bought_again(planted: Planted) -> None:
    tin = planted(crops=("cabbage",), seeds=40)
    set_plan(tin, "cabbage", 20)
    day = date(2027, 3, 1)
    made = sow(tin, tin.packets()[0].code, "Windowsill", Wish(cells=40, per_cell=1), today=day)
    later = date(2027, 3, 15)
    done(tin, f"{made.sowing.code}-count", today=later, count=25)
    assert lines(tin, later) == {}


def test_the_demo_list_as_rows(demo: Tin) -> None:
    found = buying(Desk(demo, date(2027, 2, 20)))
    header, *rows = buying_rows(found)
    assert header[:6] == ("crop", "variety", "plants", "sowings", "seeds", "grams")
    assert len(rows) == len(found) > 0
    assert [line.by for line in found] == sorted(line.by for line in found if line.by)
    assert all(line.sure < line.plants and line.reason for line in found)
    assert any("spent" in line.reason for line in found)


@pytest.mark.parametrize("variety", ["Roof", ""])
def test_a_plan_of_one_variety_wants_that_variety(planted: Planted, variety: str) -> None:
    tin = planted(crops=("cabbage",))
    set_plan(tin, "cabbage", 12, variety=variety)
    assert bool(lines(tin)) == bool(variety)
