"""Events of a calendar: every job and window once, under a name that lasts while days move."""

from __future__ import annotations

import re
from datetime import date, timedelta

from seedbox.season.sowing.calendar_events import CalendarEvent, calendar_events
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.done import done, put_off
from seedbox.season.sowing.sowing_jobs import jobs_of
from seedbox.tin.file import Tin

DAY = date(2027, 2, 20)


def by_uid(tin: Tin, day: date = DAY) -> dict[str, CalendarEvent]:
    events = calendar_events(tin, day)
    found = {event.uid: event for event in events}
    assert len(found) == len(events)
    return found


def test_every_job_and_every_planned_window_is_an_event(demo: Tin) -> None:
    found = by_uid(demo)
    for job in jobs_of(Desk(demo, DAY)):
        assert any(uid.startswith(f"{job.id}@") for uid in found), job.id
    windows = [event for event in found.values() if event.category == "sowing window"]
    assert any(event.summary == "sow tomato indoors" for event in windows)
    assert all(event.start <= event.end for event in found.values())


def test_reading_it_in_twice_adds_nothing_and_moving_a_job_keeps_its_name(demo: Tin) -> None:
    first, again = by_uid(demo), by_uid(demo)
    assert first == again
    uid = next(uid for uid in first if "-count@" in uid and first[uid].start > DAY)
    put_off(demo, uid.split("@", maxsplit=1)[0], today=DAY, until=DAY + timedelta(days=20))
    moved = by_uid(demo)
    assert moved.keys() == first.keys()
    assert moved[uid].start == DAY + timedelta(days=20)


def test_names_of_the_next_day_are_the_same(demo: Tin) -> None:
    today, tomorrow = by_uid(demo), by_uid(demo, DAY + timedelta(days=1))
    changed = today.keys() ^ tomorrow.keys()
    windows = [uid for uid in changed if "-in-season-" not in uid and "-later-" not in uid]
    assert [uid for uid in windows if re.match(r"S\w{7}-", uid)] == []


def test_a_job_done_is_no_event_any_more(demo: Tin) -> None:
    uid = next(uid for uid in by_uid(demo) if "-thin@" in uid)
    done(demo, uid.split("@", maxsplit=1)[0], today=DAY, count=10)
    assert uid not in by_uid(demo)


def test_text_holds_no_control_characters(demo: Tin) -> None:
    for event in by_uid(demo).values():
        assert event.summary.isprintable()
        assert event.uid.isascii()
        assert " " not in event.uid
        assert all(line.isprintable() for line in event.description.split("\n"))
