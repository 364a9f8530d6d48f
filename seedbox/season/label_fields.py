"""The words on a label: what a design may ask for, filled from one packet."""

from __future__ import annotations

from datetime import date

from seedbox.season.cautions import label_caution
from seedbox.season.crops import CropBook
from seedbox.season.far_dates import until
from seedbox.season.listing import PacketLine
from seedbox.tin.records import Origin, Treatment
from seedbox.units import per_cent


def label_fields(line: PacketLine, book: CropBook, today: date) -> dict[str, str]:
    """Field names of the label designs with their text; what is unknown is an empty string."""
    packet = line.packet
    forecast = line.forecast
    return {
        "code": line.code,
        "crop": line.crop,
        "botanical": book.botanical_name(packet.crop_id),
        "variety": packet.variety,
        "year": "" if line.year == "unknown" else line.year,
        "source": _from(packet.origin, packet.source, line.year),
        "origin": packet.origin or "",
        "left": "" if line.dossier.left is None else line.left,
        "store": line.store,
        "treatment": _treatment(packet.treatment),
        "caution": label_caution(packet, line.crop),
        "germination": _per_cent(forecast.mean if forecast else None),
        "advice": line.advice,
        "good_until": _until(line, today),
        "note": packet.note,
        "printed_on": today.isoformat(),
    }


def _from(origin: Origin | None, source: str, year: str) -> str:
    """Where it came from. A year that already says "bought" is not followed by the same word."""
    how = "" if origin and year.startswith(origin) else origin or ""
    return " ".join(part for part in (how, f"from {source}" if source else "") if part)


def _treatment(treatment: Treatment) -> str:
    return "" if treatment is Treatment.NONE else f"{treatment.value} seed"


def _per_cent(mean: float | None) -> str:
    return "" if mean is None else f"about {per_cent(mean)}"


def _until(line: PacketLine, today: date) -> str:
    last = line.forecast.good_until if line.forecast else None
    return f"good until {until(last, today)}" if last else ""
