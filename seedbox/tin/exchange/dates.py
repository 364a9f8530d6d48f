"""Dates and years as people write them, from `2021-09-01` to `Sept '21` and `2021/22`."""

from __future__ import annotations

import re
from calendar import monthrange
from dataclasses import dataclass
from datetime import date

from seedbox.tin.drafts import FIRST_YEAR, YEARS_AHEAD
from seedbox.tin.exchange.neutral import shown
from seedbox.tin.exchange.outcome import CellFaultError, Read

_MONTHS = {
    name: number
    for number, name in enumerate(
        ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"), 1
    )
}
_MONTH = r"(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?"
_YEAR = r"'?(\d{4}|\d{2})"
_ISO = re.compile(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})(?:[ T].*)?$")
_THREE = re.compile(r"(\d{1,2})([-/. ])\s?(\d{1,2})\2\s?(\d{4}|\d{2})(?:[ T]\d.*)?$")
_YEAR_MONTH = re.compile(r"(\d{4})[-/.](\d{1,2})$")
_MONTH_YEAR = re.compile(r"(\d{1,2})[-/. ](\d{4}|\d{2})$")
_DAY_WORD_YEAR = re.compile(rf"(\d{{1,2}})(?:st|nd|rd|th)?[ -]?\s?(?:of )?{_MONTH}[ ,-]*{_YEAR}$")
_WORD_DAY_YEAR = re.compile(rf"{_MONTH} ?(\d{{1,2}})(?:st|nd|rd|th)?,? (\d{{4}})$")
_WORD_YEAR = re.compile(rf"{_MONTH}[ ,/-]*{_YEAR}$")
_BARE_YEAR = re.compile(rf"{_YEAR}$")
_SEASON = re.compile(r"'?(\d{4}|\d{2})\s?[-/–]\s?'?(\d{4}|\d{2})$")
_LONE_YEAR = re.compile(r"(?<!\d)((?:19|20)\d\d)(?!\d)")
_NO_LATER = re.compile(r"\b(before|pre|older|until|earlier|not)\b|<|≤")
_ROUGH = re.compile(r"^(?:~|c\.|ca\.?|circa|about|approx\.?|around|maybe|probably)\s*|\s*\(?\?\)?$")
_MARKS = re.compile(r"[\W\d_]+")
_SAYS_NOTHING = {
    "", "early", "mid", "late", "spring", "summer", "autumn", "fall", "winter", "season", "harvest",
    "harvested", "saved", "packed", "for", "in", "bought", "year", "crop", "the", "of",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Reader:
    """How to read dates here: which comes first in 3/4/2024, and what day it is."""

    today: date
    month_first: bool = False

    def period(self, text: str) -> tuple[date, date]:
        """First and last day of what was named: a day, a month or a year."""
        plain = " ".join(text.casefold().split())
        for attempt in (self._numbers, self._words, self._short):
            found = attempt(plain)
            if found:
                return found
        raise CellFaultError(_no_date(text))

    def last_day(self, text: str) -> date:
        """The end of the period named; up to 30 years ahead."""
        day, last = self.period(text)[1], self.today.year + YEARS_AHEAD
        if not FIRST_YEAR <= day.year <= last:
            raise CellFaultError(f"{shown(text)} is not between {FIRST_YEAR} and {last}.")
        return day

    def past_day(self, text: str) -> date:
        """A day on which something was done; the first day of the period named."""
        day = self.period(text)[0]
        if day.year < FIRST_YEAR or day > self.today:
            raise CellFaultError(
                f"{shown(text)} is not between {FIRST_YEAR} and today, {self.today}."
            )
        return day

    def year(self, text: str) -> int | Read:
        """The year named, the first of two for a season such as 2021/22.

        It may be the coming one: seed is packed for the season ahead.
        """
        found = self._year(text)
        year = found.value if isinstance(found, Read) else found
        last = self.today.year + 1
        if not FIRST_YEAR <= year <= last:
            raise CellFaultError(
                f"{shown(text)} is the year {year}; one from {FIRST_YEAR} to {last} was expected."
            )
        return found

    def full_year(self, digits: str) -> int:
        """21 is 2021, 98 is 1998: two digits never lie more than 15 years ahead."""
        if len(digits) == 4:
            return int(digits)
        year = self.today.year // 100 * 100 + int(digits)
        return year if year <= self.today.year + 15 else year - 100

    def _year(self, text: str) -> int | Read:
        plain = " ".join(text.casefold().split())
        bare = _ROUGH.sub("", plain).strip()
        remark = text.strip() if bare != plain else ""
        year = self._season(bare)
        if year is None:
            try:
                year = self.period(bare)[0].year
            except CellFaultError:
                return self._lone_year(text, plain)
        return Read(year, remark) if remark else year

    def _season(self, plain: str) -> int | None:
        found = _SEASON.match(plain)
        if not found:
            return None
        first, second = self.full_year(found[1]), self.full_year(found[2])
        return first if second == first + 1 and found[1] != found[2] else None

    def _lone_year(self, text: str, plain: str) -> Read:
        """One year among words: `autumn 2021`, `from Ann, 2019`. The words are kept."""
        years = set(_LONE_YEAR.findall(plain))
        if len(years) != 1 or _NO_LATER.search(plain):
            raise CellFaultError(f"{shown(text)} is no year; one such as 2021 was expected.")
        words = set(_MARKS.split(plain)) - _SAYS_NOTHING
        return Read(int(years.pop()), text.strip() if words else "")

    def _numbers(self, plain: str) -> tuple[date, date] | None:
        found = _ISO.match(plain)
        if found:
            return _day(int(found[1]), int(found[3]), int(found[4]), plain)
        found = _THREE.match(plain)
        if not found:
            return None
        first, second, year = int(found[1]), int(found[3]), self.full_year(found[4])
        if second > 12 or (self.month_first and first <= 12 and found[2] != "."):
            first, second = second, first
        return _day(year, second, first, plain)

    def _words(self, plain: str) -> tuple[date, date] | None:
        found = _DAY_WORD_YEAR.match(plain)
        if found:
            return _day(self.full_year(found[3]), _MONTHS[found[2]], int(found[1]), plain)
        found = _WORD_DAY_YEAR.match(plain)
        if found:
            return _day(int(found[3]), _MONTHS[found[1]], int(found[2]), plain)
        found = _WORD_YEAR.match(plain)
        return _month(self.full_year(found[2]), _MONTHS[found[1]], plain) if found else None

    def _short(self, plain: str) -> tuple[date, date] | None:
        found = _YEAR_MONTH.match(plain)
        if found:
            return _month(int(found[1]), int(found[2]), plain)
        found = _MONTH_YEAR.match(plain)
        if found:
            return _month(self.full_year(found[2]), int(found[1]), plain)
        found = _BARE_YEAR.match(plain)
        if not found:
            return None
        year = self.full_year(found[1])
        _day(year, 1, 1, plain)
        return date(year, 1, 1), date(year, 12, 31)


def is_ambiguous(text: str) -> bool:
    """Whether day and month could change places: 3/4/2024, but not 3.4.2024 or 25/4/2024."""
    found = _THREE.match(text)
    return bool(found and found[2] != "." and int(found[1]) <= 12 and int(found[3]) <= 12) and (
        found is not None and found[1].lstrip("0") != found[3].lstrip("0")
    )


def puts_month_first(text: str) -> bool | None:
    """What a single date proves about the order in its column; None where it proves nothing."""
    found = _THREE.match(text)
    if not found or found[2] == ".":
        return None
    if int(found[1]) > 12:
        return False
    return True if int(found[3]) > 12 else None


def _month(year: int, month: int, text: str) -> tuple[date, date]:
    first = _day(year, month, 1, text)[0]
    return first, date(year, month, monthrange(year, month)[1])


def _day(year: int, month: int, day: int, text: str) -> tuple[date, date]:
    try:
        found = date(year, month, day)
    except ValueError:
        raise CellFaultError(f"{shown(text)} is no day of the calendar.") from None
    return found, found


def _no_date(text: str) -> str:
    if text.strip().isdigit() and len(text.strip()) == 5:
        return (
            f"{shown(text)} is a spreadsheet's day number; format the column as a date, "
            "such as 2025-05-31."
        )
    return f"{shown(text)} is no date; one such as 2025-05-31 or May 2025 was expected."
