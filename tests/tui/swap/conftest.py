"""A tin with seed to spare, and lists of two invented neighbours."""

from __future__ import annotations

import random
from collections.abc import Callable
from contextlib import asynccontextmanager
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from seedbox.season.sowing.garden import set_garden
from seedbox.tin.file import Tin
from seedbox.tin.packets import PacketDraft, add_packets
from seedbox.tin.plans import set_plan
from seedbox.tin.records import Origin, Treatment, Unit
from seedbox.tin.stores import add_store
from seedbox.tin.tests import record_test
from seedbox.tin.wants import add_want

MARKUP = "[red]x[/]"
MAUD = """\
what,crop,variety,portions,worth,grower,town,seeds_per_portion,tested_on,tested_seeds,\
tested_germinated,cautions
offer,pea,Quay Marrow,3,,Maud Hollis,Hobbin Beck,80,2026-02-01,20,18,
offer,leek,Long Acre,2,,,,60,,,,"=HYPERLINK(""x"") \x1b[31m[b]bold[/b]"
offer,Mystery root [@click=app.quit]go[/],,1,,,,,,,,
offer,carrot,Stray,many,,,,,,,,
want,kale,,2,5,,,,,,,
want,tomato,,9999999,4,,,,,,,
"""
IESTYN = """\
what,crop,variety,portions,worth,grower
offer,courgette,Night Boat,2,,Iestyn Prys
want,pea,,2,4,
want,tomato,,1,3,
"""


@pytest.fixture
def swap_path(tmp_path: Path, today: date) -> Path:
    """Seed to spare of two kinds, dressed seed that is held back, too few peas, a spent leek."""
    path = tmp_path / "swap.tin"
    when = datetime(2026, 3, 1, 9, 30, tzinfo=UTC)
    with Tin.open(path, create=True, now=lambda: when, rng=random.Random(3)) as tin:
        jar = add_store(tin, "jar in the fridge", 5, sealed=True, sealed_moisture=6)
        kept = {"store_id": jar.id, "unit": Unit.SEEDS, "origin": Origin.BOUGHT}
        drafts = [
            PacketDraft("tomato", "Copper Bell", harvest_year=2025, amount=400,
                        source="Moorhen Seeds", note="behind the jam", **kept),
            PacketDraft("kale", MARKUP, harvest_year=2026, amount=900, **kept),
            PacketDraft("lettuce", "Früher Zwerg", harvest_year=2026, amount=2000,
                        treatment=Treatment.DRESSED, **kept),
            PacketDraft("leek", "Long Acre", harvest_year=2004, amount=50, **kept),
            PacketDraft("pea_garden", "白玉", harvest_year=2026, amount=9, **kept),
        ]  # fmt: skip
        add_packets(tin, drafts, today=today)
        tomato = next(one for one in tin.packets() if one.crop_id == "tomato")
        record_test(tin, tomato, date(2026, 2, 1), 20, 19, today=today, take_from_packet=False)
        add_want(tin, "pea_garden", portions=2, worth=5, note="for the arch")
        add_want(tin, "courgette", variety="Night Boat", portions=1)
    return path


@pytest.fixture
def garden_swap_path(swap_path: Path) -> Path:
    """The same in a garden whose plan misses courgettes."""
    with Tin.open(swap_path) as tin:
        set_garden(tin, last_spring_frost="04-25", first_autumn_frost="10-25", latitude="52",
                   name="Otter Lane")  # fmt: skip
        set_plan(tin, "courgette", 4)
        set_plan(tin, "pea_garden", 60)
    return swap_path


@pytest.fixture
def lists(tmp_path: Path) -> Path:
    """A folder with the lists of both, and a file that is none."""
    folder = tmp_path / "lists"
    folder.mkdir()
    (folder / "maud.csv").write_text(MAUD, encoding="utf-8")
    (folder / "iestyn.csv").write_text(IESTYN, encoding="utf-8")
    (folder / "bare.csv").write_text("colour,size\nred,3\n", encoding="utf-8")
    return folder


@pytest.fixture
def packet_of() -> Callable[[Path, str], object]:
    """The only packet of a crop in a tin."""

    def found(path: Path, crop_id: str) -> object:
        with Tin.open(path) as tin:
            return next(one for one in tin.packets() if one.crop_id == crop_id)

    return found


@pytest.fixture
def open_swap(open_screen):
    """The program with its Swap tab open, everything reckoned."""

    @asynccontextmanager
    async def opened(path: Path, size: tuple[int, int] = (80, 24)):
        async with open_screen(path, size) as screen:
            screen.app.action_show_tab("Swap")
            await screen.settle()
            yield screen

    return opened


@pytest.fixture
def read_lists():
    """Has the screen read files by the form of the Swap tab."""

    async def read(screen, *paths: Path) -> None:
        await screen.press("r")
        screen.app.screen.query_one("#field-files").value = ";".join(map(str, paths))
        await screen.press("ctrl+s")

    return read
