"""The normal distribution in the terms of the field: fractions to probits and back."""

from __future__ import annotations

from functools import lru_cache
from math import erfc, exp, log, pi, sqrt

from seedbox.science.errors import require_inside

_SQRT_HALF = sqrt(0.5)
_DENSITY_AT_0 = 1.0 / sqrt(2.0 * pi)


def normal_cdf(z: float) -> float:
    """Fraction of seed alive at z probits.

    ``Phi(z) = erfc(-z / sqrt(2)) / 2``

    Parameters: z [probits], any finite number.
    Returns: fraction [-].

    >>> normal_cdf(0.0)
    0.5
    >>> round(normal_cdf(1.2815515655446004), 12)
    0.9

    Source: definition of the complementary error function, Abramowitz & Stegun 7.1.2, 26.2.29.
    """
    return 0.5 * erfc(-z * _SQRT_HALF)


def normal_density(z: float) -> float:
    """Slope of the fraction alive per probit.

    ``phi(z) = exp(-z^2 / 2) / sqrt(2 pi)``

    Parameters: z [probits], any finite number.
    Returns: density [per probit].

    >>> round(normal_density(0.0), 6)
    0.398942

    Source: Abramowitz & Stegun 26.2.1.
    """
    return _DENSITY_AT_0 * exp(-0.5 * z * z)


# Rational approximations of algorithm AS 241, PPND16.
_CENTRE = (
    (2.50908_09287_30122_6727e3, 5.22649_52788_52854_5610e3),
    (3.34305_75583_58812_8105e4, 2.87290_85735_72194_2674e4),
    (6.72657_70927_00870_0853e4, 3.93078_95800_09271_0610e4),
    (4.59219_53931_54987_1457e4, 2.12137_94301_58659_5867e4),
    (1.37316_93765_50946_1125e4, 5.39419_60214_24751_1077e3),
    (1.97159_09503_06551_4427e3, 6.87187_00749_20579_0830e2),
    (1.33141_66789_17843_7745e2, 4.23133_30701_60091_1252e1),
    (3.38713_28727_96366_6080e0, 1.0),
)
_NEAR_TAIL = (
    (7.74545_01427_83414_07640e-4, 1.05075_00716_44416_84324e-9),
    (2.27238_44989_26918_45833e-2, 5.47593_80849_95344_94600e-4),
    (2.41780_72517_74506_11770e-1, 1.51986_66563_61645_71966e-2),
    (1.27045_82524_52368_38258e0, 1.48103_97642_74800_74590e-1),
    (3.64784_83247_63204_60504e0, 6.89767_33498_51000_04550e-1),
    (5.76949_72214_60691_40550e0, 1.67638_48301_83803_84940e0),
    (4.63033_78461_56545_29590e0, 2.05319_16266_37758_82187e0),
    (1.42343_71107_49683_57734e0, 1.0),
)
_FAR_TAIL = (
    (2.01033_43992_92288_13265e-7, 2.04426_31033_89939_78564e-15),
    (2.71155_55687_43487_57815e-5, 1.42151_17583_16445_88870e-7),
    (1.24266_09473_88078_43860e-3, 1.84631_83175_10054_68180e-5),
    (2.65321_89526_57612_30930e-2, 7.86869_13114_56132_59100e-4),
    (2.96560_57182_85048_91230e-1, 1.48753_61290_85061_48525e-2),
    (1.78482_65399_17291_33580e0, 1.36929_88092_27358_05310e-1),
    (5.46378_49111_64114_36990e0, 5.99832_20655_58879_37690e-1),
    (6.65790_46435_01103_77720e0, 1.0),
)


def _rational(coefficients: tuple[tuple[float, float], ...], x: float) -> float:
    top = bottom = 0.0
    for a, b in coefficients:
        top = top * x + a
        bottom = bottom * x + b
    return top / bottom


def probit(fraction: float) -> float:
    """Probits of a fraction: the inverse of ``normal_cdf``.

    ``z = Phi^-1(p)`` by the rational approximations of AS 241 (PPND16).

    Parameters: fraction [-], strictly between 0 and 1.
    Returns: z [probits], relative accuracy about 1e-15.
    Raises: OutOfRangeError outside (0, 1).

    >>> probit(0.5)
    0.0
    >>> round(probit(0.9) - probit(0.6), 2)
    1.03

    Source: Wichura 1988, Algorithm AS 241, Applied Statistics 37:477-484.
    """
    require_inside("fraction", fraction, 0.0, 1.0)
    q = fraction - 0.5
    if abs(q) <= 0.425:
        return q * _rational(_CENTRE, 0.180625 - q * q)
    r = sqrt(-log(min(fraction, 1.0 - fraction)))
    tail = _rational(_NEAR_TAIL, r - 1.6) if r <= 5.0 else _rational(_FAR_TAIL, r - 5.0)
    return tail if q > 0 else -tail


# For figures that come again with every packet, such as standards and settings.
known_probit = lru_cache(maxsize=256)(probit)
