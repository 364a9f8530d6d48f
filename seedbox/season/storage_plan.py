"""A stretch of storage that a person names, and how they type it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from seedbox.errors import UsageError
from seedbox.science.constants import DAYS_PER_YEAR
from seedbox.units import celsius

_LONGEST_DAYS = 200 * DAYS_PER_YEAR


@dataclass(frozen=True, slots=True)
class StoragePlan:
    """A stretch of storage. Temperatures [C] are equal in a constant store.

    Open storage has `relative_humidity` [fraction]. Sealed seed has `moisture` [% of fresh
    weight], or `sealed` alone: as moist as it was before.
    """

    days: float
    coolest_c: float
    warmest_c: float
    relative_humidity: float | None = None
    moisture: float | None = None
    sealed: bool = False


def parse_plan(text: str) -> StoragePlan:
    """A stretch of storage as a person types it: `5 years 4 C sealed`, `250 d 26.7C 44 %RH`.

    Time in days, months or years; one temperature or `5 to 25 C`; `%RH` for open storage,
    `% moisture` or `sealed` for sealed seed. In any order.

    Raises:
        UsageError: when a part is missing or not understood.
    """
    rest = text.strip()
    found: dict[str, re.Match[str]] = {}
    for name, pattern in _PARTS.items():
        match = pattern.search(rest)
        if match:
            found[name] = match
            rest = f"{rest[: match.start()]} {rest[match.end() :]}"
    if rest.strip(" ,;"):
        raise UsageError(
            f"“{rest.strip()[:40]}” in “{text.strip()[:60]}” is not understood.", hint=_EXAMPLE
        )
    if "time" not in found or "temperature" not in found:
        raise UsageError(f"“{text.strip()[:60]}” needs a time and a temperature.", hint=_EXAMPLE)
    coolest = float(found["temperature"]["low"])
    warmest = float(found["temperature"]["high"] or coolest)
    humidity, moisture = found.get("humidity"), found.get("moisture")
    return StoragePlan(
        days=float(found["time"]["n"]) * _DAYS[found["time"]["unit"][0].lower()],
        coolest_c=min(coolest, warmest),
        warmest_c=max(coolest, warmest),
        relative_humidity=float(humidity["n"]) / 100.0 if humidity else None,
        moisture=float(moisture["n"]) if moisture else None,
        sealed="sealed" in found,
    )


_EXAMPLE = "Say for example: 5 years 4 °C sealed; or 250 days 26.7 °C 44 %RH."
_NUMBER = r"\d+(?:\.\d+)?"
_PARTS = {
    name: re.compile(pattern, re.IGNORECASE)
    for name, pattern in {
        "humidity": rf"(?P<n>{_NUMBER})\s*%?\s*(?:rh|humidity)\b",
        "moisture": rf"(?P<n>{_NUMBER})\s*%?\s*(?:mc|moisture)\b",
        "temperature": rf"(?P<low>-?{_NUMBER})(?:\s*(?:to|\.\.)\s*(?P<high>-?{_NUMBER}))?\s*°?c\b",
        "time": rf"(?P<n>{_NUMBER})\s*(?P<unit>days?|months?|years?|d|m|y)\b",
        "sealed": r"\bsealed\b",
    }.items()
}
_DAYS = {"d": 1.0, "m": DAYS_PER_YEAR / 12.0, "y": DAYS_PER_YEAR}


def check_plan(period: StoragePlan) -> None:
    """Raise UsageError for a stretch of storage that cannot be."""
    if not 0.0 < period.days <= _LONGEST_DAYS:
        raise UsageError(
            f"A storage period lasts from above 0 to 200 years, not {period.days:g} days."
        )
    for temperature in (period.coolest_c, period.warmest_c):
        if not -273.0 < temperature < 100.0:
            raise UsageError(f"{celsius(temperature)} is no temperature at which seed is kept.")
    if period.relative_humidity is not None and not 0.0 <= period.relative_humidity <= 1.0:
        raise UsageError(
            f"Relative humidity lies between 0 and 100 %, not {100 * period.relative_humidity:g} %."
        )
    if period.moisture is not None and not 0.0 < period.moisture < 60.0:
        raise UsageError(f"Seed moisture lies between 0 and 60 %, not {period.moisture:g} %.")
    if period.relative_humidity is not None and (period.sealed or period.moisture is not None):
        raise UsageError(
            "Sealed seed does not feel the humidity of the store.",
            hint="Give humidity for open storage, or moisture for sealed seed.",
        )
    if period.relative_humidity is None and period.moisture is None and not period.sealed:
        raise UsageError(
            "Say how moist: the humidity of an open store, or the moisture of sealed seed.",
            hint=_EXAMPLE,
        )
