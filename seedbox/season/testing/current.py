"""A test as it stands, seen with what was believed of its packet before it was laid."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from seedbox.season.listing import Listing
from seedbox.season.testing.progress import Progress, progress
from seedbox.season.testing.schedule import started
from seedbox.tin.file import Tin
from seedbox.tin.records import GerminationTest


def progress_of(tin: Tin, code: str, today: date, listing: Listing | None = None) -> Progress:
    """A test by its code, on a day. A listing that is there already saves reading the tin."""
    test = tin.test(code)
    listing = listing or Listing(tin, today)
    counts = tin.test_counts(test.id)
    return progress(test, counts, listing.settings, today, believed_before(listing, test))


def believed_before(listing: Listing, test: GerminationTest) -> list[float] | None:
    """What was believed of the packet when the test was laid; None where nothing can be said."""
    line = next((each for each in listing.lines if each.packet.id == test.packet_id), None)
    if line is None:
        return None
    others = tuple(each for each in line.dossier.tests if each.id != test.id)
    without = replace(line, dossier=replace(line.dossier, tests=others))
    return listing.masses(without, min(started(test), listing.today)) or None
