"""The words on a label: what a design may ask for, filled from one packet."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from seedbox.season.cautions import label_caution
from seedbox.season.crops import CropBook
from seedbox.season.far_dates import until
from seedbox.season.listing import PacketLine
from seedbox.season.written_dates import written, written_month
from seedbox.tin.preferences import Settings
from seedbox.tin.records import Dossier, Origin, Packet, Treatment
from seedbox.units import per_cent

_LAW = "Shared, not sold. Check your own local law before you pass it on."


def label_fields(
    line: PacketLine, book: CropBook, today: date, settings: Settings | None = None
) -> dict[str, str]:
    """Field names of the label designs with their text; what is unknown is an empty string.

    Dates follow the settings, which also give a person's own line, name and town.
    """
    settings = settings or Settings()
    packet, forecast = line.packet, line.forecast
    return {
        "code": line.code,
        "crop": line.crop,
        "botanical": book.botanical_name(packet.crop_id),
        "variety": packet.variety,
        "year": "" if line.year == "unknown" else line.year,
        "harvested": _harvested(packet, line.year),
        "source": _from(packet.origin, packet.source, line.year),
        "origin": packet.origin or "",
        "left": "" if line.dossier.left is None else line.left,
        "store": line.store,
        "sealed": _sealed(line.dossier, settings.dates),
        "treatment": _treatment(packet.treatment),
        "treated": _treated(packet.treatment),
        "caution": label_caution(packet, line.crop),
        "hazard": label_caution(replace(packet, treatment=Treatment.NONE), line.crop),
        "germination": _per_cent(forecast.mean if forecast else None),
        "advice": line.advice,
        "good_until": _until(line, today),
        "sow_by": f"sow by {written(packet.sow_by, settings.dates)}" if packet.sow_by else "",
        "note": packet.note,
        "printed_on": written(today, settings.dates),
        "month": written_month(today, settings.dates),
        "reference": f"no. {line.code}",
        "sharer": settings.grower_name,
        "town": settings.grower_town,
        "law": _LAW,
        "line": settings.label_line,
    }


def _harvested(packet: Packet, year: str) -> str:
    if packet.harvest_year:
        return f"harvested {packet.harvest_year}"
    return "" if year == "unknown" else year


def _from(origin: Origin | None, source: str, year: str) -> str:
    """Where it came from. A year that already says "bought" is not followed by the same word."""
    how = "" if origin and year.startswith(origin) else origin or ""
    return " ".join(part for part in (how, f"from {source}" if source else "") if part)


def _sealed(dossier: Dossier, order: str) -> str:
    """Since when it lies sealed, and how moist it then was where that is known."""
    if not dossier.storage:
        return ""
    last = dossier.storage[-1]
    if not (last.sealed or (dossier.store and dossier.store.sealed)):
        return ""
    moisture = last.moisture or (dossier.store.sealed_moisture if dossier.store else None)
    how = f" at {moisture:g} % moisture" if moisture else ""
    return f"sealed {written(last.from_date, order)}{how}"


def _treatment(treatment: Treatment) -> str:
    return "" if treatment is Treatment.NONE else f"{treatment.value} seed"


def _treated(treatment: Treatment) -> str:
    """The statement that laws on sharing ask for."""
    if treatment is Treatment.NONE:
        return "not treated"
    caution = ", do not eat" if treatment is Treatment.DRESSED else ""
    return f"TREATED: {treatment.value}{caution}"


def _per_cent(mean: float | None) -> str:
    return "" if mean is None else f"about {per_cent(mean)}"


def _until(line: PacketLine, today: date) -> str:
    last = line.forecast.good_until if line.forecast else None
    return f"good until {until(last, today)}" if last else ""
