"""`now`: what this tin can sow now in this garden, where, and how many; and why not the rest."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from seedbox.cli import completing
from seedbox.cli.aims import aim_of, aim_options, aim_typed
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.output import say, say_json, warn
from seedbox.cli.params import WORDS
from seedbox.cli.session import Session
from seedbox.cli.tables import wrapped

if TYPE_CHECKING:
    from seedbox.season.sowing.now import SowingNow
    from seedbox.season.sowing.offers import Offer

_PLACE = 'seedbox place add "kitchen windowsill" --kind windowsill --temperature 18'
_SHOWN = 12


@seedbox_command("now")
@click.option("--crop", type=WORDS, shell_complete=completing.crops, help="Only this crop.")
@click.option("--place", type=WORDS, shell_complete=completing.places, help="Only in this place.")
@aim_options
@click.option("--all", "everything", is_flag=True, help="All that can be sown, not the first few.")
@click.option("--left-out", is_flag=True, help="Also say why the other packets are not sown now.")
@json_option
@click.pass_obj
def command(
    session: Session,
    /,
    crop: str | None,
    place: str | None,
    as_json: bool,
    **given: bool,
) -> None:
    """Say what this tin can sow now, in order of what is lost by waiting.

    Closing weeks, seed to use up, plans not met and sowings due again come first. Seeds and
    cells are reckoned so that the plants come up for sure, not on average: two or three seeds to
    a cell where that takes no more than a quarter of the packet, else as little seed as may be.

    \b
    seedbox now --crop lettuce --left-out
    """
    from seedbox.cli.garden_lookup import place_name
    from seedbox.cli.lookup import crop_book
    from seedbox.season.sowing.now import now

    with session.tin() as tin:
        found = now(
            tin,
            session.today,
            crop_id=crop_book(tin).crop_id(crop) if crop else "",
            place=place_name(tin, place) if place else "",
            aim=aim_of(given),
        )
        settings = tin.settings()
    if as_json:
        from seedbox.cli.now_page import facts

        warn(*found.missing)
        say_json([facts(offer) for offer in found.offers])
        return
    if found.missing and not found.offers and not found.left_out:
        say(*_first(found))
        return
    from seedbox.cli.now_page import left_out_lines, opens_soon, page

    narrowed = bool(crop or place)
    shown = list(found.offers) if given["everything"] or crop else _pressing(found)
    further = len(found.offers) - len(shown)
    aim = aim_typed(aim_of(given))
    say(*page(found, shown, settings, narrowed=narrowed, further=further, aim=aim))
    if given["left_out"] or crop:
        lines = list(left_out_lines(found.left_out))
        say(*(["", "Left out:", *lines] if lines else []))
    elif found.left_out:
        say("", opens_soon(found))


def _pressing(found: SowingNow) -> list[Offer]:
    """The first few, without those that come second to another packet."""
    return [offer for offer in found.offers if not offer.instead_of][:_SHOWN]


def _first(found: SowingNow) -> list[str]:
    """What the garden must say before anything can be told, with the command for it."""
    from seedbox.cli.described import HOW_TO_SET

    lines = ["What can be sown now depends on your garden, and it has not been described yet."]
    frosts = [said for said in found.missing if "place add" not in said]
    if frosts:
        lines += ["Say when frost ends and begins there on average, and the latitude:"]
        lines += [f"  {HOW_TO_SET}", "  (none for both frosts where frost never comes)"]
    if len(frosts) < len(found.missing):
        lines += ["Add each place where you sow, with the temperature of its soil or compost:"]
        lines += [f"  {_PLACE}"]
    lines += ["Then plan what you want, if you like: seedbox plan add lettuce --plants 12"]
    return [part for line in lines for part in wrapped(line)]
