"""What a weight of seed, or a cluster of several seeds, is worth in plants."""

from __future__ import annotations

from seedbox.science.errors import require, require_inside


def pure_live_seed(purity: float, germination: float) -> float:
    """Share of a seed lot by weight that is the crop and alive (hard seed counts as alive).

    ``PLS = purity x germination``

    Parameters: purity, germination [fraction].
    Returns: share [fraction].
    Raises: OutOfRangeError.

    >>> round(pure_live_seed(0.91, 0.96), 4)
    0.8736

    Source: worked examples of extension services, see the tests.
    """
    require("purity", purity, 0.0, 1.0)
    require("germination", germination, 0.0, 1.0)
    return purity * germination


def bulk_seed(pure_live: float, share: float) -> float:
    """Weight of seed to sow for a weight of pure live seed, in the same unit.

    ``bulk = wanted / PLS``

    Parameters: pure_live wanted [any weight]; share PLS [fraction], above 0.
    Returns: weight [the same unit].
    Raises: OutOfRangeError.

    >>> round(bulk_seed(3.0, 0.9506), 3)
    3.156

    Source: as ``pure_live_seed``.
    """
    require_inside("share", share, 0.0, 1.0 + 1e-12)
    return pure_live / share


def seedlings_per_cluster(germination: float, seeds_in_cluster: float) -> float:
    """Mean number of seedlings from one fruit that holds several seeds (beet, chard).

    ``c r``, with ``1 - (1 - r)^c = g``: a cluster counts as germinated when any of its seeds has

    Parameters: germination g of clusters [fraction]; seeds_in_cluster c [seeds], 1 or more.
    Returns: seedlings per cluster sown [-].
    Raises: OutOfRangeError.

    >>> round(seedlings_per_cluster(0.75, 2.0), 6)
    1.0
    >>> seedlings_per_cluster(0.8, 1.0)
    0.8

    Source: 7 CFR 201.56 counts a beet cluster as one seed; the seeds of a cluster are taken to
    germinate independently of one another.
    """
    require("germination", germination, 0.0, 1.0)
    require("seeds in a cluster", seeds_in_cluster, 1.0, 20.0)
    if seeds_in_cluster == 1.0:
        return germination
    return float(seeds_in_cluster * (1.0 - (1.0 - germination) ** (1.0 / seeds_in_cluster)))
