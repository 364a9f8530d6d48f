"""Labels that wait to be printed: what each is for, its usual design, and the words on it."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date

from seedbox.errors import NotFoundError
from seedbox.season.crops import CropBook
from seedbox.season.label_fields import label_fields
from seedbox.season.sharing_words import SHARING, PortionWords
from seedbox.season.sowing.desk import Desk
from seedbox.season.sowing.tray_fields import fields_each
from seedbox.season.testing.slip_fields import slip_fields
from seedbox.tin.codes import KINDS, shown
from seedbox.tin.file import Tin
from seedbox.tin.list_records import QueuedLabel
from seedbox.tin.preferences import Settings
from seedbox.tin.records import Packet

Words = dict[str, str]

USUAL_DESIGN = {"P": "packet", "S": "tray", "T": "test"}
USUAL_SHEET = {"a4": "a4-24-64x34-gap", "letter": "letter-30-2.625x1"}
_MOST_KEPT = 2_000
"""Codes whose words are kept at once: printing asks for them several times, one after another."""
_GONE = "not in this tin"
_FEW = 1_000
"""Entries that are looked up one by one, rather than by reading all packets."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """An entry of the queue with what it is for. `design` is its own or the usual one. `apiece` is
    how many labels a copy has: a test has a slip for each replicate, all else one alone, but a tray
    may have one for each of its cells.
    """

    entry: QueuedLabel
    crop: str
    variety: str
    design: str
    apiece: int = 1

    @property
    def code(self) -> str:
        return shown(self.entry.code)

    @property
    def kind(self) -> str:
        """`packet`, `sowing` or `germination test`."""
        return KINDS[self.entry.code[0]]

    @property
    def labels(self) -> int:
        """How many will be printed."""
        return self.apiece * self.entry.copies


@dataclass(frozen=True, slots=True)
class LabelQueue:
    """What waits, in order, and the settings by which it will be printed."""

    settings: Settings
    waiting: tuple[Waiting, ...]


def usual_design(code: str, settings: Settings) -> str:
    """The design for this kind of code; for packets the setting goes first."""
    chosen = settings.label_design if code[0] == "P" else ""
    return chosen or USUAL_DESIGN[code[0]]


def sheet_in_use(settings: Settings) -> str:
    """The label sheet of the setting, or the usual one for the paper."""
    return settings.label_sheet or USUAL_SHEET[settings.page]


def first_free(settings: Settings, on_a_sheet: int) -> int:
    """The first free label of the sheet in use. One that it does not have is the first of a fresh
    one.
    """
    return settings.label_start if settings.label_start <= on_a_sheet else 1


def next_free(start: int, labels: int, on_a_sheet: int) -> int:
    """The first free label of the sheet after so many were printed; 1 when it is used up.

    >>> next_free(5, 7, 24), next_free(20, 5, 24), next_free(20, 30, 24)
    (12, 1, 2)
    """
    return (start - 1 + labels) % on_a_sheet + 1


def read_queue(tin: Tin, each: str = "tray") -> LabelQueue:
    """The queue of a tin. Sowings have a label for `each` "tray" or "cell"."""
    settings, entries = tin.settings(), tin.label_queue()
    book = CropBook(settings, tin.own_crops())
    things = _Things(tin, entries)
    waiting = []
    for entry in entries:
        packet = things.packet(entry.code)
        waiting.append(
            Waiting(
                entry,
                book.name(packet.crop_id) if packet else _GONE,
                packet.variety if packet else "",
                entry.design or usual_design(entry.code, settings),
                things.apiece(entry.code, each),
            )
        )
    return LabelQueue(settings, tuple(waiting))


class _Things:
    """The packets, tests and sowings that the codes of a queue name."""

    def __init__(self, tin: Tin, entries: list[QueuedLabel]) -> None:
        kinds = {entry.code[0] for entry in entries}
        self._tests = {one.code: one for one in tin.tests(state=None)} if "T" in kinds else {}
        self._sowings = {one.code: one for one in tin.sowings()} if "S" in kinds else {}
        alone = kinds <= {"P"} and len(entries) <= _FEW
        found = _one_by_one(tin, entries) if alone else tin.packets()
        self._packets = {packet.code: packet for packet in found}
        self._by_id = {packet.id: packet for packet in found}

    def packet(self, code: str) -> Packet | None:
        """The packet that a code names, or that its sowing or test came from."""
        thing = self._tests.get(code) or self._sowings.get(code)
        return self._by_id[thing.packet_id] if thing else self._packets.get(code)

    def apiece(self, code: str, each: str) -> int:
        if code in self._tests:
            return self._tests[code].replicates
        sown = self._sowings.get(code)
        return (sown.cells or 1) if sown and each == "cell" else 1


def _one_by_one(tin: Tin, entries: list[QueuedLabel]) -> list[Packet]:
    found = []
    for entry in entries:
        with suppress(NotFoundError):
            found.append(tin.packet(entry.code))
    return found


class LabelWords:
    """One reading of a tin in which the words for any code are found. They are made when they are
    asked for: those of a packet need its forecast. `line` stands for a person's own line this time.
    """

    def __init__(
        self, tin: Tin, today: date, each: str = "tray", *, line: str | None = None
    ) -> None:
        self._each = each
        desk = Desk(tin, today)
        self._listing = listing = desk.listing
        self._portions = PortionWords(desk)
        own = listing.settings
        self._settings = own if line is None else replace(own, label_line=line)
        self._known: dict[tuple[str, bool], tuple[Words, ...]] = {}
        self._lines = {line.packet.code: line for line in listing.lines}
        self._packets = {line.packet.id: line.packet for line in listing.lines}
        self._tests = {test.code: test for test in tin.tests(state=None)}
        self._sowings = {one.sowing.code: one for one in desk.sowings}

    def of(self, code: str, design: str = "") -> tuple[Words, ...]:
        """Field names with their text, for each label that the code has: a slip for each replicate
        of a test, a label for each tray or cell of a sowing. What is left is that of a portion in
        the design for sharing. Raises NotFoundError.
        """
        key = code, design == SHARING
        if key not in self._known:
            if len(self._known) >= _MOST_KEPT:
                self._known.clear()
            self._known[key] = self._found(*key)
        return self._known[key]

    def _found(self, code: str, shared: bool) -> tuple[Words, ...]:
        listing, settings = self._listing, self._settings
        if code in self._lines:
            line = listing.forecast(self._lines[code])
            fields = label_fields(line, listing.book, listing.today, settings)
            return ({**fields, "left": self._portions.of(line)} if shared else fields,)
        if code in self._sowings:
            sown = self._sowings[code]
            return tuple(fields_each(sown, listing.book, settings, self._each))
        if code in self._tests:
            test = self._tests[code]
            packet = self._packets[test.packet_id]
            return tuple(slip_fields(test, packet, listing.book, settings))
        raise NotFoundError(f"There is no {KINDS[code[0]]} {shown(code)} in the tin.")
