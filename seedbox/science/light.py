"""How much light a place gives in a day, and whether seedlings grow well in it."""

from __future__ import annotations

from enum import StrEnum

from seedbox.science.errors import require

_MOL_PER_HOUR = 0.0036  # 3,600 s an hour, a millionth mol a micromole
# Seedlings want 8 to 14 mol per square metre and day: University of New Hampshire Extension.
SEEDLINGS_LEAST = 8.0
SEEDLINGS_MOST = 14.0
# Below this young plants are poorer: Michigan State University Extension.
POORER_BELOW = 10.0


class Light(StrEnum):
    """What a daily light sum means for seedlings, in the words that are shown."""

    TOO_LITTLE = "too little light for seedlings"
    POORER = "enough for seedlings, but young plants are poorer"
    GOOD = "good for seedlings"
    MORE_THAN_NEEDED = "more light than seedlings need"


def daily_light(ppfd: float, hours: float) -> float:
    """Daily light integral of a lamp or of a mean daylight level.

    ``DLI = PPFD x hours x 0.0036``

    Parameters: ppfd [micromol per square metre and second], 0 to 2,500; hours [h], 0 to 24.
    Returns: DLI [mol per square metre and day].
    Raises: OutOfRangeError.

    >>> round(daily_light(200, 16), 2)
    11.52

    Source: definition; 3,600 seconds an hour and a million micromoles a mole.
    """
    require("light", ppfd, 0.0, 2500.0, "micromol per square metre and second")
    require("hours of light", hours, 0.0, 24.0, "h")
    return ppfd * hours * _MOL_PER_HOUR


def light_for_seedlings(dli: float) -> Light:
    """Verdict on a daily light integral [mol per square metre and day], 0 or more.

    >>> light_for_seedlings(5).value
    'too little light for seedlings'
    >>> light_for_seedlings(9) is Light.POORER, light_for_seedlings(12) is Light.GOOD
    (True, True)

    Source: University of New Hampshire Extension, 8 to 14 for seedlings; Michigan State
    University Extension, young plants poorer below 10.
    """
    require("daily light", dli, 0.0, float("inf"), "mol per square metre and day")
    if dli < SEEDLINGS_LEAST:
        return Light.TOO_LITTLE
    if dli < POORER_BELOW:
        return Light.POORER
    return Light.GOOD if dli <= SEEDLINGS_MOST else Light.MORE_THAN_NEEDED


def hours_for(ppfd: float, dli: float) -> float | None:
    """Hours a day that a lamp must burn for a daily light integral; None when 24 do not do.

    ``hours = DLI / (PPFD x 0.0036)``

    >>> round(hours_for(150, 10), 1)
    18.5
    >>> hours_for(50, 10) is None
    True
    """
    require("light", ppfd, 0.0, 2500.0, "micromol per square metre and second")
    if ppfd * 24.0 * _MOL_PER_HOUR < dli:
        return None
    return dli / (ppfd * _MOL_PER_HOUR) if dli else 0.0
