"""The settings of a tin: every name, its default, and what it accepts, in one place."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, replace

from seedbox.errors import BadDataError, NotFoundError
from seedbox.tin.frozen import record

LONGEST_TEXT = 80


@record
class Settings:
    """What a person chose for their garden. Fractions are of 1, offsets in millimetres.

    `region` picks the minimum standards, `names` the crop names. `floor` and `sure` steer the
    advice, `fallback_standard` stands in where a crop has no standard. Empty label settings
    leave the choice to the printing room.
    A test stops when it is clear whether the lot is as poor as `test_poor` or as good as
    `test_good`, wrong with probability `test_error` at most; its germination is shown with an
    interval of `test_confidence` by the method `test_interval`. `plants_wanted` of a crop in a
    season steers which packets are worth a test; 0 reckons by spacing.
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


@record
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
    "test_interval": _one_of("wilson", "clopper-pearson", "jeffreys"),
    "test_confidence": _between(0.5, 0.999, ""),
    "test_poor": _between(0.05, 0.95, ""),
    "test_good": _between(0.1, 0.99, ""),
    "test_error": _between(0.001, 0.4, ""),
    "plants_wanted": _between(0, 100_000, " plants"),
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
