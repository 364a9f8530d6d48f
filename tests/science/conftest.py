"""Oracles for the science tests: the same model by dense grids in numpy and scipy."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import pytest
from scipy import special


@dataclass(frozen=True)
class DenseAnswer:
    mean: float
    at_least: Callable[[float], float]
    latent_quantile: Callable[[float], float]
    predictive_below: Callable[[float], float]


class DenseGrid:
    """Posterior over (K, ln theta) on a grid fine enough to be taken as exact."""

    SIZE = 24.0  # 1 / 0.04 - 1, written out: the oracle does not read the program's constants

    def __init__(
        self, prior: tuple[float, float, float, float], tests: Sequence[tuple[float, int, int]]
    ) -> None:
        k_mean, k_sd, u_mean, u_sd = prior
        # Wide enough for tests that contradict the prior, then zoomed to where the mass is.
        k_range = (k_mean - 14 * k_sd, k_mean + 9 * k_sd)
        u_range = (u_mean - 8 * u_sd, u_mean + 8 * u_sd)
        for points in (501, 501, 801):
            self.k = np.linspace(*k_range, points)[:, None]
            self.u = np.linspace(*u_range, points)[None, :]
            log_p = -0.5 * ((self.k - k_mean) / k_sd) ** 2 - 0.5 * ((self.u - u_mean) / u_sd) ** 2
            for dose, seeds, alive in tests:
                z = self.k - np.exp(self.u) * dose
                a = np.maximum(special.ndtr(z) * self.SIZE, 1e-290)
                b = np.maximum(special.ndtr(-z) * self.SIZE, 1e-290)
                log_p = log_p + special.betaln(alive + a, seeds - alive + b) - special.betaln(a, b)
            p = np.exp(log_p - log_p.max())
            keep_k = np.nonzero(p.max(axis=1) > 1e-9)[0]
            keep_u = np.nonzero(p.max(axis=0) > 1e-9)[0]
            k_range = self._widened(self.k[:, 0], keep_k)
            u_range = self._widened(self.u[0], keep_u)
        self.p = p / p.sum()

    @staticmethod
    def _widened(axis: np.ndarray, keep: np.ndarray) -> tuple[float, float]:
        step = axis[1] - axis[0]
        return axis[keep[0]] - 2 * step, axis[keep[-1]] + 2 * step

    def at(self, dose: float) -> DenseAnswer:
        z = (self.k - np.exp(self.u) * dose).ravel()
        p = self.p.ravel()
        edges = np.linspace(-12.0, 9.0, 8401)
        mass, _ = np.histogram(np.clip(z, -11.999, 8.999), bins=edges, weights=p)
        centres = 0.5 * (edges[1:] + edges[:-1])
        cumulative = np.cumsum(mass)
        alive = special.ndtr(centres)

        def at_least(viability: float) -> float:
            return float(1.0 - np.interp(viability, edges[1:], cumulative))

        def latent_quantile(probability: float) -> float:
            return float(special.ndtr(np.interp(probability, cumulative, edges[1:])))

        def predictive_below(share: float) -> float:
            a = np.maximum(alive * self.SIZE, 1e-280)
            b = np.maximum(special.ndtr(-centres) * self.SIZE, 1e-280)
            return float((mass * special.betainc(a, b, share)).sum())

        return DenseAnswer(
            float((special.ndtr(z) * p).sum()), at_least, latent_quantile, predictive_below
        )


@pytest.fixture(scope="session")
def dense_grid() -> type[DenseGrid]:
    return DenseGrid
