"""Packets to fold: edges measured from the page by another reader, codes read, words off folds."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st

from seedbox.errors import BadDataError, UsageError
from seedbox.printing.content import LabelContent
from seedbox.printing.folding import FoldingPacket, hatching, print_folding
from seedbox.printing.folding_net import SIZES, FoldingSize, Net, folding_size, nets_on, sizes_on

MM = 72 / 25.4
NEAR_MM = 0.5
# ISO 216 and ANSI/ASME Y14.1, in mm.
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
FITS = [(size, page) for page in PAPERS for size in sizes_on(page)]
WORDS = (
    ("Caution", "Raw beans are poisonous: soak them for five hours, boil them for half an hour."),
    ("Sow", "indoors 20 Mar to 25 Apr, later to 4 May; outdoors 10 May to 30 Jun"),
    ("Depth", "25 to 40 mm"),
    ("Space", "15 cm apart, rows 60 cm"),
    ("Up in", "8 days (6 to 12) at 18 °C, windowsill"),
    ("Germination", "84 % (73 to 92) on 2027-02-20; 46 of 50, tested 2026-03-12"),
    ("Harvest", "60 to 75 days from sowing"),
)
Items = Callable[[int], list[LabelContent]]


@pytest.fixture
def packets(make_items: Items) -> list[FoldingPacket]:
    return [FoldingPacket(item, WORDS) for item in make_items(4)]


def _lines_on(page: Any) -> list[list[tuple[float, float]]]:
    """The corners of every path of a page [mm from its top left], by its path segments."""
    height = page.get_height()
    found = []
    for thing in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
        corners = []
        for at in range(pdfium.FPDFPath_CountSegments(thing.raw)):
            x, y = pdfium.c_float(), pdfium.c_float()
            segment = pdfium.FPDFPath_GetPathSegment(thing.raw, at)
            pdfium.FPDFPathSegment_GetPoint(segment, x, y)
            corners.append((x.value / MM, (height - y.value) / MM))
        found.append(corners)
    return found


def _texts_on(page: Any) -> list[tuple[str, tuple[float, float, float, float]]]:
    """Words with their left, top, right and bottom [mm from the top left]."""
    height, text = page.get_height(), page.get_textpage()
    found = []
    for at in range(text.count_rects()):
        left, bottom, right, top = text.get_rect(at)
        words = text.get_text_bounded(left, bottom, right, top)
        box = (left / MM, (height - top) / MM, right / MM, (height - bottom) / MM)
        found.append((words, box))
    return found


@pytest.fixture
def drawn(packets: list[FoldingPacket], tmp_path: Path) -> Iterator[Callable[..., Any]]:
    """The first page of packets of one size, opened by another reader of PDF."""
    opened = []

    def draw(size: FoldingSize, page: str) -> Any:
        printed = print_folding(packets, size, page, tmp_path / "fold.pdf")
        assert (printed.labels, printed.unreadable) == (4, ())
        opened.append(pypdfium2.PdfDocument(tmp_path / "fold.pdf"))
        return opened[-1][0]

    yield draw
    for document in opened:
        document.close()


@pytest.mark.parametrize(
    ("page", "widest", "two_up"), [("a4", 94.0, 108.5), ("letter", 95.6, 98.35)]
)
def test_the_largest_packets_of_a_paper(page: str, widest: float, two_up: float) -> None:
    """Arithmetic of the net, 2W + 12 wide and 20 + H + 15 high, within 5 mm of the edges of A4 and
    a quarter of an inch of those of Letter."""
    width, height = PAPERS[page]
    margin = {"a4": 5.0, "letter": 6.35}[page]
    assert 2 * widest + 12 + 2 * margin == pytest.approx(width, abs=0.01)
    assert 2 * (two_up + 35) + 2 * margin == pytest.approx(height, abs=0.01)
    assert FoldingSize("", widest, 100.0).rows_on(page)
    assert not FoldingSize("", widest + 0.1, 100.0).rows_on(page)
    assert FoldingSize("", 60.0, two_up).rows_on(page) == 2
    assert FoldingSize("", 60.0, two_up + 0.1).rows_on(page) == 1


def test_usual_sizes_are_all_there_and_some_stand_two_to_a_page() -> None:
    """Sizes from memory."""
    assert list(SIZES) == ["57x89", "64x108", "70x100", "76x114", "79x140", "86x152"]
    assert {name for name, size in SIZES.items() if size.rows_on("a4") == 2} == {
        "57x89", "64x108", "70x100",
    }  # fmt: skip
    assert {name for name, size in SIZES.items() if size.rows_on("letter") == 2} == {"57x89"}
    assert sizes_on("a4") == sizes_on("letter") == list(SIZES)


@pytest.mark.parametrize(("name", "page"), FITS)
def test_panels_and_flaps_have_their_measures_in_the_page(
    drawn: Callable[..., Any], name: str, page: str
) -> None:
    width, height = map(float, name.split("x"))
    sheet = drawn(SIZES[name], page)
    # A code is one path of hundreds of corners, in modules of its own.
    lines = [corners for corners in _lines_on(sheet) if len(corners) < 20]
    outlines = [corners for corners in lines if len(corners) >= 12]
    assert len(outlines) == SIZES[name].rows_on(page)
    for corners in outlines:
        edges = _Edges(corners)
        assert edges.front == pytest.approx((width, height), abs=NEAR_MM)
        assert edges.back[1] == pytest.approx(height, abs=NEAR_MM)
        assert 0.5 <= width - edges.back[0] <= 1.0
        assert edges.flaps == pytest.approx((20.0, 15.0, 12.0), abs=0.8)
        assert edges.whole == pytest.approx((2 * width + 12, height + 35), abs=NEAR_MM)
        leans = edges.leans()
        assert len(leans) == 6 and all(10 <= lean <= 15 for lean in leans)
    paper = PAPERS[page]
    for corners in lines:
        for x, y in corners:
            assert 1.0 <= x <= paper[0] - 1.0 and 1.0 <= y <= paper[1] - 1.0


@pytest.mark.parametrize(("name", "page"), FITS)
def test_only_folds_are_dashed_and_they_are_marked_off_the_panels(
    drawn: Callable[..., Any], name: str, page: str
) -> None:
    sheet = drawn(SIZES[name], page)
    nets = nets_on(SIZES[name], page)
    height = sheet.get_height()
    dashed = []
    for thing in sheet.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
        if pdfium.FPDFPageObj_GetDashCount(thing.raw):
            left, bottom, right, top = (side / MM for side in thing.get_bounds())
            dashed.append((left, height / MM - top, right, height / MM - bottom))
    assert len(dashed) == 6 * len(nets)
    for net in nets:
        for left, top, right, bottom in dashed:
            for panel in (net.front, net.back):
                beside = right <= panel.x + 0.2 or left >= panel.right - 0.2
                above = bottom <= panel.y + 0.2 or top >= panel.bottom - 0.2
                assert beside or above
            for flap in (net.side_flap, net.bottom_flap, net.top_flap):
                assert not _right_of_all(flap, ((left + right) / 2, (top + bottom) / 2))


class _Edges:
    """Measures of a net from the corners of its outline alone."""

    def __init__(self, corners: list[tuple[float, float]]) -> None:
        self.corners = list(dict.fromkeys((round(x, 3), round(y, 3)) for x, y in corners))
        xs, ys = sorted({x for x, _ in self.corners}), sorted({y for _, y in self.corners})
        self.left, self.right, self.top, self.low = xs[0], xs[-1], ys[0], ys[-1]
        # The upper edge of the panels is where the net is widest but for the side flap.
        on_right = sorted(y for x, y in self.corners if x == self.right)
        self.panel_top, self.panel_low = on_right[0], on_right[-1]
        on_top = sorted(x for x, y in self.corners if abs(y - self.panel_top) < 0.01)
        self.front_left, self.fold = on_top[0], on_top[1]

    @property
    def front(self) -> tuple[float, float]:
        return self.fold - self.front_left, self.panel_low - self.panel_top

    @property
    def back(self) -> tuple[float, float]:
        return self.right - self.fold, self.panel_low - self.panel_top

    @property
    def flaps(self) -> tuple[float, float, float]:
        """Depths of the top, the bottom and the side flap."""
        return (
            self.panel_top - self.top,
            self.low - self.panel_low,
            self.front_left - self.left,
        )

    @property
    def whole(self) -> tuple[float, float]:
        return self.right - self.left, self.low - self.top

    def leans(self) -> list[float]:
        """Degrees by which each slanting edge leans away from square."""
        found = []
        for (x, y), (to_x, to_y) in pairwise([*self.corners, self.corners[0]]):
            across, down = abs(to_x - x), abs(to_y - y)
            if across > 0.01 and down > 0.01:
                found.append(math.degrees(math.atan2(min(across, down), max(across, down))))
        return found


@pytest.mark.parametrize("page", PAPERS)
@pytest.mark.parametrize("name", ["57x89", "86x152"])
def test_panels_measured_with_a_ruler_on_the_picture(
    packets: list[FoldingPacket], tmp_path: Path, render: Callable[..., Any], name: str, page: str
) -> None:
    """At 200 dpi, along a line in the bottom flap's strip, and down the middle of the panels."""
    print_folding(packets[:1], SIZES[name], page, tmp_path / "fold.pdf")
    dpi = 200
    dark = render(tmp_path / "fold.pdf", dpi) < 128
    width, height = map(float, name.split("x"))
    net = nets_on(SIZES[name], page)[0]
    dots = dpi / 25.4

    def across(y: float) -> list[float]:
        """The middle of each dark run of a row, in mm."""
        at = numpy.flatnonzero(dark[round(y * dots)])
        runs = numpy.split(at, numpy.flatnonzero(numpy.diff(at) > 1) + 1)
        return [float(run.mean()) / dots for run in runs]

    def down(x: float) -> list[float]:
        at = numpy.flatnonzero(dark[:, round(x * dots)])
        runs = numpy.split(at, numpy.flatnonzero(numpy.diff(at) > 1) + 1)
        return [float(run.mean()) / dots for run in runs]

    # Dashes of the folds just above the panels: front to back is the width of the front.
    fold_left, fold_middle = across(net.front.y - 1.2)[:2]
    assert fold_middle - fold_left == pytest.approx(width, abs=NEAR_MM)
    cut_right = across(net.back.bottom - 2.0)[-1]
    assert cut_right - fold_middle == pytest.approx(width - 0.75, abs=NEAR_MM)
    cut_left = across(net.front.y + height / 2)[0]
    assert fold_left - cut_left == pytest.approx(12.75, abs=NEAR_MM)
    edges = down(net.back.right - 2.0)
    assert edges[-1] - net.back.y == pytest.approx(height, abs=NEAR_MM)
    beside = down(net.front.x + 0.8)
    top = min(beside, key=lambda y: abs(y - net.front.y))
    assert edges[-1] - top == pytest.approx(height, abs=NEAR_MM)
    assert edges[-1] - down((net.back.x + net.back.right) / 2)[0] == pytest.approx(
        height + 20.0, abs=NEAR_MM
    )


@pytest.mark.parametrize(("name", "page"), FITS)
def test_no_word_lies_over_a_fold_or_an_edge(
    drawn: Callable[..., Any], name: str, page: str
) -> None:
    sheet = drawn(SIZES[name], page)
    for net in nets_on(SIZES[name], page):
        inside = [box for _, box in _texts_on(sheet) if _in(box, net)]
        assert len(inside) > 15
    for words, box in _texts_on(sheet):
        net = next(net for net in nets_on(SIZES[name], page) if _in(box, net))
        assert _panel(box, net), (words, box)


def _in(box: tuple[float, ...], net: Net) -> bool:
    return net.y <= box[1] and box[3] <= net.y + net.size.net_height_mm


def _panel(box: tuple[float, ...], net: Net) -> str:
    """The panel that wholly holds a box, 2 mm off its folds; nothing when none does."""
    left, top, right, bottom = box
    front, back = net.front, net.back
    if bottom <= net.front.y - 0.8 and right <= front.right:
        return "waste"  # above the front, where how it is done stands
    if bottom <= back.y - 4.5 and left >= back.x + 2 and right <= back.right - 2:
        return "top flap"
    for name, panel in (("front", front), ("back", back)):
        across = panel.x + 2 <= left and right <= panel.right - 2
        if across and panel.y + 2 <= top and bottom <= panel.bottom - 2:
            return name
    return ""


@pytest.mark.parametrize(("name", "page"), FITS)
def test_codes_are_read_well_off_every_fold(
    packets: list[FoldingPacket], tmp_path: Path, render: Callable[..., Any], name: str, page: str
) -> None:
    print_folding(packets, SIZES[name], page, tmp_path / "fold.pdf", proof=False)
    nets = nets_on(SIZES[name], page)
    read = []
    for number in range(-(-len(packets) // len(nets))):
        picture = render(tmp_path / "fold.pdf", 300, number)
        for found in zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode):
            read.append(found.text)
            corners = [
                (point.x / 300 * 25.4, point.y / 300 * 25.4)
                for point in (found.position.top_left, found.position.bottom_right)
            ]
            assert min(_from_folds(corner, nets) for corner in corners) >= 5.0
    assert sorted(read) == sorted(packet.content.code for packet in packets)


def _from_folds(point: tuple[float, float], nets: tuple[Net, ...]) -> float:
    """Millimetres to the nearest fold line; the lines are upright or level."""
    apart = []
    for net in nets:
        for (x, y), (to_x, to_y) in net.folds:
            beside = max(x - point[0], 0.0, point[0] - to_x)
            below = max(y - point[1], 0.0, point[1] - to_y)
            apart.append(math.hypot(beside, below))
    return min(apart)


def test_the_top_flap_says_crop_and_code_on_its_head(
    packets: list[FoldingPacket], tmp_path: Path
) -> None:
    """Upright when the flap is over the front: then its letters run from right to left here."""
    size = SIZES["70x100"]
    print_folding(packets[:1], size, "a4", tmp_path / "fold.pdf")
    net = nets_on(size, "a4")[0]
    document = pypdfium2.PdfDocument(tmp_path / "fold.pdf")
    page = document[0].get_textpage()
    high = document[0].get_height() / MM
    whole = page.get_text_range()
    flap = []
    for at in range(page.count_chars()):
        left, bottom, right, _ = page.get_charbox(at)
        if left / MM > net.back.x and high - bottom / MM < net.back.y:
            flap.append((whole[at], (left + right) / 2))
    words = "".join(char for char, _ in flap)
    code = packets[0].content.text("code")
    assert code in words and "Lettuce, Grey Heron" in words
    at = words.index(code)
    places = [x for char, x in flap[at : at + len(code)] if char != " "]
    assert places == sorted(places, reverse=True)
    document.close()


@given(st.floats(40, 110), st.floats(70, 260), st.sampled_from(sorted(PAPERS)))
def test_a_net_of_any_size_lies_within_its_paper_or_is_refused(
    width: float, height: float, page: str
) -> None:
    size = FoldingSize("own", width, height)
    margin = {"a4": 5.0, "letter": 6.35}[page]
    room = [side - 2 * margin for side in PAPERS[page]]
    if 2 * width + 12 > room[0] + 1e-5 or height + 35 > room[1] + 1e-5:
        with pytest.raises(UsageError, match="does not fit"):
            nets_on(size, page)
    elif 2 * width + 12 < room[0] - 1e-5 and height + 35 < room[1] - 1e-5:
        nets = nets_on(size, page)
        for net in nets:
            for x, y in net.outline:
                assert margin - 1e-5 <= x <= PAPERS[page][0] - margin + 1e-5
                assert margin - 1e-5 <= y <= PAPERS[page][1] - margin + 1e-5
        for one, other in pairwise(nets):
            assert one.y + one.size.net_height_mm <= other.y + 1e-9


@given(st.floats(40, 94), st.floats(70, 250))
def test_hatching_stays_within_its_flap(width: float, height: float) -> None:
    net = Net(FoldingSize("own", width, height), 5.0, 5.0)
    for flap in (net.side_flap, net.bottom_flap):
        lines = hatching(flap)
        assert len(lines) > 10
        for line in lines:
            for x, y in line:
                assert min(p[0] for p in flap) <= x <= max(p[0] for p in flap)
                assert min(p[1] for p in flap) <= y <= max(p[1] for p in flap)
                assert _right_of_all(flap, (x, y))


def _right_of_all(shape: tuple[tuple[float, float], ...], point: tuple[float, float]) -> bool:
    """Whether a point lies on the same side of every edge of a convex shape."""
    sides = []
    for (x, y), (to_x, to_y) in pairwise([*shape, shape[0]]):
        sides.append((to_x - x) * (point[1] - y) - (to_y - y) * (point[0] - x))
    return all(side <= 1e-9 for side in sides) or all(side >= -1e-9 for side in sides)


def test_copies_pages_and_equal_bytes(packets: list[FoldingPacket], tmp_path: Path) -> None:
    one, two = tmp_path / "1.pdf", tmp_path / "2.pdf"
    for path in (one, two):
        printed = print_folding(packets[:2], SIZES["57x89"], "a4", path, copies=3)
        assert (printed.labels, printed.pages) == (6, 3)
    assert one.read_bytes() == two.read_bytes()


def test_what_is_refused_says_why_and_what_would_do(
    packets: list[FoldingPacket], tmp_path: Path
) -> None:
    path = tmp_path / "fold.pdf"
    with pytest.raises(UsageError, match=r"2W|252 x 135 mm") as told:
        print_folding(packets, folding_size("120x100"), "a4", path)
    assert "57x89" in told.value.sentence and "94.0 mm wide" in told.value.sentence
    with pytest.raises(UsageError, match="no packet size"):
        folding_size("large")
    with pytest.raises(UsageError, match="too small"):
        folding_size("20x30")
    with pytest.raises(UsageError, match="nothing to print"):
        print_folding([], SIZES["57x89"], "a4", path)
    with pytest.raises(UsageError, match="copies"):
        print_folding(packets, SIZES["57x89"], "a4", path, copies=0)
    with pytest.raises(BadDataError, match="cannot be printed as a code"):
        print_folding([FoldingPacket(LabelContent("far too long a code"))], SIZES["57x89"], "a4",
                      path)  # fmt: skip
    assert not path.exists()


@pytest.mark.parametrize("text", ["70x100", "70 × 100 mm", "70X100", "70.0x100"])
def test_a_size_is_read_in_the_ways_people_write_it(text: str) -> None:
    assert (folding_size(text).width_mm, folding_size(text).height_mm) == (70.0, 100.0)


def test_hostile_words_stay_in_their_panels_and_what_is_cut_is_told(
    make_items: Items, tmp_path: Path
) -> None:
    code = make_items(1)[0].code
    fields = {
        "crop": "<b>Bean</b> & \N{RIGHT-TO-LEFT OVERRIDE}co " * 60,
        "variety": "W" * 4000,
        "caution": "TREATED: do not eat " * 40,
        "year": "\x07\n" * 50 + "2024" * 50,
        "source": "\U0001f331" * 30,
    }
    packet = FoldingPacket(LabelContent(code, fields), (("Sow", "x" * 4000), *WORDS[2:]))
    size = SIZES["57x89"]
    printed = print_folding([packet], size, "a4", tmp_path / "fold.pdf")
    assert printed.unreadable == ()
    told = " ".join(map(str, printed.warnings))
    assert "the caution does not fit the front in full" in told
    assert "the back has no room for all of: Sow" in told
    assert "U+1F331" in told
    document = pypdfium2.PdfDocument(tmp_path / "fold.pdf")
    net = nets_on(size, "a4")[0]
    for words, box in _texts_on(document[0]):
        assert _panel(box, net), (words, box)
    document.close()
