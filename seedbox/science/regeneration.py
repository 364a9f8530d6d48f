"""When a seed lot must be grown again, before it has lost too much of itself."""

from __future__ import annotations

from seedbox.science.constants import REGENERATE_AT
from seedbox.science.probit import normal_cdf, probit


def regeneration_threshold(initial: float) -> float:
    """Germination below which a lot should be regrown.

    ``0.85 x initial``

    Parameters: initial [fraction].
    Returns: fraction [-].

    >>> round(regeneration_threshold(0.96), 3)
    0.816

    Source: Rao et al. 2006, Manual of Seed Handling in Genebanks, Handbooks for Genebanks 8,
    Table 8.2 (its whole per cents are this product, rounded).
    """
    return REGENERATE_AT * initial


def dose_to_regeneration(initial_probits: float, ageing_rate: float) -> float:
    """Ageing dose at which a lot falls to the regeneration threshold.

    ``D = (K - probit(0.85 Phi(K))) / theta``

    Parameters: initial_probits K [probits]; ageing_rate theta [-], above 0.
    Returns: dose D [probits] of a typical lot.

    >>> round(dose_to_regeneration(1.75, 1.0), 2)
    0.85

    Source: the threshold above in the viability equation.
    """
    fallen = probit(regeneration_threshold(normal_cdf(initial_probits)))
    return (initial_probits - fallen) / ageing_rate
