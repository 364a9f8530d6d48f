"""Label designs: which fields stand in which order, at what sizes, beside which code."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from seedbox.errors import NotFoundError
from seedbox.printing.content import FIELDS, LabelContent
from seedbox.printing.styles import WEIGHTS, Style
from seedbox.printing.tables import Table, near_miss, read_toml
from seedbox.resources import labels_dir

LEAST_MODULE_MM = 0.25
"""Below this, printers and readers fail too often (measured in simulated photos)."""

_SYMBOLS = ("qr", "code128", "both", "any", "none")
LAYOUTS = ("once", "twice", "rugged")
"""How often the code stands on a label: rugged is a QR code with a tall Code 128 where the label
carries both, else the QR code twice."""
_MOST_LINES = 12


@dataclass(frozen=True, slots=True)
class CodeStyle:
    """How the code is drawn. Modules [mm] are wishes: smaller ones down to `smallest_module_mm`
    are used where the label is small.
    """

    symbol: str
    layout: str
    place: str
    module_mm: float
    large_module_mm: float
    stake_module_mm: float
    smallest_module_mm: float
    bar_mm: float
    bar_height_mm: float
    type_pt: float
    smallest_type_pt: float

    @property
    def printed(self) -> bool:
        """Whether there is a code at all: cards that part packets have none."""
        return self.symbol != "none"


@dataclass(frozen=True, slots=True)
class LineStyle:
    """One line: the fields it shows, what stands between and before them, and its type. A line
    of which no field may be missing says in `if_empty` what to do about it.
    """

    fields: tuple[str, ...]
    between: str
    before: str
    style: Style
    if_empty: str = ""

    def text(self, content: LabelContent) -> str:
        """The words of this line; empty when the label has none of its fields."""
        parts = [part for part in map(content.text, self.fields) if part]
        return self.before + self.between.join(parts) if parts else ""

    def missing(self, content: LabelContent) -> tuple[str, ...]:
        """Its fields of which the label has none."""
        return tuple(field for field in self.fields if not content.text(field))


@dataclass(frozen=True, slots=True)
class Design:
    """A label design. Type grows up to `most_growth` times on large labels; on a stake text
    stays in the top `above_ground` of its length. `pencil_mm` is kept free at the foot of the
    words; `tab_mm` is the height of a card's head, which holds the first line alone.
    """

    name: str
    title: str
    code: CodeStyle
    lines: tuple[LineStyle, ...]
    margin_mm: float
    most_growth: float
    above_ground: float
    pencil_mm: float = 0.0
    tab_mm: float = 0.0


@cache
def designs() -> dict[str, Design]:
    """Every design that came with Seedbox, by name."""
    files = sorted((labels_dir() / "designs").glob("*.toml"))
    return {path.stem: read_design(path) for path in files}


def design(name: str) -> Design:
    """A design by name, or from a person's own file (`mine.toml`)."""
    if name.lower().endswith(".toml"):
        return read_design(Path(name))
    known = designs()
    if name not in known:
        hint = near_miss(name, set(known)).strip() or f"There are: {', '.join(known)}."
        raise NotFoundError(f"There is no label design “{name}”.", hint=hint)
    return known[name]


def read_design(path: Path) -> Design:
    """The design in a TOML file; raises BadDataError naming file, table and field."""
    data = read_toml(path)
    top = Table(path.name, "top of the file", data)
    code = Table(path.name, "code", top.raw("code") or {})
    rows = top.raw("line")
    lines = [
        Table(path.name, f"line {number}", row)
        for number, row in enumerate(rows if isinstance(rows, list) else [], start=1)
    ]
    if not 1 <= len(lines) <= _MOST_LINES:
        top.fault("line", f"1 to {_MOST_LINES} [[line]] tables are needed, not {len(lines)}.")
    made = Design(
        name=path.stem,
        title=top.text("title", default=path.stem),
        code=_code_style(code),
        lines=tuple(map(line_style, lines)),
        margin_mm=top.number("margin_mm", 0, 20, 1.5),
        most_growth=top.number("most_growth", 1, 5, 2.0),
        above_ground=top.number("above_ground", 0.2, 1, 0.6),
        pencil_mm=top.number("pencil_mm", 0, 40, 0.0),
        tab_mm=top.number("tab_mm", 0, 80, 0.0),
    )
    if made.tab_mm and made.code.printed:
        top.fault("tab_mm", 'a card with a head carries no code: [code] needs symbol = "none".')
    if made.code.layout != "once" and made.code.symbol == "code128":
        code.fault("layout", f"“{made.code.layout}” needs a QR code: symbol is “code128”.")
    for table in (code, *lines):
        top.faults += table.collected()
    top.finish()
    return made


def _code_style(table: Table) -> CodeStyle:
    smallest = table.number("smallest_module_mm", LEAST_MODULE_MM, 2, LEAST_MODULE_MM)
    wish = table.number("module_mm", smallest, 3, max(0.33, smallest))
    return CodeStyle(
        symbol=table.text("symbol", _SYMBOLS, "any"),
        layout=table.text("layout", LAYOUTS, "once"),
        place=table.text("place", ("left", "right"), "left"),
        module_mm=wish,
        large_module_mm=table.number("large_module_mm", smallest, 3, wish),
        stake_module_mm=table.number("stake_module_mm", smallest, 3, wish),
        smallest_module_mm=smallest,
        bar_mm=table.number("bar_mm", LEAST_MODULE_MM, 2, LEAST_MODULE_MM),
        bar_height_mm=table.number("bar_height_mm", 5, 50, 8.0),
        type_pt=table.number("type_pt", 4, 72, 7.0),
        smallest_type_pt=table.number("smallest_type_pt", 4, 72, 5.0),
    )


def line_style(table: Table) -> LineStyle:
    """One line of a design; what is wrong with it is gathered in the table."""
    size: Any = table.number("size_pt", 4, 72)
    smallest = table.number("smallest_pt", 4, 72, min(size, 5.0))
    table.in_order("smallest_pt", smallest, "size_pt", size)
    return LineStyle(
        fields=table.texts("fields", FIELDS),
        between=table.text("between", default=" · "),
        before=table.text("before", default=""),
        style=Style(
            weight=table.text("weight", WEIGHTS, "regular"),
            size=size,
            smallest=smallest,
            most_lines=table.whole("most_lines", 1, 20, 1),
            keep=table.whole("keep", 1, 99, 50),
            whole=table.yes("whole", False),
        ),
        if_empty=table.text("if_empty", default=""),
    )
