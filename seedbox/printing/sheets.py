"""Label sheets and rolls: their geometry, read from TOML and checked to add up to the page."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from seedbox.errors import BadDataError, NotFoundError, UsageError
from seedbox.printing.content import MM, Box
from seedbox.printing.tables import Table, near_miss, read_toml
from seedbox.resources import labels_dir

PAPER_MM = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""ISO 216 A4, and ANSI/ASME Y14.1 size A (8.5 x 11 in)."""

TOLERANCE_MM = 0.05
"""How far margins, labels and gaps may miss the page: published figures are rounded."""

USUAL_CORNER_MM = 2.0
"""Radius of a round corner where the file gives none (common practice, no source)."""

_LARGEST_MM = 2000.0


@dataclass(frozen=True, slots=True)
class Sheet:
    """Geometry of one sheet [mm], measured from the page's top left. A roll is a page of one
    label; `reading` tells whether its lines run along the tape or across. `corner_mm` is the
    radius of round corners.
    """

    name: str
    page_width_mm: float
    page_height_mm: float
    columns: int
    rows: int
    label_width_mm: float
    label_height_mm: float
    left_mm: float
    top_mm: float
    column_pitch_mm: float
    row_pitch_mm: float
    corner: str
    cut_lines: bool = False
    source: str = ""
    reading: str = ""
    corner_mm: float = 0.0

    @property
    def count(self) -> int:
        """Labels on a page."""
        return self.columns * self.rows

    @property
    def is_roll(self) -> bool:
        return bool(self.reading)

    @property
    def right_mm(self) -> float:
        used = self.left_mm + (self.columns - 1) * self.column_pitch_mm + self.label_width_mm
        return self.page_width_mm - used

    @property
    def bottom_mm(self) -> float:
        used = self.top_mm + (self.rows - 1) * self.row_pitch_mm + self.label_height_mm
        return self.page_height_mm - used

    def place(self, position: int) -> Box:
        """Where label `position` (1 at top left, along the rows) lies on the page [points]."""
        row, column = divmod(position - 1, self.columns)
        down_mm = self.top_mm + row * self.row_pitch_mm + self.label_height_mm
        return Box(
            (self.left_mm + column * self.column_pitch_mm) * MM,
            (self.page_height_mm - down_mm) * MM,
            self.label_width_mm * MM,
            self.label_height_mm * MM,
        )

    def with_length(self, length_mm: float) -> Sheet:
        """The same roll with another length of tape for a label."""
        if not self.is_roll:
            raise UsageError(f"A label length is for rolls; {self.name} is a sheet.")
        if not 10 <= length_mm <= _LARGEST_MM:
            raise UsageError(f"A label of {length_mm:g} mm is out of range: 10 to 2000 mm.")
        if self.reading == "along":
            return replace(self, page_width_mm=length_mm, label_width_mm=length_mm)
        return replace(self, page_height_mm=length_mm, label_height_mm=length_mm)

    def scaled(self, scale_x: float, scale_y: float) -> Sheet:
        """The sheet as it must be drawn for a printer that makes `scale` mm of 1 mm; the page
        stays.
        """
        return self if scale_x == scale_y == 1 else _divided(self, scale_x, scale_y)


@lru_cache(maxsize=16)
def _divided(sheet: Sheet, scale_x: float, scale_y: float) -> Sheet:
    return replace(
        sheet,
        left_mm=sheet.left_mm / scale_x,
        label_width_mm=sheet.label_width_mm / scale_x,
        column_pitch_mm=sheet.column_pitch_mm / scale_x,
        top_mm=sheet.top_mm / scale_y,
        label_height_mm=sheet.label_height_mm / scale_y,
        row_pitch_mm=sheet.row_pitch_mm / scale_y,
    )


@cache
def sheets() -> dict[str, Sheet]:
    """Every sheet that came with Seedbox, by name."""
    found: dict[str, Sheet] = {}
    for path in sorted((labels_dir() / "sheets").glob("*.toml")):
        for name, one in read_sheets(path).items():
            if name in found:
                raise BadDataError(f"{path.name}, [{name}]: another file has a sheet of this name.")
            found[name] = one
    return found


def sheet(name: str) -> Sheet:
    """A sheet by name, or the sheet in a person's own file (`mine.toml`)."""
    if name.lower().endswith(".toml"):
        own = read_sheets(Path(name))
        if len(own) > 1:
            raise UsageError(f"{name} holds several sheets: {', '.join(own)}. Leave one in it.")
        return next(iter(own.values()))
    known = sheets()
    if name not in known:
        hint = near_miss(name, set(known)).strip() or f"There are: {', '.join(known)}."
        raise NotFoundError(f"There is no label sheet “{name}”.", hint=hint)
    return known[name]


def read_sheets(path: Path) -> dict[str, Sheet]:
    """The sheets of one TOML file; raises BadDataError naming file, table and field."""
    tables = read_toml(path)
    if not tables:
        raise BadDataError(f"{path.name} holds no sheet.")
    return {name: _sheet(path.name, name, data) for name, data in tables.items()}


def _sheet(file: str, name: str, data: Any) -> Sheet:
    table = Table(file, name, data)
    made = _roll(table) if table.has("roll_width_mm") else _paper_sheet(table)
    table.finish()
    return made


def _roll(table: Table) -> Sheet:
    width = table.number("roll_width_mm", 6, 300)
    length = table.number("length_mm", 10, _LARGEST_MM)
    reading = table.text("reading", ("along", "across"), "across")
    across, down = (length, width) if reading == "along" else (width, length)
    return Sheet(
        name=table.name,
        page_width_mm=across,
        page_height_mm=down,
        columns=1,
        rows=1,
        label_width_mm=across,
        label_height_mm=down,
        left_mm=0.0,
        top_mm=0.0,
        column_pitch_mm=across,
        row_pitch_mm=down,
        corner="none",
        source=table.text("source", default=""),
        reading=reading,
    )


def _paper_sheet(table: Table) -> Sheet:
    page_width, page_height = _paper(table)
    corner = table.text("corner", ("round", "square", "none"), "square")
    width = table.number("label_width_mm", 5, _LARGEST_MM)
    height = table.number("label_height_mm", 5, _LARGEST_MM)
    made = Sheet(
        name=table.name,
        page_width_mm=page_width,
        page_height_mm=page_height,
        columns=table.whole("columns", 1, 200),
        rows=table.whole("rows", 1, 400),
        label_width_mm=width,
        label_height_mm=height,
        left_mm=table.number("left_mm", 0, _LARGEST_MM),
        top_mm=table.number("top_mm", 0, _LARGEST_MM),
        column_pitch_mm=table.number("column_pitch_mm", 0, _LARGEST_MM, width),
        row_pitch_mm=table.number("row_pitch_mm", 0, _LARGEST_MM, height),
        corner=corner,
        cut_lines=table.yes("cut_lines", False),
        source=table.text("source", default=""),
        corner_mm=_radius(table, corner),
    )
    ways = (
        ("right_mm", "column_pitch_mm", "label_width_mm", "wide", made.right_mm, page_width),
        ("bottom_mm", "row_pitch_mm", "label_height_mm", "high", made.bottom_mm, page_height),
    )
    for rest_field, pitch_field, size_field, way, rest, page in ways:
        _check_sum(table, rest_field, way, rest, page)
        if getattr(made, pitch_field) < getattr(made, size_field) - TOLERANCE_MM:
            table.fault(pitch_field, f"is smaller than {size_field}: the labels would overlap.")
    return made


def _radius(table: Table, corner: str) -> float:
    if corner == "round":
        return table.number("corner_mm", 0, 20, USUAL_CORNER_MM)
    if table.has("corner_mm"):
        table.fault("corner_mm", f"is for round corners, and corner is “{corner}”.")
        table.raw("corner_mm")
    return 0.0


def _paper(table: Table) -> tuple[float, float]:
    if table.has("page"):
        return PAPER_MM[table.text("page", tuple(PAPER_MM))]
    return (
        table.number("page_width_mm", 10, _LARGEST_MM),
        table.number("page_height_mm", 10, _LARGEST_MM),
    )


def _check_sum(table: Table, field: str, way: str, rest: float, page: float) -> None:
    """What is left of the page must not be less than nothing, and must be what the file says."""
    if table.faults:
        return
    stated = table.number(field, 0, _LARGEST_MM, max(rest, 0.0))
    if abs(stated - rest) > TOLERANCE_MM:
        table.fault(
            field,
            f"the labels do not add up to the page, which is {page:g} mm {way}: "
            f"{rest:.2f} mm would be left, not {stated:g}.",
        )
