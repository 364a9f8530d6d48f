"""Seed saving in words: what comes true, how to dry it, the packet it went into."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from seedbox.cli.output import changed, say, say_json
from seedbox.cli.tables import wrapped
from seedbox.cli.words import amount, count, number
from seedbox.tin.codes import shown
from seedbox.tin.records import Packet

if TYPE_CHECKING:
    from seedbox.season.sowing.new_seed import Drying
    from seedbox.season.sowing.saving_seed import SavingAdvice
    from seedbox.tin.file import Tin


def say_advice(found: Sequence[SavingAdvice], as_json: bool) -> None:
    """Whether the seed of what is planned or growing comes true; the sure ones first."""
    from seedbox.season.sowing.new_seed import LAW_CAUTION
    from seedbox.season.sowing.saving_seed import ComesTrue

    if as_json:
        say_json([_facts(one) for one in found])
        return
    if not found:
        say("Nothing of that is planned or growing this season.", "See: seedbox plan list")
        return
    for verdict in ComesTrue:
        some = [one for one in found if one.verdict is verdict]
        if some:
            say(verdict.value.capitalize(), *(line for one in some for line in _advice(one)), "")
    say(*wrapped(LAW_CAUTION))


def _advice(one: SavingAdvice) -> Iterator[str]:
    named = f"{one.crop} {one.variety}".strip()
    yield from wrapped(f"{named}: {one.why}.", "  ", "    ")
    told = [_plants(one), f"ripe in {one.year}: {one.ripe}" if one.ripe else "", _work(one)]
    yield from wrapped(f"{'; '.join(filter(None, told))}.", "    ", "    ")


def _plants(one: SavingAdvice) -> str:
    plants = count(one.plants, "plant")
    if one.least_plants is None:
        return plants
    if one.enough_plants:
        return f"{plants}, and {one.least_plants} are enough"
    return f"{plants}, but {one.least_plants} keep the variety healthy"


def _work(one: SavingAdvice) -> str:
    return f"cleaning: {one.processing}" if one.processing else ""


def say_drying(found: Drying, as_json: bool) -> None:
    """Gel for the seed, with cautions."""
    if as_json:
        say_json(found)
    else:
        say(*_drying(found))


def _drying(found: Drying) -> Iterator[str]:
    yield from wrapped(
        f"{number(round(found.seed_g, 2))} g of seed from {number(found.moisture)} to "
        f"{number(found.target)} % moisture: {number(round(found.water_g, 2))} g of water must go, "
        f"so put it into a closed jar with {number(round(found.gel_g, 1))} g of dry drying gel, "
        "parted by a cloth, for a week or two."
    )
    yield f"The moisture aimed at: {found.source}."
    for caution in found.cautions:
        yield from wrapped(caution, "  - ", "    ")


def say_saved(tin: Tin, packet: Packet, dried: Drying | None, as_json: bool) -> None:
    """The new packet, whose parent it is linked to, and how to dry what is in it."""
    from seedbox.cli.lookup import crop_book

    parent = next((one for one in tin.packets() if one.id == packet.parent_id), None)
    left = tin.dossier(packet.code).left
    named = f"{crop_book(tin).name(packet.crop_id)} {packet.variety}".strip()
    grown = f", grown from {shown(parent.code)}" if parent else ""
    sentence = (
        f"Saved {shown(packet.code)}: {named}, {amount(left, packet.unit)}, "
        f"harvest of {packet.harvest_year}{grown}."
    )
    if as_json:
        facts = {
            "code": packet.code,
            "parent": parent.code if parent else None,
            "harvest_year": packet.harvest_year,
            "drying": dried,
        }
        changed(sentence, as_json=True, **facts)
        return
    say(
        *wrapped(sentence),
        *(_drying(dried) if dried else ()),
        f"Label: seedbox labels packet.pdf {packet.code}",
        "Undo with: seedbox undo",
    )


def _facts(one: SavingAdvice) -> dict[str, Any]:
    return {
        "crop": one.crop,
        "crop_id": one.crop_id,
        "variety": one.variety,
        "verdict": one.verdict,
        "why": one.why,
        "crosses_with": one.crosses_with,
        "isolation_m": one.isolation_m,
        "plants": one.plants,
        "least_plants": one.least_plants,
        "enough_plants": one.enough_plants,
        "ripe_in": one.year,
        "ripe_when": one.ripe,
        "processing": one.processing,
    }
