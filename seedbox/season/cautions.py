"""What a person should be told before they handle, eat, sow or pass on what is in a packet."""

from __future__ import annotations

from seedbox import almanac
from seedbox.tin.records import Origin, Packet, Treatment

TREATED = (
    "Treated seed: not for eating, feeding or processing. Wear gloves, wash your hands, "
    "keep it from children and animals, and keep the packet's own warning with it."
)
PELLETED = (
    "Pelleted seed: count pellets as seeds and do not soak them. A pellet may hold a dressing: "
    "unless the packet says otherwise, wear gloves and do not eat it."
)
PRIMED = "Primed seed: already started once, so it ages faster than the dry seed it came from."
SHARING = (
    "Before you pass it on: some varieties are protected and some kinds may not cross a border "
    "or are invasive in places. Check your own local law."
)


def packet_cautions(packet: Packet, crop_name: str) -> tuple[str, ...]:
    """Cautions for one packet, what was done to the seed first; an empty tuple proves nothing.

    Sources stand with the almanac's hazards (`seedbox crop NAME`); the sentence on treated seed
    follows European seed association advice and the labelling of 7 CFR 201.31a.
    """
    said = [_sentence(caution) for caution in crop_cautions(packet.crop_id, crop_name)]
    if packet.treatment is Treatment.DRESSED:
        said.insert(0, TREATED)
    elif packet.treatment is Treatment.PELLETED:
        said.insert(0, PELLETED)
    elif packet.treatment is Treatment.PRIMED:
        said.insert(0, PRIMED)
    if packet.origin in {Origin.SWAPPED, Origin.GIFT, Origin.SAVED}:
        said.append(SHARING)
    return tuple(said)


def crop_cautions(crop_id: str, crop_name: str) -> tuple[almanac.Caution, ...]:
    """Hazards of a crop; those of an own crop are looked for under its name."""
    if crop_id.startswith("own:"):
        return almanac.cautions_by_name(crop_name)
    return almanac.cautions(crop_id)


def hazard_sentences(name: str) -> list[str]:
    """Hazards of a plant that the almanac knows by name only, a sentence each."""
    return [f"Caution. {_sentence(caution)}" for caution in almanac.cautions_by_name(name)]


def label_caution(packet: Packet, crop_name: str) -> str:
    """The fewest words that must stay with the seed itself; the sentences are on its page."""
    if packet.treatment is Treatment.DRESSED:
        return "TREATED: do not eat"
    words = [_of_the_seed(caution) for caution in crop_cautions(packet.crop_id, crop_name)]
    return next((word for word in words if word), "")


def _of_the_seed(caution: almanac.Caution) -> str:
    """Words for a hazard that lies in the seed, or that is grave wherever it lies."""
    if caution.severity == "poisonous raw":
        return "Do not eat raw"
    grave = caution.severity in {"poisonous: deadly", "poisonous: serious"}
    in_seed = "seed" in caution.part and caution.severity == "poisonous"
    return "POISONOUS" if grave or in_seed else ""


def _sentence(caution: almanac.Caution) -> str:
    return f"{caution.severity.capitalize()} ({caution.part}): {caution.hazard}."
