"""Telling what a sowing takes, what it gives, what speaks against it, and what is next."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from seedbox.cli.output import changed, say, say_json
from seedbox.cli.session import Session
from seedbox.cli.sowing_page import as_jobs, next_lines
from seedbox.cli.tables import wrapped
from seedbox.cli.words import amount, count
from seedbox.season.sowing.tray_fields import cells_text
from seedbox.tin.codes import shown
from seedbox.tin.records import Unit

if TYPE_CHECKING:
    from seedbox.printing.content import Printed
    from seedbox.season.sowing.in_progress import Growing
    from seedbox.season.sowing.sow import SowingPlan, Sown
    from seedbox.season.sowing.sowing_jobs import SowingJob
    from seedbox.tin.file import Tin


def check_labels(file: Path | None) -> None:
    """Before anything is sown: labels that cannot be written stop it."""
    if file is not None:
        from seedbox.printing.labels import check_target

        check_target(file)


def report_plan(plan: SowingPlan, as_json: bool) -> None:
    """How it would be sown."""
    if as_json:
        say_json(_plan_facts(plan))
        return
    what = f"{plan.line.crop} {plan.line.packet.variety}".strip()
    say(
        *wrapped(f"{plan.line.code} {what}, {plan.place.name}: {plan.sentence}."),
        *_cautions(plan),
        *([plan.short] if plan.short else []),
        "Nothing was sown: leave out --dry-run to sow it.",
    )


def report_sown(
    session: Session, tin: Tin, done: Sown, given: dict[str, Any], as_json: bool
) -> None:
    """The sowing that was made, its jobs, and its label."""
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.sowing.sowing_jobs import growing_of, jobs_of_one

    desk = Desk(tin, session.today)
    growing = growing_of(desk, done.sowing.code)
    jobs = jobs_of_one(desk, growing)
    if not as_json:
        _say_sown(session, tin, done, growing, jobs, described=desk.garden.climate is not None)
    printed = _labels(tin, growing, given) if given["labels"] else None
    if as_json:
        from seedbox.cli.label_report import facts

        told = {**_facts(session, done, jobs), "labels": facts(printed) if printed else None}
        changed(_sentence(tin, done, growing), as_json=True, **told)
    if printed:
        from seedbox.cli.label_report import refuse_unreadable, report

        refuse_unreadable(printed) if as_json else report(printed, as_json=False)


def _say_sown(
    session: Session,
    tin: Tin,
    done: Sown,
    growing: Growing,
    jobs: tuple[SowingJob, ...],
    *,
    described: bool,
) -> None:
    say(
        *wrapped(_sentence(tin, done, growing)),
        *wrapped(f"{done.plan.sentence}."),
        *_cautions(done.plan),
        "",
        *(next_lines(jobs, session.today, heading="Jobs:") if described else _no_jobs()),
        f"Label: seedbox labels tray.pdf {done.sowing.code}",
        "Undo with: seedbox undo",
    )


def _no_jobs() -> list[str]:
    from seedbox.cli.described import HOW_TO_SET

    return ["Its jobs are reckoned when the garden's frosts and latitude are known:", HOW_TO_SET]


def _labels(tin: Tin, growing: Growing, given: dict[str, Any]) -> Printed:
    from seedbox.cli.tray_labels import print_trays

    return print_trays(tin, [growing], given["labels"], {"copies": given["copies"]})


def _sentence(tin: Tin, done: Sown, growing: Growing) -> str:
    packet, sowing = done.plan.line.packet, done.sowing
    left = tin.dossier(packet.code).left
    rest = "the packet is empty now" if left == 0 else f"{amount(left, packet.unit)} left"
    if left is None:
        rest = "how much is left was never counted"
    grams = "" if done.grams is None else f" ({amount(done.grams, Unit.GRAMS)})"
    seeds = count(sowing.seeds, "seed")
    how = f" in {cells_text(sowing)}" if sowing.cells else ""
    if sowing.row_m:
        how = f" in {sowing.row_m:g} m of row"
    return (
        f"Sown {shown(sowing.code)}: {seeds}{grams} of {growing.what}{how}, "
        f"{growing.sown_in.name}; {rest}."
    )


def _cautions(plan: SowingPlan) -> list[str]:
    return [part for said in plan.warnings for part in wrapped(f"Mind: {said}")]


def _plan_facts(plan: SowingPlan) -> dict[str, Any]:
    draft = plan.draft
    return {
        "packet": plan.line.packet.code,
        "place": plan.place.name,
        "cells": draft.cells,
        "seeds_per_cell": draft.per_cell,
        "seeds": draft.all_seeds,
        "row_m": draft.row_m,
        "plants": plan.plants,
        "assurance": round(plan.assurance, 4),
        "short": plan.short or None,
        "warnings": list(plan.warnings),
    }


def _facts(session: Session, done: Sown, jobs: tuple[SowingJob, ...]) -> dict[str, Any]:
    return {
        "code": done.sowing.code,
        **_plan_facts(done.plan),
        "sown_on": done.sowing.on,
        "grams": done.grams,
        "jobs": as_jobs(jobs, session.today),
    }
