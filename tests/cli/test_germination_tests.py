"""Germination tests by commands, as a grower types them: right, wrong, and taken back."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from statsmodels.stats.proportion import proportion_confint

from seedbox.errors import ExitCode

Type = Callable[..., Any]
Code = Callable[..., str]

# Days 1 to 14 of 50 seeds: one worked count series of published formulas (T50 by Coolbear et al.
# 1984 and Farooq et al. 2005, speed by Maguire 1962, synchrony by Ranal & Santana 2006).
SERIES = (0, 0, 0, 0, 4, 17, 10, 7, 1, 0, 1, 0, 0, 0)
PUBLISHED = {
    "mean_time": 6.7,
    "t50_coolbear": 5.97058823529412,
    "t50_farooq": 5.94117647058824,
    "speed": 6.13892496392496,
    "synchrony": 0.266666666666667,
}
LAID, DAY_4, DAY_7, DAY_9, DAY_30 = (
    "2027-02-20", "2027-02-24", "2027-02-27", "2027-03-01", "2027-03-22",
)  # fmt: skip


@pytest.fixture
def leek(type_in: Type, code_of: Code) -> str:
    type_in("store", "add", "drawer", "--temperature", "20", "--humidity", "50")
    return code_of("leek", "Flagstaff Lane", "--harvest", "2023", "--store", "drawer",
                   "--seeds", "200")  # fmt: skip


@pytest.fixture
def start(type_in: Type) -> Code:
    def start(packet: str, *words: str) -> str:
        return str(type_in("test", "start", packet, *words, "--json").json["code"])

    return start


@pytest.fixture
def count(type_in: Type) -> Callable[..., Any]:
    def count(test: str, *words: str, today: str = DAY_30) -> Any:
        return type_in("test", "count", test, *words, "--json", "--today", today).json

    return count


def test_a_start_takes_the_seed_and_says_all_that_is_to_be_done(type_in: Type, leek: str) -> None:
    said = type_in("test", "start", leek, "--seeds", "20").out
    test = re.search(r"seedbox test count (T\w{7}) ", said)
    assert test
    assert re.match(
        r"Test T\w{3} \w{4}: 20 seeds of .* leek, Flagstaff Lane; 180 seeds left\.", said
    )
    headings = [line for line in said.splitlines() if line and line[0] != " " and " " not in line]
    assert headings == [
        "Cautions", "Before", "Lay", "Keep", "Count", "Germinated", "Apart", "Stop",
    ]  # fmt: skip
    # Leek: 15 or 20 C, counted on day 6 and 14 (international rules, from memory).
    shown = type_in("test", "show", test[1], "--json").json
    assert (shown["first_count_day"], shown["final_count_day"]) == (6, 14)
    assert "First count on day 6, 26 February." in said
    assert "Last count on day 14, 6 March." in said
    assert not re.search(r"\d%|\d C\b|\d°C", said)


def test_a_dry_run_shows_the_same_and_starts_nothing(type_in: Type, leek: str) -> None:
    shown = type_in("test", "start", leek, "--seeds", "20", "--dry-run").out
    started = type_in("test", "start", leek, "--seeds", "20").out
    assert shown in started
    type_in("undo")
    assert type_in("test", "list", "--json").json == []
    facts = type_in("test", "start", leek, "--seeds", "20", "--dry-run", "--json").json
    assert (facts["packet"], facts["seeds"], facts["final_count"]) == (leek, 20, "2027-03-06")


def test_without_a_number_the_plan_says_how_many(type_in: Type, code_of: Code) -> None:
    type_in("settings", "plants_wanted", "60")
    for crop in ("radish", "dill", "buckwheat"):
        code_of(crop, "Old", "--harvest", "2021", "--seeds", "900")
    plan = type_in("test", "plan", "--json").json
    assert [each["net"] for each in plan] == sorted((each["net"] for each in plan), reverse=True)
    planned = plan[0]
    assert 0 < planned["seeds"] < 100
    assert planned["why"].endswith(".")
    assert not re.search(r"\d%", planned["why"])
    packet = planned["packet"]
    assert type_in("test", "start", packet, "--json").json["seeds"] == planned["seeds"]
    assert packet not in [each["packet"] for each in type_in("test", "plan", "--json").json]
    running = type_in("test", "start", packet, code=ExitCode.USAGE)
    assert "running already" in running.err
    type_in("test", "start", packet, "--seeds", "5")
    said = type_in("test", "plan").out
    assert said.startswith("2 packets worth testing, with ")
    assert said.index(plan[1]["packet"][:4]) < said.index(plan[2]["packet"][:4])


def test_too_few_seeds_to_spare_any_are_told_with_all(type_in: Type, code_of: Code) -> None:
    few = code_of("radish", "Few", "--harvest", "2021", "--seeds", "5")
    assert type_in("test", "plan", "--json").json == []
    (left_out,) = type_in("test", "plan", "--all", "--json").json
    assert (left_out["packet"], left_out["seeds"]) == (few, 0)
    assert "Only 5 seeds are left, too few to spare any" in type_in("test", "plan", "--all").out
    refused = type_in("test", "start", few, code=ExitCode.USAGE)
    assert "too few to spare any" in refused.err
    assert "--seeds NUMBER" in refused.err


def test_the_plan_never_lays_the_last_seeds(type_in: Type, code_of: Code) -> None:
    few = code_of("leek", "Short", "--harvest", "2021", "--seeds", "20")
    assert all(each["seeds"] < 20 for each in type_in("test", "plan", "--json").json)
    said = type_in("test", "start", few, code=None)
    assert said.code == ExitCode.USAGE or re.search(r": ([1-9]|1\d) seeds of", said.out)


def test_from_the_plan_to_the_forecast_and_all_the_way_back(
    type_in: Type, leek: str, start: Code, count: Callable[..., Any]
) -> None:
    """The main job: plan, start, count twice, decided early, finish, and undo each step."""

    def now() -> Any:
        return [
            type_in(*words, "--json", "--today", DAY_9).json
            for words in (("show", leek), ("test", "list"), ("today", "--ahead", "60"))
        ]

    states = [now()]
    test = start(leek, "--seeds", "20")
    states.append(now())
    first = count(test, "--normal", "9", today="2027-02-26")
    assert (first["decided"], first["may_stop"], first["normal"]) == (None, False, 9)
    states.append(now())
    second = count(test, "--normal", "7", today=DAY_9)
    assert (second["decided"], second["may_stop"], second["normal"]) == ("good", True, 16)
    states.append(now())
    done = type_in("test", "finish", test, "--json", "--today", DAY_9).json
    assert done["forecast_before"]["mean"] == pytest.approx(
        states[0][0]["germination"]["mean"], abs=1e-9
    )
    assert done["forecast_after"]["mean"] > done["forecast_before"]["mean"]
    states.append(now())
    assert states[-1][0]["germination"]["mean"] == pytest.approx(done["forecast_after"]["mean"])
    assert states[-1][2] == []
    for earlier in reversed(states[:-1]):
        type_in("undo")
        assert now() == earlier
    for later in states[1:]:
        type_in("redo")
        assert now() == later


def test_the_published_count_series_gives_the_published_indices(
    type_in: Type, leek: str, start: Code
) -> None:
    test = start(leek, "--seeds", "50", "--replicates", "1")
    for day, normal in enumerate(SERIES, 1):
        type_in("test", "count", test, "--day", str(day), "--normal", str(normal),
                "--today", DAY_30)  # fmt: skip
    shown = type_in("test", "show", test, "--json", "--today", DAY_30).json
    assert [each["normal"] for each in shown["counts"]] == list(SERIES)
    assert [each["day"] for each in shown["counts"]] == list(range(1, 15))
    for name, value in PUBLISHED.items():
        assert shown["indices"][name] == pytest.approx(value, abs=1e-9), name
    said = type_in("test", "finish", test, "--today", DAY_30).out
    assert "mean germination time:     6.70 days" in said
    assert "speed (Maguire):           6.14 seedlings a day" in said


@pytest.mark.parametrize(
    ("setting", "method"),
    [("wilson", "wilson"), ("clopper-pearson", "beta"), ("jeffreys", "jeffreys")],
)
def test_the_interval_is_that_of_the_setting(
    type_in: Type, leek: str, start: Code, count: Callable[..., Any], setting: str, method: str
) -> None:
    """Against statsmodels' proportion_confint."""
    type_in("settings", "test_interval", setting)
    test = start(leek, "--seeds", "20")
    for seen, level in ((13, 0.95), (17, 0.9)):
        type_in("settings", "test_confidence", str(level))
        found = count(test, "--normal", str(seen), "--day", "8")["germination"]
        low, high = proportion_confint(seen, 20, 1 - level, method)
        assert (found["low"], found["high"]) == pytest.approx((low, high), abs=1e-6)
        assert found["estimate"] == seen / 20


@pytest.mark.parametrize(
    ("seeds", "poor", "good"), [(5, 1, 5), (10, 5, 9), (20, 11, 15)]
)  # Wald's plan for 0.5, 0.8 and both errors 0.1 (computed from Wald 1945)
def test_it_is_decided_at_walds_numbers(
    leek: str, start: Code, count: Callable[..., Any], seeds: int, poor: int, good: int
) -> None:
    test = start(leek, "--seeds", str(seeds))
    for seen, decided in ((good, "good"), (good - 1, None), (poor, "poor"), (poor + 1, None)):
        if seen <= seeds and not (decided is None and seen in (poor, good)):
            found = count(test, "--normal", str(seen), "--on", "2027-03-06")
            assert found["decided"] == decided, seen


def test_counts_are_corrected_added_to_and_struck_out(
    type_in: Type, leek: str, start: Code, count: Callable[..., Any]
) -> None:
    test = start(leek, "--seeds", "20")
    assert count(test, "--normal", "9", "--day", "7")["normal"] == 9
    assert "corrected to" in type_in(
        "test", "count", test, "--normal", "6", "--day", "7", "--today", DAY_9
    ).out  # fmt: skip
    assert count(test, "--normal", "2", "--dead", "1", "--day", "7", "--add")["normal"] == 8
    shown = count(test, "--normal", "1", "--day", "4")
    assert [(each["day"], each["normal"]) for each in shown["counts"]] == [(4, 1), (7, 8)]
    assert count(test, "--remove", "--day", "7")["normal"] == 1
    type_in("undo")
    assert type_in("test", "show", test, "--json").json["normal"] == 0  # as of the day it was laid
    assert type_in("test", "show", test, "--json", "--today", DAY_9).json["normal"] == 9


def test_replicates_are_counted_apart_and_told_to_be_repeated(
    type_in: Type, leek: str, start: Code
) -> None:
    test = start(leek, "--seeds", "100", "--replicates", "2", "--on", "sand")
    which = type_in("test", "count", test, "--normal", "9", "--day", "14", "--today", DAY_30,
                    code=ExitCode.USAGE)  # fmt: skip
    assert "2 replicates: say which with --replicate" in which.err
    assert "all at once, such as --normal 5,6." in which.err
    last = ("--day", "14", "--today", DAY_30, "--replicate")
    type_in("test", "count", test, "--normal", "48", *last, "1")
    said = type_in("test", "count", test, "--normal", "20", "--dead", "30", *last, "2").out
    assert "48 of 50, 20 of 50" in said
    assert "Repeat the test" in said
    assert (
        type_in("test", "show", test, "--json", "--today", DAY_30).json["replicates_agree"] is False
    )
    assert "replicate" in type_in("test", "show", test, "--today", DAY_30).out


IMPOSSIBLE = [
    (("--normal", "21", "--day", "7"), ExitCode.BAD_DATA, "laid with 20 seeds; 21 were counted"),
    (("--normal", "1", "--day", "0"), ExitCode.BAD_DATA, "counted from the day after"),
    (("--normal", "1", "--on", "2027-02-01"), ExitCode.BAD_DATA, "was laid on"),
    (("--normal", "1", "--day", "99"), ExitCode.USAGE, "still ahead: this test is on day 30"),
    (("--normal", "1", "--day", "9" * 30), ExitCode.USAGE, "still ahead"),
    (("--normal", "1", "--on", "2027-12-01"), ExitCode.BAD_DATA, "future"),
    (("--normal", "-1"), ExitCode.USAGE, "0 or more"),
    (("--normal", "two"), ExitCode.USAGE, "whole number"),
    ((), ExitCode.USAGE, "Say what you found"),
    (("--day", "3", "--on", "2027-02-24", "--normal", "1"), ExitCode.USAGE, "not both"),
    (("--normal", "1", "--replicate", "2"), ExitCode.BAD_DATA, "one replicate"),
    (("--remove", "--normal", "1"), ExitCode.USAGE, "takes no numbers"),
    (("--remove",), ExitCode.NOT_FOUND, "has no count of"),
]


def test_what_cannot_be_is_refused_and_changes_nothing(
    type_in: Type, leek: str, start: Code
) -> None:
    test = start(leek, "--seeds", "20")
    before = type_in("history", "--json").json
    for words, code, sentence in IMPOSSIBLE:
        said = type_in("test", "count", test, *words, "--today", DAY_30, code=code)
        assert sentence in said.err, (words, said)
    assert type_in("history", "--json").json == before


START_REFUSED = [
    (("--seeds", "201"), ExitCode.BAD_DATA, "has only 200 seeds left"),
    (("--seeds", "0"), ExitCode.USAGE, "1 or more"),
    (("--seeds", "5", "--replicates", "6"), ExitCode.BAD_DATA, "1 to 5 replicates"),
    (("--seeds", "5", "--on", "wool"), ExitCode.USAGE, "none of: paper, sand, mix"),
    (("--seeds", "5", "--on", "2027-02-18"), ExitCode.USAGE, "The day goes after --laid"),
    (("--seeds", "5", "--temperature", "60"), ExitCode.USAGE, "0 to 45"),
    (("--seeds", "5", "--night", "10"), ExitCode.USAGE, "--temperature"),
    (("--seeds", "5", "--temperature", "15", "--night", "20"), ExitCode.BAD_DATA, "warmer"),
    (("--seeds", "5", "--laid", "2027-03-01"), ExitCode.BAD_DATA, "future"),
    (("--seeds", "5", "--slip", "/no/such/folder/slip.pdf"), ExitCode.USAGE, "There is no folder"),
]


@pytest.mark.parametrize(("words", "code", "sentence"), START_REFUSED)
def test_a_test_that_cannot_be_laid_is_refused(
    type_in: Type, leek: str, words: tuple[str, ...], code: ExitCode, sentence: str
) -> None:
    assert sentence in type_in("test", "start", leek, *words, code=code).err
    assert type_in("test", "list", "--json").json == []
    assert type_in("list", "--json").json[0]["seeds"] == 200


def test_stock_and_tests_are_no_packets_to_test(type_in: Type, leek: str, start: Code) -> None:
    sets = type_in("add", "onion", "Brown Sets", "--stock", "--json").json["code"]
    assert "planting stock" in type_in("test", "start", sets, code=ExitCode.BAD_DATA).err
    test = start(leek, "--seeds", "10")
    told = type_in("test", "start", test, "--seeds", "5", code=ExitCode.NOT_FOUND)
    assert "is the code of a germination test" in told.err
    told = type_in("test", "count", leek, "--normal", "1", code=ExitCode.NOT_FOUND)
    assert "is the code of a packet" in told.err


@pytest.mark.parametrize(
    ("words", "sentences"),
    [
        (("parsnip", "Sexton", "--treated", "dressed"), ("Treated seed: not for eating", "gloves")),
        (("carrot", "Pill", "--treated", "pelleted"), ("do not soak", "gloves")),
        (("castor oil plant", "Tower"), ("Poisonous", "Do not eat the sprouts")),
        (("runner bean", "Church"), ("Poisonous raw", "Do not eat the sprouts")),
        (("leek", "Plain"), ("never eaten",)),
    ],
)
def test_cautions_stand_before_what_is_done(
    type_in: Type, code_of: Code, words: tuple[str, ...], sentences: tuple[str, ...]
) -> None:
    packet = code_of(*words, "--seeds", "100")
    said = type_in("test", "start", packet, "--seeds", "10").out
    cautions = said[said.index("Cautions") : said.index("\nLay\n")]
    for sentence in sentences:
        assert sentence in cautions
    assert said.index("Cautions") < said.index("\nLay\n")
    if "--treated" in words:
        assert "Soak it" not in said


def test_grams_follow_from_the_weight_of_a_thousand(type_in: Type, code_of: Code) -> None:
    packet = code_of("leek", "Heavy", "--grams", "5")
    started = type_in("test", "start", packet, "--seeds", "100", "--json").json
    left = type_in("show", packet, "--json").json["grams"]
    assert started["grams"] + left == pytest.approx(5)
    weighed = type_in("test", "start", packet, "--seeds", "10", "--grams", "0.1", "--json").json
    assert weighed["grams"] == 0.1
    type_in("test", "start", packet, "--seeds", "10", "--keep")
    assert type_in("show", packet, "--json").json["grams"] == pytest.approx(left - 0.1)


def test_a_test_is_dropped_with_and_without_its_seeds(
    type_in: Type, leek: str, start: Code
) -> None:
    dry, rotten = start(leek, "--seeds", "20"), start(leek, "--seeds", "30")
    back = type_in("test", "drop", dry, "--return-seeds").out
    assert "170 seeds in" in back
    type_in("test", "count", rotten, "--normal", "1", "--today", DAY_9)
    refused = type_in("test", "drop", rotten, "--return-seeds", code=ExitCode.BAD_DATA)
    assert "do not go back" in refused.err
    type_in("test", "drop", rotten)
    assert type_in("test", "list", "--json").json == []
    dropped = type_in("test", "list", "--state", "dropped", "--json").json
    assert {each["code"] for each in dropped} == {dry, rotten}
    assert "tells nothing of its packet" in type_in("test", "show", rotten).out
    assert "was dropped already" in type_in("test", "drop", dry, code=ExitCode.BAD_DATA).err


def test_finish_wants_a_count_and_can_be_reopened(
    type_in: Type, leek: str, start: Code, count: Callable[..., Any]
) -> None:
    test = start(leek, "--seeds", "20")
    never = type_in("test", "finish", test, code=ExitCode.BAD_DATA)
    assert "was never counted" in never.err
    count(test, "--normal", "12", "--hard", "1", "--day", "8", today=DAY_9)
    early = type_in("test", "finish", test, "--today", DAY_9).out
    assert "Stopped before the last count; 7 seeds might still have come." in early
    assert "1 hard seed" in early
    again = type_in("test", "count", test, "--normal", "1", code=ExitCode.BAD_DATA)
    assert f"seedbox test reopen {test}" in again.err
    type_in("test", "reopen", test)
    count(test, "--normal", "1", "--day", "14")
    ended = type_in("test", "finish", test, "--json", "--today", DAY_30).json
    assert (ended["state"], ended["normal"], ended["hard"]) == ("finished", 13, 1)
    assert "not running" in type_in("test", "finish", test, code=ExitCode.BAD_DATA).err


def test_a_test_with_every_seed_found_wants_no_more_counts(
    type_in: Type, leek: str, start: Code
) -> None:
    test = start(leek, "--seeds", "20")
    said = type_in("test", "count", test, "--normal", "12", "--dead", "8", "--today", DAY_7).out
    assert "Every seed is accounted for: finish the test." in said
    assert "Next:" not in said
    assert f"seedbox test finish {test}" in type_in("today", "--today", DAY_7).out
    done = type_in("test", "finish", test, "--today", DAY_7).out
    assert "8 dead" in done
    assert "nobody looked since" not in done


def test_a_second_test_is_held_against_the_first(
    type_in: Type, leek: str, start: Code, count: Callable[..., Any]
) -> None:
    for normal in ("18", "4"):
        test = start(leek, "--seeds", "20")
        count(test, "--normal", normal, "--day", "14")
        done = type_in("test", "finish", test, "--json", "--today", DAY_30).json
    assert [(each["germinated"], each["agrees"]) for each in done["earlier"]] == [(18, False)]
    assert "They differ" in type_in("test", "show", test, "--today", DAY_30).out


def test_a_test_of_somebody_else_says_whose_it_was_everywhere(type_in: Type, leek: str) -> None:
    left = type_in("show", leek, "--json").json["seeds"]
    laid = ("--seeds", "20", "--germinated", "17", "--by", " Maud Orr ")
    done = type_in("test", "record", leek, *laid, "--json").json
    assert "takes no seed from" in " ".join(type_in("test", "record", "--help").out.split())
    shown = type_in("show", leek, "--json").json
    assert (shown["seeds"], shown["tests"][0]["reported_by"]) == (left, "Maud Orr")
    page = type_in("show", leek).out
    assert "17 of 20, counted as of 9 seeds." in page
    assert any(line.endswith("test       by") for line in page.splitlines())
    test = type_in("test", "show", done["test"]).out
    assert "reported by: " in test
    assert "Reported by Maud Orr, so the forecast counts it as a test of 9 seeds" in test
    assert type_in("test", "show", done["test"], "--json").json["reported_by"] == "Maud Orr"
    assert type_in("test", "list").lines[-1].endswith("Maud Orr")
    own = type_in("test", "record", leek, *laid[:4]).out
    assert "Reported by" not in own
    assert "it counts with less trust than your own" in type_in("test", "record", leek, *laid).out
    assert type_in("show", leek, "--json").json["seeds"] == left - 20


def test_replicates_are_counted_all_at_once_or_not_at_all(
    type_in: Type, leek: str, start: Code
) -> None:
    test = start(leek, "--seeds", "100", "--replicates", "4")
    late = ("--day", "14", "--today", DAY_30)
    before = len(type_in("history", "--json").json)
    said = type_in(
        "test", "count", test, "--normal", "21,23,20,22", "--dead", "1, 0,2,0", *late
    ).out
    assert (
        "(day 14): replicate 1 counted: 21 normal seedlings and 1 dead seed; replicate 2 counted:"
        " 23 normal seedlings; replicate 3 counted: 20 normal seedlings and 2 dead seeds;"
        " replicate 4 counted: 22 normal seedlings." in said
    )
    assert len(type_in("history", "--json").json) == before + 1

    def counts() -> list[tuple[int, int]]:
        shown = type_in("test", "show", test, "--json", "--today", DAY_30).json
        return [(one["normal"], one["dead"]) for one in shown["counts"]]

    assert counts() == [(21, 1), (23, 0), (20, 2), (22, 0)]
    too_many = type_in("test", "count", test, "--normal", "0,0,0,26", *late, code=ExitCode.BAD_DATA)
    assert "Replicate 4 of" in too_many.err
    assert counts() == [(21, 1), (23, 0), (20, 2), (22, 0)]
    more = type_in("test", "count", test, "--dead", "0,2,0,1", "--add", *late).out
    assert "replicate 2 together now: 23 normal seedlings and 2 dead seeds" in more
    type_in("undo")
    corrected = type_in("test", "count", test, "--normal", "20,20,20,20", *late).out
    assert "replicate 1 corrected to: 20 normal seedlings;" in corrected
    type_in("undo")
    type_in("undo")
    assert counts() == []


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("--normal", "1,2,3"), "This test has 2 replicates, and --normal gives 3 numbers"),
        (("--normal", "1,2", "--dead", "1"), "2 replicates, and --dead gives 1 number"),
        (("--normal", "1,2", "--replicate", "1"), "one number with --replicate, or one for each"),
        (("--normal", "1,,2"), "leaves a number out: write 0"),
        (("--normal", "1,x"), "“x” is not a whole number"),
        (("--normal", "1,-2"), "0 or more"),
    ],
)
def test_counts_of_replicates_that_do_not_fit(
    type_in: Type, leek: str, start: Code, words: tuple[str, ...], part: str
) -> None:
    test = start(leek, "--seeds", "40", "--replicates", "2")
    said = type_in("test", "count", test, *words, "--today", DAY_30, code=ExitCode.USAGE).err
    assert part in said
    assert type_in("test", "show", test, "--json").json["counts"] == []


def test_the_list_shows_what_is_next_and_then_what_is_done(
    type_in: Type, leek: str, start: Code, monkeypatch: pytest.MonkeyPatch
) -> None:
    type_in("test", "record", leek, "--seeds", "20", "--germinated", "14", "--hard", "1",
            "--abnormal", "2", "--fresh", "0", "--dead", "3")  # fmt: skip
    late, early = start(leek, "--seeds", "10", "--laid", "2027-02-10"), start(leek, "--seeds", "20")
    codes = [each["code"] for each in type_in("test", "list", "--json").json]
    assert codes[:2] == [late, early]
    assert len(codes) == 3
    said = type_in("test", "list").lines
    assert [said.index("Running"), said.index("Finished")] == [0, 5]
    assert "first count since 16 February, 4 days late" in said[2]
    from seedbox.cli import tables
    from seedbox.cli.commands.germination_test import list_tests

    monkeypatch.setattr(list_tests, "room", lambda: 80)
    narrow = type_in("test", "list").lines
    assert max(map(tables.cells, narrow)) <= 80
    for state in ("running", "finished"):
        assert {
            each["state"] for each in type_in("test", "list", "--state", state, "--json").json
        } == {state}


def test_show_names_every_key_that_was_promised(
    type_in: Type, leek: str, start: Code, count: Callable[..., Any]
) -> None:
    test = start(leek, "--seeds", "20")
    count(test, "--normal", "3", "--abnormal", "1", "--day", "6")
    count(test, "--normal", "4", "--hard", "2", "--fresh", "1", "--dead", "3", "--day", "14")
    promised = (
        "code", "packet", "seeds", "counts", "germination", "decided", "normal", "abnormal",
        "hard", "fresh", "dead", "indices",
    )  # fmt: skip
    shown = type_in("test", "show", test, "--json", "--today", DAY_30).json
    (listed,) = type_in("test", "list", "--json", "--today", DAY_30).json
    for each in (shown, listed):
        assert all(name in each for name in promised)
        assert set(each["germination"]) == {"estimate", "low", "high"}
    assert shown == listed
    numbers = [shown[name] for name in ("normal", "abnormal", "hard", "fresh", "dead")]
    assert numbers == [7, 1, 2, 1, 3]
    said = type_in("test", "show", test, "--today", DAY_30).out
    assert "Apart: 1 abnormal seedling, 2 hard seeds, 1 fresh seed and 3 dead seeds." in said


def test_the_code_of_a_running_test_shows_its_packet(type_in: Type, leek: str, start: Code) -> None:
    test = start(leek, "--seeds", "20")
    shown = type_in("show", test, "--json").json
    assert (shown["code"], shown["running_tests"]) == (leek, [test])
    assert f"seedbox test show {test}" in type_in("show", leek).out


def test_a_near_miss_of_a_command_is_suggested(type_in: Type) -> None:
    said = type_in("test", "cuont", code=ExitCode.USAGE).err
    assert "There is no command “cuont”. Did you mean count?" in said
