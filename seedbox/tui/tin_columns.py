"""The columns of the tin and their words. Light to import: the first screen needs no more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seedbox.tin.codes import shown
from seedbox.tin.records import Dossier, Packet, Unit
from seedbox.tui.columns import Column
from seedbox.tui.virtual_list import Row

if TYPE_CHECKING:
    from datetime import date

    from seedbox.season.forecast import Forecast

COLUMNS = (
    Column("code", "Code", 9),
    Column("crop", "Crop", 10, most=24),
    Column("variety", "Variety", 9, most=30),
    Column("year", "Year", 4, from_width=64),
    Column("left", "Left", 6, right=True, from_width=70),
    Column("germination", "Germination", 14),
    Column("advice", "Advice", 9),
    Column("store", "Store", 12, most=24, from_width=98),
    Column("until", "Good until", 10, from_width=114),
    Column("source", "Source", 12, most=26, from_width=134),
)
TINTS = {"sow": "good", "sow thick": "thick", "use up": "warn", "test": "warn", "spent": "bad"}
PENDING = "…"


def tint(key: str, text: str) -> str:
    """The colour that repeats what a cell says in words."""
    if key == "advice":
        return TINTS.get(text, "quiet")
    return "quiet" if key in ("store", "source", "code") or text in (PENDING, "none") else ""


def row(dossier: Dossier, crop: str, forecast: Forecast | None, good_until: str = PENDING) -> Row:
    """One packet as the texts of its columns. `good_until` is as `until_text` words it."""
    packet = dossier.packet
    return (
        shown(packet.code),
        crop,
        packet.variety,
        year_figure(packet),
        left_text(dossier.left, packet.unit),
        germination_text(forecast),
        advice_text(forecast),
        dossier.store.name if dossier.store else "",
        good_until,
        packet.source,
    )


def germination_text(forecast: Forecast | None) -> str:
    """`82 % (61-95)`: expected germination with the interval; stock has none."""
    if forecast is None:
        return PENDING
    if forecast.mean is None or forecast.low is None or forecast.high is None:
        return "-"
    return f"{forecast.mean * 100:3.0f} % ({forecast.low * 100:.0f}-{forecast.high * 100:.0f})"


def advice_text(forecast: Forecast | None) -> str:
    """The advice as one of its five words."""
    if forecast is None:
        return PENDING
    return forecast.advice.value if forecast.advice else "-"


def until_text(forecast: Forecast | None, today: date) -> str:
    """How long it is good, no sharper than that is known; `-` when it no longer is."""
    from seedbox.season.far_dates import until_briefly

    if forecast is None:
        return PENDING
    return until_briefly(forecast.good_until, today) if forecast.good_until else "-"


def left_text(left: float | None, unit: Unit | None) -> str:
    """Short: a bare number counts seeds, `2.5 g` is weighed, `?` was never counted."""
    if left is None:
        return "?"
    if left == 0:
        return "none"
    return f"{left:.3g} g" if unit is Unit.GRAMS else f"{left:.0f}"


def year_figure(packet: Packet) -> str:
    """The best known year alone; the packet page says which kind of year it is."""
    sow_by = packet.sow_by.year if packet.sow_by else None
    year = packet.harvest_year or packet.packed_year or packet.bought_year or sow_by
    return str(year) if year else "?"
