"""Events as an iCalendar file (RFC 5545), of whole days, with identities that last."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from seedbox.errors import UsageError

if TYPE_CHECKING:
    from seedbox.season.sowing.calendar_events import CalendarEvent

_BEGIN = b"BEGIN:VCALENDAR"
_MARK = b"\xef\xbb\xbf"
_PRODUCT = "-//Seedbox//Seedbox//EN"


def as_ical(events: Iterable[CalendarEvent], name: str, today: date) -> bytes:
    """The events as RFC 5545 text: the same bytes for the same events on the same day.

    Whole days: DTSTART and DTEND are dates, and DTEND is the day after the last one (3.6.1). They
    take no time (TRANSP), so that nobody looks busy for a week of sowing.
    """
    from icalendar import Calendar, Event

    calendar = Calendar()
    calendar.add("prodid", _PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("x-wr-calname", name or "Seedbox")
    stamp = datetime.combine(today, time(), UTC)
    for one in events:
        event = Event()
        event.add("uid", one.uid)
        event.add("dtstamp", stamp)
        event.add("dtstart", one.start)
        event.add("dtend", one.end + timedelta(days=1))
        event.add("summary", one.summary)
        event.add("description", one.description)
        event.add("categories", [one.category])
        event.add("transp", "TRANSPARENT")
        calendar.add_component(event)
    return bytes(calendar.to_ical())


def refuse_calendar_target(path: Path) -> None:
    """Refuses a place where no calendar can go. Only a former calendar is overwritten."""
    if path.is_dir():
        raise UsageError(f"{path} is a folder: name a file, such as garden.ics.")
    if not path.parent.is_dir():
        raise UsageError(f"There is no folder {path.parent} to write {path.name} into.")
    if path.is_file() and path.stat().st_size:
        with path.open("rb") as file:
            head = file.read(len(_MARK + _BEGIN)).removeprefix(_MARK)
        if not head.upper().startswith(_BEGIN):
            raise UsageError(
                f"{path} exists and is no calendar; it is left alone. Name another file."
            )
