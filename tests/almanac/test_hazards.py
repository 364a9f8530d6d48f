"""Cautions, also for crops that a person names themselves."""

from __future__ import annotations

import pytest

from seedbox import almanac


@pytest.mark.parametrize(
    ("crop_id", "words"),
    [
        ("castor_bean", "ricin"),  # Marin and Peterborough master gardeners' lists
        ("foxglove", "cardiac glycosides"),  # Marin master gardeners' list
        ("bean_french_dwarf", "boil"),  # US FDA, quoted by Ohio State University
        ("bean_runner", "phytohaemagglutinin"),  # the same
        ("delphinium", "alkaloids"),  # a garden-design list
    ],
)
def test_cautions_of_known_crops(crop_id: str, words: str) -> None:
    assert any(words in caution.hazard for caution in almanac.cautions(crop_id))


def test_a_part_that_is_from_memory_is_marked_so() -> None:
    """Only tomato was read in a list; the aubergine's leaves are from memory."""
    assert almanac.cautions("tomato")[0].mark is almanac.Mark.SEEN
    assert almanac.cautions("aubergine")[0].mark is almanac.Mark.MEMORY


def test_harmless_ones_have_none() -> None:
    assert almanac.cautions("lettuce") == ()
    assert almanac.cautions_by_name("lettuce") == ()
    assert almanac.cautions_by_name("") == ()
    assert almanac.cautions("own:oca") == ()


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("Datura", "tropane"),
        ("angel’s trumpets", "tropane"),
        ("blue monkshood", "aconitine"),
        ("Aconitum napellus", "aconitine"),
        ("White foxgloves", "cardiac"),
        ("kidney", ""),
    ],
)
def test_own_crops_are_warned_of_by_name(name: str, words: str) -> None:
    hazards = [caution.hazard for caution in almanac.cautions_by_name(name)]
    assert any(words in hazard for hazard in hazards) if words else hazards == []
