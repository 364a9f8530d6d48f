from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp

from seedbox.errors import BadDataError, UsageError
from seedbox.printing.content import MM, LabelContent, LabelJob
from seedbox.printing.designs import design
from seedbox.printing.labels import print_labels
from seedbox.printing.sheets import Sheet, sheet, sheets

Make = Callable[[int], list[LabelContent]]
READER = zxingcpp.BarcodeFormats([zxingcpp.QRCode, zxingcpp.Code128])


def read_in_order(page: Any, one: Sheet) -> list[str]:
    """What an independent reader reads row by row, left to right; nothing of ours helps it."""
    texts: list[str] = []
    for row in range(one.rows):
        top = (one.top_mm + row * one.row_pitch_mm) / 25.4 * 300
        band = page[max(0, round(top)) : round(top + one.label_height_mm / 25.4 * 300)]
        found = zxingcpp.read_barcodes(band, formats=READER, try_invert=False)
        texts += [code.text for code in sorted(found, key=lambda code: code.position.top_left.x)]
    return texts


KINDS = ("packet", "tray", "stake", "sharing", "jar", "test")


@pytest.mark.parametrize(("at", "name"), list(enumerate(sheets())))
def test_every_label_of_every_sheet_reads_back_in_its_place(
    at: int, name: str, make_items: Make, render: Callable[..., Any], tmp_path: Path
) -> None:
    """A full sheet of each, the designs in turn; every design on every sheet is looked at in
    test_every_design.py.
    """
    one = sheet(name)
    items = make_items(one.count)
    job = LabelJob(design(KINDS[at % len(KINDS)]), one, items)
    printed = print_labels(job, tmp_path / "labels.pdf")
    assert (printed.labels, printed.pages, printed.proofed) == (one.count, 1, True)
    assert printed.unreadable == ()
    assert read_in_order(render(printed.path), one) == [item.code for item in items]


@pytest.mark.parametrize("name", ["a4-65-38x21-gap", "a4-8-99x68-gap", "roll-62mm"])
def test_at_203_dpi_codes_read_back_too(name: str, make_items: Make, tmp_path: Path) -> None:
    job = LabelJob(design("packet"), sheet(name), make_items(sheet(name).count))
    assert print_labels(job, tmp_path / "labels.pdf", dpi=203).unreadable == ()


@pytest.mark.parametrize("symbol", ["code128", "both"])
@pytest.mark.parametrize(
    "name", ["a4-65-38x21-gap", "a4-4-105x148-butt", "a4-stake-20x140", "letter-30-2.625x1"]
)
def test_code_128_reads_back(symbol: str, name: str, make_items: Make, tmp_path: Path) -> None:
    packet = design("packet")
    packet = replace(packet, code=replace(packet.code, symbol=symbol))
    job = LabelJob(packet, sheet(name), make_items(sheet(name).count))
    assert print_labels(job, tmp_path / "labels.pdf").unreadable == ()


def test_a_code_off_the_page_is_named(make_items: Make, tmp_path: Path) -> None:
    items = make_items(2)
    job = LabelJob(design("packet"), sheet("a4-65-38x21-gap"), items, offset_x_mm=-20)
    printed = print_labels(job, tmp_path / "labels.pdf")
    assert printed.unreadable == (items[0].code,)
    assert printed.path.read_bytes().startswith(b"%PDF-")
    assert print_labels(job, tmp_path / "labels.pdf", proof=False).unreadable == ()


def test_start_copies_and_pages(
    make_items: Make, render: Callable[..., Any], tmp_path: Path
) -> None:
    items = make_items(2)
    one = sheet("a4-8-99x68-gap")
    job = LabelJob(design("packet"), one, items, start=7, copies=2)
    printed = print_labels(job, tmp_path / "labels.pdf")
    assert (printed.labels, printed.pages, printed.unreadable) == (4, 2, ())
    assert read_in_order(render(printed.path), one) == [items[0].code] * 2
    assert read_in_order(render(printed.path, number=1), one) == [items[1].code] * 2
    first = zxingcpp.read_barcodes(render(printed.path), formats=READER)
    assert min(code.position.top_left.y for code in first) > (13 + 3 * 67.7) / 25.4 * 300


def test_an_offset_moves_everything_right_and_down(
    make_items: Make, render: Callable[..., Any], tmp_path: Path
) -> None:
    job = LabelJob(design("packet"), sheet("a4-65-38x21-gap"), make_items(1))
    corners = []
    for x, y in ((0, 0), (3.0, 5.0)):
        moved = replace(job, offset_x_mm=x, offset_y_mm=y)
        path = print_labels(moved, tmp_path / "labels.pdf").path
        (read,) = zxingcpp.read_barcodes(render(path, dpi=600), formats=READER)
        corners.append(read.position.top_left)
    assert corners[1].x - corners[0].x == pytest.approx(3.0 / 25.4 * 600, abs=4)
    assert corners[1].y - corners[0].y == pytest.approx(5.0 / 25.4 * 600, abs=4)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"items": []}, "nothing to print"),
        ({"start": 66}, "Start 66 is out of range: a4-65-38x21-gap has labels 1 to 65"),
        ({"start": 0}, "Start 0"),
        ({"copies": 0}, "copies are out of range"),
        ({"offset_x_mm": 80.0}, "80 mm right"),
        ({"offset_y_mm": float("nan")}, "nan mm down"),
        ({"length_mm": 40.0}, "for rolls"),
        ({"scale_x": 0.89}, "scale of 0.89 across"),
        ({"scale_y": float("nan")}, "scale of nan down"),
    ],
)
def test_impossible_jobs_are_refused(
    change: dict[str, Any], words: str, make_items: Make, tmp_path: Path
) -> None:
    job = LabelJob(design("packet"), sheet("a4-65-38x21-gap"), make_items(1))
    with pytest.raises(UsageError, match=words):
        print_labels(replace(job, **change), tmp_path / "labels.pdf")
    assert list(tmp_path.iterdir()) == []


def test_a_code_that_has_no_room_is_refused_with_the_measures(
    make_items: Make, tmp_path: Path
) -> None:
    packet = design("packet")
    bars = replace(packet, code=replace(packet.code, symbol="code128"))
    with pytest.raises(UsageError, match=r"Code 128 .*\(36.4 mm at least\) .* 25.4 x 10 mm"):
        print_labels(LabelJob(bars, sheet("a4-189-25x10"), make_items(1)), tmp_path / "labels.pdf")
    low = replace(sheet("a4-189-25x10"), label_height_mm=7.0)
    with pytest.raises(UsageError, match=r"QR code .*\(7.4 mm at least\) nor .* 25.4 x 7 mm"):
        print_labels(LabelJob(packet, low, make_items(1)), tmp_path / "labels.pdf")


def test_only_a_pdf_is_overwritten(make_items: Make, tmp_path: Path) -> None:
    job = LabelJob(design("packet"), sheet("roll-29mm"), make_items(1))
    path = tmp_path / "labels.pdf"
    print_labels(job, path)
    print_labels(job, path)
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear neighbour")
    with pytest.raises(UsageError, match="left alone"):
        print_labels(job, letter)
    assert letter.read_text() == "Dear neighbour"
    with pytest.raises(UsageError, match="is a folder"):
        print_labels(job, tmp_path)
    with pytest.raises(UsageError, match="no folder"):
        print_labels(job, tmp_path / "nowhere" / "labels.pdf")
    assert sorted(entry.name for entry in tmp_path.iterdir()) == ["labels.pdf", "letter.txt"]


def test_a_code_that_no_symbol_holds_is_refused(tmp_path: Path) -> None:
    job = LabelJob(design("packet"), sheet("roll-29mm"), [LabelContent("not a code")])
    with pytest.raises(BadDataError, match="cannot be printed as a code"):
        print_labels(job, tmp_path / "labels.pdf")


def test_letters_that_no_font_has_are_warned_of(tmp_path: Path) -> None:
    items = [
        LabelContent("P4K7QMX2", {"crop": "Pea 🌱🌱", "variety": "ミニ"}),
        LabelContent("P4K7QMX3", {"crop": "Свёкла"}),
    ]
    printed = print_labels(
        LabelJob(design("packet"), sheet("roll-62mm"), items), tmp_path / "l.pdf"
    )
    first, second = map(str, printed.warnings)
    assert first == "P4K7 QMX2, crop: no font here has U+1F331; an empty box is printed instead."
    assert "PDF reader's own fonts" in second


def test_a_caution_that_does_not_fit_is_warned_of(make_items: Make, tmp_path: Path) -> None:
    items = make_items(4)
    assert [item.code for item in items if item.fields["caution"]] == [items[1].code]
    small = LabelJob(design("packet"), sheet("a4-189-25x10"), items)
    first = str(print_labels(small, tmp_path / "labels.pdf").warnings[0])
    assert first.startswith(
        f"caution: the caution does not fit this label in full: {items[1].text('code')}."
    )
    large = LabelJob(design("packet"), sheet("a4-8-99x68-gap"), items)
    assert print_labels(large, tmp_path / "labels.pdf").warnings == ()


def test_fonts_are_embedded_and_words_can_be_searched(make_items: Make, tmp_path: Path) -> None:
    job = LabelJob(design("packet"), sheet("letter-6-4x3.333"), make_items(5))
    path = print_labels(job, tmp_path / "labels.pdf").path
    raw = path.read_bytes().decode("latin-1")
    used = set(re.findall(r"/BaseFont /(\S+)", raw))
    described = re.findall(r"/FontFile2 \d+ 0 R.*?/FontName /(\S+)", raw, re.DOTALL)
    assert used
    assert used == set(described)
    words = pypdfium2.PdfDocument(path)[0].get_textpage().get_text_range()
    for item in job.items:
        for field in ("crop", "botanical", "variety"):
            assert item.fields[field] in words.replace("\r\n", " ")
        assert item.text("code") in words


def test_outlines_are_drawn_for_stakes_and_on_demand(
    make_items: Make, render: Any, tmp_path: Path
) -> None:
    def left_edge_is_dark(name: str, outlines: bool | None) -> bool:
        one = sheet(name)
        job = LabelJob(design("packet"), one, make_items(1), outlines=outlines)
        path = print_labels(job, tmp_path / "labels.pdf").path
        edge = round(one.place(1).x / 72 * 600)
        middle = round((one.top_mm * MM + one.place(1).height / 2) / 72 * 600)
        return bool(render(path, dpi=600)[middle, edge - 2 : edge + 3].min() < 220)

    assert left_edge_is_dark("a4-stake-20x140", None)
    assert not left_edge_is_dark("a4-stake-20x140", False)
    assert not left_edge_is_dark("a4-65-38x21-gap", None)
    assert left_edge_is_dark("a4-65-38x21-gap", True)


def test_a_line_that_must_not_be_missing_is_missed_aloud(make_items: Make, tmp_path: Path) -> None:
    items = make_items(3)
    for item in items:
        assert item.fields["sharer"]
    nameless = [
        LabelContent(item.code, {**item.fields, "sharer": "", "town": ""}) for item in items
    ]
    wide = sheet("a4-8-99x68-gap")
    assert not print_labels(LabelJob(design("sharing"), wide, items), tmp_path / "l.pdf").warnings
    (told,) = print_labels(LabelJob(design("sharing"), wide, nameless), tmp_path / "l.pdf").warnings
    assert told.field == "sharer + town"
    assert items[0].text("code") in told.sentence
    assert "grower_name" in told.sentence and told.sentence.startswith("nothing is written")
    homeless = [LabelContent(item.code, {**item.fields, "town": ""}) for item in items * 2]
    (told,) = print_labels(LabelJob(design("sharing"), wide, homeless), tmp_path / "l.pdf").warnings
    assert told.sentence.startswith("no town is written on ")
    assert all(told.sentence.count(item.text("code")) == 1 for item in items)
