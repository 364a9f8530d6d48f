"""`list`: what is in the tin, how much of it still lives, and what to do with it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date
from typing import Any

import click

from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.filters import ADVICE, Chosen, filter_options
from seedbox.cli.output import say, say_json
from seedbox.cli.params import Choice
from seedbox.cli.session import Session
from seedbox.cli.tables import Column, cells, room, table
from seedbox.cli.words import count, germination
from seedbox.season.far_dates import until
from seedbox.season.listing import Listing, PacketLine, Sort

_SORT = Choice("order", tuple(sort.value for sort in Sort))
COLUMNS = (
    Column("code"),
    Column("crop", least=8),
    Column("variety", least=8),
    Column("year"),
    Column("left", right=True),
    Column("germination"),
    Column("advice"),
)
_YEAR = 3  # its place among the columns
_OTHER_YEARS = "~ is a year of packing, purchase or sowing by, not of harvest."
_MORE = (Column("good until"), Column("store", least=8))


@seedbox_command("list")
@click.argument("text", nargs=-1)
@filter_options
@click.option("--sort", type=_SORT, default=Sort.CROP.value, help="Order: " + ", ".join(Sort) + ".")
@json_option
@click.pass_obj
def command(
    session: Session, text: tuple[str, ...], chosen: Chosen, sort: str, as_json: bool
) -> None:
    """List the packets in the tin with germination and advice.

    TEXT keeps packets that hold all its words: crop under any name, variety, source, note, tag,
    store, advice. Germination is the expected share, with the interval that holds it 9 times in 10.
    """
    with session.tin() as tin:
        listing = Listing(tin, session.today)
    lines = listing.select(chosen.filter(listing, text=" ".join(text)), Sort(sort))
    if as_json:
        say_json([facts(line) for line in lines])
    elif not listing.lines:
        say("The tin is empty. Add a first packet with: seedbox add CROP VARIETY")
    elif not lines:
        say("No packet fits." + ("" if chosen.empty else " Empty packets are shown with --empty."))
    else:
        say(*printed(lines, session.today), "", summary(lines))


def printed(lines: Sequence[PacketLine], today: date) -> list[str]:
    """The table: with two more columns where there is room, with shorter years where there is not.

    >>> _short("bought 2025"), _short("2024"), _short("unknown")
    ('~2025', '2024', 'unknown')
    """
    width = room()
    wide = table((*COLUMNS, *_MORE), [(*cells_of(line), *_more(line, today)) for line in lines])
    if width is None or cells(max(wide, key=cells)) <= width:
        return wide
    rows = [cells_of(line) for line in lines]
    usual = table(COLUMNS, rows)
    if cells(max(usual, key=cells)) <= width:
        return usual
    short = [(*row[:_YEAR], _short(row[_YEAR]), *row[_YEAR + 1 :]) for row in rows]
    narrow = table(COLUMNS, short, width)
    has_other_years = any(row[_YEAR].startswith("~") for row in short)
    return [*narrow, *([_OTHER_YEARS] if has_other_years else [])]


def _short(year: str) -> str:
    """A year alone; one that is not of harvest is marked."""
    words = year.split()
    return f"~{words[-1]}" if len(words) > 1 else year


def cells_of(line: PacketLine) -> tuple[str, ...]:
    """One packet as the texts of the usual columns."""
    forecast = line.forecast
    share = germination(forecast.mean, forecast.low, forecast.high) if forecast else ""
    return (
        line.code,
        line.crop,
        line.packet.variety,
        line.year,
        line.left,
        share or line.packet.kind.value,
        line.advice,
    )


def _more(line: PacketLine, today: date) -> tuple[str, str]:
    last = line.forecast.good_until if line.forecast else None
    return (until(last, today) if last else "", line.store)


def summary(lines: Sequence[PacketLine]) -> str:
    """How many packets, and how many with each advice."""
    advised = Counter(line.advice for line in lines)
    told = [f"{advised[word]} {word}" for word in ADVICE.words if advised[word]]
    return f"{count(len(lines), 'packet')}" + (f": {', '.join(told)}." if told else ".")


def facts(line: PacketLine) -> dict[str, Any]:
    """One packet for programs. Shares are fractions; what is not known is null."""
    packet, forecast = line.packet, line.forecast
    unit = packet.unit.value if packet.unit else None
    left = line.dossier.left
    known = forecast if forecast and forecast.mean is not None else None
    return {
        "code": packet.code,
        "crop": line.crop,
        "crop_id": packet.crop_id,
        "variety": packet.variety,
        "kind": packet.kind,
        "origin": packet.origin,
        "source": packet.source or None,
        "harvest_year": packet.harvest_year,
        "packed_year": packet.packed_year,
        "bought_year": packet.bought_year,
        "sow_by": packet.sow_by,
        "seeds": left if unit == "seeds" else None,
        "grams": left if unit == "grams" else None,
        "store": line.store or None,
        "germination": {"mean": known.mean, "low": known.low, "high": known.high}
        if known
        else None,
        "standard": known.standard if known else None,
        "advice": line.advice or None,
        "good_until": forecast.good_until if forecast else None,
        "supported": known.supported if known else None,
        "rests_on": forecast.rests_on if forecast else (),
        "tags": packet.tags,
        "treatment": packet.treatment,
    }
