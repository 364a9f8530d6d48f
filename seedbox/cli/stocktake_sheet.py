"""The sheet of `stocktake`: what should lie in a store, with codes to scan and boxes to tick."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from seedbox.cli.label_report import facts, refuse_unreadable, sentence, warn_of
from seedbox.cli.lookup import store_among
from seedbox.cli.output import say, say_json
from seedbox.cli.session import Session
from seedbox.cli.words import count

if TYPE_CHECKING:
    from collections.abc import Sequence

    from seedbox.printing.coded_list import CodedList
    from seedbox.season.listing import PacketLine
    from seedbox.tin.records import Store


def write_sheet(session: Session, store: str, file: Path, as_json: bool) -> None:
    """Writes it, reads its codes back and says so."""
    from seedbox.printing.coded_list import print_coded_list
    from seedbox.printing.measuring import correction_of
    from seedbox.season.listing import Listing
    from seedbox.season.stocktake import lying_in
    from seedbox.season.written_dates import written

    with session.tin() as tin:
        shelf = store_among(tin.stores(), store)
        listing = Listing(tin, session.today)
    lines = lying_in(listing.lines, shelf)
    settings = listing.settings
    made = _sheet(shelf, lines, settings.garden_name, written(session.today, settings.dates))
    printed = print_coded_list(
        made,
        file,
        page=settings.page,
        dpi=settings.label_dpi,
        corrected=correction_of(settings),
    )
    warn_of(printed)
    if as_json:
        say_json({"store": shelf.name, **facts(printed, "packets")})
    else:
        say(sentence(printed, "packet"))
    refuse_unreadable(printed)


def _sheet(store: Store, lines: Sequence[PacketLine], garden: str, on: str) -> CodedList:
    from seedbox.printing.coded_list import CodedColumn, CodedList, CodedRow

    columns = (
        CodedColumn("crop", 33.0),
        CodedColumn("variety", 36.0),
        CodedColumn("year", 18.0),
        CodedColumn("left", 21.0, right=True),
        CodedColumn("there", 9.0, blank=True),
        CodedColumn("recount", 21.0, blank=True),
    )
    rows = tuple(
        CodedRow(line.packet.code, (line.crop, line.packet.variety, _year(line), line.left))
        for line in lines
    )
    where = f"{garden}, " if garden else ""
    return CodedList(
        f"Stocktake: {store.name}",
        f"{where}{on}. {count(len(rows), 'packet')} should lie here.",
        columns,
        rows,
        foot="Scan a code, or type it. Recounted: seedbox recount CODE AMOUNT",
        empty="Nothing should lie here.",
    )


def _year(line: PacketLine) -> str:
    return "" if line.year == "unknown" else line.year
