"""Bringing in 10,000 rows, beside the csv module and executemany into the same tables."""

from __future__ import annotations

import csv
import random
import sqlite3
import tempfile
from contextlib import closing
from pathlib import Path

from seedbox import almanac
from seedbox.season.crops import CropBook
from seedbox.tin.exchange.carrying import carry_out
from seedbox.tin.exchange.planning import plan_import
from seedbox.tin.file import Tin
from seedbox.tin.stores import add_store
from tests.bench.timing import side_by_side
from tests.bench.tins import TODAY

ROWS = 10_000
_REACH = 3.0
_HEADER = (
    "Crop", "Variety", "Origin", "Supplier", "Harvested", "Sow by", "Seeds", "Germination %",
    "Tested on", "Treatment", "Store", "Tags", "Notes",
)  # fmt: skip


def measure() -> list[tuple[str, float, float, float]]:
    """One row: name, our seconds, bare seconds, the ratio to reach."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        source = _written(folder / "list.csv")
        ours, bare = side_by_side(
            lambda: _ours(_empty(folder), source), lambda: _bare(_empty(folder), source), runs=7
        )
    return [(f"import of {ROWS:,} rows", ours, bare, _REACH)]


def _empty(folder: Path) -> Path:
    """A tin with its stores. Making it costs both ways the same, so it is a copy of one."""
    template = folder / "template.tin"
    if not template.exists():
        with Tin.open(template, create=True) as tin:
            add_store(tin, "Cold shed", 3, 18, relative_humidity=0.6)
            add_store(tin, "Drawer", 17, 22, relative_humidity=0.5)
    for ending in ("", "-wal", "-shm"):
        (folder / f"work.tin{ending}").unlink(missing_ok=True)
    path = folder / "work.tin"
    path.write_bytes(template.read_bytes())
    return path


def _written(path: Path) -> Path:
    """A list such as a seed library keeps: every column filled as often as not."""
    rng = random.Random(11)
    crops = [crop.name("eu") for crop in almanac.crops() if almanac.find(crop.name("eu")).crop]
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow(_HEADER)
        for number in range(ROWS):
            writer.writerow(_row(rng, crops, number))
    return path


def _row(rng: random.Random, crops: list[str], number: int) -> tuple[object, ...]:
    tested = rng.random() < 0.3
    return (
        rng.choice(crops),
        f"Invented {number}",
        rng.choice(("bought", "saved", "swapped", "gift")),
        rng.choice(("Brook Lane Seeds", "own garden", "spring swap", "Fern & Daughter")),
        rng.randint(2012, 2026),
        rng.choice(("", f"{rng.randint(2024, 2030)}-12-31")),
        rng.randint(5, 400),
        rng.randint(60, 99) if tested else "",
        f"2025-{rng.randint(1, 12):02}-{rng.randint(1, 28):02}" if tested else "",
        rng.choice(("none", "none", "none", "dressed")),
        rng.choice(("Cold shed", "Drawer")),
        rng.choice(("", "early", "early, spare")),
        rng.choice(("", "", f"from plot {number}")),
    )


def _ours(path: Path, source: Path) -> int:
    with Tin.open(path) as tin:
        book = CropBook(tin.settings(), tin.own_crops())
        plan = plan_import(tin, source, resolve_crop=book.answer, today=TODAY)
        added = carry_out(tin, plan).added
    if added != ROWS:
        raise RuntimeError(f"{added} of {ROWS} rows came in")
    return added


def _bare(path: Path, source: Path) -> int:
    """No look at any cell: rows as they are, into the tables of a tin."""
    with closing(sqlite3.connect(path)) as database, source.open(newline="") as file:
        database.execute("PRAGMA foreign_keys = ON")
        reader = csv.reader(file)
        next(reader)
        rows = list(reader)
        with database:
            database.executemany(
                "INSERT INTO packet (id, code, crop_id, variety, origin, source, harvest_year,"
                " sow_by, unit, treatment, tags, note) VALUES (?,?,?,?,?,?,?,?,?,?,?,?)",
                (
                    (
                        at,
                        f"P{at:07}",
                        r[0],
                        r[1],
                        r[2],
                        r[3],
                        r[4],
                        r[5],
                        "seeds",
                        r[9],
                        r[11],
                        r[12],
                    )
                    for at, r in enumerate(rows, 1)
                ),
            )
            database.executemany(
                "INSERT INTO movement (packet_id, on_date, kind, amount) VALUES (?,?,?,?)",
                ((at, "2027-02-20", "received", r[6]) for at, r in enumerate(rows, 1)),
            )
            database.executemany(
                "INSERT INTO storage_period (packet_id, from_date, store_id) VALUES (?,?,?)",
                (
                    (at, "2027-02-20", 1 if r[10] == "Cold shed" else 2)
                    for at, r in enumerate(rows, 1)
                ),
            )
    return len(rows)
