"""A small real tin for the season's tests: invented packets in a temporary folder."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path
from random import Random

import pytest

from seedbox.resources import sample_data_dir
from seedbox.season.crops import CropBook
from seedbox.tin.drafts import PacketDraft
from seedbox.tin.exchange.carrying import carry_out
from seedbox.tin.exchange.planning import plan_import
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


@pytest.fixture(scope="session")
def empty_tin_bytes(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """An empty tin, made once: laying one down needs sqlite-utils and takes its time."""
    path = tmp_path_factory.mktemp("empty") / "empty.tin"
    Tin.open(path, create=True).close()
    return path.read_bytes()


@pytest.fixture
def demo(tmp_path: Path, empty_tin_bytes: bytes) -> Iterator[Tin]:
    """The demo tin with its garden, read from the sample data."""
    path = tmp_path / "demo.tin"
    path.write_bytes(empty_tin_bytes)
    with Tin.open(path, rng=Random(5), now=lambda: datetime(2027, 2, 20, 9)) as tin:
        names = CropBook(tin.settings(), tin.own_crops())
        plan = plan_import(tin, sample_data_dir(), resolve_crop=names.answer, today=TODAY)
        carry_out(tin, plan)
        yield tin
