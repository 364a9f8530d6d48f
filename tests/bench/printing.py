"""Labels from outside: every design on every sheet, bytes a label, memory at 1,000 and 10,000."""

from __future__ import annotations

import subprocess
import sys

from seedbox.printing.sheets import sheets
from tests.printing.looking import look_at_every_design

COUNTS = (1_000, 10_000)
_RUN = """
import resource, sys, time, tracemalloc
from pathlib import Path
from tempfile import TemporaryDirectory
from seedbox.printing.content import Contents, LabelJob
from seedbox.printing.designs import design
from seedbox.printing.labels import print_labels
from seedbox.printing.sheets import sheet
from tests.printing.looking import content
count, stock, traced = int(sys.argv[1]), sys.argv[2], sys.argv[3] == "traced"
def job(labels):
    return LabelJob(design("packet"), sheet(stock), Contents(range(labels), content))
with TemporaryDirectory() as folder:
    path = Path(folder) / "labels.pdf"
    print_labels(job(70), path)
    if traced:
        tracemalloc.start()
    start = time.perf_counter()
    printed = print_labels(job(count), path, proof=not traced)
    took = time.perf_counter() - start
    peak = tracemalloc.get_traced_memory()[1] / 1e6 if traced else 0.0
    resident = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e3
    assert not printed.unreadable
    print(printed.pages, took, path.stat().st_size / count, peak, resident)
"""


def print_report() -> None:
    """Looks at every design on every sheet, then measures large jobs in processes of their own."""
    _print_matrix()
    print()
    print(f"{'labels':>7} {'sheet':<17}{'pages':>6}{'s, read back':>13}{'bytes a label':>14}"
          f"{'peak MB':>9}{'resident MB':>12}")  # fmt: skip
    for stock in ("a4-65-38x21-gap", "roll-29mm"):
        for count in COUNTS:
            # A roll is one page a label: to read 10,000 pages back would take an hour.
            proofed = _measured(count, stock, "read") if stock.startswith("a4") else None
            pages, _, size, peak, _ = _measured(count, stock, "traced")
            seconds, resident = (proofed[1], proofed[4]) if proofed else (0.0, 0.0)
            print(f"{count:>7,} {stock:<17}{pages:>6.0f}{seconds:>13.1f}{size:>14.0f}{peak:>9.2f}"
                  f"{resident:>12.1f}", flush=True)  # fmt: skip


def _print_matrix() -> None:
    labels = codes = 0
    faults = []
    for stock in sheets().values():
        try:
            looked = look_at_every_design(stock)
        except AssertionError as fault:
            faults.append(f"{stock.name}: {fault}")
            continue
        labels, codes = labels + looked[0], codes + looked[1]
    print(
        f"{len(sheets())} sheets, {labels} labels of every design once, twice and rugged: {codes} "
        f"codes read at 300 dpi, words in their place; faults: {len(faults)}"
    )
    print(*faults, sep="\n", end="\n" if faults else "")


def _measured(count: int, stock: str, how: str) -> list[float]:
    done = subprocess.run(
        [sys.executable, "-c", _RUN, str(count), stock, how],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    return [float(number) for number in done.stdout.split()]
