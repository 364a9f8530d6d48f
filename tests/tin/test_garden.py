"""Places, plans, sowings and events: what goes in, what is refused, undone and done again."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin import codes
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import EventKind, Place, PlaceKind, Sowing
from seedbox.tin.history import redo, undo
from seedbox.tin.packets import PacketDraft, add_packet, remove_packet
from seedbox.tin.places import add_place, check_place, edit_place, remove_place
from seedbox.tin.plans import remove_plan, set_plan
from seedbox.tin.records import Kind, Packet, Unit
from seedbox.tin.schema import TABLES
from seedbox.tin.settings import set_setting
from seedbox.tin.sowing_events import record_event, remove_event
from seedbox.tin.sowings import SowingDraft, add_sowing, remove_sowing

TODAY = date(2026, 3, 14)
MONTHS = (4.0, 4.0, 6.0, 9.0, 12.0, 15.0, 17.0, 17.0, 14.0, 11.0, 7.0, 5.0)


@pytest.fixture
def packet(tin: Tin) -> Packet:
    return add_packet(
        tin,
        PacketDraft("tomato", "Lock Keeper", amount=50, received_on=date(2026, 1, 2)),
        today=TODAY,
    )


@pytest.fixture
def sill(tin: Tin) -> Place:
    return add_place(tin, "Sill", PlaceKind.WINDOWSILL, coolest_c=18, ppfd=90, light_hours=11)


@pytest.fixture
def sowing(tin: Tin, packet: Packet, sill: Place) -> Sowing:
    draft = SowingDraft(cells=6, per_cell=2, plants_wanted=6, pot_depth_cm=5)
    return add_sowing(tin, packet, sill, draft, today=TODAY, on=date(2026, 3, 1))


def everything(tin: Tin) -> dict[str, list[tuple[Any, ...]]]:
    return {table: tin.database.rows(f"SELECT * FROM {table} ORDER BY id") for table in TABLES}


# --- Places --------------------------------------------------------------------------------------
def test_a_place_is_covered_unless_it_is_a_bed(tin: Tin) -> None:
    for kind in PlaceKind:
        place = add_place(tin, kind.value, kind, coolest_c=10)
        assert place.covered == (kind is not PlaceKind.BED)
    assert add_place(tin, "Fleece", PlaceKind.BED, coolest_c=4, covered=True).covered
    assert {place.kind for place in tin.places()} == set(PlaceKind)


def test_twelve_months_give_the_ends_and_are_put_aside_by_new_ends(tin: Tin) -> None:
    bed = add_place(tin, "Bed", PlaceKind.BED, months_c=MONTHS)
    assert (bed.coolest_c, bed.warmest_c, bed.months_c) == (4.0, 17.0, MONTHS)
    assert tin.place(" BED ") == bed
    assert edit_place(tin, "bed", note="mulched").months_c == MONTHS
    changed = edit_place(tin, "bed", warmest_c=19.0)
    assert (changed.warmest_c, changed.months_c) == (19.0, ())
    assert tin.place("bed") == changed


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"name": " "}, "needs a name"),
        ({"coolest_c": 80.0}, "not between"),
        ({"coolest_c": float("nan")}, "not between"),
        ({"coolest_c": 20.0, "warmest_c": 10.0}, "colder than the coolest"),
        ({"months_c": (1.0, 2.0)}, "twelve monthly"),
        ({"ppfd": 9_000.0, "light_hours": 12.0}, "A light is"),
        ({"ppfd": 90.0, "light_hours": 30.0}, "hours of light"),
        ({"ppfd": 90.0}, "Light needs both"),
        ({"coolest_c": None}, "needs a temperature"),
    ],
)
def test_places_that_cannot_be(tin: Tin, wrong: dict[str, Any], words: str) -> None:
    given_so = {"name": "Sill", "kind": PlaceKind.WINDOWSILL, "coolest_c": 18.0, **wrong}
    with pytest.raises(BadDataError, match=words):
        add_place(tin, **given_so)
    assert tin.places() == []


def test_a_place_has_one_name_and_stays_while_it_was_used(
    tin: Tin, sill: Place, sowing: Sowing
) -> None:
    with pytest.raises(BadDataError, match="already"):
        add_place(tin, "SILL", PlaceKind.SHELF, coolest_c=20)
    with pytest.raises(BadDataError, match="so it stays"):
        remove_place(tin, "sill")
    with pytest.raises(BadDataError, match="cannot be edited"):
        edit_place(tin, "sill", id=7)
    with pytest.raises(NotFoundError, match="no place"):
        tin.place("moon")
    bed = add_place(tin, "Bed", PlaceKind.BED, coolest_c=4, warmest_c=18)
    remove_place(tin, "bed")
    assert bed not in tin.places()


@given(
    coolest=st.floats(allow_nan=True), warmest=st.floats(allow_nan=True), hours=st.floats(-5, 50)
)
def test_a_sound_place_is_one_that_the_table_takes(
    coolest: float, warmest: float, hours: float
) -> None:
    place = Place(0, "x", PlaceKind.BED, False, coolest, warmest, ppfd=5.0, light_hours=hours)
    sound = -40 <= coolest <= warmest <= 50 and 0 <= hours <= 24
    assert (check_place(place) == []) == sound


# --- Plans ---------------------------------------------------------------------------------------
def test_a_plan_of_the_same_crop_variety_and_year_is_changed(tin: Tin) -> None:
    first = set_plan(tin, "leek", 40)
    other = set_plan(tin, "leek", 12, variety="Sentry", year=2026)
    again = set_plan(tin, "leek", 60, again_days=30, note="more")
    assert again.id == first.id != other.id
    assert [(plan.plants, plan.variety) for plan in tin.plans()] == [(60, ""), (12, "Sentry")]
    assert set_plan(tin, "leek", 14, variety="sentry", year=2026).id == other.id
    remove_plan(tin, first.id)
    assert [plan.plants for plan in tin.plans()] == [14]
    with pytest.raises(NotFoundError, match="no plan"):
        remove_plan(tin, first.id)


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"plants": 0}, "Plan 1 to"),
        ({"crop_id": ""}, "needs a crop"),
        ({"again_days": 0}, "Sow again after"),
        ({"year": 26}, "The year 26"),
        ({"variety": "x" * 300}, "characters"),
    ],
)
def test_plans_that_cannot_be(tin: Tin, wrong: dict[str, Any], words: str) -> None:
    given_so = {"crop_id": "leek", "plants": 5, **wrong}
    with pytest.raises(BadDataError, match=words):
        set_plan(tin, **given_so)


# --- Sowings -------------------------------------------------------------------------------------
def test_a_sowing_takes_its_seed_under_its_own_code(
    tin: Tin, packet: Packet, sowing: Sowing
) -> None:
    assert sowing.code[0] == "S"
    assert codes.parse(sowing.code.lower()) == sowing.code
    assert tin.sowing(codes.shown(sowing.code)) == sowing
    assert (sowing.seeds, sowing.cells, sowing.per_cell) == (12, 6, 2)
    taken = tin.movements(packet.id)[-1]
    assert (taken.on, taken.kind, taken.amount) == (sowing.on, "sown", 12)
    assert tin.dossier(packet.code).left == 38


@pytest.mark.parametrize(
    ("draft", "words"),
    [
        (SowingDraft(), "1 to"),
        (SowingDraft(cells=3), "seeds each"),
        (SowingDraft(seeds=2, per_cell=2), "number of cells"),
        (SowingDraft(cells=0, per_cell=1), "cannot be 0"),
        (SowingDraft(seeds=1, row_m=-1), "no row"),
        (SowingDraft(seeds=1, left_per_cell=0), "At least one"),
        (SowingDraft(seeds=1, plants_wanted=0), "at least one plant"),
        (SowingDraft(seeds=1, pot_depth_cm=900), "not 900 cm"),
        (SowingDraft(seeds=51), "only 50 seeds left"),
    ],
)
def test_sowings_that_cannot_be(
    tin: Tin, packet: Packet, sill: Place, draft: SowingDraft, words: str
) -> None:
    with pytest.raises(BadDataError, match=words):
        add_sowing(tin, packet, sill, draft, today=TODAY)
    assert tin.sowings() == []
    assert tin.dossier(packet.code).left == 50


def test_planting_stock_seed_in_grams_and_days_to_come(tin: Tin, sill: Place) -> None:
    sets = add_packet(tin, PacketDraft("onion_bulb", kind=Kind.STOCK, amount=5), today=TODAY)
    grams = add_packet(
        tin, PacketDraft("leek", amount=2.5, unit=Unit.GRAMS, received_on=TODAY), today=TODAY
    )
    with pytest.raises(BadDataError, match="planted, not sown"):
        add_sowing(tin, sets, sill, SowingDraft(seeds=2), today=TODAY)
    with pytest.raises(BadDataError, match="how many grams"):
        add_sowing(tin, grams, sill, SowingDraft(seeds=40), today=TODAY)
    with pytest.raises(BadDataError, match="future"):
        add_sowing(
            tin, grams, sill, SowingDraft(seeds=40), today=TODAY, on=TODAY + timedelta(1),
            grams_taken=0.1,
        )  # fmt: skip
    made = add_sowing(tin, grams, sill, SowingDraft(seeds=40), today=TODAY, grams_taken=0.1)
    assert made.seeds == 40
    assert tin.dossier(grams.code).left == 2.4


def test_a_code_of_another_kind_is_told(tin: Tin, packet: Packet) -> None:
    with pytest.raises(NotFoundError, match="code of a packet"):
        tin.sowing(packet.code)


# --- Events --------------------------------------------------------------------------------------
def test_the_last_count_is_the_tray_count_of_the_packet(
    tin: Tin, packet: Packet, sowing: Sowing
) -> None:
    record_event(tin, sowing, EventKind.EMERGED, date(2026, 3, 8), today=TODAY, count=3)
    record_event(tin, sowing, EventKind.EMERGED, date(2026, 3, 12), today=TODAY, count=9)
    for dossier in (tin.dossier(packet.code), tin.dossiers()[0]):
        trays = [(tray.on, tray.place, tray.sown, tray.emerged) for tray in dossier.trays]
        assert trays == [(date(2026, 3, 12), "Sill", 12, 9)]
    assert tin.tray_counts() == []


def test_clusters_that_give_more_seedlings_than_units_count_as_all(
    tin: Tin, packet: Packet, sowing: Sowing
) -> None:
    record_event(tin, sowing, EventKind.EMERGED, TODAY, today=TODAY, count=20)
    assert [tray.emerged for tray in tin.dossier(packet.code).trays] == [12]
    with pytest.raises(BadDataError, match="count again"):
        record_event(tin, sowing, EventKind.EMERGED, TODAY, today=TODAY, count=200)


@pytest.mark.parametrize(
    ("kind", "options", "words"),
    [
        (EventKind.EMERGED, {}, "0 is a count"),
        (EventKind.EMERGED, {"count": -1}, "cannot be -1"),
        (EventKind.THINNED, {"on": date(2026, 2, 1)}, "was sown on"),
        (EventKind.THINNED, {"on": date(2026, 4, 1)}, "future"),
        (EventKind.PUT_OFF, {"until": date(2026, 4, 1)}, "which job"),
        (EventKind.PUT_OFF, {"job": "thin"}, "until when"),
        (EventKind.PUT_OFF, {"job": "thin", "until": date(2026, 3, 1)}, "later day"),
        (EventKind.SKIPPED, {}, "which job"),
        (EventKind.POTTED_ON, {"pot_depth_cm": 0.0}, "not 0 cm"),
    ],
)
def test_events_that_cannot_be(
    tin: Tin, sowing: Sowing, kind: EventKind, options: dict[str, Any], words: str
) -> None:
    on = options.pop("on", TODAY)
    with pytest.raises(BadDataError, match=words):
        record_event(tin, sowing, kind, on, today=TODAY, **options)
    assert tin.sowing_events() == []


def test_after_its_end_nothing_happens_to_a_sowing(tin: Tin, sowing: Sowing) -> None:
    record_event(tin, sowing, EventKind.THINNED, date(2026, 3, 10), today=TODAY)
    with pytest.raises(BadDataError, match="after that day"):
        record_event(tin, sowing, EventKind.FAILED, date(2026, 3, 9), today=TODAY)
    record_event(tin, sowing, EventKind.FAILED, date(2026, 3, 11), today=TODAY)
    with pytest.raises(BadDataError, match="failed on"):
        record_event(tin, sowing, EventKind.POTTED_ON, date(2026, 3, 12), today=TODAY)
    with pytest.raises(BadDataError, match="failed on"):
        record_event(tin, sowing, EventKind.ENDED, date(2026, 3, 10), today=TODAY)
    remove_event(tin, tin.sowing_events(sowing.id)[-1].id)
    record_event(tin, sowing, EventKind.POTTED_ON, date(2026, 3, 12), today=TODAY)


# --- Undo ----------------------------------------------------------------------------------------
def test_each_verb_is_one_change_that_undo_takes_back_exactly(
    tin: Tin, packet: Packet, sill: Place, sowing: Sowing
) -> None:
    def event() -> None:
        record_event(tin, sowing, EventKind.EMERGED, TODAY, today=TODAY, count=4, place=sill)

    verbs: list[Callable[[], object]] = [
        lambda: add_place(tin, "Bed", PlaceKind.BED, months_c=MONTHS),
        lambda: edit_place(tin, "Sill", warmest_c=25.0),
        lambda: set_plan(tin, "leek", 40),
        lambda: set_plan(tin, "leek", 44),
        lambda: remove_plan(tin, tin.plans()[0].id),
        event,
        lambda: remove_event(tin, tin.sowing_events()[0].id),
        event,
        lambda: remove_sowing(tin, sowing.code),
    ]
    for verb in verbs:
        before, entries = everything(tin), len(tin.history())
        verb()
        after = everything(tin)
        assert after != before
        assert len(tin.history()) == entries + 1
        undo(tin)
        assert everything(tin) == before
        redo(tin)
        assert everything(tin) == after


def test_a_packet_removed_takes_its_sowings_with_it_and_brings_them_back(
    tin: Tin, packet: Packet, sowing: Sowing
) -> None:
    record_event(tin, sowing, EventKind.EMERGED, TODAY, today=TODAY, count=4)
    before = everything(tin)
    remove_packet(tin, packet.code)
    assert (tin.sowings(), tin.sowing_events()) == ([], [])
    undo(tin)
    assert everything(tin) == before


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_whatever_is_done_can_be_undone_step_by_step(
    tin: Tin, packet: Packet, sowing: Sowing, data: st.DataObject
) -> None:
    states = [everything(tin)]
    for kind in data.draw(st.lists(st.sampled_from(EventKind), max_size=5)):
        on = sowing.on + timedelta(data.draw(st.integers(0, 12)))
        try:
            record_event(
                tin, sowing, kind, on, today=TODAY, count=data.draw(st.integers(0, 12)),
                job="thin", until=on + timedelta(3),
            )  # fmt: skip
        except BadDataError:
            continue
        states.append(everything(tin))
    for state in reversed(states[:-1]):
        undo(tin)
        assert everything(tin) == state


# --- Settings ------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("name", "text", "kept"),
    [
        ("last_spring_frost", "4-25", "04-25"),
        ("first_autumn_frost", "NONE", "none"),
        ("latitude", "37,5 s", "-37.5"),
        ("latitude", "52 N", "52"),
        ("latitude", "", ""),
        ("assurance", "0.95", 0.95),
    ],
)
def test_settings_of_the_garden(tin: Tin, name: str, text: str, kept: object) -> None:
    assert getattr(set_setting(tin, name, text), name) == kept
    assert getattr(tin.settings(), name) == kept


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("last_spring_frost", "02-29"),
        ("last_spring_frost", "April"),
        ("last_spring_frost", "2027-04-25"),
        ("latitude", "91"),
        ("latitude", "north"),
        ("latitude", "nan"),
        ("assurance", "1"),
        ("tray_cells", "0"),
    ],
)
def test_settings_that_cannot_be(tin: Tin, name: str, text: str) -> None:
    with pytest.raises(BadDataError, match=name):
        set_setting(tin, name, text)


def test_a_garden_says_nothing_of_itself_at_first(tin: Tin) -> None:
    settings_ = tin.settings()
    unsaid = (settings_.last_spring_frost, settings_.first_autumn_frost, settings_.latitude)
    assert unsaid == ("", "", "")
