"""The settings of a tin: every name, its default, and what it accepts, in one place."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, replace
from datetime import date
from unicodedata import category

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin.frozen import record
from seedbox.tin.text import clean_line

LONGEST_TEXT = 80
_NO_TEXT = {"Cc", "Cs"}
_COMMON_YEAR = 2001  # 29 February is no day of every year


@record
class Settings:
    """What a person chose for their garden. Fractions are of 1, offsets in millimetres.

    `region` picks the minimum standards, `names` the crop names. `floor` and `sure` steer the
    advice, `fallback_standard` stands in where a crop has no standard. Empty label settings
    leave the choice to the printing room.
    A test stops when it is clear whether the lot is as poor as `test_poor` or as good as
    `test_good`, wrong with probability `test_error` at most; its germination is shown with an
    interval of `test_confidence` by the method `test_interval`. `plants_wanted` of a crop that
    no plan names steers which packets are worth a test; 0 reckons by spacing.
    The average last spring and first autumn frost are days of the year such as 04-25, `none`
    where frost never comes, empty until the garden has said so; `latitude` [degrees, south
    negative] is empty until then. Sowings give the plants wanted with `assurance`; trays have
    `tray_cells` cells of `cell_depth_cm`; plants are hardened off for `hardening_days`.
    Labels write `dates` in that order, carry `label_line` where their design has room for it, are
    printed for `label_dpi` and begin on label `label_start` of the sheet in use. What a printer
    makes of 1 mm is `label_scale_x` and `label_scale_y`, measured. `grower_name` and
    `grower_town` stand on what is passed on, and nowhere else; `swap_law` picks the cautions for
    that. At a swap one gives and receives portions that differ by `swap_tolerance` at most.
    """

    region: str = "eu"
    hemisphere: str = "north"
    names: str = "british"
    floor: float = 0.35
    sure: float = 0.75
    fallback_standard: float = 0.65
    page: str = "a4"
    label_sheet: str = ""
    label_design: str = ""
    label_offset_x_mm: float = 0.0
    label_offset_y_mm: float = 0.0
    theme: str = ""
    test_interval: str = "wilson"
    test_confidence: float = 0.95
    test_poor: float = 0.5
    test_good: float = 0.8
    test_error: float = 0.1
    plants_wanted: float = 0
    garden_name: str = ""
    last_spring_frost: str = ""
    first_autumn_frost: str = ""
    latitude: str = ""
    assurance: float = 0.9
    tray_cells: float = 60
    cell_depth_cm: float = 5
    hardening_days: float = 10
    dates: str = "iso"
    label_line: str = ""
    label_scale_x: float = 1.0
    label_scale_y: float = 1.0
    label_start: int = 1
    label_dpi: int = 300
    grower_name: str = ""
    grower_town: str = ""
    swap_law: str = "other"
    swap_tolerance: int = 1


class _UnfitTextError(ValueError):
    """Says what of a text is the matter, rather than what a setting accepts."""


@record
class Choice:
    """What one setting accepts: said in words, and as a parser that raises ValueError."""

    accepts: str
    parse: Callable[[str], str | float]


def _one_of(*words: str) -> Choice:
    spellings = {other: word for word in words for other in (word.replace(" ", "-"), word)}

    def parse(text: str) -> str:
        if text.lower() not in spellings:
            raise ValueError(text)
        return spellings[text.lower()]

    return Choice(" or ".join(words), parse)


def _between(lowest: float, highest: float, unit: str) -> Choice:
    def parse(text: str) -> float:
        number = float(text.replace(",", ".")) + 0.0
        if not lowest <= number <= highest:
            raise ValueError(text)
        return number

    return Choice(f"a number from {lowest:g} to {highest:g}{unit}", parse)


def _whole(lowest: int, highest: int, unit: str) -> Choice:
    def parse(text: str) -> int:
        number = float(text.replace(",", "."))
        if not (lowest <= number <= highest and number == int(number)):
            raise ValueError(text)
        return int(number)

    return Choice(f"a whole number from {lowest} to {highest}{unit}", parse)


def _short_text(what: str = "a name") -> Choice:
    def parse(text: str) -> str:
        line = clean_line(text)
        unfit = next((char for char in text if category(char) in _NO_TEXT), "")
        if unfit:
            raise _UnfitTextError(f"holds {_named(unfit)}")
        if len(line) > LONGEST_TEXT:
            raise ValueError(text)
        return line

    return Choice(f"{what} of at most {LONGEST_TEXT} characters, or nothing", parse)


def _named(char: str) -> str:
    """What cannot be shown, by its number.

    >>> _named(chr(27)), _named(chr(10))
    ('a control character (U+001B)', 'a line break')
    """
    if char in "\r\n":
        return "a line break"
    what = "half a character" if category(char) == "Cs" else "a control character"
    return f"{what} (U+{ord(char):04X})"


def _day_of_year() -> Choice:
    def parse(text: str) -> str:
        if text.lower() in ("", "none"):
            return text.lower()
        month, day = text.split("-")
        return f"{date(_COMMON_YEAR, int(month), int(day)):%m-%d}"

    return Choice(
        "a day of the year such as 04-25, none where frost never comes, or nothing", parse
    )


def _latitude() -> Choice:
    def parse(text: str) -> str:
        if not text:
            return text
        number, side = text.replace(",", "."), text[-1].upper()
        degrees = float(number.rstrip("nNsS ")) * (-1 if side == "S" else 1)
        if not -90 <= degrees <= 90:
            raise ValueError(text)
        return f"{degrees + 0.0:g}"

    return Choice("degrees from -90 to 90 such as 52 or 37 S, or nothing", parse)


CHOICES: Mapping[str, Choice] = {
    "region": _one_of("eu", "us"),
    "hemisphere": _one_of("north", "south"),
    "names": _one_of("british", "american"),
    "floor": _between(0.05, 0.95, ""),
    "sure": _between(0.5, 0.99, ""),
    "fallback_standard": _between(0.1, 0.99, ""),
    "page": _one_of("a4", "letter"),
    "label_sheet": _short_text(),
    "label_design": _short_text(),
    "label_offset_x_mm": _between(-20, 20, " mm"),
    "label_offset_y_mm": _between(-20, 20, " mm"),
    "theme": _short_text(),
    "test_interval": _one_of("wilson", "clopper-pearson", "jeffreys"),
    "test_confidence": _between(0.5, 0.999, ""),
    "test_poor": _between(0.05, 0.95, ""),
    "test_good": _between(0.1, 0.99, ""),
    "test_error": _between(0.001, 0.4, ""),
    "plants_wanted": _between(0, 100_000, " plants"),
    "garden_name": _short_text(),
    "last_spring_frost": _day_of_year(),
    "first_autumn_frost": _day_of_year(),
    "latitude": _latitude(),
    "assurance": _between(0.5, 0.99, ""),
    "tray_cells": _between(1, 2_000, " cells"),
    "cell_depth_cm": _between(1, 60, " cm"),
    "hardening_days": _between(0, 60, " days"),
    "dates": _one_of("iso", "day first", "month first"),
    "label_line": _short_text("a line"),
    "label_scale_x": _between(0.9, 1.1, ""),
    "label_scale_y": _between(0.9, 1.1, ""),
    "label_start": _whole(1, 1_000, ""),
    "label_dpi": _whole(200, 2_400, " dots per inch"),
    "grower_name": _short_text(),
    "grower_town": _short_text(),
    "swap_law": _one_of("eu", "gb", "us", "other"),
    "swap_tolerance": _whole(0, 20, " portions"),
}


def parse_setting(name: str, text: str) -> str | float:
    """The typed value of a setting, or a sentence that says what it accepts."""
    choice = CHOICES.get(name)
    if choice is None:
        raise NotFoundError(f"There is no setting “{name}”.", hint=_near(name))
    try:
        return choice.parse(text.strip())
    except _UnfitTextError as error:
        raise BadDataError(
            f"{name} takes one line of plain text: what was given {error}."
        ) from error
    except ValueError as error:
        raise BadDataError(f"{name} takes {choice.accepts}, not “{text.strip()}”.") from error


def settings_from(values: Mapping[str, str]) -> Settings:
    """Defaults with a person's own values over them.

    A value that this version cannot read (another tool wrote it) leaves the default in place.
    """
    known = {field.name for field in fields(Settings)}
    chosen: dict[str, str | float] = {}
    for name in known & values.keys():
        try:
            chosen[name] = CHOICES[name].parse(values[name])
        except ValueError:
            continue
    settings = Settings(**chosen)  # type: ignore[arg-type]
    if together_problem(settings):
        settings = replace(settings, test_poor=Settings().test_poor, test_good=Settings().test_good)
    return settings


def together_problem(settings: Settings) -> str:
    """What is wrong with settings that are sound one by one, as a sentence."""
    if settings.test_poor < settings.test_good:
        return ""
    return (
        f"test_poor ({settings.test_poor:g}) must lie below test_good ({settings.test_good:g}):"
        " a test tells a poor lot from a good one."
    )


def _near(name: str) -> str:
    from difflib import get_close_matches

    near = get_close_matches(name.lower().replace("-", "_"), CHOICES, n=3)
    return f"Did you mean {' or '.join(near)}?" if near else f"There are: {', '.join(CHOICES)}."
