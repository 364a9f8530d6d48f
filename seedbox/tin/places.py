"""Places: the windowsill, the propagator, the cold frame, the bed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import asdict, fields, replace
from math import isfinite
from typing import Any

from seedbox.errors import BadDataError
from seedbox.problems import Problem
from seedbox.tin.drafts import LONGEST_NOTE
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Place, PlaceKind
from seedbox.tin.text import clean_line, clean_note

LONGEST_NAME = 80
COLDEST_C, HOTTEST_C = -40.0, 50.0
MOST_PPFD = 2500.0  # full sun is about 2,000 micromol per square metre and second
_MONTHS = 12


def add_place(
    tin: Tin,
    name: str,
    kind: PlaceKind,
    *,
    coolest_c: float | None = None,
    warmest_c: float | None = None,
    months_c: Sequence[float] = (),
    covered: bool | None = None,
    ppfd: float | None = None,
    light_hours: float | None = None,
    note: str = "",
) -> Place:
    """Adds a place. Its soil temperature is one constant (`coolest_c`), the means of the coolest
    and the warmest month, or twelve monthly means from January on."""
    coolest, warmest = _ends(coolest_c, warmest_c, months_c)
    roofed = kind.usually_covered if covered is None else covered
    means = tuple(months_c)
    place = Place(0, name, kind, roofed, coolest, warmest, means, ppfd, light_hours, note)
    place = _checked(tin, place)
    with tin.change(f"Add place {place.name}") as change:
        row_id = change.insert("place", place_columns(place))
    return replace(place, id=row_id)


def edit_place(tin: Tin, name: str, /, **changed: Any) -> Place:
    """Changes a place. A new coolest or warmest month puts twelve monthly means aside."""
    wrong = sorted(
        changed.keys() - {field.name for field in fields(Place)} | changed.keys() & {"id"}
    )
    if wrong:
        raise BadDataError(f"A place's {', '.join(wrong)} cannot be edited.")
    place = replace(tin.place(name), **_settled(changed))
    place = _checked(tin, place)
    with tin.change(f"Edit place {place.name}") as change:
        change.update("place", place.id, place_columns(place))
    return place


def remove_place(tin: Tin, name: str) -> None:
    """Removes a place in which nothing was ever sown."""
    place = tin.place(name)
    used = tin.database.value(
        "SELECT (SELECT count(*) FROM sowing WHERE place_id = ?)"
        " + (SELECT count(*) FROM sowing_event WHERE place_id = ?)",
        (place.id, place.id),
    )
    if used:
        raise BadDataError(f"Sowings stood in {place.name}, so it stays.")
    with tin.change(f"Remove place {place.name}") as change:
        change.delete("place", place.id)


def check_place(place: Place) -> list[Problem]:
    """Everything wrong with a place by itself, each with its field; empty when it is sound."""
    found = [*_text_problems(place), *_warmth_problems(place), *_light_problems(place)]
    return [Problem(sentence, field=field) for field, sentence in found]


def _ends(
    coolest_c: float | None, warmest_c: float | None, months_c: Sequence[float]
) -> tuple[float, float]:
    if months_c:
        return min(months_c), max(months_c)
    if coolest_c is None:
        raise BadDataError(
            "A place needs a temperature: one, or those of its coolest and warmest month.",
            hint="Lay a thermometer in a tray or in the soil there.",
        )
    return coolest_c, coolest_c if warmest_c is None else warmest_c


def _settled(changed: dict[str, Any]) -> dict[str, Any]:
    months = changed.get("months_c")
    if months:
        return {**changed, "coolest_c": min(months), "warmest_c": max(months)}
    if changed.keys() & {"coolest_c", "warmest_c"}:
        return {**changed, "months_c": ()}
    return changed


def _checked(tin: Tin, place: Place) -> Place:
    place = replace(
        place,
        name=clean_line(place.name),
        note=clean_note(place.note),
        months_c=tuple(float(mean) for mean in place.months_c),
    )
    problems = check_place(place)
    taken = [one for one in tin.places() if one.name.casefold() == place.name.casefold()]
    if taken and taken[0].id != place.id:
        problems.append(Problem(f"There is a place “{taken[0].name}” already.", field="name"))
    if problems:
        raise BadDataError(" ".join(problem.sentence for problem in problems))
    return place


Fault = tuple[str, str]


def _text_problems(place: Place) -> Iterator[Fault]:
    if not place.name:
        yield "name", "A place needs a name."
    if len(place.name) > LONGEST_NAME:
        yield "name", f"The place's name has more than {LONGEST_NAME} characters."
    if len(place.note) > LONGEST_NOTE:
        yield "note", f"The note has {len(place.note)} characters; {LONGEST_NOTE} are the most."


def _warmth_problems(place: Place) -> Iterator[Fault]:
    degrees = (place.coolest_c, place.warmest_c, *place.months_c)
    wrong = [one for one in degrees if not (isfinite(one) and COLDEST_C <= one <= HOTTEST_C)]
    if wrong:
        yield (
            "coolest_c",
            f"A place of {wrong[0]:g} °C is not between {COLDEST_C:g} and {HOTTEST_C:g} °C.",
        )
    elif place.coolest_c > place.warmest_c:
        yield "warmest_c", "The warmest month is colder than the coolest."
    if place.months_c and len(place.months_c) != _MONTHS:
        yield "months_c", f"Give twelve monthly temperatures, not {len(place.months_c)}."


def _light_problems(place: Place) -> Iterator[Fault]:
    if place.ppfd is not None and not 0 <= place.ppfd <= MOST_PPFD:
        yield (
            "ppfd",
            f"A light is 0 to {MOST_PPFD:,.0f} micromol/m²s, not {place.ppfd:g}.",
        )
    if place.light_hours is not None and not 0 <= place.light_hours <= 24:
        yield "light_hours", f"A day has 0 to 24 hours of light, not {place.light_hours:g}."
    if (place.ppfd is None) != (place.light_hours is None):
        yield "light_hours", "Light needs both: how strong, and how many hours a day."


def place_columns(place: Place) -> dict[str, Any]:
    """A place as it lies in the table."""
    columns = asdict(place)
    del columns["id"]
    months = " ".join(repr(mean) for mean in place.months_c)
    return {**columns, "kind": place.kind.value, "covered": int(place.covered), "months_c": months}
