"""A garden's climate: its frosts and its latitude. No month is special."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache

from seedbox.errors import BadDataError
from seedbox.science.daylength import daylight_hours

_PLAIN_YEAR = 2001  # without 29 February, so that every year has the day
DAYS_PER_WEEK = 7


@dataclass(frozen=True, slots=True, order=True)
class MonthDay:
    """A day that comes every year. 29 February is not one."""

    month: int
    day: int

    def __post_init__(self) -> None:
        try:
            date(_PLAIN_YEAR, self.month, self.day)
        except ValueError as error:
            raise BadDataError(
                f"{self.month:02}-{self.day:02} is not a day of every year: give month and day, "
                "such as 04-25."
            ) from error

    def in_year(self, year: int) -> date:
        """The day in a year."""
        return date(year, self.month, self.day)

    def nearest(self, on: date) -> date:
        """The occurrence nearest to a date; it may lie in the year before or after."""
        near = [self.in_year(year) for year in _years_around(on.year)]
        return min(near, key=lambda day: abs((day - on).days))

    def next_after(self, day: date) -> date:
        """The first occurrence after a date."""
        this_year = self.in_year(day.year)
        return (
            this_year
            if this_year > day or day.year == date.max.year
            else self.in_year(day.year + 1)
        )


def _years_around(year: int) -> range:
    return range(max(year - 1, date.min.year), min(year + 1, date.max.year) + 1)


@dataclass(frozen=True, slots=True)
class GrowingSeason:
    """One growing season: from a last spring frost to the first autumn frost after it."""

    last_frost: date
    first_frost: date

    def week(self, weeks: float) -> date:
        """The date so many weeks after the last spring frost (negative: before it)."""
        return self.last_frost + timedelta(days=round(DAYS_PER_WEEK * weeks))

    @property
    def frost_free_days(self) -> int:
        """Days between the two frosts."""
        return (self.first_frost - self.last_frost).days


@dataclass(frozen=True, slots=True)
class GardenClimate:
    """Average last spring and first autumn frost, both or neither, and latitude [degrees]."""

    last_spring_frost: MonthDay | None
    first_autumn_frost: MonthDay | None
    latitude: float

    def __post_init__(self) -> None:
        if not -90.0 <= self.latitude <= 90.0:
            raise BadDataError(
                f"A latitude of {self.latitude:g} is not on this globe: give -90 to 90 degrees, "
                "south negative."
            )
        if (self.last_spring_frost is None) != (self.first_autumn_frost is None):
            raise BadDataError(
                "A garden has a last spring frost and a first autumn frost, or neither: "
                "give both, or none where frost does not come."
            )
        if self.last_spring_frost is not None and (
            self.last_spring_frost == self.first_autumn_frost
        ):
            raise BadDataError("The last spring frost and the first autumn frost are the same day.")

    @property
    def frost_free(self) -> bool:
        """Whether frost never comes."""
        return self.last_spring_frost is None

    def season_of(self, last_frost: date) -> GrowingSeason:
        """The season that begins with a last frost. Only for gardens with frost."""
        assert self.first_autumn_frost is not None
        return GrowingSeason(last_frost, self.first_autumn_frost.next_after(last_frost))

    def seasons_around(self, on: date) -> tuple[GrowingSeason, ...]:
        """Seasons that begin in the years beside a date, in order; none without frost."""
        if self.last_spring_frost is None:
            return ()
        return tuple(
            self.season_of(self.last_spring_frost.in_year(year)) for year in _years_around(on.year)
        )

    def weeks_from_last_frost(self, on: date) -> float | None:
        """Weeks after the nearest last spring frost, negative before it; None without frost."""
        if self.last_spring_frost is None:
            return None
        return (on - self.last_spring_frost.nearest(on)).days / DAYS_PER_WEEK

    def frost_weeks(self) -> float:
        """Weeks in which frost is to be expected: from first autumn to last spring frost."""
        if self.last_spring_frost is None:
            return 0.0
        season = self.season_of(self.last_spring_frost.in_year(_PLAIN_YEAR))
        return (365 - season.frost_free_days) / DAYS_PER_WEEK

    def daylight(self, on: date) -> float:
        """Hours of daylight on a date."""
        return _daylight(self.latitude, on.timetuple().tm_yday)


@lru_cache(maxsize=4096)
def _daylight(latitude: float, day_of_year: int) -> float:
    return daylight_hours(latitude, day_of_year)


def spoken(day: date) -> str:
    """A date as a grower says it: `14 March`.

    >>> spoken(date(2027, 3, 14))
    '14 March'
    """
    return f"{day.day} {day:%B}"


def weeks_text(weeks: float) -> str:
    """`4 weeks before`, `at`, `2 weeks after`, of the last frost.

    >>> weeks_text(-4), weeks_text(0), weeks_text(1)
    ('4 weeks before', 'about', '1 week after')
    """
    if round(weeks) == 0:
        return "about"
    number = abs(round(weeks))
    return f"{number} week{'' if number == 1 else 's'} {'before' if weeks < 0 else 'after'}"
