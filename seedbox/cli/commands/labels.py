"""`labels`: a PDF of labels whose codes were read back before it is handed over."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.codes import many_codes
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.filters import Chosen, filter_options
from seedbox.cli.output import say, say_json, warn
from seedbox.cli.params import WORDS, Number, Whole
from seedbox.cli.session import Session
from seedbox.cli.slips import slips_wanted
from seedbox.cli.tray_labels import DESIGN as TRAY
from seedbox.cli.tray_labels import trays_wanted
from seedbox.cli.words import count
from seedbox.errors import NotFoundError, UnreadableCodeError, UsageError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from seedbox.printing.content import LabelContent, Printed
    from seedbox.season.listing import Listing
    from seedbox.tin.preferences import Settings

USUAL_DESIGN = "packet"
USUAL_SHEET = {"a4": "a4-24-64x34-gap", "letter": "letter-30-2.625x1"}
_MOST_WARNINGS = 8
_OFFSET = Number("mm", -20, 20)


@seedbox_command("labels")
@click.argument("file", type=click.Path(path_type=Path), required=False)
@click.argument(
    "codes",
    nargs=-1,
    metavar="[CODE]...",
    callback=many_codes,
    shell_complete=completing.packets_and_sowings,
)
@click.option("--design", type=WORDS, help="Which design; see --designs. Or your own file.toml.")
@click.option("--sheet", type=WORDS, help="Which label sheet; see --sheets. Or your own file.toml.")
@click.option(
    "--start", type=Whole("number", 1), default=1, help="First free label, 1 is top left."
)
@click.option("--copies", type=Whole("number", 1, 1000), default=1, help="Labels for each packet.")
@click.option("--offset-x", type=_OFFSET, help="Move everything right by so many mm.")
@click.option("--offset-y", type=_OFFSET, help="Move everything down by so many mm.")
@click.option("--length", type=Number("mm", 10, 2000), help="Length of a label on a roll, in mm.")
@click.option("--outlines/--no-outlines", default=None, help="Draw lines to cut along, or do not.")
@click.option(
    "--dpi", type=Whole("number", 200, 2400), default=300, help="Dots per inch you print at."
)
@click.option("--no-proof", is_flag=True, help="Do not read the codes back (faster).")
@click.option("--text", type=WORDS, default="", help="Only packets that hold these words.")
@filter_options
@click.option("--sheets", is_flag=True, help="List the label sheets and print nothing.")
@click.option("--designs", is_flag=True, help="List the designs and print nothing.")
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    file: Path | None,
    codes: list[str],
    chosen: Chosen,
    as_json: bool,
    **given: Any,
) -> None:
    """Write labels for packets to FILE as a PDF, and read every code back from it.

    Name the packets by CODE, or by the same filters as in `seedbox list`; without either, all
    packets that hold seed get a label. Print at 100 %, never "fit to page".

    The codes of running germination tests, or --design test alone, print slips for their bags.
    The codes of sowings, or --design tray alone, print labels for trays, pots and rows.

    \b
    seedbox labels new.pdf --tag new --sheet a4-24-64x34-gap --start 7
    """
    if given["sheets"] or given["designs"]:
        from seedbox.cli.label_stock import show_designs, show_sheets

        (show_sheets if given["sheets"] else show_designs)(as_json)
        return
    if file is None:
        raise UsageError(
            "Name the file to write, such as labels.pdf.", hint="Read more with: seedbox labels -h"
        )
    if slips_wanted(codes, given["design"]):
        _refuse_filters(chosen, given["text"])
        _slips(session, file, codes, given, as_json)
        return
    if trays_wanted(codes):
        _refuse_filters(chosen, given["text"])
        _trays(session, file, codes, given, as_json)
        return
    all_trays = given["design"] == TRAY and not (codes or chosen.any or given["text"])
    if all_trays and _something_grows(session):
        _trays(session, file, codes, given, as_json)
        return
    from seedbox.season.listing import Listing

    with session.tin() as tin:
        wanted = [tin.packet(code).code for code in codes]
        listing = Listing(tin, session.today)
    items = contents(listing, wanted, chosen, given["text"])
    report(printed_labels(listing.settings, file, items, given), as_json)


def _slips(
    session: Session, file: Path, codes: list[str], given: dict[str, Any], as_json: bool
) -> None:
    from seedbox.cli.slips import print_slips, tests_for

    with session.tin() as tin:
        printed = print_slips(tin, tests_for(tin, codes), file, given)
    report(printed, as_json)


def _trays(
    session: Session, file: Path, codes: list[str], given: dict[str, Any], as_json: bool
) -> None:
    from seedbox.cli.tray_labels import print_trays, sowings_for

    with session.tin() as tin:
        printed = print_trays(tin, sowings_for(tin, codes), file, given)
    report(printed, as_json)


def _something_grows(session: Session) -> bool:
    """Without sowings in progress the tray design is for packets, as any other."""
    with session.tin() as tin:
        if not tin.sowings():
            return False
        over = {event.sowing_id for event in tin.sowing_events() if event.kind.ends}
        return any(sowing.id not in over for sowing in tin.sowings())


def _refuse_filters(chosen: Chosen, text: str) -> None:
    if chosen.any or text:
        raise UsageError(
            "Filters choose packets; slips are for germination tests, tray labels for sowings.",
            hint="Name the tests or sowings by their codes, or none for all in progress.",
        )


def report(printed: Printed, as_json: bool) -> None:
    """Say what was printed; a code that cannot be read is an error after that."""
    warn(*map(str, printed.warnings[:_MOST_WARNINGS]))
    if len(printed.warnings) > _MOST_WARNINGS:
        warn(f"and {len(printed.warnings) - _MOST_WARNINGS} more such.")
    if as_json:
        say_json(facts(printed))
    else:
        say(sentence(printed))
    refuse_unreadable(printed)


def facts(printed: Printed) -> dict[str, Any]:
    """What was printed, for programs."""
    return {
        "path": str(printed.path),
        "labels": printed.labels,
        "pages": printed.pages,
        "proofed": printed.proofed,
        "unreadable": printed.unreadable,
        "warnings": [str(problem) for problem in printed.warnings],
    }


def refuse_unreadable(printed: Printed) -> None:
    """A label that does not scan is worse than none."""
    if printed.unreadable:
        names = ", ".join(printed.unreadable)
        raise UnreadableCodeError(
            f"Could not be read back: {names}.",
            hint="The file was written, but do not use those labels. Try a larger label or --dpi.",
        )


def sentence(printed: Printed) -> str:
    """What was printed, and whether it was read back."""
    size = f"{count(printed.labels, 'label')} on {count(printed.pages, 'page')}"
    if not printed.proofed:
        proof = "The codes were not read back."
    elif printed.unreadable:
        proof = f"{count(len(printed.unreadable), 'code')} could not be read back."
    else:
        proof = "Every code was read back from the page."
    return f"Wrote {size} to {printed.path}. {proof}"


def printed_labels(
    settings: Settings, file: Path, items: Sequence[LabelContent], given: dict[str, Any]
) -> Printed:
    """Print, with what the settings say where no option does."""
    from seedbox.printing.content import LabelJob
    from seedbox.printing.designs import design
    from seedbox.printing.labels import print_labels
    from seedbox.printing.sheets import sheet

    across, down = given.get("offset_x"), given.get("offset_y")
    job = LabelJob(
        design=design(given.get("design") or settings.label_design or USUAL_DESIGN),
        sheet=sheet(given.get("sheet") or settings.label_sheet or USUAL_SHEET[settings.page]),
        items=items,
        start=given.get("start", 1),
        copies=given.get("copies", 1),
        offset_x_mm=settings.label_offset_x_mm if across is None else across,
        offset_y_mm=settings.label_offset_y_mm if down is None else down,
        outlines=given.get("outlines"),
        length_mm=given.get("length"),
    )
    return print_labels(job, file, proof=not given.get("no_proof"), dpi=given.get("dpi", 300))


def contents(
    listing: Listing, codes: Sequence[str], chosen: Chosen | None = None, text: str = ""
) -> list[LabelContent]:
    """The words for each label, in the order in which the codes were named, else as listed."""
    from seedbox.printing.content import LabelContent
    from seedbox.season.label_fields import label_fields
    from seedbox.season.listing import Filter

    wanted = chosen.filter(listing, text=text, codes=codes) if chosen else Filter()
    lines = listing.select(wanted)
    if not lines:
        raise NotFoundError(
            "No packet fits, so no label was written.",
            hint="" if listing.lines else "The tin is empty.",
        )
    if codes:
        lines.sort(key=lambda line: codes.index(line.packet.code))
    return [
        LabelContent(line.packet.code, label_fields(line, listing.book, listing.today))
        for line in lines
    ]
