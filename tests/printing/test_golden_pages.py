"""Where the words of whole pages stand, kept as text: a packet to fold, a swap list, the page to
measure."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pypdfium2
import pytest

from seedbox.printing.calibration import draw_calibration
from seedbox.printing.content import LabelContent
from seedbox.printing.folding import FoldingPacket, print_folding
from seedbox.printing.folding_net import SIZES
from seedbox.printing.swap_page import SwapRow, WantRow, draw_swap_list

GOLDEN = Path(__file__).with_name("golden")
FRONTS = (
    {
        "crop": "climbing French bean",
        "variety": "Blue Lantern Improved Extra Early",
        "botanical": "Phaseolus vulgaris",
        "caution": "Do not eat raw",
        "year": "harvest 2024",
        "seeds": "25 seeds",
        "line": "Mill Lane",
    },
    {"crop": "Свёкла столовая", "variety": "Ночная заря", "source": "from Hollow Lane"},
)
BACK = (
    ("Caution", "Poisonous raw (seed): soak for five hours and boil for half an hour."),
    ("Sow", "indoors 4 Apr to 25 Apr, later to 18 Aug; outdoors 25 Apr to 9 May"),
    ("Depth", "25 to 40 mm"),
    ("Space", "10 to 20 cm apart, rows 90 cm"),
    ("Germination", "untested; 45 % (20 to 72) on 2027-02-20 by its age"),
)


def _fold(path: Path) -> None:
    packets = [
        FoldingPacket(LabelContent(f"P4K7QMX{at}", fields), BACK)
        for at, fields in enumerate(FRONTS)
    ]
    print_folding(packets, SIZES["57x89"], "a4", path)


def _swap(path: Path) -> None:
    rows = [
        SwapRow("P4K7QMX0", "leek", "Long Hill", 2, "40", "84 % (73 to 92), tested 2026-03-12",
                "2025"),
        SwapRow("P4K7QMX1", "runner bean", "Church Ladder", 1, "12", "untested", "2024",
                ("Raw beans are poisonous.", "Check your own local law.")),
    ]  # fmt: skip
    wants = [
        WantRow("pea", "", 2, "worth 4 of 5"),
        WantRow("tomato", "Weir Lamp", 1, "worth 3 of 5"),
    ]
    draw_swap_list(path, "Seed to swap", rows, "letter", date(2027, 2, 20), wants=wants)


DRAWN: dict[str, Callable[[Path], None]] = {
    "fold": _fold,
    "swap": _swap,
    "calibration": draw_calibration,
}


@pytest.mark.parametrize("name", DRAWN)
def test_words_stand_where_they_stood(tmp_path: Path, name: str) -> None:
    DRAWN[name](tmp_path / "page.pdf")
    document = pypdfium2.PdfDocument(tmp_path / "page.pdf")
    words = document[0].get_textpage()
    found = []
    for number in range(words.count_rects()):
        left, bottom, right, top = words.get_rect(number)
        text = words.get_text_bounded(left, bottom, right, top).strip()
        found.append([text, *(round(edge) for edge in (left, bottom, right, top))])
    document.close()
    golden = GOLDEN / f"{name}.json"
    if not golden.exists():  # after a wanted change: delete it, run, look at it, commit it
        golden.parent.mkdir(exist_ok=True)
        lines = ",\n".join(json.dumps(entry, ensure_ascii=False) for entry in found)
        golden.write_text(f"[\n{lines}\n]\n", encoding="utf-8")
        raise AssertionError(f"{golden.name} was missing and is written anew")
    kept = json.loads(golden.read_text(encoding="utf-8"))
    assert [entry[0] for entry in found] == [entry[0] for entry in kept]
    for now, then in zip(found, kept, strict=True):
        assert now[1:] == pytest.approx(then[1:], abs=1)  # points: readers round differently
