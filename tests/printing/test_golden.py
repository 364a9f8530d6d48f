"""Where the words of hard pages stand. Kept as text, so that a change can be read."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from seedbox.printing.content import LabelContent, LabelJob
from seedbox.printing.designs import design
from seedbox.printing.labels import print_labels
from seedbox.printing.layout import with_code
from seedbox.printing.sheets import sheet

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


CARD = {
    "group": "Peas and beans",
    "members": "broad bean, climbing French bean, dwarf French bean, pea, runner bean",
    "how_to_sow": "indoors 3 to 6 cm deep",
}
GIVEN = {
    **HARD[0],
    "treated": "not treated",
    "reference": "no. P4K7 QMX2",
    "month": "2026-11",
    "sharer": "Ines Marlow",
    "town": "Netherby-under-the-Long-Hill",
    "law": "Shared, not sold. Check your own local law before you pass it on.",
    "sealed": "sealed 2026-02-03 at 6 % moisture",
    "store": "cold shed",
    "good_until": "good until 2029",
    "line": "Hollow Lane allotments, plot 7",
    "place": "cold frame",
}
PAGES = {
    "golden_page": ("packet", "once", "a4-65-38x21-gap", HARD),
    "golden_stake": ("stake", "rugged", "a4-stake-20x140", (GIVEN, HARD[1], HARD[2])),
    "golden_sharing": ("sharing", "once", "a4-21-64x38-gap", (GIVEN, HARD[3])),
    "golden_jar": ("jar", "twice", "letter-10-4x2", (GIVEN, HARD[2])),
    "golden_divider": ("divider", "once", "a4-card-62x94", (CARD, {"group": "مارس"})),
}


@pytest.mark.parametrize("name", PAGES)
def test_words_stand_where_they_stood(name: str, tmp_path: Path) -> None:
    kind, layout, stock, labels = PAGES[name]
    items = [LabelContent(f"P4K7QMX{at}", fields) for at, fields in enumerate(labels)]
    job = LabelJob(with_code(design(kind), layout), sheet(stock), items, start=4)
    found = words_of(print_labels(job, tmp_path / "labels.pdf").path)
    golden = Path(__file__).with_name(f"{name}.json")
    if not golden.exists():  # after a wanted change: delete it, run, look at it, commit it
        lines = ",\n".join(json.dumps(entry, ensure_ascii=False) for entry in found)
        golden.write_text(f"[\n{lines}\n]\n")
        raise AssertionError(f"{golden.name} was missing and is written anew")
    kept = json.loads(golden.read_text())
    assert [entry[0] for entry in found] == [entry[0] for entry in kept]
    for now, then in zip(found, kept, strict=True):
        assert now[1:] == pytest.approx(then[1:], abs=1)  # points: readers round differently


def words_of(path: Path) -> list[list[Any]]:
    """The stretches of words on the first page with their edges: left, bottom, right, top."""
    document = pypdfium2.PdfDocument(path)
    words = document[0].get_textpage()
    found = []
    for number in range(words.count_rects()):
        left, bottom, right, top = words.get_rect(number)
        text = words.get_text_bounded(left, bottom, right, top).strip()
        found.append([text, *(round(edge) for edge in (left, bottom, right, top))])
    words.close()
    document.close()
    return found
