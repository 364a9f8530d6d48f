"""What is known of each crop before a packet is opened. Every figure keeps its source and mark.

Each subject is a module of its own and is loaded when first asked for, so that a listing
does not pay for what only the page of a crop shows.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from seedbox.almanac.crop_list import Crop, crop, crops
    from seedbox.almanac.marks import Basis, Figure, Mark
    from seedbox.almanac.names import Found, complete, find, sure_name
    from seedbox.almanac.oil import OilContent, oil_fraction
    from seedbox.almanac.overrides import OVERRIDABLE, parse_override
    from seedbox.almanac.own import own_number, own_span
    from seedbox.almanac.standards import (
        SealedMoisture,
        Standard,
        sealed_packet_moisture,
        standard,
    )
    from seedbox.almanac.storage import StorageLife, storage_life
    from seedbox.almanac.weight import Weight, thousand_seed_weight_g

_HOME = {
    "crop_list": ("Crop", "crop", "crops"),
    "marks": ("Basis", "Figure", "Mark"),
    "names": ("Found", "complete", "find", "sure_name"),
    "oil": ("OilContent", "oil_fraction"),
    "overrides": ("OVERRIDABLE", "parse_override"),
    "own": ("own_number", "own_span"),
    "standards": ("SealedMoisture", "Standard", "sealed_packet_moisture", "standard"),
    "storage": ("StorageLife", "storage_life"),
    "weight": ("Weight", "thousand_seed_weight_g"),
}
_MODULE_OF = {name: module for module, names in _HOME.items() for name in names}

__all__ = [
    "OVERRIDABLE",
    "Basis",
    "Crop",
    "Figure",
    "Found",
    "Mark",
    "OilContent",
    "SealedMoisture",
    "Standard",
    "StorageLife",
    "Weight",
    "complete",
    "crop",
    "crops",
    "find",
    "oil_fraction",
    "own_number",
    "own_span",
    "parse_override",
    "sealed_packet_moisture",
    "standard",
    "storage_life",
    "sure_name",
    "thousand_seed_weight_g",
]


def __getattr__(name: str) -> object:
    if name not in _MODULE_OF:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    value = getattr(import_module(f"{__name__}.{_MODULE_OF[name]}"), name)
    globals()[name] = value
    return value
