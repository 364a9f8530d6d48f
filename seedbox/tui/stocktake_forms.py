"""What a stocktake asks: of which store, and what of it shall be written."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from seedbox.errors import NotFoundError, SeedboxError
from seedbox.season.stocktake import Stocktake
from seedbox.tin.records import Store
from seedbox.tui.form import Field, FormPlan, Values
from seedbox.tui.stocktake_rows import summary

if TYPE_CHECKING:
    from seedbox.tui.app import SeedboxApp

MOVE, LEAVE = "move here", "leave as written"
KEEP, GONE = "keep as they are", "write off as empty"


def ask_which_store(app: SeedboxApp, likely: str = "") -> None:
    """Begin a stocktake: of the only store, or of one that is chosen; `likely` is named first."""
    try:
        stores = app.desk.tin().stores() if app.desk.exists else []
        if not stores:
            raise NotFoundError(
                "There is no store to take stock of.", hint="S shows the stores: add one."
            )
    except SeedboxError as error:
        app.complain(error)
        return
    if len(stores) == 1:
        begin(app, stores[0])
    else:
        app.ask(_store_plan(app, stores, likely))


def begin(app: SeedboxApp, store: Store) -> None:
    """Open the page on which the packets of a store are ticked."""
    from seedbox.tui.stocktake_page import StocktakePage

    app.push_screen(StocktakePage(store))


def _store_plan(app: SeedboxApp, stores: list[Store], likely: str) -> FormPlan:
    def save(values: Values) -> str:
        store = next(each for each in stores if each.name == values["store"])
        app.call_later(begin, app, store)
        return ""

    hint = "Left and right arrows, or a first letter. Ctrl+S begins."
    return FormPlan(
        title="Stocktake",
        fields=[Field("store", "Store", hint, tuple(each.name for each in stores))],
        save=save,
        initial={"store": likely},
        advice="Scan or type the code of each packet that lies there; nothing is changed by it.",
    )


def writing_plan(stock: Stocktake, write: Callable[[bool, bool], str]) -> FormPlan | None:
    """Asks what to do with packets of another store and with missing ones; None when there are
    none. `write` takes whether to move the former here and whether the latter are gone.
    """
    fields = []
    if stock.misplaced:
        hint = "Packets that lie here, but by the tin elsewhere."
        fields.append(Field("move", "Wrong store", hint, (MOVE, LEAVE)))
    if stock.missing:
        hint = "A packet not seen may only be hidden: look again before you write it off."
        fields.append(Field("missing", "Missing", hint, (KEEP, GONE)))

    def save(values: Values) -> str:
        return write(values.get("move") == MOVE, values.get("missing") == GONE)

    if not fields:
        return None
    return FormPlan(
        title=f"Write the stocktake of {stock.store.name}",
        fields=fields,
        save=save,
        advice=f"{summary(stock)}. All of it is one change, which u takes back.",
    )
