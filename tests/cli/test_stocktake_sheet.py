"""The sheet for a stocktake by hand: what should lie in a store, and codes that scan."""

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


@pytest.fixture
def shelf(type_in: Type, code_of: Code) -> dict[str, str]:
    """Two stores: one holds a counted, an uncounted and an empty packet, the other one."""
    for store in ("Shelf", "Jar"):
        type_in("store", "add", store, "--temperature", "12", "--humidity", "60")
    codes = {
        "leek": code_of("leek", "Long Hill", "--seeds", "84", "--store", "Shelf"),
        "onion": code_of("onion", "Barrow Light", "--store", "Shelf"),
        "kale": code_of("kale", "Tall Lantern", "--seeds", "20", "--store", "Shelf"),
        "carrot": code_of("carrot", "Mole's Lantern", "--seeds", "500", "--store", "Jar"),
    }
    type_in("recount", codes["kale"], "0")
    return codes


def test_what_should_lie_there_stands_on_the_sheet_by_crop(
    type_in: Type, shelf: dict[str, str], tmp_path: Path
) -> None:
    file = tmp_path / "shelf.pdf"
    type_in("settings", "dates", "day first")
    said = type_in("stocktake", "shelf", "--sheet", str(file), "--json").json
    assert said == {
        "store": "Shelf", "path": str(file), "packets": 2, "pages": 1, "proofed": True,
        "unreadable": [], "warnings": [],
    }  # fmt: skip
    document = pypdfium2.PdfDocument(file)
    image = document[0].render(scale=300 / 72, grayscale=True).to_pil()
    found = zxingcpp.read_barcodes(image)
    words = " ".join(document[0].get_textpage().get_text_range().split())
    document.close()
    by_height = sorted(found, key=lambda one: one.position.top_left.y)
    assert [one.text for one in by_height] == [shelf["leek"], shelf["onion"]]
    for part in ("Stocktake: Shelf", "20 Feb 2027", "2 packets should lie here", "Long Hill",
                 "84 seeds", "not counted", "there", "recount", "page 1 of 1"):  # fmt: skip
        assert part in words
    assert "Tall Lantern" not in words and "Mole's Lantern" not in words


def test_it_is_told_in_a_sentence_and_changes_nothing(
    type_in: Type, shelf: dict[str, str], tmp_path: Path, tin_path: Path
) -> None:
    before = type_in("history").out
    said = type_in("stocktake", "Jar", "--sheet", str(tmp_path / "jar.pdf"))
    assert said.out.startswith("Wrote 1 packet on 1 page")
    assert type_in("history").out == before


def test_a_sheet_goes_without_photos_and_needs_its_place(
    type_in: Type, shelf: dict[str, str], tmp_path: Path
) -> None:
    file = tmp_path / "s.pdf"
    for words, code, part in (
        (
            ("Shelf", str(tmp_path / "p.jpg"), "--sheet", str(file)),
            ExitCode.USAGE,
            "without photos",
        ),
        (("Attic", "--sheet", str(file)), ExitCode.NOT_FOUND, "Attic"),
        (("Shelf", "--sheet", str(tmp_path / "no" / "s.pdf")), ExitCode.USAGE, "no folder"),
        (("Shelf",), ExitCode.USAGE, "--sheet FILE.pdf"),
    ):
        assert part in type_in("stocktake", *words, code=code).err
    assert not file.exists()


def test_the_sheet_is_drawn_for_the_printer_that_was_measured(
    type_in: Type, shelf: dict[str, str], tmp_path: Path
) -> None:
    """A printer that feeds 2 mm too far to the right gets its codes 2 mm further left."""
    lefts = []
    for moved in ("0", "-2"):
        type_in("settings", "label_offset_x_mm", moved)
        type_in("stocktake", "shelf", "--sheet", str(tmp_path / "shelf.pdf"))
        document = pypdfium2.PdfDocument(tmp_path / "shelf.pdf")
        image = document[0].render(scale=300 / 72, grayscale=True).to_pil()
        document.close()
        found = zxingcpp.read_barcodes(image)
        lefts.append(min(one.position.top_left.x for one in found) / 300 * 25.4)
    assert lefts[0] - lefts[1] == pytest.approx(2.0, abs=0.1)
