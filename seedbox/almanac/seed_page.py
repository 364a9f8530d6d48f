"""The seed itself, how long it keeps, what the law asks of it, how it is tested: for show."""

from __future__ import annotations

from collections.abc import Iterator

from seedbox.almanac.marks import Basis, Mark
from seedbox.almanac.moisture import equilibrium_moisture, sealed_packet_moisture
from seedbox.almanac.oil import oil_fraction
from seedbox.almanac.overrides import OVERRIDABLE
from seedbox.almanac.page_figure import Figure
from seedbox.almanac.sources import spell
from seedbox.almanac.standards import standard
from seedbox.almanac.storage import HALF_VIABILITY, storage_class, storage_life
from seedbox.almanac.tables import of_crop, span
from seedbox.almanac.testing import seedling_rules, test_conditions
from seedbox.almanac.weight import SEEDS_PER_GRAM, thousand_seed_weight_g

_SIZE_LABELS = {
    "thousand_seed_weight_g": ("thousand-seed weight", "g"),
    "seeds_per_gram": ("seeds per gram", "seeds"),
}


def seed_figures(crop_id: str, family: str = "") -> Iterator[Figure]:
    """Weight, oil and moisture."""
    yield from _sizes(crop_id)
    oil = oil_fraction(crop_id, family)
    label = f"oil in the dry seed{_borrowed(oil.basis)}"
    value = f"{oil.fraction * 100:.3g}"
    yield Figure("Seed", label, value, "%", oil.source, oil.mark, "oil_fraction")
    for point in equilibrium_moisture(crop_id):
        label = f"moisture at {point.relative_humidity * 100:g} % humidity"
        value = f"{point.percent:g}"
        yield Figure("Seed", label, value, "% of fresh weight", point.source, point.mark)
    if sealed := sealed_packet_moisture(crop_id):
        label, value = "highest moisture in a sealed packet", f"{sealed.percent:g}"
        yield Figure("Seed", label, value, "% of fresh weight", sealed.source, sealed.mark)


def _sizes(crop_id: str) -> Iterator[Figure]:
    used = thousand_seed_weight_g(crop_id)
    for row in of_crop("seed_size", crop_id):
        usable = row["usable"] == "yes"
        label, unit = _SIZE_LABELS[row["figure"]]
        note = row["note"] if usable else f"not used: {row['note']}"
        key = row["figure"] if usable and row["figure"] in OVERRIDABLE else ""
        value = span(float(row["low"]), float(row["high"]))
        yield Figure("Seed", label, value, unit, spell(row["source"]), Mark(row["mark"]), key, note)
    if used and used.source == spell(SEEDS_PER_GRAM):
        label, value = "thousand-seed weight, from seeds per gram", f"{used.grams:.3g}"
        key = "thousand_seed_weight_g"
        yield Figure("Seed", label, value, "g", used.source, used.mark, key)


def _borrowed(basis: Basis) -> str:
    return {Basis.FAMILY: ", of its family", Basis.ALL: ", of all crops"}.get(basis, "")


def _lists(lineages: int) -> str:
    return "one independent list" if lineages == 1 else f"median of {lineages} independent lists"


def storage_figures(crop_id: str, family: str = "") -> Iterator[Figure]:
    """The figure that forecasts use, then every list that names the crop."""
    life = storage_life(crop_id, family)
    label = f"years that seed keeps{_borrowed(life.basis)}"
    value = f"{life.years:.3g}"
    section = "Storage life"
    how = _lists(life.lineages) if life.basis is Basis.CROP else ""
    source, mark = life.source, life.mark
    yield Figure(section, label, value, "years", source, mark, "storage_years", how)
    for row in of_crop("storage_life", crop_id):
        if row["years"]:
            half = row["measure"] == HALF_VIABILITY
            label = "years to half viability" if half else "years, by one list"
            source, mark = spell(row["source"]), Mark(row["mark"])
            yield Figure(section, label, f"{float(row['years']):g}", "years", source, mark)
    if classed := storage_class(crop_id):
        source, mark = spell(classed["source"]), Mark(classed["mark"])
        yield Figure(section, "class", classed["storage_class"], "", source, mark)


def standard_figures(crop_id: str) -> Iterator[Figure]:
    """Least germination for sale in Europe and the United States."""
    for region, where in (("eu", "European Union"), ("us", "United States")):
        if found := standard(crop_id, region):
            label = f"minimum germination, {where}"
            yield Figure(
                "Standards",
                label,
                f"{found.fraction * 100:.0f}",
                "%",
                found.source,
                found.mark,
                "standard",
                found.note,
            )


def test_figures(crop_id: str) -> Iterator[Figure]:
    """Test rules and what counts as a normal seedling."""
    section = "Germination test"
    for rules in test_conditions(crop_id):
        who = "United States" if rules.rules == "us" else "international"
        lines = {
            "substrate": (rules.substrate, ""),
            "temperature": (rules.temperature_c, "C"),
            "first count": ("" if rules.first_count_day is None else rules.first_count_day, "day"),
            "final count": (rules.final_count_day, "day"),
            "directions": (rules.directions, ""),
        }
        for label, (value, unit) in lines.items():
            if value:
                name = f"{label}, {who} rules"
                yield Figure(section, name, str(value), unit, rules.source, rules.mark)
    for rule in seedling_rules(crop_id):
        yield Figure(
            section, f"normal seedling, {rule.group}", rule.rule, "", rule.source, rule.mark
        )
