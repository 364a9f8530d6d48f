"""Wants, words for the swap and labels that wait, as tables of text."""

from __future__ import annotations

from seedbox.tin.exchange.shapes import number_text
from seedbox.tin.file import Tin

Rows = list[tuple[str, ...]]


def list_tables(tin: Tin, codes: dict[int, str]) -> dict[str, Rows]:
    """`codes` are those of packets by id, in order of entry; words stand in the same order."""
    order = {packet_id: number for number, packet_id in enumerate(codes)}
    choices = sorted(tin.swap_choices(), key=lambda one: order[one.packet_id])
    return {
        "wants": [
            (one.crop_id, one.variety, str(one.portions), str(one.worth), one.note)
            for one in tin.wants()
        ],
        "swap_choices": [
            (codes[one.packet_id], one.choice, number_text(one.portions)) for one in choices
        ],
        "label_queue": [(one.code, one.design, str(one.copies)) for one in tin.label_queue()],
    }
