"""What counts as germinated, in plain words, for one kind of plant.

The rules are those of 7 CFR 201.56 as the almanac keeps them; the sentences are for a
kitchen table.
"""

from __future__ import annotations

from seedbox import almanac
from seedbox.almanac import Mark

GENERAL = (
    "Count a seedling as normal when it has a root, a shoot and sound seed leaves in proportion:"
    " one that you would prick out. A seed that has only split, or shows no more than a root tip,"
    " waits for the next count."
)
ABNORMAL = (
    "Abnormal is a seedling that will make no plant: no root, a stunted or glassy one, most of the"
    " seed leaves missing or rotten, or white all over. Mould that came from a neighbour does not"
    " make it abnormal."
)
DEAD = (
    "Dead is seed that is soft, mouldy or empty when pressed. Take it out, or it spoils the rest."
)
FRESH = (
    "Fresh is seed that has swollen, is still firm and sound at the last count, and sleeps on: it"
    " may come after a chill."
)
HARD = (
    "Hard is seed that is as small and hard at the last count as on the first day: it took up no"
    " water and is alive. Count it apart; nicked and soaked it will mostly come."
)

_CLUSTERS = frozenset(("beetroot", "chard", "spinach_beet", "spinach_nz"))
_CLUSTER = (
    "Each corky cluster counts once, however many seedlings come out of it, as soon as one of them"
    " is normal. Brown tinges from the cluster do not matter."
)
# By the first word of the almanac's group.
_OF_GROUP = {
    "Goosefoot": "At least half of the seed leaves must be there and sound, with a sound stem.",
    "Legume": (
        "At least half of the seed leaves must hang on and be sound, and there must be a growing"
        " tip with a first leaf."
    ),
    "Lily": "One green leaf with a bend in it, and a root that is not a mere stub.",
    "Knotweed": "At least half of the seed leaves must be there and sound; a firm stem, a root.",
    "Miscellaneous": (
        "At least half of the seed leaves must be there and sound; the stem not curled, short and"
        " thick or glassy; a root of some length, or strong side roots."
    ),
    "Sunflower": "At least half of the seed leaves must be there and sound.",
    "Mustard": "Both seed leaves mostly there and sound, a firm stem and a root.",
    "Cucurbit": "At least half of the seed leaves must be there and sound, free of the seed coat.",
    "Grass": "The leaf must have grown well up in its sheath, and there must be a root or two.",
}

# Families in which hard seed is usual (common practice; 7 CFR 201.57 for legumes, from memory).
_HARD_FAMILIES = frozenset(("Fabaceae", "Malvaceae", "Convolvulaceae", "Geraniaceae"))


def normal_seedling(crop_id: str) -> tuple[str, ...]:
    """What a normal seedling of this crop is, with the rule that says so."""
    rules = [rule for rule in almanac.seedling_rules(crop_id) if rule.group != "general"]
    said = [GENERAL]
    if crop_id in _CLUSTERS:
        said.append(_CLUSTER)
    if rules:
        told = "from memory" in rules[0].source or rules[0].mark is not Mark.MEMORY
        memory = "" if told else ", from memory"
        own = _OF_GROUP.get(rules[0].group.split()[0], "")
        if own:
            said.append(f"{own} ({rules[0].source}{memory})")
    said.append(ABNORMAL)
    return tuple(said)


def other_categories(family: str) -> tuple[str, ...]:
    """What else is told apart, mostly at the last count; hard seed where the family has it."""
    hard = (HARD,) if family in _HARD_FAMILIES or not family else ()
    return (*hard, FRESH, DEAD)
