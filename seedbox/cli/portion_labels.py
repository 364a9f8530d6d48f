"""Sharing labels for portions that were given, and how to fold packets for them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import date

    from seedbox.printing.content import Printed
    from seedbox.season.swapping.booking import Given
    from seedbox.tin.file import Tin

DESIGN = "sharing"


def refuse_place(file: Path | None) -> None:
    """Before anything is booked: labels that cannot be written stop it."""
    if file is None:
        return
    from seedbox.printing.labels import check_target
    from seedbox.season.swapping.portion_labels import refuse_other_ending

    refuse_other_ending(file)
    check_target(file)


def print_portions(tin: Tin, given: Sequence[Given], file: Path, today: date) -> Printed | None:
    """One sharing label for each portion; None where nothing was given."""
    from seedbox.cli.label_jobs import printed_labels
    from seedbox.printing.content import LabelContent
    from seedbox.season.swapping.portion_labels import portion_labels

    items = [LabelContent(code, fields) for code, fields in portion_labels(tin, given, today)]
    if not items:
        return None
    return printed_labels(tin.settings(), file, items, {"design": DESIGN})


def fold_line(one: Given) -> str:
    """The command that prints packets to fold for a gift."""
    return (
        f"seedbox fold packets.pdf {one.packet.code} --copies {one.portions}"
        f" --seeds {one.seeds_per_portion} --to-give"
    )
