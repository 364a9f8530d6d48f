"""How jobs of sowings are named, typed, and written down when they are done.

A job is named for good by the code of its sowing and a word: `S4K7QMX2-thin`.
"""

from __future__ import annotations

from typing import Final

from seedbox.errors import BadDataError
from seedbox.season.sowing.job_dates import JobKind
from seedbox.tin import codes
from seedbox.tin.garden_records import EventKind

WORDS: Final = {
    JobKind.COUNT: "count",
    JobKind.THIN: "thin",
    JobKind.POT_ON: "pot-on",
    JobKind.HARDEN_OFF: "harden-off",
    JobKind.PLANT_OUT: "plant-out",
    JobKind.HARVEST: "harvest",
    JobKind.SOW_AGAIN: "sow-again",
    JobKind.RESOW: "resow",
}
KIND_OF: Final = {word: kind for kind, word in WORDS.items()}
# What is written down when a job is done.
EVENT_OF: Final = {
    JobKind.COUNT: EventKind.EMERGED,
    JobKind.THIN: EventKind.THINNED,
    JobKind.POT_ON: EventKind.POTTED_ON,
    JobKind.HARDEN_OFF: EventKind.HARDENING,
    JobKind.PLANT_OUT: EventKind.PLANTED_OUT,
    JobKind.HARVEST: EventKind.HARVESTED,
    JobKind.SOW_AGAIN: EventKind.SOWN_AGAIN,
    JobKind.RESOW: EventKind.SOWN_AGAIN,
}


def parse_job(text: str) -> tuple[str, JobKind]:
    """The code and kind that a typed job names: `S4K7QMX2-thin`, or `s4k7 qmx2 pot on`."""
    plain = " ".join(text.replace("-", " ").split()).lower()
    for word in sorted(KIND_OF, key=len, reverse=True):
        ending = " " + word.replace("-", " ")
        if plain.endswith(ending):
            return codes.parse(plain[: -len(ending)]), KIND_OF[word]
    raise BadDataError(
        f"“{text.strip()}” names no job.",
        hint=f"A job is a sowing's code and a word: {', '.join(KIND_OF)}.",
    )
