"""Counts that are due on a day, late ones first."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from seedbox.season.crops import CropBook
from seedbox.season.testing.decision import decision
from seedbox.season.testing.schedule import NextCount, count_days, next_count, started
from seedbox.season.testing.tally import whole
from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tin.preferences import Settings
from seedbox.tin.records import GerminationTest, Packet, TestCount, TestState


@dataclass(frozen=True, slots=True)
class DueCount:
    """A running test with the count that is due, or None when it only waits to be finished.

    `decided` is `good` or `poor` where the seeds still lying there cannot change it, else empty.
    """

    test: GerminationTest
    packet: Packet
    crop: str
    count: NextCount | None
    day: int
    sentence: str
    decided: str

    @property
    def late(self) -> int:
        """Days since the count, or the finish, was due."""
        if self.count is not None:
            return self.count.late
        return max(self.day - count_days(self.test)[1], 0)


def due_counts(tin: Tin, today: date, *, within_days: int = 0) -> tuple[DueCount, ...]:
    """Counts due by today, or within so many days more: the latest first, then by day."""
    running = running_tests(tin, today)
    return tuple(each for each in running if _falls_due(each, today, within_days))


def running_tests(tin: Tin, today: date) -> tuple[DueCount, ...]:
    """All running tests with their next count: the latest first, then by day, then by code."""
    tests = tin.tests(state=TestState.RUNNING)
    if not tests:
        return ()
    counts = dict[int, list[TestCount]]()
    for count in tin.test_counts():
        counts.setdefault(count.test_id, []).append(count)
    packets = {packet.id: packet for packet in tin.packets()}
    settings = tin.settings()
    book = CropBook(settings, tin.own_crops())
    found = [
        _due(test, packets[test.packet_id], book, settings, counts.get(test.id, []), today=today)
        for test in tests
    ]
    return tuple(sorted(found, key=_order))


def _order(due: DueCount) -> tuple[int, date, str]:
    return (-due.late, due.count.on if due.count else due.test.on, due.test.code)


def _due(
    test: GerminationTest,
    packet: Packet,
    book: CropBook,
    settings: Settings,
    counts: list[TestCount],
    *,
    today: date,
) -> DueCount:
    name = book.name(packet.crop_id)
    count = next_count(test, counts, today)
    what = f"{name} {packet.variety}".strip()
    words = count.words(today) if count else "all counts made, finish it"
    decided = _decided(test, settings, [made for made in counts if made.on <= today])
    if count and decided:
        words += f", or finish it: already decided, {decided}"
    sentence = f"{shown(test.code)} {what}: {words}."
    return DueCount(test, packet, name, count, (today - started(test)).days, sentence, decided)


def _decided(test: GerminationTest, settings: Settings, counts: list[TestCount]) -> str:
    """`good` or `poor` where no seed still lying there can change it: no belief is asked here."""
    if not counts:
        return ""
    total = whole(test, counts)
    found = decision(settings, test.seeds, total.normal, total.unclassed)
    return found.verdict if found.may_stop else ""


def _falls_due(due: DueCount, today: date, within_days: int) -> bool:
    return due.count is None or (due.count.on - today).days <= within_days
