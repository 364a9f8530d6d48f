"""The demo tin holds together: codes, journal, dates, crops, and one of everything to show."""

from __future__ import annotations

import csv
import re
import unicodedata
from collections import defaultdict
from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path

import pytest
from stdnum import ean
from stdnum.iso7064 import mod_37_2

from seedbox import almanac
from seedbox.resources import sample_data_dir
from seedbox.season.crops import CropBook
from seedbox.season.forecast import Advice, Forecaster
from seedbox.season.swapping.list_reading import read_list
from seedbox.season.swapping.matching import match
from seedbox.season.swapping.own_list import own_list
from seedbox.tin.exchange.carrying import carry_out
from seedbox.tin.exchange.planning import plan_import
from seedbox.tin.exchange.plans import ImportPlan
from seedbox.tin.file import Tin
from seedbox.tin.records import Kind, MovementKind, Origin, Treatment, Unit

DEMO_DAY = date(2027, 2, 20)
COLUMNS = {
    "stores": "name coolest_c warmest_c humidity_percent sealed sealed_moisture_percent note",
    "packets": "code crop crop_id variety kind origin source harvest_year packed_year bought_year"
    " sow_by printed_germination_percent printed_on treatment ean unit left store parent tags note"
    " received_on",
    "movements": "packet on kind amount note",
    "storage": "packet from store sealed moisture_percent",
    "tests": "code packet on seeds germinated hard note state started_on replicates substrate"
    " temperature_c night_c first_count_day final_count_day pretreatment abnormal fresh dead",
    "test_counts": "test on replicate normal abnormal hard fresh dead",
    "places": "name kind covered coolest_c warmest_c months_c ppfd light_hours note",
    "plans": "crop_id variety plants year again_days note",
    "sowings": "code packet on place seeds cells per_cell row_m left_per_cell plants_wanted"
    " pot_depth_cm note",
    "sowing_events": "sowing on kind count place pot_depth_cm job until note",
    "wants": "crop_id variety portions worth note",
    "swap_choices": "packet choice portions",
    "own_crops": "crop_id name family note",
    "own_figures": "crop_id figure value note",
    "settings": "setting value",
}
# Crockford's Base32 alphabet: digits and capitals without I, L, O and U.
CODE = re.compile(r"[PST][0-9A-HJKMNP-TV-Z]{7}")
# GS1 General Specifications: prefixes 20 to 29 are for use inside one shop, so nobody owns them.
IN_STORE_PREFIX = re.compile(r"2\d{12}")

Row = dict[str, str]


def _read(path: Path) -> list[Row]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, strict=True))


@pytest.fixture(scope="module")
def tin() -> dict[str, list[Row]]:
    return {name: _read(sample_data_dir() / f"{name}.csv") for name in COLUMNS}


@pytest.fixture(scope="module")
def packets(tin: dict[str, list[Row]]) -> list[Row]:
    return tin["packets"]


@pytest.fixture(scope="module")
def by_code(packets: list[Row]) -> dict[str, Row]:
    return {row["code"]: row for row in packets}


@pytest.fixture(scope="module")
def journals(tin: dict[str, list[Row]]) -> dict[str, list[Row]]:
    found: dict[str, list[Row]] = defaultdict(list)
    for row in tin["movements"]:
        found[row["packet"]].append(row)
    return found


@pytest.mark.parametrize("name", sorted(COLUMNS))
def test_columns_are_those_of_an_export(name: str) -> None:
    with (sample_data_dir() / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file, strict=True))
    assert rows[0] == COLUMNS[name].split()
    assert {len(row) for row in rows} == {len(rows[0])}


def test_codes_are_unique_and_carry_their_check_character(tin: dict[str, list[Row]]) -> None:
    # ISO/IEC 7064 MOD 37-2, computed by python-stdnum.
    codes = [row["code"] for row in tin["packets"] + tin["tests"] + tin["sowings"]]
    assert len(codes) == len(set(codes))
    assert [code for code in codes if not CODE.fullmatch(code) or not mod_37_2.is_valid(code)] == []
    assert {row["code"][0] for row in tin["packets"]} == {"P"}
    assert {row["code"][0] for row in tin["tests"]} == {"T"}
    assert {row["code"][0] for row in tin["sowings"]} == {"S"}


def test_every_crop_is_known(tin: dict[str, list[Row]]) -> None:
    known = {crop.id for crop in almanac.crops()} | {row["crop_id"] for row in tin["own_crops"]}
    named = tin["packets"] + tin["own_figures"] + tin["plans"] + tin["wants"]
    assert {row["crop_id"] for row in named} <= known


def test_crop_names_are_the_almanacs_or_the_gardens_own(tin: dict[str, list[Row]]) -> None:
    own = {row["crop_id"]: row["name"] for row in tin["own_crops"]}
    wrong = [
        (row["code"], row["crop"])
        for row in tin["packets"]
        if row["crop"] != (own.get(row["crop_id"]) or almanac.crop(row["crop_id"]).name("eu"))
    ]
    assert wrong == []


def test_size_of_the_tin(packets: list[Row], tin: dict[str, list[Row]]) -> None:
    assert len(packets) >= 150
    assert len({row["crop_id"] for row in packets}) >= 70
    assert len(tin["tests"]) >= 25
    years = {int(row["harvest_year"]) for row in packets if row["harvest_year"]}
    assert min(years) == 2015
    assert max(years) == 2026


def test_journal_never_falls_below_nothing_and_explains_what_is_left(
    packets: list[Row], journals: dict[str, list[Row]]
) -> None:
    for packet in packets:
        left = _left(journals[packet["code"]])
        stated = float(packet["left"]) if packet["left"] else None
        assert left == pytest.approx(stated, abs=1e-9), packet


def _left(journal: list[Row]) -> float | None:
    left: float | None = 0.0
    for row in journal:
        amount = float(row["amount"]) if row["amount"] else None
        if row["kind"] == MovementKind.RECOUNT:
            left = amount
        elif amount is None or left is None:
            left = None
        else:
            left += amount if row["kind"] == MovementKind.RECEIVED else -amount
            assert left >= -1e-9, row
    return left


def test_journal_starts_with_a_receipt_and_runs_in_order(
    by_code: dict[str, Row], journals: dict[str, list[Row]]
) -> None:
    assert journals.keys() == by_code.keys()
    for code, journal in journals.items():
        days = [row["on"] for row in journal]
        assert days == sorted(days), code
        assert journal[0]["kind"] == MovementKind.RECEIVED
        assert journal[0]["on"] == by_code[code]["received_on"]
    assert {row["kind"] for journal in journals.values() for row in journal} == set(MovementKind)


def test_unknown_quantities_stay_unknown(packets: list[Row]) -> None:
    unknown = [row for row in packets if not row["unit"]]
    assert unknown
    assert {row["left"] for row in unknown} == {""}
    assert all(row["left"] for row in packets if row["unit"])


def test_seed_laid_for_a_test_left_the_packet(
    tin: dict[str, list[Row]], by_code: dict[str, Row], journals: dict[str, list[Row]]
) -> None:
    for row in tin["tests"]:
        packet = by_code[row["packet"]]
        taken = [
            float(move["amount"])
            for move in journals[row["packet"]]
            if (move["on"], move["kind"]) == (row["on"], MovementKind.TESTED)
        ]
        assert len(taken) == 1, row
        if packet["unit"] == Unit.SEEDS:
            assert taken == [float(row["seeds"])], row


def test_seed_sown_left_the_packet_under_the_code_of_the_sowing(
    tin: dict[str, list[Row]], by_code: dict[str, Row], journals: dict[str, list[Row]]
) -> None:
    assert len(tin["sowings"]) >= 5
    for row in tin["sowings"]:
        note = f"Sowing {row['code'][:4]} {row['code'][4:]}"
        taken = [move for move in journals[row["packet"]] if move["note"] == note]
        assert [(move["on"], move["kind"]) for move in taken] == [(row["on"], "sown")], row
        if by_code[row["packet"]]["unit"] == Unit.SEEDS:
            assert float(taken[0]["amount"]) == float(row["seeds"]), row


def test_what_the_garden_grows_in_and_wants_is_told(tin: dict[str, list[Row]]) -> None:
    kinds = {row["kind"] for row in tin["places"]}
    assert {"windowsill", "propagator", "greenhouse", "bed"} <= kinds
    sown = {row["code"] for row in tin["sowings"]}
    assert {row["sowing"] for row in tin["sowing_events"]} <= sown
    assert {"emerged", "failed", "planted out"} <= {row["kind"] for row in tin["sowing_events"]}
    assert any(row["again_days"] for row in tin["plans"])
    assert any(row["variety"] for row in tin["plans"])


def test_test_results_are_possible(tin: dict[str, list[Row]]) -> None:
    for row in tin["tests"]:
        assert int(row["seeds"]) > 0
        assert 0 <= int(row["germinated"]) <= int(row["seeds"]) - int(row["hard"]), row


def test_nothing_happened_after_the_demo_day(tin: dict[str, list[Row]]) -> None:
    dated = tin["movements"] + tin["tests"] + tin["sowings"] + tin["sowing_events"]
    happened = [row["on"] for row in dated]
    happened += [row["from"] for row in tin["storage"]]
    happened += [row["received_on"] for row in tin["packets"]]
    happened += [row["printed_on"] for row in tin["packets"] if row["printed_on"]]
    assert max(date.fromisoformat(day) for day in happened) <= DEMO_DAY
    years = [
        row[f"{kind}_year"] for row in tin["packets"] for kind in ("harvest", "packed", "bought")
    ]
    assert max(int(year) for year in years if year) <= DEMO_DAY.year


def test_dates_of_a_packet_follow_each_other(packets: list[Row], tin: dict[str, list[Row]]) -> None:
    for row in packets:
        received = date.fromisoformat(row["received_on"])
        years = [row["harvest_year"], row["packed_year"], row["bought_year"]]
        known = [int(year) for year in years if year]
        assert known or row["sow_by"], row
        assert known == sorted(known), row
        assert all(year <= received.year for year in known), row
        if row["printed_on"]:
            assert date.fromisoformat(row["printed_on"]) <= received, row
        if row["sow_by"]:
            assert received < date.fromisoformat(row["sow_by"]), row
    got = {row["code"]: row["received_on"] for row in packets}
    assert all(row["on"] > got[row["packet"]] for row in tin["tests"])


def test_every_packet_has_a_storage_history_that_ends_where_it_lies(
    tin: dict[str, list[Row]], by_code: dict[str, Row]
) -> None:
    stores = {row["name"]: row for row in tin["stores"]}
    periods: dict[str, list[Row]] = defaultdict(list)
    for row in tin["storage"]:
        assert row["sealed"] == stores[row["store"]]["sealed"], row
        periods[row["packet"]].append(row)
    assert periods.keys() == by_code.keys()
    for code, history in periods.items():
        days = [row["from"] for row in history]
        assert days == sorted(set(days))
        assert days[0] == by_code[code]["received_on"]
        assert history[-1]["store"] == by_code[code]["store"]
    assert {row["store"] for row in tin["storage"]} == stores.keys()


def test_some_packets_were_moved_and_some_stores_cannot_be_forecast(
    tin: dict[str, list[Row]], packets: list[Row]
) -> None:
    assert len(tin["storage"]) > len(packets)
    too_damp = {row["name"] for row in tin["stores"] if float(row["humidity_percent"] or 0) > 70}
    assert any(row["store"] in too_damp for row in packets)


def test_sealed_seed_was_dried_and_open_stores_say_how_damp_they_are(
    tin: dict[str, list[Row]],
) -> None:
    for row in tin["stores"]:
        sealed = row["sealed"] == "yes"
        assert bool(row["sealed_moisture_percent"]) == sealed, row
        assert bool(row["humidity_percent"]) != sealed, row
        assert float(row["coolest_c"]) <= float(row["warmest_c"]), row
    wet = [row for row in tin["storage"] if row["moisture_percent"] and row["sealed"] == "no"]
    assert wet == []


def test_bar_codes_are_sound_and_belong_to_nobody(packets: list[Row]) -> None:
    # EAN-13 check digit (ISO/IEC 15420), computed by python-stdnum.
    codes = [row["ean"] for row in packets if row["ean"]]
    assert len(codes) == len(set(codes)) >= 3
    assert all(ean.is_valid(code) and IN_STORE_PREFIX.fullmatch(code) for code in codes)
    assert {row["origin"] for row in packets if row["ean"]} == {Origin.BOUGHT}


def test_one_of_everything_is_there(packets: list[Row]) -> None:
    assert {row["origin"] for row in packets} == set(Origin)
    assert {row["treatment"] for row in packets} == set(Treatment)
    assert {row["kind"] for row in packets} == set(Kind)
    assert {row["unit"] for row in packets} == {*Unit, ""}
    assert {row["treatment"] for row in packets if row["origin"] != Origin.BOUGHT} == {"none"}
    for column in ("harvest_year", "packed_year", "bought_year", "sow_by", "tags", "note"):
        assert any(row[column] for row in packets), column
    assert any(row["printed_germination_percent"] and row["printed_on"] for row in packets)
    assert {"castor_bean", "foxglove", "sweet_pea"} <= {row["crop_id"] for row in packets}


def test_parents_are_older_packets_of_the_same_crop(
    packets: list[Row], by_code: dict[str, Row]
) -> None:
    children = [row for row in packets if row["parent"]]
    assert children
    for child in children:
        parent = by_code[child["parent"]]
        assert child["crop_id"] == parent["crop_id"]
        assert parent["received_on"] < child["received_on"]


def test_names_come_in_many_scripts_and_are_composed(packets: list[Row]) -> None:
    text = "".join(row["variety"] + row["source"] for row in packets)
    assert text == unicodedata.normalize("NFC", text)
    scripts = {unicodedata.name(letter, "").split()[0] for letter in text if letter.isalpha()}
    assert {"LATIN", "GREEK", "CYRILLIC", "ARABIC", "HEBREW", "CJK", "HIRAGANA"} <= scripts
    assert set("éäñŷŁóÇğŐŘÞếư") <= set(text)


def test_the_growers_own_list_has_good_lines_and_faults() -> None:
    rows = _read(sample_data_dir() / "grower_list.csv")
    assert 20 <= len(rows) <= 30
    found = {row["What"]: almanac.find(row["What"]) for row in rows if row["What"]}
    assert sum(answer.crop is not None for answer in found.values()) >= 18
    assert len(found["ground cherry"].clashes) == 2
    assert not (found["Achocha"].crop or found["Achocha"].clashes)
    assert any(row["Year"].isdigit() and int(row["Year"]) > DEMO_DAY.year for row in rows)
    assert [row["Sort"] for row in rows if not row["What"]] == ["Mystery Twist"]
    assert any(row["How many"].startswith("-") for row in rows)


def _plan(tin: Tin, path: Path) -> ImportPlan:
    book = CropBook(tin.settings(), tin.own_crops())
    return plan_import(tin, path, resolve_crop=book.answer, today=DEMO_DAY)


@pytest.fixture
def new_tin(tmp_path: Path) -> Iterator[Tin]:
    path = tmp_path / "demo.seedbox"
    with Tin.open(path, create=True, now=lambda: datetime(2027, 2, 20, 9)) as opened:
        yield opened


def test_the_whole_folder_is_read_without_a_complaint(new_tin: Tin, packets: list[Row]) -> None:
    plan = _plan(new_tin, sample_data_dir())
    assert plan.problems == ()
    carry_out(new_tin, plan)
    found = {dossier.packet.code: dossier for dossier in new_tin.dossiers()}
    assert found.keys() == {row["code"] for row in packets}
    for row in packets:
        left = float(row["left"]) if row["left"] else None
        assert found[row["code"]].left == pytest.approx(left, abs=1e-6), row


def test_every_kind_of_advice_occurs_on_the_demo_day(new_tin: Tin) -> None:
    carry_out(new_tin, _plan(new_tin, sample_data_dir()))
    stores = {store.id: store for store in new_tin.stores()}
    forecaster = Forecaster(new_tin.settings(), new_tin.own_figures(), new_tin.own_crops())
    given = [forecaster.forecast(each, DEMO_DAY, stores) for each in new_tin.dossiers()]
    count = {advice: sum(each.advice is advice for each in given) for advice in Advice}
    assert min(count.values()) >= 5, count
    assert any(not each.supported for each in given)
    assert any(each.shelf_date and each.shelf_date < DEMO_DAY for each in given)


def test_the_growers_list_goes_in_but_for_its_faults(new_tin: Tin) -> None:
    plan = _plan(new_tin, sample_data_dir() / "grower_list.csv")
    assert len(plan.new) >= 18
    assert [problem.row for problem in plan.problems] == [17, 18, 19, 20, 22, 26]


def test_the_neighbours_lists_are_read_whole_and_a_swap_with_them_is_worth_while(
    new_tin: Tin,
) -> None:
    """Both neighbours and the garden give and get; the packet that was kept back stays."""
    carry_out(new_tin, _plan(new_tin, sample_data_dir()))
    book = CropBook(new_tin.settings(), new_tin.own_crops())
    read = [
        read_list(sample_data_dir() / name, book, DEMO_DAY)
        for name in ("swap_weir_end.csv", "swap_osier_row.json")
    ]
    assert [one.problems for one in read] == [(), ()]
    assert all(offer.crop_id for one in read for offer in one.swap_list.offers)
    mine = own_list(new_tin, DEMO_DAY, name="Hobbin Beck")
    kept = {choice.packet_id for choice in new_tin.swap_choices() if choice.choice == "keep"}
    kept_codes = {packet.code for packet in new_tin.packets() if packet.id in kept}
    assert kept_codes and not kept_codes & {offer.code for offer in mine.offers}
    proposal = match([mine, *(one.swap_list for one in read)], 1, DEMO_DAY)
    assert all(side.gives and side.receives for side in proposal.balances)
    assert any(side.worth > side.by_pairs for side in proposal.balances)
