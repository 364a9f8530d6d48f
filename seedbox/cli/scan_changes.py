"""What `scan` can do with all packets or sowings of a photo: one change for all, or none."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from seedbox.cli.amounts import read_amount
from seedbox.cli.words import NOT_COUNTED, amount, count
from seedbox.errors import BadDataError, NotFoundError, UsageError
from seedbox.season.named import Named
from seedbox.tin.codes import shown
from seedbox.tin.records import Dossier, MovementKind, Unit

if TYPE_CHECKING:
    from datetime import date

    from seedbox.season.sowing.sowing_jobs import SowingJob
    from seedbox.tin.file import Tin

Taking = tuple[Dossier, float | None, Unit | None]
ALL_DUE = "due"


def packets_of(named: Sequence[Named]) -> list[Named]:
    """The packets among what was seen; there must be one at least."""
    packets = [each for each in named if each.is_packet]
    if not packets:
        raise NotFoundError("No packet of this tin was seen, so nothing was changed.")
    return packets


def take_from_all(
    tin: Tin, packets: Sequence[Named], text: str, kind: MovementKind, *, today: date
) -> str:
    """Takes the same amount out of each packet; says what was done. Refused whole if one lacks."""
    from seedbox.tin.quantity import take

    takings = _planned(packets, text)
    with tin.change(f"{kind.value.capitalize()}: {text} from {_many(packets)}"):
        for dossier, number, unit in takings:
            take(tin, dossier.packet, number, kind, today=today, note="by scan", unit=unit)
    return f"{text.strip()} {kind} from {'each of ' * (len(packets) > 1)}{_many(packets)}."


def move_all(tin: Tin, packets: Sequence[Named], to: str, *, today: date) -> str:
    """Moves the packets into a store; says how many were not there already."""
    from seedbox.cli.lookup import store_among
    from seedbox.tin.storage import move

    store = store_among(tin.stores(), to)
    moved = move(tin, [each.line.packet for each in packets], store, today=today)
    if not moved:
        return f"Nothing to move: {store.name} is where they lie already."
    return f"Moved {count(moved, 'packet')} to {store.name}."


def do_jobs(tin: Tin, named: Sequence[Named], word: str, *, today: date) -> str:
    """Marks a job as done for each sowing seen; says which."""
    from seedbox.season.sowing.job_names import EVENT_OF, WORDS
    from seedbox.tin.sowing_events import record_event

    codes = [each.code for each in named if each.sowing is not None]
    if not codes:
        raise NotFoundError("No sowing of this tin was seen, so nothing was changed.")
    jobs = _jobs(tin, codes, word, today)
    with tin.change(f"Done by scan: {word} for {count(len(jobs), 'sowing')}"):
        for job in jobs:
            kind = job.when.kind
            record_event(
                tin, job.growing.sowing, EVENT_OF[kind], today, today=today, job=WORDS[kind]
            )
    told = ", ".join(f"{job.growing.code} {WORDS[job.when.kind]}" for job in jobs)
    without = len(codes) - len(jobs)
    left = f" {count(without, 'sowing')} had no such job open." if without else ""
    return f"Done: {told}.{left}"


def job_words() -> tuple[str, ...]:
    """The jobs that can be done for many trays at once; a count differs from tray to tray."""
    return (ALL_DUE, "thin", "pot-on", "harden-off", "plant-out", "harvest")


def _jobs(tin: Tin, codes: Sequence[str], word: str, today: date) -> list[SowingJob]:
    """One open job of each sowing: the named one, or the first that is due today or late."""
    from seedbox.season.sowing.desk import Desk
    from seedbox.season.sowing.job_names import WORDS
    from seedbox.season.sowing.sowing_jobs import jobs_of

    chosen: dict[str, SowingJob] = {}
    for job in jobs_of(Desk(tin, today)):
        code, own = job.growing.sowing.code, WORDS[job.when.kind]
        wanted = own == word or (word == ALL_DUE and own in job_words() and job.when.due <= today)
        if code in codes and wanted:
            chosen.setdefault(code, job)
    if not chosen:
        what = "is due" if word == ALL_DUE else f"called “{word}” is open"
        raise NotFoundError(f"No job that {what} belongs to the sowings in the photo.")
    return [chosen[code] for code in codes if code in chosen]


def _planned(packets: Sequence[Named], text: str) -> list[Taking]:
    takings, faults = [], []
    for each in packets:
        dossier = each.line.dossier
        number, unit = _wanted(dossier, text)
        fault = _fault(dossier, text, number, unit)
        takings.append((dossier, number, unit))
        if fault:
            faults.append(f"{shown(each.code)} {fault}")
    if faults:
        raise BadDataError(
            f"Nothing was taken: {'; '.join(faults)}.",
            hint="Leave them out of the photo, or put them right with: seedbox recount",
        )
    return takings


def _wanted(dossier: Dossier, text: str) -> tuple[float | None, Unit | None]:
    word = text.strip().casefold()
    if word == "some":
        return None, None
    if word == "all":
        return dossier.left, dossier.packet.unit
    number, unit = read_amount(text)
    if not number:
        raise UsageError("Taking nothing changes nothing.")
    return number, unit


def _fault(dossier: Dossier, text: str, number: float | None, unit: Unit | None) -> str:
    """Why this much cannot be taken from a packet; empty when it can."""
    own = dossier.packet.unit
    if number is None:
        wants_all = text.strip().casefold() == "all"
        return f"was {NOT_COUNTED}, so “all” has no number" if wants_all else ""
    if not number:
        return "is empty already"
    if unit is not None and own is not None and unit is not own:
        return f"is kept in {own}"
    if dossier.left is not None and number > dossier.left:
        return "is empty" if not dossier.left else f"has only {amount(dossier.left, own)}"
    return ""


def _many(packets: Sequence[Named]) -> str:
    if len(packets) == 1:
        return f"{shown(packets[0].code)} {packets[0].title}"
    return count(len(packets), "packet")


def refuse_two(*options: object) -> None:
    """Only one thing can be done with a photo at a time."""
    if sum(option not in (None, False) for option in options) > 1:
        raise UsageError("Choose one of --open, --take, --move and --done: one change at a time.")


def facts(named: Sequence[Named]) -> Iterator[dict[str, object]]:
    """What was seen, for programs."""
    for each in named:
        packet = each.line.packet
        yield {
            "code": each.code,
            "kind": each.kind,
            "packet": packet.code,
            "crop": each.line.crop,
            "variety": packet.variety,
            "left": each.line.dossier.left,
            "unit": packet.unit,
            "store": each.line.store or None,
            "place": each.place or None,
        }
