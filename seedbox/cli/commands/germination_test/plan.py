"""`test plan`: which packets are worth a test before the coming season, and how many seeds."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.germination_words import title
from seedbox.cli.output import say, say_json
from seedbox.cli.session import Session
from seedbox.cli.tables import wrapped
from seedbox.cli.words import count
from seedbox.tin.records import Unit

if TYPE_CHECKING:
    from seedbox.season.testing.plan import PlannedTest, TestingPlan


@seedbox_command("plan", short_help="Say which packets are worth a test, and how many seeds.")
@click.option("--all", "with_rest", is_flag=True, help="Also doubtful packets not worth a test.")
@json_option
@click.pass_obj
def command(session: Session, with_rest: bool, as_json: bool) -> None:
    """Say which packets are worth a test before sowing, most worthwhile first, with how many seeds.

    Weighed are plants that would come up short and seed that would be wasted, against the seed and
    the work of the test. A packet with too little seed to spare any is left out.
    """
    from seedbox.season.testing.plan import testing_plan

    with session.tin() as tin:
        plan = testing_plan(tin, session.today)
    if as_json:
        said = (*plan.tests, *(plan.not_worth if with_rest else ()))
        say_json([_facts(each) for each in said])
    else:
        say(*_page(plan, with_rest))


def _page(plan: TestingPlan, with_rest: bool) -> Iterator[str]:
    if plan.tests:
        total = count(plan.seeds, "seed")
        yield f"{count(len(plan.tests), 'packet')} worth testing, with {total} in all:"
        yield ""
        for place, each in enumerate(plan.tests, 1):
            yield from _entry(each, f"{place}. ")
    else:
        yield "No packet is worth a test: what is known of each is enough, or there is too little."
    yield from _rest(plan, with_rest)
    yield ""
    for note in plan.notes:
        yield from wrapped(note)
    if plan.tests:
        yield f"Start with: seedbox test start {plan.tests[0].line.packet.code}"


def _rest(plan: TestingPlan, with_rest: bool) -> Iterator[str]:
    """Packets whose advice is to test, but for which a test costs more than it saves."""
    if not plan.not_worth:
        return
    yield ""
    left_out = count(len(plan.not_worth), "doubtful packet")
    are = "is" if len(plan.not_worth) == 1 else "are"
    yield f"{left_out} {are} not worth a test{':' if with_rest else '; --all shows why.'}"
    for each in plan.not_worth if with_rest else ():
        yield from _entry(each, "- ")


def _entry(each: PlannedTest, mark: str) -> Iterator[str]:
    """What to lay of what there is, and below it why."""
    line = each.line
    lay = f": lay {_of_what_is_left(each)}." if each.seeds else f" ({line.left})."
    under = " " * len(mark)
    yield from wrapped(f"{title(line.packet, line.crop)}{lay}", mark, under)
    yield from wrapped(each.why, under, under)


def _of_what_is_left(each: PlannedTest) -> str:
    left, unit = each.line.dossier.left, each.line.packet.unit
    if left is None:
        return f"{count(each.seeds, 'seed')}; what is left was not counted"
    if unit is Unit.GRAMS:
        return f"{count(each.seeds, 'seed')} of {each.line.left}"
    return f"{each.seeds} of {each.line.left}"


def _facts(each: PlannedTest) -> dict[str, Any]:
    line, forecast = each.line, each.line.forecast
    return {
        "packet": line.packet.code,
        "crop": line.crop,
        "variety": line.packet.variety,
        "seeds": each.seeds,
        "plants": each.plants,
        "net": each.net,
        "why": each.why,
        "left": line.dossier.left,
        "unit": line.packet.unit,
        "germination": {"mean": forecast.mean, "low": forecast.low, "high": forecast.high}
        if forecast
        else None,
        "advice": line.advice or None,
    }
