"""Reading days as people write them. What can be read in two ways is asked back, never guessed."""

from __future__ import annotations

import re
from calendar import monthrange
from datetime import date, timedelta

from seedbox.errors import UsageError

_NAMES = (
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
)
_FIRST_YEAR, _LAST_YEAR = 1900, 2199


def read_day(text: str, today: date | None = None) -> date:
    """A day in any usual spelling.

    >>> read_day("2027-03-04"), read_day("4 March 2027"), read_day("25/12/2026")
    (datetime.date(2027, 3, 4), datetime.date(2027, 3, 4), datetime.date(2026, 12, 25))
    >>> read_day("yesterday", date(2027, 3, 1))
    datetime.date(2027, 2, 28)
    """
    words = " ".join(text.casefold().replace(",", " ").split())
    relative = _relative(words, today or date.today())
    if relative is not None:
        return relative
    for pattern in (_iso, _named, _numbers):
        found = pattern(words)
        if found is not None:
            return _checked(*found, text)
    raise UsageError(
        f"“{text}” is not a day that can be read.", hint="Write it as 2027-03-04 or 4 March 2027."
    )


def read_last_day(text: str, today: date | None = None) -> date:
    """A day, or the last day of a month or a year: how sow-by dates are printed.

    >>> read_last_day("2027-02"), read_last_day("02/2028"), read_last_day("2027")
    (datetime.date(2027, 2, 28), datetime.date(2028, 2, 29), datetime.date(2027, 12, 31))
    """
    words = text.casefold().strip()
    if re.fullmatch(r"\d{4}", words):
        return _checked(int(words), 12, 31, text)
    month_first = re.fullmatch(r"(\d{1,2})[/.-](\d{4})", words)
    year_first = re.fullmatch(r"(\d{4})[/.-](\d{1,2})", words)
    named = re.fullmatch(r"([^\W\d]+)\.? (\d{4})", words)
    if month_first:
        return _month_end(int(month_first[2]), int(month_first[1]), text)
    if year_first:
        return _month_end(int(year_first[1]), int(year_first[2]), text)
    if named and _month(named[1]):
        return _month_end(int(named[2]), _month(named[1]), text)
    return read_day(text, today)


def _relative(words: str, today: date) -> date | None:
    days = {"today": 0, "yesterday": 1}.get(words)
    ago = re.fullmatch(r"(\d{1,4}) (day|week)s? ago", words)
    if ago:
        days = int(ago[1]) * (7 if ago[2] == "week" else 1)
    return None if days is None else today - timedelta(days=days)


def _iso(words: str) -> tuple[int, int, int] | None:
    found = re.fullmatch(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})", words)
    return (int(found[1]), int(found[2]), int(found[3])) if found else None


def _named(words: str) -> tuple[int, int, int] | None:
    found = re.fullmatch(r"(\d{1,2})(?:st|nd|rd|th)?\.? ([^\W\d]+)\.? (\d{4})", words)
    if found and _month(found[2]):
        return int(found[3]), _month(found[2]), int(found[1])
    found = re.fullmatch(r"([^\W\d]+)\.? (\d{1,2})(?:st|nd|rd|th)? (\d{4})", words)
    if found and _month(found[1]):
        return int(found[3]), _month(found[1]), int(found[2])
    return None


def _numbers(words: str) -> tuple[int, int, int] | None:
    found = re.fullmatch(r"(\d{1,2})([/. -])(\d{1,2})\2(\d{4})", words)
    if not found:
        return None
    first, second, year = int(found[1]), int(found[3]), int(found[4])
    if found[2] == "." or first > 12 or first == second:
        return year, second, first
    if second > 12:
        return year, first, second
    raise UsageError(
        f"“{words}” can be read as {first} {_NAMES[second - 1].title()} or as "
        f"{second} {_NAMES[first - 1].title()}.",
        hint=f"Write {year}-{second:02}-{first:02} or {year}-{first:02}-{second:02}.",
    )


def _month(word: str) -> int:
    """Number of a month by its English name, cut to three letters or more; 0 is none."""
    whole = [number for number, name in enumerate(_NAMES, 1) if name.startswith(word)]
    return whole[0] if len(word) >= 3 and len(whole) == 1 else 0


def _checked(year: int, month: int, day: int, text: str) -> date:
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        raise UsageError(f"“{text}”: years run from {_FIRST_YEAR} to {_LAST_YEAR} here.")
    try:
        return date(year, month, day)
    except ValueError:
        raise UsageError(f"“{text}” is not a day of the calendar.") from None


def _month_end(year: int, month: int, text: str) -> date:
    if not 1 <= month <= 12:
        raise UsageError(f"“{text}”: there is no month {month}.")
    return _checked(year, month, monthrange(year, month)[1], text)
