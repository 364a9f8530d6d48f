from __future__ import annotations

from pathlib import Path

import pytest

from seedbox.errors import BadDataError, NotFoundError, UsageError
from seedbox.printing.content import MM
from seedbox.printing.sheets import TOLERANCE_MM, read_sheets, sheet, sheets

# ISO 216 and ANSI/ASME Y14.1 size A (8.5 x 11 in).
PAGES = {"a4": (210.0, 297.0), "letter": (8.5 * 25.4, 11 * 25.4)}

GOOD = """
["mine"]
page = "A4"
columns = 2
rows = 4
label_width_mm = 100
label_height_mm = 70
left_mm = 5
top_mm = 8.5
"""


def test_every_geometry_is_there_and_none_is_named_for_a_maker() -> None:
    assert len(sheets()) == 46
    assert all(name.split("-")[0] in {"a4", "letter", "roll"} for name in sheets())


@pytest.mark.parametrize("name", [name for name in sheets() if not name.startswith("roll")])
def test_labels_gaps_and_margins_add_up_to_the_page(name: str) -> None:
    one = sheet(name)
    width, height = PAGES[name.split("-", maxsplit=1)[0]]
    across = one.left_mm + (one.columns - 1) * one.column_pitch_mm + one.label_width_mm
    down = one.top_mm + (one.rows - 1) * one.row_pitch_mm + one.label_height_mm
    assert across <= width + TOLERANCE_MM
    assert down <= height + TOLERANCE_MM
    assert (one.page_width_mm, one.page_height_mm) == pytest.approx((width, height))
    # All shipped sheets are centred on their page, so left over is what stands before.
    assert width - across == pytest.approx(one.left_mm, abs=TOLERANCE_MM)
    assert height - down == pytest.approx(one.top_mm, abs=TOLERANCE_MM)
    if name.split("-")[1].isdigit():
        assert one.count == int(name.split("-")[1])


def test_positions_run_along_the_rows_from_top_left() -> None:
    one = sheet("letter-30-2.625x1")
    # 3/16 in and 1/2 in: the geometry in inches, by its name.
    assert one.place(1).x == pytest.approx(0.1875 * 72, abs=0.01)
    assert one.place(1).top == pytest.approx((11 - 0.5) * 72, abs=0.01)
    assert one.place(2).x == pytest.approx((0.1875 + 2.75) * 72, abs=0.01)
    assert one.place(4).x == one.place(1).x
    assert one.place(4).top == pytest.approx((11 - 1.5) * 72, abs=0.01)
    assert one.place(30).y == pytest.approx(0.5 * 72, abs=0.01)


def test_a_roll_label_is_a_page_of_the_asked_length() -> None:
    narrow = sheet("roll-12mm").with_length(70)
    assert (narrow.page_width_mm, narrow.page_height_mm) == (70, 12)
    wide = sheet("roll-62mm").with_length(40)
    assert (wide.page_width_mm, wide.page_height_mm) == (62, 40)
    assert wide.place(1).height == pytest.approx(40 * MM)
    with pytest.raises(UsageError, match="out of range"):
        wide.with_length(3)
    with pytest.raises(UsageError, match="for rolls"):
        sheet("a4-65-38x21-gap").with_length(40)


def test_a_sheet_of_ones_own_is_read_from_its_file(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(GOOD)
    mine = sheet(str(path))
    assert (mine.count, mine.column_pitch_mm) == (8, 100)
    path.write_text(GOOD + GOOD.replace("mine", "yours"))
    with pytest.raises(UsageError, match="several sheets: mine, yours"):
        sheet(str(path))


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("left_mm = 5", "left_mm = 50"), ["mine.toml", "[mine]", "right_mm", "-40.00 mm"]),
        (("top_mm = 8.5", "top_mm = 8.5\nbottom_mm = 3"), ["bottom_mm", "297 mm high", "8.50 mm"]),
        (("columns = 2", 'columns = "two"'), ["[mine], columns: should be a number, not 'two'"]),
        (("columns = 2", "columns = 2.5"), ["columns: should be a whole number"]),
        (("columns = 2", "columns = true"), ["columns: should be a number"]),
        (("columns = 2", "colums = 2"), ["columns: is missing", "Did you mean “columns”?"]),
        (("rows = 4", "rows = 0"), ["rows: 0 is out of range: 1 to 400"]),
        (('page = "A4"', 'page = "A3"'), ["page: “A3” is none of: A4, Letter"]),
        (("left_mm = 5", "left_mm = nan"), ["left_mm: nan is out of range"]),
        (("left_mm = 5", "left_mm = 5\ncolumn_pitch_mm = 90"), ["the labels would overlap"]),
        (("left_mm = 5", "left_mm = 5\ncut_lines = 1"), ["cut_lines: should be true or false"]),
        (("left_mm = 5", "left_mm 5"), ["mine.toml is not TOML", "line 8"]),
        (('["mine"]', "mine = 3\n[other]"), ["mine: this should be a table"]),
    ],
)
def test_a_fault_is_named_by_file_table_and_field(
    tmp_path: Path, change: tuple[str, str], words: list[str]
) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(GOOD.replace(*change))
    with pytest.raises(BadDataError) as caught:
        read_sheets(path)
    for word in words:
        assert word in caught.value.sentence


def test_bad_files_end_with_a_sentence(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    with pytest.raises(NotFoundError, match="no file"):
        read_sheets(path)
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(BadDataError, match="not UTF-8"):
        read_sheets(path)
    path.write_text("")
    with pytest.raises(BadDataError, match="holds no sheet"):
        read_sheets(path)
    with pytest.raises(BadDataError, match="cannot be read"):
        read_sheets(tmp_path)


def test_an_unknown_sheet_is_answered_with_the_nearest() -> None:
    with pytest.raises(NotFoundError) as caught:
        sheet("a4-65-38x21-gab")
    assert "a4-65-38x21-gap" in caught.value.hint
