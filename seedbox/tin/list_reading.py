"""Reading wants, choices for the swap, and labels that wait. Nothing here writes."""

from __future__ import annotations

from seedbox.tin.database import Database, Row, read_records
from seedbox.tin.list_records import QueuedLabel, SwapChoice, SwapWord, Want

_WANTS = "SELECT id, crop_id, variety, portions, worth, note FROM want ORDER BY crop_id, variety"
_CHOICES = "SELECT id, packet_id, choice, portions FROM swap_choice ORDER BY packet_id"
_LABELS = "SELECT id, code, design, copies FROM label_queue ORDER BY id"


def wants(database: Database) -> list[Want]:
    """All wants by crop and variety."""
    return read_records(database, _WANTS, _want)


def swap_choices(database: Database) -> list[SwapChoice]:
    """Every word that was said for a packet, in the order of packets."""
    return read_records(database, _CHOICES, _choice)


def label_queue(database: Database) -> list[QueuedLabel]:
    """Labels that wait, in the order in which they were asked for."""
    return read_records(database, _LABELS, _label)


def _want(row: Row) -> Want:
    return Want(*row)


def _choice(row: Row) -> SwapChoice:
    row_id, packet_id, choice, portions = row
    return SwapChoice(row_id, packet_id, SwapWord(choice), portions)


def _label(row: Row) -> QueuedLabel:
    return QueuedLabel(*row)
