"""Values as words: what people read. What is not known is said, never left as a blank or a zero."""

from __future__ import annotations

from datetime import date

from seedbox.tin.records import MovementKind, Store, Unit

NOT_COUNTED = "not counted"
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July",
    "August", "September", "October", "November", "December",
)  # fmt: skip


def percent(fraction: float) -> str:
    """Whole per cent, except that neither all nor none is claimed of what is only nearly so.

    >>> percent(0.624), percent(0.997), percent(0.002), percent(1)
    ('62 %', '>99 %', '<1 %', '100 %')
    """
    whole = round(fraction * 100)
    if whole == 100 and fraction < 1:
        return ">99 %"
    return "<1 %" if whole == 0 and fraction > 0 else f"{whole} %"


def germination(mean: float | None, low: float | None, high: float | None) -> str:
    """The expected share and its 90 % interval.

    >>> germination(0.62, 0.451, 0.77), germination(None, None, None)
    ('62 % (45 to 77)', '')
    """
    if mean is None or low is None or high is None:
        return ""
    return f"{percent(mean)} ({round(low * 100)} to {round(high * 100)})"


def number(value: float) -> str:
    """A number without needless digits.

    >>> number(1200.0), number(2.50), number(0.125)
    ('1200', '2.5', '0.125')
    """
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def amount(value: float | None, unit: Unit | None) -> str:
    """A quantity with its unit.

    >>> amount(1.0, Unit.SEEDS), amount(2.5, Unit.GRAMS), amount(None, None)
    ('1 seed', '2.5 g', 'not counted')
    """
    if value is None:
        return NOT_COUNTED
    if unit is Unit.GRAMS:
        return f"{number(value)} g"
    return f"{number(value)} {'seed' if value == 1 else 'seeds'}"


def day(value: date) -> str:
    """A day in words.

    >>> day(date(2027, 3, 4))
    '4 March 2027'
    """
    return f"{value.day} {_MONTHS[value.month - 1]} {value.year}"


def day_of_month(value: date) -> str:
    """A day without its year, where that is plain.

    >>> day_of_month(date(2027, 3, 4))
    '4 March'
    """
    return f"{value.day} {_MONTHS[value.month - 1]}"


def month(value: date) -> str:
    """A month in words.

    >>> month(date(2027, 3, 4))
    'March 2027'
    """
    return f"{_MONTHS[value.month - 1]} {value.year}"


def count(value: int, one: str, many: str = "") -> str:
    """A number of things.

    >>> count(1, "packet"), count(1200, "packet"), count(0, "entry", "entries")
    ('1 packet', '1,200 packets', '0 entries')
    """
    return f"{value:,} {one if value == 1 else many or one + 's'}"


def climate(store: Store) -> str:
    """How warm and how damp a store is.

    >>> climate(Store(1, "shed", 2, 24, 0.7)), climate(Store(2, "jar", 4, 4, None, True, 6))
    ('2 to 24 °C over the year, 70 % humidity', '4 °C, sealed at 6 % moisture')
    """
    if store.coolest_c == store.warmest_c:
        warmth = f"{number(store.coolest_c)} °C"
    else:
        warmth = f"{number(store.coolest_c)} to {number(store.warmest_c)} °C over the year"
    return ", ".join(filter(None, (warmth, _dampness(store))))


def _dampness(store: Store) -> str:
    if store.sealed:
        known = store.sealed_moisture
        return "sealed" if known is None else f"sealed at {number(known)} % moisture"
    if store.relative_humidity is None:
        return "humidity not known"
    return f"{number(round(store.relative_humidity * 100, 1))} % humidity"


def movement(kind: MovementKind, moved: str) -> str:
    """One line of the quantity journal.

    >>> movement(MovementKind.SOWN, "20 seeds"), movement(MovementKind.RECOUNT, "12 seeds")
    ('20 seeds sown', 'counted: 12 seeds')
    """
    return f"counted: {moved}" if kind is MovementKind.RECOUNT else f"{moved} {kind}"


def joined(parts: list[str], last: str = "and") -> str:
    """A list in a sentence.

    >>> joined(["a", "b", "c"]), joined(["a"])
    ('a, b and c', 'a')
    """
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} {last} {parts[-1]}"
