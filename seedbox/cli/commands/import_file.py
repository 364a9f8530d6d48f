"""`import`: a grower's table, or a tin that was exported, comes into the tin."""

from __future__ import annotations

from collections import Counter
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.lookup import crop_book
from seedbox.cli.output import say, say_json, warn
from seedbox.cli.session import Session
from seedbox.cli.words import joined
from seedbox.errors import BadDataError, UsageError

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from seedbox.tin.exchange.plans import ImportPlan
    from seedbox.tin.file import Tin

_SHOWN = 20


@seedbox_command("import")
@click.argument("path", metavar="FILE", type=click.Path(path_type=Path))
@click.option("--map", "maps", multiple=True, help='What a column means: "Column=field". Repeat.')
@click.option("--sheet", help="The sheet of a workbook, by its name or number.")
@click.option("--dry-run", is_flag=True, help="Show what would happen, and change nothing.")
@click.option("--strict", is_flag=True, help="Import nothing when any row has a fault.")
@click.option(
    "--rejects", type=click.Path(path_type=Path), help="Write the rows left out to this file."
)
@click.option("--keep-unknown", is_flag=True, help="Keep unknown crops as crops of your own.")
@click.option("--again", is_flag=True, help="Add rows also when they were imported before.")
@json_option
@click.pass_obj
def command(
    session: Session,
    *,
    path: Path,
    maps: tuple[str, ...],
    sheet: str | None,
    dry_run: bool,
    strict: bool,
    rejects: Path | None,
    keep_unknown: bool,
    again: bool,
    as_json: bool,
) -> None:
    """Import packets from FILE: CSV or XLSX in any column order, or an exported tin.

    A row with a fault is left out and reported; the others come in (exit code 4 only when none
    does, or with --strict). One undo takes all of it back, and the same file twice adds nothing.
    The fields for --map: crop, variety, source,
    origin, harvest_year, packed_year, bought_year, sow_by, seeds, grams, left, store, note, tags,
    and the other columns of an export. "Column=ignore" leaves a column out.
    """
    from seedbox.tin.exchange.planning import plan_import

    mapping = _mapping(maps)
    path = path if path.name else path.resolve()  # "." has no name to speak of
    with _tin_to_plan_for(session) as tin:
        plan = plan_import(
            tin,
            path,
            resolve_crop=crop_book(tin).answer,
            mapping=mapping,
            sheet=sheet,
            today=session.today,
            keep_unknown_crops=keep_unknown,
            again=again,
        )
    written = _write_rejects(plan, rejects)
    held_back = strict and bool(plan.problems)
    added = 0 if dry_run or held_back else _carried_out(session, plan)
    if as_json:
        say_json(_facts(plan, added, dry_run))
    else:
        _report(plan, dry_run or held_back, written)
        if not keep_unknown and _has_strange_crops(plan):
            warn("Crops that Seedbox does not know can be kept as your own with: --keep-unknown")
    if held_back:
        raise BadDataError(f"Nothing was imported: {_rows(len(plan.rejects))} with a fault.")
    if plan.rejects and not plan.new and not plan.already:
        raise BadDataError("No row could be used.")


@contextmanager
def _tin_to_plan_for(session: Session) -> Iterator[Tin]:
    """The tin, or an empty one that is thrown away: planning alone makes no tin."""
    if session.tin_path.exists():
        with session.tin() as tin:
            yield tin
        return
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as folder:
        passing = Session(Path(folder) / "passing.tin", session.chosen_day)
        with passing.tin(create=True) as tin:
            yield tin


def _mapping(maps: Sequence[str]) -> dict[str, str]:
    found: dict[str, str] = {}
    for text in maps:
        column, equals, field = text.rpartition("=")
        if not equals or not column.strip():
            raise UsageError(
                f"“{text}” maps nothing.", hint='Write --map "Column=field", as in "Sort=variety".'
            )
        found[column.strip()] = field.strip().casefold().replace("-", "_")
    return found


def _carried_out(session: Session, plan: ImportPlan) -> int:
    from seedbox.tin.exchange.carrying import carry_out

    if plan.changes_nothing:
        return 0
    with session.tin(create=True) as tin:
        return carry_out(tin, plan).added


def _write_rejects(plan: ImportPlan, path: Path | None) -> tuple[Path, ...]:
    if path is None or not plan.rejects:
        return ()
    from seedbox.tin.exchange.rejecting import write_rejects

    return write_rejects(plan, path)


def _report(plan: ImportPlan, held_back: bool, written: Sequence[Path]) -> None:
    say(*_reading(plan))
    would = "Would add" if held_back else "Added"
    say(_sentence(plan, would))
    shown = plan.problems[:_SHOWN]
    say(*(f"  {problem}" for problem in shown))
    if len(plan.problems) > len(shown):
        say(f"  and {len(plan.problems) - len(shown):,} more: {_by_field(plan)}.")
    if plan.rejects and not written:
        warn("To mend them, write the rows left out to a file with: --rejects FILE")
    elif written:
        names = " and ".join(map(str, written))
        say(f"The rows left out are in {names}. Mend them there and import that file.")
    if not held_back and not plan.changes_nothing:
        say("Undo with: seedbox undo")


def _has_strange_crops(plan: ImportPlan) -> bool:
    """Whether the crop is among the faults, which keeping unknown crops may mend."""
    column = next((name for name, field in plan.mapped_columns.items() if field == "crop"), "")
    return any(problem.field == column for problem in plan.problems)


def _by_field(plan: ImportPlan) -> str:
    """Which columns have the faults, the worst first."""
    counted = Counter(problem.field or "the row" for problem in plan.problems)
    return ", ".join(f"{field} {number:,}" for field, number in counted.most_common(8))


def _reading(plan: ImportPlan) -> list[str]:
    """How the file was understood."""
    lines = list(plan.notes)
    if plan.mapped_columns:
        pairs = [
            column if _same(column, field) else f"{column} as {field.replace('_', ' ')}"
            for column, field in plan.mapped_columns.items()
        ]
        lines.append(f"Columns: {', '.join(pairs)}.")
    if plan.ignored_columns:
        lines.append(f"Not used: {', '.join(plan.ignored_columns)}.")
    return lines


def _same(column: str, field: str) -> bool:
    return column.strip().casefold().replace(" ", "_") == field


def _sentence(plan: ImportPlan, would: str) -> str:
    told = f"{would} {joined(list(plan.brings)) or '0 packets'}."
    if plan.already:
        told += f" {_rows(plan.already)} in the tin already."
    if plan.rejects:
        told += f" {_rows(len(plan.rejects))} left out:"
    return told


def _rows(number: int) -> str:
    return f"{number:,} {'row is' if number == 1 else 'rows are'}"


def _facts(plan: ImportPlan, added: int, dry_run: bool) -> dict[str, object]:
    return {
        "added": added,
        "would_add": len(plan.new),
        "already": plan.already,
        "rejected": len(plan.rejects),
        "dry_run": dry_run,
        "problems": [
            {"row": problem.row or None, "field": problem.field or None, "where": problem.where,
             "sentence": problem.sentence}
            for problem in plan.problems
        ],
        "stores_added": [store.name for store in plan.stores_to_add],
        "own_crops_added": [crop.name for crop in plan.own_crops_to_add],
        "columns": dict(plan.mapped_columns),
        "ignored_columns": plan.ignored_columns,
        "notes": plan.notes,
    }  # fmt: skip
