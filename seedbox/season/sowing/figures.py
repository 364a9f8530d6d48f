"""What the almanac says of sowing a crop, as numbers, once for windows, pots and dates."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from seedbox import almanac
from seedbox.almanac import Fact, Mark

# A crop whose roots want a pot so deep goes down before it goes sideways.
DEEP_ROOTED_CM = 9.0


class Hardiness(StrEnum):
    """What frost does to the crop."""

    HARDY = "hardy"
    HALF_HARDY = "half-hardy"
    TENDER = "tender"
    VERY_TENDER = "very tender"

    @property
    def frost_kills(self) -> bool:
        """Whether a frost ends it."""
        return self in (Hardiness.TENDER, Hardiness.VERY_TENDER)


@dataclass(frozen=True, slots=True)
class Span:
    """Both ends of a figure; equal for one number."""

    low: float
    high: float

    @property
    def mid(self) -> float:
        """The middle."""
        return 0.5 * (self.low + self.high)


@dataclass(frozen=True, slots=True)
class SowingFigures:
    """Weeks count from the last spring frost, negative before it. Unknown figures are None."""

    crop_id: str
    category: str
    family: str
    hardiness: Hardiness
    annual: bool
    perennial: bool
    dislikes_moving: bool
    pots_only: bool
    outdoor_weeks: Span | None
    indoor_weeks: Span | None
    set_out_weeks: Span | None
    weeks_to_transplant: Span | None
    maturity_days: Span | None
    maturity_from_transplanting: bool
    emerge_days: Span | None
    succession_days: Span | None
    pot_depth_cm: float
    plant_spacing_cm: Span | None
    row_spacing_cm: Span | None
    depth_mm: Span | None
    wants_winter_cold: bool

    @property
    def deep_rooted(self) -> bool:
        """Whether its roots go down first: it dislikes moving, or wants a deep pot."""
        return self.tap_rooted or self.pot_depth_cm >= DEEP_ROOTED_CM

    @property
    def tap_rooted(self) -> bool:
        """Whether one main root is all it has for a start: it dislikes moving, or is a legume."""
        return self.dislikes_moving or self.family == "Fabaceae"

    def days_to_harvest(self) -> Span | None:
        """Days from sowing to the first harvest, time in pots included."""
        if self.maturity_days is None:
            return None
        if not self.maturity_from_transplanting:
            return self.maturity_days
        weeks = self.weeks_to_transplant or Span(0.0, 0.0)
        return Span(
            self.maturity_days.low + 7.0 * weeks.low, self.maturity_days.high + 7.0 * weeks.high
        )


def sowing_figures(crop_id: str, own: Mapping[str, str] | None = None) -> SowingFigures:
    """The figures of a crop of the almanac, a person's own in place of its.

    Raises NotFoundError for a crop that the almanac does not know.
    """
    crop = almanac.crop(crop_id)
    facts = almanac.growing(crop_id, own or {})
    method = facts["sow_method"].text
    life = facts["life"].text
    depth = _span(facts, "min_container_depth_cm") or Span(0.0, 0.0)
    maturity = facts.get("days_to_maturity")
    return SowingFigures(
        crop_id=crop_id,
        category=crop.category,
        family=crop.family,
        hardiness=Hardiness(facts["hardiness"].text),
        annual=life == "annual",
        perennial=life == "perennial",
        dislikes_moving=method.startswith("direct"),
        pots_only=method == "transplant",
        outdoor_weeks=_span(facts, "outdoor_sow_week"),
        indoor_weeks=_indoor_weeks(facts),
        set_out_weeks=_span(facts, "set_out_week"),
        weeks_to_transplant=_span(facts, "weeks_to_transplant"),
        maturity_days=_span(facts, "days_to_maturity"),
        maturity_from_transplanting=maturity is not None and "transplanting" in maturity.text,
        emerge_days=_span(facts, "emerge_days"),
        succession_days=_span(facts, "succession_days"),
        pot_depth_cm=depth.low,
        plant_spacing_cm=_span(facts, "plant_spacing_cm"),
        row_spacing_cm=_span(facts, "row_spacing_cm"),
        depth_mm=_span(facts, "depth_mm"),
        wants_winter_cold="stratify" in almanac.pretreatments(crop_id),
    )


def _span(facts: Mapping[str, Fact], name: str) -> Span | None:
    fact = facts.get(name)
    if fact is None or fact.low is None or fact.high is None:
        return None
    return Span(fact.low, fact.high)


def _indoor_weeks(facts: Mapping[str, Fact]) -> Span | None:
    """Set-out week less time to transplanting; a person's own weeks before frost come first."""
    asked = facts.get("indoor_weeks_before_last_frost")
    before = _span(facts, "indoor_weeks_before_last_frost")
    if asked is not None and before is not None and asked.mark is Mark.YOURS:
        return Span(-before.high, -before.low)
    reckoned = _span(facts, "indoor_sow_week")
    if reckoned is not None or before is None:
        return reckoned
    return Span(-before.high, -before.low)
