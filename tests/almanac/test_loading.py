"""What a listing pays for: few modules, each subject only when it is asked for."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from seedbox import almanac

LISTING = """
import sys
from seedbox import almanac
for crop in almanac.crops()[:80]:
    crop.name("us"), almanac.storage_life(crop.id)
    almanac.oil_fraction(crop.id), almanac.standard(crop.id, "eu")
print(*sys.modules)
"""
HEAVY = {"statistics", "difflib", "unicodedata", "decimal", "fractions", "random", "json"}
LATER = {"names", "folding", "page", "growth", "warmth", "testing", "hazards", "overrides"}


def test_a_listing_loads_only_what_it_shows() -> None:
    done = subprocess.run(
        [sys.executable, "-c", LISTING], check=True, capture_output=True, text=True
    )
    loaded = set(done.stdout.split())
    assert not loaded & HEAVY
    assert not loaded & {f"seedbox.almanac.{name}" for name in LATER}


def test_all_that_is_offered_can_be_had_and_no_module_hides_it() -> None:
    """A module named like a function would take its place once it is loaded."""
    modules = {path.stem for path in Path(almanac.__file__).parent.glob("*.py")}
    assert not modules & set(almanac.__all__)
    for name in almanac.__all__:
        assert getattr(almanac, name) is not None
