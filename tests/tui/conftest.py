"""Tins and driven screens for the tests of this room."""

from __future__ import annotations

import random
from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager, suppress
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from textual import events
from textual.pilot import Pilot
from textual.worker import WorkerCancelled

from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packets, take
from seedbox.tin.records import MovementKind, Origin, Treatment, Unit
from seedbox.tin.stores import add_store
from seedbox.tin.testing import TestPlan, start_test
from seedbox.tin.tests import record_test
from seedbox.tui.app import SeedboxApp
from seedbox.tui.tin_tab import AFTER_PAINT_SECONDS

TODAY = date(2026, 11, 24)
# Codes with their check characters by ISO/IEC 7064 MOD 37-2, computed with python-stdnum.
BEAN, LETTUCE, TOMATO, PEA, EMPTY = "P000002G", "P000003E", "P000004C", "P000005A", "P0000068"


class Screen:
    """A running program under a pilot, and what it shows as text."""

    def __init__(self, app: SeedboxApp, pilot: Pilot[None]) -> None:
        self.app = app
        self.pilot = pilot

    async def settle(self) -> None:
        """Wait for held-back keys, workers and painting."""
        while self.app._scanner.holding:
            await self.pilot.pause(0.01)
        await self._workers_end()
        await self.pilot.pause()
        while not self.app.screen.is_mounted:  # its first reading may take a while
            await self.pilot.pause(0.01)
        await self._workers_end()
        await self.pilot.pause()

    async def _workers_end(self) -> None:
        """Wait for all workers; one that a newer reading replaced is no fault."""
        while any(not worker.is_finished for worker in self.app.workers):
            with suppress(WorkerCancelled):
                await self.app.workers.wait_for_complete()
            await self.pilot.pause()

    async def press(self, *keys: str) -> None:
        await self.pilot.press(*keys)
        await self.settle()

    async def type(self, text: str) -> None:
        """Type into a field, all at once; a leading `/` opens the filter first."""
        if text.startswith("/"):
            await self.press("slash")
            text = text[1:]
        for char in text:
            self.app.post_message(events.Key("space" if char == " " else char, char))
        await self.settle()
        await self.pilot.pause()

    @property
    def lines(self) -> list[str]:
        strips = self.app.screen._compositor.render_strips()
        return [strip.text.rstrip() for strip in strips]

    @property
    def text(self) -> str:
        return "\n".join(self.lines).replace("\u00a0", " ")

    @property
    def flat(self) -> str:
        """The same without its line breaks."""
        return " ".join(self.text.split())

    @property
    def problems(self) -> str:
        """What stands beside the fields of a form, without its line breaks."""
        sides = self.app.screen.query(".field-side")
        return " ".join(str(side.content) for side in sides)


Open = Callable[..., AbstractAsyncContextManager[Screen]]


@pytest.fixture(autouse=True)
def plain_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TEXTUAL_ANIMATIONS", "none")


@pytest.fixture
def today() -> date:
    return TODAY


@pytest.fixture
def open_screen() -> Open:
    @asynccontextmanager
    async def opened(path: Path, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Screen]:
        app = SeedboxApp(path, TODAY)
        async with app.run_test(size=size) as pilot:
            screen = Screen(app, pilot)
            await pilot.pause(AFTER_PAINT_SECONDS + 0.01)
            await screen.settle()
            yield screen
            app.desk.close()

    return opened


@pytest.fixture
def tin_path(tmp_path: Path) -> Path:
    """Five packets of an invented garden, one of them with nothing left."""
    path = tmp_path / "garden.tin"
    when = datetime(2026, 3, 1, 9, 30, tzinfo=UTC)
    with Tin.open(path, create=True, now=lambda: when, rng=random.Random(3)) as tin:
        drawer = add_store(tin, "kitchen drawer", 17, 23, relative_humidity=0.5)
        jar = add_store(tin, "jar in the fridge", 5, sealed=True, sealed_moisture=6)
        drafts = [
            PacketDraft(
                "bean_runner", "Old Moat", code=BEAN, origin=Origin.SAVED, harvest_year=2023,
                unit=Unit.SEEDS, amount=60, store_id=drawer.id, received_on=date(2023, 11, 1),
            ),
            PacketDraft(
                "lettuce", "Früher Zwerg", code=LETTUCE, origin=Origin.BOUGHT, packed_year=2021,
                source="Moorhen Seeds", unit=Unit.GRAMS, amount=2.5, store_id=jar.id,
                received_on=date(2021, 2, 1), treatment=Treatment.DRESSED,
            ),
            PacketDraft(
                "tomato", "[red]x[/]", code=TOMATO, origin=Origin.SWAPPED, harvest_year=2019,
                note="[@click=app.quit]press[/]", store_id=drawer.id,
                received_on=date(2019, 10, 1),
            ),
            PacketDraft(
                "pea_garden", "白玉", code=PEA, harvest_year=2025, unit=Unit.SEEDS, amount=200,
                store_id=drawer.id, received_on=date(2025, 9, 1),
            ),
            PacketDraft(
                "leek", "Long Acre", code=EMPTY, harvest_year=2020, unit=Unit.SEEDS, amount=10,
                store_id=drawer.id, received_on=date(2020, 9, 1),
            ),
        ]  # fmt: skip
        add_packets(tin, drafts, today=TODAY)
        record_test(tin, tin.packet(PEA), date(2026, 2, 1), 20, 17, today=TODAY)
        take(tin, tin.packet(EMPTY), 10, MovementKind.SOWN, today=TODAY, on=date(2026, 3, 1))
    return path


@pytest.fixture
def tested(tin_path: Path) -> dict[str, str]:
    """Two running tests in that tin: of the bean (first count 3 days late) and of the pea (the
    first count is tomorrow); and the finished one. Their codes by crop."""
    when = datetime(2026, 11, 20, 8, 0, tzinfo=UTC)
    bean = TestPlan(20, 2, temperature_c=25, first_count_day=5, final_count_day=9)
    pea = TestPlan(10, temperature_c=20, first_count_day=5, final_count_day=8)
    with Tin.open(tin_path, now=lambda: when, rng=random.Random(5)) as tin:
        finished = tin.tests()[0].code
        first = start_test(tin, tin.packet(BEAN), bean, today=TODAY, on=date(2026, 11, 16))
        second = start_test(tin, tin.packet(PEA), pea, today=TODAY, on=date(2026, 11, 20))
    return {"bean": first.code, "pea": second.code, "finished": finished}


@pytest.fixture
def codes() -> dict[str, str]:
    return {"bean": BEAN, "lettuce": LETTUCE, "tomato": TOMATO, "pea": PEA, "leek": EMPTY}
