"""Places, plans, sowings and their events as tables of text."""

from __future__ import annotations

from seedbox.tin.exchange.shapes import number_text
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Place, Sowing, SowingEvent

Rows = list[tuple[str, ...]]


def garden_tables(tin: Tin, codes: dict[int, str]) -> dict[str, Rows]:
    """The garden's tables; sowings in the order of their packets, events in that of the sowings.

    Events of one sowing stand as they were entered, so that each was possible when its turn comes.

    `codes` are those of packets by id, in order of entry.
    """
    places = {place.id: place.name for place in tin.places()}
    order = {packet_id: number for number, packet_id in enumerate(codes)}
    sowings = sorted(tin.sowings(), key=lambda one: (order[one.packet_id], one.on, one.id))
    sown = {sowing.id: (number, sowing.code) for number, sowing in enumerate(sowings)}
    events = sorted(tin.sowing_events(), key=lambda one: (sown[one.sowing_id][0], one.id))
    return {
        "places": [_place(place) for place in tin.places()],
        "plans": [
            (
                plan.crop_id,
                plan.variety,
                str(plan.plants),
                number_text(plan.year),
                number_text(plan.again_days),
                plan.note,
            )
            for plan in tin.plans()
        ],
        "sowings": [_sowing(one, codes[one.packet_id], places) for one in sowings],
        "sowing_events": [_event(one, sown[one.sowing_id][1], places) for one in events],
    }


def _place(place: Place) -> tuple[str, ...]:
    return (
        place.name,
        place.kind,
        "yes" if place.covered else "no",
        number_text(place.coolest_c),
        number_text(place.warmest_c),
        " ".join(map(number_text, place.months_c)),
        number_text(place.ppfd),
        number_text(place.light_hours),
        place.note,
    )


def _sowing(one: Sowing, packet: str, places: dict[int, str]) -> tuple[str, ...]:
    return (
        one.code,
        packet,
        str(one.on),
        places[one.place_id],
        str(one.seeds),
        number_text(one.cells),
        number_text(one.per_cell),
        number_text(one.row_m),
        str(one.left_per_cell),
        number_text(one.plants_wanted),
        number_text(one.pot_depth_cm),
        one.note,
    )


def _event(one: SowingEvent, sowing: str, places: dict[int, str]) -> tuple[str, ...]:
    return (
        sowing,
        str(one.on),
        one.kind,
        number_text(one.count),
        "" if one.place_id is None else places[one.place_id],
        number_text(one.pot_depth_cm),
        one.job,
        str(one.until or ""),
        one.note,
    )
