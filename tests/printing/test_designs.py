from __future__ import annotations

from pathlib import Path

import pytest

from seedbox.errors import BadDataError, NotFoundError, UsageError
from seedbox.printing.content import LabelContent
from seedbox.printing.designs import design, designs, read_design
from seedbox.printing.drawing import texts_of
from seedbox.printing.growing import fitted
from seedbox.printing.layout import lay_out
from seedbox.printing.sheets import sheets

GOOD = """
title = "Mine"
[code]
symbol = "both"
[[line]]
fields = ["crop", "variety"]
between = ", "
before = "grow "
size_pt = 9
"""


SHOWN = {
    "packet": "crop variety harvested left store germination caution line",
    "tray": "crop variety sown_on cells number place caution line",
    "stake": "crop variety sown_on harvested place caution line",
    "jar": "crop variety harvested left sealed store good_until caution line",
    "divider": "group members how_to_sow line",
    "test": "crop variety packet laid_on seeds first_count final_count temperature pretreatment"
    " tally caution",
    # West Virginia Code 19-16-5a, a law on sharing seed without money, asks for: kind and variety,
    # treated or not, a reference number, name and town of who shares it, month and year.
    "sharing": "crop variety treated reference sharer town month hazard law",
}


@pytest.mark.parametrize("name", SHOWN)
def test_the_designs_show_what_a_grower_looks_for(name: str) -> None:
    shown = {field for line in design(name).lines for field in line.fields}
    assert shown >= set(SHOWN[name].split())


def test_every_design_is_looked_at() -> None:
    assert set(designs()) == set(SHOWN)


@pytest.mark.parametrize("name", sorted(set(SHOWN) - {"divider"}))
def test_the_crop_is_the_largest_and_stays_longest(name: str) -> None:
    first, *others = design(name).lines
    assert first.fields[0] == "crop"
    assert first.style.size > max(line.style.size for line in others)
    assert first.style.keep < min(line.style.keep for line in others)


SLIP = {
    "code": "T4K7QMX2", "crop": "runner bean", "variety": "Church Ladder",
    "caution": "Do not eat raw", "laid_on": "laid 2027-02-20",
    "seeds": "25 seeds, replicate 1 of 4", "first_count": "first count 25 Feb",
    "final_count": "last count 1 Mar", "temperature": "20 °C", "packet": "packet P4K7 QMX2",
    "tally": "25-Feb:_____ 27-Feb:_____ 28-Feb:_____ 1-Mar:_____",
}  # fmt: skip
MANY_COUNTS = {**SLIP, "crop": "Chinese leaves", "variety": "Porch Barrel of the Upper Weir",
               "tally": " ".join([SLIP["tally"]] * 2), "caution": ""}  # fmt: skip


@pytest.mark.parametrize("words", [SLIP, MANY_COUNTS], ids=["few counts", "many counts"])
def test_no_blank_of_a_slip_is_set_larger_than_its_crop(words: dict[str, str]) -> None:
    """On every sheet that takes slips; the blanks are large where there is room for a pencil."""
    slip, content = design("test"), LabelContent(words["code"], words)
    blanks = []
    for one in sheets().values():
        try:
            layout = lay_out(slip, one, 300)
        except UsageError:
            continue
        lines = fitted(layout.words, texts_of(layout, slip, content))
        said = {"".join(run.text for run in line.runs): line.size for line in lines}
        crop, *others = said.values()
        assert next(iter(said)).startswith(words["crop"][:4]), one.name
        assert crop >= max(others, default=0.0) - 1e-6, one.name
        blanks.append(max((size for text, size in said.items() if "_" in text), default=0.0))
    assert len(blanks) >= 30 and max(blanks) > 12


def test_a_line_joins_what_is_there(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(GOOD)
    line = design(str(path)).lines[0]
    assert line.text(LabelContent("P", {"crop": "Pea", "variety": "Aldous"})) == "grow Pea, Aldous"
    assert line.text(LabelContent("P", {"variety": "Aldous"})) == "grow Aldous"
    assert line.text(LabelContent("P")) == ""


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (('"both"', '"aztec"'), ["mine.toml, [code], symbol: “aztec” is none of: qr"]),
        (('"both"', '"qr"\nmodule_mm = 0.1'), ["[code], module_mm: 0.1 is out of range: 0.25"]),
        (('["crop", "variety"]', '["crops"]'), ["[line 1], fields", "Did you mean “crop”?"]),
        (('["crop", "variety"]', '"crop"'), ["[line 1], fields: should be a list"]),
        (("size_pt = 9", "size_pt = 9\nsmallest_pt = 12"), ["smallest_pt: 12 is larger"]),
        (("size_pt = 9", 'size_pt = 9\nweight = "fat"'), ["weight: “fat” is none of"]),
        (("size_pt = 9", "size = 9"), ["size_pt: is missing", "Did you mean “size_pt”?"]),
        (("[[line]]", "[line]"), ["line: 1 to 12 [[line]] tables are needed"]),
        (('"both"', '"both"\nlayout = "thrice"'), ["layout: “thrice” is none of: once, twice"]),
        (('"both"', '"code128"\nlayout = "twice"'), ["[code], layout: “twice” needs a QR code"]),
        (("[code]", "tab_mm = 12\n[code]"), ["tab_mm: a card with a head carries no code"]),
        (("[code]", "pencil_mm = 90\n[code]"), ["pencil_mm: 90 is out of range: 0 to 40"]),
        (("size_pt = 9", 'size_pt = 9\nwhole = "yes"'), ["whole: should be true or false"]),
        (("title", "titel"), ["titel: is not a field of this table. Did you mean “title”?"]),
    ],
)
def test_a_fault_is_named_by_file_table_and_field(
    tmp_path: Path, change: tuple[str, str], words: list[str]
) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(GOOD.replace(*change))
    with pytest.raises(BadDataError) as caught:
        read_design(path)
    for word in words:
        assert word in caught.value.sentence


def test_an_unknown_design_is_answered_with_the_nearest() -> None:
    with pytest.raises(NotFoundError) as caught:
        design("pakket")
    assert "packet" in caught.value.hint
