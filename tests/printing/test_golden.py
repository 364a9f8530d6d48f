"""Where the words of a hard page stand. Kept as text, so that a change can be read."""

from __future__ import annotations

import json
from pathlib import Path

import pypdfium2
import pytest

from seedbox.printing.content import LabelContent, LabelJob
from seedbox.printing.designs import design
from seedbox.printing.labels import print_labels
from seedbox.printing.sheets import sheet

GOLDEN = Path(__file__).with_name("golden_page.json")
HARD = (
    {
        "crop": "Lettuce",
        "variety": "Grey Heron",
        "botanical": "Lactuca sativa",
        "harvested": "harvested 2023",
    },
    {"crop": "Donaudampfschifffahrtsrübenkohl", "variety": "Blue Lantern Improved Extra Early"},
    {"crop": "Свёкла", "variety": "Ρωμαϊκό", "caution": "Dressed seed: wear gloves, do not eat"},
    {"crop": "Rau muống 🌱", "variety": "Ễnh Ương Đỏ", "left": "84 seeds", "store": "cold shed"},
)


def test_words_stand_where_they_stood(tmp_path: Path) -> None:
    items = [LabelContent(f"P4K7QMX{at}", fields) for at, fields in enumerate(HARD)]
    job = LabelJob(design("packet"), sheet("a4-65-38x21-gap"), items, start=4)
    page = pypdfium2.PdfDocument(print_labels(job, tmp_path / "labels.pdf").path)[0]
    words = page.get_textpage()
    found = []
    for number in range(words.count_rects()):
        left, bottom, right, top = words.get_rect(number)
        text = words.get_text_bounded(left, bottom, right, top).strip()
        found.append([text, *(round(edge) for edge in (left, bottom, right, top))])
    if not GOLDEN.exists():  # after a wanted change: delete it, run, look at it, commit it
        lines = ",\n".join(json.dumps(entry, ensure_ascii=False) for entry in found)
        GOLDEN.write_text(f"[\n{lines}\n]\n")
        raise AssertionError("golden_page.json was missing and is written anew")
    kept = json.loads(GOLDEN.read_text())
    assert [entry[0] for entry in found] == [entry[0] for entry in kept]
    for now, then in zip(found, kept, strict=True):
        assert now[1:] == pytest.approx(then[1:], abs=1)  # points: readers round differently
