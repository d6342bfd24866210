"""One value against one limit. Lengths are nanometres; IN is one inch."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stairaudit.decision import (
    Outcome,
    Verdict,
    ball_verdict,
    compile_relation,
    compile_spread,
    guarded,
)
from stairaudit.uncertainty import q95

IN = 25_400_000
TAPE_U = 793_750
PASS, WARN = Outcome.PASS, Outcome.WARN
# 1.645 u is the whole number 329,000 here, so the edge of "close" can be hit exactly.
U, EDGE = 200_000, 329_000


def test_the_outcomes_are_written_as_in_the_result_files():
    assert [str(outcome) for outcome in Outcome] == ["pass", "warn", "unmeasured", "not-applicable"]


@pytest.mark.parametrize(
    ("relation", "inside"),
    [("at-most", -1), ("less-than", -1), ("at-least", 1), ("more-than", 1)],
)
def test_margin_is_positive_inside_and_negative_outside(relation, inside):
    decide = compile_relation(relation, 1000)

    assert decide(1000 + 5 * inside, 0) == Verdict(PASS, 5, False, None)
    assert decide(1000 - 5 * inside, 0) == Verdict(WARN, -5, False, None)


@pytest.mark.parametrize("relation", ["at-most", "at-least"])
def test_a_reading_on_an_inclusive_limit_passes_and_is_close(relation):
    assert compile_relation(relation, 1000)(1000, U) == Verdict(PASS, 0, True, 0.5)


@pytest.mark.parametrize("relation", ["less-than", "more-than"])
def test_a_reading_on_a_strict_limit_warns_and_is_close(relation):
    assert compile_relation(relation, 1000)(1000, U) == Verdict(WARN, 0, True, 0.5)


@pytest.mark.parametrize("relation", ["at-most", "at-least", "less-than", "more-than"])
@pytest.mark.parametrize("side", [-1, 1])
def test_a_reading_exactly_the_guard_width_away_is_not_close_and_one_nanometre_nearer_is(relation, side):
    decide = compile_relation(relation, 100_000)

    assert decide(100_000 + side * EDGE, U).close is False
    assert decide(100_000 + side * (EDGE - 1), U).close is True


@pytest.mark.parametrize(("value", "close"), [(34 * IN + EDGE, False), (34 * IN + EDGE - 1, True)])
def test_between_is_close_by_its_nearer_limit(value, close):
    assert compile_relation("between", 34 * IN, 38 * IN)(value, U).close is close


@pytest.mark.parametrize(
    ("value", "outcome", "margin"),
    [
        (89, WARN, -1),
        (90, PASS, 0),
        (93, PASS, 3),
        (95, PASS, 5),
        (98, PASS, 2),
        (100, PASS, 0),
        (104, WARN, -4),
    ],
)
def test_between_includes_both_limits_and_its_margin_is_the_smaller_distance(value, outcome, margin):
    assert compile_relation("between", 90, 100)(value, 0) == Verdict(outcome, margin, False, None)


def test_between_counts_the_chance_of_lying_beyond_either_limit():
    # Limits one u either side of the reading: 68 in 100 lie within one standard deviation.
    assert compile_relation("between", -100, 100)(0, 100).probability == 0.68


@pytest.mark.parametrize(("steps", "expected"), [(50, 0.99), (3, 0.99), (-3, 0.01), (-50, 0.01)])
def test_probability_stays_within_one_and_ninety_nine_in_a_hundred(steps, expected):
    assert compile_relation("at-least", 0)(steps * U, U).probability == expected
    assert compile_relation("between", 0, 1000 * U)(steps * U, U).probability == expected


def test_probability_has_no_jump_where_the_short_way_begins():
    decide = compile_relation("at-most", 0)

    assert [decide(v, 1000).probability for v in (-3000, -2999, 2999, 3000)] == [0.99, 0.99, 0.01, 0.01]


def test_a_value_without_measuring_error_has_no_probability_and_is_never_close():
    assert compile_relation("at-least", 2)(2, 0) == Verdict(PASS, 0, False, None)
    assert compile_relation("between", 2, 4)(2, 0) == Verdict(PASS, 0, False, None)


@pytest.mark.parametrize(
    ("wanted", "value", "outcome"),
    [
        (True, True, PASS),
        (True, False, WARN),
        (2, 3, WARN),
        ("round", "round", PASS),
        ("round", "flat", WARN),
    ],
)
def test_equality_has_no_margin_no_closeness_and_no_probability(wanted, value, outcome):
    assert compile_relation("equals", wanted)(value, 0) == Verdict(outcome, None, False, None)


def test_no_can_be_the_wanted_answer():
    assert compile_relation("equals", False)(False, 0).outcome is PASS


def test_a_mean_that_is_no_whole_number_is_compared_exactly():
    third_over = Fraction(3 * 196_850_000 + 1, 3)

    assert compile_relation("at-most", 196_850_000)(third_over, TAPE_U) == Verdict(WARN, Fraction(-1, 3), True, 0.5)


@pytest.mark.parametrize("relation", ["at-most", "at-least", "less-than", "more-than"])
def test_a_single_limit_may_be_given_in_either_place(relation):
    for limit in (0, 10):
        assert compile_relation(relation, None, limit)(12, U) == compile_relation(relation, limit)(12, U)


@pytest.mark.parametrize(("low", "high"), [(1, 2), (None, None)])
def test_a_relation_with_one_limit_refuses_two_or_none(low, high):
    with pytest.raises(ValueError, match=r"^at-most takes one limit$"):
        compile_relation("at-most", low, high)


@pytest.mark.parametrize(("low", "high"), [(1, None), (None, 1)])
def test_between_refuses_a_single_limit(low, high):
    with pytest.raises(ValueError, match=r"^between takes two limits$"):
        compile_relation("between", low, high)


# 2.326 * 500 = 1163; q95(14) * 1000 = 4743.
@pytest.mark.parametrize(
    ("spread", "u", "expected"),
    [
        (10_000 - 1163, 500, Verdict(PASS, 1163, False, None)),
        (10_000 - 1162, 500, Verdict(PASS, 1162, True, None)),
        (10_000, 500, Verdict(PASS, 0, True, None)),
        (10_001, 500, Verdict(WARN, -1, True, None)),
        (10_000 + 4742, 1000, Verdict(WARN, -4742, True, None)),
        (10_000 + 4743, 1000, Verdict(WARN, -4743, False, None)),
    ],
)
def test_a_spread_is_close_further_above_the_limit_than_below(spread, u, expected):
    assert compile_spread("at-most", 10_000)(spread, u, 14) == expected


def test_a_spread_on_a_strict_limit_warns_and_is_close():
    assert compile_spread("less-than", 10_000)(10_000, 500, 14) == Verdict(WARN, 0, True, None)


def test_a_spread_without_measuring_error_is_never_close():
    assert compile_spread("at-most", 10)(10, 0, 5) == Verdict(PASS, 0, False, None)
    assert compile_spread("at-most", 10)(11, 0, 5) == Verdict(WARN, -1, False, None)


def test_more_readings_widen_the_doubt_above_a_spread_limit():
    over = round(q95(5) * 1000)
    decide = compile_spread("at-most", 0)

    assert [decide(over, 1000, n).close for n in (4, 5, 6)] == [False, False, True]


BALL_PASSES = Verdict(WARN, None, False, None)
BALL_STOPS = Verdict(PASS, None, False, None)


@pytest.mark.parametrize(
    ("relation", "diameter", "passes", "expected"),
    [
        ("less-than", 4 * IN, True, BALL_PASSES),
        ("less-than", 5 * IN, True, BALL_PASSES),
        ("less-than", 3 * IN, True, None),
        ("less-than", 4 * IN, False, BALL_STOPS),
        ("less-than", 3 * IN, False, BALL_STOPS),
        ("less-than", 5 * IN, False, None),
        ("at-most", 4 * IN, True, None),
        ("at-most", 4 * IN + 1, True, BALL_PASSES),
        ("at-most", 4 * IN, False, BALL_STOPS),
        ("at-most", 4 * IN + 1, False, None),
        ("at-least", 5 * IN, True, None),
        ("between", 3 * IN, False, None),
    ],
)
def test_a_ball_settles_only_what_its_size_can_show(relation, diameter, passes, expected):
    assert ball_verdict(relation, 4 * IN, diameter, passes) == expected


def test_the_guarded_decision_turns_a_close_pass_into_a_close_warn_and_keeps_its_margin():
    assert guarded(Verdict(PASS, 12, True, 0.62)) == Verdict(WARN, 12, True, 0.62)


@pytest.mark.parametrize(
    "verdict",
    [
        Verdict(PASS, 5000, False, 0.99),
        Verdict(WARN, -12, True, 0.38),
        Verdict(WARN, -5000, False, 0.01),
        Verdict(PASS, None, False, None),
    ],
)
def test_the_guarded_decision_leaves_every_other_verdict(verdict):
    assert guarded(verdict) == verdict


STEPS = [
    pytest.param(range(4 * 64, 9 * 64 + 1), IN // 64, 3 * IN // 8, id="1/64 in against 3/8 in"),
    pytest.param(range(1016, 2287), 100_000, 9_500_000, id="0.1 mm against 9.5 mm"),
]


@pytest.mark.parametrize(("marks", "step", "limit"), STEPS)
def test_every_pair_that_is_exactly_the_allowance_apart_passes_and_one_step_more_warns(marks, step, limit):
    decide = compile_spread("at-most", limit)
    readings = [mark * step for mark in marks]
    apart = limit // step
    exact = [decide(high - low, TAPE_U, 2) for low, high in zip(readings, readings[apart:], strict=False)]
    more = [decide(high - low, TAPE_U, 2) for low, high in zip(readings, readings[apart + 1 :], strict=False)]

    assert apart * step == limit
    assert len(exact) > 290
    assert set(exact) == {Verdict(PASS, 0, True, None)}
    assert set(more) == {Verdict(WARN, -step, True, None)}
