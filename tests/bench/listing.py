"""`seedbox list` with forecasts against a bare script that selects the same packets and prints."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.bench.timing import Measured, side_by_side
from tests.bench.tins import TODAY, make_tin

BARE = """
import sqlite3, sys
import click

@click.command()
@click.argument("path")
def main(path):
    tin = sqlite3.connect(path)
    sql = "SELECT code, crop_id, variety, harvest_year FROM packet ORDER BY crop_id"
    for row in tin.execute(sql):
        click.echo("  ".join(map(str, row)))

main()
"""


def measure() -> list[Measured]:
    """200 packets, one in six tested; whole processes, from start to exit."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "garden.tin"
        make_tin(path, 200, tested_share=1 / 6)
        script = Path(folder) / "bare.py"
        script.write_text(BARE)
        seedbox = [sys.executable, "-m", "seedbox", "--tin", path, "--today", str(TODAY), "list"]
        ours, bare = side_by_side(
            lambda: _run(seedbox), lambda: _run([sys.executable, script, path]), runs=15
        )
    return [Measured("seedbox list, 200 packets with forecasts", ours, bare, 2.0)]


def _run(command: list[object]) -> None:
    # Without written bytecode every run would compile the house again.
    unwanted = ("SEEDBOX", "PYTHONDONTWRITEBYTECODE")
    clean = {key: value for key, value in os.environ.items() if not key.startswith(unwanted)}
    subprocess.run([str(part) for part in command], check=True, capture_output=True, env=clean)
