"""The reading commands: JSON with its promised keys, words for people, filters, order."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from seedbox.cli.filters import ADVICE
from seedbox.errors import ExitCode
from seedbox.season.forecast import Advice

Type = Callable[..., Any]
Code = Callable[..., str]
ROOM = ("--temperature", "26.7", "--humidity", "44")


def test_list_json_has_the_keys_that_programs_rely_on(type_in: Type, code_of: Code) -> None:
    code_of("leek", "Long Hill", "--harvest", "2025", "--seeds", "90")
    code_of("onion", "Brown Sets", "--stock")
    for packet in type_in("list", "--json").json:
        assert packet.keys() >= {
            "code", "crop", "crop_id", "variety", "origin", "harvest_year", "seeds", "grams",
            "store", "germination", "standard", "advice", "good_until", "rests_on",
        }  # fmt: skip
    seed = type_in("list", "leek", "--json").json[0]
    germination = seed["germination"]
    assert 0 <= germination["low"] < germination["mean"] < germination["high"] <= 1
    assert seed["store"] is None
    assert seed["advice"] in {advice.value for advice in Advice}
    assert isinstance(seed["rests_on"], list)


def test_the_advice_that_can_be_filtered_for_is_the_models() -> None:
    assert sorted(ADVICE.words) == sorted(advice.value for advice in Advice)


@pytest.fixture
def some(type_in: Type, code_of: Code) -> dict[str, str]:
    type_in("store", "add", "Jar", "--temperature", "5", "--sealed", "--moisture", "6")
    return {
        "old leek": code_of("leek", "Long Hill", "--harvest", "2016", "--seeds", "90"),
        "new leek": code_of("leek", "Short Hill", "--harvest", "2026", "--seeds", "20",
                            "--origin", "bought", "--store", "Jar", "--tag", "winter"),
        "onion": code_of("onion", "Früher", "--harvest", "2024", "--origin", "saved",
                         "--from", "Maud", "--grams", "2"),
        "empty": code_of("kale", "Rookery", "--seeds", "0"),
    }  # fmt: skip


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ((), {"old leek", "new leek", "onion"}),
        (("--empty",), {"old leek", "new leek", "onion", "empty"}),
        (("hill",), {"old leek", "new leek"}),
        (("long", "hill"), {"old leek"}),
        (("fruher",), {"onion"}),
        (("maud",), {"onion"}),
        (("--crop", "leek"), {"old leek", "new leek"}),
        (("--store", "jar"), {"new leek"}),
        (("--tag", "WINTER"), {"new leek"}),
        (("--origin", "saved"), {"onion"}),
        (("--advice", "spent"), {"old leek"}),
        (("spent",), {"old leek"}),
        (("leek", "spent"), {"old leek"}),
        (("--crop", "leek", "--tag", "summer"), set()),
    ],
)
def test_filters(type_in: Type, some: dict[str, str], words: Any, found: set[str]) -> None:
    listed = {packet["code"] for packet in type_in("list", *words, "--json").json}
    assert listed == {some[name] for name in found}


def test_orders(type_in: Type, some: dict[str, str]) -> None:
    def order(sort: str) -> list[str]:
        names = {code: name for name, code in some.items()}
        return [names[each["code"]] for each in type_in("list", "--sort", sort, "--json").json]

    assert order("crop") == ["old leek", "new leek", "onion"]
    assert order("year") == ["old leek", "onion", "new leek"]
    assert order("germination")[0] == "old leek"
    assert "orders" not in type_in("list", "--sort", "colour", code=ExitCode.USAGE).out


@pytest.mark.parametrize(
    ("words", "code", "part"),
    [
        (("--crop", "marigold"), ExitCode.NOT_FOUND, "pot marigold"),
        (("--store", "attic"), ExitCode.NOT_FOUND, "Jar"),
        (("--advice", "eat"), ExitCode.USAGE, "sow thick"),
        (("--sort", "colour"), ExitCode.USAGE, "germination"),
        (("--origin", "found"), ExitCode.USAGE, "swapped"),
    ],
)
def test_filters_that_cannot_be(
    type_in: Type, some: dict[str, str], words: Any, code: int, part: str
) -> None:
    assert part in type_in("list", *words, code=code).err


def test_unknown_is_said_in_words_and_null_for_programs(type_in: Type, code_of: Code) -> None:
    code_of("leek")
    assert "not counted" in type_in("list").out
    assert "unknown" in type_in("list").out
    packet = type_in("list", "--json").json[0]
    for name in ("seeds", "grams", "harvest_year", "store", "origin"):
        assert packet[name] is None


def test_treated_and_poisonous_seed_is_cautioned_before_its_forecast(
    type_in: Type, code_of: Code
) -> None:
    code = code_of("foxglove", "Church Mouse", "--treated", "dressed", "--origin", "swapped")
    out = type_in("show", code).out
    assert "not for eating" in out
    assert "Poisonous" in out
    assert "local law" in out
    assert out.index("Cautions") < out.index("Forecast")
    assert len(type_in("show", code, "--json").json["cautions"]) >= 3


def test_the_forecast_says_what_it_rests_on_and_gives_its_reason(
    type_in: Type, code_of: Code
) -> None:
    code = code_of("leek", "Long Hill", "--harvest", "2016", "--origin", "bought")
    out = type_in("show", code).out
    assert "Advice: spent." in out
    assert "probability" in out
    assert "Harvested 2016." in out
    assert "9 times in 10" in out


def test_forecast_without_a_packet_and_without_a_tin(type_in: Type, tin_path: Any) -> None:
    found = type_in(
        "forecast", "onion", "--germination", "0.97", "--tested", "200", *ROOM, "--days", "250",
        "--json",
    ).json  # fmt: skip
    assert found.keys() >= {"mean", "low", "high", "p_standard", "advice", "supported"}
    assert found["low"] < found["mean"] < found["high"] < 1
    assert found["supported"] is True
    assert not tin_path.exists()


def test_a_cool_dry_jar_keeps_seed_longer_than_a_drawer(type_in: Type) -> None:
    """Harrington's rule (1972, as widely quoted): cooler and drier both lengthen life."""
    start = ("forecast", "leek", "--germination", "90%", "--temperature", "20", "--humidity", "55",
             "--years", "1")  # fmt: skip
    drawer = type_in(*start, "--then", "temperature=20,humidity=55,years=4", "--json").json
    jar = type_in(*start, "--then", "temperature=4,moisture=6,years=4", "--json").json
    assert jar["mean"] > drawer["mean"] + 0.2
    assert jar["kept_as_it_is"]["mean"] == pytest.approx(drawer["mean"], abs=1e-9)
    assert "gains" in type_in(*start, "--then", "4 years 4 C 6 % moisture").out


def test_order_of_periods_does_not_matter_to_the_sum_but_stages_follow_it(type_in: Type) -> None:
    """The dose is a sum over periods (Ellis & Roberts 1980), so two orders end alike."""
    one = type_in("forecast", "leek", *ROOM, "--days", "100", "--then",
                  "temperature=5,humidity=50,years=2", "--json").json  # fmt: skip
    two = type_in("forecast", "leek", "--temperature", "5", "--humidity", "50", "--years", "2",
                  "--then", "temperature=26.7,humidity=44,days=100", "--json").json  # fmt: skip
    assert one["mean"] == pytest.approx(two["mean"], abs=1e-9)
    assert [round(stage["days"]) for stage in one["stages"]] == [100, 830]


def test_too_damp_is_marked_as_unsupported(type_in: Type) -> None:
    found = type_in("forecast", "leek", "--temperature", "20", "--humidity", "85", "--days", "90",
                    "--json").json  # fmt: skip
    assert found["supported"] is False
    assert "70 %" in found["warnings"][0]


def test_a_kind_that_no_table_knows(type_in: Type) -> None:
    words = ("forecast", "beckweed", *ROOM, "--years", "2")
    refused = type_in(*words, code=ExitCode.NOT_FOUND)
    assert "--family" in refused.err
    found = type_in(*words, "--family", "Fabaceae", "--oil", "20%", "--json").json
    assert found["crop_id"] is None
    assert "family" in " ".join(found["rests_on"])


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("--days", "9"), "How warm"),
        (("--temperature", "9", "--sealed"), "How long"),
        (("--temperature", "9", "--days", "9"), "How moist"),
        ((*ROOM, "--days", "9", "--years", "9"), "How long"),
        ((*ROOM, "--days", "0"), "200 years"),
        ((*ROOM, "--days", "9", "--moisture", "7"), "Sealed seed"),
        ((*ROOM, "--days", "9", "--then", "in the fridge"), "not understood"),
        ((*ROOM, "--days", "9", "--then", "temperature=4,years=3"), "How moist"),
        ((*ROOM, "--days", "9", "--then", "temperature=4,fridge=yes,years=3"), "fridge"),
        ((*ROOM, "--days", "9", "--germination", "140%"), "share"),
        (("--temperature", "260", "--humidity", "44", "--days", "9"), "-60 to 60"),
    ],
)
def test_forecasts_that_cannot_be(type_in: Type, words: Any, part: str) -> None:
    assert part in type_in("forecast", "leek", *words, code=ExitCode.USAGE).err
