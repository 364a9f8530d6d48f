"""How many codes are read in photos of many labels, and how long that takes; nothing is asserted.

`python -m tests.bench scanning` prints the table. Photos are composed (see tests.scanning): the
figures rank resolutions and show what this machine needs, they are no rates from the field.
"""

from __future__ import annotations

import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from seedbox.scanning.photos import scan_photos
from tests.scanning.composing import Shot, codes, compose, labels, module_pixels


class Case(NamedTuple):
    """A photo: how many labels, in how many columns, of which size [pixels], with which module."""

    name: str
    count: int
    columns: int
    size: tuple[int, int]
    module_mm: float
    shot: Shot
    reach: float | None
    symbol: str = "qr"


FLAT, CLOSE = Shot(), Shot(fill=0.98)
HAND = Shot(tilt=15, askew=0.06, blur=1.0, grain=12, shade=0.6, fill=1)
WILD, BARS = Shot(tilt=180, fill=1), Shot(tilt=45, fill=1)
PHONE, LARGE = (4000, 3000), (8000, 6000)
CASES = (
    Case("60 labels", 60, 6, PHONE, 0.33, FLAT, 0.99),
    Case("150 labels", 150, 10, PHONE, 0.33, FLAT, 0.97),
    Case("300 labels, 0.42 mm", 300, 14, PHONE, 0.42, CLOSE, 0.95),
    Case("300 labels, 48 million pixels", 300, 14, LARGE, 0.33, FLAT, 0.95),
    Case("300 labels, 0.33 mm", 300, 14, PHONE, 0.33, CLOSE, 0.95),
    Case("60 labels, by hand", 60, 6, PHONE, 0.33, HAND, 0.99),
    Case("150 labels, by hand, 48 million", 150, 10, LARGE, 0.33, HAND, 0.97),
    Case("60 labels, every way round", 60, 8, PHONE, 0.33, WILD, 0.99),
    Case("12 labels, Code 128, level", 12, 3, PHONE, 0.25, FLAT, None, "code128"),
    Case("12 labels, Code 128, tilted", 12, 3, PHONE, 0.25, BARS, None, "code128"),
)


class Row(NamedTuple):
    """What one photo gave."""

    case: Case
    module_pixels: float
    right: int
    wrong: int
    seconds: float
    cpu_seconds: float


def measure(case: Case) -> Row:
    """Composes the photo, saves it as a phone does, and reads it from the file."""
    wanted = codes(case.count)
    sheet = "a4-21-64x38-gap" if case.symbol == "code128" else "a4-65-38x21-gap"
    pictures = labels(wanted, on=sheet, symbol=case.symbol, least_module_mm=case.module_mm)
    pixels = module_pixels(pictures, case.columns, case.size, case.shot, case.module_mm)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "photo.jpg"
        compose(pictures, case.columns, case.size, case.shot).save(path, quality=85)
        start, cpu = time.perf_counter(), time.process_time()
        scan = scan_photos([path])
        seconds, cpu = time.perf_counter() - start, time.process_time() - cpu
    seen = {each.code for each in scan.codes}
    return Row(case, pixels, len(seen & set(wanted)), len(seen - set(wanted)), seconds, cpu)


def print_report(cases: Sequence[Case] = CASES) -> None:
    """A table of all cases."""
    print(
        f"{'photo':34} {'pixels':>12} {'px/square':>9} {'read':>9} {'share':>7} {'reach':>6}"
        f" {'wrong':>5} {'s':>6} {'cpu s':>6}"
    )
    for case in cases:
        row = measure(case)
        share = row.right / case.count
        reach = f"{case.reach:.0%}" if case.reach else ""
        print(
            f"{case.name:34} {case.size[0]:>6}x{case.size[1]:<5} {row.module_pixels:9.2f}"
            f" {row.right:4}/{case.count:<4} {share:7.1%} {reach:>6} {row.wrong:5}"
            f" {row.seconds:6.1f} {row.cpu_seconds:6.1f}",
            flush=True,
        )


if __name__ == "__main__":
    print_report()
