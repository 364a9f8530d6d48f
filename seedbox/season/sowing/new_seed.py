"""Seed just saved: drying it for a jar, and its packet, linked to its parent."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final

from seedbox import almanac
from seedbox.errors import BadDataError
from seedbox.science.drying import gel_needed, water_to_remove
from seedbox.tin import codes
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.records import Origin, Packet, Unit

# Seed dried in the air of a room, and what it is brought to for a sealed jar where the table of
# sealed packets (7 CFR 201.36c) has not the crop. Our judgement.
AIR_DRY_PERCENT: Final = 12.0
TARGET_PERCENT: Final = 6.0
DRYING_CAUTIONS: Final = (
    "Do not breathe the dust of drying gel, and keep it from children and animals.",
    "Leave blue gel alone: its colour is a cobalt salt, which is poisonous.",
    "Dry used gel in the oven by its maker's sheet, without the seed.",
    "Seed is never warmed above about 35 °C.",
    "Beans and peas crack when dried too fast: air-dry them first, and stop at about 8 %.",
)
LAW_CAUTION: Final = (
    "Seed of a protected variety, and seed for others, may be under rules of your country: ask"
    " your plant variety office."
)


@dataclass(frozen=True, slots=True)
class Drying:
    """Gel for a weight of seed: from one moisture to another [% of fresh weight], weights [g]."""

    seed_g: float
    moisture: float
    target: float
    water_g: float
    gel_g: float
    source: str
    cautions: tuple[str, ...] = DRYING_CAUTIONS


def drying(crop_id: str, seed_g: float, moisture: float = AIR_DRY_PERCENT) -> Drying:
    """Gel for drying seed of a crop for a sealed jar.

    The target is the moisture that the law allows in sealed packets of the kind, where it does.
    """
    known = almanac.sealed_packet_moisture(crop_id) if almanac.is_crop_id(crop_id) else None
    target = known.percent if known is not None else TARGET_PERCENT
    source = known.source if known is not None else "usual for seed in a sealed jar, no source"
    water = water_to_remove(seed_g, moisture, target)
    return Drying(seed_g, moisture, target, water, gel_needed(water), source)


def save_seed(
    tin: Tin,
    parent: str,
    *,
    today: date,
    amount: float | None = None,
    unit: Unit = Unit.SEEDS,
    variety: str | None = None,
    harvest_year: int | None = None,
    store: str = "",
    note: str = "",
) -> Packet:
    """A new packet of saved seed, linked to its parent: a packet, or the packet of a sowing.

    `parent` is the code of either. The crop and the variety are the parent's, unless `variety`
    says otherwise (a cross deserves a name of its own).
    """
    packet, said = _parent(tin, parent)
    if harvest_year is not None and harvest_year > today.year:
        raise BadDataError(f"The harvest of {harvest_year} is still to come.")
    draft = PacketDraft(
        packet.crop_id,
        packet.variety if variety is None else variety,
        origin=Origin.SAVED,
        source=tin.settings().garden_name,
        harvest_year=harvest_year or today.year,
        note="\n".join(part for part in (note, said) if part),
        parent_id=packet.id,
        unit=unit,
        received_on=today,
        amount=amount,
        store_id=tin.store(store).id if store else None,
    )
    return add_packet(tin, draft, today=today)


def _parent(tin: Tin, text: str) -> tuple[Packet, str]:
    """The packet meant, and how it is told in the note of its offspring."""
    code = codes.parse(text)
    if code[0] != "S":
        return tin.packet(code), ""
    sowing = tin.sowing(code)
    packet = next(one for one in tin.packets() if one.id == sowing.packet_id)
    return packet, f"From sowing {codes.shown(sowing.code)}."
