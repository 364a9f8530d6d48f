"""What gets labels: packets by code or filter, tests by their slips, sowings by their trays."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from seedbox.cli import completing
from seedbox.cli.codes import many_codes
from seedbox.cli.filters import Chosen, filter_options
from seedbox.cli.label_jobs import contents
from seedbox.cli.params import WORDS, Choice, Number, Whole
from seedbox.cli.session import Session
from seedbox.cli.slips import slips_wanted
from seedbox.cli.tray_labels import DESIGN as TRAY
from seedbox.cli.tray_labels import trays_wanted
from seedbox.errors import UsageError

if TYPE_CHECKING:
    from seedbox.printing.content import LabelContent
    from seedbox.season.listing import Listing
    from seedbox.season.sharing_words import PortionWords
    from seedbox.tin.file import Tin
    from seedbox.tin.preferences import Settings

_OFFSET = Number("mm", -20, 20)


class Wanted(NamedTuple):
    """The words of the labels, and the options with what is usual for such labels filled in."""

    settings: Settings
    items: Sequence[LabelContent]
    given: dict[str, Any]


_OPTIONS = (
    click.argument(
        "codes",
        nargs=-1,
        metavar="[CODE]...",
        callback=many_codes,
        shell_complete=completing.packets_and_sowings,
    ),
    click.option(
        "--design", type=WORDS, help="Which design; see --designs. Or your own file.toml."
    ),
    click.option(
        "--sheet", type=WORDS, help="Which label sheet; see --sheets. Or your own file.toml."
    ),
    click.option("--start", type=Whole("number", 1), help="First free label, 1 is top left."),
    click.option(
        "--copies", type=Whole("number", 1, 1000), default=1, help="Labels for each packet."
    ),
    click.option("--offset-x", type=_OFFSET, help="Move everything right by so many mm."),
    click.option("--offset-y", type=_OFFSET, help="Move everything down by so many mm."),
    click.option(
        "--length", type=Number("mm", 10, 2000), help="Length of a label on a roll, in mm."
    ),
    click.option(
        "--outlines/--no-outlines", default=None, help="Draw lines to cut along, or do not."
    ),
    click.option(
        "--code",
        type=Choice("code", ("once", "twice", "rugged")),
        help="The code once, twice, or rugged: QR with Code 128, else QR twice.",
    ),
    click.option(
        "--each",
        type=Choice("each", ("tray", "cell")),
        help="Of a sowing: one label a tray, or a cell.",
    ),
    click.option("--line", type=WORDS, help="An extra line of your own, for this time."),
    click.option("--text", type=WORDS, default="", help="Only packets that hold these words."),
)


def label_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """The codes, filters and options of a label job, the same for writing and for a preview."""
    gathered = filter_options(function)
    for option in reversed(_OPTIONS):
        gathered = option(gathered)
    return gathered


def wanted_labels(
    session: Session, codes: Sequence[str], chosen: Chosen, given: dict[str, Any]
) -> Wanted:
    """What is to be printed; raises where nothing fits, or filters make no sense."""
    _refuse_mixed(codes)
    if slips_wanted(codes, given["design"]):
        _refuse_filters(chosen, given["text"])
        return _slips(session, codes, given)
    if trays_wanted(codes):
        _refuse_filters(chosen, given["text"])
        return _trays(session, codes, given)
    all_trays = given["design"] == TRAY and not (codes or chosen.any or given["text"])
    if all_trays and _something_grows(session):
        return _trays(session, codes, given)
    if given["each"]:
        raise UsageError("--each is for the labels of sowings; these are of packets.")
    return _packets(session, codes, chosen, given)


def _packets(
    session: Session, codes: Sequence[str], chosen: Chosen, given: dict[str, Any]
) -> Wanted:
    from seedbox.season.listing import Listing
    from seedbox.season.waiting_labels import usual_design

    with session.tin() as tin:
        wanted = [tin.packet(code).code for code in codes]
        listing = Listing(tin, session.today)
        design = given["design"] or usual_design("P", listing.settings)
        portions = _portions(tin, listing) if design == "sharing" else None
    settings = _with_line(listing.settings, given)
    items = contents(listing, wanted, chosen, given["text"], settings, portions=portions)
    return Wanted(settings, items, given)


def _portions(tin: Tin, listing: Listing) -> PortionWords:
    """What is given away is a portion, not the packet."""
    from seedbox.season.sharing_words import PortionWords
    from seedbox.season.sowing.desk import Desk

    return PortionWords(Desk(tin, listing.today, listing=listing))


def _slips(session: Session, codes: Sequence[str], given: dict[str, Any]) -> Wanted:
    from seedbox.cli.slips import slip_contents, tests_for, with_usual

    with session.tin() as tin:
        settings = _with_line(tin.settings(), given)
        items = slip_contents(tin, tests_for(tin, codes), settings)
    return Wanted(settings, items, with_usual(settings, given))


def _trays(session: Session, codes: Sequence[str], given: dict[str, Any]) -> Wanted:
    from seedbox.cli.tray_labels import sowings_for, tray_contents, with_usual

    with session.tin() as tin:
        settings = _with_line(tin.settings(), given)
        each = given.get("each") or "tray"
        items = tray_contents(tin, sowings_for(tin, codes), settings, each)
    return Wanted(settings, items, with_usual(given))


def _with_line(settings: Settings, given: dict[str, Any]) -> Settings:
    """The settings, with the extra line of this job where one is given."""
    return settings if given.get("line") is None else replace(settings, label_line=given["line"])


def _something_grows(session: Session) -> bool:
    """Without sowings in progress the tray design is for packets, as any other."""
    with session.tin() as tin:
        if not tin.sowings():
            return False
        over = {event.sowing_id for event in tin.sowing_events() if event.kind.ends}
        return any(sowing.id not in over for sowing in tin.sowings())


def _refuse_mixed(codes: Sequence[str]) -> None:
    """Each kind has its own usual design and sheet; a queue prints them together."""
    kinds = {code.lstrip()[:1].upper() for code in codes}
    if "S" in kinds and len(kinds) > 1:
        raise UsageError(
            "Sowings and other codes are not written in one go.",
            hint="Queue them all: seedbox labels queue add CODE CODE, then queue write FILE.",
        )


def _refuse_filters(chosen: Chosen, text: str) -> None:
    if chosen.any or text:
        raise UsageError(
            "Filters choose packets; slips are for germination tests, tray labels for sowings.",
            hint="Name the tests or sowings by their codes, or none for all in progress.",
        )
