"""`sow`: seed leaves a packet for a tray or a row, which gets its code, its jobs and its label."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.aims import aim_of, aim_options, refuse_aim
from seedbox.cli.codes import code_argument
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.params import DAY, WORDS, Number, Whole
from seedbox.cli.session import Session
from seedbox.cli.sowing_report import check_labels, report_plan, report_sown
from seedbox.errors import UsageError

if TYPE_CHECKING:
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.sowing.sow import SowingPlan, Wish
    from seedbox.tin.file import Tin

_NUMBER = Whole("number", 1, 100_000)


@seedbox_command("sow")
@code_argument(completing.codes)
@click.option("--plants", type=_NUMBER, help="Plants wanted, if not those of the plan.")
@click.option("--place", type=WORDS, shell_complete=completing.places, help="Where it is sown.")
@aim_options
@click.option("--cells", type=_NUMBER, help="Cells, if you settle that yourself.")
@click.option("--per-cell", type=Whole("number", 1, 100), help="Seeds in each of those cells.")
@click.option("--seeds", type=_NUMBER, help="Seeds in a row, if you settle that yourself.")
@click.option("--row", "row_m", type=Number("metres", 0.01, 10_000), help="Length of the row, m.")
@click.option("--leave", "left_per_cell", type=Whole("number", 1, 50), help="Plants left in each.")
@click.option("--cell-depth", "pot_depth_cm", type=Number("cm", 0.5, 200), help="Their depth, cm.")
@click.option("--short", "take_short", is_flag=True, help="Sow even if too little is left.")
@click.option("--on", type=DAY, help="The day it was sown, if not today.")
@click.option("--note", type=WORDS, default="", help="Anything worth knowing.")
@click.option("--labels", type=click.Path(path_type=Path), help="Also write its label, as a PDF.")
@click.option("--copies", type=Whole("number", 1, 1000), default=1, help="Labels for the sowing.")
@click.option("--dry-run", is_flag=True, help="Only show how it would be sown; take no seed.")
@json_option
@click.pass_obj
def command(session: Session, /, code: str, as_json: bool, **given: Any) -> None:
    """Sow the packet CODE: its seed is taken, and the sowing gets a code and its jobs.

    Cells and seeds are reckoned for the plants wanted, unless you give --cells or --seeds: two or
    three seeds to a cell while that takes no more than a quarter of the packet.
    Without --place it is the place that `seedbox now` advises.

    \b
    seedbox sow P4K7QMX2 --plants 12 --place windowsill --labels tray.pdf
    seedbox sow P4K7QMX2 --cells 12 --per-cell 2 --place windowsill
    """
    check_labels(given["labels"])
    wish = wished(given)
    with session.tin() as tin:
        sow_and_tell(session, tin, code, wish, given=given, as_json=as_json)


def wished(given: dict[str, Any]) -> Wish:
    """What was asked for; numbers that contradict one another are refused."""
    from seedbox.season.sowing.sow import Wish

    refuse_aim(given)
    if given["cells"] is not None and given["seeds"] is not None:
        raise UsageError("Give --cells, or --seeds for a row, not both.")
    if given["per_cell"] is not None and given["cells"] is None:
        raise UsageError("--per-cell needs the number of cells: give --cells too.")
    if given["row_m"] is not None and given["seeds"] is None:
        raise UsageError("--row needs the number of seeds in it: give --seeds too.")
    names = ("plants", "cells", "per_cell", "seeds", "row_m", "left_per_cell", "pot_depth_cm")
    return Wish(**{name: given[name] for name in names}, note=given["note"])


def sow_and_tell(
    session: Session, tin: Tin, code: str, wish: Wish, *, given: dict[str, Any], as_json: bool
) -> None:
    """Sow, or show how it would be done, and say what comes of it; `mind` of `given` goes first."""
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.sowing.sow import plan_sowing, sow

    day = given["on"] or session.today
    desk = Desk(tin, day, aim=aim_of(given))
    place = _place(tin, desk, code, given["place"])
    if given["dry_run"]:
        plan = plan_sowing(tin, code, place, wish, today=day, desk=desk)
        report_plan(_minded(plan, given), as_json)
        return
    done = sow(
        tin,
        code,
        place,
        wish,
        today=session.today,
        on=given["on"],
        take_short=given["take_short"],
        desk=desk,
    )
    report_sown(session, tin, replace(done, plan=_minded(done.plan, given)), given, as_json)


def _minded(plan: SowingPlan, given: dict[str, Any]) -> SowingPlan:
    mind = given.get("mind")
    return replace(plan, warnings=(mind, *plan.warnings)) if mind else plan


def _place(tin: Tin, desk: Desk, code: str, wanted: str | None) -> str:
    """The place that is named, or the one that is best for the packet now."""
    from seedbox.cli.garden_lookup import place_name
    from seedbox.season.sowing.offers import Offer

    if wanted:
        return place_name(tin, wanted)
    packet = tin.packet(code)
    found = desk.look(desk.listing.line(packet.code)) if desk.garden.climate else None
    if isinstance(found, Offer):
        return found.choice.place.name
    names = ", ".join(place.name for place in desk.garden.places)
    why = f" Now is not the time for it: {found.reason}." if found else ""
    raise UsageError(
        f"Say where it is sown, with --place.{why}",
        hint=f"The places are: {names}." if names else "Add one with: seedbox place add NAME …",
    )
