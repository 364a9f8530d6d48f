from __future__ import annotations

from pathlib import Path

import pytest

from seedbox.errors import BadDataError, NotFoundError
from seedbox.printing.content import LabelContent
from seedbox.printing.designs import design, designs, read_design

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
    largest = max(line.style.size for line in others if line.fields != ("tally",))
    assert first.style.size > largest
    assert first.style.keep < min(line.style.keep for line in others)


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
