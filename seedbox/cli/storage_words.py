"""Storage periods as typed on a command line: by options, and by `--then` in one of two ways."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from seedbox.cli.params import read_number, read_share
from seedbox.errors import UsageError
from seedbox.season.storage_plan import StoragePlan, parse_plan

_DAYS_PER_YEAR = 365.25
_DAYS = {"days": 1.0, "weeks": 7.0, "months": _DAYS_PER_YEAR / 12, "years": _DAYS_PER_YEAR}
_CLIMATE = ("temperature", "coolest", "warmest", "humidity", "moisture", "sealed")
_EXAMPLE = (
    'Write --then "temperature=4,moisture=6,years=3" or "coolest=3,warmest=18,humidity=65,days=90".'
)


def first_period(given: Mapping[str, Any]) -> StoragePlan:
    """The period that the options describe. Numbers are in °C, a share, per cent of fresh weight.

    Raises:
        UsageError: with what is missing.
    """
    days = [given[unit] * length for unit, length in _DAYS.items() if given.get(unit) is not None]
    if len(days) != 1:
        raise UsageError("How long is it kept?", hint="Give one of: " + _options(_DAYS))
    constant, coolest, warmest = (given.get(name) for name in _CLIMATE[:3])
    if constant is not None and (coolest is not None or warmest is not None):
        raise UsageError("Give --temperature, or --coolest and --warmest, not all of them.")
    low = coolest if constant is None else constant
    high = warmest if constant is None else constant
    if low is None or high is None:
        raise UsageError(
            "How warm is it there?", hint="Give --temperature, or both --coolest and --warmest."
        )
    humidity, moisture, sealed = (given.get(name) for name in _CLIMATE[3:])
    if humidity is None and moisture is None and not sealed:
        raise UsageError(
            "How moist is it?",
            hint="Give --humidity for open storage, or --moisture or --sealed for sealed seed.",
        )
    return StoragePlan(days[0], low, high, humidity, moisture, bool(sealed))


def later_period(text: str) -> StoragePlan:
    """A period from the text of `--then`.

    >>> later_period("temperature=4,moisture=6,years=1")
    StoragePlan(days=365.25, coolest_c=4.0, warmest_c=4.0, relative_humidity=None, moisture=6.0, sealed=False)
    """  # noqa: E501
    if "=" not in text:
        return parse_plan(text)
    try:
        return first_period(dict(_part(part) for part in text.split(",") if part.strip()))
    except (ValueError, UsageError) as error:
        told = error.sentence if isinstance(error, UsageError) else str(error)
        raise UsageError(f"--then “{text}”: {told}", hint=_EXAMPLE) from None


def _part(part: str) -> tuple[str, float | bool]:
    name, equals, value = (piece.strip().casefold() for piece in part.partition("="))
    if name == "sealed" and value in {"", "yes"}:
        return name, True
    if not equals or name not in {*_DAYS, *_CLIMATE} - {"sealed"}:
        raise ValueError(f"“{part.strip()}” is not understood.")
    return name, read_share(value) if name == "humidity" else read_number(value)


def _options(names: Mapping[str, float]) -> str:
    return ", ".join(f"--{name}" for name in names) + "."
