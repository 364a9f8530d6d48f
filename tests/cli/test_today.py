"""What is due: late counts first, then those of today, and what comes next when nothing is."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from seedbox.errors import ExitCode

Type = Callable[..., Any]
Code = Callable[..., str]
KEYS = ["job", "kind", "due", "days_late", "code", "crop", "variety", "what", "why"]


@pytest.fixture
def tests(type_in: Type, code_of: Code) -> dict[str, str]:
    """Leek is counted on day 6 to 14, radish on day 4 to 10 (international rules, from memory)."""
    codes = {}
    for crop, variety in (("leek", "Flagstaff Lane"), ("radish", "")):
        packet = code_of(crop, variety, "--seeds", "200")
        codes[crop] = type_in("test", "start", packet, "--seeds", "20", "--json").json["code"]
    return codes


def test_nothing_is_due_and_what_comes_first(type_in: Type, tests: dict[str, str]) -> None:
    assert type_in("today", "--json").json == []
    said = type_in("today").lines
    assert said[0] == "Nothing is due on 20 February 2027."
    assert said[1].endswith("radish, first count on 24 February.")


def test_the_latest_stands_first(type_in: Type, tests: dict[str, str]) -> None:
    jobs = type_in("today", "--json", "--today", "2027-02-26").json
    assert [list(job) for job in jobs] == [KEYS, KEYS]
    assert [(job["code"], job["kind"], job["due"], job["days_late"]) for job in jobs] == [
        (tests["radish"], "first count", "2027-02-24", 2),
        (tests["leek"], "first count", "2027-02-26", 0),
    ]
    assert (jobs[1]["crop"], jobs[1]["variety"]) == ("leek", "Flagstaff Lane")
    assert len({job["job"] for job in jobs}) == 2
    said = type_in("today", "--today", "2027-02-26").out
    assert said.startswith("26 February 2027: 2 jobs, 1 of them late.\n")
    assert "radish: first count, 2 days late (due 24 February)." in said
    assert "leek, Flagstaff Lane: first count today." in said


def test_a_count_moves_the_job_on_and_the_last_asks_for_the_finish(
    type_in: Type, tests: dict[str, str]
) -> None:
    radish = tests["radish"]
    type_in("test", "count", radish, "--normal", "9", "--today", "2027-02-24")
    jobs = type_in("today", "--json", "--today", "2027-02-27").json
    (job,) = [job for job in jobs if job["code"] == radish]
    assert (job["kind"], job["days_late"]) == ("count", 1)
    type_in("test", "count", radish, "--normal", "1", "--today", "2027-03-02")
    jobs = type_in("today", "--json", "--today", "2027-03-02").json
    (finish,) = [job for job in jobs if job["code"] == radish]
    assert (finish["kind"], finish["due"]) == ("finish", "2027-03-02")
    assert f"seedbox test finish {radish}" in type_in("today", "--today", "2027-03-02").out
    type_in("test", "finish", radish, "--today", "2027-03-02")
    left = type_in("today", "--json", "--today", "2027-03-02").json
    assert [job["code"] for job in left] == [tests["leek"]]


def test_what_lies_ahead_is_shown_when_asked_for(type_in: Type, tests: dict[str, str]) -> None:
    ahead = type_in("today", "--ahead", "4", "--json").json
    assert [(job["code"], job["days_late"]) for job in ahead] == [(tests["radish"], 0)]
    assert "first count on 24 February." in type_in("today", "--ahead", "4").out
    assert len(type_in("today", "--ahead", "30", "--json").json) == 2
    type_in("today", "--ahead", "-1", code=ExitCode.USAGE)


def test_a_tin_without_tests_and_no_tin_at_all(type_in: Type, code_of: Code) -> None:
    assert "There is no tin" in type_in("today", code=ExitCode.TIN).err
    code_of("leek", "Plain")
    assert type_in("today").out == "Nothing is due on 20 February 2027.\n"
