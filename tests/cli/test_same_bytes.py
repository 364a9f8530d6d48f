"""The same tin on the same day gives the same pages, byte for byte, in any process."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from seedbox.printing.designs import designs

Type = Callable[..., Any]

PAGES = {
    "fold.pdf": "fold fold.pdf --crop leek --crop tomato --to-give --no-proof",
    "look-1.png": "fold look.png --crop leek --no-proof",
    "groups.pdf": "dividers groups.pdf",
    "months.pdf": "dividers months.pdf --by month",
    "stocktake.pdf": "stocktake Shelf --sheet stocktake.pdf",
    "swap.pdf": "swap list swap.pdf",
    "year.pdf": "year --pdf year.pdf",
    "buy.pdf": "buy --pdf buy.pdf",
    "measure.pdf": "labels calibrate measure.pdf",
    "trays.pdf": "labels trays.pdf --design tray --each cell --no-proof",
    "slips.pdf": "labels slips.pdf --design test --no-proof",
    "queue.pdf": "labels queue write queue.pdf --code rugged --no-proof",
    "preview.png": "labels preview preview.png --sheet a4-65-38x21-gap --no-proof",
    **{
        f"{name}.pdf": f"labels {name}.pdf --design {name} --sheet a4-8-99x68-gap --no-proof"
        for name in designs()
        if name not in ("divider", "test")
    },
}
# Sets and dictionaries of text are ordered otherwise in each process.
WRITE = """
import hashlib, pathlib, shlex, sys
from click.testing import CliRunner
from seedbox.cli.main import seedbox
for line in sys.stdin.read().splitlines():
    file, _, words = line.partition("|")
    said = CliRunner().invoke(seedbox, shlex.split(words), prog_name="seedbox")
    assert said.exit_code == 0, (words, said.output)
    print(file, hashlib.sha256(pathlib.Path(file).read_bytes()).hexdigest())
"""


def test_every_kind_of_page_is_the_same_from_two_processes(
    type_in: Type, plot: Any, tin_path: Path, tmp_path: Path
) -> None:
    _fill(type_in, plot)
    running = [_writing(seed, tin_path, tmp_path / seed) for seed in ("1", "2")]
    told = [_ended(process) for process in running]
    assert [line.split()[0] for line in told[0]] == list(PAGES)
    assert told[0] == told[1]


def _fill(type_in: Type, plot: Any) -> None:
    """A shelf with packets of many names, a running test, a queue."""
    type_in("store", "add", "Shelf", "--temperature", "12", "--humidity", "60")
    for variety in ("Ễnh Ương", "ריחן הגשם", "قمر الطاحونة", "Πέτρινο Πηγάδι", "Свёкла"):
        type_in("add", "leek", variety, "--seeds", "900", "--store", "Shelf", "--tag", variety)
    code = type_in("add", "tomato", "Weir Lamp", "--seeds", "300", "--json").json["code"]
    type_in("test", "start", code, "--seeds", "20", "--replicates", "2")
    type_in("labels", "queue", "add", code, *plot.sowings.values())


def _writing(seed: str, tin: Path, folder: Path) -> subprocess.Popen[str]:
    folder.mkdir()
    surroundings = {
        "PYTHONHASHSEED": seed, "SEEDBOX_TIN": str(tin), "SEEDBOX_TODAY": "2027-02-20",
    }  # fmt: skip
    process = subprocess.Popen(
        [sys.executable, "-c", WRITE],
        cwd=folder,
        env={**os.environ, **surroundings},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdin is not None
    process.stdin.write("\n".join(f"{file}|{PAGES[file]}" for file in PAGES))
    process.stdin.close()
    process.stdin = None
    return process


def _ended(process: subprocess.Popen[str]) -> list[str]:
    said, _ = process.communicate()
    assert process.returncode == 0
    return said.splitlines()
