"""Cautions on packets, and the few words of them that stand on a label."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from seedbox.season.cautions import TREATED, packet_cautions
from seedbox.season.label_fields import label_fields
from seedbox.season.listing import Listing
from seedbox.tin.file import Tin
from seedbox.tin.records import Origin, Packet, Treatment

BOUGHT = Packet(1, "P4K7QMX2", "lettuce", origin=Origin.BOUGHT)


def test_dressed_seed_is_said_first() -> None:
    assert packet_cautions(replace(BOUGHT, treatment=Treatment.DRESSED), "lettuce")[0] == TREATED


@pytest.mark.parametrize("crop", ["castor_bean", "foxglove", "sweet_pea"])
def test_poisonous_seed_is_said(crop: str) -> None:
    # Castor bean: ricin; foxglove: cardiac glycosides (Marin master gardeners' list of poisonous
    # plants). Sweet pea: lathyrism (from memory).
    said = packet_cautions(replace(BOUGHT, crop_id=crop), crop)
    assert any("oisonous" in text for text in said)


def test_raw_kidney_beans_are_said_with_what_to_do() -> None:
    # US FDA, quoted by Ohio State University: soak 5 hours, boil 30 minutes in fresh water.
    said = " ".join(packet_cautions(replace(BOUGHT, crop_id="bean_runner"), "runner bean"))
    assert "soak 5 h" in said
    assert "30 min" in said


def test_saved_and_swapped_seed_points_to_the_law() -> None:
    for origin in (Origin.SAVED, Origin.SWAPPED, Origin.GIFT):
        said = packet_cautions(replace(BOUGHT, origin=origin), "lettuce")
        assert any("local law" in text for text in said)
    assert not packet_cautions(BOUGHT, "lettuce")


def test_an_own_crop_is_warned_of_by_its_name() -> None:
    said = packet_cautions(replace(BOUGHT, crop_id="own:datura"), "Datura")
    assert any("oisonous" in text for text in said)


def test_a_label_carries_the_caution_that_must_stay_with_the_seed(
    stocked: Tin, today: date
) -> None:
    listing = Listing(stocked, today)
    fields = {
        line.packet.variety: label_fields(listing.forecast(line), listing.book, today)
        for line in listing.lines
    }
    assert fields["Dray Horse"]["caution"] == "TREATED: do not eat"
    assert fields["Old Weir"]["caution"] == "Do not eat raw"
    assert fields["Früher Zwerg"]["caution"] == ""
    assert fields["Dray Horse"]["left"] == ""
    assert fields["Früher Zwerg"]["botanical"] == "Solanum lycopersicum"
