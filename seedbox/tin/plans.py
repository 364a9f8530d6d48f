"""Plans: how many plants of each crop the household wants, and how often to sow again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, replace
from typing import Any

from seedbox.errors import BadDataError, NotFoundError
from seedbox.problems import Problem
from seedbox.tin.drafts import FIRST_YEAR, LONGEST_LINE, LONGEST_NOTE
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Plan
from seedbox.tin.text import clean_line, clean_note

MOST_PLANTS = 100_000
MOST_DAYS = 366
LAST_YEAR = 9999


def set_plan(
    tin: Tin,
    crop_id: str,
    plants: int,
    *,
    variety: str = "",
    year: int | None = None,
    again_days: int | None = None,
    note: str = "",
) -> Plan:
    """Writes down what is wanted. A plan of the same crop, variety and year is changed."""
    plan = tidied(Plan(0, crop_id, plants, variety, year, again_days, note))
    problems = check_plan(plan)
    if problems:
        raise BadDataError(" ".join(problem.sentence for problem in problems))
    before = next((one for one in tin.plans() if _key(one) == _key(plan)), None)
    with tin.change(f"Plan {plants} of {_subject(plan)}") as change:
        if before is None:
            return replace(plan, id=change.insert("plan", plan_columns(plan)))
        change.update("plan", before.id, plan_columns(plan))
    return replace(plan, id=before.id)


def remove_plan(tin: Tin, plan_id: int) -> None:
    """Strikes a plan out."""
    found = next((one for one in tin.plans() if one.id == plan_id), None)
    if found is None:
        raise NotFoundError(f"There is no plan number {plan_id} in the tin.")
    with tin.change(f"Remove the plan of {_subject(found)}") as change:
        change.delete("plan", plan_id)


def tidied(plan: Plan) -> Plan:
    """The plan without control characters and stray spaces."""
    return replace(
        plan,
        crop_id=clean_line(plan.crop_id),
        variety=clean_line(plan.variety),
        note=clean_note(plan.note),
    )


def check_plan(plan: Plan) -> list[Problem]:
    """Everything wrong with a plan by itself, each with its field; empty when it is sound."""
    return [Problem(sentence, field=field) for field, sentence in _faults(plan)]


def _faults(plan: Plan) -> Iterator[tuple[str, str]]:
    if not plan.crop_id:
        yield "crop", "A plan needs a crop."
    if not 1 <= plan.plants <= MOST_PLANTS:
        yield "plants", f"Plan 1 to {MOST_PLANTS:,} plants, not {plan.plants}."
    if plan.again_days is not None and not 1 <= plan.again_days <= MOST_DAYS:
        yield "again_days", f"Sow again after 1 to {MOST_DAYS} days, not {plan.again_days}."
    if plan.year is not None and not FIRST_YEAR <= plan.year <= LAST_YEAR:
        yield "year", f"The year {plan.year} is not between {FIRST_YEAR} and {LAST_YEAR}."
    if max(len(plan.crop_id), len(plan.variety)) > LONGEST_LINE:
        yield "variety", f"A name has {LONGEST_LINE} characters at most."
    if len(plan.note) > LONGEST_NOTE:
        yield "note", f"The note has {len(plan.note)} characters; {LONGEST_NOTE} are the most."


def _key(plan: Plan) -> tuple[str, str, int | None]:
    return plan.crop_id, plan.variety.casefold(), plan.year


def _subject(plan: Plan) -> str:
    year = f" for {plan.year}" if plan.year else ""
    return f"{plan.crop_id} {plan.variety}".strip() + year


def plan_columns(plan: Plan) -> dict[str, Any]:
    """A plan as it lies in the table."""
    columns = asdict(plan)
    del columns["id"]
    return columns
