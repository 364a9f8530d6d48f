"""`swap receive`: portions that somebody gave become a packet of their own."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.packet_options import TREATMENT
from seedbox.cli.params import DAY, SHARE, WORDS, YEAR, Whole
from seedbox.cli.session import Session
from seedbox.errors import NotFoundError, UsageError

if TYPE_CHECKING:
    from seedbox.season.crops import CropBook
    from seedbox.season.swapping.records import Germination, Offer

_SEEDS = Whole("seeds", 1, 1_000_000)


@seedbox_command("receive", short_help="Put seed that somebody gave you into a new packet.")
@click.argument(
    "what", nargs=-1, required=True, metavar="CROP [VARIETY]", shell_complete=completing.crops
)
@click.option("--from", "giver", type=WORDS, default="", help="Who gave it.")
@click.option("--portions", type=Whole("portions", 1, 1000), default=1, help="How many; 1.")
@click.option("--seeds", type=_SEEDS, help="Seeds in a portion; left out, not counted.")
@click.option("--harvest", type=YEAR, help="Year of harvest: the best thing to know.")
@click.option("--packed", type=YEAR, help="Year on the packet, if the harvest is not known.")
@click.option("--tested", type=_SEEDS, help="Seeds in their germination test.")
@click.option("--germinated", type=Whole("seeds", 0), help="How many of those came up.")
@click.option("--tested-on", type=DAY, help="The day of their test.")
@click.option("--printed", type=SHARE, help="Germination printed on the bought packet, 85%.")
@click.option("--treated", type=TREATMENT, help="none, dressed, pelleted or primed.")
@click.option("--hybrid", is_flag=True, help="It is an F1 hybrid.")
@click.option("--store", type=WORDS, shell_complete=completing.stores, help="Where it lies now.")
@click.option("--own-crop", is_flag=True, help="Keep an unknown CROP as a crop of your own.")
@json_option
@click.pass_obj
def command(session: Session, /, what: tuple[str, ...], as_json: bool, **given: Any) -> None:
    """Put seed of CROP and VARIETY that somebody gave you into a packet of its own.

    Their test counts, with less trust than your own. Wants that it meets go off the list.

    \b
    seedbox swap receive tomato "Weir Lamp" --from Maud --seeds 25 --harvest 2026
    """
    from seedbox.cli.lookup import crop_book, store_among
    from seedbox.cli.swap_booking import report
    from seedbox.season.swapping.booking import Receive, book

    with session.tin(create=True) as tin:
        offer = _offer(crop_book(tin), what, given, session.today)
        store = store_among(tin.stores(), given["store"]).name if given["store"] else ""
        came = Receive(offer, given["portions"], given["giver"])
        booked = book(tin, (), (came,), today=session.today, store=store)
        report(session, tin, booked, labels=None, as_json=as_json)


def _offer(book: CropBook, what: tuple[str, ...], given: dict[str, Any], today: date) -> Offer:
    from seedbox.season.swapping.records import Offer
    from seedbox.tin.records import Treatment

    crop, crop_id, variety = _crop(book, what, own=given["own_crop"])
    return Offer(
        code="",
        crop=crop,
        crop_id=crop_id,
        variety=variety,
        portions=given["portions"],
        seeds_per_portion=given["seeds"],
        germination=_germination(given, today),
        harvest_year=given["harvest"],
        treatment=Treatment(given["treated"] or "none"),
        hybrid=given["hybrid"],
        packed_year=given["packed"],
    )


def _crop(book: CropBook, what: tuple[str, ...], *, own: bool) -> tuple[str, str, str]:
    """The crop's name and id, '' for one to be made, and the variety."""
    from seedbox.cli.lookup import crop_and_variety

    try:
        crop_id, variety = crop_and_variety(book, what)
    except NotFoundError as error:
        if book.answer(what[0]).clashes:
            raise
        if own:
            return what[0], "", " ".join(what[1:])
        keep = "Keep it as a crop of your own with --own-crop."
        error.hint = " ".join(filter(None, (error.hint, keep)))
        raise
    return book.name(crop_id), crop_id, variety


def _germination(given: dict[str, Any], today: date) -> Germination:
    from seedbox.season.swapping.records import Germination
    from seedbox.tin.drafts import past_day_problem

    test = [given[name] for name in ("tested", "germinated", "tested_on")]
    known = [part is not None for part in test]
    if any(known) and not (known[0] and known[1]):
        raise UsageError("Their test needs both --tested and --germinated.")
    if all(known[:2]) and given["germinated"] > given["tested"]:
        raise UsageError("More seeds germinated than were tested.")
    if given["tested_on"] and (fault := past_day_problem(given["tested_on"], today)):
        raise UsageError(fault)
    on = (given["tested_on"] or today) if known[0] else None
    return Germination(
        tested_on=on,
        tested_seeds=given["tested"],
        germinated=given["germinated"],
        printed=given["printed"],
    )
