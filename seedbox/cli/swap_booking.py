"""What a booking says when it is done, the same for a whole proposal and for a single gift."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from seedbox.cli.output import say, say_json, warn
from seedbox.cli.portion_labels import fold_line, print_portions
from seedbox.cli.session import Session
from seedbox.cli.swap_words import caution_lines, portions
from seedbox.cli.tables import wrapped
from seedbox.cli.words import amount
from seedbox.tin.codes import shown

if TYPE_CHECKING:
    from seedbox.printing.content import Printed
    from seedbox.season.crops import CropBook
    from seedbox.season.swapping.booking import Booked, Given
    from seedbox.season.swapping.minding import Minding
    from seedbox.tin.file import Tin
    from seedbox.tin.records import Packet


def report(
    session: Session,
    tin: Tin,
    booked: Booked,
    *,
    labels: Path | None,
    as_json: bool,
    minded: Minding | None = None,
) -> None:
    """Says what was booked and what to mind, and prints the sharing labels that were asked for."""
    from seedbox.cli.label_report import refuse_unreadable, warn_of
    from seedbox.cli.lookup import crop_book

    printed = None if labels is None else print_portions(tin, booked.given, labels, session.today)
    book = crop_book(tin)
    if minded:
        warn(*minded.remarks)
    if printed is not None:
        warn_of(printed)
    if as_json:
        say_json(_facts(book, booked, printed))
    else:
        say(*_page(tin, book, booked, printed, labels), *_cautions(minded))
    if printed is not None:
        refuse_unreadable(printed)


def _page(
    tin: Tin, book: CropBook, booked: Booked, printed: Printed | None, labels: Path | None
) -> Iterator[str]:
    from seedbox.cli.label_report import sentence

    for one in booked.given:
        yield from wrapped(_given(book, one), "", "  ")
    for packet in booked.received:
        yield from wrapped(_received(tin, book, packet), "", "  ")
    if booked.wants_met:
        yield from wrapped(f"No longer wanted: {', '.join(booked.wants_met)}.", "", "  ")
    yield "Undo with: seedbox undo"
    if printed is not None:
        yield from wrapped(sentence(printed))
    elif booked.given and labels is None:
        yield "Sharing labels: give --labels FILE.pdf, or print them for a packet with"
        yield "  seedbox labels sharing.pdf CODE --design sharing"
    if booked.received:
        codes = " ".join(packet.code for packet in booked.received)
        yield "Labels for what came"
        yield f"  seedbox labels new.pdf {codes}"
    if booked.given:
        yield "Packets to fold and glue"
        yield from (f"  {fold_line(one)}" for one in booked.given)


def _cautions(minded: Minding | None) -> Iterator[str]:
    """What must be told to whoever gets the seed."""
    if minded and any(offer.cautions for offer in minded.offers):
        from seedbox.season.swapping.cautions import CHECK

        yield from caution_lines(minded.offers)
        yield f"  - {CHECK}"


def _given(book: CropBook, one: Given) -> str:
    to = f" to {one.to}" if one.to else ""
    left = (
        "nobody knows what is left"
        if one.left is None
        else (f"{amount(one.left, one.packet.unit)} left")
    )
    return (
        f"Given{to}: {portions(one.portions)} of {_named(book, one.packet)},"
        f" {amount(one.amount, one.packet.unit)}; {left}."
    )


def _received(tin: Tin, book: CropBook, packet: Packet) -> str:
    held = amount(tin.dossier(packet.code).left, packet.unit)
    giver = f" from {packet.source}" if packet.source else ""
    return f"Received{giver}: {_named(book, packet)}, {held}, a packet of its own."


def _named(book: CropBook, packet: Packet) -> str:
    what = f"{book.name(packet.crop_id)} {packet.variety}".strip()
    return f"{shown(packet.code)} {what}"


def _facts(book: CropBook, booked: Booked, printed: Printed | None) -> dict[str, Any]:
    return {
        "done": "Booked.",
        "given": [
            {
                "code": one.packet.code,
                "to": one.to,
                "portions": one.portions,
                "amount": one.amount,
                "unit": one.packet.unit or "seeds",
                "left": one.left,
            }
            for one in booked.given
        ],
        "received": [
            {
                "code": packet.code,
                "crop": book.name(packet.crop_id),
                "variety": packet.variety,
                "from": packet.source,
            }
            for packet in booked.received
        ],
        "wants_met": booked.wants_met,
        "labels": None if printed is None else str(printed.path),
    }
