"""Forecasts of packets: what moves them, which way, and what they say for themselves."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seedbox.season.forecast import Advice, Forecast, Forecaster
from seedbox.tin.preferences import Settings
from seedbox.tin.records import (
    Dossier,
    GerminationTest,
    Kind,
    Origin,
    OwnCrop,
    OwnFigure,
    Packet,
    StoragePeriod,
    Store,
    Treatment,
    Unit,
)

TODAY = date(2026, 3, 1)
DRAWER = Store(1, "kitchen drawer", 17, 24, 0.55)
JAR = Store(2, "sealed jar", 5, 5, sealed=True, sealed_moisture=6.0)
CELLAR = Store(3, "wet cellar", 8, 14, 0.85)
FREEZER = Store(4, "deep freeze", -80, -80, sealed=True, sealed_moisture=5.0)
BARE = Store(5, "shelf", 18, 18)
STORES = {store.id: store for store in (DRAWER, JAR, CELLAR, FREEZER, BARE)}


def packet(crop_id: str = "tomato", **fields: object) -> Packet:
    defaults: dict[str, object] = {
        "origin": Origin.BOUGHT,
        "harvest_year": 2023,
        "unit": Unit.SEEDS,
    }
    return Packet(1, "P4K7QMX2", crop_id, **(defaults | fields))  # type: ignore[arg-type]


def kept(
    of: Packet, store: Store | None = DRAWER, left: float | None = 100, **more: object
) -> Dossier:
    storage = (StoragePeriod(1, date(2024, 1, 1), store.id),) if store else ()
    return Dossier(of, left, storage, **more)  # type: ignore[arg-type]


def forecast(dossier: Dossier, on: date = TODAY, **settings: object) -> Forecast:
    return Forecaster(Settings(**settings)).forecast(dossier, on, STORES)  # type: ignore[arg-type]


def test_figures_lie_in_order_and_say_what_they_rest_on() -> None:
    found = forecast(kept(packet()))
    assert 0 <= found.low < found.mean < found.high <= 1
    assert found.p_standard <= found.p_floor
    assert found.standard_basis == "EU minimum for sale"
    said = " ".join(found.rests_on)
    for word in ("No test yet", "Bought seed", "Harvested 2023", "kitchen drawer", "independent"):
        assert word in said
    assert found.supported
    assert not found.warnings


@pytest.mark.parametrize("crop_id", ["parsnip", "tomato", "bean_french_dwarf", "onion_bulb"])
def test_older_seed_is_worse(crop_id: str) -> None:
    means = [forecast(kept(packet(crop_id, harvest_year=year))).mean for year in range(2012, 2025)]
    assert means == sorted(means)


def test_a_sealed_jar_in_the_cold_keeps_seed_longer() -> None:
    drawer, jar = (forecast(kept(packet("onion_bulb"), store)) for store in (DRAWER, JAR))
    assert jar.mean > drawer.mean
    assert jar.p_standard > drawer.p_standard


def test_moving_does_not_rewrite_the_past() -> None:
    always = forecast(kept(packet("onion_bulb"), DRAWER))
    moved = Dossier(
        packet("onion_bulb"),
        100,
        (StoragePeriod(1, date(2024, 1, 1), 1), StoragePeriod(1, TODAY, 2)),
    )
    found = forecast(moved)
    assert found.mean == always.mean
    later = TODAY + timedelta(days=1000)
    assert forecast(moved, later).mean > forecast(kept(packet("onion_bulb")), later).mean


def test_a_test_moves_and_narrows_the_forecast() -> None:
    plain = forecast(kept(packet("tomato", harvest_year=2021)))
    day = date(2026, 2, 1)
    good, poor = (
        forecast(
            kept(
                packet("tomato", harvest_year=2021),
                tests=(GerminationTest(1, "", 1, day, 50, alive),),
            )
        )
        for alive in (45, 10)
    )
    assert poor.mean < plain.mean < good.mean
    assert good.high - good.low < plain.high - plain.low
    assert "Tested 1 February 2026: 45 of 50." in good.rests_on


def test_a_test_that_another_reported_moves_the_forecast_less() -> None:
    day, old = date(2026, 2, 1), packet("tomato", harvest_year=2021)
    plain = forecast(kept(old))
    own, theirs = (
        forecast(kept(old, tests=(GerminationTest(1, "", 1, day, 50, 20, reported_by=whose),)))
        for whose in ("", "Maud Orr")
    )
    assert own.mean < theirs.mean < plain.mean
    assert theirs.high - theirs.low > own.high - own.low
    # With an intraclass correlation of 0.10, 50 seeds weigh as 50 / 5.9 = 8.47 independent ones;
    # with 0.04 so do 8.47 x 0.96 / (1 - 8.47 x 0.04) = 12.3 (Kish 1965, design effect).
    assert theirs.rests_on[0] == (
        "Tested by Maud Orr 1 February 2026: 20 of 50, counted as of 12 seeds."
    )
    assert own.rests_on[0] == "Tested 1 February 2026: 20 of 50."


def test_a_reported_test_stopped_early_is_said_to_be_both() -> None:
    test = GerminationTest(
        1, "", 1, date(2026, 2, 1), 30, 9, started_on=date(2026, 1, 24), final_count_day=14,
        reported_by="Maud Orr",
    )  # fmt: skip
    (said,) = [each for each in forecast(kept(packet(), tests=(test,))).rests_on if "Maud" in each]
    assert "9 of 30, stopped early, counted as of " in said
    assert int(said.split()[-2]) < 12


def test_hard_seed_counts_as_alive() -> None:
    # 7 CFR 201.31: for the minimum standards hard seed counts with what germinated.
    day = date(2026, 2, 1)
    tests = [GerminationTest(1, "", 1, day, 50, 30, hard) for hard in (0, 15)]
    without, with_hard = (forecast(kept(packet("pea"), tests=(test,))) for test in tests)
    assert with_hard.mean > without.mean
    assert "15 hard seeds" in with_hard.rests_on[0]


def test_a_test_of_tomorrow_is_not_known_today() -> None:
    test = GerminationTest(1, "", 1, TODAY + timedelta(days=5), 50, 2)
    assert forecast(kept(packet(), tests=(test,))) == forecast(kept(packet()))


def test_a_printed_figure_counts_as_a_test() -> None:
    high = forecast(kept(packet(printed_germination=0.96, printed_on=date(2023, 11, 1))))
    low = forecast(kept(packet(printed_germination=0.70, printed_on=date(2023, 11, 1))))
    assert low.mean < high.mean
    assert any("Printed on the packet: 70 %" in said for said in low.rests_on)


@pytest.mark.parametrize("origin", [Origin.SAVED, Origin.SWAPPED, Origin.GIFT, None])
def test_other_seed_is_less_sure_than_bought(origin: Origin | None) -> None:
    bought, other = (
        forecast(kept(packet(origin=o, harvest_year=2025))) for o in (Origin.BOUGHT, origin)
    )
    assert other.mean < bought.mean
    assert other.high - other.low > bought.high - bought.low


def test_primed_seed_ages_faster() -> None:
    plain = forecast(kept(packet("lettuce")))
    primed = forecast(kept(packet("lettuce", treatment=Treatment.PRIMED)))
    assert primed.mean < plain.mean
    assert any("Primed" in said for said in primed.rests_on)


def test_the_five_pieces_of_advice_all_occur() -> None:
    crops = ("parsnip", "tomato", "onion_bulb", "cucumber", "bean_french_dwarf")
    advised = {
        forecast(kept(packet(crop, harvest_year=year), store)).advice
        for crop in crops
        for year in range(2010, 2026)
        for store in (DRAWER, JAR)
    }
    assert advised == set(Advice)


def test_good_until_is_the_day_on_which_it_is_no_longer_sure() -> None:
    of = kept(packet("tomato", harvest_year=2025))
    found = forecast(of)
    assert found.advice in {Advice.SOW, Advice.USE_UP}
    before = forecast(of, found.good_until - timedelta(days=15))
    after = forecast(of, found.good_until + timedelta(days=15))
    assert before.p_standard > 0.75 > after.p_standard


def test_use_up_is_lost_within_a_year_and_sow_is_not() -> None:
    for year in range(2018, 2026):
        for crop in ("tomato", "parsnip", "cucumber"):
            found = forecast(kept(packet(crop, harvest_year=year)))
            if found.advice is Advice.SOW:
                assert found.good_until >= TODAY + timedelta(days=355)
            if found.advice is Advice.USE_UP:
                assert found.good_until <= TODAY + timedelta(days=375)


def test_sow_thick_has_a_factor_and_test_a_number_of_seeds() -> None:
    for year in range(2008, 2024):
        found = forecast(kept(packet("tomato", harvest_year=year), left=80))
        assert (found.thick_factor is not None) == (found.advice is Advice.SOW_THICK)
        assert (found.test_seeds is not None) == (found.advice is Advice.TEST)
        assert found.test_seeds is None or found.test_seeds <= 20
        assert (found.good_until is None) == (found.advice in {Advice.TEST, Advice.SPENT})


def test_grams_become_seeds_for_the_size_of_a_test() -> None:
    old = packet("tomato", harvest_year=2014, unit=Unit.GRAMS)
    assert forecast(kept(old, left=0.01)).test_seeds is None
    assert forecast(kept(old, left=5)).test_seeds in {10, 20, 25, 50}


def test_a_wet_cellar_and_a_very_cold_freezer_are_marked() -> None:
    for store, word in ((CELLAR, "damper"), (FREEZER, "colder")):
        found = forecast(kept(packet(), store))
        assert not found.supported
        assert word in found.warnings[0]
        assert 0 <= found.mean <= 1


def test_missing_humidity_and_store_are_assumed_aloud() -> None:
    assert any("humidity not given" in said for said in forecast(kept(packet(), BARE)).rests_on)
    assert any("No store given" in said for said in forecast(kept(packet(), None)).rests_on)


def test_an_own_crop_rests_on_its_family_and_own_figures_come_first() -> None:
    crops = [OwnCrop("own:1", "sky bean", "Fabaceae"), OwnCrop("own:2", "mystery")]
    plain = Forecaster(Settings(), (), crops)
    of_family, of_none = (plain.forecast(kept(packet(crop.id)), TODAY, STORES) for crop in crops)
    assert any("by its family" in said for said in of_family.rests_on)
    assert any("middle of all crops" in said for said in of_none.rests_on)
    figures = [OwnFigure("own:1", "storage_years", "20"), OwnFigure("own:1", "standard", "90")]
    own = Forecaster(Settings(), figures, crops).forecast(kept(packet("own:1")), TODAY, STORES)
    assert own.standard == pytest.approx(0.9)
    assert own.standard_basis == "your own figure"
    assert any("your own figure" in said for said in own.rests_on)


def test_region_and_settings_move_the_standard() -> None:
    eu, us = (forecast(kept(packet("carrot")), region=region) for region in ("eu", "us"))
    # Directive 2002/55/EC Annex II: carrot 65 %. 7 CFR 201.31: carrot 55 %.
    assert (eu.standard, us.standard) == (pytest.approx(0.65), pytest.approx(0.55))


def test_saved_seed_is_told_when_to_be_regrown() -> None:
    found = forecast(kept(packet("bean_french_dwarf", origin=Origin.SAVED, harvest_year=2025)))
    assert found.regrow_before > TODAY
    old = forecast(kept(packet("bean_french_dwarf", origin=Origin.SAVED, harvest_year=2014)))
    assert old.regrow_before < TODAY
    assert forecast(kept(packet())).regrow_before is None


def test_planting_stock_has_a_shelf_date_and_no_forecast() -> None:
    sets = packet("onion_bulb", kind=Kind.STOCK, harvest_year=2025)
    found = forecast(kept(sets))
    assert found.mean is found.low is found.high is found.advice is None
    assert found.shelf_date == found.good_until
    assert Forecaster(Settings()).curve(kept(sets), TODAY, STORES, date(2030, 1, 1)) == []


def test_the_curve_starts_at_the_beginning_and_falls() -> None:
    of = kept(packet("parsnip"))
    until = date(2032, 1, 1)
    curve = Forecaster(Settings()).curve(of, TODAY, STORES, until, 40)
    assert len(curve) == 40
    assert (curve[0][0], curve[-1][0]) == (date(2023, 10, 1), until)
    means = [mean for _, mean, _, _ in curve]
    assert means == sorted(means, reverse=True)
    assert all(low <= mean <= high for _, mean, low, high in curve)


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(["tomato", "parsnip", "pea", "own:x", "borage"]),
    st.one_of(st.none(), st.integers(1950, 2030)),
    st.one_of(st.none(), st.dates(date(1990, 1, 1), date(2030, 1, 1))),
    st.lists(
        st.tuples(st.dates(date(1990, 1, 1), date(2030, 1, 1)), st.sampled_from(list(STORES))),
        max_size=4,
    ),
    st.lists(
        st.tuples(
            st.dates(date(1990, 1, 1), TODAY),
            st.integers(1, 400),
            st.floats(0, 1),
            st.integers(0, 3),
        ),
        max_size=3,
    ),
    st.one_of(st.none(), st.floats(0, 1)),
    st.sampled_from(["north", "south"]),
)
def test_whatever_the_record_holds_there_is_a_forecast(
    crop_id: str,
    year: int | None,
    sow_by: date | None,
    storage: list[tuple[date, int]],
    tests: list[tuple[date, int, float, int]],
    printed: float | None,
    hemisphere: str,
) -> None:
    of = replace(packet(crop_id), harvest_year=year, sow_by=sow_by, printed_germination=printed)
    dossier = Dossier(
        of,
        None,
        tuple(StoragePeriod(1, day, store) for day, store in storage),
        tuple(
            GerminationTest(i, "", 1, day, seeds, int(share * seeds), hard)
            for i, (day, seeds, share, hard) in enumerate(tests)
        ),
    )
    found = forecast(dossier, hemisphere=hemisphere)
    assert 0 <= found.low <= found.mean <= found.high <= 1
    assert -1e-6 <= found.p_standard <= found.p_floor + 1e-6 <= 1 + 2e-6
    assert found.advice in Advice
    assert all(said.endswith(".") for said in found.rests_on + found.warnings)
