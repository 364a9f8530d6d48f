"""Forecasts of many tested packets against the same belief on a dense grid by numpy and scipy."""

from __future__ import annotations

import math
import tempfile
from pathlib import Path

import numpy as np
from scipy import special

from seedbox.season.listing import Listing
from seedbox.tin.file import Tin
from tests.bench.timing import Measured, side_by_side
from tests.bench.tins import TODAY, make_tin

PACKETS = 1000
POINTS = 121
BETA_SIZE = 24.0  # 1 / 0.04 - 1: the intraclass correlation of repeat tests


def measure() -> list[Measured]:
    """Whole forecasts (figures, advice, good-until day) of ours; the bare grid gives figures only.

    Measured over 1,000 packets with one test each, and given per 10,000.
    """
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "garden.tin"
        make_tin(path, PACKETS, tested_share=1.0)
        with Tin.open(path) as tin:
            listing = Listing(tin, TODAY)
        ours, bare = side_by_side(
            lambda: [listing.forecast(line) for line in listing.lines],
            lambda: [_dense(line.dossier.tests[0]) for line in listing.lines],
            runs=3,
        )
    scale = 10_000 / PACKETS
    return [Measured("forecasts of 10,000 packets, one test each", ours * scale, bare * scale, 1.0)]


def _dense(test) -> tuple[float, float, float, float]:  # type: ignore[no-untyped-def]
    """Mean, 5 % and 95 % points and P(g >= 0.65) of one lot with one test, on a dense grid."""
    k = np.linspace(1.0 - 4 * 0.6, 1.0 + 4 * 0.6, POINTS)[:, None]
    ln_rate = np.linspace(-4 * 0.6, 4 * 0.6, POINTS)[None, :]
    viability = k - np.exp(ln_rate) * 0.8
    p = np.clip(special.ndtr(viability), 1e-12, 1 - 1e-12)
    a, b = p * BETA_SIZE, (1 - p) * BETA_SIZE
    log_likelihood = special.betaln(test.germinated + a, test.seeds - test.germinated + b)
    log_likelihood -= special.betaln(a, b)
    weight = np.exp(log_likelihood - 0.5 * ((k - 1.0) / 0.6) ** 2 - 0.5 * (ln_rate / 0.6) ** 2)
    weight /= weight.sum()
    now = special.ndtr(k - np.exp(ln_rate) * 1.0)
    order = np.argsort(now, axis=None)
    values, cumulative = now.ravel()[order], np.cumsum(weight.ravel()[order])
    low, high = values[np.searchsorted(cumulative, [0.05, 0.95]).clip(max=values.size - 1)]
    reached = float(weight[now >= 0.65].sum())
    assert math.isfinite(reached)
    return float((weight * now).sum()), float(low), float(high), reached
