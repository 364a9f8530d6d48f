"""Options of `labels`: the code rugged, a label for each cell, one's own line, the settings."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp

from seedbox.errors import ExitCode

Type = Callable[..., Any]
Code = Callable[..., str]
KINDS = {zxingcpp.QRCode: "qr", zxingcpp.Code128: "bars"}
READER = zxingcpp.BarcodeFormats([zxingcpp.QRCode, zxingcpp.Code128])


def looked_at(file: Path) -> tuple[Counter[str], str]:
    """How often each kind of code is on the first page, and its words."""
    document = pypdfium2.PdfDocument(file)
    image = document[0].render(scale=300 / 72, grayscale=True).to_numpy()
    found = zxingcpp.read_barcodes(image, formats=READER)
    words = document[0].get_textpage().get_text_range().replace("\r\n", " ")
    document.close()
    return Counter(KINDS[code.format] for code in found), words


@pytest.fixture
def leek(code_of: Code) -> str:
    return code_of("leek", "Flagstaff Lane", "--harvest", "2023", "--seeds", "200")


@pytest.mark.parametrize(
    ("layout", "codes"),
    [("once", {"qr": 1}), ("twice", {"qr": 2}), ("rugged", {"qr": 1, "bars": 1})],
)
def test_the_code_stands_as_often_as_is_asked_for(
    type_in: Type, leek: str, layout: str, codes: dict[str, int], tmp_path: Path
) -> None:
    file = tmp_path / "labels.pdf"
    type_in("labels", str(file), leek, "--code", layout)
    assert looked_at(file)[0] == codes


def test_what_cannot_be_scanned_is_refused_and_what_would_fit_is_named(
    type_in: Type, leek: str, tmp_path: Path
) -> None:
    file = tmp_path / "labels.pdf"
    said = type_in("labels", str(file), leek, "--sheet", "a4-189-25x10", "--code", "rugged",
                   code=ExitCode.USAGE).err  # fmt: skip
    assert "Neither a QR code beside a Code 128 nor the QR code twice fits" in said
    assert "a4-65-38x21-gap" in said
    assert not file.exists()


def test_own_line_dates_and_name_come_from_the_settings_or_for_once(
    type_in: Type, leek: str, tmp_path: Path
) -> None:
    file = tmp_path / "labels.pdf"
    for name, value in (("dates", "day first"), ("label_line", "plot 7"),
                        ("grower_name", "Ines Marlow"), ("grower_town", "Netherby")):  # fmt: skip
        type_in("settings", name, value)
    sheet = ("--sheet", "a4-8-99x68-gap", "--today", "2027-02-20")
    type_in("labels", str(file), leek, *sheet, "--design", "sharing")
    words = looked_at(file)[1]
    for part in ("Feb 2027", "plot 7", "shared by Ines Marlow, Netherby", "not treated"):
        assert part in words
    type_in("labels", str(file), leek, *sheet, "--line", "only today")
    words = looked_at(file)[1]
    assert "only today" in words
    assert "plot 7" not in words
    assert "20 Feb 2027" in words
    assert "Ines" not in words


def test_each_cell_of_a_sowing_gets_a_label(type_in: Type, leek: str, tmp_path: Path) -> None:
    type_in("place", "add", "sill", "--kind", "windowsill", "--temperature", "18")
    sown = type_in("sow", leek, "--cells", "6", "--per-cell", "2", "--place", "sill", "--json")
    code = sown.json["code"]
    file = tmp_path / "cells.pdf"
    assert "Wrote 6 labels" in type_in("labels", str(file), code, "--each", "cell").out
    codes, words = looked_at(file)
    assert codes == {"qr": 6}
    assert all(f"cell {number} of 6" in words for number in range(1, 7))
    assert "Wrote 1 label " in type_in("labels", str(file), code).out
    assert "Wrote 2 labels" in type_in("labels", str(file), code.lower(), code).out
    told = type_in("labels", str(file), leek, "--each", "cell", code=2).err
    assert "--each is for the labels of sowings" in told
    told = type_in("labels", str(file), leek, code, code=2).err
    assert "seedbox labels queue add CODE CODE" in told
