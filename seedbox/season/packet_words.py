"""What stands on a packet: its front by field name, and on its back how to sow in this garden."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from seedbox import almanac
from seedbox.season.cautions import SHARING, packet_cautions
from seedbox.season.forecast import Forecast
from seedbox.season.label_fields import label_fields
from seedbox.season.listing import PacketLine
from seedbox.season.sowing.climate import weeks_text
from seedbox.season.sowing.crop_facts import pretreatment
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.figures import SowingFigures, Span
from seedbox.season.sowing.spans import Method
from seedbox.season.sowing.where import days_text, rank_places
from seedbox.season.sowing.year import Activity, Stretch, crop_year
from seedbox.season.written_dates import written, written_day
from seedbox.tin.records import Dossier, Kind
from seedbox.units import celsius, celsius_range

Words = tuple[tuple[str, str], ...]

_WAYS = {
    Activity.INDOORS: "indoors",
    Activity.UNDER_COVER: "under cover",
    Activity.OUTDOORS: "outdoors",
}
_METHODS = {
    Activity.INDOORS: Method.INDOORS,
    Activity.UNDER_COVER: Method.UNDER_COVER,
    Activity.OUTDOORS: Method.OUTDOORS,
}


def front_fields(
    desk: Desk, line: PacketLine, seeds: int | None = None, *, to_give: bool = False
) -> dict[str, str]:
    """The fields of a label, with how many seeds go in where that is said.

    A packet `to_give` does not tell where its seed came from, but who shares it and when.
    """
    fields = label_fields(line, desk.listing.book, desk.today, desk.settings)
    amount = "" if seeds is None else f"{seeds:,} seed{'' if seeds == 1 else 's'}"
    source = _shared_by(fields) if to_give else fields["source"]
    return {**fields, "year": fields["harvested"], "seeds": amount, "source": source}


def _shared_by(fields: dict[str, str]) -> str:
    who = ", ".join(filter(None, (fields["sharer"], fields["town"])))
    return ", ".join(filter(None, (f"shared by {who}" if who else "shared", fields["month"])))


def packet_words(desk: Desk, line: PacketLine, *, to_give: bool = False) -> Words:
    """A heading and words for each line, what must not be lost first; what nobody knows is absent.

    The garden's own frosts give the dates, and its places the days to emergence. Without them the
    almanac's weeks and days stand there. A packet `to_give` says, too, whether it is treated.
    """
    line = line if line.forecast else desk.listing.forecast(line)
    figures = desk.facts.figures(line.packet.crop_id)
    stock = line.packet.kind is Kind.STOCK
    said = packet_cautions(line.packet, line.crop)
    hazards = " ".join(sentence for sentence in said if sentence != SHARING)
    parts: list[tuple[str, str]] = [("Caution", hazards)]
    if figures is not None:
        parts += [] if stock else [("Sow", _sow(desk, figures)), ("Depth", _depth(desk, figures))]
        parts += [("Space", _spacing(figures))]
        parts += [] if stock else [("Up in", _emergence(desk, figures))]
    if not stock:
        parts.append(("Germination", germination_words(line, desk.today, desk.settings.dates)))
    if figures is not None:
        parts += [
            ("Before", "; ".join(pretreatment(line.packet.crop_id))),
            ("Plant out", _planting_out(desk, figures)),
            ("Harvest", _harvest(figures)),
        ]
    if to_give:
        fields = label_fields(line, desk.listing.book, desk.today, desk.settings)
        parts.insert(1, ("Seed", fields["treated"]))
    parts.append(("Sharing", SHARING if to_give or SHARING in said else ""))
    return tuple((heading, words) for heading, words in parts if words)


def germination_words(line: PacketLine, on: date, order: str) -> str:
    """What is expected on a day with its interval, and the latest test, or that there is none.

    `84 % (73 to 92) on 2027-02-20; 46 of 50, tested 2026-03-12`
    """
    expected = _expected(line.forecast)
    tested = _tested(line.dossier, order)
    if not expected:
        return tested or "untested"
    if not tested:
        return f"untested; {expected} on {written(on, order)} by its age"
    return f"{expected} on {written(on, order)}; {tested}"


def _expected(forecast: Forecast | None) -> str:
    if forecast is None or forecast.mean is None:
        return ""
    mean = f"{100 * forecast.mean:.0f} %"
    if forecast.low is None or forecast.high is None:
        return mean
    return f"{mean} ({100 * forecast.low:.0f} to {100 * forecast.high:.0f})"


def _tested(dossier: Dossier, order: str) -> str:
    """The latest test of one's own, or the figure that its seller printed on it."""
    packet = dossier.packet
    if dossier.tests:
        test = max(dossier.tests, key=lambda each: (each.on, each.id))
        whose = f" by {test.reported_by}" if test.reported_by else ""
        return f"{test.germinated} of {test.seeds}, tested {written(test.on, order)}{whose}"
    if packet.printed_germination is None:
        return ""
    when = f", {written(packet.printed_on, order)}" if packet.printed_on else ""
    return f"seller's figure {100 * packet.printed_germination:.0f} %{when}"


def _sow(desk: Desk, figures: SowingFigures) -> str:
    """The weeks of sowing: dates by the frosts of this garden, else weeks from the last frost."""
    climate = desk.garden.climate
    if climate is None:
        return "; ".join(_by_frost(figures))
    if climate.frost_free:
        return _by_warmth(figures.crop_id)
    stretches = crop_year(figures, climate, desk.today.year)
    return "; ".join(_by_dates(stretches, desk.settings.dates))


def _by_dates(stretches: Sequence[Stretch], order: str) -> Iterator[str]:
    """`outdoors 28 Mar to 25 Apr, later to 18 Aug`, for each way of sowing."""
    for activity, name in _WAYS.items():
        own = [one for one in stretches if one.activity is activity]
        told: list[str] = []
        for at, one in enumerate(own):
            follows = at > 0 and one.later and one.first - own[at - 1].last <= timedelta(days=1)
            if follows:
                told[-1] += f", later to {written_day(one.last, order)}"
            else:
                told.append(_days(one, order))
        if told:
            yield f"{name} {' and '.join(told)}"


def _days(stretch: Stretch, order: str) -> str:
    return f"{written_day(stretch.first, order)} to {written_day(stretch.last, order)}"


def _by_frost(figures: SowingFigures) -> Iterator[str]:
    for name, weeks in (("indoors", figures.indoor_weeks), ("outdoors", figures.outdoor_weeks)):
        if weeks is not None:
            ends = dict.fromkeys(weeks_text(week) for week in (weeks.low, weeks.high))
            yield f"{name} {' to '.join(ends)} the last spring frost"


def _by_warmth(crop_id: str) -> str:
    """Without frost the ground decides."""
    soil = almanac.soil_temperature(crop_id)
    if soil is None or soil.minimum_c is None:
        return "when the ground is warm enough"
    if soil.maximum_c is None:
        return f"when the ground has {celsius(soil.minimum_c)} or more"
    return f"while the ground has {celsius_range(soil.minimum_c, soil.maximum_c)}"


def _depth(desk: Desk, figures: SowingFigures) -> str:
    light = almanac.growing(figures.crop_id, desk.facts.own(figures.crop_id)).get("light")
    said, deep = light.text if light else "", _span(figures.depth_mm, "mm")
    if said.startswith("light"):
        return f"{deep} at most: light helps it to come up" if deep else "press in, do not cover"
    dark = "cover it well: it comes up in the dark" if said.startswith("dark") else ""
    return "; ".join(filter(None, (deep, dark)))


def _spacing(figures: SowingFigures) -> str:
    plants, rows = _span(figures.plant_spacing_cm, "cm"), _span(figures.row_spacing_cm, "cm")
    apart = (f"{plants} apart" if plants else "", f"rows {rows}" if rows else "")
    return ", ".join(filter(None, apart))


def _span(span: Span | None, unit: str) -> str:
    if span is None:
        return ""
    ends = f"{span.low:g}" if span.low == span.high else f"{span.low:g} to {span.high:g}"
    return f"{ends} {unit}"


def _emergence(desk: Desk, figures: SowingFigures) -> str:
    """Days to emergence in the middle of its weeks, in the best place of the first way that does;
    else the days of the tables.
    """
    model = desk.facts.model(figures.crop_id)
    for method, day in _middles(desk, figures):
        places = [place.spot for place in desk.garden.places_for(method)]
        for choice in rank_places(model, places, day)[:1]:
            found = choice.emerging
            if found.verdict.sows and found.days is not None:
                told = f"{days_text(found.days)} at {found.temperature_c:.0f} °C"
                return f"{told}, {choice.place.name}"
    return _span(figures.emerge_days, "days")


def _middles(desk: Desk, figures: SowingFigures) -> Iterator[tuple[Method, date]]:
    """The middle day of the best weeks of each way of sowing; without frost it is today."""
    climate = desk.garden.climate
    if climate is None:
        return
    if climate.frost_free:
        yield from ((method, desk.today) for method in Method)
        return
    for one in crop_year(figures, climate, desk.today.year):
        if one.activity in _METHODS and not one.later:
            yield _METHODS[one.activity], one.first + (one.last - one.first) / 2


def _planting_out(desk: Desk, figures: SowingFigures) -> str:
    climate = desk.garden.climate
    if climate is None or climate.frost_free:
        return ""
    stretches = crop_year(figures, climate, desk.today.year)
    order = desk.settings.dates
    return " and ".join(
        _days(one, order) for one in stretches if one.activity is Activity.SET_OUT and not one.later
    )


def _harvest(figures: SowingFigures) -> str:
    days = _span(figures.maturity_days, "days")
    since = "planting out" if figures.maturity_from_transplanting else "sowing"
    return f"{days} from {since}" if days else ""
