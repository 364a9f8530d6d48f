"""Sowing, emergence and seed saving, as figures to be shown."""

from __future__ import annotations

from collections.abc import Iterator

from seedbox.almanac.facts import Fact, facts
from seedbox.almanac.growth import SETTABLE, all_growing, field_emergence
from seedbox.almanac.page_figure import Figure
from seedbox.almanac.tables import span
from seedbox.almanac.warmth import Emergence, Outcome, emergence, soil_temperature, thermal_time
from seedbox.units import celsius

FROST = "the last spring frost"

_SOWING = {
    "life": ("life", ""),
    "hardiness": ("hardiness", ""),
    "depth_mm": ("depth", "mm"),
    "plant_spacing_cm": ("plant spacing", "cm"),
    "row_spacing_cm": ("row spacing", "cm"),
    "weeks_to_transplant": ("sowing to planting out", "weeks"),
    "days_to_maturity": ("days to maturity", "days"),
    "indoor_weeks_before_last_frost": ("sow indoors before the last spring frost", "weeks"),
    "indoor_sow_week": ("sow indoors", FROST),
    "outdoor_sow_week": ("sow outdoors", FROST),
    "set_out_week": ("plant out", FROST),
    "succession_days": ("sow again after", "days"),
    "sow_method": ("where to sow", ""),
    "min_container_depth_cm": ("least pot depth", "cm"),
    "light": ("light for germination", ""),
    "pretreatment": ("before sowing", ""),
    "sowing_season": ("season", ""),
    "frost_group": ("in one published climate", ""),
}
_EMERGENCE = {
    "emerge_days": ("days to emerge", "days"),
    "germination_temperature_c": ("temperature for germination", "C"),
}
_SAVING = {
    "seed_life": ("life when grown for seed", ""),
    "mating": ("mating", ""),
    "pollen_carrier": ("pollen carried by", ""),
    "isolation_m": ("isolation distance", "m"),
    "min_plants": ("plants to save from", "plants"),
    "crosses_with": ("crosses with", ""),
    "ripeness": ("ripe when", ""),
    "processing": ("processing", ""),
}


def sowing_figures(crop_id: str) -> Iterator[Figure]:
    """How the crop is sown and grown."""
    for fact in all_growing(crop_id):
        if fact.name in _SOWING:
            yield _figure("Sowing", fact, _SOWING[fact.name])


def saving_figures(crop_id: str) -> Iterator[Figure]:
    """How seed of the crop is saved."""
    for fact in facts("seed_saving", crop_id):
        yield _figure("Seed saving", fact, _SAVING[fact.name])


def _figure(section: str, fact: Fact, label: tuple[str, str]) -> Figure:
    name, unit = label
    value = fact.value
    if unit == FROST and fact.low is not None and fact.high is not None:
        value = _weeks(fact.low, fact.high)
    key = fact.name if fact.name in SETTABLE else ""
    return Figure(section, name, value, unit, fact.source, fact.mark, key, fact.note)


def _weeks(first: float, last: float) -> str:
    """`4 weeks before until 2 weeks after`, for weeks counted from the last spring frost."""
    ends = dict.fromkeys(_week(week) for week in (first, last))
    return " until ".join(ends)


def _week(week: float) -> str:
    if week == 0:
        return "the week of"
    plural = "" if abs(week) == 1 else "s"
    return f"{abs(week):g} week{plural} {'before' if week < 0 else 'after'}"


def emergence_figures(crop_id: str) -> Iterator[Figure]:
    """How soon and how well the crop comes up, and at what temperature."""
    for fact in all_growing(crop_id):
        if fact.name in _EMERGENCE:
            yield _figure("Emergence", fact, _EMERGENCE[fact.name])
    yield from _soil(crop_id)
    for cell in emergence(crop_id):
        label = f"at {celsius(cell.temperature_c)}"
        shown = _cell(cell)
        yield Figure("Emergence", label, shown, "", cell.source, cell.mark, note=cell.note)
    for sum_ in thermal_time(crop_id):
        heat = "" if sum_.degree_days is None else f", {sum_.degree_days:g} °C days"
        value = f"above {celsius(sum_.base_c)}{heat}, to {sum_.event}"
        yield Figure("Emergence", "heat sum", value, "", sum_.source, sum_.mark, note=sum_.note)
    yield from _field(crop_id)


def _soil(crop_id: str) -> Iterator[Figure]:
    soil = soil_temperature(crop_id)
    if soil is None:
        return
    best = span(_or_blank(soil.optimum_low_c), _or_blank(soil.optimum_high_c))
    for label, value in (
        ("least soil temperature", _or_blank(soil.minimum_c)),
        ("best soil temperatures", best),
        ("best soil temperature", _or_blank(soil.optimum_c)),
        ("highest soil temperature", _or_blank(soil.maximum_c)),
    ):
        if value:
            yield Figure("Emergence", label, value, "C", soil.source, soil.mark)


def _or_blank(value: float | None) -> str:
    return "" if value is None else f"{value:g}"


def _cell(cell: Emergence) -> str:
    days = f"{cell.days:g} days" if cell.days is not None else ""
    normal = f"{cell.normal * 100:.0f} % normal seedlings" if cell.normal is not None else ""
    said = "" if cell.outcome is Outcome.MEASURED else str(cell.outcome)
    return ", ".join(part for part in (said, days, normal) if part)


def _field(crop_id: str) -> Iterator[Figure]:
    found = field_emergence(crop_id)
    if found is None:
        return
    mean = "" if found.mean is None else f", mean {found.mean * 100:g}"
    value = f"{span(found.low * 100, found.high * 100)}{mean}"
    label = "came up in the field, of what germinated in the laboratory"
    yield Figure("Emergence", label, value, "%", found.source, found.mark)
