"""The design of packets to fold, read from TOML: flaps, code, caution, and lines of type."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from pathlib import Path

from seedbox.printing.content import LabelContent
from seedbox.printing.designs import LEAST_MODULE_MM, LineStyle, line_style
from seedbox.printing.folding_net import Flaps
from seedbox.printing.styles import Style
from seedbox.printing.tables import Table, read_toml
from seedbox.resources import labels_dir

ROWS = ("Caution", "Seed", "Sow", "Depth", "Space", "Up in", "Germination", "Before", "Plant out",
        "Harvest", "Sharing")  # fmt: skip
"""What the back may tell, by heading."""
FIRST_OUT = ("Space", "Harvest", "Plant out", "Depth", "Up in", "Before", "Sow", "Germination",
             "Seed", "Sharing", "Caution")  # fmt: skip
"""What goes first where room is short: what can be looked up before what only the packet knows."""
_CAUTION = "Caution"
_MOST_LINES = 12
_BACK_STEP_PT = 0.5


@dataclass(frozen=True, slots=True)
class FoldingDesign:
    """How a packet is drawn. The code stays `from_fold_mm` off every fold, its quiet zone
    included; type on the back is from `largest_pt` down to `smallest_pt`. Where even that is too
    large, rows go in the order of `first_out`, those that are not named after them.
    """

    title: str
    flaps: Flaps
    module_mm: float
    from_fold_mm: float
    caution: Style
    front: tuple[LineStyle, ...]
    beside_code: tuple[LineStyle, ...]
    flap: tuple[LineStyle, ...]
    rows: tuple[str, ...]
    first_out: tuple[str, ...]
    largest_pt: float
    smallest_pt: float

    @property
    def back_sizes(self) -> tuple[float, ...]:
        """Sizes of type for the back, the largest first."""
        steps = int((self.largest_pt - self.smallest_pt) / _BACK_STEP_PT)
        sizes = [self.largest_pt - step * _BACK_STEP_PT for step in range(steps + 1)]
        return tuple(dict.fromkeys((*sizes, self.smallest_pt)))

    def told(self, back: Iterable[tuple[str, str]]) -> list[tuple[str, str]]:
        """The rows of a packet that this design shows, in its order; empty ones are left out."""
        words = {heading: text for heading, text in back if text}
        return [(heading, words[heading]) for heading in self.rows if heading in words]

    def shorter(self, rows: list[tuple[str, str]]) -> list[tuple[str, str]]:
        """The same rows without the one that goes first where there is no room for all."""
        headings = {heading for heading, _ in rows}
        named = (heading for heading in self.first_out if heading in headings)
        goes = next(named, rows[-1][0])
        return [row for row in rows if row[0] != goes]


def texts_of(lines: Iterable[LineStyle], content: LabelContent) -> list[str]:
    """The words of each line."""
    return [line.text(content) for line in lines]


@lru_cache(maxsize=64)
def styles_of(lines: tuple[LineStyle, ...], growth: float = 1.0) -> tuple[Style, ...]:
    """How each line is set: larger on a larger packet, whose least size stays."""
    return tuple(replace(line.style, size=growth * line.style.size) for line in lines)


def folding_design(file: str = "") -> FoldingDesign:
    """The design that came with Seedbox, or that in a person's own file (`mine.toml`)."""
    return _read(Path(file)) if file else _usual()


@cache
def _usual() -> FoldingDesign:
    return _read(labels_dir() / "folding" / "packet.toml")


def _read(path: Path) -> FoldingDesign:
    """Raises NotFoundError, or BadDataError naming file, table and field."""
    top = Table(path.name, "top of the file", read_toml(path))
    flaps, code, caution, back = (
        Table(path.name, name, top.raw(name) or {}) for name in ("flaps", "code", "caution", "back")
    )
    lines = {name: _lines(path.name, top, name) for name in ("front", "beside_code", "flap")}
    made = FoldingDesign(
        title=top.text("title", default=path.stem),
        flaps=_flaps(flaps),
        module_mm=code.number("module_mm", LEAST_MODULE_MM, 1, 0.42),
        from_fold_mm=code.number("from_fold_mm", 5, 15, 5.0),
        caution=_caution(caution),
        front=tuple(map(line_style, lines["front"])),
        beside_code=tuple(map(line_style, lines["beside_code"])),
        flap=tuple(map(line_style, lines["flap"])),
        rows=_rows(back),
        first_out=back.texts("first_out", ROWS) if back.has("first_out") else FIRST_OUT,
        largest_pt=back.number("largest_pt", 5, 30, 12.0),
        smallest_pt=back.number("smallest_pt", 4, 30, 6.0),
    )
    back.in_order("smallest_pt", made.smallest_pt, "largest_pt", made.largest_pt)
    shown = {field for line in (*made.beside_code, *made.front) for field in line.fields}
    if "code" not in shown:
        top.fault("beside_code", "the code must stand in type too: a line with the field “code”.")
    for table in (flaps, code, caution, back, *(one for group in lines.values() for one in group)):
        top.faults += table.collected()
    top.finish()
    return made


def _lines(file: str, top: Table, name: str) -> list[Table]:
    rows = top.raw(name)
    found = rows if isinstance(rows, list) else []
    if not 1 <= len(found) <= _MOST_LINES:
        top.fault(name, f"1 to {_MOST_LINES} [[{name}]] tables are needed, not {len(found)}.")
    return [Table(file, f"{name} {number}", row) for number, row in enumerate(found, start=1)]


def _flaps(table: Table) -> Flaps:
    usual = Flaps()
    return Flaps(
        top_mm=table.number("top_mm", 12, 40, usual.top_mm),
        bottom_mm=table.number("bottom_mm", 8, 40, usual.bottom_mm),
        side_mm=table.number("side_mm", 8, 25, usual.side_mm),
        taper_degrees=table.number("taper_degrees", 10, 15, usual.taper_degrees),
        narrower_mm=table.number("narrower_mm", 0.5, 1, usual.narrower_mm),
    )


def _caution(table: Table) -> Style:
    size = table.number("size_pt", 6, 40, 11.0)
    smallest = table.number("smallest_pt", 5, 40, min(size, 7.0))
    table.in_order("smallest_pt", smallest, "size_pt", size)
    return Style("semibold", size, smallest, table.whole("most_lines", 1, 8, 3), 1)


def _rows(table: Table) -> tuple[str, ...]:
    """The headings of the back; what is dangerous must not be left off."""
    found = table.texts("rows", ROWS)
    if found and _CAUTION not in found:
        table.fault("rows", f"“{_CAUTION}” must be among them.")
    return found
