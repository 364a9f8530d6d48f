"""The end of a forecast in words, no sharper than it can be known."""

from __future__ import annotations

from datetime import date

# How far off a month, and then a year, still means something: our judgement, no source.
_MONTH_YEARS, _YEAR_YEARS = 5, 20


def until(value: date, today: date) -> str:
    """A month when it is near, a year when it is not, a decade when nobody can know.

    >>> until(date(2029, 3, 4), date(2027, 1, 1)), until(date(2035, 3, 4), date(2027, 1, 1))
    ('March 2029', '2035')
    >>> until(date(2056, 12, 25), date(2027, 1, 1))
    'beyond 2050'
    """
    if value.year - today.year <= _MONTH_YEARS:
        return f"{value:%B %Y}"
    if value.year - today.year <= _YEAR_YEARS:
        return str(value.year)
    return f"beyond {value.year // 10 * 10}"


def until_briefly(value: date, today: date) -> str:
    """The same for a narrow column.

    >>> today = date(2027, 1, 1)
    >>> until_briefly(date(2029, 3, 4), today), until_briefly(date(2035, 3, 4), today)
    ('Mar 2029', '2035')
    >>> until_briefly(date(2056, 12, 25), today)
    '> 2050'
    """
    month, _, rest = until(value, today).rpartition(" ")
    if month == "beyond":
        return f"> {rest}"
    return f"{month[:3]} {rest}".strip()
