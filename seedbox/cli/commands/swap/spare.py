"""`swap spare`: what of each packet can be given away, and why not more."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import click

from seedbox.cli import completing
from seedbox.cli.codes import many_codes
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json
from seedbox.cli.params import WORDS, Whole
from seedbox.cli.session import Session
from seedbox.cli.swap_words import (
    OFFER_COLUMNS,
    caution_lines,
    law_lines,
    offer_row,
    portions,
    spare_facts,
)
from seedbox.cli.tables import room, table, wrapped
from seedbox.cli.words import count

if TYPE_CHECKING:
    from seedbox.season.swapping.spare import Spare
    from seedbox.tin.file import Tin


@seedbox_command("spare", short_help="Say what can be given away, and why not more.")
@click.argument(
    "codes",
    nargs=-1,
    metavar="[CODE]...",
    callback=many_codes,
    shell_complete=completing.codes,
)
@click.option("--crop", type=WORDS, shell_complete=completing.crops, help="Only this crop.")
@click.option("--all", "every", is_flag=True, help="Also packets of which nothing is spare.")
@click.option("--why", is_flag=True, help="Say the reason for every packet.")
@click.option(
    "--seasons",
    type=Whole("seasons", 1, 10),
    default=2,
    help="Keep back seed for so many seasons; 2 are this one and the next.",
)
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    *,
    codes: list[str],
    crop: str | None,
    every: bool,
    why: bool,
    seasons: int,
    as_json: bool,
) -> None:
    """Say what of each packet is spare, in seeds and in swap portions.

    Spare is what the plans of this season and the next will not use while the seed stays good;
    of a variety that nobody sells, enough always stays to grow it again. A portion is enough for
    plants worth growing. Spent seed is given to nobody; poor seed says that it is poor.

    \b
    seedbox swap spare --why
    seedbox swap spare P4K7QMX2
    """
    from seedbox.season.swapping.spare import spare_of

    with session.tin() as tin:
        law = tin.settings().swap_law
        found = spare_of(tin, session.today, seasons=seasons)
        wanted = [tin.packet(code).code for code in codes]
        crop_id = _crop_id(tin, crop)
    if wanted or crop_id:
        found = tuple(one for one in found if _asked(one, wanted, crop_id))
    if as_json:
        say_json([spare_facts(one) for one in found])
        return
    few = bool(wanted) or (why and bool(crop_id))  # every one of them has its reason
    say(*_page(found, every=every or few, why=why or few), *law_lines(law))


def _crop_id(tin: Tin, crop: str | None) -> str:
    from seedbox.cli.lookup import crop_book

    return crop_book(tin).crop_id(crop) if crop else ""


def _asked(one: Spare, codes: Sequence[str], crop_id: str) -> bool:
    return (not codes or one.code in codes) and crop_id in ("", one.line.packet.crop_id)


def _page(found: Sequence[Spare], *, every: bool, why: bool) -> Iterator[str]:
    offered = [one for one in found if one.portions]
    held = [one for one in found if one.held and one.could_give]
    rest = [one for one in found if not one.portions and one not in held]
    if offered:
        yield from table(OFFER_COLUMNS, [offer_row(one.offer) for one in offered], room())
        yield ""
    yield from wrapped(_sum(offered, held, rest, told=every))
    if why and offered:
        yield from _reasons("Why so much", offered)
    if held:
        yield from _held(held, why=why)
    if every and rest:
        yield from _reasons("Nothing spare", rest)
    yield from caution_lines(one.offer for one in offered)


def _sum(
    offered: Sequence[Spare], held: Sequence[Spare], rest: Sequence[Spare], *, told: bool
) -> str:
    total = sum(one.portions for one in offered)
    given = f"{portions(total)} of {count(len(offered), 'packet')} to give away"
    parts = [given if offered else "Nothing to give away"]
    if held:
        parts.append(f"{len(held)} held back")
    if rest:
        parts.append(f"{len(rest)} with nothing spare{'' if told else ' (--all says why)'}")
    return f"{'; '.join(parts)}."


def _held(held: Sequence[Spare], *, why: bool) -> Iterator[str]:
    yield ""
    yield "Held back until you say: seedbox swap offer CODE"
    for one in held:
        named = f"{one.line.code} {one.line.crop} {one.line.packet.variety}".strip()
        reason = one.why if why else f"{portions(one.could_give)}. {one.held}"
        yield from wrapped(f"{named}: {reason}", "  - ", "    ")


def _reasons(title: str, found: Sequence[Spare]) -> Iterator[str]:
    yield ""
    yield title
    for one in found:
        named = f"{one.line.crop} {one.line.packet.variety}".strip()
        yield from wrapped(f"{one.line.code} {named}: {one.why}", "  - ", "    ")
