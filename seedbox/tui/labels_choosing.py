"""The lists of sheets and designs, with what fits on what."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from seedbox.errors import SeedboxError
from seedbox.tui.columns import Column
from seedbox.tui.labels_chooser import Option, Question
from seedbox.tui.labels_job import Choices, chosen_design
from seedbox.tui.labels_rows import sheet_words

if TYPE_CHECKING:
    from seedbox.printing.designs import Design
    from seedbox.printing.sheets import Sheet

SHEETS = (
    Column("name", "Sheet", 24, most=28),
    Column("labels", "Labels", 6, right=True),
    Column("size", "Size (mm)", 13),
    Column("paper", "Paper", 9),
    Column("code", "Code", 9, most=30),
    Column("corner", "Corners", 7, from_width=90),
)
DESIGNS = (
    Column("name", "Design", 10, most=16),
    Column("code", "Code", 9, most=24),
    Column("title", "What for", 16, most=60),
)
_PAPERS = {(210.0, 297.0): "A4", (215.9, 279.4): "Letter"}
_KINDS = {"qr": "QR", "code128": "Code 128"}
_NO_ROOM = "no room"
USUAL = "usual"


@dataclass(frozen=True, slots=True)
class Fitting:
    """What decides which code has room on a label: how often it is wanted, the printer's dots."""

    choices: Choices
    dpi: int


def sheet_question(
    designs: Sequence[str], fitting: Fitting, current: str, take: Callable[[str], str]
) -> Question:
    """Asks for a sheet; beside each stands the code that its labels carry in these designs."""

    def options() -> list[Option]:
        from seedbox.printing.sheets import sheets

        made = list(_readable(dict.fromkeys(designs), fitting.choices))
        return [_sheet_option(one, made, fitting.dpi) for one in sheets().values()]

    own = "Type the whole path of your own file (mine.toml) and press Enter to use that."
    return Question("Labels · Sheet", SHEETS, options, take, current, own)


def design_question(
    what: str, sheet: Sheet, fitting: Fitting, current: str, take: Callable[[str], str]
) -> Question:
    """Asks for the design of some labels; beside each stands the code that it has on this sheet."""

    def options() -> list[Option]:
        from seedbox.printing.designs import designs

        labels = [one for one in designs().values() if one.code.printed]
        return [_usual(), *(_design_option(one, sheet, fitting) for one in labels)]

    own = "Type the whole path of your own file (mine.toml) and press Enter to use that."
    return Question(f"Labels · Design of {what}", DESIGNS, options, take, current, own)


def _readable(names: Iterable[str], choices: Choices) -> Iterator[Design]:
    """Those that can be read; what is wrong with another is said where it is printed."""
    for name in names:
        try:
            yield chosen_design(name, choices)
        except SeedboxError:
            continue


def _sheet_option(sheet: Sheet, designs: Sequence[Design], dpi: int) -> Option:
    found = {one.name: fitting_code(one, sheet, dpi) for one in designs}
    kinds = list(dict.fromkeys(found.values()))
    code = kinds[0] if len(kinds) == 1 else " / ".join(kinds)
    paper = "roll" if sheet.is_roll else _paper(sheet)
    size = f"{sheet.label_width_mm:.4g} x {sheet.label_height_mm:.4g}"
    row = (sheet.name, str(sheet.count), size, paper, code, sheet.corner)
    lacking = [name for name, code in found.items() if code == _NO_ROOM]
    words = f"{sheet.name}: {sheet_words(sheet)}, {paper}, corners {sheet.corner}."
    if lacking:
        words += f" Too small for the code of the design {' and '.join(lacking)}."
    return Option(sheet.name, row, words)


def _design_option(design: Design, sheet: Sheet, fitting: Fitting) -> Option:
    code = fitting_code(chosen_design(design.name, fitting.choices), sheet, fitting.dpi)
    fields = dict.fromkeys(name for line in design.lines for name in line.fields)
    shown = ", ".join(name.replace("_", " ") for name in fields)
    words = f"{design.title}. Shows what is known of: {shown}."
    if code == _NO_ROOM:
        words = f"Too small for it are the labels of {sheet.name}. {words}"
    return Option(design.name, (design.name, code, design.title), words)


def _usual() -> Option:
    words = "Packets, sowings and germination tests each in the design that is usual for them."
    return Option(USUAL, (USUAL, "", "What is usual for its kind"), words)


def fitting_code(design: Design, sheet: Sheet, dpi: int) -> str:
    """Which code a label of the sheet carries in this design: `QR`, `QR twice`, `no room`."""
    from seedbox.printing.layout import lay_out

    try:
        symbols = lay_out(design, sheet, dpi).symbols
    except SeedboxError:
        return _NO_ROOM
    kinds = [_KINDS[symbol.kind] for symbol in symbols]
    if len(kinds) == 2 and kinds[0] == kinds[1]:
        return f"{kinds[0]} twice"
    return " + ".join(kinds)


def _paper(sheet: Sheet) -> str:
    size = (sheet.page_width_mm, sheet.page_height_mm)
    return _PAPERS.get(size, f"{size[0]:g} x {size[1]:g}")
