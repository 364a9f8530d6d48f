"""The form for a plan: how many plants of a crop the household wants, how often to sow again."""

from __future__ import annotations

from seedbox.season.crops import CropBook
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Plan
from seedbox.tin.plans import check_plan, remove_plan, set_plan, tidied
from seedbox.tui.crop_field import CropNames, crop_meant
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values


def wanted_plan(desk: Desk, plan: Plan | None) -> FormPlan:
    """A form for what is wanted of a crop."""
    tin = desk.tin(create=True)
    book = CropBook(tin.settings(), tin.own_crops())

    def save(values: Values) -> str:
        wanted = _plan_from(values, plan, book, desk)
        desk.change(lambda tin: _set(tin, plan, wanted))
        what = f"{book.name(wanted.crop_id)} {wanted.variety}".strip()
        return f"Planned: {wanted.plants} of {what}. u takes it back."

    return FormPlan(
        title="Plan a crop" if plan is None else f"Change the plan of {book.name(plan.crop_id)}",
        fields=[
            Field("crop", "Crop", "Any common name, British or American.", suggest=CropNames(book)),
            Field("plants", "Plants", "From each sowing."),
            Field("again_days", "Sow again", "After how many days; empty: sown once a season."),
            Field("variety", "Variety", "Empty: any of the crop will do."),
            Field("year", "Year", "In which the season begins; empty: every year."),
            Field("note", "Note", "Anything worth remembering."),
        ],
        save=save,
        initial=_values(plan, book) if plan else {},
        draft_key="plan" if plan is None else f"plan {plan.id}",
        advice="What can be sown now comes first where a plan still needs it.",
    )


def _values(plan: Plan, book: CropBook) -> Values:
    return {
        "crop": book.name(plan.crop_id),
        "plants": str(plan.plants),
        "again_days": str(plan.again_days or ""),
        "variety": plan.variety,
        "year": str(plan.year or ""),
        "note": plan.note,
    }


def _plan_from(values: Values, before: Plan | None, book: CropBook, desk: Desk) -> Plan:
    reader = FieldReader(values, desk.today)
    plan = tidied(
        Plan(
            before.id if before else 0,
            crop_meant(reader, before.crop_id if before else "", book),
            reader.count("plants", needed=True),
            reader.text("variety"),
            reader.count("year") or None,
            reader.count("again_days") or None,
            reader.text("note"),
        )
    )
    for problem in check_plan(plan):
        reader.fault(problem.field, problem.sentence)
    reader.finish()
    return plan


def _set(tin: Tin, before: Plan | None, wanted: Plan) -> None:
    """One change, also when crop, variety or year of a plan become others."""
    what = f"Plan {wanted.plants} of {wanted.crop_id} {wanted.variety}".strip()
    with tin.change(what):
        if before is not None:
            remove_plan(tin, before.id)
        set_plan(
            tin, wanted.crop_id, wanted.plants, variety=wanted.variety, year=wanted.year,
            again_days=wanted.again_days, note=wanted.note,
        )  # fmt: skip
