"""Shares and temperatures as they stand in a sentence: the number, a space, the sign."""

from __future__ import annotations


def per_cent(share: float) -> str:
    """A share of 1 in whole per cent.

    >>> per_cent(0.624)
    '62 %'
    """
    return f"{100 * share:.0f} %"


def per_cent_range(low: float, high: float) -> str:
    """Two shares, the sign said once.

    >>> per_cent_range(0.6, 0.98)
    '60 to 98 %'
    """
    return f"{100 * low:.0f} to {per_cent(high)}"


def celsius(degrees: float) -> str:
    """A temperature without needless digits.

    >>> celsius(20.0), celsius(26.7)
    ('20 °C', '26.7 °C')
    """
    return f"{degrees:g} °C"


def celsius_range(coolest: float, warmest: float) -> str:
    """A range of temperatures, or one where both are the same.

    >>> celsius_range(5.0, 25.0), celsius_range(20.0, 20.0)
    ('5 to 25 °C', '20 °C')
    """
    return celsius(warmest) if coolest == warmest else f"{coolest:g} to {celsius(warmest)}"
