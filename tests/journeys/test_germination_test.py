"""A doubtful packet from the plan to a changed forecast, in processes of their own, all undone."""

from __future__ import annotations

import csv
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp

Run = Callable[..., Any]
ROWS = (
    ("crop", "variety", "year", "left", "store", "treatment"),
    *((crop, "Old Row", "2021", "900", "Drawer", "none") for crop in ("radish", "dill")),
    ("parsnip", "Sexton", "2021", "90", "Drawer", "dressed"),
)


@pytest.fixture
def filled(run: Run, tmp_path: Path) -> None:
    with (tmp_path / "mine.csv").open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows(ROWS)
    run("import", "mine.csv")


def _codes_on(pdf: Path) -> list[str]:
    document = pypdfium2.PdfDocument(pdf)
    picture = document[0].render(scale=300 / 72).to_pil()
    document.close()
    return [code.text for code in zxingcpp.read_barcodes(picture)]


@pytest.mark.usefixtures("filled")
def test_the_whole_path(run: Run, tmp_path: Path) -> None:
    run("settings", "plants_wanted", "60")
    before = run("list", "--json").json
    packet = run("test", "plan", "--json").json[0]["packet"]
    assert packet in {each["code"] for each in before}

    run("test", "start", packet, "--seeds", "20", "--slip", "slip.pdf")
    (test,) = run("test", "list", "--json").json
    assert _codes_on(tmp_path / "slip.pdf") == [test["code"]]
    assert run("show", packet, "--json").json["seeds"] == 880
    assert run("list", "--json").json != before

    due = date(2027, 2, 20) + timedelta(days=test["first_count_day"])
    (job,) = run("today", "--json", "--today", str(due + timedelta(days=1))).json
    assert (job["code"], job["due"], job["days_late"]) == (test["code"], str(due), 1)
    run("test", "count", test["code"], "--day", "4", "--normal", "8", "--today", "2027-02-25")
    early = run("test", "count", test["code"], "--normal", "8", "--json", "--today", "2027-02-26")
    assert (early.json["decided"], early.json["normal"]) == ("good", 16)
    done = run("test", "finish", test["code"], "--json", "--today", "2027-02-26").json
    assert done["forecast_after"]["mean"] > done["forecast_before"]["mean"]
    width = {name: done[name]["high"] - done[name]["low"]
             for name in ("forecast_before", "forecast_after")}  # fmt: skip
    assert width["forecast_after"] < width["forecast_before"]
    assert run("today", "--json", "--today", "2027-04-01").json == []

    run("export", "kept")
    other = {"SEEDBOX_TIN": str(tmp_path / "other.tin"), "SEEDBOX_TODAY": "2027-02-26"}
    run("import", "kept", env=other)
    again = run("test", "show", test["code"], "--json", env=other).json
    assert again == run("test", "show", test["code"], "--json", "--today", "2027-02-26").json

    for _ in ("finish", "count", "count", "start"):
        run("undo")
    assert run("list", "--json").json == before
    assert run("test", "list", "--json").json == []


@pytest.mark.usefixtures("filled")
def test_treated_seed_is_told_before_it_is_handled(run: Run, tmp_path: Path) -> None:
    packets = run("list", "--json").json
    (parsnip,) = [each["code"] for each in packets if each["crop"] == "parsnip"]
    said = run("test", "start", parsnip, "--seeds", "10", "--slip", "slip.pdf").out
    assert said.index("Treated seed: not for eating") < said.index("\nLay\n")
    assert "Wear gloves at every count" in said
    document = pypdfium2.PdfDocument(tmp_path / "slip.pdf")
    words = document[0].get_textpage().get_text_range()
    document.close()
    assert "TREATED: do not eat" in words


@pytest.mark.usefixtures("filled")
def test_codes_of_tests_are_completed(run: Run) -> None:
    """As bash asks for it: the words typed so far, and which of them is being completed."""
    packet = run("list", "--json").json[0]["code"]
    test = run("test", "start", packet, "--seeds", "10", "--json").json["code"]
    asked = {"_SEEDBOX_COMPLETE": "bash_complete", "COMP_WORDS": "seedbox test count T",
             "COMP_CWORD": "3"}  # fmt: skip
    assert test in run(env=asked).out
