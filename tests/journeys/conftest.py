"""Whole runs: the real program in a process of its own, as a person or a script starts it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

PROGRAM = (sys.executable, "-m", "seedbox")


@dataclass(frozen=True)
class Ran:
    """Bytes decoded as UTF-8: that is what is promised whatever the locale says."""

    out: str
    err: str
    code: int

    @property
    def json(self) -> Any:
        return json.loads(self.out)


Run = Callable[..., Ran]


@pytest.fixture
def tin_path(tmp_path: Path) -> Path:
    return tmp_path / "garden.tin"


@pytest.fixture
def surroundings(tin_path: Path) -> dict[str, str]:
    """The environment of a run: the test's own tin, a fixed day, nothing of this machine's own."""
    kept = {name: os.environ[name] for name in ("PATH", "HOME", "LANG") if name in os.environ}
    return kept | {"SEEDBOX_TIN": str(tin_path), "SEEDBOX_TODAY": "2027-02-20"}


@pytest.fixture
def run(surroundings: dict[str, str], tmp_path: Path) -> Run:
    """Runs `seedbox …` to its end. No run may show a traceback."""

    def run(*words: str, code: int | None = 0, env: dict[str, str] | None = None) -> Ran:
        done = subprocess.run(
            [*PROGRAM, *words], capture_output=True, timeout=60, cwd=tmp_path, check=False,
            env=surroundings | (env or {}), stdin=subprocess.DEVNULL,
        )  # fmt: skip
        ran = Ran(done.stdout.decode("utf-8"), done.stderr.decode("utf-8"), done.returncode)
        assert "Traceback" not in ran.err, ran.err
        assert code is None or ran.code == code, (words, ran)
        return ran

    return run
