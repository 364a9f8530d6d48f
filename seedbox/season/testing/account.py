"""A test with all that belongs to it, ready to be listed, shown or printed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from seedbox.science.germination_indices import GerminationIndices, germination_indices
from seedbox.season.listing import Listing, PacketLine
from seedbox.season.testing.current import believed_before
from seedbox.season.testing.progress import Progress, progress
from seedbox.tin.file import Tin
from seedbox.tin.records import GerminationTest, Packet, TestCount, TestState


@dataclass(frozen=True, slots=True)
class Account:
    """A test, the packet it was taken from (without a forecast), its counts, and how it stands."""

    line: PacketLine
    counts: tuple[TestCount, ...]
    progress: Progress

    @property
    def test(self) -> GerminationTest:
        return self.progress.test

    @property
    def packet(self) -> Packet:
        return self.line.packet

    @property
    def indices(self) -> GerminationIndices | None:
        """How fast and how evenly it came; None without seedlings or with fewer than two counts."""
        counts = self.progress.counts
        if len(counts) < 2 or not self.progress.total.normal:
            return None
        return germination_indices(counts, self.test.seeds)

    @property
    def name(self) -> str:
        """`leek, Long Hill`: the crop, and the variety where it has one."""
        return ", ".join(filter(None, (self.line.crop, self.packet.variety)))


def account(tin: Tin, code: str, today: date, listing: Listing | None = None) -> Account:
    """One test by its code, however it is spelt. A listing that is there saves reading the tin."""
    test = tin.test(code)
    listing = listing or Listing(tin, today)
    return _account(listing, _lines(listing)[test.packet_id], test, tin.test_counts(test.id))


def accounts(
    tin: Tin, today: date, listing: Listing, *, state: TestState | None = None
) -> tuple[Account, ...]:
    """All tests of one state, or of any, in order of date: what runs stands at its start."""
    lines, counts = _lines(listing), dict[int, list[TestCount]]()
    for count in tin.test_counts():
        counts.setdefault(count.test_id, []).append(count)
    tests = sorted(tin.tests(state=state), key=lambda test: (test.on, test.id))
    return tuple(
        _account(listing, lines[test.packet_id], test, counts.get(test.id, [])) for test in tests
    )


def _lines(listing: Listing) -> dict[int, PacketLine]:
    return {line.packet.id: line for line in listing.lines}


def _account(
    listing: Listing, line: PacketLine, test: GerminationTest, counts: list[TestCount]
) -> Account:
    """What was believed of the packet before matters only while more may come."""
    running = test.state is TestState.RUNNING
    masses = believed_before(listing, test) if running else None
    stands = progress(test, counts, listing.settings, listing.today, masses)
    return Account(line, tuple(counts), stands)
