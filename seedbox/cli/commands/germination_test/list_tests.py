"""`test list`: running tests with what is next, then the finished ones."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.germination_words import share, verdict
from seedbox.cli.output import say, say_json
from seedbox.cli.params import Choice
from seedbox.cli.session import Session
from seedbox.cli.tables import Column, cells, room, table
from seedbox.tin.codes import shown
from seedbox.tin.records import TestState

if TYPE_CHECKING:
    from datetime import date

    from seedbox.season.testing.account import Account

_STATE = Choice("state", tuple(state.value for state in TestState))
_WHAT = (
    Column("test"),
    Column("packet"),
    Column("crop", least=8),
    Column("variety", least=8),
)
_RUNNING = (*_WHAT, Column("normal", right=True), Column("of", right=True),
            Column("so far"), Column("decided"), Column("next", least=10))  # fmt: skip
_FINISHED = (*_WHAT, Column("on"), Column("normal", right=True), Column("of", right=True),
             Column("hard", right=True), Column("germination"), Column("by", least=8))  # fmt: skip

_LESS = frozenset(("packet", "so far"))  # told by `test show` where there is no room


@seedbox_command("list", short_help="List the tests of all packets, or of one.")
@click.argument("code", nargs=-1, metavar="[CODE]", shell_complete=completing.codes)
@click.option("--state", type=_STATE, help="Only running, finished or dropped ones.")
@json_option
@click.pass_obj
def command(session: Session, code: tuple[str, ...], state: str | None, as_json: bool) -> None:
    """List the tests, all of them or those of the packet CODE: running ones, then the others.

    Dropped tests are listed with --state dropped. Germination is of the seeds laid, with its
    interval by the settings test_interval and test_confidence.
    """
    from seedbox.season.listing import Listing
    from seedbox.season.testing.account import accounts

    with session.tin() as tin:
        one = tin.packet(" ".join(code)).id if code else None
        wanted = TestState(state) if state else None
        found = [
            each
            for each in accounts(tin, session.today, Listing(tin, session.today), state=wanted)
            if (one is None or each.packet.id == one)
            and (state or each.test.state is not TestState.DROPPED)
        ]
    found.sort(key=_running_first)
    if as_json:
        from seedbox.cli.germination_facts import facts

        say_json([facts(each) for each in found])
    elif not found:
        say(_none(state, bool(code)))
    else:
        say(*_tables(found, session.today))


def _running_first(found: Account) -> tuple[bool, date, str]:
    running = found.test.state is TestState.RUNNING
    due = found.progress.next_count
    return (not running, due.on if running and due else found.test.on, found.test.code)


def _none(state: str | None, one: bool) -> str:
    which = f"No {state} test" if state else "No test"
    return (
        f"{which} {'of this packet ' if one else ''}is on record. "
        "Start one with: seedbox test start CODE. Which are worth it: seedbox test plan"
    )


def _tables(found: Sequence[Account], today: date) -> Iterator[str]:
    """A table for each state that there is, with a heading when there are several."""
    parts = [(state, [each for each in found if each.test.state is state]) for state in TestState]
    parts = [(state, some) for state, some in parts if some]
    for place, (state, some) in enumerate(parts):
        if place:
            yield ""
        if len(parts) > 1:
            yield state.value.capitalize()
        if state is TestState.RUNNING:
            yield from _fitted(_RUNNING, [_running(each, today) for each in some], _LESS)
        else:
            yield from _fitted(_FINISHED, [_finished(each) for each in some], _LESS)


def _fitted(
    columns: tuple[Column, ...], rows: list[tuple[str, ...]], less: frozenset[str]
) -> list[str]:
    """The table; in a narrow terminal without the columns that `less` names."""
    width = room()
    wide = table(columns, rows)
    if width is None or max(map(cells, wide)) <= width:
        return wide
    kept = [at for at, column in enumerate(columns) if column.heading not in less]
    narrow = [tuple(row[at] for at in kept) for row in rows]
    return table([columns[at] for at in kept], narrow, width)


def _what(found: Account) -> tuple[str, ...]:
    packet = found.packet
    return (shown(found.test.code), shown(packet.code), found.line.crop, packet.variety)


def _running(found: Account, today: date) -> tuple[str, ...]:
    progress = found.progress
    due = progress.next_count
    return (
        *_what(found),
        str(progress.total.normal),
        str(found.test.seeds),
        share(progress),
        verdict(progress) or "not yet",
        due.words(today) if due else "finish it",
    )


def _finished(found: Account) -> tuple[str, ...]:
    total = found.progress.total
    return (
        *_what(found),
        found.test.on.isoformat(),
        str(total.normal),
        str(found.test.seeds),
        str(total.hard) if total.hard else "",
        share(found.progress),
        found.test.reported_by,
    )
