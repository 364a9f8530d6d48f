"""Whole screens as text, compared with files. The forecasts are fixed here, so that a better
model does not change what these files are about: the layout.

Write the files anew with SEEDBOX_GOLDEN=write, and read every difference before it is kept.
"""

from __future__ import annotations

import os
from datetime import date, timedelta
from pathlib import Path

import pytest

from seedbox.season.forecast import Advice, Forecast

GOLDEN = Path(__file__).parent / "golden"
_FIXED = {
    "bean_runner": (0.82, 0.61, 0.95, Advice.SOW, date(2028, 3, 1)),
    "lettuce": (0.55, 0.30, 0.78, Advice.SOW_THICK, date(2027, 6, 1)),
    "tomato": (0.24, 0.0, 0.79, Advice.TEST, None),
    "pea_garden": (0.78, 0.60, 0.93, Advice.USE_UP, date(2027, 4, 1)),
    "leek": (0.04, 0.0, 0.11, Advice.SPENT, None),
}


class FixedForecaster:
    """Answers the same for ever."""

    def __init__(self, *given: object) -> None:
        pass

    def forecast(self, dossier, on, stores) -> Forecast:
        mean, low, high, advice, until = _FIXED[dossier.packet.crop_id]
        return Forecast(
            mean=mean, low=low, high=high, p_standard=0.76, p_floor=0.9, standard=0.75,
            standard_basis="EU minimum for sale", advice=advice, thick_factor=1.4,
            good_until=until, supported=True, warnings=(), test_seeds=20,
            rests_on=("Tested 1 February 2026: 17 of 20.", "Harvested 2025."),
        )  # fmt: skip

    def masses(self, *given: object) -> list[float]:
        return []

    def curve(self, dossier, on, stores, until, points=60):
        start = date(2025, 9, 1)
        days = (until - start).days
        return [
            (
                start + timedelta(days=days * i // 20),
                0.9 - 0.03 * i,
                max(0.0, 0.8 - 0.04 * i),
                min(1.0, 0.97 - 0.02 * i),
            )
            for i in range(21)
        ]


@pytest.fixture(autouse=True)
def fixed_forecasts(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("seedbox.season.listing.Forecaster", FixedForecaster)
    monkeypatch.setattr("seedbox.tui.answers.Forecaster", FixedForecaster)


# Name of a screen, the keys that lead to it from the one before.
WALK = {
    "tin": [],
    "tin_filtered": ["slash", "z", "w"],
    "packet": ["escape", "j", "j", "enter"],
    "add_form": ["escape", "a", "e", "g", "g"],
    "take_form": ["escape", "ctrl+n", "escape", "g", "t"],
    "stores": ["escape", "S"],
    "history": ["escape", "h"],
    "help": ["escape", "question_mark"],
}


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_screens_look_as_they_did(open_screen, tin_path: Path, size):
    await _walk(open_screen, tin_path, size, WALK)


async def _walk(open_screen, tin_path: Path, size: tuple[int, int], walk: dict[str, list[str]]):
    write = os.environ.get("SEEDBOX_GOLDEN") == "write"
    async with open_screen(tin_path, size) as screen:
        for name, keys in walk.items():
            for key in keys:
                await screen.press(key)
            if screen.app.screen.query("#notice"):
                screen.app.screen.say("")
                await screen.settle()
            seen = "\n".join(screen.lines) + "\n"
            file = GOLDEN / f"{name}_{size[0]}x{size[1]}.txt"
            if write:
                file.write_text(seen, encoding="utf-8")
            assert seen == file.read_text(encoding="utf-8"), name


# With two tests running: tabs, a test being counted, its start, its end.
WALK_OF_TESTS = {
    "today": ["1"],
    "tests": ["3"],
    "tests_finished": ["v"],
    "test_running": ["left", "enter"],
    "test_counted": ["7", "down", "9"],
    "test_finished": ["F"],
    "test_packet": ["v", "G"],
    "start_form": ["escape", "escape", "2", "N"],
}


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_screens_of_tests_look_as_they_did(open_screen, tin_path: Path, tested, size):
    await _walk(open_screen, tin_path, size, WALK_OF_TESTS)
