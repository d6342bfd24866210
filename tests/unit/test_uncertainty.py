"""Measuring error. Every length here is in nanometres unless a test says otherwise."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise
from random import Random
from statistics import NormalDist

import pytest

from stairaudit.uncertainty import (
    Instruments,
    combined_u,
    expected_range,
    normal_cdf,
    pitch_u,
    product_u,
    q95,
    step_sum_u,
    sum_u,
)

SIXTEENTH = 1_587_500
NORMAL = NormalDist()


def range_share(n: int, q: float) -> float:
    """P(range of n <= q) by Hartley's form (Biometrika 32, 1942; from memory), trapezoids, other cdf.

    [2 Phi(q/2) - 1]^n + 2 n * integral from q/2 of [Phi(x) - Phi(x - q)]^(n-1) phi(x) dx
    """
    steps, low, high = 3000, q / 2, q / 2 + 9
    width = (high - low) / steps
    points = [low + i * width for i in range(steps + 1)]
    curve = [(NORMAL.cdf(x) - NORMAL.cdf(x - q)) ** (n - 1) * NORMAL.pdf(x) for x in points]
    return (2 * NORMAL.cdf(q / 2) - 1) ** n + 2 * n * width * (sum(curve) - (curve[0] + curve[-1]) / 2)


def test_a_sixteenth_inch_tape_and_a_fifth_degree_level_are_the_usual_instruments():
    assert Instruments() == Instruments(tape=SIXTEENTH, level=Fraction(1, 5))


def test_u_of_a_tape_reading_is_half_its_division():
    assert Instruments(tape=2_000_000).length_u(190_000_000) == 1_000_000


def test_half_of_an_odd_division_is_not_rounded():
    assert Instruments(tape=1_984_375).length_u(190_000_000) == 992_187.5


@pytest.mark.parametrize("tape", [396_875, 793_750, 1_000_000, 1_200_000])
def test_u_of_a_fine_tape_is_never_below_six_tenths_of_a_millimetre(tape):
    assert Instruments(tape=tape).length_u(190_000_000) == 600_000


@pytest.mark.parametrize(
    ("reading", "u"),
    [
        (999_999_999, 793_750),
        (1_000_000_000, 793_750),
        (1_000_000_001, 1_587_500),
        (Fraction(2_000_000_001, 2), 1_587_500),
    ],
)
def test_u_doubles_only_above_one_metre(reading, u):
    assert Instruments().length_u(reading) == u


def test_the_least_u_doubles_above_one_metre_too():
    assert Instruments(tape=1_000_000).length_u(2_032_000_000) == 1_200_000


def test_u_of_a_level_reading_is_half_its_division():
    assert Instruments().angle_u() == pytest.approx(0.1)
    assert Instruments(level=Fraction(1, 10)).angle_u() == pytest.approx(0.05)


def test_a_slope_carries_the_error_of_the_level_as_rise_over_run():
    # One degree is 1.7455 in 100; from memory, any table of tangents.
    assert Instruments(level=Fraction(2)).slope_u() == pytest.approx(0.017455, abs=5e-7)


def test_a_difference_of_two_readings_carries_the_root_of_two():
    both = Instruments().difference_u(196_850_000, 188_912_500)

    assert both == pytest.approx(1.414 * 793_750, rel=2e-4)


def test_a_difference_across_one_metre_takes_the_larger_error_for_the_long_reading():
    assert Instruments(tape=2_000_000).difference_u(999_000_000, 1_001_000_000) == pytest.approx(
        math.sqrt(5) * 1_000_000
    )


def test_an_error_common_to_every_reading_of_a_sum_adds_up_once_for_each():
    fully_common = sum_u([400_000] * 14)

    assert fully_common == pytest.approx(14 * 400_000)


def test_errors_without_a_common_part_grow_with_the_root_of_their_number():
    assert sum_u([600_000] * 9, common=0) == pytest.approx(3 * 600_000)


def test_a_sum_of_one_reading_is_as_uncertain_as_the_reading():
    assert sum_u([793_750]) == pytest.approx(793_750)


def test_a_sum_of_nothing_and_a_sum_of_certain_values_are_certain():
    assert sum_u([]) == 0
    assert sum_u([0, 0]) == 0


def test_the_survey_tape_takes_the_usual_common_part():
    assert Instruments().sum_u([793_750] * 14) == sum_u([793_750] * 14, common=400_000)


def test_one_side_of_an_area_without_error_leaves_the_other_side_times_it():
    assert product_u(900, 1200, 0, 2) == pytest.approx(1800)
    assert product_u(900, 1200, 1, 0) == pytest.approx(1200)


def test_independent_errors_add_by_squares():
    assert combined_u(2, 3, 6) == pytest.approx(7)


def test_pitch_and_step_sum_errors_agree_with_a_simulated_survey():
    rng = Random(7)
    pitches, sums = [], []
    for _ in range(40_000):
        rise, run = rng.gauss(7.5, 0.03125), rng.gauss(10, 0.03125)
        pitches.append(math.degrees(math.atan2(rise, run)))
        sums.append(2 * rise + run)

    assert NormalDist.from_samples(pitches).stdev == pytest.approx(pitch_u(7.5, 10, 0.03125, 0.03125), rel=0.02)
    assert NormalDist.from_samples(sums).stdev == pytest.approx(step_sum_u(0.03125, 0.03125), rel=0.02)


def test_error_of_the_rise_alone_tilts_a_shallow_flight_more_than_error_of_the_run():
    assert pitch_u(150, 300, 1, 0) == pytest.approx(2 * pitch_u(150, 300, 0, 1))


@pytest.mark.parametrize("z", [-4, -2.5, -1, 0, 0.3, 1.645, 3.5])
def test_the_normal_distribution_agrees_with_the_standard_library(z):
    assert normal_cdf(z) == pytest.approx(NORMAL.cdf(z), abs=1e-12)


@pytest.mark.parametrize("n", range(2, 26))
def test_q95_bounds_95_of_100_spreads_by_an_integral_of_another_form(n):
    assert range_share(n, q95(n) - 0.001) < 0.95 < range_share(n, q95(n) + 0.001)


@pytest.mark.parametrize("n", [26, 40, 100])
def test_q95_beyond_the_table_bounds_95_of_100_spreads_too(n):
    assert range_share(n, q95(n) - 0.001) < 0.95 < range_share(n, q95(n) + 0.001)


def test_q95_grows_with_every_further_reading_also_past_the_end_of_the_table():
    factors = [q95(n) for n in range(2, 34)]

    assert all(a < b for a, b in pairwise(factors))


def test_fourteen_equal_risers_show_the_expected_spread_and_stay_within_q95_in_95_of_100():
    rng = Random(11)
    spreads = []
    for _ in range(10_000):
        errors = [rng.gauss(0, 1) for _ in range(14)]
        spreads.append(max(errors) - min(errors))

    assert sum(spreads) / len(spreads) == pytest.approx(expected_range(14), abs=0.03)
    assert sum(s <= q95(14) for s in spreads) / len(spreads) == pytest.approx(0.95, abs=0.008)


def test_the_expected_spread_of_two_is_two_over_the_root_of_pi():
    # Mean of |a - b| of two standard normals: 2 / sqrt(pi), worked by hand.
    assert expected_range(2) == pytest.approx(2 / math.sqrt(math.pi), abs=1e-9)


def test_the_expected_spread_of_three_is_three_over_the_root_of_pi():
    # Known closed form for three standard normals, from memory.
    assert expected_range(3) == pytest.approx(3 / math.sqrt(math.pi), abs=1e-9)


@pytest.mark.parametrize("factor", [q95, expected_range])
@pytest.mark.parametrize("n", [1, 0, -3])
def test_a_spread_of_fewer_than_two_readings_is_refused(factor, n):
    with pytest.raises(ValueError, match=rf"^a spread needs two readings or more, not {n}$"):
        factor(n)
