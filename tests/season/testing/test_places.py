"""Trays as weaker evidence: a place is learnt, and a tray moves the forecast of its packet."""

from __future__ import annotations

from datetime import date
from random import Random

import pytest

from seedbox.season.forecast import Forecast
from seedbox.season.listing import Listing
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packet
from seedbox.tin.records import Origin, Packet
from seedbox.tin.tests import record_test
from seedbox.tin.trays import record_tray

DAY = date(2027, 2, 10)


def forecast(tin: Tin, packet: Packet, on: date) -> Forecast:
    listing = Listing(tin, on)
    found = listing.forecast(listing.line(packet.code)).forecast
    assert found is not None
    return found


def fresh(tin: Tin, today: date, number: int) -> list[Packet]:
    """Fresh seed, tested at 95 % on the day: what a tray lacks is the place's doing."""
    packets = []
    for _ in range(number):
        draft = PacketDraft("lettuce", origin=Origin.BOUGHT, harvest_year=2026)
        packets.append(add_packet(tin, draft, today=today))
        record_test(tin, packets[-1], DAY, 200, 190, today=today, take_from_packet=False)
    return packets


def tray(tin: Tin, packet: Packet, place: str, emerged: int, sown: int = 40) -> None:
    record_tray(tin, packet, DAY, place=place, sown=sown, emerged=emerged, today=date(2027, 2, 20))


def test_a_tray_tells_and_tells_less_than_a_test(tin: Tin, doubtful: Packet, today: date) -> None:
    before = forecast(tin, doubtful, today)
    tray(tin, doubtful, "sill", 32)
    sown = forecast(tin, doubtful, today)
    assert before.mean is not None
    assert sown.mean is not None
    assert sown.mean > before.mean + 0.1
    assert any(each.startswith("Tray 10 February 2027 (sill): 32 of 40") for each in sown.rests_on)
    tested_tin_range = _range_after_test(tin, doubtful, today)
    assert _width(sown) > tested_tin_range


def _width(found: Forecast) -> float:
    return (found.high or 0) - (found.low or 0)


def _range_after_test(tin: Tin, packet: Packet, today: date) -> float:
    from seedbox.tin.trays import remove_tray

    remove_tray(tin, tin.tray_counts()[0].id)
    record_test(tin, packet, DAY, 40, 32, today=today)
    return _width(forecast(tin, packet, today))


def test_a_tray_of_a_later_day_is_not_known_yet(tin: Tin, doubtful: Packet) -> None:
    earlier = forecast(tin, doubtful, date(2027, 2, 9))
    tray(tin, doubtful, "sill", 2)
    assert forecast(tin, doubtful, date(2027, 2, 9)) == earlier


def test_a_place_is_learnt_from_trays_of_good_seed(tin: Tin, today: date) -> None:
    packets = fresh(tin, today, 4)
    usual = Listing(tin, today).place_factor("cold frame").mean()
    assert usual == pytest.approx(0.85, abs=0.01)  # as the science's prior says
    for packet in packets:
        tray(tin, packet, "Cold  frame", 15)
        tray(tin, packet, "sill", 38)
    listing = Listing(tin, today)
    assert listing.place_factor("cold frame").mean() < 0.6
    assert listing.place_factor("SILL").mean() > 0.9
    assert listing.place_factor("elsewhere").mean() == usual


def test_a_poor_tray_in_a_poor_place_says_little_of_the_seed(
    tin: Tin, doubtful: Packet, today: date
) -> None:
    tray(tin, doubtful, "cold frame", 15)
    blamed = forecast(tin, doubtful, today).mean
    for packet in fresh(tin, today, 4):
        tray(tin, packet, "cold frame", 15)
    spared = forecast(tin, doubtful, today).mean
    assert blamed is not None
    assert spared is not None
    assert spared > blamed + 0.05


def test_a_packet_s_own_trays_are_not_used_twice(tin: Tin, doubtful: Packet, today: date) -> None:
    """Its own tray teaches others about the place, but not itself."""
    tray(tin, doubtful, "frame", 4)
    listing = Listing(tin, today)
    places = listing._forecaster._known_places()
    own = places.factor("frame", today, without_packet=doubtful.id)
    assert own == places.factor("nowhere", today)
    assert places.factor("frame", today).mean() < own.mean()


def test_the_learnt_factor_comes_near_the_true_one(tin: Tin, today: date) -> None:
    """Twenty simulated trays of good seed in a place where 60 % of the living seed comes up."""
    rng = Random(11)
    for packet in fresh(tin, today, 20):
        came = sum(rng.random() < 0.95 * 0.6 for _ in range(40))
        tray(tin, packet, "bench", came)
    assert Listing(tin, today).place_factor("bench").mean() == pytest.approx(0.6, abs=0.06)


def test_packets_without_trays_are_as_before(tin: Tin, doubtful: Packet, today: date) -> None:
    before = forecast(tin, doubtful, today)
    other = fresh(tin, today, 1)[0]
    tray(tin, other, "bench", 3)
    assert forecast(tin, doubtful, today) == before
