"""`test count`: what was found in a running test, and whether it may stop."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.germination_options import test_argument
from seedbox.cli.output import changed, say
from seedbox.cli.params import DAY, Whole, Wholes
from seedbox.cli.session import Session
from seedbox.cli.tables import wrapped
from seedbox.cli.words import day_of_month, joined
from seedbox.errors import BadDataError, UsageError
from seedbox.tin.records import GerminationTest, TestCount, TestState

if TYPE_CHECKING:
    from seedbox.tin.file import Tin

_CATEGORIES = ("normal", "abnormal", "hard", "fresh", "dead")
_NUMBER = Wholes("number[,number…]", 0)
Found = dict[str, tuple[int, ...]]  # numbers of each category, one a replicate


class _Place(NamedTuple):
    """Which count is meant: of which test, day and replicate."""

    test: GerminationTest
    on: date
    replicate: int

    @property
    def words(self) -> str:
        which = f", replicate {self.replicate}" if self.test.replicates > 1 else ""
        return f"{self.day}{which}"

    @property
    def day(self) -> str:
        from seedbox.tin.codes import shown

        since = (self.on - (self.test.started_on or self.test.on)).days
        return f"{shown(self.test.code)} on {day_of_month(self.on)} (day {since})"


@seedbox_command("count", short_help="Write down a count of a running test.")
@test_argument
@click.option("--day", type=Whole("number", 0), help="Days after it was laid, if not today.")
@click.option("--on", type=DAY, help="Or the date of the count.")
@click.option("--normal", type=_NUMBER, help="New seedlings with a sound root and shoot.")
@click.option("--abnormal", type=_NUMBER, help="New seedlings that will make no plant.")
@click.option("--hard", type=_NUMBER, help="Seeds that took up no water (last count).")
@click.option("--fresh", type=_NUMBER, help="Seeds still firm and asleep (last count).")
@click.option("--dead", type=_NUMBER, help="Seeds soft, mouldy or empty.")
@click.option("--replicate", type=Whole("number", 1), help="Which replicate, 1 is the first.")
@click.option("--add", is_flag=True, help="On top of an earlier count of the same day.")
@click.option("--remove", is_flag=True, help="Strike the count of that day out.")
@json_option
@click.pass_obj
def command(session: Session, /, test: str, as_json: bool, **given: Any) -> None:
    """Write down what is new in the test TEST since the count before.

    Counting the same day again corrects it. Afterwards it says how the test stands: germination so
    far, what may still come, and whether you may stop.

    A test of several replicates is counted one by one with --replicate, or all at once with a
    number for each, in their order and with commas between. All are written down, or none.

    \b
    seedbox test count T18MQ0D8 --day 5 --normal 12
    seedbox test count T18MQ0D8 --normal 3 --hard 1 --dead 4 --replicate 2
    seedbox test count T18MQ0D8 --normal 21,23,20,22 --dead 1,0,2,0
    """
    found: Found = {name: given[name] for name in _CATEGORIES if given[name] is not None}
    _refuse_unclear(found, given)
    with session.tin() as tin:
        counted = tin.test(test)
        _refuse_finished(counted)
        on = _day(counted, session.today, given["day"], given["on"])
        if max(map(len, found.values()), default=1) > 1:
            _refuse_uneven(counted, found, given["replicate"])
            said = _all_counted(tin, counted, on, found, session.today, add=given["add"])
        else:
            place = _Place(counted, on, _replicate(counted, given["replicate"]))
            one = {name: numbers[0] for name, numbers in found.items()}
            if given["remove"]:
                said = _removed(tin, place)
            else:
                said = _counted(tin, place, one, session.today, add=given["add"])
        _report(session, tin, counted.code, said, as_json)


def _refuse_unclear(found: Found, given: dict[str, Any]) -> None:
    if given["day"] is not None and given["on"] is not None:
        raise UsageError("Give --day or --on, not both.")
    if given["remove"] and (found or given["add"]):
        raise UsageError("--remove strikes a count out, so it takes no numbers.")
    if not (found or given["remove"]):
        raise UsageError(
            "Say what you found, such as --normal 5.",
            hint="When nothing is new, --normal 0 says that you looked.",
        )


def _refuse_uneven(test: GerminationTest, found: Found, replicate: int | None) -> None:
    """Numbers for all replicates: as many of each category as there are replicates."""
    if replicate is not None:
        raise UsageError("Give one number with --replicate, or one for each without it.")
    for name, numbers in found.items():
        if len(numbers) != test.replicates:
            there = "1 replicate" if test.replicates == 1 else f"{test.replicates} replicates"
            gives = "1 number" if len(numbers) == 1 else f"{len(numbers)} numbers"
            raise UsageError(
                f"This test has {there}, and --{name} gives {gives}.",
                hint="Give a number for each, with commas between; 0 where there was none.",
            )


def _refuse_finished(test: GerminationTest) -> None:
    if test.state is TestState.FINISHED:
        from seedbox.tin.codes import shown

        raise BadDataError(
            f"{shown(test.code)} is finished, so it is no longer counted.",
            hint=f"To put a count right, let it run again: seedbox test reopen {test.code}",
        )


def _day(test: GerminationTest, today: date, day: int | None, on: date | None) -> date:
    """The date of a count; days beyond the calendar are refused before they are added."""
    if day is None:
        return on or today
    laid = test.started_on or test.on
    since = (today - laid).days
    if day > since:
        raise UsageError(f"Day {day} is still ahead: this test is on day {since}.")
    return laid + timedelta(days=day)


def _replicate(test: GerminationTest, wanted: int | None) -> int:
    if wanted is None and test.replicates > 1:
        raise UsageError(
            f"This test has {test.replicates} replicates: say which with --replicate.",
            hint="Or count all at once, such as --normal"
            f" {','.join(str(5 + n % 3) for n in range(test.replicates))}.",
        )
    return wanted or 1


def _counted(tin: Tin, place: _Place, found: dict[str, int], today: date, *, add: bool) -> str:
    from seedbox.tin.counting import count

    test, on, replicate = place
    before = tin.test_counts(test.id)
    made = count(tin, test.code, on=on, today=today, replicate=replicate, add=add, **found)
    return f"{place.words}, {_what_was(made, before, add=add)}."


def _all_counted(
    tin: Tin, test: GerminationTest, on: date, found: Found, today: date, *, add: bool
) -> str:
    from seedbox.tin.counting import count_replicates

    each = [dict(zip(found, numbers, strict=True)) for numbers in zip(*found.values(), strict=True)]
    before = tin.test_counts(test.id)
    made = count_replicates(tin, test.code, on=on, today=today, found=each, add=add)
    told = (f"replicate {one.replicate} {_what_was(one, before, add=add)}" for one in made)
    return f"{_Place(test, on, 1).day}: {'; '.join(told)}."


def _what_was(made: TestCount, before: Sequence[TestCount], *, add: bool) -> str:
    """What a count says now, and whether it took the place of one, or came on top."""
    from seedbox.cli.germination_words import found_words

    again = any((each.on, each.replicate) == (made.on, made.replicate) for each in before)
    verb = "together now" if again and add else "corrected to" if again else "counted"
    return f"{verb}: {joined(found_words(made)) or 'nothing new'}"


def _removed(tin: Tin, place: _Place) -> str:
    from seedbox.tin.counting import remove_count

    remove_count(tin, place.test.code, on=place.on, replicate=place.replicate)
    return f"{place.words}: this count is struck out."


def _report(session: Session, tin: Tin, code: str, said: str, as_json: bool) -> None:
    from seedbox.cli.germination_facts import facts
    from seedbox.cli.germination_page import standing
    from seedbox.season.testing.account import account

    found = account(tin, code, session.today)
    if as_json:
        changed(said, as_json=True, **facts(found))
        return
    say(*wrapped(said), *standing(found.progress))
    if found.progress.decision.may_stop or found.progress.next_count is None:
        say(f"Finish it with: seedbox test finish {code}")
    say("Undo with: seedbox undo")
