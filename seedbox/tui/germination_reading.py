"""Reads germination tests for the screens: one for its page, or all for their lists."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from seedbox.errors import SeedboxError
from seedbox.season.listing import Listing
from seedbox.season.testing.account import Account, account, accounts
from seedbox.season.testing.current import believed_before
from seedbox.season.testing.progress import progress
from seedbox.season.testing.protocol import Protocol, Wishes
from seedbox.season.testing.results import TestResult, result
from seedbox.season.testing.schedule import started
from seedbox.season.testing.starting import protocol_of
from seedbox.tin.file import Tin
from seedbox.tin.records import GerminationTest, Packet, Substrate, TestState


@dataclass(frozen=True, slots=True)
class Reading:
    """A test with what stays the same while it is counted: its packet, and what was believed."""

    listing: Listing
    account: Account
    masses: Sequence[float] | None
    protocol: Protocol | None
    result: TestResult | None


def read_test(tin: Tin, code: str, today: date) -> Reading:
    """One test by its code."""
    listing = Listing(tin, today)
    found = account(tin, code, today, listing)
    running = found.test.state is TestState.RUNNING
    return Reading(
        listing,
        found,
        believed_before(listing, found.test) if running else None,
        _protocol(tin, found.packet, found.test) if running else None,
        result(tin, code, today) if found.test.state is TestState.FINISHED else None,
    )


def counted_again(tin: Tin, reading: Reading, today: date) -> Account:
    """The test with its counts as they are now; nothing else is read."""
    test = tin.test(reading.account.test.code)
    counts = tin.test_counts(test.id)
    stands = progress(test, counts, reading.listing.settings, today, reading.masses)
    return Account(reading.account.line, tuple(counts), stands)


def _protocol(tin: Tin, packet: Packet, test: GerminationTest) -> Protocol | None:
    substrate = test.substrate or Substrate.PAPER
    wishes = Wishes(test.seeds, test.replicates, substrate, test.temperature_c, test.night_c)
    try:
        return protocol_of(tin, packet, wishes, started(test))
    except SeedboxError:  # such as a packet that has become planting stock since
        return None


@dataclass(frozen=True, slots=True)
class AllTests:
    """Running tests by what is due, and finished ones, the latest first."""

    listing: Listing
    running: tuple[Account, ...]
    finished: tuple[Account, ...]


def read_all(tin: Tin, today: date) -> AllTests:
    """Every test that runs or is finished."""
    listing = Listing(tin, today)
    running = accounts(tin, today, listing, state=TestState.RUNNING)
    finished = accounts(tin, today, listing, state=TestState.FINISHED)
    return AllTests(listing, tuple(sorted(running, key=_by_due)), tuple(reversed(finished)))


def _by_due(found: Account) -> tuple[int, date, str]:
    """What is late first, then by the day of the next count; what only waits to be finished is
    due since its last one."""
    due = found.progress.next_count
    late = due.late if due else max(found.progress.day - (found.test.final_count_day or 0), 0)
    return (-late, due.on if due else found.progress.on, found.test.code)
