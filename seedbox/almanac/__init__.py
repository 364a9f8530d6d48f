"""What is known of each crop before a packet is opened. Every figure keeps its source and mark.

Each subject is a module of its own and is loaded when first asked for, so that a listing
does not pay for what only the page of a crop shows.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from seedbox.almanac.crop_list import Crop, crop, crops, is_crop_id
    from seedbox.almanac.facts import Fact
    from seedbox.almanac.growth import (
        FieldEmergence,
        field_emergence,
        growing,
        pretreatments,
        seed_saving,
    )
    from seedbox.almanac.hazards import Caution, cautions, cautions_by_name
    from seedbox.almanac.marks import Basis, Mark
    from seedbox.almanac.moisture import (
        EquilibriumMoisture,
        SealedMoisture,
        equilibrium_moisture,
        sealed_packet_moisture,
    )
    from seedbox.almanac.names import Found, complete, find, sure_name
    from seedbox.almanac.oil import OilContent, oil_fraction
    from seedbox.almanac.overrides import OVERRIDABLE, Overridable, parse_override
    from seedbox.almanac.own import own_number, own_span
    from seedbox.almanac.page import SECTIONS, figures
    from seedbox.almanac.page_figure import Figure
    from seedbox.almanac.passing import PassingOn, PassingRule, passing_on
    from seedbox.almanac.standards import Standard, residual_standards, standard
    from seedbox.almanac.storage import StorageLife, storage_life
    from seedbox.almanac.testing import (
        SeedlingRule,
        TestConditions,
        regeneration_threshold,
        seedling_rules,
        test_conditions,
    )
    from seedbox.almanac.tolerances import Tolerance, replicate_tolerance, two_test_tolerance
    from seedbox.almanac.warmth import (
        Emergence,
        Outcome,
        SoilTemperature,
        ThermalTime,
        emergence,
        soil_temperature,
        thermal_time,
    )
    from seedbox.almanac.weight import Weight, thousand_seed_weight_g

# A module never bears the name of something offered here: the one would hide the other.
_HOME = {
    "crop_list": ("Crop", "crop", "crops", "is_crop_id"),
    "facts": ("Fact",),
    "growth": ("FieldEmergence", "field_emergence", "growing", "pretreatments", "seed_saving"),
    "hazards": ("Caution", "cautions", "cautions_by_name"),
    "marks": ("Basis", "Mark"),
    "moisture": (
        "EquilibriumMoisture",
        "SealedMoisture",
        "equilibrium_moisture",
        "sealed_packet_moisture",
    ),
    "names": ("Found", "complete", "find", "sure_name"),
    "oil": ("OilContent", "oil_fraction"),
    "overrides": ("OVERRIDABLE", "Overridable", "parse_override"),
    "own": ("own_number", "own_span"),
    "page": ("SECTIONS", "figures"),
    "page_figure": ("Figure",),
    "passing": ("PassingOn", "PassingRule", "passing_on"),
    "standards": ("Standard", "residual_standards", "standard"),
    "storage": ("StorageLife", "storage_life"),
    "testing": (
        "SeedlingRule",
        "TestConditions",
        "regeneration_threshold",
        "seedling_rules",
        "test_conditions",
    ),
    "tolerances": ("Tolerance", "replicate_tolerance", "two_test_tolerance"),
    "warmth": (
        "Emergence",
        "Outcome",
        "SoilTemperature",
        "ThermalTime",
        "emergence",
        "soil_temperature",
        "thermal_time",
    ),
    "weight": ("Weight", "thousand_seed_weight_g"),
}
_MODULE_OF = {name: module for module, names in _HOME.items() for name in names}

__all__ = [
    "OVERRIDABLE",
    "SECTIONS",
    "Basis",
    "Caution",
    "Crop",
    "Emergence",
    "EquilibriumMoisture",
    "Fact",
    "FieldEmergence",
    "Figure",
    "Found",
    "Mark",
    "OilContent",
    "Outcome",
    "Overridable",
    "PassingOn",
    "PassingRule",
    "SealedMoisture",
    "SeedlingRule",
    "SoilTemperature",
    "Standard",
    "StorageLife",
    "TestConditions",
    "ThermalTime",
    "Tolerance",
    "Weight",
    "cautions",
    "cautions_by_name",
    "complete",
    "crop",
    "crops",
    "emergence",
    "equilibrium_moisture",
    "field_emergence",
    "figures",
    "find",
    "growing",
    "is_crop_id",
    "oil_fraction",
    "own_number",
    "own_span",
    "parse_override",
    "passing_on",
    "pretreatments",
    "regeneration_threshold",
    "replicate_tolerance",
    "residual_standards",
    "sealed_packet_moisture",
    "seed_saving",
    "seedling_rules",
    "soil_temperature",
    "standard",
    "storage_life",
    "sure_name",
    "test_conditions",
    "thermal_time",
    "thousand_seed_weight_g",
    "two_test_tolerance",
]


def __getattr__(name: str) -> object:
    if name not in _MODULE_OF:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    value: object = getattr(import_module(f"{__name__}.{_MODULE_OF[name]}"), name)
    globals()[name] = value
    return value
