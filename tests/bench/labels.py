"""How often our printed labels are read back after what befalls them outdoors; nothing is asserted.

`python -m tests.bench labels` prints the table: real labels of the designs, as dots of a printer of
203 and of 300 dpi, harmed and shot as tests.scanning.harm has it, read by the program (`find`) and
by one plain call of the reader library. The figures rank labels and readers; nothing was printed on
paper, and they are no rates from the field.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any, NamedTuple
from unittest import mock

import numpy as np
import zxingcpp

from seedbox.printing import symbols
from seedbox.printing.content import LabelJob
from seedbox.printing.designs import Design, design
from seedbox.printing.layout import with_code
from seedbox.printing.sheets import sheet
from seedbox.scanning.finding import find
from seedbox.scanning.sightings import Meaning
from seedbox.tin.codes import looks_like_code
from tests.scanning.composing import codes
from tests.scanning.harm import HARMS, Harm, shoot
from tests.scanning.printed import PrintedLabel, printed, some_labels

SHOTS = {300: 40, 203: 20}
"""So many for a printer of each dpi."""
SHEET = "a4-21-64x38-gap"
MODULE_MM = 0.42


@dataclass(frozen=True)
class Kind:
    """A label as it is printed: how often it carries its code, and the level of the QR symbol."""

    name: str
    layout: str = "once"
    level: str = "h"

    @property
    def design(self) -> Design:
        plan = design("tray")
        plan = replace(plan, code=replace(plan.code, module_mm=MODULE_MM))
        return with_code(plan, self.layout)


KINDS = (
    Kind("QR, level H"),
    Kind("QR, level L", level="l"),
    Kind("QR twice", "twice"),
    Kind("QR + Code 128", "rugged"),
)
REACH = {
    "clean": 0.99, "noise": 0.99, "rotation": 0.99, "low contrast": 0.99, "fading": 0.99,
    "curve": 0.99, "perspective": 0.95, "mud 5 %": 0.25,
}  # fmt: skip
REACH_RUGGED = {"mud 5 %": 0.90}
"""At 300 dpi, level H."""


class Tally(NamedTuple):
    """Of so many shots: read, and read as something else, by us and by the plain call."""

    ours: int = 0
    ours_wrong: int = 0
    plain: int = 0
    plain_wrong: int = 0
    seconds: float = 0.0

    def plus(self, other: Tally) -> Tally:
        return Tally(*(mine + its for mine, its in zip(self, other, strict=True)))


@lru_cache(maxsize=8)
def printed_labels(kind: Kind, dpi: int) -> list[PrintedLabel]:
    """The same labels for every harm."""
    job = LabelJob(kind.design, sheet(SHEET), some_labels(codes(SHOTS[dpi], kind="S", seed=5)))
    with _level(kind.level):
        return printed(job, dpi)


def _level(level: str) -> Any:
    """Draws QR symbols of another level than ours."""
    symbols.qr.cache_clear()
    make = symbols.segno.make

    def other(code: str, **options: Any) -> Any:
        return make(code, **{**options, "error": level})

    return mock.patch.object(symbols.segno, "make", other)


def measure(kind: Kind, harm: Harm, dpi: int) -> Tally:
    """Each label shot once, with seeds that depend on the shot's number alone."""
    total = Tally()
    for number, label in enumerate(printed_labels(kind, dpi)):
        photo = shoot(label, harm, seed=1000 * HARMS.index(harm) + number)
        total = total.plus(_read(photo, label.code))
    return total


def _read(photo: Any, code: str) -> Tally:
    start = time.perf_counter()
    ours = {each.code for each in find(photo) if each.meaning is Meaning.OURS}
    seconds = time.perf_counter() - start
    plain = {each.text for each in zxingcpp.read_barcodes(np.asarray(photo), _formats())}
    wrong = {text for text in plain if looks_like_code(text)} - {code}
    return Tally(code in ours, bool(ours - {code}), code in plain, bool(wrong), seconds)


def _formats() -> Any:
    kinds = zxingcpp.BarcodeFormat
    return zxingcpp.BarcodeFormats([kinds.QRCode, kinds.Code128])


def _reach(kind: Kind, harm: Harm, dpi: int) -> float | None:
    if dpi != 300 or kind.level != "h":
        return None
    return {**REACH, **(REACH_RUGGED if kind.layout != "once" else {})}.get(harm.name)


def print_report(kinds: Sequence[Kind] = KINDS, dpis: Sequence[int] = tuple(SHOTS)) -> None:
    """A line a harm, a pair of columns a label: read by the program, and by one plain call."""
    start = time.perf_counter()
    print("Read by the program | by one plain call of the reader, in %.")
    print("* misses its number to reach. ! read as another code. QR symbols of level L are not")
    print("mended where mud lies on their corners: the program prints none.\n")
    wrong = Tally()
    with ProcessPoolExecutor() as pool:
        for dpi in dpis:
            jobs = [(kind, harm, dpi) for harm in HARMS for kind in kinds]
            done = pool.map(measure, *zip(*jobs, strict=True))
            print(
                f"{f'{dpi} dpi, {SHOTS[dpi]} shots':18}"
                + "".join(f"{kind.name:>16}" for kind in kinds)
            )
            for harm in HARMS:
                row = [next(done) for _ in kinds]
                wrong = wrong.plus(row[0])
                for tally in row[1:]:
                    wrong = wrong.plus(tally)
                cells = [_cell(*each, harm, dpi) for each in zip(row, kinds, strict=True)]
                print(f"{harm.name:18}" + "".join(f"{cell:>16}" for cell in cells), flush=True)
            print()
    shots = sum(SHOTS[dpi] for dpi in dpis) * len(HARMS) * len(kinds)
    print(
        f"{shots} shots; misreads: {wrong.ours_wrong} by the program, {wrong.plain_wrong} by plain"
        f" calls; {1000 * wrong.seconds / shots:.0f} ms a shot by the program;"
        f" {time.perf_counter() - start:.0f} s in all."
    )


def _cell(tally: Tally, kind: Kind, harm: Harm, dpi: int) -> str:
    reach = _reach(kind, harm, dpi)
    shots = SHOTS[dpi]
    mark = "*" if reach and tally.ours < reach * shots else " "
    mark += "!" if tally.ours_wrong else " "
    return f"{100 * tally.ours / shots:.0f} | {100 * tally.plain / shots:.0f}{mark}"


if __name__ == "__main__":
    print_report()
