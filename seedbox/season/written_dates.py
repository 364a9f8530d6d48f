"""Dates as the person of this tin wants them on paper: the setting `dates`."""

from __future__ import annotations

from datetime import date

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun",
           "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")  # fmt: skip
_MONTH_FIRST = "month first"


def written(day: date, order: str) -> str:
    """A whole date, in the order `iso` (ISO 8601), `day first` or `month first`.

    >>> [written(date(2027, 2, 5), order) for order in ("iso", "day first", "month first")]
    ['2027-02-05', '5 Feb 2027', 'Feb 5 2027']
    """
    return day.isoformat() if order == "iso" else f"{written_day(day, order)} {day.year}"


def written_day(day: date, order: str) -> str:
    """A day of any year; digits alone would not say which is the month.

    >>> written_day(date(2027, 2, 5), "iso"), written_day(date(2027, 2, 5), "month first")
    ('5 Feb', 'Feb 5')
    """
    month = _MONTHS[day.month - 1]
    return f"{month} {day.day}" if order == _MONTH_FIRST else f"{day.day} {month}"


def written_month(day: date, order: str) -> str:
    """A month of a year.

    >>> written_month(date(2027, 2, 5), "iso"), written_month(date(2027, 2, 5), "day first")
    ('2027-02', 'Feb 2027')
    """
    return f"{day:%Y-%m}" if order == "iso" else f"{_MONTHS[day.month - 1]} {day.year}"
