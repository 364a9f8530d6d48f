"""Slips for the bags of tests: an independent reader gets the code, a person the days."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp

from seedbox.errors import ExitCode

Type = Callable[..., Any]
Code = Callable[..., str]


def _page(path: Path) -> tuple[list[str], str]:
    """Codes that zxing-cpp reads from a page rendered at 300 dpi, and its words."""
    document = pypdfium2.PdfDocument(path)
    try:
        image = document[0].render(scale=300 / 72, grayscale=True).to_pil()
        words = document[0].get_textpage().get_text_range()
    finally:
        document.close()
    return [found.text for found in zxingcpp.read_barcodes(image)], " ".join(words.split())


@pytest.fixture
def bean(code_of: Code) -> str:
    return code_of("runner bean", "Church Ladder", "--seeds", "200", "--treated", "dressed")


def test_a_slip_carries_code_days_caution_and_blanks(
    type_in: Type, bean: str, tmp_path: Path
) -> None:
    file = tmp_path / "slip.pdf"
    said = type_in("test", "start", bean, "--seeds", "10", "--temperature", "20", "--slip",
                   str(file)).out  # fmt: skip
    assert said.endswith(
        f"Wrote 1 label on 1 page to {file}. Every code was read back from the page.\n"
    )
    test = type_in("test", "list", "--json").json[0]
    codes, words = _page(file)
    assert codes == [test["code"]]
    assert test["code"][0] == "T"
    shown = f"{bean[:4]} {bean[4:]}"
    for part in (
        "runner bean", "Church Ladder", "TREATED: do not eat", "laid 2027-02-20", "10 seeds",
        "first count 25 Feb", "last count 1 Mar", "20 °C", f"packet {shown}",
    ):  # fmt: skip
        assert part in words, (part, words)
    assert words.count("_____") == len(test["counts"]) + 3  # days 5, 7 and 9


def test_a_start_with_a_slip_is_one_document_for_programs(
    type_in: Type, bean: str, tmp_path: Path
) -> None:
    words = ("test", "start", bean, "--seeds", "10", "--json")
    assert type_in(*words).json["slip"] is None
    said = type_in(*words, "--slip", str(tmp_path / "slip.pdf")).json
    assert (said["slip"]["labels"], said["slip"]["unreadable"]) == (1, [])
    assert _page(tmp_path / "slip.pdf")[0] == [said["code"]]


def test_each_replicate_has_a_slip_of_its_own(type_in: Type, bean: str, tmp_path: Path) -> None:
    test = type_in("test", "start", bean, "--seeds", "100", "--json").json
    file = tmp_path / "slips.pdf"
    type_in("test", "slip", test["code"], str(file))
    codes, words = _page(file)
    assert codes == [test["code"]] * test["replicates"]
    assert all(f"25 seeds, replicate {number} of 4" in words for number in (1, 2, 3, 4))


@pytest.mark.parametrize(
    "words",
    [
        ("test", "slip", "{file}"),
        ("test", "slip", "{file}", "{first}", "{second}"),
        ("test", "slip", "{first}", "{packet}", "{file}"),
        ("labels", "{file}", "--design", "test"),
        ("labels", "{file}", "{first}", "{second}"),
        ("labels", "{file}", "{first}", "{second}", "--sheet", "a4-24-64x34-gap", "--start", "4"),
    ],
)
def test_slips_for_some_or_all_that_run(
    type_in: Type, bean: str, code_of: Code, tmp_path: Path, words: tuple[str, ...]
) -> None:
    other = code_of("leek", "Flagstaff Lane", "--seeds", "90")
    made = [
        type_in("test", "start", packet, "--seeds", "10", "--json").json["code"]
        for packet in (bean, other)
    ]
    file = tmp_path / "slips.pdf"
    names = {"file": str(file), "first": made[0], "second": made[1], "packet": other}
    said = type_in(*(word.format(**names) for word in words), "--json").json
    assert (said["labels"], said["proofed"], said["unreadable"]) == (2, True, [])
    assert sorted(_page(file)[0]) == sorted(made)


def test_slips_that_cannot_be_are_refused(type_in: Type, bean: str, tmp_path: Path) -> None:
    file = tmp_path / "slips.pdf"
    none = type_in("test", "slip", str(file), code=ExitCode.NOT_FOUND)
    assert "No germination test is running" in none.err
    packet = type_in("test", "slip", bean, str(file), code=ExitCode.NOT_FOUND)
    assert f"seedbox test start {bean}" in packet.err
    done = type_in("test", "record", bean, "--seeds", "10", "--germinated", "6", "--json").json
    ended = type_in("test", "slip", done["test"], str(file), code=ExitCode.BAD_DATA)
    assert "is finished, so it wants no slip" in ended.err
    assert "ends in .pdf" in type_in("test", "slip", bean, code=ExitCode.USAGE).err
    filters = type_in("labels", str(file), "--design", "test", "--crop", "leek",
                      code=ExitCode.USAGE)  # fmt: skip
    assert "Filters choose packets" in filters.err
    assert not file.exists()


def test_a_name_in_any_script_stands_on_its_slip(
    type_in: Type, code_of: Code, tmp_path: Path
) -> None:
    packet = code_of("tomato", "Κόκκινο Γεφύρι", "--seeds", "90")
    file = tmp_path / "slip.pdf"
    type_in("test", "start", packet, "--seeds", "10", "--slip", str(file))
    assert "Κόκκινο Γεφύρι" in _page(file)[1]
