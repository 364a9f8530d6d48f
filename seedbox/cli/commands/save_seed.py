"""`save-seed`: which plans give seed that comes true, how to dry it, and its new packet."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.codes import whole_codes
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.params import WORDS, YEAR, Number
from seedbox.cli.session import Session
from seedbox.errors import UsageError

if TYPE_CHECKING:
    from seedbox.tin.file import Tin

_GRAMS = Number("grams", 0.01, 100_000)
_WANTS_PARENT = ("seeds", "grams", "variety", "harvest", "store", "note")


@seedbox_command("save-seed")
@click.argument("code", nargs=-1, metavar="[CODE]", shell_complete=completing.packets_and_sowings)
@click.option("--seeds", type=Number("seeds", 1, 10_000_000), help="How many seeds were saved.")
@click.option("--grams", type=_GRAMS, help="How much they weigh, in grams.")
@click.option("--variety", type=WORDS, help="Another name: a cross deserves one of its own.")
@click.option("--harvest", type=YEAR, help="The year of harvest, if not this one.")
@click.option("--store", type=WORDS, shell_complete=completing.stores, help="Where it lies now.")
@click.option("--note", type=WORDS, default="", help="Anything worth knowing.")
@click.option("--dry", type=_GRAMS, help="Only say how to dry so many grams of the seed.")
@click.option("--moisture", type=Number("per cent", 1, 40), help="Its moisture now; 12 % air-dry.")
@click.option("--crop", type=WORDS, shell_complete=completing.crops, help="Only this crop.")
@json_option
@click.pass_obj
def command(session: Session, /, code: tuple[str, ...], as_json: bool, **given: Any) -> None:
    """Say which plants give seed that comes true, or put saved seed into a new packet.

    Without a CODE: for all that is planned or growing, whether its seed comes true, how many
    plants it takes, and when it is ripe. With the CODE of the parent, a packet or a sowing, the
    saved seed gets a packet of its own that is linked to it.

    \b
    seedbox save-seed --crop tomato
    seedbox save-seed S4K7QMX2 --grams 12 --store "seed jar"
    seedbox save-seed S4K7QMX2 --dry 12 --moisture 12
    """
    codes = whole_codes(code)
    _refuse_mixed(codes, given)
    with session.tin() as tin:
        if not codes:
            _advise(session, tin, given["crop"], as_json)
        elif given["dry"] is not None:
            _dry(tin, codes[0], given, as_json)
        else:
            _save(session, tin, codes[0], given, as_json)


def _refuse_mixed(codes: list[str], given: dict[str, Any]) -> None:
    if len(codes) > 1:
        raise UsageError(f"One parent is wanted, not {len(codes)}.")
    if not codes and (given["dry"] is not None or any(given[name] for name in _WANTS_PARENT)):
        raise UsageError("Name the parent first: the code of a packet or of a sowing.")
    if codes and given["crop"]:
        raise UsageError("--crop narrows the advice; with a code it has no meaning.")
    if given["seeds"] is not None and given["grams"] is not None:
        raise UsageError("Give --seeds or --grams, not both.")
    if given["dry"] is not None and any(given[name] for name in _WANTS_PARENT):
        raise UsageError("--dry only tells how to dry: save the seed in a command of its own.")
    if given["moisture"] is not None and given["dry"] is None and not given["grams"]:
        raise UsageError("--moisture is for drying: give --dry or --grams too.")


def _advise(session: Session, tin: Tin, crop: str | None, as_json: bool) -> None:
    from seedbox.cli.described import refuse_undescribed
    from seedbox.cli.saving_page import say_advice
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.sowing.saving_seed import saving_advice

    desk = Desk(tin, session.today)
    refuse_undescribed(desk)
    crop_id = desk.listing.book.crop_id(crop) if crop else ""
    found = [one for one in saving_advice(desk) if crop_id in ("", one.crop_id)]
    say_advice(found, as_json)


def _dry(tin: Tin, code: str, given: dict[str, Any], as_json: bool) -> None:
    from seedbox.cli.saving_page import say_drying

    crop_id = _crop_of(tin, code)
    say_drying(_drying(crop_id, given["dry"], given["moisture"]), as_json)


def _drying(crop_id: str, grams: float, moisture: float | None) -> Any:
    from seedbox.season.sowing.new_seed import AIR_DRY_PERCENT, drying

    return drying(crop_id, grams, AIR_DRY_PERCENT if moisture is None else moisture)


def _crop_of(tin: Tin, code: str) -> str:
    from seedbox.tin.codes import parse

    if parse(code)[0] != "S":
        return tin.packet(code).crop_id
    packet_id = tin.sowing(code).packet_id
    return next(packet.crop_id for packet in tin.packets() if packet.id == packet_id)


def _save(session: Session, tin: Tin, code: str, given: dict[str, Any], as_json: bool) -> None:
    from seedbox.cli.lookup import store_among
    from seedbox.cli.saving_page import say_saved
    from seedbox.season.sowing.new_seed import save_seed
    from seedbox.tin.records import Unit

    grams = given["grams"]
    packet = save_seed(
        tin,
        code,
        today=session.today,
        amount=given["seeds"] if grams is None else grams,
        unit=Unit.SEEDS if grams is None else Unit.GRAMS,
        variety=given["variety"],
        harvest_year=given["harvest"],
        store=store_among(tin.stores(), given["store"]).name if given["store"] else "",
        note=given["note"],
    )
    dried = None if grams is None else _drying(packet.crop_id, grams, given["moisture"])
    say_saved(tin, packet, dried, as_json)
