"""A test with all that belongs to it is the same test however it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

import pytest

from seedbox.season.listing import Listing
from seedbox.season.testing.account import account, accounts
from seedbox.season.testing.current import progress_of
from seedbox.season.testing.starting import Wishes, start
from seedbox.tin.file import Tin
from seedbox.tin.records import Packet, TestState
from seedbox.tin.testing import finish_test

CountAll = Callable[[str, Sequence[tuple[int, int]]], None]


@pytest.fixture
def running(tin: Tin, doubtful: Packet, today: date, start_day: date, count_all: CountAll) -> str:
    """A test of 30 seeds of a doubtful packet, counted once."""
    code = start(tin, doubtful.code, Wishes(30), today=today, on=start_day).test.code
    count_all(code, [(8, 6)])
    return code


def test_an_account_rests_on_what_was_believed_of_the_packet(
    tin: Tin, running: str, doubtful: Packet, today: date
) -> None:
    found = account(tin, running, today)
    assert found.progress == progress_of(tin, running, today)
    assert (found.packet.code, found.name) == (doubtful.code, "carrot, Slate Hill")
    assert [each.normal for each in found.counts] == [6]
    assert found.indices is None


def test_the_list_holds_the_same_accounts(
    tin: Tin, running: str, doubtful: Packet, today: date, start_day: date, count_all: CountAll
) -> None:
    done = start(tin, doubtful.code, Wishes(20), today=today, on=start_day).test.code
    count_all(done, [(6, 3), (10, 9)])
    finish_test(tin, done, today=today)
    listing = Listing(tin, today)
    assert {each.test.code for each in accounts(tin, today, listing)} == {running, done}
    (only,) = accounts(tin, today, listing, state=TestState.RUNNING)
    assert only == account(tin, running, today)
    (ended,) = accounts(tin, today, listing, state=TestState.FINISHED)
    assert ended.indices is not None
    assert ended.indices.mean_time == pytest.approx((3 * 6 + 9 * 10) / 12)  # by its definition
