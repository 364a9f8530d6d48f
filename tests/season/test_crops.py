"""Names as one person uses them: own crops first, English of their choice, nothing guessed."""

from __future__ import annotations

import pytest

from seedbox.errors import NotFoundError
from seedbox.season.crops import CropBook
from seedbox.season.searching import search_key
from seedbox.tin.preferences import Settings
from seedbox.tin.records import OwnCrop

GARLIC = OwnCrop("own:garlic", "Garlic cloves")


def test_names_follow_the_chosen_english() -> None:
    assert CropBook(Settings()).name("aubergine") == "aubergine"
    assert CropBook(Settings(names="american")).name("aubergine") == "eggplant"


@pytest.mark.parametrize("typed", ["eggplant", "Aubergines", "Solanum melongena"])
def test_any_common_name_finds_the_crop(typed: str) -> None:
    assert CropBook(Settings()).crop_id(typed) == "aubergine"


def test_an_own_crop_is_found_by_its_name_and_its_id() -> None:
    book = CropBook(Settings(), [GARLIC])
    assert book.crop_id("garlic CLOVES") == book.crop_id("own:garlic") == "own:garlic"
    assert book.name("own:garlic") == "Garlic cloves"
    assert ("Garlic cloves", "own:garlic") in book.complete("clove")


def test_a_name_of_several_crops_is_offered_not_guessed() -> None:
    with pytest.raises(NotFoundError) as refused:
        CropBook(Settings()).crop_id("marigold")
    assert "pot marigold" in refused.value.hint
    assert "French marigold" in refused.value.hint


def test_a_near_miss_is_suggested() -> None:
    with pytest.raises(NotFoundError) as refused:
        CropBook(Settings()).crop_id("parsnp")
    assert "parsnip" in refused.value.hint


def test_every_name_on_offer_leads_to_one_crop() -> None:
    book = CropBook(Settings())
    for typed in ("marigold", "neep", "physalis", "bean", "squash"):
        for offered in book.answer(typed).clashes:
            assert book.answer(offered).crop_id, offered


def test_a_crop_that_nobody_knows_is_shown_by_its_id() -> None:
    book = CropBook(Settings())
    assert book.name("own:struck-out") == "own:struck-out"
    assert book.all_names("own:struck-out") == ("own:struck-out",)
    assert book.family("own:struck-out") == book.botanical_name("own:struck-out") == ""


def test_search_ignores_case_and_accents() -> None:
    assert search_key("Früher ZWERG") == search_key("fruher zwerg")
