"""Measuring error: of one reading, of what is worked out from several, and of the largest of many."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache

from stairaudit.samples import Number

# One-sided 95 % point of the normal distribution, 1.6449, in whole thousandths so that a reading
# that lies exactly at the edge can be told apart. JCGM 106:2012 clause 7.3 Table 1 (from memory).
CLOSE_THOUSANDTHS = 1645
# The same for the difference of two readings: 1.6449 times the square root of 2.
CLOSE_PAIR_THOUSANDTHS = 2326

# Half a 1/16 in division is 0.79 mm, which is what placing and reading a pocket tape costs; below
# 0.6 mm placing it on the nosing outweighs the division. Common practice, no source.
LEAST_LENGTH_U = 600_000
LONG_READING = 1_000_000_000
# Scale and hook of one tape: the same error in every reading taken with it.
COMMON_LENGTH_U = 400_000

# Upper 5 % point of the range of n normal readings in units of their standard deviation, which is the
# studentized range for infinite degrees of freedom. By integration; for n = 2 to 10 equal to the
# two decimals of the published tables (from memory).
_Q95 = (
    2.772, 3.314, 3.633, 3.858, 4.030, 4.170, 4.286, 4.387, 4.474, 4.552, 4.622, 4.685,
    4.743, 4.796, 4.845, 4.891, 4.934, 4.974, 5.012, 5.047, 5.081, 5.113, 5.144, 5.173,
)  # fmt: skip

_TAIL = 8.0  # standard deviations beyond which nothing changes the fifth decimal
_STEPS = 320
_ROOT_2 = math.sqrt(2)
_ROOT_TAU = math.sqrt(math.tau)


@dataclass(frozen=True, slots=True)
class Instruments:
    """The smallest divisions read on the tape [nm] and on the level [deg].

    The values of a reading whose instrument was not named are a 1/16 in tape and a 0.2 degree level.

    >>> Instruments().length_u(184_150_000)
    793750
    >>> Instruments().length_u(2_032_000_000)
    1587500
    """

    tape: int = 1_587_500
    level: Fraction = Fraction(1, 5)
    _near: float = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        half = self.tape / 2 if self.tape % 2 else self.tape // 2
        object.__setattr__(self, "_near", max(half, LEAST_LENGTH_U))

    def length_u(self, reading: Number) -> float:
        """Return the standard uncertainty of one tape reading [nm]; twice as much above 1 m."""
        return 2 * self._near if reading > LONG_READING else self._near

    def angle_u(self) -> float:
        """Return the standard uncertainty of one reading of the level [deg]."""
        return float(self.level / 2)

    def slope_u(self) -> float:
        """Return the standard uncertainty of a nearly level slope read with the level [rise/run]."""
        return math.tan(math.radians(self.angle_u()))

    def difference_u(self, a: Number, b: Number) -> float:
        """Return the standard uncertainty of the difference of two tape readings [nm].

        >>> round(Instruments().difference_u(196_850_000, 188_912_500))
        1122532
        """
        return combined_u(self.length_u(a), self.length_u(b))

    def sum_u(self, us: Iterable[float]) -> float:
        """Return the standard uncertainty of a sum of readings taken with this tape [nm]."""
        return sum_u(us)


def combined_u(*us: float) -> float:
    """Return the standard uncertainty of a sum or difference of independent quantities [their unit].

    Source: GUM (JCGM 100:2008) 5.1.2, from memory.

    >>> combined_u(3, 4)
    5.0
    """
    return math.hypot(*us)


def sum_u(us: Iterable[float], common: float = COMMON_LENGTH_U) -> float:
    """Return the standard uncertainty of a sum of readings taken with one tape [nm].

    The part `common` to all of them adds up once for each reading, the rest like independent errors.
    Source: GUM (JCGM 100:2008) 5.2.2, from memory.

    >>> round(sum_u([500_000, 500_000]))
    905539
    """
    both = [(u, min(u, common)) for u in us]
    own = sum(u * u - shared * shared for u, shared in both)
    return math.sqrt(own + sum(shared for _, shared in both) ** 2)


def step_sum_u(u_rise: float, u_run: float) -> float:
    """Return the standard uncertainty of twice the rise plus the run, independent [their unit].

    >>> round(step_sum_u(0.03125, 0.03125), 5)
    0.06988
    """
    return math.hypot(2 * u_rise, u_run)


def pitch_u(rise: Number, run: Number, u_rise: float, u_run: float) -> float:
    """Return the standard uncertainty of the angle whose tangent is rise over run [deg].

    All four share one unit; rise and run are not both 0. Source: GUM (JCGM 100:2008) 5.1.2 applied to
    the arctangent, from memory.

    >>> round(pitch_u(220, 245, 0.8, 0.8), 4)
    0.1392
    """
    return math.degrees(math.hypot(run * u_rise, rise * u_run) / (rise * rise + run * run))


def product_u(a: Number, b: Number, u_a: float, u_b: float) -> float:
    """Return the standard uncertainty of a product of independent quantities [unit of the product].

    >>> product_u(3, 4, 1, 1)
    5.0
    """
    return math.hypot(b * u_a, a * u_b)


def normal_cdf(z: float) -> float:
    """Return the share of a normal distribution below z standard deviations [0 to 1].

    >>> round(normal_cdf(1), 4)
    0.8413
    """
    return 0.5 * (1 + math.erf(z / _ROOT_2))


@lru_cache(maxsize=256)
def q95(n: int) -> float:
    """Return what the spread of n equal things stays below in 95 of 100 surveys [standard uncertainties].

    Three decimals. Raises ValueError for fewer than two readings.

    >>> q95(14)
    4.743
    """
    _need_two(n)
    if n - 2 < len(_Q95):
        return _Q95[n - 2]
    low, high = _Q95[-1], 2 * _TAIL
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (middle, high) if _range_cdf(n, middle) < 0.95 else (low, middle)
    return round(low, 3)


@lru_cache(maxsize=256)
def expected_range(n: int) -> float:
    """Return the mean spread that n equal things show by measuring error alone [standard uncertainties].

    Known as d2 on control charts. Raises ValueError for fewer than two readings.

    >>> round(expected_range(14), 3)
    3.407
    """
    _need_two(n)

    def outside(x: float) -> float:
        below = normal_cdf(x)
        return 1 - below**n - (1 - below) ** n

    return 2 * _simpson(outside, 0, _TAIL)


def _need_two(n: int) -> None:
    if n < 2:
        raise ValueError(f"a spread needs two readings or more, not {n}")


def _range_cdf(n: int, q: float) -> float:
    def density(x: float) -> float:
        return math.exp(-x * x / 2) * (normal_cdf(x + q) - normal_cdf(x)) ** (n - 1)

    return n * _simpson(density, -_TAIL - q, _TAIL) / _ROOT_TAU


def _simpson(curve: Callable[[float], float], low: float, high: float) -> float:
    width = (high - low) / _STEPS
    inner = sum((4 if i % 2 else 2) * curve(low + i * width) for i in range(1, _STEPS))
    return (curve(low) + inner + curve(high)) * width / 3
