"""The printer's correction: from a page that a false printer printed to labels that land true."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy
import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from seedbox.errors import UsageError
from seedbox.printing.calibration import draw_calibration
from seedbox.printing.content import LabelJob
from seedbox.printing.designs import design
from seedbox.printing.folding import FoldingPacket, print_folding
from seedbox.printing.folding_net import SIZES, nets_on
from seedbox.printing.labels import print_labels
from seedbox.printing.measuring import (
    ACROSS_MM,
    DOWN_MM,
    EDGE_MM,
    Correction,
    Measured,
    correction,
    looks_fitted,
)
from seedbox.printing.sheets import sheet
from seedbox.printing.swap_page import SwapRow, draw_swap_list

DPI = 300
DOTS = DPI / 25.4
NEAR_MM = 0.3


@dataclass(frozen=True)
class FalsePrinter:
    """Stretches a page by its scales and moves it [mm], as printers do."""

    scale_x: float
    scale_y: float
    moved_x: float
    moved_y: float

    def prints(self, pdf: Path) -> Any:
        """What comes out, as dark and light: the page rendered and then transformed."""
        document = pypdfium2.PdfDocument(pdf)
        page = document[0].render(scale=DPI / 72, grayscale=True).to_pil()
        document.close()
        # PIL wants the way back: where in the source each point of the result comes from.
        back = (
            1 / self.scale_x, 0.0, -self.moved_x * DOTS / self.scale_x,
            0.0, 1 / self.scale_y, -self.moved_y * DOTS / self.scale_y,
        )  # fmt: skip
        out = page.transform(
            page.size, Image.Transform.AFFINE, back, Image.Resampling.BILINEAR, fillcolor=255
        )
        return numpy.asarray(out) < 215


FALSE = FalsePrinter(0.985, 1.012, 1.4, -0.9)
PRINTERS = [FALSE, FalsePrinter(1.006, 1.0, -2.2, 3.1)]


def _lines(dark: Any, *, least: float = 0.6) -> list[float]:
    """Where lines run along the rows of a strip [mm]: dark over most of its width."""
    share = dark.mean(axis=1)
    at = numpy.flatnonzero(share >= least)
    runs = numpy.split(at, numpy.flatnonzero(numpy.diff(at) > 1) + 1) if at.size else []
    return [(float(run.mean()) + 0.5) / DOTS for run in runs]


def _measure(dark: Any) -> Measured:
    """A ruler laid on the printed page, read to a tenth of a millimetre."""

    def strip(low: float, high: float) -> slice:
        return slice(round(low * DOTS), round(high * DOTS))

    beside, below = strip(EDGE_MM + 3, EDGE_MM + 7), strip(EDGE_MM + 3, EDGE_MM + 7)
    upright = _lines(dark[beside, :].T)
    level = _lines(dark[:, below])
    first_x = min(upright, key=lambda x: abs(x - EDGE_MM))
    first_y = min(level, key=lambda y: abs(y - EDGE_MM))
    other_x = min(upright, key=lambda x: abs(x - EDGE_MM - ACROSS_MM))
    other_y = min(level, key=lambda y: abs(y - EDGE_MM - DOWN_MM))
    return Measured(
        round(first_x, 1), round(first_y, 1), round(other_x - first_x, 1),
        round(other_y - first_y, 1),
    )  # fmt: skip


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    path = tmp_path_factory.mktemp("true") / "page.pdf"
    draw_calibration(path)
    yield path


@pytest.mark.parametrize("printer", PRINTERS, ids=str)
def test_after_measuring_labels_land_within_three_tenths_of_a_millimetre(
    page: Path, tmp_path: Path, printer: FalsePrinter, make_items: Callable[..., Any]
) -> None:
    """Edges of the outlines as printed, against the sheet's geometry, first and last label."""
    found = correction(_measure(printer.prints(page)), Correction())
    stock = sheet("a4-24-64x34-gap")
    job = LabelJob(
        design("packet"), stock, make_items(24), outlines=True,
        offset_x_mm=found.offset_x_mm, offset_y_mm=found.offset_y_mm,
        scale_x=found.scale_x, scale_y=found.scale_y,
    )  # fmt: skip
    assert _worst(printer, job, tmp_path) <= NEAR_MM
    # Without the correction they do not: else this would show nothing.
    untrue = replace(job, offset_x_mm=0.0, offset_y_mm=0.0, scale_x=1.0, scale_y=1.0)
    assert _worst(printer, untrue, tmp_path) > 1.0


def _worst(printer: FalsePrinter, job: LabelJob, folder: Path) -> float:
    """How far an edge of a printed label is off at most [mm]."""
    print_labels(job, folder / "labels.pdf", proof=False)
    dark = printer.prints(folder / "labels.pdf")
    stock, apart = job.sheet, []
    for column in range(stock.columns):
        left = stock.left_mm + column * stock.column_pitch_mm
        for row in range(stock.rows):
            top = stock.top_mm + row * stock.row_pitch_mm
            right, low = left + stock.label_width_mm, top + stock.label_height_mm
            # The middle third of each edge, and 4 mm to either side of where it should be.
            down = slice(round((top + 6) * DOTS), round((low - 6) * DOTS))
            across = slice(round((left + 10) * DOTS), round((right - 10) * DOTS))
            for edge in (left, right):
                found = _lines(dark[down, :].T, least=0.8)
                apart.append(min(abs(x - edge) for x in found))
            for edge in (top, low):
                found = _lines(dark[:, across], least=0.8)
                apart.append(min(abs(y - edge) for y in found))
    return max(apart)


def test_the_page_drawn_corrected_shows_its_crosses_where_they_should_be(
    page: Path, tmp_path: Path
) -> None:
    found = correction(_measure(FALSE.prints(page)), Correction())
    draw_calibration(tmp_path / "check.pdf", corrected=found)
    seen = _measure(FALSE.prints(tmp_path / "check.pdf"))
    assert seen.left == pytest.approx(EDGE_MM, abs=NEAR_MM)
    assert seen.top == pytest.approx(EDGE_MM, abs=NEAR_MM)
    assert seen.across == pytest.approx(ACROSS_MM, abs=NEAR_MM)
    assert seen.down == pytest.approx(DOWN_MM, abs=NEAR_MM)


def test_a_packet_to_fold_has_its_true_measures_on_a_false_printer(
    page: Path, tmp_path: Path, make_items: Callable[..., Any]
) -> None:
    found = correction(_measure(FALSE.prints(page)), Correction())
    packets = [FoldingPacket(item) for item in make_items(3)]
    size, file = SIZES["57x89"], tmp_path / "fold.pdf"
    printed = print_folding(packets, size, "a4", file, corrected=found)
    assert (printed.pages, printed.unreadable) == (2, ())
    dark, net = FALSE.prints(file), nets_on(size, "a4")[0]
    strip = dark[round((net.back.bottom - 8) * DOTS) : round((net.back.bottom - 3) * DOTS)]
    upright = _lines(strip.T, least=0.9)
    for edge in (net.x, net.back.right):
        assert min(abs(x - edge) for x in upright) <= NEAR_MM
    beside = dark[:, round((net.back.x + 10) * DOTS) : round((net.back.right - 10) * DOTS)]
    for edge in (net.y, net.back.bottom):
        assert min(abs(y - edge) for y in _lines(beside, least=0.9)) <= NEAR_MM


def test_a_list_with_codes_lies_true_on_a_false_printer(
    page: Path, tmp_path: Path, make_items: Callable[..., Any]
) -> None:
    """The rule under its heading, 29 mm down, from 12 mm to 12 mm before the right edge of A4."""
    found = correction(_measure(FALSE.prints(page)), Correction())
    rows = [SwapRow(item.code, item.text("crop")) for item in make_items(3)]
    files = tmp_path / "true.pdf", tmp_path / "untrue.pdf"
    for file, corrected in zip(files, (found, None), strict=True):
        printed = draw_swap_list(file, "Seed to swap", rows, "a4", "", corrected=corrected)
        assert printed.unreadable == ()
    true, untrue = (_rule(FALSE.prints(file)) for file in files)
    wanted = (29.0, 12.0, 198.0)
    assert true == pytest.approx(wanted, abs=NEAR_MM)
    assert max(abs(seen - edge) for seen, edge in zip(untrue, wanted, strict=True)) > 1.0


def _rule(dark: Any) -> tuple[float, float, float]:
    """The first line across a page: how far down it lies, and where it begins and ends [mm]."""
    down = _lines(dark)[0]
    ink = numpy.flatnonzero(dark[round(down * DOTS)])
    return down, ink[0] / DOTS, (ink[-1] + 1) / DOTS


_SCALES, _MOVES = st.floats(0.95, 1.05), st.floats(-8, 8)


@given(_SCALES, _SCALES, _MOVES, _MOVES, st.floats(0, 190), st.floats(0, 270))
def test_any_true_measure_is_put_right(
    scale_x: float, scale_y: float, moved_x: float, moved_y: float, x: float, y: float
) -> None:
    """What a printer does to what the correction draws is what was wanted."""
    seen = Measured(
        scale_x * EDGE_MM + moved_x, scale_y * EDGE_MM + moved_y,
        scale_x * ACROSS_MM, scale_y * DOWN_MM,
    )  # fmt: skip
    found = correction(seen, Correction())
    assert scale_x * found.x(x) + moved_x == pytest.approx(x, abs=0.02)
    assert scale_y * found.y(y) + moved_y == pytest.approx(y, abs=0.02)


def test_what_was_not_measured_stays_as_it_was() -> None:
    before = Correction(1.0, -2.0, 0.99, 1.01)
    assert correction(Measured(left=30.5), before) == Correction(-0.8, -2.0, 0.99, 1.01)
    assert correction(Measured(down=221.1), before) == Correction(1.0, -2.0, 0.99, 1.005)


@pytest.mark.parametrize(
    ("measured", "part"),
    [
        (Measured(), "--left, --top"),
        (Measured(across=14.95), "centimetres: give 149.5 mm"),
        (Measured(down=8.66), "inches: give 220.0 mm"),
        (Measured(across=240), "from the middle of one cross"),
        (Measured(left=65), "from the edge"),
        (Measured(top=3.0), "from the edge"),
    ],
)
def test_figures_that_cannot_be_of_this_page_are_refused(measured: Measured, part: str) -> None:
    with pytest.raises(UsageError, match=part):
        correction(measured, Correction())


def test_a_page_that_was_made_to_fit_the_paper_is_recognised() -> None:
    assert looks_fitted(correction(Measured(across=144.0), Correction()))
    assert not looks_fitted(correction(Measured(across=149.0), Correction()))


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_page_says_what_to_measure_and_what_to_type(tmp_path: Path, paper: str) -> None:
    draw_calibration(tmp_path / "1.pdf", page=paper)
    draw_calibration(tmp_path / "2.pdf", page=paper)
    assert (tmp_path / "1.pdf").read_bytes() == (tmp_path / "2.pdf").read_bytes()
    document = pypdfium2.PdfDocument(tmp_path / "1.pdf")
    width, height = document[0].get_size()
    text = document[0].get_textpage()
    words = text.get_text_range()
    for at in range(text.count_rects()):
        left, bottom, right, top = text.get_rect(at)
        assert 10 < left < right < width - 10 and 10 < bottom < top < height - 10
    document.close()
    for part in ("100 %", "--left", "--top", "--across", "--down", "drawn: 150 mm",
                 "seedbox labels measured"):  # fmt: skip
        assert part in words


def test_only_a_former_pdf_is_overwritten(tmp_path: Path) -> None:
    notes = tmp_path / "notes.txt"
    notes.write_text("mine")
    with pytest.raises(UsageError, match="no PDF"):
        draw_calibration(notes)
    assert notes.read_text() == "mine"
