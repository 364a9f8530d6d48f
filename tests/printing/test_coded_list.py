"""Lists with a code at each line: read back by another reader, no word outside its place."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp

from seedbox.errors import BadDataError, UsageError
from seedbox.printing.coded_list import CodedColumn, CodedList, CodedRow, print_coded_list
from seedbox.printing.content import LabelContent
from seedbox.printing.swap_page import SwapRow, WantRow, draw_swap_list

MM = 72 / 25.4
Items = Callable[[int], list[LabelContent]]
# ISO 216 and ANSI/ASME Y14.1, in mm.
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
CAUTION = "Raw beans are poisonous: soak them for five hours, boil them for thirty minutes."


@pytest.fixture
def rows(make_items: Items) -> list[SwapRow]:
    return [
        SwapRow(
            code=item.code,
            crop=item.text("crop"),
            variety=item.text("variety"),
            portions=number % 4 + 1,
            seeds="about 25",
            germination="untested" if number % 2 else "84 % (73 to 92), tested 12 March 2026",
            year="2024",
            cautions=(CAUTION,) * (number % 3),
        )
        for number, item in enumerate(make_items(40))
    ]


def _read(path: Path) -> list[list[tuple[str, float, float]]]:
    """For each page the codes and where they lie [mm from the top left], at 300 dpi."""
    document = pypdfium2.PdfDocument(path)
    pages = []
    for page in document:
        image = page.render(scale=300 / 72, grayscale=True).to_pil()
        found = zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)
        pages.append(
            [
                (
                    one.text,
                    one.position.top_left.x / 300 * 25.4,
                    one.position.top_left.y / 300 * 25.4,
                )
                for one in found
            ]
        )
    document.close()
    return pages


@pytest.mark.parametrize("page", PAPERS)
def test_a_swap_list_has_every_code_in_order_a_header_and_a_number_on_each_page(
    rows: list[SwapRow], tmp_path: Path, page: str
) -> None:
    path = tmp_path / "swap.pdf"
    printed = draw_swap_list(path, "Seed to swap", rows, page, date(2027, 2, 20))
    assert (printed.labels, printed.proofed, printed.unreadable) == (40, True, ())
    read = _read(path)
    assert [code for found in read for code, _, _ in sorted(found, key=lambda one: one[2])] == [
        row.code for row in rows
    ]
    document = pypdfium2.PdfDocument(path)
    assert printed.pages == len(document) > 1
    for number, sheet in enumerate(document, 1):
        size = sheet.get_size()
        assert size == pytest.approx([side * MM for side in PAPERS[page]], abs=0.5)
        words = sheet.get_textpage().get_text_range()
        for part in ("Seed to swap", "2027-02-20", "germination", "Check your own local law",
                     f"page {number} of {printed.pages}"):  # fmt: skip
            assert part in words
    document.close()


@pytest.mark.parametrize("page", PAPERS)
def test_no_word_lies_outside_the_page_or_on_a_code(
    rows: list[SwapRow], tmp_path: Path, page: str
) -> None:
    """From the text positions of another reader of PDF, in mm from the top left."""
    path = tmp_path / "swap.pdf"
    wants = [WantRow(f"bean {number}", "W" * 200, 2, "worth 4 of 5") for number in range(60)]
    hostile = SwapRow(rows[0].code, "Bean " * 800, "W" * 4000, cautions=("<b>caution</b> " * 300,))
    draw_swap_list(path, "Seed " * 90, [hostile, *rows[1:]], page, "2027-02-20", wants=wants)
    codes = _read(path)
    width, height = PAPERS[page]
    document = pypdfium2.PdfDocument(path)
    for number, sheet in enumerate(document):
        text = sheet.get_textpage()
        for at in range(text.count_rects()):
            left, bottom, right, top = (side / MM for side in text.get_rect(at))
            assert left >= 5 and right <= width - 5 and bottom >= 3 and top <= height - 5
            for _, x, y in codes[number]:
                beside = (
                    right < x - 1 or left > x + 8 or height - bottom < y or height - top > y + 8
                )
                assert beside, text.get_text_bounded(*text.get_rect(at))
    document.close()


def _list(*rows: CodedRow) -> CodedList:
    columns = (CodedColumn("left", 20.0, right=True), CodedColumn("there", 5.0, blank=True))
    return CodedList("Shelf", "today", columns, rows, empty="Nothing lies here.")


def test_the_same_list_gives_the_same_bytes_and_an_empty_one_says_so(tmp_path: Path) -> None:
    one, two = tmp_path / "1.pdf", tmp_path / "2.pdf"
    for path in (one, two):
        print_coded_list(_list(CodedRow("P4K7QMX2", ("84",))), path)
    assert one.read_bytes() == two.read_bytes()
    printed = print_coded_list(_list(), tmp_path / "none.pdf")
    assert (printed.labels, printed.pages) == (0, 1)
    document = pypdfium2.PdfDocument(tmp_path / "none.pdf")
    assert "Nothing lies here." in document[0].get_textpage().get_text_range()
    document.close()


def test_what_cannot_be_a_code_or_a_target_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadDataError, match="cannot be printed as a code"):
        print_coded_list(_list(CodedRow("not a code at all", ("1",))), tmp_path / "x.pdf")
    notes = tmp_path / "notes.txt"
    notes.write_text("mine")
    with pytest.raises(UsageError, match="is no PDF"):
        print_coded_list(_list(), notes)
    assert notes.read_text() == "mine"


def test_a_code_that_cannot_be_read_back_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The page cannot be spoilt from outside, so the reader is made to see nothing."""
    none: Any = lambda *args, **more: []  # noqa: E731
    monkeypatch.setattr(zxingcpp, "read_barcodes", none)
    printed = print_coded_list(_list(CodedRow("P4K7QMX2", ("84",))), tmp_path / "x.pdf")
    assert printed.unreadable == ("P4K7QMX2",)


def test_letters_that_no_font_has_are_told(tmp_path: Path) -> None:
    printed = print_coded_list(_list(CodedRow("P4K7QMX2", ("\U0001f331",))), tmp_path / "x.pdf")
    assert "U+1F331" in str(printed.warnings[0])


def test_wants_follow_the_offers_once_each_and_have_no_code(
    rows: list[SwapRow], tmp_path: Path
) -> None:
    wants = [WantRow(f"want{number}x", "", 2, "worth 4 of 5") for number in range(45)]
    path = tmp_path / "swap.pdf"
    printed = draw_swap_list(path, "Seed to swap", rows[:3], "a4", "2027-02-20", wants=wants)
    assert (printed.labels, printed.pages) == (3, 2)
    document = pypdfium2.PdfDocument(path)
    pages = [page.get_textpage().get_text_range() for page in document]
    document.close()
    words = "".join(pages)
    assert words.count("Looked for") == 1 and "3 packets, 45 wants." in words
    places = [words.index(f"want{number}x") for number in range(45)]
    assert places == sorted(places)
    assert words.rindex("about 25") < words.index("Looked for") < places[0]
    draw_swap_list(path, "Seed to swap", [], "a4", "2027-02-20", wants=wants[:1])
    document = pypdfium2.PdfDocument(path)
    assert "want0x" in document[0].get_textpage().get_text_range()
    document.close()
