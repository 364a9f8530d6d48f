"""What must be said when seed is passed on, and what is held back until its owner says otherwise.

Never legal advice. The rules are told by the setting `swap_law` and each ends in the reader's own
law. Sources: United States, small lots of seed: USDA APHIS 2006, at most 50 seeds or 10 g of one
kind a packet; sharing label: West Virginia Code 19-16-5a, as a model; seen. Kinds that need a
plant passport or are invasive: the almanac's `passing_on`, from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from seedbox import almanac
from seedbox.almanac import Caution, PassingOn, PassingRule
from seedbox.season.cautions import PELLETED, PRIMED, TREATED, crop_cautions
from seedbox.season.swapping.hybrids import is_hybrid, is_protected, packet_words
from seedbox.tin.records import Origin, Packet, Treatment

CHECK: Final = "Check your own local law: this is no legal advice."
SMALL_LOT_SEEDS: Final = 50
SMALL_LOT_GRAMS: Final = 10.0
HYBRID: Final = "F1 hybrid: seed saved from its plants does not come true."
CROSSED: Final = "Saved from an F1 hybrid: a mix, no longer the variety of that name."
PROTECTED: Final = (
    "Marked as a protected variety: swapping its seed needs the leave of whoever holds the rights,"
    " even where saving it for your own garden is allowed."
)
_TREATMENT: Final = {
    Treatment.DRESSED: TREATED,
    Treatment.PELLETED: PELLETED,
    Treatment.PRIMED: PRIMED,
}
_LAW: Final = {
    "eu": (
        (
            "In the European Union a variety under plant variety rights may not be passed on"
            " without leave, and seed that is sold or sent by trade needs a plant passport for"
            " some kinds."
        ),
    ),
    "gb": (
        (
            "In Great Britain a variety under plant breeders’ rights may not be passed on without"
            " leave, and some kinds need a plant passport when their seed is sold or sent by trade."
        ),
    ),
    "us": (
        (
            "US federal law lets a gardener save protected seed for their own planting; swapping it"
            " needs the owner’s leave. Some states ask for a label on shared seed: kind, variety,"
            " treated or not, a reference number, the sharer’s name and town, month and year"
            " (West Virginia Code 19-16-5a is a model). The design “sharing” has room for these."
        ),
        (
            f"Sent into the US, a small lot of seed is at most {SMALL_LOT_SEEDS} seeds or"
            f" {SMALL_LOT_GRAMS:g} g of one kind a packet (APHIS 2006), and wants a permit."
        ),
    ),
    "other": (
        (
            "Varieties under plant variety rights may not be passed on without leave; some kinds"
            " are restricted because they carry disease or spread."
        ),
    ),
}
_BORDER: Final = "Seed that crosses a border needs plant-health papers nearly everywhere."


@dataclass(frozen=True, slots=True)
class Passing:
    """Cautions that go with the seed, and why it is held back ('' where it is not)."""

    cautions: tuple[str, ...]
    held: str


def law_cautions(law: str) -> tuple[str, ...]:
    """What holds for every swap, by the setting `swap_law`; the last sentence is always CHECK."""
    return (*_LAW[law], _BORDER, CHECK)


def passing(packet: Packet, crop_name: str, law: str) -> Passing:
    """What goes with seed of a packet, worst first, and whether it is held back for it."""
    said: list[str] = []
    held: list[str] = []
    if packet.treatment in _TREATMENT:
        said.append(_TREATMENT[packet.treatment])
    if packet.treatment is Treatment.DRESSED:
        held.append("it is treated seed")
    words = packet_words(packet)
    if is_hybrid(*words):
        crossed = packet.origin is Origin.SAVED
        said.append(CROSSED if crossed else HYBRID)
        held += ["it was saved from a hybrid and will not come true"] if crossed else []
    if is_protected(*words):
        said.append(PROTECTED)
        held.append("it is marked as a protected variety")
    for hazard in crop_cautions(packet.crop_id, crop_name):
        said.append(_hazard(hazard))
        held += ["it is very poisonous"] if _grave(hazard) else []
    for entry in almanac.passing_on(packet.crop_id):
        said += [_entry(entry, law)] if _concerns(entry, law) else []
        held += _held_for(entry, law)
    return Passing(tuple(dict.fromkeys(filter(None, said))), " and ".join(dict.fromkeys(held)))


def small_lot_caution(law: str, seeds: int, grams: float | None) -> str:
    """For a portion that is more than a small lot, where that matters; else ''."""
    too_many = seeds > SMALL_LOT_SEEDS and (grams is None or grams > SMALL_LOT_GRAMS)
    if law != "us" or not too_many:
        return ""
    weight = "" if grams is None else f" or {grams:.3g} g"
    return (
        f"One portion is {seeds} seeds{weight}: more than a small lot of {SMALL_LOT_SEEDS} seeds or"
        f" {SMALL_LOT_GRAMS:g} g, so part it before it crosses a border."
    )


def _hazard(caution: Caution) -> str:
    return f"{caution.severity.capitalize()} ({caution.part}): {caution.hazard}."


def _grave(caution: Caution) -> bool:
    return caution.severity in {"poisonous: deadly", "poisonous: serious"}


def _concerns(entry: PassingOn, law: str) -> bool:
    """A passport is asked for by one law; that a kind spreads is worth knowing anywhere."""
    return entry.law == law or entry.rule is PassingRule.INVASIVE


def _entry(entry: PassingOn, law: str) -> str:
    if entry.rule is PassingRule.INVASIVE:
        return f"Spreads into the wild in {entry.where} ({entry.mark}): look up whether it may go."
    if entry.rule is PassingRule.RESTRICTED:
        return f"Growing it is restricted in some countries ({entry.mark}): look up yours."
    where = {"eu": "the European Union", "gb": "Great Britain"}[law]
    return (
        f"On lists of kinds whose seed needs a plant passport in {where} when it is sold or sent"
        f" by trade ({entry.mark}): look up whether your swap counts."
    )


def _held_for(entry: PassingOn, law: str) -> list[str]:
    if entry.law != law or entry.rule is PassingRule.PASSPORT:
        return []
    if entry.rule is PassingRule.RESTRICTED:
        return ["growing it is restricted in some countries"]
    return [f"it is invasive in {entry.where}"]
