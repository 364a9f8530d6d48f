"""The page of a crop in plain lines: what is dangerous first, every figure with its source."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from seedbox.almanac import OVERRIDABLE, SECTIONS, Figure
from seedbox.cli.tables import wrapped

_FIRST = "Cautions"
_MARKS = (
    "seen: read in the source named. from memory: the usual handbook figure, not traced to a page. "
    "computed: worked out from figures that were seen. yours: set by you for your garden."
)


def page(name: str, figures: Sequence[Figure]) -> list[str]:
    """Lines of the page."""
    numbers = {source: at for at, source in enumerate(_sources(figures), 1)}
    lines = [name]
    for section in (_FIRST, *(each for each in SECTIONS if each != _FIRST)):
        lines += _section(section, [f for f in figures if f.section == section], numbers)
    lines += ["", "Sources"]
    for source, number in numbers.items():
        lines += wrapped(f"[{number}] {source}", "  ", "      ")
    settable = ", ".join(_settable(figures))
    own = (
        f"Set your own with: seedbox crop {_quoted(name)} --set FIGURE=VALUE (FIGURE: {settable})."
    )
    return [*lines, "", *wrapped(f"Marks. {_MARKS}"), *wrapped(own)]


def _section(title: str, figures: Sequence[Figure], numbers: dict[str, int]) -> Iterator[str]:
    if not figures:
        return
    yield ""
    yield title
    for figure in figures:
        unit = f" {_unit(figure.unit)}" if figure.unit else ""
        note = f", {figure.note}" if figure.note else ""
        told = (
            f"{figure.name}: {figure.value}{unit}{note} [{numbers[figure.source]}, {figure.mark}]"
        )
        yield from wrapped(told, "  ", "    ")


def _sources(figures: Iterable[Figure]) -> dict[str, None]:
    """Every source once, in the order in which the page shows it."""
    ordered = sorted(figures, key=lambda figure: figure.section != _FIRST)
    return dict.fromkeys(figure.source for figure in ordered)


def _settable(figures: Iterable[Figure]) -> list[str]:
    """Figures that can be set; those that the page shows come first."""
    shown = [figure.key for figure in figures if figure.key]
    return list(dict.fromkeys([*shown, *OVERRIDABLE]))


def _unit(unit: str) -> str:
    return "°C" if unit == "C" else unit


def _quoted(name: str) -> str:
    return f'"{name}"' if " " in name else name
