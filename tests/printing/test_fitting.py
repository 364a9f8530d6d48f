from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.pdfbase.pdfmetrics import stringWidth

from seedbox.printing.breaking import clusters
from seedbox.printing.fitting import ELLIPSIS, LEADING, LEAST_PT, fit_block, fit_line
from seedbox.printing.fonts import BOX, BOX_WIDTH, clean
from seedbox.printing.styles import Style

MARKED = "e\u0301\u0323x\u0308 Ễ한글漢字かなשלום🌱\u200d\ufe0f\t\u202e"
WORDS = st.text(max_size=80) | st.text(MARKED, max_size=60) | st.text("abc dé", max_size=400)
STYLES = st.builds(
    lambda weight, smallest, more, lines, keep: Style(
        weight, smallest + more, smallest, lines, keep
    ),
    st.sampled_from(("regular", "semibold", "italic")),
    st.floats(4, 8),
    st.floats(0, 16),
    st.integers(1, 3),
    st.integers(1, 9),
)
NAME = Style("semibold", 10.0, 6.0, 2, 1)


@settings(deadline=None)
@given(
    st.lists(st.tuples(WORDS, STYLES), min_size=1, max_size=6),
    st.floats(8, 300),
    st.floats(12, 200),
)
def test_no_line_is_wider_and_no_block_higher_than_its_box(
    block: list[tuple[str, Style]], width: float, height: float
) -> None:
    texts = [text for text, _ in block]
    lines = fit_block(texts, tuple(style for _, style in block), width, height)
    for line in lines:
        # reportlab's own measure of every run, an empty box counting as drawn.
        measured = sum(
            BOX_WIDTH * len(run.text) * line.size
            if run.font == BOX
            else stringWidth(run.text, run.font, line.size)
            for run in line.runs
        )
        assert measured <= width + 0.001
    assert sum(line.size for line in lines) * LEADING <= height + 0.001


@settings(deadline=None)
@given(WORDS, st.floats(20, 120))
def test_a_mark_is_never_cut_from_its_letter(text: str, width: float) -> None:
    whole = clean(text)
    for line in fit_block([text], (NAME,), width, 60):
        shown = "".join(run.text for run in line.runs).rstrip(ELLIPSIS)
        at = whole.find(shown)
        following = whole[at + len(shown) : at + len(shown) + 1] if shown and at >= 0 else ""
        assert not following or not unicodedata.category(following).startswith("M")


@settings(deadline=None)
@given(WORDS)
def test_clusters_put_together_are_the_text(text: str) -> None:
    assert "".join(clusters(text)) == text


def shown(text: str, width: float, height: float, style: Style = NAME) -> list[tuple[str, float]]:
    lines = fit_block([text], (style,), width, height)
    return [("".join(run.text for run in line.runs), line.size) for line in lines]


def test_a_name_shrinks_then_wraps_then_is_cut() -> None:
    name = "Climbing French bean"
    full = stringWidth(name, "Seedbox-semibold", 1)
    assert shown(name, full * 10 + 1, 40) == [(name, 10.0)]
    ((text, size),) = shown(name, full * 8, 40)
    assert (text, size) == (name, pytest.approx(8.0))
    wrapped = shown(name, full * 5, 40)
    assert [text for text, _ in wrapped] == ["Climbing", "French bean"]
    assert wrapped[0][1] > 6.0  # two lines that hold it all grow again
    ((small, size),) = shown(name, full * 5, 8)
    assert (small, size) == (name, pytest.approx(5.0))
    ((cut, size),) = shown(name, full * 4, 8)
    assert cut.endswith(ELLIPSIS)
    assert size == LEAST_PT


def test_a_word_longer_than_the_line_shrinks_and_is_cut_but_never_hyphened() -> None:
    word = "Feldsalatkohlgemüse"
    full = stringWidth(word, "Seedbox-semibold", 1)
    ((whole, size),) = shown(word, full * 5, 40)
    assert (whole, size) == (word, pytest.approx(5.0, abs=0.5))
    cut = shown(f"{word} spät", full * 3, 40)
    assert cut[0][0].endswith(ELLIPSIS)
    assert word.startswith(cut[0][0].rstrip(ELLIPSIS))
    assert cut[1][0] == "spät"


def test_what_is_wanted_whole_is_left_out_rather_than_cut() -> None:
    whole = Style("regular", 8.0, 6.0, 2, 5, whole=True)
    texts = ("Pea", "germinates about 82 % on 2026-11-25")
    assert len(fit_block(texts, (NAME, whole), 80, 4 * 6 * LEADING)) == 3
    assert [line.runs[0].text for line in fit_block(texts, (NAME, whole), 40, 14)] == ["Pea"]


def test_lesser_type_is_never_larger_than_greater() -> None:
    small = Style("regular", 9.0, 5.0, 1, 2)
    lines = fit_block(("Donaudampfschifffahrtsrübenkohl", "X"), (NAME, small), 110, 60)
    assert lines[0].size >= lines[1].size


def test_when_room_is_short_the_line_with_the_highest_number_goes() -> None:
    def style(keep: int) -> Style:
        return Style("regular", 8.0, 6.0, 1, keep)

    lines = fit_block(("a", "b", "c"), (style(3), style(9), style(1)), 50, 2 * 6 * LEADING)
    assert [line.runs[0].text for line in lines] == ["a", "c"]


def test_a_line_that_wraps_leaves_one_line_to_the_next() -> None:
    styles = (NAME, Style("regular", 8.0, 6.0, 1, 2))
    lines = fit_block(("Climbing French bean", "Aldous"), styles, 40, 2.2 * 6 * LEADING)
    assert [line.runs[0].text[:3] for line in lines] == ["Cli", "Ald"]


def test_a_lesser_line_wraps_only_into_what_is_left() -> None:
    lesser = Style("regular", 8.0, 6.0, 2, 5)
    least = Style("regular", 8.0, 6.0, 1, 9)
    texts = ("swapped with a very far neighbour", "Aldous")
    assert [
        len(fit_block(texts, (lesser, least), 60, lines * 6 * LEADING)) for lines in (1, 2, 3)
    ] == [1, 2, 3]
    tight = fit_block(texts, (lesser, least), 58, 2 * 6 * LEADING)
    assert tight[0].runs[0].text.endswith(ELLIPSIS)
    assert tight[1].runs[0].text == "Aldous"


def test_a_megabyte_is_cut_at_once() -> None:
    assert fit_line("wide " * 200_000, NAME, (60, 20))[0].width <= 60


def test_all_shrink_before_the_foremost_is_cut() -> None:
    variety, code = Style("regular", 9.0, 5.5, 2, 2), Style("semibold", 7.0, 5.0, 1, 0)
    texts = ("Climbing French bean", "Aldous", "P4K7 QMX2")
    lines = fit_block(texts, (NAME, variety, code), 36, 25)
    assert [line.runs[0].text for line in lines] == ["Climbing French", "bean", *texts[1:]]
    assert min(line.size for line in lines) >= LEAST_PT
