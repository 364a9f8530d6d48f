"""Sentences about a packet's forecast, in plain words."""

from __future__ import annotations

from seedbox.season.forecast import Forecast
from seedbox.season.listing import PacketLine
from seedbox.tin.records import Kind


def detail_words(line: PacketLine) -> str:
    """What the list says below about the highlighted packet."""
    packet = line.packet
    parts = [f"{line.crop} {packet.variety}".strip()]
    if line.year != "unknown":
        parts.append(line.year)
    parts.append(line.left)
    if line.store:
        parts.append(line.store)
    if packet.source:
        parts.append(f"from {packet.source}")
    head = ", ".join(parts)
    return head if line.forecast is None else f"{head}. {advice_words(line)}"


def advice_words(line: PacketLine) -> str:
    """The advice with its reason."""
    forecast = line.forecast
    if forecast is None:
        return "The forecast is being worked out."
    if line.packet.kind is Kind.STOCK:
        return _stock_words(forecast)
    if forecast.mean is None or forecast.advice is None:
        return " ".join(forecast.warnings) or "No forecast can be made."
    return _REASONS[forecast.advice.value](forecast)


def _stock_words(forecast: Forecast) -> str:
    if forecast.good_until is None:
        return "Planting stock: no forecast, only a shelf date, and none is known."
    return f"Planting stock: plant by {forecast.good_until:%d %B %Y}."


def _per_cent(fraction: float) -> str:
    return f"{fraction * 100:.0f} %"


def _chance(probability: float) -> str:
    """A probability in words that do not claim certainty."""
    if probability > 0.99:
        return "almost certainly"
    if probability < 0.01:
        return "almost certainly not"
    return f"with a chance of {_per_cent(probability)}"


def _sow(f: Forecast) -> str:
    return (
        f"Sow as usual: it reaches the standard of {_per_cent(f.standard or 0.0)} {_chance(f.p_standard or 0.0)}."
    )


def _use_up(f: Forecast) -> str:
    return (
        f"Use up this season: still good enough ({_per_cent(f.standard or 0.0)} {_chance(f.p_standard or 0.0)}),"
        " but probably not in a year."
    )


def _sow_thick(f: Forecast) -> str:
    factor = f" about {f.thick_factor:.1f} times as many seeds" if f.thick_factor else " more seeds"
    return (
        f"Sow thick,{factor}: below the standard of {_per_cent(f.standard or 0.0)}, yet above the least"
        f" that is worth sowing {_chance(f.p_floor or 0.0)}."
    )


def _test(f: Forecast) -> str:
    return (
        "Test before you rely on it: it may be good or poor,"
        f" {_per_cent(f.low or 0.0)} to {_per_cent(f.high or 0.0)}. n records a finished test."
    )


def _spent(f: Forecast) -> str:
    return (
        f"Spent: only {_per_cent(f.mean or 0.0)} is expected to come up;"
        f" worth sowing {_chance(f.p_floor or 0.0)}."
    )


_REASONS = {
    "sow": _sow,
    "sow thick": _sow_thick,
    "test": _test,
    "use up": _use_up,
    "spent": _spent,
}
