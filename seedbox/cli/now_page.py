"""The page of `now`: what to sow, where, how many, why; and what was left out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from seedbox.cli.sowing_words import cells_deep, depth, distances, treatment
from seedbox.cli.tables import one_line, wrapped
from seedbox.cli.words import count, day

if TYPE_CHECKING:
    from seedbox.season.sowing.now import SowingNow
    from seedbox.season.sowing.offers import LeftOut, Offer
    from seedbox.tin.preferences import Settings

_INDENT = "   "
_MOST_OTHERS = 2


def facts(offer: Offer) -> dict[str, Any]:
    """One offer for JSON."""
    from seedbox.season.sowing.fields import offer_fields

    return offer_fields(offer)


def page(
    found: SowingNow,
    offers: Sequence[Offer],
    settings: Settings,
    *,
    narrowed: bool,
    further: int,
    aim: str = "",
) -> Iterator[str]:
    """The offers that are shown; `further` more were held back. `aim` is the option it took."""
    garden = f", {one_line(settings.garden_name)}" if settings.garden_name else ""
    if not offers:
        yield f"{day(found.on)}{garden}: nothing to sow{' that fits' if narrowed else ''}."
        return
    total = count(len(offers) + further, "packet")
    yield f"{day(found.on)}{garden}: {total} to sow from, the most urgent first."
    for number, offer in enumerate(offers, 1):
        yield ""
        yield from _offer(number, offer, settings)
        yield f"{_INDENT}{to_type(offer)}{aim}"
    dim = list(_dim_places(offers))
    if dim:
        yield ""
        yield from dim
    if further:
        yield ""
        yield from wrapped(
            f"{count(further, 'more packet')} can be sown, less pressing, or second to one above: "
            "seedbox now --all"
        )


def _dim_places(offers: Sequence[Offer]) -> Iterator[str]:
    """What the light of each place named above means, where it does not suit seedlings."""
    places = dict.fromkeys((one.choice.place.name, one.light) for one in offers if one.light)
    for name, light in places:
        if "too" in light:
            yield from wrapped(f"{name}: {light}.")


def _offer(number: int, offer: Offer, settings: Settings) -> Iterator[str]:
    line, choice = offer.line, offer.choice
    what = ", ".join(filter(None, (line.crop, line.packet.variety)))
    yield from wrapped(f"{number}. {line.code}  {what}: {choice.method}, {choice.place.name}.")
    for sentence in _sentences(offer, settings):
        yield from wrapped(sentence, _INDENT, _INDENT)


def _sentences(offer: Offer, settings: Settings) -> Iterator[str]:
    yield f"{_capital(offer.reason)}."
    yield f"{_capital(offer.plan.sentence)}."
    if offer.instead_of:
        yield f"First use {offer.instead_of[:4]} {offer.instead_of[4:]} of the same crop."
    at = ", ".join(filter(None, (_up(offer), depth(offer.figures), distances(offer.figures))))
    yield f"{_capital(at)}."
    for said in (*treatment(offer.figures.crop_id), cells_deep(offer, settings.cell_depth_cm)):
        if said:
            yield f"{_capital(said)}."
    others = list(_others(offer))
    if others:
        yield f"Or {', or '.join(others)}."


def _up(offer: Offer) -> str:
    """Days until it is up, at the temperature there."""
    sentence = offer.choice.emerging.sentence
    return f"up in {sentence}" if offer.choice.emerging.days else sentence


def _others(offer: Offer) -> Iterator[str]:
    for choice in offer.others[:_MOST_OTHERS]:
        days = choice.emerging.days
        about = f" ({round(days.mid)} days)" if days else ""
        yield f"{choice.method} in {choice.place.name}{about}"


def to_type(offer: Offer) -> str:
    """The command that sows it so."""
    place = offer.choice.place.name.replace('"', '\\"')
    plants = max(offer.plan.plants, 1)
    return f'seedbox sow {offer.line.packet.code} --plants {plants} --place "{place}"'


def left_out_lines(left_out: Sequence[LeftOut]) -> Iterator[str]:
    """Why packets were left out, those of one crop and reason together."""
    groups: dict[tuple[str, str], list[LeftOut]] = {}
    for one in left_out:
        groups.setdefault((one.line.crop, one.reason), []).append(one)
    for (crop, reason), some in sorted(groups.items(), key=lambda item: item[0][0].casefold()):
        packets = _packets(some)
        yield from wrapped(f"{crop}{packets}: {reason}.", "", _INDENT)


def _packets(some: Sequence[LeftOut]) -> str:
    if len(some) > 1:
        return f" ({len(some)} packets)"
    packet = some[0].line.packet
    return f" {packet.variety} ({some[0].line.code})".replace("  ", " ")


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def opens_soon(found: SowingNow) -> str:
    """How many packets were left out."""
    number = len(found.left_out)
    if not number:
        return ""
    return f"{count(number, 'packet')} left out; why: seedbox now --left-out"
