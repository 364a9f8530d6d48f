"""A tin with a fresh, a doubtful and a treated packet, and a way to lay and count a test."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta

import pytest

from seedbox.tin.counting import count
from seedbox.tin.drafts import PacketDraft
from seedbox.tin.file import Tin
from seedbox.tin.packets import add_packet
from seedbox.tin.records import GerminationTest, Origin, Packet, TestCount, TestState
from seedbox.tin.stores import add_store

START = date(2027, 2, 1)


@pytest.fixture
def start_day() -> date:
    return START


@pytest.fixture
def doubtful(tin: Tin, today: date) -> Packet:
    """Old carrot seed from a warm drawer: nobody knows."""
    drawer = add_store(tin, "drawer", 18, 24, relative_humidity=0.5)
    return add_packet(
        tin,
        PacketDraft(
            "carrot",
            "Slate Hill",
            origin=Origin.BOUGHT,
            harvest_year=2022,
            amount=900,
            store_id=drawer.id,
            received_on=date(2022, 12, 1),
        ),
        today=today,
    )


@pytest.fixture
def laid() -> Callable[..., GerminationTest]:
    """A running test that no tin holds."""

    def made(seeds: int = 20, replicates: int = 1, **figures: object) -> GerminationTest:
        known = {"state": TestState.RUNNING, "started_on": START, "first_count_day": 6}
        known |= {"final_count_day": 14} | figures
        return GerminationTest(
            1,
            "T73C42C3",
            1,
            START,
            seeds,
            0,
            replicates=replicates,
            **known,  # type: ignore[arg-type]
        )

    return made


@pytest.fixture
def counted() -> Callable[..., list[TestCount]]:
    """Counts of normal seedlings from (day, replicate, normal)."""

    def made(*entries: tuple[int, int, int], **others: int) -> list[TestCount]:
        return [
            TestCount(1, START + timedelta(days=day), replicate, normal, **others)
            for day, replicate, normal in entries
        ]

    return made


@pytest.fixture
def count_all(tin: Tin, today: date) -> Callable[[str, Sequence[tuple[int, int]]], None]:
    """Counts a test of one replicate: (day, normal)."""

    def done(code: str, entries: Sequence[tuple[int, int]]) -> None:
        started_on = tin.test(code).started_on or START
        for day, normal in entries:
            count(tin, code, on=started_on + timedelta(days=day), normal=normal, today=today)

    return done
