"""What the almanac says of testing one crop, and what stands in where it says nothing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from seedbox import almanac
from seedbox.almanac import Fact, Mark, TestConditions
from seedbox.season.testing.warmth import Warmth, parse_warmth

_RULES = {"us": "the United States rules for testing seeds", "eu": "the international rules"}
# Seed on warm paper is judged sooner than it comes through soil, and late comers are to be caught:
# half as long again as the slowest usual emergence (our judgement, no source).
_FINAL_OVER_SLOWEST = 1.5
# Damp paper does not keep for ever: eight weeks is the most at home (common practice, no source).
_LONGEST = 56
# Nothing is known of the crop: three weeks see most vegetables and flowers through (no source).
_UNKNOWN_FIRST, _UNKNOWN_FINAL = 7, 21
_ROOM = Warmth(20.0)


@dataclass(frozen=True, slots=True)
class Conditions:
    """How seed of a crop is tested. `warmth` has the first choice first.

    `rules_words` is what the rules lay seed on; `directions` what they add, in their short
    words; `basis` says in a sentence where all this comes from.
    """

    warmth: tuple[Warmth, ...]
    first_count_day: int
    final_count_day: int
    directions: str
    rules_words: str
    basis: str


def conditions(
    crop_id: str, family: str, region: str, own: Mapping[str, str] | None = None
) -> Conditions:
    """Test conditions of a crop: its own rules, else its days to emerge, else its family's."""
    own = own or {}
    rules = almanac.test_conditions(crop_id, region)
    if rules:
        return _by_rules(rules[0])
    relatives = _relatives(family, region)
    emergence = almanac.growing(crop_id, own).get("emerge_days")
    if emergence is not None and emergence.low is not None and emergence.high is not None:
        return _by_emergence(crop_id, own, emergence, relatives)
    if relatives:
        return _by_family(family, relatives)
    return Conditions(
        (_ROOM,),
        _UNKNOWN_FIRST,
        _UNKNOWN_FINAL,
        "",
        "",
        "Nothing is known of testing this crop: room warmth and three weeks are a guess.",
    )


def first_count(first: int | None, final: int) -> int:
    """The first count; where the rules give none, a third of the way to the last."""
    return first if first is not None else max(round(final / 3), 1)


def _by_rules(rules: TestConditions) -> Conditions:
    told = "from memory" in rules.source or rules.mark is not Mark.MEMORY
    memory = "" if told else ", from memory"
    return Conditions(
        parse_warmth(rules.temperature_c),
        first_count(rules.first_count_day, rules.final_count_day),
        rules.final_count_day,
        rules.directions,
        rules.substrate,
        f"By {_RULES.get(rules.rules, rules.rules)} ({rules.source}{memory}).",
    )


def _relatives(family: str, region: str) -> list[TestConditions]:
    """The rules for each crop of a family, those of the region where there are two."""
    if not family:
        return []
    same = (crop.id for crop in almanac.crops() if crop.family == family)
    return [found[0] for found in (almanac.test_conditions(each, region) for each in same) if found]


def _by_emergence(
    crop_id: str, own: Mapping[str, str], emergence: Fact, relatives: Sequence[TestConditions]
) -> Conditions:
    low, high = emergence.low or 1.0, emergence.high or 1.0
    first = max(round(low), 1)
    warmth, why = _warmth_of(crop_id, own, relatives)
    final = max(min(ceil(high * _FINAL_OVER_SLOWEST), _LONGEST), first + 1)
    cut = "; no test on paper is kept longer" if final == _LONGEST else ""
    mine = "your own figure" if emergence.mark is Mark.YOURS else "its usual days to emerge"
    return Conditions(
        warmth,
        first,
        final,
        "",
        "",
        f"No rules name this crop. The count days follow {mine} ({emergence.value}"
        f" days{cut}); the warmth {why}.",
    )


def _warmth_of(
    crop_id: str, own: Mapping[str, str], relatives: Sequence[TestConditions]
) -> tuple[tuple[Warmth, ...], str]:
    best = almanac.growing(crop_id, own).get("germination_temperature_c")
    if best is not None and best.low is not None and best.high is not None:
        return (Warmth((best.low + best.high) / 2),), "is what growers give it"
    soil = almanac.soil_temperature(crop_id)
    if soil is not None and soil.optimum_c is not None:
        return (Warmth(min(soil.optimum_c, 25.0)),), "is its best in soil, 25 °C at most"
    if relatives:
        return parse_warmth(_commonest(relatives)), "is what the rules give its family"
    return (_ROOM,), "is that of a room"


def _commonest(relatives: Sequence[TestConditions]) -> str:
    return Counter(each.temperature_c for each in relatives).most_common(1)[0][0]


def _by_family(family: str, relatives: Sequence[TestConditions]) -> Conditions:
    final = _middle([each.final_count_day for each in relatives])
    first = _middle([first_count(r.first_count_day, r.final_count_day) for r in relatives])
    return Conditions(
        parse_warmth(_commonest(relatives)),
        min(first, final),
        final,
        "",
        "",
        f"No rules name this crop. These are the middle of its family, {family}"
        f" ({len(relatives)} crops), so count a little longer if seedlings still come.",
    )


def _middle(values: Sequence[int]) -> int:
    return sorted(values)[len(values) // 2]
