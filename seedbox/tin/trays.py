"""Emergence counted in trays: weaker evidence of a packet than a test on paper."""

from __future__ import annotations

from datetime import date

from seedbox.errors import BadDataError, NotFoundError
from seedbox.problems import Problem
from seedbox.tin import codes
from seedbox.tin.drafts import LONGEST_LINE, LONGEST_NOTE, past_day_problem
from seedbox.tin.file import Tin
from seedbox.tin.records import Kind, Packet, TrayCount
from seedbox.tin.tests import seeds_problem
from seedbox.tin.text import clean_line, clean_note


def record_tray(
    tin: Tin,
    packet: Packet,
    on: date,
    *,
    place: str,
    sown: int,
    emerged: int,
    note: str = "",
    today: date,
) -> TrayCount:
    """Writes down how many of the seeds sown in a tray stood as seedlings on a day.

    `place` is where the tray stood; trays of one place share its emergence factor. The seed
    sown leaves the packet by an entry of its own.
    """
    if packet.kind is Kind.STOCK:
        raise BadDataError(f"{codes.shown(packet.code)} is planting stock: it does not germinate.")
    tray = TrayCount(packet.id, on, clean_line(place), sown, emerged, clean_note(note))
    problems = check_tray(tray, today)
    if problems:
        raise BadDataError(" ".join(problem.sentence for problem in problems))
    label = f"Tray of {codes.shown(packet.code)}: {emerged} of {sown} came up"
    with tin.change(label) as change:
        row_id = change.insert(
            "tray_count",
            {
                "packet_id": packet.id,
                "on_date": on.isoformat(),
                "place": tray.place,
                "sown": sown,
                "emerged": emerged,
                "note": tray.note,
            },
        )
    return TrayCount(packet.id, on, tray.place, sown, emerged, tray.note, row_id)


def remove_tray(tin: Tin, tray_id: int) -> None:
    """Strikes a tray count out."""
    found = next((one for one in tin.tray_counts() if one.id == tray_id), None)
    if found is None:
        raise NotFoundError(f"There is no tray count number {tray_id} in the tin.")
    with tin.change(f"Remove tray count of {found.on}: {found.emerged} of {found.sown}") as change:
        change.delete("tray_count", tray_id)


def check_tray(tray: TrayCount, today: date) -> list[Problem]:
    """Everything wrong with a tray count, each with its field; empty when it is sound."""
    found = [
        ("on", past_day_problem(tray.on, today)),
        ("sown", seeds_problem(tray.sown, "A tray is sown")),
        ("emerged", _emerged_problem(tray)),
        ("place", "" if len(tray.place) <= LONGEST_LINE else "The name of the place is too long."),
        (
            "note",
            ""
            if len(tray.note) <= LONGEST_NOTE
            else f"The note has more than {LONGEST_NOTE} characters.",
        ),
    ]
    return [Problem(sentence, field=field) for field, sentence in found if sentence]


def _emerged_problem(tray: TrayCount) -> str:
    if tray.emerged < 0:
        return f"The number emerged cannot be {tray.emerged}."
    if tray.emerged > tray.sown:
        return f"{tray.emerged} emerged are more than the {tray.sown} seeds that were sown."
    return ""
