"""Tins of any size for measuring: invented packets of real crops, the same every time."""

from __future__ import annotations

import random
from datetime import date, datetime
from pathlib import Path

from seedbox import almanac
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packets
from seedbox.tin.records import Origin, Unit
from seedbox.tin.stores import add_store
from seedbox.tin.tests import record_test

TODAY = date(2027, 2, 20)


def make_tin(path: Path, packets: int, tested_share: float) -> None:
    """Write a tin of so many packets in two stores; `tested_share` of them have one test."""
    rng = random.Random(packets)
    crops = [crop.id for crop in almanac.crops()]
    with Tin.open(path, create=True, now=lambda: datetime(2027, 2, 20, 12)) as tin:
        drawer = add_store(tin, "kitchen drawer", coolest_c=17, warmest_c=23, relative_humidity=0.5)
        shed = add_store(tin, "cold shed", coolest_c=3, warmest_c=18, relative_humidity=0.62)
        drafts = [
            PacketDraft(
                crop_id=rng.choice(crops),
                variety=f"Invented {number}",
                origin=rng.choice(list(Origin)),
                source="Brook Lane Seeds",
                harvest_year=rng.randint(2015, 2026),
                amount=float(rng.randint(5, 400)),
                unit=Unit.SEEDS,
                store_id=rng.choice((drawer.id, shed.id)),
                stored_from=date(2026, 10, 1),
            )
            for number in range(packets)
        ]
        add_packets(tin, drafts, today=TODAY)
        for packet in tin.packets():
            if rng.random() < tested_share:
                record_test(
                    tin,
                    packet,
                    on=date(2026, 11, 1),
                    seeds=20,
                    germinated=rng.randint(4, 20),
                    today=TODAY,
                    take_from_packet=False,
                )
