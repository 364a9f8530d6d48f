"""A forecast in sentences: the share, the advice with its reason, until when, what it rests on."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from seedbox.cli.words import day, percent
from seedbox.season.far_dates import until

if TYPE_CHECKING:
    from seedbox.season.forecast import Forecast
    from seedbox.season.what_if import WhatIf
    from seedbox.tin.preferences import Settings


def forecast_lines(forecast: Forecast, settings: Settings, today: date) -> list[str]:
    """The forecast as plain lines, without what it rests on."""
    if forecast.mean is None:
        shelf = forecast.shelf_date
        plant = [f"No forecast: plant it by {day(shelf)}."] if shelf else []
        return [*plant, *forecast.warnings]
    lines = [
        share(forecast),
        advice(forecast, settings),
        _until(forecast, today),
        _regrow(forecast, today),
    ]
    return [*forecast.warnings, *filter(None, lines)]


def share(forecast: Forecast | WhatIf) -> str:
    """What will come up, and how sure that is."""
    if forecast.mean is None or forecast.low is None or forecast.high is None:
        return ""
    return (
        f"Of 100 seeds about {round(forecast.mean * 100)} should germinate; 9 times in 10 a "
        f"sowing or test lies between {round(forecast.low * 100)} and {round(forecast.high * 100)}."
    )


def advice(forecast: Forecast | WhatIf, settings: Settings) -> str:
    """The advice and the probability behind it."""
    if forecast.advice is None or forecast.p_standard is None or forecast.p_floor is None:
        return ""
    reason = _REASONS[forecast.advice.value]
    return f"Advice: {forecast.advice.value}. " + reason.format(
        standard=percent(forecast.standard or 0),
        basis=forecast.standard_basis,
        p_standard=percent(forecast.p_standard),
        p_floor=percent(forecast.p_floor),
        floor=percent(settings.floor),
        factor=f"{forecast.thick_factor or 1:.1f}",
        seeds=_test_seeds(getattr(forecast, "test_seeds", None)),
    )


_STANDARD = "the standard of {standard} ({basis})"
_REASONS = {
    "sow": f"It still reaches {_STANDARD} with a probability of {{p_standard}}.",
    "use up": (
        f"It still reaches {_STANDARD} with a probability of {{p_standard}}, but a year from now "
        "that can no longer be relied on."
    ),
    "sow thick": (
        f"It reaches {_STANDARD} with a probability of only {{p_standard}}, but {{floor}} with "
        "{p_floor}. Sow {factor} times as many seeds as usual."
    ),
    "spent": (
        "Even {floor} germination is reached with a probability of only {p_floor}. Do not rely "
        "on it; sow what is left where nothing is lost."
    ),
    "test": (
        f"It reaches {_STANDARD} with a probability of {{p_standard}}, and {{floor}} with "
        "{p_floor}: too unsure to say. {seeds}"
    ),
}


def _test_seeds(number: int | None) -> str:
    if not number:
        return "Test it on damp paper first."
    return f"Test {number} seeds on damp paper first."


def _until(forecast: Forecast, today: date) -> str:
    """The date by which the advice no longer holds."""
    last = forecast.good_until
    if last is None or forecast.advice is None:
        return ""
    what = "for sowing thick" if forecast.advice.value == "sow thick" else "at the standard"
    told = until(last, today)
    told = told if told.startswith("beyond") else f"until about {told}"
    return f"Good {what} {told}, if it stays where it is."


def _regrow(forecast: Forecast, today: date) -> str:
    """What genebanks do with seed that cannot be bought again."""
    when = forecast.regrow_before
    if when is None:
        return ""
    rule = "85 % of its first value, where genebanks regrow (Rao et al. 2006)"
    if when <= today:
        return f"It has probably fallen below {rule}. If nobody sells it, regrow it soon."
    return f"If nobody sells it, regrow it: about {until(when, today)} it falls below {rule}."
