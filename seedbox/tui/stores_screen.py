"""The stores in which packets lie."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult

from seedbox.errors import SeedboxError
from seedbox.tin.records import Store
from seedbox.tui.actions import action
from seedbox.tui.columns import Column
from seedbox.tui.page import Page
from seedbox.tui.store_form import store_plan
from seedbox.tui.virtual_list import Row, VirtualList

COLUMNS = (
    Column("name", "Store", 18, most=30),
    Column("warmth", "Temperature", 15, most=18),
    Column("humidity", "Humidity", 9),
    Column("sealed", "Packed", 13, most=24),
    Column("packets", "Packets", 7, right=True),
    Column("note", "Note", 6, most=60),
)


class StoresScreen(Page):
    """A short list: add, change."""

    place = "Stores"
    AUTO_FOCUS: ClassVar[str | None] = "#stores"

    def __init__(self) -> None:
        super().__init__()
        self._stores: list[Store] = []

    def body(self) -> ComposeResult:
        yield VirtualList(COLUMNS, id="stores")

    def on_mount(self) -> None:
        super().on_mount()
        self.reload()

    def reload(self) -> None:
        desk = self.seedbox.desk
        try:
            tin = desk.tin() if desk.exists else None
            self._stores = tin.stores() if tin else []
            lying = [d.store.id for d in tin.dossiers() if d.store] if tin else []
        except SeedboxError as error:
            self.seedbox.complain(error)
            return
        stores = self.query_one(VirtualList)
        rows = [_row(store, lying.count(store.id)) for store in self._stores]
        stores.show_rows(rows, stores.cursor)
        if not rows:
            self.say("No store yet. a adds one: a drawer, a shed, a jar in the refrigerator.")
        self.refresh_bars()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in ("edit", "stocktake"):
            return bool(self._stores)
        return super().check_action(action, parameters)

    @on(VirtualList.Chosen)
    def _chosen(self) -> None:
        self.action_edit()

    @action("a", "Add a store", "Say where packets lie and how warm and damp it is.", footer=True)
    def action_add(self) -> None:
        self.seedbox.ask(store_plan(self.seedbox.desk, None))

    @action("e", "Change", "Put a figure of this store right.", footer=True)
    def action_edit(self) -> None:
        place = self.query_one(VirtualList).cursor
        if place < len(self._stores):
            self.seedbox.ask(store_plan(self.seedbox.desk, self._stores[place]))

    @action("x", "Remove", "Remove a store in which no packet ever lay.")
    def action_remove(self) -> None:
        from seedbox.tin.stores import remove_store

        place = self.query_one(VirtualList).cursor
        if place >= len(self._stores):
            return
        name = self._stores[place].name
        try:
            self.seedbox.desk.change(lambda tin: remove_store(tin, name))
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.done(f"Removed the store {name}. u brings it back.")

    @action("C", "Stocktake", "Tick what lies in this store, by scanner or by hand.", footer=True)
    def action_stocktake(self) -> None:
        from seedbox.tui.stocktake_forms import begin

        place = self.query_one(VirtualList).cursor
        if place < len(self._stores):
            begin(self.seedbox, self._stores[place])

    @action("escape,b", "Back", "Back to where you were.", footer=True)
    def action_back(self) -> None:
        self.leave()


def _row(store: Store, packets: int) -> Row:
    if store.coolest_c == store.warmest_c:
        warmth = f"{store.coolest_c:g} °C"
    else:
        warmth = f"{store.coolest_c:g} to {store.warmest_c:g} °C"
    humidity = store.relative_humidity
    moisture = f" at {store.sealed_moisture:g} %" if store.sealed_moisture else ""
    return (
        store.name,
        warmth,
        "not known" if humidity is None else f"{humidity * 100:g} %",
        f"sealed{moisture}" if store.sealed else "open",
        str(packets),
        store.note,
    )
