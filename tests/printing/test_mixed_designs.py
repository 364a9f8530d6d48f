"""Labels of several designs on one sheet: each in its own, each read back in its own codes."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pypdfium2
import pytest

from seedbox.printing.content import LabelContent, LabelJob
from seedbox.printing.designs import design
from seedbox.printing.labels import print_labels
from seedbox.printing.proof import unreadable_codes
from seedbox.printing.sheets import sheet

# Codes with their check characters by ISO/IEC 7064 MOD 37-2, computed with python-stdnum.
PACKET, SOWING = "P000002G", "S0000022"


@pytest.fixture
def mixed() -> LabelJob:
    words = {"crop": "Runner bean", "sown_on": "sown 3 May 2027", "left": "60 seeds"}
    return LabelJob(
        design("packet"),
        sheet("a4-24-64x34-gap"),
        [LabelContent(PACKET, words), LabelContent(SOWING, words, design("tray"))],
    )


def test_each_label_follows_its_own_design(mixed: LabelJob, tmp_path: Path):
    printed = print_labels(mixed, tmp_path / "mixed.pdf")
    assert (printed.labels, printed.pages, printed.unreadable) == (2, 1, ())
    with pypdfium2.PdfDocument(printed.path) as document:
        said = document[0].get_textpage().get_text_range()
    # Only the design for trays says when it was sown, only that for packets what is left.
    assert said.count("sown 3 May 2027") == 1
    assert said.count("60 seeds") == 1


def test_a_label_is_read_back_for_the_codes_of_its_own_design(mixed: LabelJob, tmp_path: Path):
    from seedbox.printing.drawing import draw_pages
    from seedbox.printing.layout import lay_out
    from seedbox.printing.pages import slots

    places = slots(mixed)
    pdf = draw_pages(mixed, mixed.sheet, places, 300)
    bars = replace(design("packet"), code=replace(design("packet").code, symbol="code128"))

    def other_for_the_second(item: LabelContent):
        return lay_out(bars if item.code == SOWING else mixed.design, mixed.sheet, 300)

    assert unreadable_codes(pdf, places, other_for_the_second) == (SOWING,)
