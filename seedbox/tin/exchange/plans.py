"""What an import would do, as values: shown before it is done, and then carried out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import NamedTuple

from seedbox.problems import Problem
from seedbox.tin.garden_records import Place, Plan, SowingEvent
from seedbox.tin.list_records import Want
from seedbox.tin.records import OwnCrop, OwnFigure, Store
from seedbox.tin.sowings import SowingDraft


class NewPacket(NamedTuple):
    """A packet to add; values are as the tin's table takes them (days as ISO text).

    `code` is empty where one is to be drawn, `parent` is a code, `store` a store's name in small
    letters. `row` is that of the person's spreadsheet.
    """

    row: int
    code: str
    crop_id: str
    variety: str
    kind: str
    origin: str | None
    source: str
    harvest_year: int | None
    packed_year: int | None
    bought_year: int | None
    sow_by: str | None
    printed_germination: float | None
    printed_on: str | None
    treatment: str
    ean: str
    note: str
    tags: str
    parent: str
    unit: str | None
    received_on: str | None
    import_key: str | None
    amount: float | None
    store: str


class JournalEntry(NamedTuple):
    """A movement of the packet with this place in `ImportPlan.new`."""

    packet: int
    on: str
    kind: str
    amount: float | None
    note: str


class StorageEntry(NamedTuple):
    """A storage period of the packet with this place in `ImportPlan.new`."""

    packet: int
    from_date: str
    store: str
    sealed: bool
    moisture: float | None


class TestEntry(NamedTuple):
    """A germination test of the packet with this place in `ImportPlan.new`."""

    packet: int
    code: str
    on: str
    seeds: int
    germinated: int
    hard: int
    note: str
    state: str = "finished"
    started_on: str | None = None
    replicates: int = 1
    substrate: str | None = None
    temperature_c: float | None = None
    night_c: float | None = None
    first_count_day: int | None = None
    final_count_day: int | None = None
    pretreatment: str = ""
    abnormal: int | None = None
    fresh: int | None = None
    dead: int | None = None
    reported_by: str = ""


class CountEntry(NamedTuple):
    """A count of the test with this place in `ImportPlan.tests`."""

    test: int
    on: str
    replicate: int
    normal: int
    abnormal: int
    hard: int
    fresh: int
    dead: int


class TrayEntry(NamedTuple):
    """A tray count of the packet with this place in `ImportPlan.new`."""

    packet: int
    on: str
    place: str
    sown: int
    emerged: int
    note: str


class SowingEntry(NamedTuple):
    """A sowing of the packet with this place in `ImportPlan.new`; `place` in small letters."""

    packet: int
    code: str
    on: str
    place: str
    draft: SowingDraft


class EventEntry(NamedTuple):
    """What became of the sowing with this place in `ImportPlan.sowings`."""

    sowing: int
    place: str
    event: SowingEvent


class ChoiceEntry(NamedTuple):
    """A word for the swap of the packet with this place in `ImportPlan.new`."""

    packet: int
    choice: str
    portions: int | None


class LabelEntry(NamedTuple):
    """A label that waits to be printed."""

    code: str
    design: str
    copies: int


class Reject(NamedTuple):
    """A row that stays out, as it was read. `where` names the table of a whole tin."""

    where: str
    headers: tuple[str, ...]
    row: int
    cells: tuple[str, ...]
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ImportPlan:
    """Everything an import would add, and everything that stays out with the reason.

    `already` counts rows that are in the tin; `notes` say what was assumed in reading the file.
    Every row that is not blank is in `new`, counted in `already`, or in `rejects`.
    """

    path: Path
    today: date
    new: tuple[NewPacket, ...]
    already: int = 0
    problems: tuple[Problem, ...] = ()
    rejects: tuple[Reject, ...] = ()
    stores_to_add: tuple[Store, ...] = ()
    own_crops_to_add: tuple[OwnCrop, ...] = ()
    own_figures_to_set: tuple[OwnFigure, ...] = ()
    settings_to_set: tuple[tuple[str, str], ...] = ()
    mapped_columns: Mapping[str, str] = field(default_factory=dict)
    ignored_columns: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    journal: tuple[JournalEntry, ...] | None = None
    storage: tuple[StorageEntry, ...] | None = None
    tests: tuple[TestEntry, ...] = ()
    test_counts: tuple[CountEntry, ...] = ()
    tray_counts: tuple[TrayEntry, ...] = ()
    places_to_add: tuple[Place, ...] = ()
    plans_to_add: tuple[Plan, ...] = ()
    sowings: tuple[SowingEntry, ...] = ()
    sowing_events: tuple[EventEntry, ...] = ()
    wants_to_add: tuple[Want, ...] = ()
    swap_choices: tuple[ChoiceEntry, ...] = ()
    labels: tuple[LabelEntry, ...] = ()

    @property
    def brings(self) -> tuple[str, ...]:
        """What it would add, counted: `3 packets`, `1 want`. What belongs to packets goes with
        them and is not counted."""
        things = (
            (self.new, "packet", "packets"),
            (self.stores_to_add, "store", "stores"),
            (self.own_crops_to_add, "crop of your own", "crops of your own"),
            (self.own_figures_to_set, "figure of your own", "figures of your own"),
            (self.settings_to_set, "setting", "settings"),
            (self.places_to_add, "place", "places"),
            (self.plans_to_add, "plan", "plans"),
            (self.wants_to_add, "want", "wants"),
        )
        return tuple(
            f"1 {one}" if len(added) == 1 else f"{len(added):,} {many}"
            for added, one, many in things
            if added
        )

    @property
    def changes_nothing(self) -> bool:
        return not self.brings


@dataclass(frozen=True, slots=True)
class ImportDone:
    """What an import did. `label` is its entry in the history; empty when nothing changed."""

    added: int
    already: int
    rejected: int
    label: str
    codes: tuple[str, ...] = ()
