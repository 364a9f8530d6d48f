"""When a genebank regenerates: Rao et al. 2006, Table 8.2, as quoted."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from seedbox.science.probit import normal_cdf
from seedbox.science.regeneration import dose_to_regeneration, regeneration_threshold

# Rao et al. 2006, Manual of Seed Handling in Genebanks, Handbooks for Genebanks 8, Table 8.2:
# initial germination and the per cent below which to regenerate.
TABLE = [
    (100, 85), (99, 84), (98, 83), (97, 82), (96, 82), (95, 81), (94, 80), (93, 79),
    (92, 78), (91, 77), (90, 77), (89, 76), (88, 75), (87, 74), (86, 73), (85, 72),
]  # fmt: skip


@pytest.mark.parametrize(("initial", "threshold"), TABLE)
def test_published_thresholds(initial: int, threshold: int) -> None:
    assert 100 * regeneration_threshold(initial / 100) == pytest.approx(threshold, abs=0.51)


@given(st.floats(-1, 3), st.floats(0.1, 6))
def test_the_dose_leads_to_the_threshold(viability: float, rate: float) -> None:
    dose = dose_to_regeneration(viability, rate)
    assert dose > 0
    left = normal_cdf(viability - rate * dose)
    assert left == pytest.approx(0.85 * normal_cdf(viability), abs=1e-9)
