"""Wants, words for the swap and labels that wait of a plan into the tin."""

from __future__ import annotations

from seedbox.tin.changes import OpenChange
from seedbox.tin.exchange.plans import ImportPlan
from seedbox.tin.wants import want_columns

_WANT = ("crop_id", "variety", "portions", "worth", "note")


def insert_lists(change: OpenChange, plan: ImportPlan, first_packet: int) -> None:
    """Packets have been inserted from the id `first_packet` on."""
    wants = map(want_columns, plan.wants_to_add)
    change.insert_many("want", _WANT, [tuple(one[name] for name in _WANT) for one in wants])
    change.insert_many(
        "swap_choice",
        ("packet_id", "choice", "portions"),
        [(first_packet + one.packet, one.choice, one.portions) for one in plan.swap_choices],
    )
    change.insert_many("label_queue", ("code", "design", "copies"), plan.labels)
