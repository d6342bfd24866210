"""The measuring error that is assumed, beside published tolerances of tapes and control-chart factors."""

from __future__ import annotations

import math
import random

import pytest

from stairaudit.lengths import NM_PER_IN, NM_PER_MM
from stairaudit.uncertainty import COMMON_LENGTH_U, LEAST_LENGTH_U, Instruments, _range_cdf, expected_range, q95

# Directive 2014/32/EU, Annex X, material measures of length (read in the UK reproduction, SI 2016/1153 Schedule 1I):
# a + b L mm with L rounded up to the next whole metre, and c more from an end surface such as a hook.
CLASSES = {"I": (0.1, 0.1, 0.1), "II": (0.3, 0.2, 0.2), "III": (0.6, 0.4, 0.3)}


def tolerance(tape: str, length_m: float, hook: bool) -> float:
    a, b, c = CLASSES[tape]
    return a + b * math.ceil(length_m) + (c if hook else 0)


@pytest.mark.parametrize(("tape", "printed"), [("I", 0.3), ("II", 0.7), ("III", 1.3)])
def test_the_tolerance_of_a_tape_from_its_hook(tape: str, printed: float) -> None:
    assert tolerance(tape, 0.2, hook=True) == pytest.approx(printed)


def test_the_tolerance_grows_by_whole_metres() -> None:
    assert tolerance("II", 2.4, hook=False) == pytest.approx(0.9)
    assert tolerance("II", 5, hook=False) == pytest.approx(1.3)


def test_the_common_error_is_that_of_a_good_tape_with_a_hook() -> None:
    """A rectangular error within the tolerance of class II: GUM (JCGM 100:2008) 4.3.7, from memory."""
    assert round(tolerance("II", 0.2, hook=True) / math.sqrt(3), 1) * NM_PER_MM == COMMON_LENGTH_U


@pytest.mark.parametrize(("feet", "tolerance_in"), [(6, 1 / 32), (20, 1 / 16)])
def test_the_assumed_error_is_no_smaller_than_a_tape_of_the_trade_may_have(feet: int, tolerance_in: float) -> None:
    """NIST Handbook 44, 5.52, metal tapes: 1/32 in up to 6 ft, 1/16 in to 30 ft (quoted by the US Access Board)."""
    reading = feet * 12 * NM_PER_IN if feet > 6 else 8 * NM_PER_IN

    assert Instruments().length_u(reading) >= tolerance_in / math.sqrt(3) * NM_PER_IN


def test_reading_to_a_sixteenth_is_less_than_the_assumed_error() -> None:
    """Resolution d / sqrt(12): 0.018042 in for 1/16 in; GUM (JCGM 100:2008) F.2.2.1, from memory."""
    resolution = NM_PER_IN / 16 / math.sqrt(12)

    assert resolution / NM_PER_IN == pytest.approx(0.018042, abs=1e-6)
    assert resolution < LEAST_LENGTH_U < Instruments().length_u(8 * NM_PER_IN)


# Factors for constructing control charts, d3 (quoted in a reproduction of a textbook table, edition not stated).
@pytest.mark.parametrize(("n", "d3"), [(2, 0.853), (5, 0.864), (10, 0.797), (20, 0.729)])
def test_the_spread_of_equal_things_scatters_as_published(n: int, d3: float) -> None:
    width = 0.01
    square = sum(2 * (i * width) * (1 - _range_cdf(n, i * width)) * width for i in range(1, 1000))

    assert math.sqrt(square - expected_range(n) ** 2) == pytest.approx(d3, abs=0.0015)


def test_fourteen_equal_risers_show_the_published_spread() -> None:
    """A seeded simulation against d2 = 3.407 (table as above) and against the 95 % point."""
    chance = random.Random(20260418)
    spreads = []
    for _ in range(4000):
        errors = [chance.gauss(0, 1) for _ in range(14)]
        spreads.append(max(errors) - min(errors))

    assert sum(spreads) / len(spreads) == pytest.approx(3.407, abs=0.04)
    assert sum(spread > q95(14) for spread in spreads) / len(spreads) == pytest.approx(0.05, abs=0.012)
