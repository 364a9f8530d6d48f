"""The sentences that say why so much of a packet is spare, or none of it, and what it is worth."""

from __future__ import annotations

from datetime import date

from seedbox.season.far_dates import until
from seedbox.season.forecast import Advice, Forecast
from seedbox.season.listing import PacketLine
from seedbox.season.swapping.keeping import Kept
from seedbox.season.swapping.portions import Portion
from seedbox.tin.records import Unit
from seedbox.units import per_cent, per_cent_range

_SEASONS = ("this season", "the next")


def why_none(reason: str, line: PacketLine, ahead: date) -> str:
    """Why nothing of a packet can be offered."""
    code = line.packet.code
    if reason == "stock":
        return "Planting stock, not seed: look at it and hand it over while it is firm."
    if reason == "uncounted":
        return f"Nobody counted it, so nobody knows what is spare: seedbox recount {code} AMOUNT."
    if reason == "no weight":
        return (
            "It is kept in grams and nobody knows what a seed of it weighs: weigh 100 seeds, then"
            f" say so with seedbox crop “{line.crop}” --set thousand_seed_weight_g=GRAMS."
        )
    mean = line.forecast.mean if line.forecast else None
    alive = "" if mean is None else f": about {per_cent(mean)} still germinate"
    if reason == "spent":
        return f"Spent{alive}. Seed like this is given to nobody."
    return f"It will be spent by {_month(ahead)}{alive} now. Seed like this is given to nobody."


def why_spare(
    line: PacketLine, left: int, kept: Kept, one: Portion, could: int, *, today: date
) -> str:
    """What is in the packet, what stays, and what that leaves."""
    said = [f"{_seeds(left, line)}{_good_until(line, today)}; {_kept(kept, left)}."]
    rest = max(left - kept.seeds, 0)
    if could:
        portions = f"{could} portion{'' if could == 1 else 's'}"
        said.append(f"{rest} spare: {portions} of {one.why}.")
    elif kept.last:
        said.append("The last seed of a variety that nobody sells is never spare.")
    elif rest:
        left_over = f"The {rest} left are" if rest > 1 else "The one left is"
        said.append(f"{left_over} less than a portion: {one.why}.")
    return " ".join(said)


def honest_words(line: PacketLine) -> list[str]:
    """What must be said of seed that is not surely good, and of how it is known."""
    forecast = line.forecast
    if forecast is None or forecast.mean is None:
        return []
    assert forecast.low is not None and forecast.high is not None
    said = []
    if forecast.advice is Advice.SOW_THICK:
        said.append(_poor(forecast, forecast.mean))
    elif forecast.advice is Advice.TEST:
        share = per_cent_range(forecast.low, forecast.high)
        said.append(f"Doubtful seed: {share} may germinate. Test it before you rely on it.")
    elif forecast.advice is Advice.USE_UP:
        said.append("Use it up this season: by the next it may fall below the standard.")
    tests = line.dossier.tests
    if tests and all(test.reported_by for test in tests):
        said.append("Its test was made by whoever gave it away before, not by me.")
    said += [warning for warning in forecast.warnings if "age is not known" in warning]
    if not forecast.supported:
        said.append("It was kept where no forecast is sure: test it before you rely on it.")
    return said


def _poor(forecast: Forecast, mean: float) -> str:
    """Seed that is not surely at its standard, and how thick it is to be sown."""
    standard = forecast.standard or 0.0
    which = "Poor seed" if mean < standard else "Not surely good seed"
    below = "below" if mean < standard else "not surely at"
    times = (
        f" Sow {forecast.thick_factor:g} times as much as usual." if forecast.thick_factor else ""
    )
    share = f"about {per_cent(mean)} germinate"
    return f"{which}: {share}, {below} the standard of {per_cent(standard)}.{times}"


def _kept(kept: Kept, left: int) -> str:
    parts = [f"{seeds} for {_season(season)}" for season, seeds in sorted(kept.by_season.items())]
    said = [f"kept back {' and '.join(_limited(parts))} ({_basis(kept)})"] if parts else []
    if kept.past:
        when = _limited([_season(season) for season in sorted(kept.past)])
        said.append(f"none for {' and '.join(when)}, when it is no longer good")
    if kept.regrow > kept.sown:
        regrow = min(kept.regrow, left)
        said.append(f"kept back {regrow} in all to grow the variety again, which nobody sells")
    if kept.test:
        said.append(f"{kept.test} for a test")
    return "; ".join(said) or "no plan counts on it"


def _basis(kept: Kept) -> str:
    household = "what a household grows, as nothing is planned"
    if not kept.by_plan:
        return household
    return (
        "by your plan"
        if kept.by_plan >= kept.by_season.keys()
        else f"by your plan, else {household}"
    )


def _limited(parts: list[str]) -> list[str]:
    if len(parts) < 3:
        return parts
    return [", ".join(parts[:-1]), parts[-1]]


def _season(season: int) -> str:
    return _SEASONS[season] if season < len(_SEASONS) else f"season {season + 1}"


def _good_until(line: PacketLine, today: date) -> str:
    last = line.forecast.good_until if line.forecast else None
    return f", good until {until(last, today)}" if last else ""


def _month(day: date) -> str:
    return f"{day:%B} {day.year}"


def _seeds(left: int, line: PacketLine) -> str:
    about = "about " if line.packet.unit is Unit.GRAMS else ""
    return f"{about.capitalize()}{left} seed{'' if left == 1 else 's'}"
