"""The temperatures of a test: as the rules print them, and where a home has them."""

from __future__ import annotations

from dataclasses import dataclass

from seedbox.units import celsius


@dataclass(frozen=True, slots=True)
class Warmth:
    """One temperature [C], or a cooler one by night where `night_c` is given."""

    day_c: float
    night_c: float | None = None

    @property
    def words(self) -> str:
        """`20 °C`, or `30 °C by day and 20 °C by night`."""
        if self.night_c is None:
            return celsius(self.day_c)
        return f"{celsius(self.day_c)} by day and {celsius(self.night_c)} by night"

    @property
    def mean_c(self) -> float:
        """Over a day of 8 warm and 16 cooler hours, as laboratories divide it (from memory)."""
        return self.day_c if self.night_c is None else (8 * self.day_c + 16 * self.night_c) / 24


def parse_warmth(text: str) -> tuple[Warmth, ...]:
    """Temperatures as the rules print them, the first choice first.

    `20-30` alternates: 20 C for the 16 cooler hours, 30 C for the 8 warm ones.

    >>> parse_warmth("20-30; 25")
    (Warmth(day_c=30.0, night_c=20.0), Warmth(day_c=25.0, night_c=None))
    """
    return tuple(_one(part) for part in text.split(";") if part.strip())


def _one(text: str) -> Warmth:
    low, dash, high = text.strip().partition("-")
    return Warmth(float(high), float(low)) if dash else Warmth(float(low))


# Where a home has such a temperature: common practice, no source.
_PLACES = (
    (12.0, "a cool cellar or an unheated room"),
    (17.0, "a cool room, such as an unheated bedroom"),
    (22.5, "a living room, out of the sun"),
    (27.0, "a warm place, such as above a boiler or on top of a refrigerator"),
    (45.0, "a heated propagator or an airing cupboard"),
)


_WARM_C = 23.0
_LOOK = "Look with a thermometer whether a warm place is not too warm."


def place_words(celsius: float) -> str:
    """Where in a home it is about so warm."""
    return next((words for limit, words in _PLACES if celsius <= limit), _PLACES[-1][1])


def keeping_sentences(warmth: Warmth, others: tuple[Warmth, ...] = ()) -> tuple[str, ...]:
    """How to keep a test at its temperature at home; `others` are what the rules also allow."""
    if warmth.night_c is None:
        said = [f"Keep it at about {warmth.words}: {place_words(warmth.day_c)}."]
        return (*said, *([_LOOK] if warmth.day_c > _WARM_C else ()))
    turns = (
        f"Keep it warmer by day than by night, {warmth.words}: for about 8 hours in"
        f" {place_words(warmth.day_c)}, for the other 16 in {place_words(warmth.night_c)}."
    )
    said = [turns]
    steady = next((other for other in others if other.night_c is None), None)
    if steady:
        said.append(f"If that is too much trouble, a steady {steady.words} will do as well.")
    else:
        said.append(
            f"If you cannot do that, keep it at a steady {celsius(round(warmth.mean_c))} or a"
            " little more; some seeds may then stay asleep."
        )
    if warmth.day_c > _WARM_C:
        said.append(_LOOK)
    return tuple(said)
