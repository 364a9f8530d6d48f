"""A tin whose labels wait: three packets, a tray, the slips of a running test."""

from __future__ import annotations

import random
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from seedbox.tin.file import Tin
from seedbox.tin.garden_records import PlaceKind
from seedbox.tin.label_queue import queue_labels
from seedbox.tin.places import add_place
from seedbox.tin.sowings import SowingDraft, add_sowing
from seedbox.tui.labels_picture import Drawn
from seedbox.tui.labels_picturing import Look
from seedbox.tui.tabs import tab

Facts = Callable[[Any], str]
Waiting = Callable[[], list[tuple[str, str, int]]]


@pytest.fixture
def facts() -> Facts:
    """What stands beside the picture, without its line breaks."""

    def read(screen: Any) -> str:
        return " ".join(str(screen.app.screen.query_one("#label-facts").content).split())

    return read


@pytest.fixture
def labels_key() -> str:
    return tab("Labels").key


@pytest.fixture
def tray(tin_path: Path, today: date, codes: dict[str, str]) -> str:
    """The code of a tray of 12 cells."""
    with Tin.open(tin_path, rng=random.Random(5)) as tin:
        sill = add_place(tin, "[b]kitchen[/b] sill", PlaceKind.WINDOWSILL, coolest_c=18)
        draft = SowingDraft(cells=12, per_cell=2)
        return add_sowing(
            tin, tin.packet(codes["pea"]), sill, draft, today=today, on=date(2026, 11, 2)
        ).code


@pytest.fixture
def queued_path(tin_path: Path, codes: dict[str, str], tray: str, tested: dict[str, str]) -> Path:
    """Labels of bean, lettuce and tomato, of the tray, and the two slips of the bean's test."""
    with Tin.open(tin_path) as tin:
        packets = [codes[crop] for crop in ("bean", "lettuce", "tomato")]
        queue_labels(tin, [*packets, tray, tested["bean"]])
    return tin_path


@pytest.fixture
def waiting(tin_path: Path) -> Waiting:
    """What waits in the file: code, design, copies."""

    def read() -> list[tuple[str, str, int]]:
        with Tin.open(tin_path) as tin:
            return [(one.code, one.design, one.copies) for one in tin.label_queue()]

    return read


@pytest.fixture
def no_pictures(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is drawn: a picture takes as long as ten keys, and is looked at in test_looks.py."""
    plain = Look(Drawn([[("a picture", "")]], 0))
    monkeypatch.setattr("seedbox.tui.labels_picturing.look_of", lambda wish: plain)
