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


def test_the_designs_show_what_a_grower_looks_for() -> None:
    assert set(designs()) >= {"packet", "tray", "test"}
    for name, needed in (
        ("packet", {"crop", "variety", "year", "left", "caution"}),
        ("tray", {"crop", "variety", "sown_on", "place", "caution"}),
        (
            "test",
            {
                "crop",
                "variety",
                "packet",
                "laid_on",
                "seeds",
                "first_count",
                "final_count",
                "temperature",
                "pretreatment",
                "tally",
                "caution",
            },
        ),
    ):
        assert needed <= {field for line in design(name).lines for field in line.fields}


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
