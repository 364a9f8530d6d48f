"""Figures that a person may set for their own garden, and how their text is understood."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from seedbox.errors import BadDataError


@dataclass(frozen=True, slots=True)
class Overridable:
    """A figure that a person may set: one number, or a range where `ranged`.

    Limits are in `unit`. A percent is used as a fraction.
    """

    unit: str
    low: float
    high: float
    meaning: str
    percent: bool = False
    ranged: bool = False

    def parse(self, text: str) -> tuple[float, float]:
        """Both ends of what is typed, equal for one number. Raises BadDataError with a sentence."""
        parts = _ends(text) if self.ranged else [text]
        low, *rest = (self._number(part, text) for part in parts)
        high = rest[0] if rest else low
        if low > high:
            raise BadDataError(f"“{_short(text)}”: the first number is larger than the second.")
        return low, high

    def _number(self, part: str, text: str) -> float:
        value = self._typed(part, text)
        if not self.low <= value <= self.high:
            raise BadDataError(
                f"{value:g} {self.unit} is not plausible for {self.meaning}: "
                f"give {self.low:g} to {self.high:g} {self.unit}."
            )
        return value / 100 if self.percent else value

    def _typed(self, part: str, text: str) -> float:
        typed = part.strip().casefold()
        bare = typed.removesuffix(self.unit.casefold()).strip()
        plain = bare.replace(",", ".")
        # Only digits, one point and a sign: float() would also take nan, 1e9 and 1_000.
        if not plain.removeprefix("-").replace(".", "", 1).isdecimal():
            raise BadDataError(
                f"“{_short(text)}” is not a number: {self.meaning} is given in {self.unit}."
            )
        value = float(plain)
        fraction = self.percent and bare == typed and 0 < value <= 1
        return value * 100 if fraction else value


def _ends(text: str) -> list[str]:
    """`13-25`, `13 to 25` or `13` as one or two texts; a minus sign in front is kept."""
    for dash in ("–", "—", " to ", ".."):
        text = text.replace(dash, "\0")
    if "\0" not in text and "-" in text.strip()[1:]:
        head, _, tail = text.strip()[1:].partition("-")
        return [text.strip()[0] + head, tail]
    return text.split("\0", 1)


def _short(text: str) -> str:
    return text.strip()[:40]


OVERRIDABLE: Mapping[str, Overridable] = MappingProxyType(
    {
        "storage_years": Overridable("years", 0.2, 100, "a storage life"),
        "standard": Overridable("%", 10, 100, "a least germination", percent=True),
        "oil_fraction": Overridable("%", 0, 70, "an oil content", percent=True),
        "thousand_seed_weight_g": Overridable("g", 0.001, 5000, "a thousand-seed weight"),
        "depth_mm": Overridable("mm", 0, 200, "a sowing depth", ranged=True),
        "plant_spacing_cm": Overridable("cm", 0.5, 500, "a plant spacing", ranged=True),
        "row_spacing_cm": Overridable("cm", 1, 1000, "a row spacing", ranged=True),
        "emerge_days": Overridable("days", 1, 365, "a time to emergence", ranged=True),
        "weeks_to_transplant": Overridable("weeks", 0, 60, "a time to transplanting", ranged=True),
        "days_to_maturity": Overridable("days", 5, 1500, "a time to maturity", ranged=True),
        "indoor_weeks_before_last_frost": Overridable(
            "weeks", -30, 52, "an indoor sowing week", ranged=True
        ),
        "succession_days": Overridable("days", 1, 180, "a time between sowings", ranged=True),
        "min_container_depth_cm": Overridable("cm", 1, 100, "a pot depth"),
    }
)


def parse_override(name: str, text: str) -> tuple[float, float]:
    """A person's figure as the numbers that are used, equal for one number.

    Percents come back as fractions. Raises BadDataError with a sentence.
    """
    if name not in OVERRIDABLE:
        known = ", ".join(OVERRIDABLE)
        raise BadDataError(
            f"“{_short(name)}” is not a figure that can be set.", hint=f"You can set: {known}."
        )
    return OVERRIDABLE[name].parse(text)
