"""What can be sown now, and what not, as lines and sentences."""

from __future__ import annotations

from collections.abc import Sequence

from seedbox.season.sowing.climate import spoken
from seedbox.season.sowing.offers import LeftOut, Offer
from seedbox.season.sowing.where import days_text
from seedbox.tui.columns import Column
from seedbox.tui.sowing_words import counted
from seedbox.tui.units import unbroken
from seedbox.tui.virtual_list import Row

OFFERS = (
    Column("crop", "Crop", 10, most=22),
    Column("variety", "Variety", 10, most=26),
    Column("how", "How", 11),
    Column("place", "Where", 12, most=24, from_width=72),
    Column("up", "Up in", 9),
    Column("sow", "Cells x seeds", 13, most=15),
    Column("closes", "Until", 6, from_width=86),
    Column("code", "Packet", 9, from_width=98),
)
LEFT_OUT = (
    Column("crop", "Crop", 12, most=22),
    Column("variety", "Variety", 12, most=26),
    Column("why", "Why not now", 50, most=110),
)


def offer_row(offer: Offer) -> Row:
    """One packet that can be sown."""
    choice, days = offer.choice, offer.choice.emerging.days
    closes = offer.closes
    return (
        offer.line.crop,
        offer.line.packet.variety,
        choice.method.value,
        choice.place.name,
        f"{max(round(days.mid), 1)} days" if days else "-",
        _amount(offer),
        f"{closes.day} {closes:%b}" if closes else "-",
        offer.line.code,
    )


def _amount(offer: Offer) -> str:
    if offer.how is not None:
        return f"{offer.how.cells} x {offer.how.per_cell}"
    return f"{offer.plan.seeds} in {offer.row.row_m:g} m" if offer.row else ""


def left_out_row(one: LeftOut) -> Row:
    """One packet that is not sown now."""
    return (one.line.crop, one.line.packet.variety, unbroken(one.reason))


def left_out_words(one: LeftOut) -> str:
    """Which packet, and why it is not sown now."""
    what = f"{one.line.crop} {one.line.packet.variety}".strip()
    return unbroken(f"{what} ({one.line.code}): {one.reason}. Enter sows it all the same.")


def offer_words(offer: Offer) -> str:
    """Why now, what it gives, how deep and how far apart."""
    sentences = [offer.reason, offer.plan.sentence, _depth(offer), *offer.pretreatment]
    if offer.instead_of:
        sentences.insert(0, f"first use {offer.instead_of[:4]} {offer.instead_of[4:]}")
    days = offer.choice.emerging.days
    if days:
        sentences.append(f"up in {days_text(days)}")
    if "too" in offer.light:
        sentences.append(f"light there {offer.light}")
    if offer.closes:
        sentences.append(f"sown so until {spoken(offer.closes)}")
    return unbroken(" ".join(f"{said[:1].upper()}{said[1:]}." for said in sentences if said))


def _depth(offer: Offer) -> str:
    figures = offer.figures
    parts = []
    if figures.depth_mm:
        parts.append(f"{figures.depth_mm.mid:g} mm deep")
    if figures.plant_spacing_cm:
        parts.append(f"plants {figures.plant_spacing_cm.mid:g} cm apart")
    return ", ".join(parts)


def summary(offers: Sequence[Offer], left_out: Sequence[LeftOut], *, why_not: bool) -> str:
    """What the list shows, and how to see the other one."""
    here, other = counted(len(offers), "packet"), counted(len(left_out), "packet")
    if why_not:
        return f" {other} not to sow now, and why. w shows what can be sown."
    rest = f" w says why not the other {len(left_out)}." if left_out else ""
    return f" {here} to sow from, the most urgent first.{rest}"
