"""What a seed is worth ahead: the quick reckoning against the exact one of the sowing room."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest

from seedbox.science.sowing_rate import assurance_of_seeds, seeds_for_plants
from seedbox.season.listing import Listing
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.how_many import chances_here
from seedbox.season.swapping.aliveness import Alive, is_spent, seed_chances
from seedbox.season.swapping.seasons import next_sowing_day
from seedbox.tin.file import Tin

TODAY = date(2027, 2, 20)


def test_the_quick_reckoning_is_as_the_exact_one_and_never_asks_for_too_few(demo: Tin) -> None:
    listing = Listing(demo, TODAY)
    tried = 0
    for line in listing.lines[::5]:
        masses = listing.masses(line)
        if not masses:
            continue
        quick, exact = seed_chances(masses), chances_here(masses)
        assert sum(weight for _, weight in quick.nodes) == pytest.approx(1.0, abs=1e-5)
        assert quick.mean() == pytest.approx(exact.mean(), abs=1e-3)
        if assurance_of_seeds(exact, 20, 300) < 0.9:
            continue
        wanted = seeds_for_plants(exact, 20, 0.9)
        assert wanted <= seeds_for_plants(quick, 20, 0.9) <= 1.04 * wanted
        tried += 1
    assert tried > 10


def test_a_season_is_reckoned_once_and_a_spent_packet_has_no_chances(
    planted: Callable[..., Tin],
) -> None:
    years = (2026, 2022, 2016, 2005)
    desk = Desk(planted(*({"crop_id": "leek", "harvest_year": year} for year in years)), TODAY)
    ahead = next_sowing_day(desk)
    assert ahead == date(2027, 4, 25)
    alive = Alive(desk, ahead)
    spent = 0
    for line in desk.listing.lines:
        now = alive.chances(line)
        assert alive.chances(line, TODAY) is now
        assert (now is None) is is_spent(desk.listing.masses(line, ahead), desk.settings.floor)
        later = alive.chances(line, date(2028, 3, 1))
        spent += now is None
        if now is not None and later is not None:
            assert later.mean() <= now.mean()
    assert 0 < spent < len(years)
