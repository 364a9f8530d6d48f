"""`swap want`: what you would like to get at a swap."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.lookup import crop_and_variety, crop_book
from seedbox.cli.output import changed, say, say_json
from seedbox.cli.params import WORDS, Whole
from seedbox.cli.session import Session
from seedbox.cli.swap_words import portions as portions_text
from seedbox.cli.tables import Column, room, table
from seedbox.cli.words import count
from seedbox.errors import NotFoundError, UsageError

if TYPE_CHECKING:
    from seedbox.season.crops import CropBook
    from seedbox.tin.file import Tin
    from seedbox.tin.list_records import Want

_COLUMNS = (
    Column("crop", least=10),
    Column("variety", least=8),
    Column("portions", right=True),
    Column("worth", right=True),
    Column("note", least=10),
)


@seedbox_command("want", short_help="List, add, change or strike out what you look for.")
@click.argument("what", nargs=-1, metavar="[CROP [VARIETY]]", shell_complete=completing.crops)
@click.option("--variety", type=WORDS, help="Only this variety; left out, any will do.")
@click.option("--portions", type=Whole("portions", 1, 1000), help="How many; 1 if not said.")
@click.option("--worth", type=Whole("worth", 1, 5), help="1 nice to have, 5 badly wanted; usual 3.")
@click.option("--note", type=WORDS, help="Anything worth knowing, for yourself alone.")
@click.option("--remove", is_flag=True, help="Strike it out.")
@click.option("--from-buy", is_flag=True, help="Take in what `seedbox buy` says is missing.")
@json_option
@click.pass_obj
def command(session: Session, /, what: tuple[str, ...], as_json: bool, **given: Any) -> None:
    """Write down what you look for: a CROP, perhaps one VARIETY, how much and how dear.

    Without a CROP it lists what is wanted. A want that is there already is changed.

    \b
    seedbox swap want tomato --variety "Weir Lamp" --portions 2 --worth 4
    seedbox swap want tomato "Weir Lamp" --remove
    seedbox swap want --from-buy
    """
    words, remove = _words(what, remove=given["remove"])
    said = [name for name in ("variety", "portions", "worth", "note") if given[name] is not None]
    if given["from_buy"]:
        if words or said or remove:
            raise UsageError("--from-buy reckons for itself: leave the rest out.")
        _from_buy(session, as_json)
    elif not words:
        if said or remove:
            raise UsageError("Say which crop.", hint="Such as: seedbox swap want tomato")
        _list(session, as_json)
    elif remove:
        if set(said) - {"variety"}:
            raise UsageError("What is struck out has no portions, worth or note.")
        _remove(session, words, given["variety"], as_json)
    else:
        _write(session, words, given, as_json)


def _words(what: tuple[str, ...], *, remove: bool) -> tuple[tuple[str, ...], bool]:
    """`want list` and `want remove CROP` are understood as well."""
    if what[:1] == ("list",) and len(what) == 1:
        return (), remove
    if what[:1] == ("remove",):
        return what[1:], True
    return what, remove


def _subject(book: CropBook, words: Sequence[str], variety: str | None) -> tuple[str, str]:
    crop_id, behind = crop_and_variety(book, words)
    if variety and behind:
        raise UsageError(f"The variety is said twice: “{behind}” and “{variety}”.")
    return crop_id, variety or behind


def _find(tin: Tin, crop_id: str, variety: str) -> Want | None:
    folded = variety.casefold()
    return next(
        (w for w in tin.wants() if (w.crop_id, w.variety.casefold()) == (crop_id, folded)), None
    )


def _write(session: Session, words: tuple[str, ...], given: dict[str, Any], as_json: bool) -> None:
    from seedbox.tin.wants import add_want, change_want

    fields = {
        name: given[name] for name in ("portions", "worth", "note") if given[name] is not None
    }
    with session.tin(create=True) as tin:
        book = crop_book(tin)
        crop_id, variety = _subject(book, words, given["variety"])
        before = _find(tin, crop_id, variety)
        if before is None:
            want = add_want(tin, crop_id, variety=variety, **fields)
        else:
            want = change_want(tin, before.id, **fields) if fields else before
    verb = "Wanted" if before is None else "Wanted now"
    changed(f"{verb}: {_told(book, want)}.", as_json=as_json, want=_facts(book, want))


def _remove(session: Session, words: tuple[str, ...], variety: str | None, as_json: bool) -> None:
    from seedbox.tin.wants import remove_want

    with session.tin() as tin:
        book = crop_book(tin)
        crop_id, named = _subject(book, words, variety)
        want = _find(tin, crop_id, named)
        if want is None:
            raise NotFoundError(
                f"{book.name(crop_id)} {named}".strip() + " is not among the wants.",
                hint="See them with: seedbox swap want",
            )
        remove_want(tin, want.id)
    changed(f"Struck out: {_told(book, want)}.", as_json=as_json, want=_facts(book, want))


def _from_buy(session: Session, as_json: bool) -> None:
    from seedbox.cli.described import refuse_undescribed
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.swapping.wants import wants_from_buy

    with session.tin() as tin:
        desk = Desk(tin, session.today)
        refuse_undescribed(desk)
        taken = wants_from_buy(tin, session.today, desk)
    book, new = desk.listing.book, (*taken.added, *taken.changed)
    if not new and not as_json:
        say("Nothing is missing for the plans that is not wanted already.")
        return
    said = "; ".join(_told(book, want) for want in new)
    changed(
        f"Taken from what is missing: {said}." if new else "Nothing new is missing.",
        as_json=as_json,
        added=[_facts(book, want) for want in taken.added],
        changed=[_facts(book, want) for want in taken.changed],
        left=[_facts(book, want) for want in taken.left],
    )


def _list(session: Session, as_json: bool) -> None:
    from seedbox.season.swapping.wants import dearest_first

    with session.tin() as tin:
        book, wants = crop_book(tin), tin.wants()
    ordered = dearest_first(wants, book)
    if as_json:
        say_json([_facts(book, want) for want in ordered])
        return
    say(*_page(book, ordered))


def _page(book: CropBook, wants: Sequence[Want]) -> Iterator[str]:
    if not wants:
        yield "Nothing is wanted."
        yield "Write it down with: seedbox swap want CROP"
        return
    rows = [
        (book.name(w.crop_id), w.variety or "any", str(w.portions), str(w.worth), w.note)
        for w in wants
    ]
    yield from table(_COLUMNS, rows, room())
    yield ""
    yield f"{count(len(wants), 'want')}, {portions_text(sum(w.portions for w in wants))}."


def _told(book: CropBook, want: Want) -> str:
    what = f"{book.name(want.crop_id)} {want.variety}".strip()
    which = what if want.variety else f"any {what}"
    return f"{portions_text(want.portions)} of {which}, worth {want.worth} of 5"


def _facts(book: CropBook, want: Want) -> dict[str, Any]:
    return {
        "crop": book.name(want.crop_id),
        "crop_id": want.crop_id,
        "variety": want.variety,
        "portions": want.portions,
        "worth": want.worth,
        "note": want.note,
    }
