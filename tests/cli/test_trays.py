"""Emergence in trays by commands: weaker evidence than a test, written down and taken back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from seedbox.errors import ExitCode

Type = Callable[..., Any]
Code = Callable[..., str]


@pytest.fixture
def leek(code_of: Code) -> str:
    return code_of("leek", "Flagstaff Lane", "--harvest", "2023", "--seeds", "200")


def _germination(type_in: Type, code: str) -> Any:
    return type_in("show", code, "--json").json["germination"]


def test_a_tray_moves_the_forecast_less_than_a_test(type_in: Type, leek: str) -> None:
    before = _germination(type_in, leek)
    type_in("test", "tray", leek, "--sown", "20", "--emerged", "2", "--place", "windowsill")
    by_tray = _germination(type_in, leek)
    type_in("undo")
    assert _germination(type_in, leek) == before
    type_in("test", "record", leek, "--seeds", "20", "--germinated", "2", "--keep")
    by_test = _germination(type_in, leek)
    assert by_test["mean"] < by_tray["mean"] < before["mean"]


def test_a_tray_is_listed_shown_and_struck_out(type_in: Type, leek: str) -> None:
    tray = ("test", "tray", leek, "--sown", "24", "--emerged", "15", "--place", "cold  frame")
    number = type_in(*tray, "--take", "--json", "--today", "2027-03-10").json["number"]
    (listed,) = type_in("test", "tray", "--json").json
    assert listed == {
        "number": number, "packet": leek, "on": "2027-03-10", "place": "cold frame",
        "sown": 24, "emerged": 15, "note": "",
    }  # fmt: skip
    assert type_in("test", "tray", leek, "--json").json == [listed]
    assert type_in("list", "--json").json[0]["seeds"] == 176
    assert "15 of 24 came up, cold frame" in type_in("show", leek).out
    type_in("test", "tray", "--remove", str(number))
    assert "No tray is on record" in type_in("test", "tray").out
    type_in("undo")
    type_in("undo")
    assert type_in("list", "--json").json[0]["seeds"] == 200


@pytest.mark.parametrize(
    ("words", "code", "sentence"),
    [
        (("--sown", "5"), ExitCode.USAGE, "both --sown and --emerged"),
        (("--sown", "5", "--emerged", "6"), ExitCode.BAD_DATA, "more than the 5 seeds"),
        (("--sown", "5", "--emerged", "1", "--on", "2027-12-01"), ExitCode.BAD_DATA, "future"),
        (("--sown", "500", "--emerged", "1", "--take"), ExitCode.BAD_DATA, "only 200 seeds left"),
        (("--remove", "1"), ExitCode.USAGE, "nothing else"),
    ],
)
def test_what_cannot_be_is_refused(
    type_in: Type, leek: str, words: tuple[str, ...], code: ExitCode, sentence: str
) -> None:
    assert sentence in type_in("test", "tray", leek, *words, code=code).err
    assert type_in("test", "tray", "--json").json == []
    assert type_in("list", "--json").json[0]["seeds"] == 200


def test_numbers_without_a_packet_and_a_tray_that_is_not_there(type_in: Type, leek: str) -> None:
    told = type_in("test", "tray", "--sown", "5", "--emerged", "1", code=ExitCode.USAGE)
    assert "One packet is wanted" in told.err
    told = type_in("test", "tray", "--remove", "9", code=ExitCode.NOT_FOUND)
    assert "no tray count number 9" in told.err
