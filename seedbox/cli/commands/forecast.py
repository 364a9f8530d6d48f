"""`forecast`: how seed would keep, without a packet."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from seedbox.cli import completing
from seedbox.cli.command import command as seedbox_command
from seedbox.cli.command import json_option
from seedbox.cli.filters import ORIGIN
from seedbox.cli.lookup import crop_book, plain_crop_book, refuse_no_name
from seedbox.cli.output import say, say_json
from seedbox.cli.params import SHARE, WORDS, Number, Whole
from seedbox.cli.session import Session
from seedbox.errors import NotFoundError
from seedbox.tin.preferences import Settings

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from seedbox.season.crops import CropBook
    from seedbox.season.what_if import WhatIf

_LENGTH = Number("number", 0)
_DEGREES = Number("degrees C", -60, 60)


@seedbox_command("forecast")
@click.argument("crop", nargs=-1, required=True, shell_complete=completing.crops)
@click.option("--germination", type=SHARE, help="Germination at the start, such as 0.97 or 97%.")
@click.option("--tested", type=Whole("number", 1), help="How many seeds that test had.")
@click.option("--temperature", type=_DEGREES, help="Temperature of the store, °C.")
@click.option("--coolest", type=_DEGREES, help="Mean of the coolest month, °C, if it changes.")
@click.option("--warmest", type=_DEGREES, help="Mean of the warmest month, °C.")
@click.option("--humidity", type=SHARE, help="Relative humidity of open storage, %.")
@click.option("--moisture", type=Number("per cent", 0, 60), help="Moisture of sealed seed, %.")
@click.option("--sealed", is_flag=True, help="Sealed as moist as it was before.")
@click.option("--days", type=_LENGTH, help="How many days it is kept so.")
@click.option("--weeks", type=_LENGTH, help="Or how many weeks.")
@click.option("--months", type=_LENGTH, help="Or how many months.")
@click.option("--years", type=_LENGTH, help="Or how many years.")
@click.option(
    "--then", multiple=True, help='A next period: "temperature=4,moisture=6,years=3". Repeat.'
)
@click.option("--origin", type=ORIGIN, help="Where it comes from, if it was never tested.")
@click.option("--primed", is_flag=True, help="Primed seed, which ages faster.")
@click.option("--family", type=WORDS, default="", help="Botanical family of a kind not known here.")
@click.option("--oil", type=SHARE, help="Oil content of a kind not known here, such as 20%.")
@click.option("--life", type=Number("years", 0.2, 100), help="Years that it keeps in a dry room.")
@json_option
@click.pass_obj
def command(
    session: Session, /, crop: tuple[str, ...], then: tuple[str, ...], as_json: bool, **given: Any
) -> None:
    """Say how seed of CROP would keep, in one store or in several one after another.

    Meant for "what if I move it": give the storage with the options, and what comes after with
    --then, in order. Without --germination the start is what such seed usually has.

    \b
    seedbox forecast onion --germination 0.97 --tested 200 --temperature 26.7 --humidity 44 \\
        --days 250 --then "temperature=4,moisture=6,years=3"
    """
    from seedbox.cli.storage_words import first_period, later_period
    from seedbox.season.what_if import what_if

    book, settings, figures = _known(session)
    crop_id, name = _crop(book, " ".join(crop), given)
    periods = [first_period(given), *map(later_period, then)]
    found = what_if(
        crop_id,
        periods,
        germination=given["germination"],
        tested=given["tested"],
        origin=given["origin"],
        primed=given["primed"],
        family=given["family"] or _family(book, crop_id),
        settings=settings,
        own=_own(figures.get(crop_id, {}), given),
    )
    if as_json:
        say_json({"crop": name, "crop_id": crop_id if crop_id else None, **_facts(found)})
    else:
        say(*_lines(name, found, settings))


def _known(session: Session) -> tuple[CropBook, Settings, dict[str, dict[str, str]]]:
    """Crop names, settings and own figures of the tin; the usual ones where there is none."""
    if not session.tin_path.exists():
        return plain_crop_book(), Settings(), {}
    with session.tin() as tin:
        figures: dict[str, dict[str, str]] = {}
        for each in tin.own_figures():
            figures.setdefault(each.crop_id, {})[each.figure] = each.value
        return crop_book(tin), tin.settings(), figures


def _crop(book: CropBook, text: str, given: Mapping[str, Any]) -> tuple[str, str]:
    """Id and name; a kind that nobody knows will do when its family, oil or life is given."""
    refuse_no_name(text)
    try:
        crop_id = book.crop_id(text)
    except NotFoundError as error:
        if book.answer(text).clashes:
            raise
        if given["family"] or given["oil"] is not None or given["life"] is not None:
            return "", text
        more = "For a kind not known here, give its --family, --oil or --life."
        error.hint = " ".join(filter(None, (error.hint, more)))
        raise
    return crop_id, book.name(crop_id)


def _family(book: CropBook, crop_id: str) -> str:
    return book.family(crop_id) if crop_id else ""


def _own(figures: Mapping[str, str], given: Mapping[str, Any]) -> dict[str, str]:
    """The garden's own figures, and over them what was given for this one question."""
    own = dict(figures)
    if given["oil"] is not None:
        own["oil_fraction"] = f"{given['oil'] * 100:g}%"
    if given["life"] is not None:
        own["storage_years"] = f"{given['life']:g}"
    return own


def _facts(found: WhatIf) -> dict[str, Any]:
    names = (
        "mean", "low", "high", "p_standard", "p_floor", "standard", "standard_basis", "advice",
        "thick_factor", "good_days", "supported", "stages", "kept_as_it_is", "rests_on", "warnings",
    )  # fmt: skip
    return {name: getattr(found, name) for name in names}


def _lines(name: str, found: WhatIf, settings: Settings) -> Sequence[str]:
    from seedbox.cli.what_if_page import page

    return page(name, found, settings)
