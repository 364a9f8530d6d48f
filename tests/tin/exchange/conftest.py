"""A crop resolver of a few names, imports in one step, and a tin's contents without row ids."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from difflib import get_close_matches
from pathlib import Path
from typing import Any

import pytest

from seedbox.tin.exchange.carrying import carry_out
from seedbox.tin.exchange.planning import plan_import
from seedbox.tin.exchange.plans import ImportDone, ImportPlan
from seedbox.tin.file import Tin

_CROPS = {
    "tomato": "tomato", "tomatoes": "tomato", "bean": "bean", "runner bean": "bean_runner",
    "pea": "pea", "carrot": "carrot", "leek": "leek", "beetroot": "beetroot", "beet": "beetroot",
    "kale": "kale", "lettuce": "lettuce",
}  # fmt: skip


@dataclass(frozen=True)
class Answer:
    crop_id: str | None
    clashes: tuple[str, ...] = ()
    near: tuple[str, ...] = ()
    is_id: bool = False


@pytest.fixture(scope="session")
def resolve() -> Callable[[str], Answer]:
    def resolved(text: str) -> Answer:
        folded = text.casefold().strip()
        if folded == "marigold":
            return Answer(None, clashes=("pot marigold", "French marigold"))
        if folded in _CROPS or folded in _CROPS.values():
            return Answer(_CROPS.get(folded, folded), is_id=folded in _CROPS.values())
        return Answer(None, near=tuple(get_close_matches(folded[:40], _CROPS, 2, 0.8)))

    return resolved


@pytest.fixture(scope="session")
def new_tin(empty_tin_bytes: bytes) -> Callable[[Path], Tin]:
    """Opens an empty tin at a path, without laying one down."""

    def made(path: Path) -> Tin:
        path.write_bytes(empty_tin_bytes)
        return Tin.open(path)

    return made


@pytest.fixture
def plan(tin: Tin, resolve: Any, today: date) -> Callable[..., ImportPlan]:
    """Plans the import of a file, or of a text written to one."""

    def planned(source: Path | str, **options: Any) -> ImportPlan:
        path = source
        if isinstance(source, str):
            path = tin.path.parent / "list.csv"
            path.write_text(source, encoding="utf-8")
        return plan_import(tin, path, resolve_crop=resolve, today=today, **options)

    return planned


@pytest.fixture
def bring_in(tin: Tin, plan: Callable[..., ImportPlan]) -> Callable[..., ImportDone]:
    return lambda source, **options: carry_out(tin, plan(source, **options))


@pytest.fixture(scope="session")
def portrait() -> Callable[[Tin], dict[str, Any]]:
    """All that a tin holds, by code and name instead of row id, in the tin's own records."""

    def portrayed(tin: Tin) -> dict[str, Any]:
        codes = {packet.id: packet.code for packet in tin.packets()}
        stores = {store.id: store.name for store in tin.stores()}
        tests = {test.id: test.code for test in tin.tests(state=None)}
        places = {place.id: place.name for place in tin.places()}
        sowings = {sowing.id: sowing.code for sowing in tin.sowings()}
        packets = tin.packets()
        return {
            "stores": {replace(store, id=0) for store in tin.stores()},
            "packets": {
                (codes.get(packet.parent_id or 0), replace(packet, id=0, parent_id=None))
                for packet in packets
            },
            "left": {one.packet.code: one.left for one in tin.dossiers()},
            "journal": [
                (codes[one.packet_id], replace(one, id=0, packet_id=0))
                for packet in sorted(packets, key=lambda packet: packet.code)
                for one in tin.movements(packet.id)
            ],
            "storage": {
                (
                    codes[one.packet_id],
                    stores[one.store_id],
                    one.from_date,
                    one.sealed,
                    one.moisture,
                )
                for one in tin.storage()
            },
            "tests": {
                (codes[one.packet_id], replace(one, id=0, packet_id=0))
                for one in tin.tests(state=None)
            },
            "test_counts": {
                (tests[one.test_id], replace(one, id=0, test_id=0)) for one in tin.test_counts()
            },
            "tray_counts": sorted(
                (codes[one.packet_id], repr(replace(one, id=0, packet_id=0)))
                for one in tin.tray_counts()
            ),
            "places": {replace(place, id=0) for place in tin.places()},
            "plans": {replace(plan, id=0) for plan in tin.plans()},
            "sowings": {
                (
                    codes[one.packet_id],
                    places[one.place_id],
                    replace(one, id=0, packet_id=0, place_id=0),
                )
                for one in tin.sowings()
            },
            "sowing_events": sorted(
                (
                    sowings[one.sowing_id],
                    places.get(one.place_id or 0, ""),
                    repr(replace(one, id=0, sowing_id=0, place_id=None)),
                )
                for one in tin.sowing_events()
            ),
            "wants": {replace(want, id=0) for want in tin.wants()},
            "swap_choices": {
                (codes[one.packet_id], one.choice, one.portions) for one in tin.swap_choices()
            },
            "label_queue": [(one.code, one.design, one.copies) for one in tin.label_queue()],
            "own_crops": set(tin.own_crops()),
            "own_figures": set(tin.own_figures()),
            "settings": tin.settings(),
        }

    return portrayed
