"""The form for the garden itself: frosts, latitude, region, trays."""

from __future__ import annotations

from datetime import date

from seedbox.errors import BadDataError
from seedbox.season.sowing.climate import spoken
from seedbox.season.sowing.garden import set_garden
from seedbox.tin.exchange.dates import Reader
from seedbox.tin.exchange.outcome import CellFaultError
from seedbox.tin.file import Tin
from seedbox.tin.preferences import CHOICES, parse_setting
from seedbox.tin.settings import set_setting
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values

NONE = "none"
_COMMON_YEAR = 2001
_FROSTS = ("last_spring_frost", "first_autumn_frost")
_NUMBERS = ("assurance", "tray_cells", "cell_depth_cm", "hardening_days")
_NAMES = ("garden_name", *_FROSTS, "latitude", "region", *_NUMBERS)


def garden_plan(desk: Desk) -> FormPlan:
    """Asks all that decides when a crop can be sown."""
    settings = desk.tin(create=True).settings()

    def save(values: Values) -> str:
        wanted = _read(values, desk.today)
        desk.change(lambda tin: _set(tin, wanted))
        return "The garden is described. u takes it back."

    initial = {name: _text(getattr(settings, name)) for name in _NAMES}
    initial |= {name: _frost_text(initial[name]) for name in _FROSTS}
    return FormPlan(
        title="The garden",
        fields=[
            Field(
                "last_spring_frost",
                "Last frost",
                "Average last frost of spring: 25 April; none where frost never comes.",
            ),
            Field(
                "first_autumn_frost",
                "First frost",
                "Average first frost of autumn: 25 October, or none.",
            ),
            Field("latitude", "Latitude", "Degrees such as 52, or 37 S south of the equator."),
            Field("region", "Region", "Whose minimum standards for seed hold.", ("eu", "us")),
            Field("garden_name", "Name", "What the garden is called."),
            Field("tray_cells", "Cells a tray", "How many cells your trays have."),
            Field("cell_depth_cm", "Cell depth cm", "How deep those cells are."),
            Field("assurance", "How sure", "Chance with which a sowing gives its plants: 0.9."),
            Field("hardening_days", "Harden off", "Days for which plants are hardened off."),
        ],
        save=save,
        initial=initial,
        draft_key="garden",
        advice="Ask a neighbour for the frosts: the average last of spring, first of autumn.",
    )


def _text(value: str | float) -> str:
    return value if isinstance(value, str) else f"{value:g}"


def _frost_text(setting: str) -> str:
    if setting in ("", NONE):
        return setting
    return spoken(date.fromisoformat(f"{_COMMON_YEAR}-{setting}"))


def day_of_year(text: str) -> str:
    """A day that comes every year as month and day.

    Raises CellFaultError when it is none.

    >>> day_of_year("25 April"), day_of_year("04-25"), day_of_year("None")
    ('04-25', '04-25', 'none')
    """
    words = " ".join(text.casefold().replace(",", " ").split())
    if words in ("", NONE, "never"):
        return words and NONE
    month, dash, day = words.partition("-")
    numbers = bool(dash) and month.isdigit() and day.isdigit()
    whole = f"{_COMMON_YEAR}-{month:0>2}-{day:0>2}" if numbers else f"{words} {_COMMON_YEAR}"
    try:
        first, last = Reader(date(_COMMON_YEAR, 12, 31)).period(whole)
    except CellFaultError:
        first, last = date.min, date.max
    if first != last:
        raise CellFaultError("A day such as 25 April or 04-25; none where frost never comes.")
    return f"{first:%m-%d}"


def _read(values: Values, today: date) -> dict[str, str]:
    """The settings as texts, faults beside their fields."""
    reader = FieldReader(values, today)
    wanted = {name: reader.text(name) for name in _NAMES}
    for name in _FROSTS:
        try:
            wanted[name] = day_of_year(wanted[name])
        except CellFaultError as fault:
            reader.fault(name, str(fault))
    last, first = (wanted[name] == NONE for name in _FROSTS)
    if last != first and wanted[_FROSTS[first]]:
        reader.fault(_FROSTS[1], "A garden has both frosts, or neither: say none for both.")
    for name in ("latitude", *_NUMBERS):
        try:
            parse_setting(name, wanted[name])
        except BadDataError:
            reader.fault(name, f"It takes {CHOICES[name].accepts}.")
    reader.finish()
    return wanted


def _set(tin: Tin, wanted: dict[str, str]) -> None:
    with tin.change("Describe the garden"):
        set_garden(
            tin,
            last_spring_frost=wanted["last_spring_frost"],
            first_autumn_frost=wanted["first_autumn_frost"],
            latitude=wanted["latitude"],
            name=wanted["garden_name"],
        )
        for name in ("region", *_NUMBERS):
            set_setting(tin, name, wanted[name])
