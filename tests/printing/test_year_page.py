"""The page for the shed door and the list on paper: what stands on them, and where."""

from __future__ import annotations

import re
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path

import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.errors import UsageError
from seedbox.printing.list_page import ListColumn, ListSheet, broken, print_list
from seedbox.printing.paper import text_width
from seedbox.printing.year_page import YearBar, YearRow, YearSheet, lanes, print_year

_DAYS = st.dates(date(2026, 6, 1), date(2028, 6, 1))
_BARS = st.builds(
    lambda letter, first, days, pale: YearBar(letter, first, first + timedelta(days=days), pale),
    st.sampled_from("ICOPH"),
    _DAYS,
    st.integers(0, 200),
    st.booleans(),
)
_PAGE_MM = 297.0  # ISO 216: A4 is 210 x 297 mm


def _sheet(rows: tuple[YearRow, ...]) -> YearSheet:
    legend = (("I", "sow indoors"), ("C", "under cover"), ("H", "harvest"))
    return YearSheet("Mill Lane, 2027", 2027, "52°", legend, rows, ((date(2027, 4, 25), "frost"),))


def _open(path: Path) -> tuple[list[tuple[float, float]], list[str]]:
    document = pypdfium2.PdfDocument(path)
    sizes = [page.get_size() for page in document]
    words = [page.get_textpage().get_text_range() for page in document]
    document.close()
    return sizes, words


@given(st.lists(_BARS, max_size=12))
def test_lanes_keep_every_bar_and_part_what_overlaps(bars: list[YearBar]) -> None:
    found = lanes(bars)
    assert sorted(map(repr, (bar for lane in found for bar in lane))) == sorted(map(repr, bars))
    for lane in found:
        ordered = sorted(lane, key=lambda bar: bar.first)
        for one, other in pairwise(ordered):
            assert one.last < other.first


@given(st.lists(_BARS, max_size=12))
def test_there_are_no_more_lanes_than_bars_at_once(bars: list[YearBar]) -> None:
    """Interval partitioning: taken by their beginnings, they need as many lanes as overlap on the
    fullest day (Kleinberg & Tardos 2005, Algorithm Design, section 4.1; from memory)."""
    ordered = sorted(bars, key=lambda bar: (bar.first, bar.last))
    fullest = max((sum(b.first <= a.first <= b.last for b in bars) for a in bars), default=0)
    assert len(lanes(ordered)) == fullest


def test_a_page_lies_sideways_and_names_every_crop(tmp_path: Path) -> None:
    bar = YearBar("I", date(2027, 3, 1), date(2027, 4, 1))
    rows = tuple(YearRow(f"crop number {at}", (bar,)) for at in range(100))
    pages = print_year(_sheet(rows), tmp_path / "year.pdf")
    sizes, words = _open(tmp_path / "year.pdf")
    assert len(sizes) == pages > 1
    assert all(size[0] == pytest.approx(_PAGE_MM * 72 / 25.4, abs=0.1) for size in sizes)
    assert all("Mill Lane, 2027" in page and "sow indoors" in page for page in words)
    for at in range(100):
        assert sum(len(re.findall(rf"crop number {at}\b", page)) for page in words) == 1


def test_a_bar_stands_in_its_months(tmp_path: Path) -> None:
    """Ink of a bar from 1 July to 31 July lies between the lines of July and of August."""
    rows = (YearRow("bean", (YearBar("P", date(2027, 7, 1), date(2027, 7, 31)),)),)
    path = tmp_path / "year.pdf"
    print_year(YearSheet("t", 2027, "", (), rows), path)
    document = pypdfium2.PdfDocument(path)
    scale = 4.0
    picture = document[0].render(scale=scale).to_pil().convert("L")
    document.close()
    mm = scale * 72 / 25.4
    line = round((24.0 + 0.6 + 1.1) * mm)  # through the middle of the first lane
    dark = [x for x in range(round(49 * mm), picture.width) if picture.getpixel((x, line)) < 80]
    left, right = 10.0 + 38.0, _PAGE_MM - 10.0
    expected = [left + (right - left) * day / 365 for day in (181, 212)]  # days before each
    assert dark[0] / mm == pytest.approx(expected[0], abs=0.5)
    assert dark[-1] / mm == pytest.approx(expected[1], abs=0.5)


@pytest.mark.parametrize("page", ["a4", "letter"])
def test_letters_of_any_script_and_an_empty_year(tmp_path: Path, page: str) -> None:
    rows = (YearRow("Đậu 小雨 بامية \U00010330", ()), YearRow("x" * 300, ()))
    assert print_year(_sheet(rows), tmp_path / "year.pdf", page=page) == 1
    assert print_year(_sheet(()), tmp_path / "none.pdf", page=page) == 1


def test_a_list_wraps_long_cells_and_goes_over_pages(tmp_path: Path) -> None:
    columns = (ListColumn("crop", 30.0), ListColumn("seeds", 15.0, True), ListColumn("why", 60.0))
    rows = tuple((f"crop {at}", str(at), "none in the tin " * 6) for at in range(60))
    path = tmp_path / "list.pdf"
    assert print_list(ListSheet("To buy", "today", columns, rows), path) > 1
    words = " ".join(_open(path)[1])
    assert all(f"crop {at}" in words for at in range(60))
    assert words.count("To buy") > 1


@given(st.text(st.characters(codec="utf-8", categories=("L", "N", "Z")), max_size=120),
       st.floats(8.0, 80.0))  # fmt: skip
def test_lines_of_a_cell_fit_and_lose_nothing(text: str, width: float) -> None:
    lines = broken(text, width)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(text_width(line, 9.0) <= width or len(line) == 1 for line in lines)


def test_what_is_no_pdf_is_left_alone(tmp_path: Path) -> None:
    other = tmp_path / "mine.txt"
    other.write_text("mine", encoding="utf-8")
    with pytest.raises(UsageError, match="is no PDF"):
        print_year(_sheet(()), other)
    with pytest.raises(UsageError, match="no folder"):
        print_list(ListSheet("t", "", (ListColumn("a", 20.0),), ()), tmp_path / "no" / "x.pdf")
    assert other.read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("first", "last", "shown"),
    [
        (date(2026, 5, 24), date(2027, 1, 3), False),
        (date(2026, 5, 24), date(2027, 1, 4), True),
        (date(2027, 12, 29), date(2028, 3, 1), False),
        (date(2027, 1, 1), date(2027, 1, 2), True),
        (date(2026, 12, 1), date(2026, 12, 31), False),
    ],
)
def test_the_rest_of_a_week_of_another_year_is_no_bar(
    tmp_path: Path, first: date, last: date, shown: bool
) -> None:
    """Bars are the paths in the upper half of the page that are as high as one."""
    row = YearRow("borage", (YearBar("H", first, last),))
    print_year(_sheet((row,)), tmp_path / "year.pdf")
    document = pypdfium2.PdfDocument(tmp_path / "year.pdf")
    high = document[0].get_height()
    boxes = [one.get_bounds() for one in document[0].get_objects(filter=[2])]
    document.close()
    bars = [box for box in boxes if 4 < box[3] - box[1] < 9 and box[3] > high / 2]
    assert len(bars) == int(shown)


PASTED = {
    "long": "Wide Bean " * 400,
    "without a blank": "W" * 4000,
    "markup": "<b>&amp;</b> %s",
    "override": "\u202eDrawkcab\u202c",
    "from the right": "قمر " * 300,
    "emoji": "🌱👩🏽\u200d🌾",
    "control characters": "Pea\x00\x07\x1b[31m\x7f\u2028",
    "a lone surrogate": "a\ud83cb",
    "piled marks": "e" + "\u0301" * 800,
}


@pytest.mark.parametrize("text", PASTED.values(), ids=PASTED)
def test_whatever_is_pasted_stays_on_the_page(tmp_path: Path, text: str) -> None:
    """What a person may have written: names of gardens and crops, words in a list to buy."""
    bar = YearBar("I", date(2027, 3, 1), date(2027, 4, 1))
    year = YearSheet(text, 2027, text, (("I", "sow indoors"),), (YearRow(text, (bar,)),) * 30)
    columns = (ListColumn("crop", 40.0), ListColumn("note", 30.0), ListColumn("seeds", 20.0, True))
    listed = ListSheet(text, text, columns, ((text, text, "12"),) * 4)
    print_year(year, tmp_path / "year.pdf")
    print_list(listed, tmp_path / "list.pdf")
    for name in ("year.pdf", "list.pdf"):
        document = pypdfium2.PdfDocument(tmp_path / name)
        for page in document:
            width, height = page.get_size()
            words = page.get_textpage()
            for left, bottom, right, top in map(words.get_rect, range(words.count_rects())):
                assert 20 < left < right < width - 20
                assert 5 < bottom < top < height - 5
        document.close()
