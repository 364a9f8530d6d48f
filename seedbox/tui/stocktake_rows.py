"""A stocktake in words: a line for each packet, what differs first; a sentence for each tick."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from seedbox.season.named import NameBook
from seedbox.season.stocktake import Counted, Stocktake
from seedbox.tin.codes import shown
from seedbox.tin.records import Dossier
from seedbox.tin.text import amount_text
from seedbox.tui.columns import Column
from seedbox.tui.tin_columns import left_text
from seedbox.tui.virtual_list import Row

FOUND, EMPTY, MISSING = "found", "found, empty", "missing"
WRONG_STORE, STRANGER, SPENT = "wrong store", "stranger", "empty"
COLUMNS = (
    Column("state", "It is", 12),
    Column("code", "Code", 9),
    Column("what", "What", 18, most=44),
    Column("left", "Left", 6, right=True),
    Column("counted", "Counted", 7, right=True),
    Column("store", "By the tin", 12, most=26),
)
_TINTS = {FOUND: "good", WRONG_STORE: "warn", STRANGER: "bad", MISSING: "bad", EMPTY: "warn"}


def tint(key: str, text: str) -> str:
    """The colour that repeats what a cell says in words."""
    return _TINTS.get(text, "quiet") if key == "state" else "quiet" if key == "code" else ""


def rows(stock: Stocktake, book: NameBook, counted: Mapping[str, Counted]) -> Iterator[Row]:
    """What needs a look first: wrong store, strangers, missing; then what was found."""
    full = [one for one in stock.found if one.left != 0]
    parts = (
        (WRONG_STORE, stock.misplaced),
        (STRANGER, stock.strangers),
        (EMPTY, [one for one in stock.found if one.left == 0]),
        (MISSING, stock.missing),
        (FOUND, reversed(full)),
        (SPENT, stock.spent),
    )
    for state, part in parts:
        for one in part:
            yield _stranger(one) if isinstance(one, str) else _row(state, one, book, counted)


def _stranger(code: str) -> Row:
    return (STRANGER, shown(code), "not in this tin", "", "", "")


def _row(state: str, one: Dossier, book: NameBook, counted: Mapping[str, Counted]) -> Row:
    amount = counted.get(one.packet.code)
    return (
        state,
        shown(one.packet.code),
        title(book, one.packet.code),
        left_text(one.left, one.packet.unit),
        left_text(*amount) if amount else "",
        one.store.name if one.store else "no store yet",
    )


def title(book: NameBook, code: str) -> str:
    """Crop and variety; empty when this tin has no such code."""
    named = book.get(code)
    return named.title if named else ""


def summary(stock: Stocktake) -> str:
    """How far it is: `3 of 12 found · 9 missing · 1 in the wrong store · 1 stranger`."""
    found, missing = len(stock.found), len(stock.missing)
    parts = [f"{found} of {found + missing} found", f"{missing} missing"]
    if stock.misplaced:
        parts.append(f"{len(stock.misplaced)} in the wrong store")
    if stock.strangers:
        parts.append(f"{len(stock.strangers)} stranger{'s' * (len(stock.strangers) > 1)}")
    return " · ".join(parts)


def tick_words(stock: Stocktake, book: NameBook, code: str) -> str:
    """What a code that was just ticked is."""
    what = f"{shown(code)} {title(book, code)}".strip()
    for one in stock.found:
        if one.packet.code == code:
            return f"Found: {what}. {_left_words(one)}"
    for one in stock.misplaced:
        if one.packet.code == code:
            lies = one.store.name if one.store else "no store yet"
            return f"Wrong store: {what}. By the tin: {lies}. {_left_words(one)}"
    return f"Stranger: {shown(code)} is not in this tin."


def _left_words(one: Dossier) -> str:
    if one.left is None:
        return "Never counted; type a number if you count it now."
    if one.left == 0:
        return "Empty by its journal: type how much is in it."
    left = amount_text(one.left, one.packet.unit, one.packet.kind)
    return f"{left} by its journal; type a number if you counted."


def written_words(stock: Stocktake, moved: int, gone: int, counted: int) -> str:
    """What a stocktake has changed."""
    parts = [
        f"{number} {_packets(number)} {what}"
        for number, what in ((moved, "moved here"), (gone, "written off"), (counted, "recounted"))
        if number
    ]
    told = ", ".join(parts) if parts else "nothing was to be changed"
    back = " u takes it back." if parts else ""
    return f"Stocktake of {stock.store.name}: {told}.{back}"


def _packets(number: int) -> str:
    return "packet" if number == 1 else "packets"
