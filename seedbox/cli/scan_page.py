"""What photos show, in plain lines: what is in the tin, strangers, trade numbers, other codes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from seedbox.cli.tables import Column, cut, one_line, room, table
from seedbox.cli.words import amount, count, day, joined
from seedbox.season.named import NameBook, Named, stranger_words
from seedbox.tin.codes import shown

if TYPE_CHECKING:
    from seedbox.scanning.photos import Scan, SeenOther

_COLUMNS = (Column("code"), Column("what", least=16), Column("left"), Column("store", least=8))
_LONGEST_TEXT = 70


def page(scan: Scan, named: Sequence[Named], strangers: Sequence[str], book: NameBook) -> list[str]:
    """Everything that was seen, what can be used first."""
    lines = [_summary(scan, named)]
    if named:
        lines += ["", *table(_COLUMNS, [_row(each) for each in named], room())]
    parts = (
        ("Not in this tin", map(stranger_words, strangers)),
        ("Trade numbers (a hint to the variety, no more)", _trade(scan.trade_numbers, book)),
        ("Other codes (shown as text, never opened)", map(_foreign, scan.foreign)),
    )
    for heading, body in parts:
        found = [f"  {line}" for line in body]
        if found:
            lines += ["", heading, *found]
    return lines


def _summary(scan: Scan, named: Sequence[Named]) -> str:
    photos = count(len(scan.read), "photo")
    if not named:
        return f"Nothing of this tin was seen in {photos}."
    kinds = dict.fromkeys(each.kind for each in named)
    told = [count(sum(each.kind == kind for each in named), kind) for kind in kinds]
    return f"{joined(told)} in {photos}."


def _row(each: Named) -> tuple[str, ...]:
    dossier = each.line.dossier
    if each.is_packet:
        left = amount(dossier.left, dossier.packet.unit)
        return shown(each.code), each.title, left, each.line.store
    return shown(each.code), _sown_or_tested(each), "", each.place


def _sown_or_tested(each: Named) -> str:
    if each.sowing is not None:
        return f"sowing of {each.title}, {day(each.sowing.on)}"
    state = f", {each.test.state}" if each.test is not None else ""
    return f"germination test of {each.title}{state}"


def _trade(numbers: Sequence[SeenOther], book: NameBook) -> Iterator[str]:
    for number in numbers:
        before = book.with_trade_number(number.text)
        yield f"{one_line(number.text)}  " + (
            _as_before(before[0]) if before else "not seen before"
        )


def _as_before(packet: Named) -> str:
    source = f" from {packet.line.packet.source}" if packet.line.packet.source else ""
    return one_line(f"as on {shown(packet.code)}: {packet.title}{source}")


def _foreign(other: SeenOther) -> str:
    return f"{other.symbol}: {cut(one_line(other.text), _LONGEST_TEXT)}"
