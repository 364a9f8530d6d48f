"""A real tin in a temporary folder, with a fixed day and repeatable codes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime
from pathlib import Path
from random import Random
from typing import Any

import pytest

from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.records import Packet, Store
from seedbox.tin.schema import TABLES
from seedbox.tin.stores import add_store

TODAY = date(2026, 3, 14)
NOW = datetime(2026, 3, 14, 9, 30, tzinfo=UTC)

Dump = dict[str, list[tuple[Any, ...]]]


@pytest.fixture
def today() -> date:
    return TODAY


@pytest.fixture(scope="session")
def empty_tin_bytes(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """An empty tin, made once: laying one down needs sqlite-utils and takes its time."""
    path = tmp_path_factory.mktemp("empty") / "empty.tin"
    Tin.open(path, create=True).close()
    return path.read_bytes()


@pytest.fixture
def tin_path(tmp_path: Path, empty_tin_bytes: bytes) -> Path:
    path = tmp_path / "garden.tin"
    path.write_bytes(empty_tin_bytes)
    return path


@pytest.fixture
def open_tin() -> Callable[..., Tin]:
    def opened(path: Path, **options: Any) -> Tin:
        return Tin.open(path, now=lambda: NOW, rng=Random(4), **options)

    return opened


@pytest.fixture
def tin(tin_path: Path, open_tin: Callable[..., Tin]) -> Iterator[Tin]:
    with open_tin(tin_path) as opened:
        yield opened


@pytest.fixture(scope="session")
def tin_factory(
    tmp_path_factory: pytest.TempPathFactory, empty_tin_bytes: bytes
) -> Callable[[], Tin]:
    """A new empty tin at every call, for property tests."""

    def made() -> Tin:
        path = tmp_path_factory.mktemp("many") / "garden.tin"
        path.write_bytes(empty_tin_bytes)
        return Tin.open(path, now=lambda: NOW, rng=Random(4))

    return made


@pytest.fixture
def shed(tin: Tin) -> Store:
    return add_store(tin, "Cold shed", 3, 19, relative_humidity=0.6)


@pytest.fixture
def jar(tin: Tin) -> Store:
    return add_store(tin, "Jar in the fridge", 5, sealed=True, sealed_moisture=6.0)


@pytest.fixture
def packet(tin: Tin) -> Packet:
    """Fifty seeds of an invented beetroot, received in January."""
    draft = PacketDraft("beetroot", "Elder Lantern", amount=50, received_on=date(2026, 1, 10))
    return add_packet(tin, draft, today=TODAY)


@pytest.fixture
def dump() -> Callable[[Tin], Dump]:
    """Everything a tin holds apart from its history."""

    def dumped(tin: Tin) -> Dump:
        return {t: tin.database.rows(f"SELECT * FROM {t} ORDER BY id") for t in TABLES}

    return dumped
