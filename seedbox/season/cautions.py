"""What a person should be told before they handle, eat, sow or pass on what is in a packet."""

from __future__ import annotations

from seedbox import almanac
from seedbox.tin.records import Origin, Packet, Treatment

TREATED = (
    "Treated seed: not for eating, feeding or processing. Wear gloves, wash your hands, "
    "keep it from children and animals, and keep the packet's own warning with it."
)
PELLETED = "Pelleted seed: one pellet is one seed; do not soak it before a test or before sowing."
PRIMED = "Primed seed: already started once, so it ages faster than the dry seed it came from."
SHARING = (
    "Before you pass it on: some varieties are protected and some kinds may not cross a border "
    "or are invasive in places. Check your own local law."
)


def packet_cautions(packet: Packet, crop_name: str) -> tuple[str, ...]:
    """Cautions for one packet, gravest first; an empty tuple proves nothing.

    Sources stand with the almanac's hazards (`seedbox crop NAME`); the sentence on treated seed
    follows European seed association advice and the labelling of 7 CFR 201.31a.
    """
    said = [_sentence(caution) for caution in almanac.cautions(packet.crop_id, crop_name)]
    if packet.treatment is Treatment.DRESSED:
        said.insert(0, TREATED)
    elif packet.treatment is Treatment.PELLETED:
        said.append(f"{PELLETED} A pellet may also be dressed: {TREATED[0].lower()}{TREATED[1:]}")
    elif packet.treatment is Treatment.PRIMED:
        said.append(PRIMED)
    if packet.origin in (Origin.SWAPPED, Origin.GIFT, Origin.SAVED):
        said.append(SHARING)
    return tuple(said)


def _sentence(caution: almanac.Caution) -> str:
    return f"{caution.severity.capitalize()} ({caution.part}): {caution.hazard}."
