"""What stands on the back of a packet: against the frosts of the garden and published figures."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, timedelta

import pytest

from seedbox import almanac
from seedbox.season.cautions import SHARING
from seedbox.season.packet_words import front_fields, germination_words, packet_words
from seedbox.season.sowing.desk import Desk
from seedbox.season.written_dates import written, written_day
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.records import Kind, Origin, Treatment, Unit
from seedbox.tin.settings import set_setting
from seedbox.tin.tests import record_test

Planted = Callable[..., Tin]
TODAY = date(2027, 2, 20)
FROST = date(2027, 4, 25)


def _words(tin: Tin, crop_id: str) -> dict[str, str]:
    desk = Desk(tin, TODAY)
    line = next(line for line in desk.listing.lines if line.packet.crop_id == crop_id)
    return dict(packet_words(desk, line))


def _weeks(crop_id: str, figure: str) -> list[date]:
    fact = almanac.growing(crop_id)[figure]
    assert fact.low is not None and fact.high is not None
    return [FROST + timedelta(weeks=week) for week in (fact.low, fact.high)]


@pytest.mark.parametrize(
    ("crop", "figure", "way"),
    [
        ("tomato", "indoor_sow_week", "indoors"),
        ("leek", "outdoor_sow_week", "outdoors"),
        ("parsnip", "outdoor_sow_week", "outdoors"),
    ],
)
def test_dates_of_sowing_count_from_the_last_frost_of_the_garden(
    planted: Planted, crop: str, figure: str, way: str
) -> None:
    """Weeks of the tables, added by hand to 25 April."""
    first, last = _weeks(crop, figure)
    expected = f"{way} {written_day(first, 'iso')} to {written_day(last, 'iso')}"
    assert expected in _words(planted(crops=(crop,)), crop)["Sow"]


def test_days_to_emergence_are_those_of_the_1954_table(planted: Planted) -> None:
    """Harrington & Minges 1954: tomato takes 14 days at 15 °C, 8 at 20 °C; the sill has 18 °C."""
    told = _words(planted(crops=("tomato",)), "tomato")["Up in"]
    found = re.match(r"(\d+) days \((\d+) to (\d+)\) at 18 °C, Windowsill", told)
    assert found, told
    middle, low, high = map(int, found.groups())
    assert 8 <= middle <= 14 and low < middle < high


def test_depth_and_spacing_are_the_grower_s_own_where_they_said_so(planted: Planted) -> None:
    from seedbox.tin.own import set_own_figure

    tin = planted(crops=("leek",))
    assert _words(tin, "leek")["Depth"] == "6 mm"
    set_own_figure(tin, "leek", "depth_mm", "20")
    assert _words(tin, "leek")["Depth"] == "20 mm"
    assert _words(tin, "leek")["Space"] == "10 to 15 cm apart, rows 30 to 40 cm"


def test_seed_that_wants_light_or_dark_is_told_so(planted: Planted) -> None:
    words = _words(planted(crops=("lettuce",)), "lettuce")
    assert words["Depth"] == "3 to 6 mm at most: light helps it to come up"


def test_germination_says_interval_date_and_test_or_that_there_is_none(planted: Planted) -> None:
    tin = planted(crops=("leek",))
    untested = _words(tin, "leek")["Germination"]
    assert re.fullmatch(r"untested; \d+ % \(\d+ to \d+\) on 2027-02-20 by its age", untested)
    packet = tin.packets()[0]
    record_test(tin, packet, on=date(2027, 1, 30), seeds=50, germinated=46, today=TODAY)
    tested = _words(tin, "leek")["Germination"]
    assert re.fullmatch(r"\d+ % \(\d+ to \d+\) on 2027-02-20; 46 of 50, tested 2027-01-30", tested)
    desk = Desk(tin, TODAY)
    line = desk.listing.forecast(desk.listing.lines[0])
    assert germination_words(line, TODAY, "month first").endswith("tested Jan 30 2027")
    assert line.forecast is not None and line.forecast.mean is not None
    assert tested.startswith(f"{100 * line.forecast.mean:.0f} %")


def test_cautions_come_first_and_sharing_last(planted: Planted) -> None:
    tin = planted(crops=())
    add_packet(
        tin,
        PacketDraft("bean_runner", origin=Origin.SWAPPED, harvest_year=2025, unit=Unit.SEEDS,
                    amount=20, treatment=Treatment.DRESSED),
        today=TODAY,
    )  # fmt: skip
    desk = Desk(tin, TODAY)
    words = packet_words(desk, desk.listing.lines[0])
    assert words[0][0] == "Caution"
    assert words[0][1].startswith("Treated seed") and "Poisonous raw" in words[0][1]
    assert words[-1] == ("Sharing", SHARING)


def test_a_garden_without_frosts_or_places_still_has_words(planted: Planted) -> None:
    tin = planted(crops=("tomato",))
    for name in ("last_spring_frost", "first_autumn_frost", "latitude"):
        set_setting(tin, name, "")
    words = _words(tin, "tomato")
    assert words["Sow"] == "indoors 7 weeks before to 3 weeks before the last spring frost"
    assert words["Up in"] == "6 to 14 days"
    assert "Plant out" not in words
    set_setting(tin, "last_spring_frost", "none")
    set_setting(tin, "first_autumn_frost", "none")
    set_setting(tin, "latitude", "10")
    assert "the ground has" in _words(tin, "tomato")["Sow"]


def test_the_southern_half_sows_in_its_own_spring(planted: Planted) -> None:
    tin = planted("10-15", "04-20", "-37", crops=("tomato",))
    words = _words(tin, "tomato")
    assert words["Sow"].startswith("indoors 27 Aug to 24 Sep")


def test_planting_stock_is_not_sown(planted: Planted) -> None:
    tin = planted(crops=())
    add_packet(
        tin,
        PacketDraft("garlic", kind=Kind.STOCK, unit=Unit.SEEDS, amount=12),
        today=TODAY,
    )
    desk = Desk(tin, TODAY)
    headings = {heading for heading, _ in packet_words(desk, desk.listing.lines[0])}
    assert not headings & {"Sow", "Depth", "Up in", "Germination"}


def test_the_front_says_how_many_go_in_and_the_line_of_one_s_own(planted: Planted) -> None:
    tin = planted(crops=("leek",))
    set_setting(tin, "label_line", "Mill Lane")
    desk = Desk(tin, TODAY)
    fields = front_fields(desk, desk.listing.lines[0], 25)
    assert (fields["seeds"], fields["line"], fields["crop"]) == ("25 seeds", "Mill Lane", "leek")
    assert front_fields(desk, desk.listing.lines[0])["seeds"] == ""


@pytest.mark.parametrize(
    ("order", "whole", "day"),
    [("iso", "2027-02-20", "20 Feb"), ("day first", "20 Feb 2027", "20 Feb"),
     ("month first", "Feb 20 2027", "Feb 20")],
)  # fmt: skip
def test_dates_are_written_as_the_person_wants(order: str, whole: str, day: str) -> None:
    assert (written(TODAY, order), written_day(TODAY, order)) == (whole, day)


def test_a_packet_to_give_tells_who_shares_it_and_not_where_it_came_from(planted: Planted) -> None:
    """What a model law on sharing asks for: kind and variety, treated or not, name and town of
    the sharer, month and year (West Virginia Code 19-16-5a, as the reference figures quote it)."""
    tin = planted(crops=())
    add_packet(
        tin,
        PacketDraft("leek", "Long Hill", origin=Origin.BOUGHT, source="Secret Seeds",
                    harvest_year=2025, note="paid 3.20", unit=Unit.SEEDS, amount=20),
        today=TODAY,
    )  # fmt: skip
    set_setting(tin, "grower_name", "Maud")
    set_setting(tin, "grower_town", "Hobbin Beck")
    desk = Desk(tin, TODAY)
    line = desk.listing.lines[0]
    front = front_fields(desk, line, 40, to_give=True)
    assert front["source"].startswith("shared by Maud, Hobbin Beck, ") and "2027" in front["source"]
    assert (front["crop"], front["variety"], front["seeds"]) == ("leek", "Long Hill", "40 seeds")
    back = dict(packet_words(desk, line, to_give=True))
    assert back["Seed"] == "not treated" and back["Sharing"] == SHARING
    told = " ".join([*back.values(), front["source"]])
    assert "Secret" not in told and "paid" not in told
    assert front_fields(desk, line)["source"] == "bought from Secret Seeds"
