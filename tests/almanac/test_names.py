"""Any common name finds its crop; a name of several plants is offered, never guessed."""

from __future__ import annotations

import re
from collections import defaultdict

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from seedbox import almanac
from seedbox.almanac.folding import keys
from seedbox.almanac.names import shared_names
from seedbox.errors import NotFoundError

CROPS = almanac.crops()

# What growers type, and the crop they mean. British, American and botanical names, from memory.
TYPED = {
    "eggplant": "aubergine",
    "Aubergines": "aubergine",
    "brinjal": "aubergine",
    "fava": "bean_broad",
    "Fava beans": "bean_broad",
    "BROAD BEAN": "bean_broad",
    "bean, broad": "bean_broad",
    "dwarf french bean": "bean_french_dwarf",
    "French bean, dwarf": "bean_french_dwarf",
    "Bean - French - Dwarf": "bean_french_dwarf",
    "pole beans": "bean_french_climbing",
    "runner beans": "bean_runner",
    "courgettes": "courgette",
    "zucchini": "courgette",
    "zucchinis": "courgette",
    "romaine": "lettuce",
    "cos": "lettuce",
    "Lettuce, cos": "lettuce",
    "arugula": "rocket",
    "rocket": "rocket",
    "rutabaga": "swede",
    "swede": "swede",
    "turnips": "turnip",
    "corn": "sweet_corn",
    "Sweet-Corn": "sweet_corn",
    "sweetcorn": "sweet_corn",
    "mange-tout": "pea_mangetout",
    "sugar snap": "pea_mangetout",
    "snow peas": "pea_mangetout",
    "pea": "pea_garden",
    "cilantro": "coriander",
    "scallions": "onion_spring",
    "spring onions": "onion_spring",
    "beet": "beetroot",
    "Beets": "beetroot",
    "tomatoes": "tomato",
    "radishes": "radish",
    "daikon": "radish_winter",
    "bok choi": "pak_choi",
    "Pak-Choi": "pak_choi",
    "mâche": "corn_salad",
    "MACHE": "corn_salad",
    "lambs lettuce": "corn_salad",
    "lamb’s lettuce": "corn_salad",
    "frisée": "endive",
    "Petunia × hybrida": "petunia",
    "Solanum melongena": "aubergine",
    "busy lizzies": "impatiens",
    "Brussel sprouts": "brussels_sprouts",
    "cabbage": "cabbage",
    "onion": "onion_bulb",
    "kale": "kale",
    "spinach": "spinach",
    "lettuce": "lettuce",
    "radish": "radish",
    "water melon": "watermelon",
    "bean_runner": "bean_runner",
    "swede/rutabaga": "swede",
    "aubergine (eggplant)": "aubergine",
    "fennel (herb fennel)": "fennel_herb",
    "Carrot seeds": "carrot",
    "carrot/parsnip": "",
    "heirloom carrot": "",
}


@pytest.mark.parametrize(("typed", "crop_id"), TYPED.items())
def test_what_growers_type(typed: str, crop_id: str) -> None:
    found = almanac.find(typed)
    assert (found.crop.id if found.crop else "") == crop_id
    assert not found.clashes


# Names that mean different plants to different growers; general knowledge, no single source.
CLASHES = {
    "neep": {"swede", "turnip"},
    "neeps": {"swede", "turnip"},
    "physalis": {"cape_gooseberry", "ground_cherry", "tomatillo"},
    "geranium": {"pelargonium"},
    "marigold": {"calendula", "marigold_african", "marigold_french", "marigold_signet"},
    "nasturtium": {"nasturtium", "watercress"},
    "chicory": {"chicory_witloof", "radicchio", "endive", "escarole"},
    "ground cherry": {"cape_gooseberry", "ground_cherry"},
    "Black-eyed Susan": {"rudbeckia", "thunbergia"},
    "bachelor's buttons": {"cornflower", "gomphrena"},
    "squash": {"squash_winter", "courgette", "squash_patty_pan", "pumpkin"},
    "french beans": {"bean_french_dwarf", "bean_french_climbing"},
    "coneflower": {"echinacea", "rudbeckia"},
    "pepper": {"pepper_sweet", "pepper_chilli"},
    "fennel": {"fennel_florence", "fennel_herb"},
    "Brassica oleracea (Italica Group)": {"broccoli_calabrese", "broccoli_purple_sprouting"},
}


@pytest.mark.parametrize(("typed", "crop_ids"), CLASHES.items())
def test_names_of_several_plants_are_offered(typed: str, crop_ids: set[str]) -> None:
    found = almanac.find(typed)
    assert found.crop is None
    assert {crop.id for crop in found.clashes} == crop_ids
    assert found.remark


def test_bean_offers_every_bean_of_the_almanac() -> None:
    offered = {crop.id for crop in almanac.find("beans").clashes}
    assert offered == {crop.id for crop in CROPS if crop.id.startswith("bean_")}


def test_no_two_names_lead_silently_to_one_crop() -> None:
    """A folded name borne by two crops must be declared as shared, and must offer both."""
    bearers = defaultdict(set)
    for crop in CROPS:
        for name in (*crop.all_names, crop.id):
            for key in keys(name):
                bearers[key].add(crop.id)
    declared = {key: set(s.crop_ids) for s in shared_names() for key in keys(s.name)}
    undeclared = {
        key: ids
        for key, ids in bearers.items()
        if len(ids) > 1 and not ids <= declared.get(key, set())
    }
    assert undeclared == {}


def test_declared_names_do_not_swallow_a_crop_that_is_not_offered() -> None:
    for crop in CROPS:
        for name in crop.all_names:
            found = almanac.find(name)
            assert crop in (found.crop, *found.clashes), (name, found)


def test_shared_names_are_declared_once_and_name_known_crops() -> None:
    folded = [keys(shared.name)[0] for shared in shared_names()]
    assert len(folded) == len(set(folded))
    for shared in shared_names():
        assert [almanac.crop(crop_id).id for crop_id in shared.crop_ids] == [*shared.crop_ids]


def test_ids_lead_to_their_crop_also_with_spaces() -> None:
    """Save where the id is itself a shared name, which is offered like any other."""
    for crop in CROPS:
        for text in (crop.id, crop.id.replace("_", " ")):
            found = almanac.find(text)
            assert crop in (found.crop, *found.clashes), text


def test_an_id_with_an_underscore_is_never_a_clash() -> None:
    assert almanac.find("ground_cherry").crop == almanac.crop("ground_cherry")


def test_every_crop_has_a_name_that_leads_to_it_alone() -> None:
    for region in ("eu", "us"):
        for crop in CROPS:
            assert almanac.find(almanac.sure_name(crop, region)).crop == crop


def test_main_names_differ_between_crops_in_each_region() -> None:
    """Two lines of a list must not read the same, save where a region has one word for both."""
    for region in ("eu", "us"):
        names = defaultdict(list)
        for crop in CROPS:
            names[crop.name(region).casefold()].append(crop.id)
        doubled = {tuple(ids) for ids in names.values() if len(ids) > 1}
        assert doubled <= {("cape_gooseberry", "ground_cherry")}


def test_near_misses_are_suggested() -> None:
    assert "aubergine" in {crop.id for crop in almanac.find("aubergene").near}
    assert "broccoli_calabrese" in {crop.id for crop in almanac.find("brocolli").near}
    assert "zinnia" in {crop.id for crop in almanac.find("zinia").near}
    assert almanac.find("qqqqqq") == almanac.Found()


def test_an_unknown_id_is_said_so() -> None:
    with pytest.raises(NotFoundError, match="no crop with the id “kryptonite”"):
        almanac.crop("kryptonite")


NAME_LIKE = st.lists(st.sampled_from([w for c in CROPS for n in c.all_names for w in n.split()]))


@given(st.text(max_size=300) | NAME_LIKE.map(" ".join) | NAME_LIKE.map("/".join))
@example("")
@example("\x00")
@example("'")
@example("x" * 1_000_000)
@example("ß İ ǆ ﬁ")
def test_find_never_raises_and_a_hit_bears_the_name(text: str) -> None:
    found = almanac.find(text)
    if found.crop is not None:
        names_and_id = (*found.crop.all_names, found.crop.id)
        borne = {key for name in names_and_id for key in keys(name)}
        typed = {key for part in (text, *re.split("[/()]", text)) for key in keys(part)}
        assert borne & typed
        assert not found.clashes
        assert not found.near


names = st.sampled_from([(crop, name) for crop in CROPS for name in crop.all_names])


@given(names)
def test_spelling_does_not_matter(pair: tuple[almanac.Crop, str]) -> None:
    crop, name = pair
    for variant in (name.upper(), f"  {name} ", name.replace(" ", "-"), name.replace("'", "’")):
        found = almanac.find(variant)
        assert crop in (found.crop, *found.clashes)


@given(names)
def test_a_completed_name_is_found_again(pair: tuple[almanac.Crop, str]) -> None:
    _, name = pair
    for shown, crop in almanac.complete(name, limit=20):
        assert almanac.find(shown).crop == crop


@given(names)
def test_completion_offers_what_was_typed_in_full(pair: tuple[almanac.Crop, str]) -> None:
    crop, name = pair
    assert crop in [each for _, each in almanac.complete(name, limit=20)]


def test_completion_by_beginnings() -> None:
    assert almanac.complete("egg", 3)[0][1].id == "aubergine"
    assert {crop.id for _, crop in almanac.complete("marigold", 9)} >= {
        "calendula",
        "marigold_french",
    }
    assert almanac.complete("", 5) == []
    assert almanac.complete("e", 4) == almanac.complete("e", 40)[:4]


@given(st.text(max_size=40), st.integers(min_value=0, max_value=30))
def test_completion_keeps_to_its_limit(text: str, limit: int) -> None:
    offered = almanac.complete(text, limit)
    assert len(offered) <= limit
    assert len({crop.id for _, crop in offered}) == len(offered)
