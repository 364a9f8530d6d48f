"""`add`: a packet comes into the tin."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.lookup import crop_and_variety, crop_book, store_among
from seedbox.cli.output import changed
from seedbox.cli.packet_options import fields_of, packet_options, refuse_test_date_alone
from seedbox.cli.params import DAY, WORDS, Number
from seedbox.cli.session import Session
from seedbox.errors import NotFoundError, UsageError
from seedbox.tin.codes import shown
from seedbox.tin.records import Kind, Unit
from seedbox.tin.stock_words import stock_word

if TYPE_CHECKING:
    from seedbox.tin.file import Tin
    from seedbox.tin.packets import PacketDraft


@seedbox_command("add")
@click.argument(
    "words", nargs=-1, required=True, metavar="CROP [VARIETY]", shell_complete=completing.crops
)
@click.option("--seeds", type=Number("number", 0), help="How many seeds; left out, not counted.")
@click.option("--grams", type=Number("number", 0), help="How many grams, instead of --seeds.")
@packet_options
@click.option("--store", type=WORDS, shell_complete=completing.stores, help="Where it lies.")
@click.option("--since", type=DAY, help="Since when it lies there, if not since it was received.")
@click.option("--sealed", is_flag=True, default=None, help="It is sealed, whatever the store is.")
@click.option("--moisture", type=Number("per cent", 1, 30), help="Moisture when sealed, per cent.")
@click.option("--code", type=WORDS, help="A code that the packet carries already.")
@click.option(
    "--stock/--seed",
    default=None,
    help="Planting stock (sets, cloves, tubers), or true seed; left out, by the words.",
)
@click.option("--own-crop", is_flag=True, help="Keep an unknown CROP as a crop of your own.")
@click.option("--family", type=WORDS, default="", help="Botanical family of an own crop.")
@json_option
@click.pass_obj
def command(session: Session, /, words: tuple[str, ...], as_json: bool, **given: Any) -> None:
    """Add a packet of CROP, under any of its names, and VARIETY.

    \b
    seedbox add tomato "Old Bargeman" --harvest 2024 --seeds 40 --store drawer
    seedbox add "broad bean" --bought 2025 --grams 120 --from "Seed swap at Hobbin Beck"
    """
    if given["seeds"] is not None and given["grams"] is not None:
        raise UsageError("Give --seeds or --grams, not both: a packet is kept in one unit.")
    _refuse_storage_without_store(given)
    refuse_test_date_alone(given["germination"], given["tested_on"])
    with session.tin(create=True) as tin:
        code, crop, variety = _add(tin, words, given, session.today)
        said, facts = _described(tin, code, session.today)
        if given["stock"] is None and facts["kind"] == Kind.STOCK:
            said += f" Taken for planting stock; if it is seed: seedbox edit {shown(code)} --seed."
    changed(
        f"Added {said}",
        as_json=as_json,
        **{"code": code, "crop": crop, "variety": variety, **facts},
    )


def _refuse_storage_without_store(given: dict[str, Any]) -> None:
    for name in ("since", "sealed", "moisture"):
        if given[name] is not None and not given["store"]:
            raise UsageError(f"--{name} tells how it lies in a store: name it with --store.")


def _add(
    tin: Tin, words: tuple[str, ...], given: dict[str, Any], today: date
) -> tuple[str, str, str]:
    """One change, named as a person would name it: a new own crop is part of it."""
    from seedbox.tin.packets import add_packet

    crop_id, variety = _crop(tin, words, given)
    name = words[0] if crop_id is None else crop_book(tin).name(crop_id)
    with tin.change(f"Add {', '.join(filter(None, (name, variety)))}"):
        if crop_id is None:
            crop_id = _new_own_crop(tin, words[0], given["family"])
        packet = add_packet(tin, _draft(tin, words, crop_id, variety, given), today=today)
    return packet.code, name, packet.variety


def _crop(tin: Tin, words: tuple[str, ...], given: dict[str, Any]) -> tuple[str | None, str]:
    """The crop's id, None for one to be made, and the variety."""
    book = crop_book(tin)
    try:
        crop_id, variety = crop_and_variety(book, words)
    except NotFoundError as error:
        if book.answer(words[0]).clashes:
            raise
        if given["own_crop"]:
            return None, " ".join(words[1:])
        keep = "Keep it as a crop of your own with --own-crop"
        keep += "." if given["stock"] else "; other planting stock wants --stock too."
        error.hint = " ".join(filter(None, (error.hint, keep)))
        raise
    return crop_id, variety


def _new_own_crop(tin: Tin, name: str, family: str) -> str:
    from seedbox.tin.own import add_own_crop

    return add_own_crop(tin, name, family=family).id


def _is_stock(words: tuple[str, ...], given: dict[str, Any]) -> bool:
    """As said, else by the words; a germination that is given speaks for seed."""
    if given["stock"] is not None:
        return bool(given["stock"])
    return given["germination"] is None and bool(stock_word(words[0], " ".join(words[1:])))


def _draft(
    tin: Tin, words: tuple[str, ...], crop_id: str, variety: str, given: dict[str, Any]
) -> PacketDraft:
    from seedbox.tin.packets import PacketDraft

    grams, seeds = given["grams"], given["seeds"]
    store = store_among(tin.stores(), given["store"]) if given["store"] else None
    kind = Kind.STOCK if _is_stock(words, given) else Kind.SEED
    unit = Unit.GRAMS if grams is not None else Unit.SEEDS if seeds is not None else None
    return PacketDraft(
        crop_id=crop_id,
        variety=variety,
        kind=kind,
        code=given["code"],
        amount=seeds if grams is None else grams,
        unit=unit,
        store_id=store.id if store else None,
        stored_from=given["since"],
        sealed=given["sealed"],
        moisture=given["moisture"],
        **fields_of(tin, given),
    )


def _described(tin: Tin, code: str, today: date) -> tuple[str, dict[str, Any]]:
    """The new packet in one sentence, with its forecast where it has one."""
    from seedbox.cli.commands.list_packets import facts
    from seedbox.cli.words import germination
    from seedbox.season.listing import Listing

    listing = Listing(tin, today)
    line = listing.forecast(listing.line(code))
    name = ", ".join(filter(None, (line.crop, line.packet.variety)))
    where = f", in {line.store}" if line.store else ""
    forecast = line.forecast
    share = germination(forecast.mean, forecast.low, forecast.high) if forecast else ""
    lives = f" Germination now about {share}: {line.advice}." if share else ""
    return f"{line.code}: {name}, {line.left}{where}.{lives}", facts(line)
