"""The form for a place where things grow: what it is, how warm, how light."""

from __future__ import annotations

from dataclasses import replace

from seedbox.tin.garden_records import Place, PlaceKind
from seedbox.tin.places import add_place, check_place, edit_place
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values

USUAL, COVERED, OPEN = "as usual for it", "covered", "open"
_ROOF = {COVERED: True, OPEN: False}
_BLANK = Place(0, "", PlaceKind.WINDOWSILL, True, 0.0, 0.0)
_FIELD_OF_PROBLEM = {
    "coolest_c": "coolest", "warmest_c": "warmest", "months_c": "months", "light_hours": "hours",
}  # fmt: skip


def place_plan(desk: Desk, place: Place | None) -> FormPlan:
    """A form for a new place, or for putting one right."""
    desk.tin(create=True)

    def save(values: Values) -> str:
        wanted = _place_from(values, place or _BLANK, desk)
        return _added(desk, wanted) if place is None else _edited(desk, place, wanted)

    return FormPlan(
        title="Add a place where you sow" if place is None else f"Change {place.name}",
        fields=[
            Field("name", "Name", "Such as kitchen windowsill, cold frame, bean row."),
            Field(
                "kind", "What it is", "Left and right arrows choose.", tuple(map(str, PlaceKind))
            ),
            Field("coolest", "Coolest month", "°C of soil or compost, the mean of that month."),
            Field("warmest", "Warmest month", "°C. Leave it empty when it is the same all year."),
            Field(
                "months",
                "Or by month",
                "Twelve means from January on: 4 4 6 9 13 16 18 18 15 11 7 5.",
            ),
            Field("roof", "Roof", "Open places lie under the sky.", (USUAL, COVERED, OPEN)),
            Field(
                "ppfd", "Light µmol/m²s", "Of a lamp or by a meter; leave it empty if unmeasured."
            ),
            Field("hours", "Light hours", "Hours of that light a day."),
            Field("note", "Note", "Anything worth remembering."),
        ],
        save=save,
        initial=_values(place) if place else {},
        draft_key="place" if place is None else f"place {place.id}",
        advice="Lay a thermometer in a tray or in the soil there. A room is about 18 °C.",
    )


def _values(place: Place) -> Values:
    constant = place.coolest_c == place.warmest_c
    usual = place.covered == place.kind.usually_covered
    return {
        "name": place.name,
        "kind": place.kind.value,
        "coolest": f"{place.coolest_c:g}",
        "warmest": "" if constant else f"{place.warmest_c:g}",
        "months": " ".join(f"{mean:g}" for mean in place.months_c),
        "roof": USUAL if usual else COVERED if place.covered else OPEN,
        "ppfd": "" if place.ppfd is None else f"{place.ppfd:g}",
        "hours": "" if place.light_hours is None else f"{place.light_hours:g}",
        "note": place.note,
    }


def _place_from(values: Values, before: Place, desk: Desk) -> Place:
    reader = FieldReader(values, desk.today)
    months = _months(reader)
    coolest, warmest = reader.number("coolest"), reader.number("warmest")
    if months:
        coolest, warmest = min(months), max(months)
    elif coolest is None and not reader.problems:
        reader.fault("coolest", "Say how cool it is: 18 for a windowsill in a warm room.")
    kind = PlaceKind(values["kind"])
    place = replace(
        before,
        name=reader.text("name"),
        kind=kind,
        covered=_ROOF.get(values["roof"], kind.usually_covered),
        coolest_c=coolest or 0.0,
        warmest_c=(coolest or 0.0) if warmest is None else warmest,
        months_c=months,
        ppfd=reader.number("ppfd"),
        light_hours=reader.number("hours"),
        note=values["note"].strip(),
    )
    for problem in check_place(place):
        reader.fault(_FIELD_OF_PROBLEM.get(problem.field, problem.field), problem.sentence)
    taken = [one for one in desk.tin().places() if one.name.casefold() == place.name.casefold()]
    if taken and taken[0].id != place.id:
        reader.fault("name", f"There is a place “{taken[0].name}” already.")
    reader.finish()
    return place


def _months(reader: FieldReader) -> tuple[float, ...]:
    """Twelve numbers, parted by spaces; a comma may be a decimal point."""
    try:
        return tuple(float(part.replace(",", ".")) for part in reader.text("months").split())
    except ValueError:
        reader.fault("months", "Twelve numbers with spaces between them, from January on.")
        return ()


def _added(desk: Desk, p: Place) -> str:
    desk.change(
        lambda tin: add_place(
            tin, p.name, p.kind, coolest_c=p.coolest_c, warmest_c=p.warmest_c, months_c=p.months_c,
            covered=p.covered, ppfd=p.ppfd, light_hours=p.light_hours, note=p.note,
        )
    )  # fmt: skip
    return f"Added the place {p.name}. u takes it back."


def _edited(desk: Desk, before: Place, p: Place) -> str:
    warmth = (
        {"months_c": p.months_c}
        if p.months_c
        else {"coolest_c": p.coolest_c, "warmest_c": p.warmest_c}
    )
    desk.change(
        lambda tin: edit_place(
            tin, before.name, name=p.name, kind=p.kind, covered=p.covered, ppfd=p.ppfd,
            light_hours=p.light_hours, note=p.note, **warmth,
        )
    )  # fmt: skip
    return f"Changed the place {p.name}. u takes it back."
