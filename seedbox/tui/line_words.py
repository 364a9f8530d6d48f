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


def _per_cent(fraction: float | None) -> str:
    return "?" if fraction is None else f"{fraction * 100:.0f}\u00a0%"


def _chance(probability: float | None) -> str:
    """A probability in words that never claim certainty."""
    if probability is None:
        return "perhaps"
    if probability > 0.95:
        return "almost surely"
    return f"with a chance of {_per_cent(probability)}"


def _sow(f: Forecast) -> str:
    return f"Sow as usual: {_chance(f.p_standard)} it reaches the standard of {_standard(f)}."


def _use_up(f: Forecast) -> str:
    return (
        f"Use up this season: {_chance(f.p_standard)} it still reaches the standard of"
        f" {_standard(f)}, but hardly in a year."
    )


def _sow_thick(f: Forecast) -> str:
    factor = f"about {f.thick_factor:.1f} times as many seeds" if f.thick_factor else "more seeds"
    return (
        f"Sow thick, {factor}: it may miss the standard of {_standard(f)}, but {_chance(f.p_floor)}"
        " enough comes up to be worth sowing."
    )


def _test(f: Forecast) -> str:
    seeds = f" {f.test_seeds} seeds" if f.test_seeds else ""
    return (
        f"Test{seeds} before you rely on it: anything from {_per_cent(f.low)} to"
        f" {_per_cent(f.high)} may come up."
    )


def _spent(f: Forecast) -> str:
    too_few = None if f.p_floor is None else 1 - f.p_floor
    return (
        f"Spent: about {_per_cent(f.mean)} will come up,"
        f" {_chance(too_few)} too few to be worth sowing."
    )


def _standard(f: Forecast) -> str:
    return _per_cent(f.standard)


_REASONS = {
    "sow": _sow,
    "sow thick": _sow_thick,
    "test": _test,
    "use up": _use_up,
    "spent": _spent,
}
