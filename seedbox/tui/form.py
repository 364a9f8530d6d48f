"""A form: labelled fields, faults beside the field they belong to, and nothing lost.

What was typed stays in the program when a form is left by Esc, and is there again the next time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from seedbox.errors import SeedboxError
from seedbox.tui.actions import action, actions_of
from seedbox.tui.bars import KeyBar
from seedbox.tui.cells import plain
from seedbox.tui.choice import Choice
from seedbox.tui.completion import Completion, NameInput, Suggest
from seedbox.tui.sheet import Sheet

Values = dict[str, str]


class FormProblemsError(Exception):
    """Faults by field name; the key "" is for the form as a whole."""

    def __init__(self, problems: Mapping[str, str]) -> None:
        super().__init__("; ".join(problems.values()))
        self.problems = dict(problems)


@dataclass(frozen=True, slots=True)
class Field:
    """One line of a form: free text, or a choice when `options` are given."""

    name: str
    label: str
    hint: str = ""
    options: tuple[str, ...] = ()
    suggest: Suggest | None = None


@dataclass(frozen=True, slots=True)
class FormPlan:
    """What a form asks and what it does. `save` returns the sentence that says what was done.

    It raises `FormProblemsError` or `SeedboxError` when the values will not do. `draft_key` names
    the place where unfinished values are kept; empty keeps none.
    """

    title: str
    fields: Sequence[Field]
    save: Callable[[Values], str]
    initial: Values = field(default_factory=dict)
    draft_key: str = ""
    advice: str = ""


class Form(Sheet):
    """Asks what its plan says."""

    def __init__(self, plan: FormPlan) -> None:
        super().__init__()
        self.plan = plan

    def compose(self) -> ComposeResult:
        draft = self._draft()
        start = {**self.plan.initial, **(draft or {})}
        with Vertical(id="form"):
            yield Static(Content(plain(self.plan.title)), id="form-title")
            yield Static(Content(self._opening(draft)), id="form-advice")
            with FieldScroll(id="form-fields", can_focus=False):
                for known in self.plan.fields:
                    yield FieldLine(known, start.get(known.name, ""))
            yield Static("", id="form-hint", markup=False)
            yield Static("", id="form-problem", markup=False)
            yield KeyBar()

    def on_mount(self) -> None:
        self.query_one(KeyBar).show([a for a in actions_of(type(self)) if a.footer])
        self.set_focus(self.query(FieldLine).first().control)

    def on_resize(self, event: events.Resize) -> None:
        """Leave room for title, advice, hint, keys and border; the fields scroll in the rest."""
        self.query_one("#form-fields").styles.max_height = max(3, event.size.height - 10)

    def on_descendant_focus(self) -> None:
        """Say what is expected in the field that has the cursor."""
        hints = [line.field.hint for line in self.query(FieldLine) if line.control.has_focus]
        self.query_one("#form-hint", Static).update(Content(plain("".join(hints))))

    def _opening(self, draft: Values | None) -> str:
        if draft:
            return "Here is what you had typed before. Ctrl+N empties the form."
        return plain(self.plan.advice)

    def _draft(self) -> Values | None:
        return self.seedbox.drafts.get(self.plan.draft_key) if self.plan.draft_key else None

    @property
    def values(self) -> Values:
        return {line.field.name: line.value for line in self.query(FieldLine)}

    def _changed(self) -> bool:
        first = {known.name: line.first for known, line in self._lines()}
        return any(text != first[name] for name, text in self.values.items())

    def _lines(self) -> Iterable[tuple[Field, FieldLine]]:
        return ((line.field, line) for line in self.query(FieldLine))

    @action("ctrl+s", "Save", "Save what the form says.", footer=True, priority=True)
    def action_save(self) -> None:
        # Keys typed just before may still be on their way to the field: it saves after them.
        (self.focused or self).call_later(self._save)

    def _save(self) -> None:
        self.show_problems({})
        try:
            done = self.plan.save(self.values)
        except FormProblemsError as faults:
            self.show_problems(faults.problems)
        except SeedboxError as error:
            self.show_problems({"": f"{error.sentence} {error.hint}".strip()})
        else:
            self._forget()
            self.leave()
            self.seedbox.done(done)

    @action("escape", "Leave, keep what I typed", "Close the form and keep its text.", footer=True)
    def action_leave(self) -> None:
        kept = bool(self.plan.draft_key) and (self._changed() or self._draft() is not None)
        if kept:
            self.seedbox.keep_draft(self.plan.draft_key, self.values)
        self.leave()
        if kept:
            self.seedbox.say("Not saved. What you typed is kept: open the same form to go on.")

    @action("ctrl+n", "Start afresh", "Put every field back as it was at first.", footer=True)
    def action_start_afresh(self) -> None:
        self._forget()
        for known, line in self._lines():
            line.value = self.plan.initial.get(known.name, "")
        self.query_one("#form-advice", Static).update(Content(plain(self.plan.advice)))
        self.show_problems({})

    @action("down", "Next field", "Go to the next field; Tab and Enter do too.", palette=False)
    def action_next_field(self) -> None:
        self.focus_next(".control")

    @action("up", "Field before", "Go to the field before; Shift+Tab does too.", palette=False)
    def action_field_before(self) -> None:
        self.focus_previous(".control")

    def _forget(self) -> None:
        self.seedbox.drafts.pop(self.plan.draft_key, None)

    def show_problems(self, problems: Mapping[str, str]) -> None:
        """Each sentence beside its field; the first faulty field gets the cursor."""
        known = {f.name for f in self.plan.fields}
        elsewhere = [text for name, text in problems.items() if name not in known]
        self.query_one("#form-problem", Static).update(Content(plain(" ".join(elsewhere))))
        faulty = [line for f, line in self._lines() if line.say(problems.get(f.name, ""))]
        if faulty:
            faulty[0].control.focus()

    @on(Input.Submitted)
    def _enter_goes_on(self, event: Input.Submitted) -> None:
        event.stop()
        last = self.query(FieldLine).last()
        if last.control is event.input:
            self.action_save()
        else:
            self.focus_next(".control")

    def on_key(self, event: events.Key) -> None:
        if event.key == "enter" and isinstance(self.focused, Choice):
            event.stop()
            if self.query(FieldLine).last().control is self.focused:
                self.action_save()
            else:
                self.focus_next(".control")


class FieldScroll(VerticalScroll, inherit_bindings=False):
    """The fields, scrolling when there are more than fit; the arrow keys go from field to field."""


class FieldLine(Horizontal):
    """Label, field, and beside it what is wrong with it."""

    def __init__(self, known: Field, value: str) -> None:
        super().__init__(classes="field-line")
        self.field = known
        self.control = _control(known, value)
        self.first = self.value

    def compose(self) -> ComposeResult:
        yield Static(Content(plain(self.field.label)), classes="field-label")
        if self.field.suggest is not None and isinstance(self.control, NameInput):
            with Vertical(classes="field-with-names"):
                yield self.control
                yield Completion(self.control, self.field.suggest)
        else:
            yield self.control
        yield Static("", classes="field-side", markup=False)

    @property
    def value(self) -> str:
        control = self.control
        return control.value if isinstance(control, Input | Choice) else ""

    @value.setter
    def value(self, text: str) -> None:
        if isinstance(self.control, Choice):
            self.control.value = text if text in self.control.options else self.control.options[0]
        elif isinstance(self.control, Input):
            self.control.value = text

    def say(self, problem: str) -> bool:
        """Show a fault, or nothing; tells whether there is one."""
        side = self.query_one(".field-side", Static)
        side.update(Content(plain(f"! {problem}" if problem else "")))
        self.set_class(bool(problem), "-faulty")
        return bool(problem)


def _control(known: Field, value: str) -> Widget:
    control: Widget
    if known.options:
        control = Choice(known.options, value)
    else:
        control = NameInput(value, compact=True, select_on_focus=False)
    control.add_class("control")
    control.id = f"field-{known.name}"
    return control
