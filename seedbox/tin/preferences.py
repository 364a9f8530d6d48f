"""The settings of a tin: every name, its default, and what it accepts, in one place."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields

from seedbox.errors import BadDataError, NotFoundError

LONGEST_TEXT = 80


@dataclass(frozen=True, slots=True)
class Settings:
    """What a person chose for their garden. Fractions are of 1, offsets in millimetres.

    `region` picks the minimum standards, `names` the crop names. `floor` and `sure` steer the
    advice, `fallback_standard` stands in where a crop has no standard. Empty label settings
    leave the choice to the printing room.
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


@dataclass(frozen=True, slots=True)
class Choice:
    """What one setting accepts: said in words, and as a parser that raises ValueError."""

    accepts: str
    parse: Callable[[str], str | float]


def _one_of(*words: str) -> Choice:
    def parse(text: str) -> str:
        if text.lower() not in words:
            raise ValueError(text)
        return text.lower()

    return Choice(" or ".join(words), parse)


def _between(lowest: float, highest: float, unit: str) -> Choice:
    def parse(text: str) -> float:
        number = float(text.replace(",", ".")) + 0.0
        if not lowest <= number <= highest:
            raise ValueError(text)
        return number

    return Choice(f"a number from {lowest:g} to {highest:g}{unit}", parse)


def _short_text() -> Choice:
    def parse(text: str) -> str:
        if len(text) > LONGEST_TEXT or not (text.isprintable() or text == ""):
            raise ValueError(text)
        return text

    return Choice(f"a name of at most {LONGEST_TEXT} characters, or nothing", parse)


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
}


def parse_setting(name: str, text: str) -> str | float:
    """The typed value of a setting, or a sentence that says what it accepts."""
    choice = CHOICES.get(name)
    if choice is None:
        raise NotFoundError(f"There is no setting “{name}”.", hint=_near(name))
    try:
        return choice.parse(text.strip())
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
    return Settings(**chosen)  # type: ignore[arg-type]


def _near(name: str) -> str:
    from difflib import get_close_matches

    near = get_close_matches(name.lower().replace("-", "_"), CHOICES, n=3)
    return f"Did you mean {' or '.join(near)}?" if near else f"There are: {', '.join(CHOICES)}."
