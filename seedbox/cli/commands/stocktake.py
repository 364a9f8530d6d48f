"""`stocktake`: what lies in a store, by photos or a hand scanner, against what the tin says."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.handing_over import hand_over, handing_over_options, refuse_nothing
from seedbox.cli.output import say, say_json, warn
from seedbox.cli.params import WORDS
from seedbox.cli.session import Session
from seedbox.cli.words import count
from seedbox.errors import BadDataError, UsageError
from seedbox.tin.codes import shown

if TYPE_CHECKING:
    from seedbox.season.named import NameBook
    from seedbox.season.stocktake import Stocktake
    from seedbox.tin.records import Dossier


@seedbox_command("stocktake")
@click.argument("store", type=WORDS, shell_complete=completing.stores)
@click.argument("photos", nargs=-1, metavar="[PHOTO]...", type=click.Path(path_type=Path))
@click.option(
    "--codes-from",
    "typed",
    type=click.File(encoding="utf-8", errors="replace"),
    help="Codes one a line, from a file; - is the keyboard or a hand scanner.",
)
@click.option("--write", "writing", is_flag=True, help="Move what lies here now into this store.")
@click.option("--gone", is_flag=True, help="Write, too, that the missing packets are empty.")
@click.option(
    "--sheet",
    type=click.Path(path_type=Path),
    help="Write a list of what should lie here as a PDF, to tick off and recount by hand.",
)
@click.option("--thorough", is_flag=True, help="Look in every way there is; takes much longer.")
@handing_over_options
@json_option
@click.pass_obj
def command(
    session: Session,
    *,
    store: str,
    photos: tuple[Path, ...],
    typed: IO[str] | None,
    writing: bool,
    gone: bool,
    sheet: Path | None,
    thorough: bool,
    opened: bool,
    sent: bool,
    as_json: bool,
) -> None:
    """Compare what lies in STORE with what the tin says: found, missing, misplaced, strangers.

    Nothing is changed unless you ask: --write moves found packets here, --gone recounts missing
    ones as 0. Both are one change, and `seedbox undo` takes it back.

    \b
    seedbox stocktake drawer left.jpg right.jpg
    seedbox stocktake drawer --codes-from - --write
    seedbox stocktake drawer --sheet drawer.pdf
    """
    refuse_nothing(sheet, "--sheet", opened=opened, sent=sent)
    if sheet is not None:
        _write_sheet(session, store, sheet, seen=bool(photos or typed), as_json=as_json)
        hand_over(sheet, opened=opened, sent=sent)
        return
    from seedbox.cli.lookup import store_among
    from seedbox.season.named import NameBook
    from seedbox.season.stocktake import compare, write

    if not photos and typed is None:
        raise UsageError(
            "Give photos of the store, or --codes-from with a file of codes, or -.",
            hint="A list to tick off by hand: --sheet FILE.pdf",
        )
    with session.tin() as tin:
        shelf = store_among(tin.stores(), store)
        book = NameBook(tin, session.today)
        seen, faults = _seen(photos, typed, thorough, book)
        stock = compare([line.dossier for line in book.listing.lines], shelf, seen)
        written = None
        if writing or gone:
            _refuse_half_seen(faults)
            written = write(
                tin, stock, today=session.today, move_here=writing, missing_are_gone=gone
            )
    if as_json:
        say_json(_json(stock, faults, written))
    else:
        say(*_page(stock, book, written))


def _write_sheet(session: Session, store: str, sheet: Path, *, seen: bool, as_json: bool) -> None:
    """The list for a stocktake by hand; what was seen is compared in a call of its own."""
    if seen:
        raise UsageError("--sheet writes a list to tick off; give it without photos and codes.")
    from seedbox.cli.stocktake_sheet import write_sheet

    write_sheet(session, store, sheet, as_json)


def _seen(
    photos: Sequence[Path], typed: IO[str] | None, thorough: bool, book: NameBook
) -> tuple[list[str], list[str]]:
    """Codes by photo and by hand, and what could not be read, which is told at once."""
    codes: list[str] = []
    faults: list[str] = []
    if photos:
        from seedbox.scanning.photos import scan_photos

        scan = scan_photos(photos, thorough=thorough)
        codes += [each.code for each in scan.codes]
        faults += map(str, scan.problems)
        warn(*faults)
    for code in _by_hand(typed, book):
        if code.startswith("!"):
            faults.append(code[1:])
        else:
            codes.append(code)
    return codes, faults


def _by_hand(typed: IO[str] | None, book: NameBook) -> Iterator[str]:
    """Codes as they come; a fault begins with “!”. At the keyboard each is answered at once."""
    if typed is None:
        return
    from seedbox.scanning.typed import typed_codes

    at_keyboard = typed.isatty()
    if at_keyboard:
        warn("Scan or type codes, each with Enter; an empty line with Ctrl+D ends.")
    for each in typed_codes(typed, getattr(typed, "name", "")):
        if not isinstance(each, str):
            warn(str(each))
            yield f"!{each}"
            continue
        if at_keyboard:
            named = book.get(each)
            warn(f"  {shown(each)}  {named.title if named else 'not in this tin'}")
        yield each


def _refuse_half_seen(faults: Sequence[str]) -> None:
    if faults:
        raise BadDataError(
            f"Nothing was changed, as {count(len(faults), 'photo or line', 'photos or lines')}"
            " could not be read.",
            hint="Put that right, or leave it out.",
        )


def _page(stock: Stocktake, book: NameBook, written: tuple[int, int] | None) -> Iterator[str]:
    name = stock.store.name
    seen = len(stock.found) + len(stock.misplaced)
    yield (
        f"{name}: {count(len(stock.found), 'packet')} found as written,"
        f" {len(stock.missing)} missing, {len(stock.misplaced)} of another store,"
        f" {count(len(stock.strangers), 'stranger')}."
    )
    yield from _part(f"Missing: {name} should hold them", stock.missing, book)
    yield from _part("Here, but written down elsewhere", stock.misplaced, book, stores=True)
    yield from _part("Here, though empty by the tin: recount them", stock.empty_but_there, book)
    if stock.strangers:
        yield from ("", "Not in this tin", *(f"  {shown(code)}" for code in stock.strangers))
    if stock.others:
        yield ""
        yield "Not packets, and left out: " + ", ".join(map(shown, stock.others)) + "."
    yield from ("", *_ending(stock, written, seen))


def _part(
    heading: str, dossiers: Sequence[Dossier], book: NameBook, *, stores: bool = False
) -> Iterator[str]:
    if not dossiers:
        return
    yield from ("", heading)
    for each in dossiers:
        named = book.get(each.packet.code)
        lies = f"  ({each.store.name if each.store else 'no store yet'})" if stores else ""
        yield f"  {shown(each.packet.code)}  {named.title if named else ''}{lies}"


def _ending(stock: Stocktake, written: tuple[int, int] | None, seen: int) -> Iterator[str]:
    if written is None:
        if stock.is_as_written:
            yield "All is as the tin says." if seen else "Nothing was seen, and nothing is missing."
        if stock.misplaced:
            yield "Move them here with --write."
        if stock.missing:
            yield "A packet not seen may only be hidden: look again before you use --gone."
        return
    moved, gone = written
    if not moved and not gone:
        yield "Nothing was to be changed."
        return
    told = [f"moved {count(moved, 'packet')} here"] if moved else []
    told += [f"wrote {count(gone, 'packet')} off as empty"] if gone else []
    sentence = " and ".join(told)
    yield f"{sentence[0].upper()}{sentence[1:]}."
    yield "Undo with: seedbox undo"


def _json(
    stock: Stocktake, faults: Sequence[str], written: tuple[int, int] | None
) -> dict[str, Any]:
    def codes(dossiers: Sequence[Dossier]) -> list[str]:
        return [each.packet.code for each in dossiers]

    return {
        "store": stock.store.name,
        "found": codes(stock.found),
        "missing": codes(stock.missing),
        "misplaced": [
            {"code": each.packet.code, "store": each.store.name if each.store else None}
            for each in stock.misplaced
        ],
        "empty_but_there": codes(stock.empty_but_there),
        "empty_and_not_seen": codes(stock.spent),
        "not_in_this_tin": stock.strangers,
        "not_packets": stock.others,
        "problems": faults,
        "moved": written[0] if written else 0,
        "written_off": written[1] if written else 0,
    }
