"""How the tests of the command line type a command and read what comes back."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from seedbox.cli.main import seedbox

TODAY = "2027-02-20"


@dataclass(frozen=True)
class Said:
    """What one command printed, and how it ended."""

    out: str
    err: str
    code: int

    @property
    def json(self) -> Any:
        return json.loads(self.out)

    @property
    def lines(self) -> list[str]:
        return self.out.splitlines()


Type = Callable[..., Said]


@pytest.fixture
def tin_path(tmp_path: Path) -> Path:
    return tmp_path / "garden.tin"


@pytest.fixture
def type_in(tin_path: Path, monkeypatch: pytest.MonkeyPatch) -> Type:
    """Types `seedbox …` on the test's own tin, on a fixed day; says the command if it failed."""
    monkeypatch.setenv("SEEDBOX_TIN", str(tin_path))
    monkeypatch.setenv("SEEDBOX_TODAY", TODAY)
    monkeypatch.delenv("SEEDBOX_TRACEBACK", raising=False)
    runner = CliRunner()

    def type_in(*words: str, code: int | None = 0) -> Said:
        result = runner.invoke(seedbox, words, prog_name="seedbox")
        said = Said(result.stdout, result.stderr, result.exit_code)
        assert code is None or said.code == code, f"{words}: {said}"
        assert "Traceback" not in said.err
        return said

    return type_in


@pytest.fixture
def code_of(type_in: Type) -> Callable[..., str]:
    """Adds a packet and gives its code back."""

    def add(*words: str) -> str:
        return str(type_in("add", *words, "--json").json["code"])

    return add


@dataclass(frozen=True)
class Plot:
    """The codes of a garden with places, plans and three sowings: `golden/garden`."""

    packets: dict[str, str]
    sowings: dict[str, str]


@pytest.fixture
def plot(type_in: Type) -> Plot:
    """A described garden: 25 April to 25 October, 52 N, a windowsill, a cold greenhouse, a bed."""
    type_in("import", str(Path(__file__).parent / "golden" / "garden"))
    packets = {one["crop"]: one["code"] for one in type_in("list", "--json").json}
    sowings = {one["crop"]: one["code"] for one in type_in("sowings", "--all", "--json").json}
    return Plot(packets, sowings)
