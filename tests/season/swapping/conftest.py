"""Tins for the swap's tests: invented gardens with invented packets, one a call."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, datetime
from pathlib import Path
from random import Random

import pytest

from seedbox.season.crops import CropBook
from seedbox.season.sowing.garden import set_garden
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packets
from seedbox.tin.preferences import Settings
from seedbox.tin.records import Origin, Unit
from seedbox.tin.stores import add_store

TODAY = date(2027, 2, 20)
Planted = Callable[..., Tin]


@pytest.fixture
def today() -> date:
    return TODAY


@pytest.fixture
def book() -> CropBook:
    return CropBook(Settings())


@pytest.fixture
def planted(tmp_path: Path, empty_tin_bytes: bytes) -> Iterator[Planted]:
    """Makes a tin of packets told as keywords: good bought seed of 2026 in a dry jar, unless they
    say otherwise. The frosts are 25 April and 25 October.
    """
    opened: list[Tin] = []

    def made(*packets: dict[str, object], described: bool = True) -> Tin:
        path = tmp_path / f"garden{len(opened)}.tin"
        path.write_bytes(empty_tin_bytes)
        rng = Random(7 + len(opened))
        tin = Tin.open(path, rng=rng, now=lambda: datetime(2027, 2, 20, 9))
        opened.append(tin)
        if described:
            set_garden(tin, last_spring_frost="04-25", first_autumn_frost="10-25", latitude="52")
        jar = add_store(tin, "Jar", 4, sealed=True, sealed_moisture=6)
        usual = {
            "origin": Origin.BOUGHT,
            "harvest_year": 2026,
            "unit": Unit.SEEDS,
            "amount": 500.0,
            "received_on": date(2026, 11, 1),
            "store_id": jar.id,
        }
        drafts = [PacketDraft(**{**usual, **one}) for one in packets]  # type: ignore[arg-type]
        add_packets(tin, drafts, today=TODAY)
        return tin

    yield made
    for tin in opened:
        tin.close()
