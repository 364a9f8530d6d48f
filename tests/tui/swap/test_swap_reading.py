"""Reading the swap: it stops, and what is judged again is what reckoning it anew would say."""

from __future__ import annotations

from pathlib import Path

import pytest

from seedbox.season.swapping.spare import spare_of
from seedbox.tin.file import Tin
from seedbox.tin.list_records import SwapWord
from seedbox.tin.packets import take
from seedbox.tin.records import MovementKind
from seedbox.tin.settings import set_setting
from seedbox.tin.swap_choices import set_swap_choice
from seedbox.tui import swap_reading
from seedbox.tui.swap_reading import SwapReader
from seedbox.tui.swap_words import clipped


def reader(tin: Tin, today) -> SwapReader:
    return SwapReader(tin, today, lambda: False)


def test_a_word_is_judged_again_without_reckoning_and_tells_the_same(
    swap_path: Path, today, monkeypatch: pytest.MonkeyPatch
):
    reckoned: list[int] = []
    whole = swap_reading.spare

    def counting(*given):
        reckoned.append(1)
        return whole(*given)

    monkeypatch.setattr(swap_reading, "spare", counting)
    with Tin.open(swap_path) as tin:
        before = reader(tin, today).read(None)
        kale, lettuce = (one for one in tin.packets() if one.crop_id in ("kale", "lettuce"))
        set_swap_choice(tin, kale, SwapWord.OFFER, portions=1)
        set_swap_choice(tin, lettuce, SwapWord.OFFER)
        set_setting(tin, "theme", "light")
        again = reader(tin, today).read(before)
        assert reckoned == [1]
        assert before is not None and again is not None and again.spare != before.spare
        anew = {one.code: one for one in spare_of(tin, today)}
        assert again.by_code() == anew
        take(tin, kale, 100, MovementKind.SOWN, today=today)
        changed = reader(tin, today).read(again)
        assert reckoned == [1, 1] and changed is not None
        assert changed.by_code() == {one.code: one for one in spare_of(tin, today)}


def test_reading_stops_when_nobody_waits(swap_path: Path, today):
    with Tin.open(swap_path) as tin:
        stopped = SwapReader(tin, today, lambda: True)
        assert stopped.read(None) is None
        assert len(stopped.wanted().wants) == 2
        # The dearest want comes first.
        assert [one.worth for one in stopped.wanted().wants] == [5, 3]


def test_a_long_text_is_clipped_and_says_where_the_rest_is():
    words = " ".join(f"word{number}" for number in range(60))
    for width in range(30, 90):
        lines = clipped(words, width, 3, "Enter shows all.")
        assert len(lines) == 3 and lines[-1].endswith("… Enter shows all.")
        assert all(len(line) <= width for line in lines)
    assert clipped("short", 40, 3, "Enter shows all.") == ["short"]
