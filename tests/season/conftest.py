"""A small real tin for the season's tests: invented packets in a temporary folder."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path

import pytest

from seedbox.tin.drafts import PacketDraft
from seedbox.tin.file import Tin
from seedbox.tin.packets import add_packet
from seedbox.tin.records import Origin, Treatment, Unit
from seedbox.tin.stores import add_store

TODAY = date(2027, 2, 20)


@pytest.fixture
def today() -> date:
    return TODAY


@pytest.fixture
def tin(tmp_path: Path) -> Iterator[Tin]:
    with Tin.open(
        tmp_path / "garden.tin", create=True, now=lambda: datetime(2027, 2, 20, 12)
    ) as tin:
        yield tin


@pytest.fixture
def stocked(tin: Tin) -> Tin:
    """Four packets: fresh tomato, old parsnip, dressed pea, an empty packet of beans."""
    drawer = add_store(tin, "kitchen drawer", coolest_c=17, warmest_c=23, relative_humidity=0.5)
    common = {"store_id": drawer.id, "stored_from": date(2026, 10, 1)}
    for draft in (
        PacketDraft(
            crop_id="tomato",
            variety="Früher Zwerg",
            origin=Origin.BOUGHT,
            harvest_year=2026,
            amount=40,
            unit=Unit.SEEDS,
            tags=("early",),
            **common,
        ),
        PacketDraft(
            crop_id="parsnip",
            variety="Tollgate Long",
            origin=Origin.SAVED,
            harvest_year=2017,
            amount=2.5,
            unit=Unit.GRAMS,
            **common,
        ),
        PacketDraft(
            crop_id="pea_garden",
            variety="Dray Horse",
            origin=Origin.BOUGHT,
            packed_year=2026,
            treatment=Treatment.DRESSED,
            **common,
        ),
        PacketDraft(
            crop_id="bean_french_dwarf",
            variety="Old Weir",
            origin=Origin.SWAPPED,
            harvest_year=2024,
            amount=0,
            unit=Unit.SEEDS,
            **common,
        ),
    ):
        add_packet(tin, draft, today=TODAY)
    return tin
