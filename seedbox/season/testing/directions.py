"""What is done to seed before and during a test, in plain words: soak, chill, light, dry side."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from seedbox import almanac

_CHILL = re.compile(r"prechill(?: (?P<celsius>[\d-]+) °C)?(?: (?P<days>\d+) days)?")
_AT = re.compile(r"test at (?P<celsius>\d+) °C(?: if dormant)?$")
_SOAK = re.compile(r"(?:soak|presoak)\D*(?P<hours>\d+) h")
_USUAL_CHILL, _USUAL_DAYS = "5-10", "3 to 7"

# What the growing page asks of seed before it is sowed; what it asks of plants is left out.
_BEFORE_SOWING = {
    "soak_opt": "Soak it overnight first, if you like: that may help.",
    "soak_24h": "Soak it in water for a day first.",
    "chill_opt": "Some weeks moist in a refrigerator may help; without it some seed stays asleep.",
    "chill_2wk": "Keep it moist in a refrigerator for two weeks first. Day 0 is when it comes out.",
    "stratify": (
        "Keep it cold and moist for several weeks first (a damp bag in a refrigerator). Day 0 is"
        " when it comes out. Without that the test shows only what is already awake."
    ),
    "scarify_soak": "Nick or rub the seed coat first, then soak it overnight.",
    "scarify_opt": "Nicking or rubbing the seed coat first may help.",
    "crush_husk": "Crush the husk gently into single seeds first.",
}
_NEEDS_LIGHT = "light"
_WANTS_DARK = "dark"


@dataclass(frozen=True, slots=True)
class Handling:
    """What is done before the first day, and what to heed in between.

    `light` is True for seed that needs it, False for seed that wants the dark.
    `summary` is what is done before, in few words, kept with the test.
    """

    before: tuple[str, ...]
    light: bool | None
    during: tuple[str, ...]
    summary: str


def handling(crop_id: str, directions: str, *, may_soak: bool = True) -> Handling:
    """Everything the rules and the growing page ask for. `may_soak` is False for pellets and
    dressed seed: soaking would wash off what is on it."""
    parts = [part.strip() for part in re.split(r"[;+]", directions) if part.strip()]
    codes = almanac.pretreatments(crop_id)
    before = [*_chilling(parts), *_soaking(parts, codes, may_soak)]
    before += [
        words
        for code, words in _BEFORE_SOWING.items()
        if code in codes and (may_soak or "soak" not in code) and not _doubled(code, before)
    ]
    return Handling(
        tuple(before), _light(crop_id, parts), tuple(_during(parts)), _summary(parts, codes)
    )


def _doubled(code: str, before: Sequence[str]) -> bool:
    return code.startswith("soak") and any(words.startswith("Soak") for words in before)


def _chilling(parts: Sequence[str]) -> list[str]:
    found = next((match for part in parts if (match := _CHILL.match(part))), None)
    if found is None:
        return []
    celsius = (found["celsius"] or _USUAL_CHILL).replace("-", " to ")
    days = found["days"] or _USUAL_DAYS
    words = (
        f"Seed harvested in the last half year may be asleep: wet it and keep it at {celsius} °C"
        f" for {days} days first. Day 0 is when it comes out. Older seed needs no chill."
    )
    return [words]


def _soaking(parts: Sequence[str], codes: Sequence[str], may_soak: bool) -> list[str]:
    hours = next((match["hours"] for part in parts if (match := _SOAK.match(part))), None)
    washed = any("wash" in part for part in parts)
    if not (hours or washed):
        return []
    if not may_soak:
        return ["The rules soak this seed. Yours is coated: leave that out and keep it well damp."]
    if hours:
        return [f"Soak it in water for {hours} hours, rinse it and lay it out wet."]
    return ["Rinse it well under running water, which washes out what keeps it asleep."]


def _light(crop_id: str, parts: Sequence[str]) -> bool | None:
    wish = almanac.growing(crop_id).get("light")
    if _NEEDS_LIGHT in parts or (wish is not None and wish.text.startswith(_NEEDS_LIGHT)):
        return True
    return False if wish is not None and wish.text.startswith(_WANTS_DARK) else None


def _during(parts: Sequence[str]) -> list[str]:
    said = []
    for part in parts:
        if part == "keep substrate on the dry side":
            said.append("Keep it only just damp: this seed rots in the wet.")
        elif (found := _AT.search(part)) and not part.startswith("prechill"):
            said.append(f"If little comes, try {found['celsius']} °C: some lots want that.")
        elif part.startswith("sand/soil alternative"):
            said.append("In sand or mix, count up to day 12.")
        elif part == "preheat":
            said.append("Fresh seed may want some warm, dry days (30 °C) before it is wetted.")
    return said


def _summary(parts: Sequence[str], codes: Sequence[str]) -> str:
    said = []
    if (
        hours := next((m["hours"] for part in parts if (m := _SOAK.match(part))), None)
    ) is not None:
        said.append(f"soak {hours} h")
    elif any("wash" in part for part in parts):
        said.append("rinse")
    elif {"soak_24h", "scarify_soak"} & set(codes):
        said.append("soak 24 h")
    if {"scarify_soak"} & set(codes):
        said.insert(0, "nick")
    if {"stratify", "chill_2wk"} & set(codes):
        said.append("cold and moist first")
    elif any(part.startswith("prechill") for part in parts):
        said.append("chill if fresh")
    if _NEEDS_LIGHT in parts:
        said.append("light")
    return ", ".join(said)
