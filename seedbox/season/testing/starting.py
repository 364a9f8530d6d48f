"""Starting a test by a packet's code: conditions of the almanac, seeds to grams, the record."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from seedbox import almanac
from seedbox.errors import BadDataError
from seedbox.season.crops import CropBook
from seedbox.season.testing.protocol import Protocol, Subject, Wishes, protocol
from seedbox.tin.codes import shown
from seedbox.tin.file import Tin
from seedbox.tin.records import GerminationTest, Packet, Unit
from seedbox.tin.testing import start_test
from seedbox.tin.tests import refuse_stock


@dataclass(frozen=True, slots=True)
class Started:
    """A test that runs, with its protocol; `grams` that it took from a packet kept in grams."""

    test: GerminationTest
    protocol: Protocol
    grams: float | None


def protocol_of(tin: Tin, packet: Packet, wishes: Wishes, on: date) -> Protocol:
    """The protocol of a test of this packet that would start on a day; nothing is written."""
    refuse_stock(packet)
    return protocol(subject_of(tin, packet), tin.settings().region, wishes, on)


def start(
    tin: Tin,
    code: str,
    wishes: Wishes,
    *,
    today: date,
    on: date | None = None,
    grams: float | None = None,
    take_from_packet: bool = True,
) -> Started:
    """Starts a test of the packet with this code: one change, its seeds leave the packet.

    For a packet in grams the weight follows from the thousand-seed weight unless `grams` is given.
    """
    packet = tin.packet(code)
    laid_out = protocol_of(tin, packet, wishes, on or today)
    taken = None
    if take_from_packet and packet.unit is Unit.GRAMS:
        taken = grams if grams is not None else grams_for(tin, packet, wishes.seeds)
    test = start_test(
        tin,
        packet,
        laid_out.plan,
        today=today,
        on=on,
        take_from_packet=take_from_packet,
        grams_taken=taken,
    )
    return Started(test, laid_out, taken)


def grams_for(tin: Tin, packet: Packet, seeds: int) -> float:
    """What so many seeds of a packet weigh [g], by the thousand-seed weight."""
    weight = almanac.thousand_seed_weight_g(packet.crop_id, _own(tin, packet))
    if weight is None:
        raise BadDataError(
            f"{shown(packet.code)} is kept in grams, and nobody knows what a thousand of its seeds"
            " weigh.",
            hint="Say how many grams the test takes, or give the crop a thousand-seed weight.",
        )
    return round(seeds * weight.grams / 1000, 6)


def seeds_in(tin: Tin, packet: Packet, amount: float | None) -> float | None:
    """Seeds in an amount of the packet's own unit; None when that is not known."""
    if amount is None or packet.unit is not Unit.GRAMS:
        return amount
    weight = almanac.thousand_seed_weight_g(packet.crop_id, _own(tin, packet))
    return None if weight is None else 1000 * amount / weight.grams


def subject_of(tin: Tin, packet: Packet) -> Subject:
    """The packet with its crop's name, family and the person's own figures."""
    book = CropBook(tin.settings(), tin.own_crops())
    crop_id = packet.crop_id
    return Subject(packet, book.name(crop_id), book.family(crop_id), _own(tin, packet))


def _own(tin: Tin, packet: Packet) -> dict[str, str]:
    return {one.figure: one.value for one in tin.own_figures() if one.crop_id == packet.crop_id}
