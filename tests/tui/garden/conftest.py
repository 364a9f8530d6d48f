"""A small garden over the packets of this room: places, a plan, two sowings in progress."""

from __future__ import annotations

import random
from datetime import date
from pathlib import Path

import pytest

from seedbox.season.sowing.garden import set_garden
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import EventKind, PlaceKind
from seedbox.tin.places import add_place
from seedbox.tin.plans import set_plan
from seedbox.tin.sowing_events import record_event
from seedbox.tin.sowings import SowingDraft, add_sowing

BED = "[b]long[/b] bed"


@pytest.fixture
def garden_path(tin_path: Path, today: date, codes: dict[str, str]) -> Path:
    """Frosts of 25 April and 25 October at 52 degrees north; a name in markup is only a name."""
    with Tin.open(tin_path, rng=random.Random(5)) as tin:
        set_garden(
            tin,
            last_spring_frost="04-25",
            first_autumn_frost="10-25",
            latitude="52",
            name="Otter Lane",
        )
        sill = add_place(
            tin, "kitchen sill", PlaceKind.WINDOWSILL, coolest_c=18, ppfd=120, light_hours=10
        )
        add_place(tin, BED, PlaceKind.BED, coolest_c=4, warmest_c=18)
        set_plan(tin, "lettuce", 12, again_days=14, note="[red]cut and come again[/]")
        trays = SowingDraft(cells=12, per_cell=2, pot_depth_cm=5, plants_wanted=12)
        add_sowing(tin, tin.packet(codes["pea"]), sill, trays, today=today, on=date(2026, 9, 1))
        beans = add_sowing(
            tin, tin.packet(codes["bean"]), sill, trays, today=today, on=date(2026, 10, 20)
        )
        record_event(tin, beans, EventKind.EMERGED, date(2026, 11, 2), today=today, count=20)
    return tin_path


@pytest.fixture
def sowing_codes(garden_path: Path) -> dict[str, str]:
    """Codes of the two sowings, by crop."""
    with Tin.open(garden_path) as tin:
        peas, beans = tin.sowings()
        return {"pea": peas.code, "bean": beans.code}
