"""The tables of a tin outside of it: the same columns as CSV files, XLSX sheets and JSON arrays."""

from __future__ import annotations

from decimal import Decimal

FORMAT, VERSION = "seedbox-tin", 4

_FINISHED_TESTS = ("code", "packet", "on", "seeds", "germinated", "hard", "note")
_OWN_TESTS = (
    *_FINISHED_TESTS, "state", "started_on", "replicates", "substrate", "temperature_c",
    "night_c", "first_count_day", "final_count_day", "pretreatment", "abnormal", "fresh", "dead",
)  # fmt: skip

# What versions 1 to 3 wrote otherwise: by its columns an older file is known as an export.
EARLIER = {"tests": (_FINISHED_TESTS, _OWN_TESTS)}

TABLES: dict[str, tuple[str, ...]] = {
    "stores": (
        "name", "coolest_c", "warmest_c", "humidity_percent", "sealed", "sealed_moisture_percent",
        "note",
    ),
    "packets": (
        "code", "crop", "crop_id", "variety", "kind", "origin", "source", "harvest_year",
        "packed_year", "bought_year", "sow_by", "printed_germination_percent", "printed_on",
        "treatment", "ean", "unit", "left", "store", "parent", "tags", "note", "received_on",
        "import_key",
    ),
    "movements": ("packet", "on", "kind", "amount", "note"),
    "storage": ("packet", "from", "store", "sealed", "moisture_percent"),
    "tests": (*_OWN_TESTS, "reported_by"),
    "test_counts": (
        "test", "on", "replicate", "normal", "abnormal", "hard", "fresh", "dead",
    ),
    "tray_counts": ("packet", "on", "place", "sown", "emerged", "note"),
    "places": (
        "name", "kind", "covered", "coolest_c", "warmest_c", "months_c", "ppfd", "light_hours",
        "note",
    ),
    "plans": ("crop_id", "variety", "plants", "year", "again_days", "note"),
    "sowings": (
        "code", "packet", "on", "place", "seeds", "cells", "per_cell", "row_m", "left_per_cell",
        "plants_wanted", "pot_depth_cm", "note",
    ),
    "sowing_events": (
        "sowing", "on", "kind", "count", "place", "pot_depth_cm", "job", "until", "note",
    ),
    "wants": ("crop_id", "variety", "portions", "worth", "note"),
    "swap_choices": ("packet", "choice", "portions"),
    "label_queue": ("code", "design", "copies"),
    "own_crops": ("crop_id", "name", "family", "note"),
    "own_figures": ("crop_id", "figure", "value", "note"),
    "settings": ("setting", "value"),
}  # fmt: skip

NUMBERS = frozenset((
    "coolest_c", "warmest_c", "humidity_percent", "sealed_moisture_percent", "harvest_year",
    "packed_year", "bought_year", "printed_germination_percent", "left", "amount",
    "moisture_percent", "seeds", "germinated", "hard", "replicates", "temperature_c", "night_c",
    "first_count_day", "final_count_day", "abnormal", "fresh", "dead", "replicate", "normal",
    "sown", "emerged", "ppfd", "light_hours", "plants", "year", "again_days", "cells", "per_cell",
    "row_m", "left_per_cell", "plants_wanted", "pot_depth_cm", "count", "portions", "worth",
    "copies",
))  # fmt: skip

# A table with all of these was written by an export: it is read to the letter, with no leniency.
OUR_MARK = frozenset(("code", "crop_id", "printed_germination_percent", "received_on"))


def number_text(value: float | None) -> str:
    """A number that reads back exactly.

    >>> number_text(50.0), number_text(0.1), number_text(None)
    ('50', '0.1', '')
    """
    if value is None:
        return ""
    return str(int(value)) if float(value).is_integer() else repr(value)


def percent_text(share: float | None) -> str:
    """A share of 1 in per cent, shifted in decimal so that it reads back exactly.

    >>> percent_text(0.55), percent_text(0.07)
    ('55', '7')
    """
    if share is None:
        return ""
    shifted = format(Decimal(repr(float(share))).scaleb(2), "f")
    return shifted.rstrip("0").rstrip(".") if "." in shifted else shifted


def share_of(text: str) -> float:
    """The share that `percent_text` wrote. Raises ValueError or ArithmeticError for other text."""
    return float(Decimal(text).scaleb(-2))


def exact_number(text: str) -> int | float | None:
    """The number behind a text, when it reads back as that very text in fifteen digits."""
    try:
        value = float(text)
    except ValueError:
        return None
    whole = value.is_integer() and abs(value) < 1e15
    same = text == (str(int(value)) if whole else f"{value:.15g}")
    return (int(value) if whole else value) if same else None
