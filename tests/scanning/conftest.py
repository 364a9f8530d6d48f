"""Photos of a tin's own labels, and the tin that they belong to."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from seedbox.cli.main import seedbox
from seedbox.tin.drafts import PacketDraft
from seedbox.tin.file import Tin
from seedbox.tin.packets import add_packets
from seedbox.tin.records import Unit
from seedbox.tin.stores import add_store
from tests.scanning.composing import Shot, codes, compose, labels

TODAY = date(2027, 2, 20)
EASY = Shot(tilt=4, askew=0.02, blur=0.6, grain=6)
CODES = codes(12)
EAN = "2001234567893"
"""A number of the range that GS1 leaves to each shop's own use, so nobody's product."""


@pytest.fixture(scope="session")
def shoot() -> Callable[..., Any]:
    """Makes a photo of labels that carry the given codes."""

    def shoot(wanted: Sequence[str], columns: int = 4, size: tuple[int, int] = (1600, 1200),
              shot: Shot = EASY, **printed: Any) -> Any:  # fmt: skip
        return compose(labels(wanted, **printed), columns, size, shot)

    return shoot


@pytest.fixture(scope="session")
def photo(shoot: Callable[..., Any], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Nine of the tin's packets as a JPEG, in three rows."""
    path = tmp_path_factory.mktemp("photos") / "tin.jpg"
    shoot(CODES[:9], 3, (1400, 1050)).save(path, quality=85)
    return path


@pytest.fixture
def tin_path(tmp_path: Path) -> Path:
    return tmp_path / "garden.tin"


@pytest.fixture
def tin(tin_path: Path) -> Iterator[Tin]:
    """Ten packets: six in the drawer, two in the shed, one in no store, one in the drawer but
    empty; their codes are the first ten of CODES.
    """
    with Tin.open(tin_path, create=True, now=lambda: datetime(2027, 2, 20, 12)) as tin:
        climate = {"coolest_c": 8.0, "warmest_c": 20.0, "relative_humidity": 0.5}
        drawer, shed = (add_store(tin, name, **climate) for name in ("drawer", "shed"))
        stores = [drawer.id] * 6 + [shed.id] * 2 + [None, drawer.id]
        drafts = [
            PacketDraft(
                crop_id="leek",
                variety=f"Long Hill {number}",
                harvest_year=2025,
                amount=0 if number == 9 else 40,
                unit=Unit.SEEDS,
                store_id=store,
                stored_from=date(2026, 10, 1) if store else None,
                code=CODES[number],
                ean=EAN if number == 3 else "",
            )
            for number, store in enumerate(stores)
        ]
        add_packets(tin, drafts, today=TODAY)
        yield tin


@pytest.fixture
def run(tin: Tin, tin_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Result]:
    """Types `seedbox …` on that tin."""
    monkeypatch.setenv("SEEDBOX_TIN", str(tin_path))
    monkeypatch.setenv("SEEDBOX_TODAY", TODAY.isoformat())

    def run(*words: object, code: int | None = 0, typed: str = "") -> Result:
        done = CliRunner().invoke(seedbox, list(map(str, words)), input=typed, prog_name="seedbox")
        assert code is None or done.exit_code == code, f"{words}: {done.output}"
        assert "Traceback" not in done.output
        return done

    return run
