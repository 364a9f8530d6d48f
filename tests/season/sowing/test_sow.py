"""Sowing a packet: seed leaves it, the code lasts, too much is refused with what it would give."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest

from seedbox.errors import BadDataError, NotFoundError
from seedbox.season.sowing.sow import Wish, plan_sowing, sow
from seedbox.tin import codes
from seedbox.tin.file import Tin
from seedbox.tin.history import undo
from seedbox.tin.packets import edit_packet
from seedbox.tin.records import Unit

Planted = Callable[..., Tin]
DAY = date(2027, 3, 11)


def test_seed_leaves_the_packet_under_the_code_of_the_sowing(planted: Planted) -> None:
    tin = planted(crops=("tomato",), seeds=50)
    packet = tin.packets()[0]
    made = sow(tin, packet.code, "windowsill", Wish(plants=6), today=DAY)
    sowing = made.sowing
    assert codes.parse(sowing.code) == sowing.code
    assert sowing.code[0] == "S"
    assert (sowing.cells or 0) * (sowing.per_cell or 0) == sowing.seeds
    assert (sowing.plants_wanted, sowing.pot_depth_cm) == (6, 5.0)
    taken = tin.movements(packet.id)[-1]
    assert (taken.amount, taken.kind) == (sowing.seeds, "sown")
    assert codes.shown(sowing.code) in taken.note
    assert tin.dossier(packet.code).left == 50 - sowing.seeds
    undo(tin)
    assert tin.sowings() == []
    assert tin.dossier(packet.code).left == 50


def test_more_plants_than_the_packet_gives_are_refused_with_the_number(planted: Planted) -> None:
    tin = planted(crops=("tomato",), seeds=10)
    code = tin.packets()[0].code
    gives = plan_sowing(tin, code, "windowsill", Wish(plants=30), today=DAY).plants
    assert 0 < gives < 10
    with pytest.raises(BadDataError, match=f"gives {gives} plants for sure, not 30"):
        sow(tin, code, "windowsill", Wish(plants=30), today=DAY)
    assert tin.sowings() == []
    made = sow(tin, code, "windowsill", Wish(plants=30), today=DAY, take_short=True)
    assert made.sowing.seeds == 10
    assert made.sowing.plants_wanted == gives


def test_more_cells_than_there_is_seed_for_are_refused_with_what_all_gives(
    planted: Planted,
) -> None:
    tin = planted(crops=("tomato",), seeds=10)
    code = tin.packets()[0].code
    with pytest.raises(BadDataError, match=r"has only 10 seeds left; sown all, they give \d"):
        sow(tin, code, "windowsill", Wish(cells=12, per_cell=2), today=DAY)
    made = sow(tin, code, "windowsill", Wish(cells=5, per_cell=2, plants=4), today=DAY)
    assert (made.sowing.cells, made.sowing.per_cell, made.sowing.seeds) == (5, 2, 10)


def test_a_row_outdoors_has_its_length(planted: Planted) -> None:
    tin = planted(crops=("carrot",))
    made = sow(tin, tin.packets()[0].code, "bed", Wish(plants=40), today=date(2027, 4, 5))
    assert made.sowing.cells is None
    assert made.sowing.row_m is not None
    assert made.sowing.row_m > 0
    assert made.sowing.seeds > 40


def test_a_packet_in_grams_gives_up_what_the_seeds_weigh(demo: Tin) -> None:
    packet = next(p for p in demo.packets() if p.unit is Unit.GRAMS and p.crop_id == "leek")
    before = demo.dossier(packet.code).left
    made = sow(
        demo, packet.code, "clubhouse windowsill", Wish(cells=10, per_cell=2),
        today=date(2027, 2, 20),
    )  # fmt: skip
    after = demo.dossier(packet.code).left
    assert before is not None
    assert after is not None
    assert made.grams == pytest.approx(before - after)
    assert made.grams is not None
    assert made.grams > 0


def test_warnings_say_what_speaks_against_it(planted: Planted) -> None:
    tin = planted(crops=("tomato", "carrot"))
    tomato, carrot = (packet.code for packet in tin.packets())
    early = plan_sowing(tin, tomato, "bed", Wish(plants=2), today=date(2027, 1, 5)).warnings
    assert any(said.startswith("Not the time") for said in early)
    assert any("too cold" in said for said in early)
    deep = plan_sowing(tin, carrot, "windowsill", Wish(cells=4, per_cell=2), today=DAY).warnings
    assert any("roots want" in said for said in deep)


def test_planting_stock_and_unknown_places_are_refused(demo: Tin) -> None:
    stock = next(p for p in demo.packets() if p.kind == "planting stock")
    with pytest.raises(BadDataError, match="planted, not sown"):
        sow(demo, stock.code, "open beds", Wish(plants=2), today=date(2027, 2, 20))
    seed = next(p for p in demo.packets() if p.crop_id == "lettuce")
    with pytest.raises(NotFoundError, match="no place"):
        sow(demo, seed.code, "moon", Wish(plants=2), today=date(2027, 2, 20))


def test_clumps_are_left_together(planted: Planted) -> None:
    tin = planted(crops=("onion_bulb",))
    code = tin.packets()[0].code
    doubtful = plan_sowing(tin, code, "greenhouse", Wish(plants=40), today=DAY)
    assert doubtful.draft.per_cell is not None
    assert doubtful.draft.per_cell <= 8  # seed that may be dead is not heaped into a module
    edit_packet(tin, code, today=DAY, printed_germination=0.9, printed_on=date(2026, 11, 1))
    made = sow(tin, code, "greenhouse", Wish(plants=40), today=DAY)
    cells, together = made.sowing.cells or 0, made.sowing.left_per_cell
    assert together > 1
    assert cells * together >= 40 > (cells - 1) * together
    assert (made.sowing.per_cell or 0) <= 8
