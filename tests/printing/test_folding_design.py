"""The design of packets to fold: what a person may change, and sentences for what they may not."""

from __future__ import annotations

import re
from pathlib import Path

import pypdfium2
import pytest

from seedbox.errors import BadDataError, NotFoundError
from seedbox.printing.content import FIELDS, LabelContent
from seedbox.printing.folding import FoldingPacket, print_folding
from seedbox.printing.folding_design import ROWS, folding_design
from seedbox.printing.folding_net import USUAL_FLAPS, folding_size
from seedbox.resources import labels_dir

SHIPPED = (labels_dir() / "folding" / "packet.toml").read_text(encoding="utf-8")
PACKET = FoldingPacket(
    LabelContent("P4K7QMX2", {"crop": "Leek", "variety": "Long Hill", "store": "cold shed"}),
    (("Caution", "keep it dry"), ("Sow", "in spring"), ("Harvest", "in winter")),
)


def _own(folder: Path, *changes: tuple[str, str]) -> str:
    """A copy of the shipped design with some of its text changed."""
    text = SHIPPED
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    path = folder / "mine.toml"
    path.write_text(text, encoding="utf-8")
    return str(path)


def _words(path: Path) -> str:
    document = pypdfium2.PdfDocument(path)
    words = " ".join(document[0].get_textpage().get_text_range().split())
    document.close()
    return words


def test_the_shipped_design_has_the_usual_flaps_and_says_what_it_can_tell() -> None:
    design = folding_design()
    assert design.flaps == USUAL_FLAPS
    assert design.rows == ROWS
    assert design.back_sizes[0] == 12.0 and design.back_sizes[-1] == 6.0
    fields = {field for line in (*design.front, *design.beside_code) for field in line.fields}
    assert {"crop", "variety", "code", "year", "seeds"} <= fields <= set(FIELDS)


def test_lines_and_rows_and_flaps_of_one_s_own_are_drawn(tmp_path: Path) -> None:
    file = _own(
        tmp_path,
        ('fields = ["botanical"]', 'fields = ["store"]\nbefore = "lies in "'),
        ('rows = ["Caution", "Seed", "Sow",', 'rows = ["Harvest", "Caution",'),
        (
            '"Depth", "Space", "Up in", "Germination", "Before", "Plant out",\n        "Harvest",',
            "",
        ),
        ("top_mm = 20.0", "top_mm = 30.0"),
    )
    design = folding_design(file)
    size = folding_size("57x89", design.flaps)
    assert size.net_height_mm == 30 + 89 + 15
    print_folding([PACKET], size, "a4", tmp_path / "own.pdf", design=design)
    words = _words(tmp_path / "own.pdf")
    assert "lies in cold shed" in words
    assert words.index("in winter") < words.index("keep it dry")
    assert "in spring" not in words


@pytest.mark.parametrize(
    ("change", "part"),
    [
        (("taper_degrees = 12.0", "taper_degrees = 30"), "[flaps], taper_degrees: 30 is out"),
        (("narrower_mm = 0.75", 'narrower_mm = "a bit"'), "[flaps], narrower_mm: should be a num"),
        (("from_fold_mm = 5.0", "from_fold_mm = 2"), "[code], from_fold_mm: 2 is out of range"),
        (("module_mm = 0.42", "modul_mm = 0.42"), "Did you mean “module_mm”?"),
        (('rows = ["Caution", ', 'rows = ['), "[back], rows: “Caution” must be among them."),
        (('"Harvest"', '"Harvst"'), "Did you mean “Harvest”?"),
        (('first_out = ["Space"', 'first_out = ["Spaec"'), "[back], first_out: 'Spaec'"),
        (('fields = ["variety"]', 'fields = ["varity"]'), "[front 2], fields: 'varity'"),
        (("largest_pt = 12.0", "largest_pt = 5.0"), "smallest_pt: 6 is larger than largest_pt, 5"),
        (('fields = ["code"]', 'fields = ["year"]'), "the code must stand in type too"),
        (("size_pt = 11.0\nsmallest_pt = 7.0\nmost", "size_pt = 6\nsmallest_pt = 7\nmost"),
         "[caution], smallest_pt: 7 is larger"),
        (("[back]", "[back"), "mine.toml is not TOML"),
    ],
)  # fmt: skip
def test_a_fault_is_named_with_file_table_and_field(
    tmp_path: Path, change: tuple[str, str], part: str
) -> None:
    with pytest.raises(BadDataError, match=re.escape(part)) as told:
        folding_design(_own(tmp_path, change))
    assert "mine.toml" in told.value.sentence


GIFT = (
    ("Caution", "Raw beans are poisonous: soak them for five hours, boil them for half an hour."),
    ("Seed", "not treated"),
    ("Sow", "indoors 20 Mar to 25 Apr, later to 4 May; outdoors 10 May to 30 Jun"),
    ("Depth", "25 to 40 mm"),
    ("Space", "15 cm apart, rows 60 cm"),
    ("Up in", "8 days (6 to 12) at 18 °C, windowsill"),
    ("Germination", "84 % (73 to 92) on 2027-02-20; 46 of 50, tested 2026-03-12"),
    ("Harvest", "60 to 75 days from sowing"),
    ("Sharing", "Shared, not sold. Check your own local law before you pass it on, above all"),
)


def _told(folder: Path, words: tuple[tuple[str, str], ...], *changes: tuple[str, str]) -> list[str]:
    """What the warning names as left out of the back of a small packet."""
    packet = FoldingPacket(PACKET.content, words)
    design = folding_design(_own(folder, *changes))
    size = folding_size("40x70", design.flaps)
    printed = print_folding([packet], size, "a4", folder / "s.pdf", design=design, proof=False)
    said = [str(one) for one in printed.warnings if "the back has no room" in str(one)]
    return re.findall("|".join(ROWS), said[0]) if said else []


def test_a_small_back_gives_up_what_can_be_looked_up_and_keeps_cautions(tmp_path: Path) -> None:
    gone = _told(tmp_path, GIFT)
    words = _words(tmp_path / "s.pdf")
    assert gone and set(gone) <= {"Space", "Harvest", "Depth", "Up in", "Sow"}
    assert {"Space", "Harvest"} <= set(gone)
    assert "Raw beans" in words and "Shared, not sold" in words and "46 of 50" in words
    assert "15 cm apart" not in words and "60 to 75 days" not in words


def test_the_caution_stays_when_everything_else_is_too_much(tmp_path: Path) -> None:
    short = {"Caution": "Poisonous.", "Sharing": "Shared, not sold."}
    words = tuple((heading, short.get(heading, "long words " * 25)) for heading in ROWS)
    assert set(_told(tmp_path, words)) == set(ROWS) - set(short)
    said = _words(tmp_path / "s.pdf")
    assert "Poisonous." in said and "Shared, not sold." in said


def test_a_person_chooses_what_goes_first(tmp_path: Path) -> None:
    gone = _told(
        tmp_path, GIFT, ('first_out = ["Space", ', 'first_out = ["Germination", "Space", ')
    )
    assert "Germination" in gone
    assert "46 of 50" not in _words(tmp_path / "s.pdf")


def test_a_design_without_lines_or_a_file_is_refused(tmp_path: Path) -> None:
    bare = tmp_path / "bare.toml"
    bare.write_text('title = "x"\n', encoding="utf-8")
    with pytest.raises(BadDataError, match=r"1 to 12 \[\[front\]\] tables are needed, not 0"):
        folding_design(str(bare))
    with pytest.raises(NotFoundError, match="no file"):
        folding_design(str(tmp_path / "none.toml"))


def test_one_mistake_is_told_once(tmp_path: Path) -> None:
    """What cannot be read is not compared with what can."""
    size = re.search(r"size_pt = [0-9.]+", SHIPPED)
    assert size is not None
    with pytest.raises(BadDataError) as told:
        folding_design(_own(tmp_path, (size[0], 'size_pt = "big"')))
    assert str(told.value).count("\n") == 0
    assert "size_pt: should be a number, not 'big'." in str(told.value)
