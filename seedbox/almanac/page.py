"""Everything known of a crop, in sections, as text to be shown with source and mark."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from seedbox.almanac.crop_list import Crop, crops
from seedbox.almanac.growth_page import emergence_figures, saving_figures, sowing_figures
from seedbox.almanac.hazards import cautions, cautions_by_name
from seedbox.almanac.marks import OWN_SOURCE, Mark
from seedbox.almanac.names import shared_names
from seedbox.almanac.overrides import OVERRIDABLE, parse_override
from seedbox.almanac.page_figure import Figure
from seedbox.almanac.passing import passing_on
from seedbox.almanac.seed_page import (
    seed_figures,
    standard_figures,
    storage_figures,
    test_figures,
)
from seedbox.almanac.sources import spell
from seedbox.almanac.tables import of_crop, span
from seedbox.errors import BadDataError

SECTIONS = (
    "Names",
    "Sowing",
    "Emergence",
    "Seed",
    "Storage life",
    "Standards",
    "Germination test",
    "Seed saving",
    "Cautions",
)

# Where a person's own figure is shown, and what it is called there.
_OWN_PLACES = {
    "storage_years": ("Storage life", "years that seed keeps"),
    "standard": ("Standards", "minimum germination"),
    "oil_fraction": ("Seed", "oil in the dry seed"),
    "thousand_seed_weight_g": ("Seed", "thousand-seed weight"),
    "emerge_days": ("Emergence", "days to emerge"),
}


def figures(
    crop_id: str,
    own: Iterable[tuple[str, str, str]] = (),
    *,
    name: str = "",
    family: str = "",
) -> tuple[Figure, ...]:
    """All that is known of a crop, section by section; own figures (name, value, note) first.

    `name` and `family` serve a person's own crop: its cautions and borrowed figures rest on them.
    """
    known = (
        *_own(own),
        *_names(crop_id),
        *sowing_figures(crop_id),
        *emergence_figures(crop_id),
        *seed_figures(crop_id, family),
        *storage_figures(crop_id, family),
        *standard_figures(crop_id),
        *test_figures(crop_id),
        *saving_figures(crop_id),
        *_cautions(crop_id, name),
        *_passing_on(crop_id),
    )
    return tuple(sorted(known, key=lambda figure: SECTIONS.index(figure.section)))


def _own(own: Iterable[tuple[str, str, str]]) -> Iterator[Figure]:
    for key, text, note in own:
        rule = OVERRIDABLE.get(key)
        section, label = _OWN_PLACES.get(key, ("Sowing", key.rsplit("_", 1)[0].replace("_", " ")))
        source = f"{OWN_SOURCE}: {note}" if note else OWN_SOURCE
        unit = rule.unit if rule else ""
        yield Figure(section, label, _own_value(key, text), unit, source, Mark.YOURS, key)


def _own_value(key: str, text: str) -> str:
    """The figure as it is understood, in its unit; text that is no figure is shown as it is."""
    try:
        low, high = parse_override(key, text)
    except BadDataError:
        return text
    scale = 100 if OVERRIDABLE[key].percent else 1
    return span(low * scale, high * scale)


def _names(crop_id: str) -> Iterator[Figure]:
    for each in crops():
        if each.id == crop_id:
            row = of_crop("crops", crop_id)[0]
            source, mark = spell(row["source"]), Mark(row["mark"])
            for label, value in _name_lines(each):
                yield Figure("Names", label, value, "", source, mark)


def _name_lines(each: Crop) -> Iterator[tuple[str, str]]:
    yield "British name", each.name_gb
    yield "American name", each.name_us
    if each.synonyms:
        yield "other names", ", ".join(each.synonyms)
    if shared := [name.name for name in shared_names() if each.id in name.crop_ids]:
        yield "names shared with other plants", ", ".join(shared)
    yield "botanical name", each.botanical_name
    yield "family", each.family


def _cautions(crop_id: str, name: str) -> Iterator[Figure]:
    for each in cautions(crop_id) or cautions_by_name(name):
        value = f"{each.severity.replace(': ', ', ')}: {each.hazard}"
        yield Figure("Cautions", each.part, value, "", each.source, each.mark)


_LAWS = {"eu": "European Union", "gb": "Great Britain", "us": "United States", "other": "elsewhere"}


def _passing_on(crop_id: str) -> Iterator[Figure]:
    for each in passing_on(crop_id):
        label = f"passing on its seed, {_LAWS[each.law]}"
        value = f"{each.rule}{f' in {each.where}' if each.where else ''}: look up your own law"
        yield Figure("Cautions", label, value, "", each.source, each.mark)
