"""From the queue to paper: sheet, first free label, how the code stands, the file, the printer."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from seedbox.errors import SeedboxError
from seedbox.season.waiting_labels import next_free, sheet_in_use
from seedbox.tui.actions import action
from seedbox.tui.labels_actions import LabelsActions
from seedbox.tui.labels_job import CODE_LAYOUTS, Order, Written, start_of
from seedbox.tui.labels_rows import code_words, counted, total, written_words

if TYPE_CHECKING:
    from seedbox.tui.form import FormPlan

_NEEDS_A_LABEL = {"sheet", "rugged", "outlines", "each_cell", "write"}
_NEEDS_A_FILE = {"open_file", "print_file", "on_paper"}


class LabelsPrinting(LabelsActions):
    """What holds for the whole queue, and what becomes of the file."""

    def order(self) -> Order | None:
        """What a job is made of as things stand."""
        raise NotImplementedError

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in _NEEDS_A_LABEL:
            return bool(self.waiting)
        if action == "first_label":
            sheet = self.sheet if self.waiting else None
            return sheet is not None and not sheet.is_roll
        if action in _NEEDS_A_FILE:
            return self.written is not None or self.writing
        return super().check_action(action, parameters)

    # How it is printed

    # At once, so that words typed right behind the key go into the filter of the list.
    @action("s", "Sheet", "Choose the label sheet, by its geometry.", footer=True, priority=True)
    def action_sheet(self) -> None:
        from seedbox.tui.labels_chooser import Chooser
        from seedbox.tui.labels_choosing import Fitting, sheet_question

        queue = self.queue
        if queue is None:
            return
        designs = [one.design for one in self.waiting]
        fitting = Fitting(self.choices, queue.settings.label_dpi)
        current = sheet_in_use(queue.settings)
        self.app.push_screen(Chooser(sheet_question(designs, fitting, current, self._take_sheet)))

    def _take_sheet(self, name: str) -> str:
        """Another sheet is a fresh one: its first label is free."""
        from seedbox.printing.sheets import sheet
        from seedbox.tin.settings import set_settings

        if self.queue is not None and name == sheet_in_use(self.queue.settings):
            return ""
        texts = {"label_sheet": name, "label_start": "1"}
        label = f"Print labels on {name}"
        try:
            sheet(name)
            self.seedbox.desk.change(lambda tin: set_settings(tin, texts, label))
        except SeedboxError as error:
            return f"{error.sentence} {error.hint}".strip()
        self._changed(f"Labels go onto {name} now, from label 1. u takes it back.")
        return ""

    @action("f", "First label", "Choose the first free label of a part-used sheet.", footer=True)
    def action_first_label(self) -> None:
        from seedbox.tui.labels_start_page import StartPage

        queue, sheet = self.queue, self.sheet
        if queue is not None and sheet is not None:
            start = start_of(queue, sheet.count)
            labels = total(self.waiting)
            self.app.push_screen(StartPage(sheet, start, labels, self._take_start))

    def _take_start(self, start: int) -> None:
        from seedbox.tin.settings import set_setting

        words = f"Printing begins with label {start}. u takes it back."
        self._change(lambda tin: set_setting(tin, "label_start", str(start)), words)

    @action("r", "Rugged", "Code as the design has it, twice against mud, or once.")
    def action_rugged(self) -> None:
        here = CODE_LAYOUTS.index(self.choices.code_layout)
        layout = CODE_LAYOUTS[(here + 1) % len(CODE_LAYOUTS)]
        self.choices = replace(self.choices, code_layout=layout)
        self.say(f"Code: {code_words(self.choices)}.")
        self.show_all()

    @action("t", "Outlines", "Lines to cut along: as the sheet has it, drawn, or not.")
    def action_outlines(self) -> None:
        after = {None: True, True: False, False: None}
        self.choices = replace(self.choices, outlines=after[self.choices.outlines])
        said = {None: "as the sheet has it", True: "drawn, for a trial on plain paper"}
        self.say(f"Outlines: {said.get(self.choices.outlines, 'not drawn')}.")
        self.show_all()

    @action("m", "Tray or cell", "A label for each tray or row, or one for each cell of a tray.")
    def action_each_cell(self) -> None:
        each = "tray" if self.choices.each == "cell" else "cell"
        self.choices = replace(self.choices, each=each)
        self.say(f"Sowings have a label for each {each}.")
        self.reload()

    @action("e", "Printer", "Put right what the printer moves or stretches; a line of your own.")
    def action_printer(self) -> None:
        from seedbox.tui.labels_forms import printer_plan

        self._ask(lambda: printer_plan(self.seedbox.desk))

    # The file

    @action("w", "Write PDF", "Write the labels as a PDF; every code is read back.", footer=True)
    def action_write(self) -> None:
        from seedbox.tui.labels_forms import file_plan, proposed_file

        desk, labels, before = self.seedbox.desk, total(self.waiting), self.written

        def plan() -> FormPlan:
            path = before.printed.path if before else proposed_file(desk)
            return file_plan(desk, labels, path, self._write)

        if labels and not self._still_writing():
            self._ask(plan)

    def _still_writing(self) -> bool:
        if self.writing:
            self.say("The file is still being written and read back: a moment.")
        return self.writing

    def _write(self, path: Path) -> None:
        """Print in a thread: reading many pages back takes seconds."""
        order = self.order()
        if order is None or not order.queue.waiting:
            return

        def work() -> None:
            try:
                written = order.write(path)
            except SeedboxError as error:
                self._from_thread(self._refused, error)
            else:
                self._from_thread(self._show_written, written)

        self.writing = True
        self.run_worker(work, thread=True, group="writing")

    def _from_thread(self, call: Callable[..., object], *given: object) -> None:
        if self.app.is_running:
            self.app.call_from_thread(call, *given)

    def _refused(self, error: SeedboxError) -> None:
        self.writing = False
        self.seedbox.complain(error)

    def _show_written(self, written: Written) -> None:
        self.written, self.writing = written, False
        self.seedbox.say(written_words(written), wrong=bool(written.printed.unreadable))
        self.show_all()

    @action("o", "Open the file", "Open the PDF in the program that this system uses.")
    def action_open_file(self) -> None:
        from seedbox.printing.handing_over import open_file

        self._hand_over(open_file, "Opening {}. Print it from there at 100 %.")

    @action("i", "Print the file", "Send the PDF to the printer of this system, at 100 %.")
    def action_print_file(self) -> None:
        from seedbox.printing.handing_over import print_file

        self._hand_over(print_file, "Sent {} to the printer. Once it is on paper, a says so.")

    def _hand_over(self, hand: Callable[[Path], None], words: str) -> None:
        if self._still_writing() or self.written is None:
            return
        path = self.written.printed.path
        if not path.is_file():
            self.say(f"{path} is not there any more: w writes it again.", wrong=True)
            return

        def work() -> None:
            try:
                hand(path)
            except SeedboxError as error:
                self._from_thread(self.seedbox.complain, error)
            else:
                self._from_thread(self.seedbox.say, words.format(path.name))

        self.say(f"Handing {path.name} over …")
        self.run_worker(work, thread=True, group="handing")

    @action("a", "On paper", "It is printed: its labels leave the queue, the sheet moves on.")
    def action_on_paper(self) -> None:
        from seedbox.tin.label_changes import labels_printed

        written = self.written
        if self._still_writing() or written is None:
            return
        after = next_free(written.start, written.printed.labels, written.on_a_sheet)
        self.written = None
        fresh = "the next sheet is a fresh one" if after == 1 else f"label {after} is free next"
        self._change(
            lambda tin: labels_printed(tin, written.ids, after),
            f"Printed {counted(written.printed.labels)}: {fresh}. u takes it back.",
        )
