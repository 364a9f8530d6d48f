"""`scan`: photos of labels become a list, and one change for all that is in them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import changed, say, say_json, warn
from seedbox.cli.params import WORDS
from seedbox.cli.session import Session
from seedbox.errors import BadDataError, NotFoundError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from seedbox.scanning.photos import Scan
    from seedbox.season.named import NameBook, Named
    from seedbox.tin.file import Tin

_WHY = {
    "sown": "What was taken was sown (this is what is assumed).",
    "given": "What was taken was given away or swapped.",
    "lost": "What was taken is lost, spilt or thrown away.",
}
_HINT = (
    "Hold the camera flat above, nearer and still, in even light; wipe the labels."
    " Or look harder with --thorough, or type a code: seedbox show CODE"
)


def _reasons(function: click.decorators.FC) -> click.decorators.FC:
    for word, help_text in reversed(_WHY.items()):
        function = click.option(f"--{word}", "kind", flag_value=word, help=help_text)(function)
    return function


@seedbox_command("scan")
@click.argument(
    "photos", nargs=-1, required=True, metavar="PHOTO...", type=click.Path(path_type=Path)
)
@click.option("--open", "opening", is_flag=True, help="Show what the one code in the photo names.")
@click.option("--take", type=WORDS, help="Take so much out of each packet: 20, 2.5g, all or some.")
@_reasons
@click.option(
    "--move",
    "to",
    type=WORDS,
    shell_complete=completing.stores,
    help="Move the packets to a store.",
)
@click.option("--done", type=WORDS, help="A job is done for each sowing: due, thin, pot-on, ….")
@click.option("--thorough", is_flag=True, help="Look in every way there is; takes much longer.")
@json_option
@click.pass_context
def command(
    ctx: click.Context,
    *,
    photos: tuple[Path, ...],
    opening: bool,
    take: str | None,
    kind: str | None,
    to: str | None,
    done: str | None,
    thorough: bool,
    as_json: bool,
) -> None:
    """List what is in photos of packets, labels or trays: JPEG, PNG or WebP, many codes at once.

    Each change is one for all that is seen, and is undone as one. A photo that cannot be read
    stops a change. Codes of strangers are shown as text and never opened.

    \b
    seedbox scan tin.jpg more.jpg
    seedbox scan swap.jpg --take 20 --given
    seedbox scan trays.jpg --done thin
    """
    from seedbox.cli.scan_changes import refuse_two
    from seedbox.scanning.photos import scan_photos
    from seedbox.season.named import NameBook, told_apart

    session: Session = ctx.obj
    refuse_two(opening, take, to, done)
    wanted = {"take": take, "kind": kind, "to": to, "done": _job_word(done)}
    _refuse_reason_alone(kind, take)
    with session.tin() as tin:
        scan = scan_photos(photos, thorough=thorough)
        warn(*map(str, scan.problems))
        _refuse_no_photo(scan)
        book = NameBook(tin, session.today)
        named, strangers = told_apart(book, [each.code for each in scan.codes])
        is_change = take is not None or to is not None or done is not None
        if is_change and scan.problems:
            raise BadDataError("Nothing was changed, as not every photo could be read.")
        told = _change(tin, session, named, wanted) if is_change else ""
    if opening:
        _open(ctx, scan, named, book, as_json)
    elif told:
        changed(told, as_json=as_json, codes=[each.code for each in named])
    else:
        _report(scan, named, strangers, book, as_json)


def _job_word(text: str | None) -> str | None:
    from seedbox.cli.scan_changes import job_words
    from seedbox.errors import UsageError

    word = None if text is None else "-".join(text.casefold().split())
    if word is not None and word not in job_words():
        raise UsageError(f"“{text}” is no job for many trays: use {', '.join(job_words())}.")
    return word


def _refuse_reason_alone(kind: str | None, take: str | None) -> None:
    from seedbox.errors import UsageError

    if kind and take is None:
        raise UsageError(f"--{kind} says why seed was taken: add --take with how much.")


def _refuse_no_photo(scan: Scan) -> None:
    if not scan.read:
        raise BadDataError("No photo could be read.")


def _change(tin: Tin, session: Session, named: Sequence[Named], wanted: dict[str, Any]) -> str:
    from seedbox.cli.scan_changes import do_jobs, move_all, packets_of, take_from_all
    from seedbox.tin.records import MovementKind

    day = session.today
    if wanted["done"] is not None:
        return do_jobs(tin, named, wanted["done"], today=day)
    packets = packets_of(named)
    if wanted["to"] is not None:
        return move_all(tin, packets, wanted["to"], today=day)
    return take_from_all(
        tin, packets, wanted["take"], MovementKind(wanted["kind"] or "sown"), today=day
    )


def _open(
    ctx: click.Context, scan: Scan, named: Sequence[Named], book: NameBook, as_json: bool
) -> None:
    """The page of the only thing seen: packet, sowing or test. Where there is no code of ours, a
    shop's number proposes the latest packet that came with it.
    """
    from seedbox.cli.words import count
    from seedbox.errors import UsageError
    from seedbox.season.named import stranger_words

    if len(named) > 1:
        raise UsageError(
            f"{count(len(named), 'code')} were seen, and --open shows one.",
            hint="List them without --open, then: seedbox show CODE",
        )
    if named:
        _show(ctx, named[0], as_json)
    elif scan.codes:
        raise NotFoundError(f"{stranger_words(scan.codes[0].code)}.")
    else:
        _show(ctx, _proposed(scan, book), as_json)


def _show(ctx: click.Context, one: Named, as_json: bool) -> None:
    if one.test is not None:
        from seedbox.cli.commands.germination_test.show import command as show_test

        ctx.invoke(show_test, test=one.code, as_json=as_json)
        return
    from seedbox.cli.commands.show import command as show

    ctx.invoke(show, code=one.code, as_json=as_json)


def _proposed(scan: Scan, book: NameBook) -> Named:
    """The latest packet that came with a shop's number in the photo, with a word of warning."""
    known = [(each.text, book.with_trade_number(each.text)) for each in scan.trade_numbers]
    found = [(number, packets) for number, packets in known if packets]
    if len(found) != 1:
        few = "No packet of this tin came with the number" if known else "No code was seen"
        raise NotFoundError(f"{few if not found else 'Several numbers were seen'}.", hint=_HINT)
    number, packets = found[0]
    which = f"the latest of {len(packets)} packets" if len(packets) > 1 else "a packet"
    warn(
        f"{number} is a shop's number: this is {which} that came with it. It tells the variety,"
        " not which packet you hold."
    )
    return packets[0]


def _report(
    scan: Scan, named: Sequence[Named], strangers: Sequence[str], book: NameBook, as_json: bool
) -> None:
    from seedbox.cli.scan_page import page

    if as_json:
        say_json(_json(scan, named, strangers, book))
    else:
        say(*page(scan, named, strangers, book))
    if not (scan.codes or scan.trade_numbers or scan.foreign):
        raise NotFoundError("No code could be read.", hint=_HINT)


def _json(
    scan: Scan, named: Sequence[Named], strangers: Sequence[str], book: NameBook
) -> dict[str, Any]:
    from seedbox.cli.scan_changes import facts

    places = {
        each.code: {"photo": each.photo, "x": each.centre[0], "y": each.centre[1]}
        for each in scan.codes
    }
    return {
        "photos": scan.read,
        "seen": [{**fact, **places[str(fact["code"])]} for fact in facts(named)],
        "not_in_this_tin": [{"code": code, **places[code]} for code in strangers],
        "trade_numbers": [
            {
                "number": each.text,
                "photo": each.photo,
                "packets": [packet.code for packet in book.with_trade_number(each.text)],
            }
            for each in scan.trade_numbers
        ],
        "other_codes": scan.foreign,
        "problems": scan.problems,
    }
