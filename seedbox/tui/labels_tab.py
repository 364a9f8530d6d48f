"""Labels: what waits to be printed, on which sheet and how, and how each label will look."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Container
from textual.content import Content
from textual.widgets import Static

from seedbox.errors import SeedboxError
from seedbox.season.waiting_labels import LabelQueue, Waiting, read_queue, sheet_in_use
from seedbox.tui.actions import Action
from seedbox.tui.cells import plain, wrapped
from seedbox.tui.labels_job import Order, WordSource, start_of
from seedbox.tui.labels_picturing import Look, Room, Wish
from seedbox.tui.labels_printing import LabelsPrinting
from seedbox.tui.labels_rows import COLUMNS, counted, fact_lines, row, summary, tint, total
from seedbox.tui.labels_sheet_drawing import LEGEND, drawn_sheet, grid_for
from seedbox.tui.tab_page import TabPage
from seedbox.tui.text_lines import Line, content
from seedbox.tui.virtual_list import VirtualList

if TYPE_CHECKING:
    from seedbox.printing.sheets import Sheet

NOTHING_WAITS = """\
No label waits to be printed.

l   on a packet, a sowing or a running test puts its label into this queue
L   does so for every line that a list shows: filter the tin first with /
    In the tin, Space marks packets, and l takes all that are marked.

Here you then choose sheet and design, see how each label looks, and print."""
BEFORE = ("write", "design", "sheet", "first_label", "look", "help_keys")
AFTER = ("open_file", "print_file", "on_paper", "write", "help_keys")
DRAWING, WIDE = "Drawing …", 110
_FRAME = 2
_LEAST_SHEET = 6
"""Lines below which a sheet is not drawn beside the facts."""


class LabelsTab(TabPage, LabelsPrinting):
    """The queue, a picture of the highlighted label, and what it is printed on."""

    DEFAULT_CSS = """
    #labels-body { height: 1fr; layout: vertical; }
    #label-panel { height: 12; layout: horizontal; background: $surface; }
    #label-picture { width: auto; height: auto; }
    #label-facts { width: 1fr; height: auto; padding: 0 1; }
    #labels-body.-wide { layout: horizontal; }
    .-wide #queue { width: 1fr; }
    .-wide #label-panel { width: 52%; height: 100%; layout: vertical; }
    .-wide #label-facts { width: 100%; padding: 1 1; }
    .-flat #label-picture { display: none; }
    #no-labels { height: 1fr; padding: 1 3; }
    """
    place = "Labels"
    AUTO_FOCUS: ClassVar[str | None] = "#queue"

    def __init__(self) -> None:
        super().__init__()
        self._source: WordSource | None = None

    def body(self) -> ComposeResult:
        yield Static("", id="summary", markup=False)
        yield Static(NOTHING_WAITS, id="no-labels", markup=False)
        with Container(id="labels-body"):
            yield VirtualList(COLUMNS, tint=tint, id="queue")
            with Container(id="label-panel"):
                yield Static("", id="label-picture", markup=False)
                yield Static("", id="label-facts", markup=False)

    def on_mount(self) -> None:
        super().on_mount()
        self.reload()

    # Reading it

    def reload(self) -> None:
        """Anything may be another now: the queue, and the words on its labels."""
        self._source = None
        self.forget_looks()
        self.read_queue()

    def read_queue(self) -> None:
        """The queue is read at once; words want the whole tin, and are left to threads."""
        if not self.is_there:
            return  # it reads the queue once it is
        desk, here = self.seedbox.desk, self.waiting_here()
        try:
            self.queue = read_queue(desk.tin(), self.choices.each) if desk.exists else None
        except SeedboxError as error:
            self.seedbox.complain(error)
            return
        self._show_rows(here)
        self.show_all()

    @property
    def is_there(self) -> bool:
        """Not before it is put together, and not when it is being closed."""
        return bool(self.query("#label-facts"))

    def order(self) -> Order | None:
        if self.queue is None:
            return None
        if self._source is None:
            self._source = WordSource(self.seedbox.desk, self.choices.each)
        return Order(self.queue, self._source, self.choices)

    # Showing it

    def _show_rows(self, here: Waiting | None) -> None:
        """All lines again, the cursor on the label on which it was."""
        waiting = self.waiting
        ids = [one.entry.id for one in waiting]
        self.marked &= set(ids)
        listed = self.query_one(VirtualList)
        at = ids.index(here.entry.id) if here and here.entry.id in ids else listed.cursor
        listed.show_rows([row(one) for one in waiting], at, lambda index: ids[index] in self.marked)
        self.query_one("#no-labels").display = not waiting
        self.query_one("#labels-body").display = bool(waiting)

    def show_all(self) -> None:
        """Everything but the rows: summary, picture, facts, keys."""
        if not self.is_there:
            return
        self._show_summary()
        self._show_facts()
        self._ask_for_picture()
        self.refresh_bars()

    def _show_summary(self) -> None:
        queue = self.queue
        if queue is None or not queue.waiting:
            words = " Nothing waits."
        else:
            sheet = self.sheet
            start = start_of(queue, sheet.count) if sheet else 1
            words = summary(queue.waiting, sheet, start, len(self.marked))
        self.query_one("#summary", Static).update(Content(plain(words)))

    def _show_facts(self) -> None:
        if not self.is_there:
            return
        facts, queue, sheet = self.query_one("#label-facts", Static), self.queue, self.sheet
        if queue is None:
            facts.update("")
        elif sheet is None:
            words = f"{self.sheet_fault} s chooses another sheet."
            facts.update(Content("\n".join(wrapped(words, self._facts_width))))
        else:
            width = self._facts_width
            lines = fact_lines(queue, sheet, self.choices, self.written, width)
            facts.update(content([*lines, *self._drawn_sheet(queue, sheet, len(lines))]))

    def _drawn_sheet(self, queue: LabelQueue, sheet: Sheet, above: int) -> list[Line]:
        """Where they go on the sheet, on a screen with room for it below so many lines of facts."""
        left = self.app.size.height - above - self.query_one("#label-picture").outer_size.height - 8
        if not self._is_wide or sheet.is_roll or left < max(_LEAST_SHEET, sheet.rows):
            return []
        start, labels = start_of(queue, sheet.count), total(queue.waiting)
        drawn = drawn_sheet(sheet, grid_for(sheet, (self._facts_width, left)), start, labels)
        return [[], *drawn, [], [(LEGEND, "$quiet")]]

    @property
    def _is_wide(self) -> bool:
        return self.app.size.width >= WIDE

    @property
    def _room(self) -> Room:
        """Columns and rows for the picture within its frame."""
        width, height = self.app.size
        if self._is_wide:
            return int(width * 0.52) - _FRAME, max(3, height - 18)
        return int(width * 0.55) - _FRAME, self._panel_height - _FRAME

    @property
    def _panel_height(self) -> int:
        return min(14, max(5, self.app.size.height - 12))

    @property
    def _facts_width(self) -> int:
        width = self.app.size.width
        if self._is_wide:
            return int(width * 0.52) - 2
        picture = self.query_one("#label-picture")
        return width - 2 - (picture.outer_size.width if picture.display else 0)

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        width, height = event.size
        self.query_one("#labels-body").set_class(width >= WIDE, "-wide")
        flat = width < WIDE and height < 20
        self.query_one("#labels-body").set_class(flat, "-flat")
        panel = self.query_one("#label-panel")
        panel.styles.height = "100%" if width >= WIDE else self._panel_height
        self.call_after_refresh(self.show_all)

    def _ask_for_picture(self) -> None:
        here = self.waiting_here()
        if here is not None and self.sheet is not None:
            self.wish_for(self.wish_of(here, self._room))

    def wish_of(self, waiting: Waiting, room: Room) -> Wish:
        """The picture of this label in so much room."""
        order = self.order()
        assert order is not None  # an entry comes out of a queue
        settings = order.queue.settings
        on = sheet_in_use(settings), settings.label_dpi
        key = (order.source, waiting.entry.code, waiting.design, on, order.choices, room)
        return Wish(key, lambda: order.job([waiting]), room, settings.label_dpi)

    def show_look(self, look: Look | None) -> None:
        if not self.is_there:
            return
        picture = self.query_one("#label-picture", Static)
        if look is None:
            picture.update(Content(DRAWING))
        elif look.drawn is None:
            picture.update(Content("\n".join(wrapped(f"! {look.refused}", self._room[0]))))
        else:
            lines = list(look.drawn.lines)
            more = look.drawn.left_out
            caution = "! see the warning: Enter" if look.warnings else ""
            said = caution or (f"{counted(more, 'line')} more on paper: Enter" if more else "")
            lines += [[(said, "$warning")]] if said and self._is_wide else []
            picture.update(content(lines))
        self.call_after_refresh(self._show_facts)

    @on(VirtualList.Moved)
    def _moved(self) -> None:
        self._ask_for_picture()
        self.refresh_bars()

    @on(VirtualList.Chosen)
    def _chosen(self) -> None:
        self.action_look()

    def footer_actions(self) -> tuple[Action, ...]:
        """Before a file is written how it will be; after that what to do with it."""
        names = AFTER if self.written is not None else BEFORE
        every = {a.name: a for a in (*self.seedbox.own_actions(), *self.own_actions())}
        return tuple(every[name] for name in names if self._possible(every[name]))
