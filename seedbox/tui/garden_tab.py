"""The garden: frosts and latitude above, and three lists: places, plans, and the year."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from seedbox.errors import SeedboxError
from seedbox.season.sowing.desk import Desk as Season
from seedbox.season.sowing.garden import GrowingPlace
from seedbox.season.sowing.tin_year import CropYear, tin_year, week_starts
from seedbox.tin.file import Tin
from seedbox.tin.garden_records import Plan
from seedbox.tui.actions import action
from seedbox.tui.cells import plain
from seedbox.tui.form import FormPlan
from seedbox.tui.garden_words import (
    PLACES,
    PLANS,
    garden_words,
    need_of,
    place_row,
    place_words,
    plan_row,
    plan_words,
)
from seedbox.tui.tab_page import TabPage
from seedbox.tui.virtual_list import Row, VirtualList
from seedbox.tui.year_strip import LEGEND, crop_words, year_columns, year_rows

LISTS = ("places", "plans", "year")
_NOTHING = {
    "places": "No place yet. a adds one: a windowsill, a cold frame, a bed.",
    "plans": "Nothing is planned yet. a adds a crop and how many plants you want of it.",
    "year": "The year is shown once the frosts and the latitude are said, and there is seed.",
}


class GardenTab(TabPage):
    """Facts, one of three lists, and below it what the highlighted line means."""

    DEFAULT_CSS = """
    #garden-facts { height: auto; max-height: 6; padding: 0 1; }
    #garden-lists { height: 1; color: $quiet; background: $surface; padding: 0 1; }
    #garden-detail { height: 4; padding: 0 1; background: $surface; color: $foreground; }
    """
    place = "Garden"
    AUTO_FOCUS: ClassVar[str | None] = "#places"
    FOOTER = ("next_list", "add", "edit", "remove", "frosts", "help_keys")

    def __init__(self) -> None:
        super().__init__()
        self._season: Season | None = None
        self._shown = LISTS[0]
        self._year: list[tuple[CropYear, Row]] = []
        self._plans: tuple[Plan, ...] = ()

    def body(self) -> ComposeResult:
        today = self.seedbox.desk.today
        yield Static("", id="garden-facts", markup=False)
        yield Static("", id="garden-lists", markup=False)
        yield VirtualList(PLACES, id="places")
        yield VirtualList(PLANS, id="plans")
        yield VirtualList(year_columns(week_starts(today.year), today), id="year")
        yield Static("", id="garden-detail", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        for name in LISTS:
            self._list(name).display = name == self._shown
        self.reload()

    def _list(self, name: str = "") -> VirtualList:
        return self.query_one(f"#{name or self._shown}", VirtualList)

    @property
    def _places(self) -> tuple[GrowingPlace, ...]:
        return self._season.garden.places if self._season else ()

    def reload(self) -> None:
        desk = self.seedbox.desk
        try:
            self._season = Season(desk.tin(), desk.today) if desk.exists else None
        except SeedboxError as error:
            self.seedbox.complain(error)
            return
        self._year = []
        self._show_facts()
        self._show_rows()

    def _show_facts(self) -> None:
        season = self._season
        words = "The garden is not described yet. f says its frosts and its latitude."
        if season is not None and self._shown == "year" and season.garden.climate:
            words = LEGEND
        elif season is not None:
            words = "\n".join(map(plain, garden_words(season.settings, season.garden)))
        self.query_one("#garden-facts", Static).update(Content(words))

    def _show_rows(self) -> None:
        places, plans = self._list("places"), self._list("plans")
        places.show_rows([place_row(one) for one in self._places], places.cursor)
        plans.show_rows(self._plan_rows(), plans.cursor)
        if self._shown == "year":
            self._read_year()
        self._tell()

    def _plan_rows(self) -> list[Row]:
        season = self._season
        if season is None:
            self._plans = ()
            return []
        name = season.listing.book.name
        order = sorted(season.garden.plans, key=lambda plan: name(plan.crop_id).casefold())
        self._plans = tuple(order)
        return [plan_row(p, name(p.crop_id), need_of(p, season.needs)) for p in order]

    def _read_year(self) -> None:
        """The year is worked out when it is first looked at."""
        season = self._season
        if season is not None and not self._year:
            self._year = year_rows(tin_year(season, season.today.year))
        year = self._list("year")
        year.show_rows([row for _, row in self._year], year.cursor)

    def _tell(self) -> None:
        """Which list is open, and what the highlighted line means."""
        counts = {"places": str(len(self._places)), "plans": str(len(self._plans))}
        counts["year"] = str(self.seedbox.desk.today.year)
        names = [f"{name.capitalize()} {counts[name]}" for name in LISTS]
        marked = [
            (f"[{text}]", "bold reverse") if name == self._shown else (f" {text} ", "")
            for name, text in zip(LISTS, names, strict=True)
        ]
        line = Content.assemble(*marked, ("  ← → show another list", "$quiet"))
        self.query_one("#garden-lists", Static).update(line)
        self.query_one("#garden-detail", Static).update(Content(plain(self._words())))
        self.refresh_bars()

    def _words(self) -> str:
        season, cursor = self._season, self._list().cursor
        if season is None or cursor >= self._list().row_count:
            return _NOTHING[self._shown]
        if self._shown == "places":
            return place_words(self._places[cursor], season.today)
        if self._shown == "year":
            return crop_words(self._year[cursor][0], season.today.year)
        plan = self._plans[cursor]
        crop = season.listing.book.name(plan.crop_id)
        return plan_words(plan, crop, need_of(plan, season.needs))

    @on(VirtualList.Moved)
    def _moved(self) -> None:
        self._tell()

    @on(VirtualList.Chosen)
    def _chosen(self) -> None:
        if self._shown != "year":
            self.action_edit()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "add":
            return self._shown != "year"
        if action in ("edit", "remove"):
            return self._shown != "year" and self.is_mounted and self._list().row_count > 0
        return super().check_action(action, parameters)

    # Which list

    @action("right", "Next list", "Show the next list: places, plans, the year.", footer=True)
    def action_next_list(self) -> None:
        self._turn(1)

    @action("left", "List before", "Show the list before.")
    def action_list_before(self) -> None:
        self._turn(-1)

    def _turn(self, step: int) -> None:
        self._shown = LISTS[(LISTS.index(self._shown) + step) % len(LISTS)]
        for name in LISTS:
            self._list(name).display = name == self._shown
        if self._shown == "year":
            self._read_year()
        self._show_facts()
        self._list().focus()
        self._tell()

    # What is changed

    def _ask(self, plan_of: Callable[[], FormPlan]) -> None:
        try:
            plan = plan_of()
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.ask(plan)

    @action("f", "Frosts", "Say when frost ends and begins, the latitude, region, trays.")
    def action_frosts(self) -> None:
        from seedbox.tui.garden_form import garden_plan

        self._ask(lambda: garden_plan(self.seedbox.desk))

    @action("a", "Add", "Add a place, or a plan, to the list that is shown.", footer=True)
    def action_add(self) -> None:
        self._ask(lambda: self._form_plan(None))

    @action("e", "Change", "Change the highlighted place or plan.", footer=True)
    def action_edit(self) -> None:
        cursor = self._list().cursor
        if cursor < self._list().row_count:
            self._ask(lambda: self._form_plan(cursor))

    def _form_plan(self, index: int | None) -> FormPlan:
        """The form for the line with this number, or for a new one."""
        from seedbox.tui.place_form import place_plan
        from seedbox.tui.plan_form import wanted_plan

        desk = self.seedbox.desk
        if self._shown == "plans":
            return wanted_plan(desk, None if index is None else self._plans[index])
        return place_plan(desk, None if index is None else self._places[index].record)

    @action("x", "Remove", "Remove the highlighted place or plan.")
    def action_remove(self) -> None:
        cursor = self._list().cursor
        if cursor >= self._list().row_count or self._shown == "year":
            return
        work = self._remove_plan if self._shown == "plans" else self._remove_place
        try:
            sentence = self.seedbox.desk.change(lambda tin: work(tin, cursor))
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.done(f"{sentence} u brings it back.")

    def _remove_place(self, tin: Tin, index: int) -> str:
        from seedbox.tin.places import remove_place

        name = self._places[index].name
        remove_place(tin, name)
        return f"Removed the place {name}."

    def _remove_plan(self, tin: Tin, index: int) -> str:
        from seedbox.tin.plans import remove_plan

        plan = self._plans[index]
        remove_plan(tin, plan.id)
        crop = self._season.listing.book.name(plan.crop_id) if self._season else plan.crop_id
        return f"Removed the plan of {crop} {plan.variety}".rstrip() + "."
