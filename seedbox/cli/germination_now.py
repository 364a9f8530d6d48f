"""The germination that is expected of a packet after something was learnt of it."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from seedbox.cli.words import germination

if TYPE_CHECKING:
    from seedbox.tin.file import Tin


def germination_now(tin: Tin, today: date, code: str) -> tuple[dict[str, float | None] | None, str]:
    """Mean and interval for programs, and in words; None and empty where there is no forecast."""
    from seedbox.season.listing import Listing

    listing = Listing(tin, today)
    forecast = listing.forecast(listing.line(code)).forecast
    if forecast is None or forecast.mean is None:
        return None, ""
    mean, low, high = forecast.mean, forecast.low, forecast.high
    return {"mean": mean, "low": low, "high": high}, germination(mean, low, high)
