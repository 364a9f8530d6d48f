"""Gardens for the sowing season: a mild one, its mirror, and one without frost."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, datetime
from pathlib import Path
from random import Random

import pytest

from seedbox.season.sowing.garden import set_garden
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import PlaceKind
from seedbox.tin.packets import PacketDraft, add_packets
from seedbox.tin.places import add_place
from seedbox.tin.records import Origin, Unit
from seedbox.tin.stores import add_store

# The crops that the common-practice list of March names, and some that come later.
CROPS = (
    "chard", "beetroot", "kale", "cabbage", "cauliflower", "broccoli_calabrese",
    "brussels_sprouts", "leek", "lettuce", "pak_choi", "radish", "carrot", "parsnip",
    "bean_broad", "pea_garden", "spinach", "rocket", "celery", "sunflower", "tomato",
    "pepper_sweet", "pepper_chilli", "aubergine", "courgette", "bean_runner", "onion_bulb",
)  # fmt: skip

Planted = Callable[..., Tin]


@pytest.fixture
def planted(tmp_path: Path, empty_tin_bytes: bytes) -> Iterator[Planted]:
    """A tin of fresh bought seed of many crops, in a garden of its own; figures are invented."""
    opened: list[Tin] = []

    def made(
        last: str = "04-25",
        first: str = "10-25",
        latitude: str = "52",
        *,
        crops: tuple[str, ...] = CROPS,
        packed_year: int = 2026,
        today: date = date(2027, 1, 1),
        seeds: float = 600,
    ) -> Tin:
        path = tmp_path / f"garden{len(opened)}.tin"
        path.write_bytes(empty_tin_bytes)
        tin = Tin.open(path, rng=Random(11), now=lambda: datetime(2027, 1, 1, 9))
        opened.append(tin)
        set_garden(tin, last_spring_frost=last, first_autumn_frost=first, latitude=latitude)
        add_place(tin, "Windowsill", PlaceKind.WINDOWSILL, coolest_c=18)
        add_place(tin, "Greenhouse", PlaceKind.GREENHOUSE, coolest_c=5, warmest_c=22)
        add_place(tin, "Bed", PlaceKind.BED, coolest_c=4, warmest_c=18)
        jar = add_store(tin, "Jar", 4, sealed=True, sealed_moisture=6)
        drafts = [
            PacketDraft(
                crop,
                origin=Origin.BOUGHT,
                packed_year=packed_year,
                unit=Unit.SEEDS,
                amount=seeds,
                received_on=date(packed_year, 12, 31),
                store_id=jar.id,
            )
            for crop in crops
        ]
        add_packets(tin, drafts, today=max(today, date(packed_year, 12, 31)))
        return tin

    yield made
    for tin in opened:
        tin.close()
