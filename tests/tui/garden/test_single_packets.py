"""One packet by itself is told the same as in the list, also where trays taught the place."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from seedbox.season.listing import Listing
from seedbox.tin.file import Tin
from seedbox.tin.trays import record_tray
from seedbox.tui.answers import Answers


def test_a_packet_alone_learns_from_the_trays_of_others(tin_path: Path, today: date, codes):
    with Tin.open(tin_path) as tin:
        alone = Answers(tin, today).line(tin.dossier(codes["bean"])).forecast
        for name, came in (("bean", 11), ("pea", 12), ("lettuce", 9)):
            packet = tin.packet(codes[name])
            record_tray(
                tin, packet, date(2026, 5, 1), place="shed", sown=40, emerged=came, today=today
            )
        listing, answers = Listing(tin, today), Answers(tin, today)
        for line in listing.lines:
            listed = listing.forecast(line).forecast
            assert answers.line(tin.dossier(line.packet.code)).forecast == listed
        assert answers.line(tin.dossier(codes["bean"])).forecast != alone
