"""The words on the sharing labels of portions that are given away."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path

from seedbox.errors import UsageError
from seedbox.season.label_fields import label_fields
from seedbox.season.listing import Listing
from seedbox.season.swapping.booking import Given
from seedbox.season.swapping.hybrids import is_hybrid, packet_words
from seedbox.tin.file import Tin

HYBRID_WORDS = "F1 hybrid"


def refuse_other_ending(path: Path) -> None:
    """Before anything is booked: a page under another name would be opened by the wrong program."""
    if path.suffix.lower() != ".pdf":
        raise UsageError(f"{path.name} does not end in .pdf: sharing labels are written as a PDF.")


def portion_labels(
    tin: Tin, given: Iterable[Given], today: date
) -> list[tuple[str, dict[str, str]]]:
    """Code and fields of one label for each portion. What is left is that of the portion."""
    listing = Listing(tin, today)
    found = []
    for one in given:
        line = listing.forecast(listing.line(one.packet.code))
        fields = label_fields(line, listing.book, today, listing.settings)
        seeds = one.seeds_per_portion
        fields["left"] = f"{seeds} seed{'' if seeds == 1 else 's'}"
        if is_hybrid(*packet_words(line.packet)) and not is_hybrid(fields["variety"]):
            fields["variety"] = f"{fields['variety']} {HYBRID_WORDS}".strip()
        found += [(one.packet.code, fields)] * one.portions
    return found
