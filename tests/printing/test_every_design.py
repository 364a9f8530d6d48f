"""Every design on every sheet that it fits, looked at from outside."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from seedbox.printing.content import LabelContent, LabelJob
from seedbox.printing.designs import design, designs
from seedbox.printing.drawing import draw_pages
from seedbox.printing.labels import print_labels
from seedbox.printing.layout import with_code
from seedbox.printing.pages import slots
from seedbox.printing.sheets import sheet, sheets
from tests.printing.looking import DPI, fits, look_at_every_design, variants

Make = Callable[[int], list[LabelContent]]
# Every shape, paper and kind of edge once; `python -m tests.bench printing` looks at all 46.
LOOKED_AT = (
    "a4-189-25x10", "a4-65-38x21-gap", "a4-65-38x21-butt", "a4-40-52x30-butt", "a4-27-64x30",
    "a4-21-70x42-butt", "a4-8-99x68-gap", "a4-4-105x148-butt", "a4-stake-15x140",
    "a4-card-62x94", "letter-80-1.75x0.5", "letter-30-2.625x1", "letter-stake-0.75x5.25",
    "roll-12mm", "roll-29mm", "roll-62mm",
)  # fmt: skip
# How many of the 46 sheets each way of carrying the code fits: fewer would be a loss.
FITS = {"once": 46, "twice": 36, "rugged": 40}


@pytest.mark.parametrize("layout", FITS)
def test_how_many_sheets_a_way_of_carrying_the_code_fits(layout: str) -> None:
    one = with_code(design("packet"), layout)
    assert sum(fits(one, stock) for stock in sheets().values()) >= FITS[layout]


@pytest.mark.parametrize("name", designs())
def test_every_design_fits_every_sheet_but_a_divider_needs_a_card(name: str) -> None:
    fitting = [stock.name for stock in sheets().values() if fits(design(name), stock)]
    assert len(fitting) == 46 or (name == "divider" and "a4-card-95x140" in fitting)


@pytest.mark.parametrize("name", LOOKED_AT)
def test_codes_are_read_and_words_stay_in_their_place(name: str) -> None:
    labels, codes = look_at_every_design(sheet(name))
    assert labels >= len(designs()) - 1
    assert codes >= len(designs()) - 1
    if name == "a4-8-99x68-gap":
        assert labels == len(variants())


def test_the_page_in_the_file_is_the_page_drawn(make_items: Make, tmp_path: Path) -> None:
    """The checks above look at bytes in memory; `print_labels` writes the same."""
    job = LabelJob(design("tray"), sheet("a4-80-36x17"), make_items(90))
    printed = print_labels(job, tmp_path / "labels.pdf", proof=False)
    assert printed.path.read_bytes() == draw_pages(job, job.sheet, slots(job), DPI)
    assert (printed.labels, printed.pages) == (90, 2)
