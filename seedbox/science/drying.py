"""Drying seed with a gel: water to take out, and how much gel takes it up."""

from __future__ import annotations

from typing import Final

from seedbox.science.errors import require, require_inside

# Water that regular-density silica gel holds where the air above it is at 20 to 25 % relative
# humidity, as a share of its dry mass: about a tenth (from memory; 0.10 to 0.15 in data sheets).
GEL_HOLDS: Final = 0.10
MOST_MOISTURE: Final = 60.0


def water_to_remove(seed_g: float, moisture: float, target: float) -> float:
    """Water that leaves seed dried from one moisture to another.

    ``W = M (m0 - m1) / (100 - m1)``: the dry matter stays

    Parameters: seed_g M [g], as it is now; moisture m0, target m1 [% of fresh weight], 0 to 60.
    Returns: water [g]; 0 for seed that is dry enough.
    Raises: OutOfRangeError.

    >>> round(water_to_remove(100.0, 20.0, 6.0), 2)
    14.89
    >>> water_to_remove(100.0, 5.0, 6.0)
    0.0

    Source: balance of dry matter; moisture on the fresh-weight basis, as seed testing states it.
    """
    require("seed", seed_g, 0.0, float("inf"), "g")
    require("moisture", moisture, 0.0, MOST_MOISTURE, "%")
    require("target moisture", target, 0.0, MOST_MOISTURE, "%")
    return max(seed_g * (moisture - target) / (100.0 - target), 0.0)


def gel_needed(water_g: float, gel_holds: float = GEL_HOLDS) -> float:
    """Dry gel that takes up so much water and still leaves the air dry.

    ``G = W / c``

    Parameters: water_g W [g]; gel_holds c [g water per g dry gel], in (0, 1).
    Returns: gel [g].
    Raises: OutOfRangeError.

    >>> gel_needed(15.0)
    150.0

    Source: definition; the capacity is from memory, see ``GEL_HOLDS``.
    """
    require("water", water_g, 0.0, float("inf"), "g")
    require_inside("water that gel holds", gel_holds, 0.0, 1.0)
    return water_g / gel_holds
