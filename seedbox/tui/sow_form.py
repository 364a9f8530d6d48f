"""The form that sows a packet: plants wanted and place; cells and seeds are proposed for them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import on
from textual.content import Content
from textual.widgets import Input, Static

from seedbox.errors import NotFoundError, SeedboxError
from seedbox.season.sowing.again import sowing_again
from seedbox.season.sowing.desk import Desk as Season
from seedbox.season.sowing.in_progress import Growing
from seedbox.season.sowing.sow import Sown, Wish, sow
from seedbox.season.sowing.tray_fields import cells_text
from seedbox.tin.codes import shown
from seedbox.tui.cells import plain
from seedbox.tui.choice import Choice
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FieldLine, Form, FormPlan, FormProblemsError, Values
from seedbox.tui.packet_plans import NOTE, WHEN
from seedbox.tui.sow_proposal import RECKONED, Proposal, best_place, proposed, wish_from
from seedbox.tui.sowing_words import counted
from seedbox.tui.units import unbroken

if TYPE_CHECKING:
    from seedbox.tui.app import SeedboxApp


def ask_to_sow(
    app: SeedboxApp, code: str, place: str = "", plants: int | None = None, mind: str = ""
) -> None:
    """Put the form for sowing a packet over the page, or say what must be set first.

    `mind` is a sentence that stands before all that the form advises.
    """
    try:
        form = SowForm(app.desk, code, place, plants, mind)
    except SeedboxError as error:
        app.complain(error)
    else:
        app.push_screen(form)


def ask_to_resow(app: SeedboxApp, growing: Growing) -> None:
    """The same for a sowing that is to be made again: what is missing, or as many as then."""
    again = sowing_again(Season(app.desk.tin(), app.desk.today), growing)
    place = growing.sown_in.name
    ask_to_sow(app, growing.packet.code, place, again.plants, again.mind)


class SowForm(Form):
    """Cells and seeds follow plants and place, until they are changed by hand."""

    def __init__(
        self, desk: Desk, code: str, place: str, plants: int | None, mind: str = ""
    ) -> None:
        self._desk, self._code, self._mind = desk, code, mind
        self._season = Season(desk.tin(), desk.today)
        names = tuple(one.name for one in self._season.garden.places)
        if not names:
            raise NotFoundError("There is no place to sow in yet.", hint=_add_a_place())
        best, self._not_now = best_place(self._season, code)
        self._last: Proposal | None = None
        self._why_not = self._cut = ""
        place = place if place in names else best
        super().__init__(self._form_plan(names, place, plants))

    def _form_plan(self, names: tuple[str, ...], place: str, plants: int | None) -> FormPlan:
        self._propose(place, plants, None)
        self._first = self._last
        line = self._season.listing.line(self._code)
        found = self._last.plan if self._last else None
        number = plants or (found.plants if found else None)
        if found and found.short:
            number, self._cut = found.plants or number, found.short
        return FormPlan(
            title=f"Sow {line.crop} {line.packet.variety}".strip() + f" ({line.code})",
            fields=[
                Field("plants", "Plants", "How many plants you want from it."),
                Field("place", "Place", "Left and right arrows choose.", names),
                Field("cells", "Cells", "Proposed for these plants; yours if you change it."),
                Field("per_cell", "Seeds a cell", "Proposed; yours if you change it."),
                Field("seeds", "Seeds in a row", "Instead of cells, where it is to grow."),
                Field("row_m", "Row, m", "Length of the row, or leave it empty."),
                Field("depth", "Cell depth cm", "Empty: as the garden's settings say."),
                WHEN,
                NOTE,
            ],
            save=self._sow,
            initial={
                "plants": str(number or ""),
                "place": place,
                "on": "today",
                **(self._last.texts if self._last else {}),
            },
            draft_key=f"sow {self._code}",
            advice=self._advice(),
        )

    # Proposing

    def _propose(self, place: str, plants: int | None, depth_cm: float | None) -> None:
        tin = self._desk.tin()
        self._why_not = ""
        try:
            wish = Wish(plants=plants, pot_depth_cm=depth_cm)
            self._last = proposed(tin, self._season, self._code, place, wish)
        except SeedboxError as error:
            self._last, self._why_not = None, f"{error.sentence} {error.hint}".strip()

    def _advice(self) -> str:
        """What the proposal gives, and what speaks against it."""
        if self._last is None:
            return self._why_not
        plan = self._last.plan
        season = f"Now is not the time: {self._not_now}." if self._not_now else ""
        minds = [said for said in plan.warnings if not (season and said.startswith("Not the time"))]
        sentence = f"{plan.sentence[:1].upper()}{plan.sentence[1:]}."
        said = [self._mind, plan.short or sentence, self._cut, season, *minds]
        return unbroken(" ".join(filter(None, said)))

    def action_start_afresh(self) -> None:
        """The first proposal counts again, not the one for what was typed since."""
        self._last = self._first
        super().action_start_afresh()

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        if event.input.id == "field-plants" and event.value != self.plan.initial["plants"]:
            self._cut = ""
        if event.input.id in ("field-plants", "field-depth"):
            self._follow()

    @on(Choice.Changed)
    def _place_chosen(self) -> None:
        self._follow()

    def _follow(self) -> None:
        """Reckon anew, and show it where nothing was changed by hand."""
        values = self.values
        if self._last is None or any(values[name] != self._last.texts[name] for name in RECKONED):
            return
        reader = FieldReader(values, self._desk.today)
        plants, depth = reader.count("plants") or None, reader.number("depth")
        if reader.problems:
            return
        self._propose(values["place"], plants, depth)
        if self._last is not None:
            for line in self.query(FieldLine):
                if line.field.name in RECKONED:
                    line.value = self._last.texts[line.field.name]
        self.query_one("#form-advice", Static).update(Content(plain(self._advice())))

    # Sowing

    def _sow(self, values: Values) -> str:
        reader = FieldReader(values, self._desk.today)
        wish = wish_from(reader, self._last)
        on = reader.day("on")
        if self._last is None and not (wish.cells or wish.seeds):
            reader.fault("cells", "Say cells and seeds a cell, or seeds in a row.")
        reader.finish()
        self._refuse_short(wish.cells is None and wish.seeds is None)
        today = self._desk.today
        done = self._desk.change(
            lambda tin: sow(tin, self._code, values["place"], wish, today=today, on=on)
        )
        return sown_words(done)

    def _refuse_short(self, reckoned: bool) -> None:
        """A packet that cannot give the plants: say so beside them."""
        plan = self._last.plan if self._last else None
        if not reckoned or plan is None or not plan.short:
            return
        way = f"Write {plan.plants}." if plan.plants else "Give cells and seeds a cell."
        raise FormProblemsError({"plants": f"{plan.short} {way}"})


def sown_words(done: Sown) -> str:
    """What was sown, how its label is written, and the way back."""
    sowing, line = done.sowing, done.plan.line
    what = f"{line.crop} {line.packet.variety}".strip()
    how = f" in {cells_text(sowing)}" if sowing.cells else ""
    return (
        f"Sown {shown(sowing.code)}: {counted(sowing.seeds, 'seed')} of {what}{how},"
        f" {done.plan.place.name}. l on its page writes its label. u takes it back."
    )


def _add_a_place() -> str:
    from seedbox.tui.sowings_tab import where_to_describe

    return f"{where_to_describe()} There a adds a place, with its temperature.".strip()
