"""The simulated harm is what it says; printed labels stand it: a small part of the bench."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import zxingcpp

from seedbox.printing.content import LabelJob
from seedbox.printing.designs import design
from seedbox.printing.layout import with_code
from seedbox.printing.sheets import sheet
from seedbox.scanning.finding import find
from seedbox.scanning.sightings import Meaning
from tests.scanning import harm
from tests.scanning.composing import codes
from tests.scanning.harm import HARMS, shoot
from tests.scanning.printed import PrintedLabel, printed, some_labels

BY_NAME = {each.name: each for each in HARMS}
MANY = 5


@pytest.fixture(scope="module")
def labels() -> dict[str, list[PrintedLabel]]:
    made = {}
    for layout in ("once", "rugged"):
        plan = with_code(design("tray"), layout)
        plan = replace(plan, code=replace(plan.code, module_mm=0.42))
        job = LabelJob(plan, sheet("a4-21-64x38-gap"), some_labels(codes(MANY, kind="S")))
        made[layout] = printed(job, 300)
    return made


def test_symbols_lie_where_they_are_said_to_lie(labels: dict[str, list[PrintedLabel]]):
    """Their outermost modules are dark (ISO/IEC 18004, 15417), the dots before them white."""
    for left, top, right, bottom in labels["rugged"][0].symbols:
        dots = labels["rugged"][0].dots
        assert dots[top:bottom, left : left + 2].mean() > 0.4
        assert not dots[top + 2 : bottom - 2, left - 6 : left - 2].any()
        assert dots[(top + bottom) // 2 - 3 : (top + bottom) // 2 + 3, right - 5 : right].any()


@pytest.mark.parametrize("share", [0.05, 0.15])
def test_mud_covers_so_much_of_the_symbols(labels: dict[str, list[PrintedLabel]], share: float):
    for label in labels["rugged"]:
        symbols = np.zeros(label.dots.shape, bool)
        for left, top, right, bottom in label.symbols:
            symbols[top:bottom, left:right] = True
        face = np.full(label.dots.shape, harm.PAPER).repeat(2, 0).repeat(2, 1)
        muddy = harm._muddy(face, label, share, np.random.default_rng(3)) < 180
        covered = muddy[::2, ::2][symbols].mean()
        assert share - 0.01 < covered < share + 0.06  # the last splash falls whole


def test_the_same_seed_gives_the_same_photo(labels: dict[str, list[PrintedLabel]]):
    for each in (BY_NAME["curve"], BY_NAME["mud 10 %"]):
        one, two, other = (shoot(labels["once"][0], each, seed) for seed in (1, 1, 2))
        assert one.tobytes() == two.tobytes() != other.tobytes()


@pytest.mark.parametrize("name", ["clean", "noise", "fading", "curve", "perspective", "mud 5 %"])
def test_single_codes_are_read_after_harm(labels: dict[str, list[PrintedLabel]], name: str):
    """Of few shots all but one: the shares over many are printed by the bench."""
    read = alone = 0
    for number, label in enumerate(labels["once"]):
        photo = shoot(label, BY_NAME[name], 100 + number)
        ours = {each.code for each in find(photo) if each.meaning is Meaning.OURS}
        assert ours <= {label.code}
        read += label.code in ours
        alone += label.code in {each.text for each in zxingcpp.read_barcodes(np.asarray(photo))}
    assert read >= MANY - 1
    if name.startswith("mud"):
        assert alone < read, "or mending shows nothing"
