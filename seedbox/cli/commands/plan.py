"""`plan`: how many plants of each crop the household wants, and how often to sow again."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.command import group, json_option
from seedbox.cli.garden_lookup import plan_of
from seedbox.cli.lookup import crop_and_variety, crop_book
from seedbox.cli.output import changed, say, say_json
from seedbox.cli.params import WORDS, YEAR, Whole
from seedbox.cli.session import Session
from seedbox.cli.tables import Column, room, table
from seedbox.cli.words import count, day_of_month
from seedbox.errors import NotFoundError, UsageError
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Plan

if TYPE_CHECKING:
    from seedbox.season.crops import CropBook
    from seedbox.season.sowing.needs import Need

_PLANTS = Whole("plants", 1, 100_000)
_AGAIN = Whole("days", 1, 366)
_COLUMNS = (
    Column("crop", least=8),
    Column("variety", least=8),
    Column("plants", right=True),
    Column("sow again"),
    Column("year"),
    Column("this season", least=16),
    Column("note", least=8),
)


def _crop_argument(function: Callable[..., Any]) -> Callable[..., Any]:
    return click.argument(
        "what",
        nargs=-1,
        required=True,
        metavar="CROP [VARIETY]",
        shell_complete=completing.crops,
    )(function)


@group("plan")
def command() -> None:
    """What the household wants to grow: plants of each crop, and how often to sow it again."""


@command.command("add", short_help="Plan so many plants of a crop or variety.")
@_crop_argument
@click.option("--plants", type=_PLANTS, required=True, help="Plants wanted from each sowing.")
@click.option("--again", type=_AGAIN, help="Sow again after so many days.")
@click.option("--year", type=YEAR, help="Only for the season that begins in this year.")
@click.option("--note", type=WORDS, default="", help="Anything worth knowing.")
@json_option
@click.pass_obj
def add(session: Session, /, what: tuple[str, ...], as_json: bool, **given: Any) -> None:
    """Plan so many plants of a CROP; without a VARIETY any packet of the crop will do.

    \b
    seedbox plan add lettuce --plants 12 --again 14
    seedbox plan add tomato "Weir Lamp" --plants 24
    """
    from seedbox.tin.plans import set_plan

    with session.tin(create=True) as tin:
        book = crop_book(tin)
        crop_id, variety = crop_and_variety(book, what)
        if plan_of(tin, crop_id, variety, given["year"]):
            raise UsageError(
                f"{_named(book, crop_id, variety)} is planned already.",
                hint="Change it with: seedbox plan edit",
            )
        plan = set_plan(
            tin,
            crop_id,
            given["plants"],
            variety=variety,
            year=given["year"],
            again_days=given["again"],
            note=given["note"],
        )
    changed(f"Planned: {_sentence(book, plan)}.", as_json=as_json, plan=_facts(book, plan))


@command.command("edit")
@_crop_argument
@click.option("--plants", type=_PLANTS, help="Plants wanted from each sowing.")
@click.option("--again", type=Whole("days", 0, 366), help="Sow again after so many days; 0: never.")
@click.option("--year", type=YEAR, help="The plan for this year, where it names one.")
@click.option("--note", type=WORDS, help="Anything worth knowing.")
@json_option
@click.pass_obj
def edit(session: Session, /, what: tuple[str, ...], as_json: bool, **given: Any) -> None:
    """Change the plan of a CROP and VARIETY."""
    from seedbox.tin.plans import set_plan

    if all(given[name] is None for name in ("plants", "again", "note")):
        raise UsageError("Say what to change: --plants, --again or --note.")
    with session.tin() as tin:
        book = crop_book(tin)
        old = _found(tin, book, what, given["year"])
        again = old.again_days if given["again"] is None else given["again"] or None
        plan = set_plan(
            tin,
            old.crop_id,
            given["plants"] or old.plants,
            variety=old.variety,
            year=old.year,
            again_days=again,
            note=old.note if given["note"] is None else given["note"],
        )
    changed(f"Planned now: {_sentence(book, plan)}.", as_json=as_json, plan=_facts(book, plan))


@command.command("remove")
@_crop_argument
@click.option("--year", type=YEAR, help="The plan for this year, where it names one.")
@json_option
@click.pass_obj
def remove(session: Session, what: tuple[str, ...], year: int | None, as_json: bool) -> None:
    """Strike out the plan of a CROP and VARIETY."""
    from seedbox.tin.plans import remove_plan

    with session.tin() as tin:
        book = crop_book(tin)
        plan = _found(tin, book, what, year)
        remove_plan(tin, plan.id)
    changed(f"No longer planned: {_sentence(book, plan)}.", as_json=as_json)


@command.command("list", short_help="List the plans and what each still needs.")
@json_option
@click.pass_obj
def list_plans(session: Session, as_json: bool) -> None:
    """List the plans, and what each of them still needs this season."""
    with session.tin() as tin:
        book, plans = crop_book(tin), tin.plans()
        needs = _needs(tin, session.today) if plans else {}
    if as_json:
        say_json([_facts(book, plan, needs.get(plan.id)) for plan in plans])
    elif not plans:
        say("Nothing is planned yet. Plan with: seedbox plan add CROP --plants 12")
    else:
        rows = [_row(book, plan, needs.get(plan.id)) for plan in plans]
        say(*table(_COLUMNS, sorted(rows, key=_by_name), room()))


def _needs(tin: Tin, today: date) -> dict[int, Need]:
    from seedbox.season.sowing.desk import Desk

    return {need.plan.id: need for need in Desk(tin, today).needs}


def _by_name(row: Sequence[str]) -> tuple[str, str]:
    return row[0].casefold(), row[1].casefold()


def _row(book: CropBook, plan: Plan, need: Need | None) -> tuple[str, ...]:
    return (
        book.name(plan.crop_id),
        plan.variety,
        str(plan.plants),
        f"every {plan.again_days} days" if plan.again_days else "",
        str(plan.year or ""),
        _state(need),
        plan.note,
    )


def _state(need: Need | None) -> str:
    """How far the plan has come this season."""
    if need is None:
        return ""
    if need.due_since is not None:
        return f"sow again, due since {day_of_month(need.due_since)}"
    if need.met:
        again = f", sow again from {day_of_month(need.next_on)}" if need.next_on else ""
        return f"met{again}"
    return f"{need.have} on the way" if need.have else "none sown yet"


def _found(tin: Tin, book: CropBook, what: Sequence[str], year: int | None) -> Plan:
    crop_id, variety = crop_and_variety(book, what)
    plan = plan_of(tin, crop_id, variety, year)
    if plan is None:
        of_crop = [one for one in tin.plans() if one.crop_id == crop_id]
        names = ", ".join(_sentence(book, one) for one in of_crop)
        raise NotFoundError(
            f"There is no plan of {_named(book, crop_id, variety)}"
            f"{f' for {year}' if year else ''}.",
            hint=f"Planned are: {names}." if names else "See: seedbox plan list",
        )
    return plan


def _named(book: CropBook, crop_id: str, variety: str) -> str:
    return f"{book.name(crop_id)} {variety}".strip()


def _sentence(book: CropBook, plan: Plan) -> str:
    again = f", sown again every {plan.again_days} days" if plan.again_days else ""
    year = f" in {plan.year}" if plan.year else ""
    named = _named(book, plan.crop_id, plan.variety)
    return f"{count(plan.plants, 'plant')} of {named}{year}{again}"


def _facts(book: CropBook, plan: Plan, need: Need | None = None) -> dict[str, Any]:
    return {
        "crop": book.name(plan.crop_id),
        "crop_id": plan.crop_id,
        "variety": plan.variety,
        "plants": plan.plants,
        "year": plan.year,
        "again_days": plan.again_days,
        "note": plan.note,
        "have": need.have if need else None,
        "needed": need.plants if need else None,
        "due_since": need.due_since if need else None,
        "next_on": need.next_on if need else None,
    }
