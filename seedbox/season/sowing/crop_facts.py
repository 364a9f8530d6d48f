"""What sowing needs of each crop, worked out once: figures, emergence, seed, words on sowing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from seedbox import almanac
from seedbox.almanac.growth import all_growing
from seedbox.season.sowing.emergence_model import EmergenceModel, emergence_model
from seedbox.season.sowing.figures import SowingFigures, sowing_figures

# Sown several to a module and planted out as a clump: common practice, no source.
MULTI_SOWN: Final = {
    "chives": 8,
    "chives_garlic": 8,
    "onion_bulb": 4,
    "onion_spring": 6,
    "onion_welsh": 6,
}
_NO_OWN: Mapping[str, str] = {}


class CropFacts:
    """Figures of crops for one tin, with a person's own in place of the almanac's."""

    def __init__(self, own: Mapping[str, Mapping[str, str]] | None = None) -> None:
        self._own = own or {}
        self._figures: dict[str, SowingFigures | None] = {}
        self._models: dict[str, EmergenceModel] = {}

    def own(self, crop_id: str) -> Mapping[str, str]:
        """A person's own figures of a crop."""
        return self._own.get(crop_id, _NO_OWN)

    def figures(self, crop_id: str) -> SowingFigures | None:
        """Sowing figures; None for a crop that the almanac does not know."""
        if crop_id not in self._figures:
            known = almanac.is_crop_id(crop_id)
            self._figures[crop_id] = sowing_figures(crop_id, self.own(crop_id)) if known else None
        return self._figures[crop_id]

    def model(self, crop_id: str) -> EmergenceModel:
        """How the crop comes up; only for one that the almanac knows."""
        if crop_id not in self._models:
            self._models[crop_id] = emergence_model(crop_id, self.own(crop_id))
        return self._models[crop_id]

    def grams(self, crop_id: str, seeds: float) -> float | None:
        """What so many seeds weigh [g], by the thousand-seed weight; None where nobody knows."""
        weight = almanac.thousand_seed_weight_g(crop_id, self.own(crop_id))
        return None if weight is None else seeds * weight.grams / 1000


def pretreatment(crop_id: str) -> tuple[str, ...]:
    """What the seed wants before sowing, in words."""
    return tuple(fact.text for fact in all_growing(crop_id) if fact.name == "pretreatment")


def light_to_germinate(crop_id: str) -> str:
    """Whether the seed is covered, in words; empty where that is not known."""
    fact = almanac.growing(crop_id).get("light")
    return fact.text if fact else ""
