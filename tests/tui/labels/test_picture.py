"""Labels and sheets in characters: proportions, places, and what gives way to what."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.printing.content import LabelContent, LabelJob
from seedbox.printing.designs import design
from seedbox.printing.label_picture import LabelPicture, PlacedWords, label_picture
from seedbox.printing.sheets import Sheet, sheet, sheets
from seedbox.tui.cells import width_of
from seedbox.tui.labels_picture import drawn, scale_for, used_mm
from seedbox.tui.labels_sheet_drawing import (
    FREE,
    PRINTED,
    USED,
    drawn_sheet,
    grid_for,
    position_at,
    position_words,
)  # fmt: skip

# Codes with their check characters by ISO/IEC 7064 MOD 37-2, computed with python-stdnum.
BEAN = "P000002G"
WORDS = {"crop": "Runner bean", "variety": "Old Moat 白玉", "left": "60 seeds"}


def job(sheet_name: str, design_name: str = "packet", **words: str) -> LabelJob:
    content = LabelContent(BEAN, {**WORDS, **words})
    return LabelJob(design(design_name), sheet(sheet_name), [content])


def text_of(lines) -> list[str]:
    return ["".join(text for text, _ in line) for line in lines]


def seen(one: LabelJob, room: tuple[int, int]) -> list[str]:
    label = one.sheet
    scale = scale_for(label.label_width_mm, label.label_height_mm, room)
    return text_of(drawn(label_picture(one, scale.pixels_per_mm), scale, label.corner).lines)


@given(st.floats(10, 220), st.floats(8, 320), st.integers(12, 150), st.integers(3, 60))
def test_a_drawing_fits_its_room_in_honest_proportions(width, height, columns, rows):
    scale = scale_for(width, height, (columns, rows))
    assert 1 <= scale.columns <= columns
    assert 1 <= scale.rows <= rows
    across, down = (height, width) if scale.lying else (width, height)
    # Half a character more or less: a character is twice as high as it is wide.
    assert abs(scale.columns - across / scale.mm) <= 1
    assert abs(scale.rows - down / (2 * scale.mm)) <= 1


def test_words_stand_where_the_page_has_them():
    picture = label_picture(job("a4-24-64x34-gap"), 1.0)
    placed = {one.text: one for one in picture.words}
    assert (round(picture.width_mm, 1), round(picture.height_mm, 1)) == (64.0, 33.9)
    assert set(placed) >= {"Runner bean", "Old Moat 白玉", "P000 002G", "60 seeds"}
    assert placed["Runner bean"].top_mm < placed["Old Moat 白玉"].top_mm < placed["60 seeds"].top_mm
    assert placed["Runner bean"].size_pt >= placed["60 seeds"].size_pt
    for one in picture.words:
        assert one.left_mm >= 0
        assert one.top_mm >= 0
        assert one.left_mm + one.width_mm <= picture.width_mm
        assert one.top_mm + one.height_mm <= picture.height_mm
    # The code is there as ink, under no word: nothing but white where the words stood.
    assert min(picture.pixels) < 128
    right_half = [
        picture.pixels[row * picture.columns + column]
        for row in range(picture.rows)
        for column in range(picture.columns // 2, picture.columns)
    ]
    assert min(right_half) > 200


def test_what_is_read_from_the_right_is_given_as_it_was_written():
    # Words of our own making: "rain basil 24" and "mill moon" of an invented garden.
    written = {"variety": "ריחן הגשם 24", "source": "קמר (plot 4)"}
    said = [one.text for one in label_picture(job("a4-24-64x34-gap", **written), 1.0).words]
    assert written["variety"] in said
    assert any(written["source"] in text for text in said)


def test_a_larger_room_shows_more():
    small, large = seen(job("a4-24-64x34-gap"), (38, 10)), seen(job("a4-24-64x34-gap"), (76, 20))
    assert len(small) == 12
    assert len(large) == 22
    for lines in (small, large):
        assert lines[0].startswith("╭")  # round corners, as the sheet has them
        assert len({width_of(line) for line in lines}) == 1
        assert all(any(text in line for line in lines) for text in ("Runner bean", "Old Moat 白玉"))
        assert any(block in "".join(lines) for block in "▄▀█▌▐")


def test_a_stake_lies_and_its_bare_foot_is_left_off():
    one = job("a4-stake-20x140", "stake", sown_on="sown 2 November 2026")
    size = one.sheet.label_width_mm, one.sheet.label_height_mm
    whole = scale_for(*size, (60, 12))
    assert whole.lying
    picture = label_picture(one, whole.pixels_per_mm)
    scale = scale_for(*size, (60, 12), used_mm(picture))
    assert scale.cut
    assert scale.mm < whole.mm
    lines = text_of(drawn(label_picture(one, scale.pixels_per_mm), scale, "square").lines)
    assert lines[0][0] == "┌"
    assert lines[0][-1] == "┄"
    assert any("Runner bean" in line for line in lines)


def test_words_give_way_and_what_has_no_room_is_counted():
    rows = [PlacedWords(f"line number {n} is long", 1, 0.5 * n, 18, 0.4, 5) for n in range(9)]
    picture = LabelPicture(20, 8, tuple(rows), b"\xff" * 80 * 32, 80)
    scale = scale_for(20, 8, (20, 4))
    found = drawn(picture, scale, "square")
    inner = [line[1:-1] for line in text_of(found.lines)[1:-1]]
    assert all(len(line) == scale.columns for line in inner)
    assert sum("line number" in line for line in inner) == 4
    assert all("›" in line for line in inner)  # cut by the picture, not on paper
    assert found.left_out == 5


@given(st.text(max_size=60))
def test_no_text_breaks_the_frame(text: str):
    words = PlacedWords(text, 2, 3, 10, 2, 8)
    picture = LabelPicture(40, 16, (words,), b"\xff" * 80 * 32, 80)
    scale = scale_for(40, 16, (40, 8))
    lines = text_of(drawn(picture, scale, "round").lines)
    assert {width_of(line) for line in lines} == {scale.columns + 2}


@pytest.mark.parametrize("one", sheets().values(), ids=lambda each: each.name)
def test_every_sheet_is_drawn_label_by_label(one: Sheet):
    grid = grid_for(one, (77, 19))
    start = min(3, one.count)
    lines = text_of(drawn_sheet(one, grid, start, 4))
    assert len(lines) == one.rows * grid.rows
    assert all(width_of(line) <= 80 for line in lines)
    body = "".join(line[5:] for line in lines)
    printed = min(4, one.count - start + 1)
    marked = body.count(">") * 2
    for line, text in enumerate(lines):
        if ">" in text:  # a click on the chosen label finds it
            assert position_at(one, grid, text.index(">"), line) == start
            assert position_at(one, grid, text.index("<"), line) == start
    assert position_at(one, grid, 2, 0) == 0
    assert body.count(USED) == (start - 1) * grid.columns * grid.rows
    assert body.count(PRINTED) + marked == printed * grid.columns * grid.rows
    assert body.count(FREE) == (one.count - start + 1 - printed) * grid.columns * grid.rows


@pytest.mark.parametrize(
    ("start", "labels", "words"),
    [
        (1, 0, "Nothing waits"),
        (5, 1, "1 label goes onto it."),
        (5, 20, "20 labels go onto 5 to 24."),
        (5, 21, "onto 2 pages, on the last of them label 1."),
        (24, 49, "onto 3 pages, on the last of them labels 1 to 24."),
    ],
)
def test_the_pages_are_told(start: int, labels: int, words: str):
    assert words in position_words(sheet("a4-24-64x34-gap"), start, labels)
