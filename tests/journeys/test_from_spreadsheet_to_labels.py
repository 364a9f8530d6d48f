"""The main path: a grower's spreadsheet in, a list with forecasts, labels that scan, all undone."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp
from openpyxl import Workbook

Run = Callable[..., Any]

ROWS = (
    ("Where", "What", "Variety", "Year", "How many", "Remarks"),
    ("Kitchen drawer", "Tomatoes", "Gate Crasher", 2024, 35, ""),
    ("Kitchen drawer", "Aubergine", "Bruise", 2023, "a few", ""),
    ("Shed", "broad beans", "Crooked Spire", 2025, 80, "not raw"),
    ("Shed", "Leek", "Flagstaff Lane", "2023/24", "200 seeds", ""),
    ("Shed", "carrot", "Шапка", 2022, "1,5 g", ""),
    ("Jar", "onion", "細雨", 2026, "3 g", "+1 packet, see shelf"),
    ("Jar", "Marigold", "Sunday Driver", 2024, 90, "which?"),
    ("Jar", "Kale", "Cold Shoulder", 2204, 5, ""),
)


@pytest.fixture
def spreadsheet(tmp_path: Path) -> Path:
    book = Workbook()
    for row in ROWS:
        book.active.append(row)
    path = tmp_path / "my seeds.xlsx"
    book.save(path)
    return path


def codes_on(pdf: Path) -> set[str]:
    """Every QR code that an independent reader finds on the rendered pages (300 dpi)."""
    document = pypdfium2.PdfDocument(pdf)
    found: set[str] = set()
    for page in document:
        picture = page.render(scale=300 / 72).to_pil()
        found |= {code.text for code in zxingcpp.read_barcodes(picture)}
    document.close()
    return found


def test_the_whole_path(run: Run, spreadsheet: Path, tmp_path: Path) -> None:
    said = run("import", str(spreadsheet), "--rejects", "left out.csv")
    assert "Added 6 packets and 3 stores" in said.out
    assert "row 8" in said.out
    assert "row 9" in said.out

    listed = run("list", "--json").json
    assert {packet["crop"] for packet in listed} == {
        "tomato", "aubergine", "broad bean", "leek", "carrot", "onion",
    }  # fmt: skip
    assert all(packet["germination"]["low"] < packet["germination"]["high"] for packet in listed)
    by_crop = {packet["crop"]: packet for packet in listed}
    assert by_crop["carrot"]["grams"] == 1.5
    assert by_crop["aubergine"]["seeds"] is None
    assert "細雨" in run("list").out

    run("store", "edit", "Jar", "--temperature", "4", "--sealed", "--moisture", "6")
    wanted = [by_crop[crop]["code"] for crop in ("tomato", "leek", "carrot")]
    printed = run("labels", "some.pdf", *wanted, "--start", "5", "--json").json
    assert (printed["labels"], printed["unreadable"]) == (3, [])
    assert codes_on(tmp_path / "some.pdf") == set(wanted)
    run("labels", "all.pdf")
    assert codes_on(tmp_path / "all.pdf") == {packet["code"] for packet in listed}

    run("take", by_crop["tomato"]["code"], "5")
    run("test", "record", by_crop["leek"]["code"], "--seeds", "20", "--germinated", "15")
    assert "5 seeds" in run("history").out

    while run("undo", code=None).code == 0:
        pass
    assert run("list", "--empty", "--json").json == []
    assert run("store", "list", "--json").json == []


def test_mended_rejects_come_in_afterwards(run: Run, spreadsheet: Path, tmp_path: Path) -> None:
    run("import", str(spreadsheet), "--rejects", "left out.csv")
    path = tmp_path / "left out.csv"
    text = path.read_text(encoding="utf-8-sig")
    path.write_text(text.replace("Marigold", "pot marigold").replace("2204", "2024"), "utf-8")
    assert "Added 2 packets" in run("import", str(path)).out
    assert len(run("list", "--json").json) == 8


def test_planting_by_codes_scanned_from_the_label(
    run: Run, spreadsheet: Path, tmp_path: Path
) -> None:
    """What a reader reads from paper is what the commands take."""
    run("import", str(spreadsheet))
    run("labels", "leek.pdf", "--crop", "leek")
    (scanned,) = codes_on(tmp_path / "leek.pdf")
    assert "195 seeds left" in run("take", scanned, "5").out
