"""What must hold for every value, limit and measuring error, not only for chosen ones."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from stairaudit.decision import Outcome, compile_relation, compile_spread, guarded

ONE_LIMIT = ("at-most", "at-least", "less-than", "more-than")
LENGTHS = st.integers(0, 4_000_000_000)
ERRORS = st.one_of(st.integers(0, 5_000_000), st.floats(0, 5_000_000))
NEAR = st.integers(-10_000_000, 10_000_000)


@given(st.sampled_from(ONE_LIMIT), LENGTHS, NEAR, LENGTHS, ERRORS)
def test_a_stricter_limit_never_removes_a_warn(relation, limit, distance, stricter_by, u):
    tighten = -stricter_by if relation in ("at-most", "less-than") else stricter_by
    if compile_relation(relation, limit)(limit + distance, u).outcome is Outcome.WARN:
        assert compile_relation(relation, limit + tighten)(limit + distance, u).outcome is Outcome.WARN


@given(LENGTHS, LENGTHS, LENGTHS, LENGTHS, LENGTHS, ERRORS)
def test_a_narrower_band_never_removes_a_warn(low, width, raise_low, lower_high, value, u):
    if compile_relation("between", low, low + width)(value, u).outcome is Outcome.WARN:
        narrower = compile_relation("between", low + raise_low, low + width - lower_high)
        assert narrower(value, u).outcome is Outcome.WARN


@given(LENGTHS, LENGTHS, LENGTHS, ERRORS, st.integers(2, 40))
def test_a_stricter_spread_limit_never_removes_a_warn(limit, stricter_by, spread, u, n):
    if compile_spread("at-most", limit)(spread, u, n).outcome is Outcome.WARN:
        assert compile_spread("at-most", limit - stricter_by)(spread, u, n).outcome is Outcome.WARN


@given(st.sampled_from(ONE_LIMIT), LENGTHS, NEAR, ERRORS, ERRORS)
def test_measuring_error_never_changes_a_plain_outcome(relation, limit, distance, u, more):
    decide = compile_relation(relation, limit)

    assert decide(limit + distance, u + more)[:2] == decide(limit + distance, u)[:2]


@given(st.sampled_from(ONE_LIMIT), LENGTHS, NEAR, ERRORS, ERRORS)
def test_more_measuring_error_never_turns_a_guarded_warn_into_a_pass(relation, limit, distance, u, more):
    decide = compile_relation(relation, limit)
    if guarded(decide(limit + distance, u)).outcome is Outcome.WARN:
        assert guarded(decide(limit + distance, u + more)).outcome is Outcome.WARN


@given(LENGTHS, NEAR, ERRORS, ERRORS, st.integers(2, 40))
def test_more_measuring_error_never_turns_a_guarded_spread_warn_into_a_pass(limit, distance, u, more, n):
    decide = compile_spread("at-most", limit)
    if guarded(decide(limit + distance, u, n)).outcome is Outcome.WARN:
        assert guarded(decide(limit + distance, u + more, n)).outcome is Outcome.WARN


@given(LENGTHS, LENGTHS, ERRORS)
def test_a_reading_on_the_limit_passes_every_inclusive_relation(limit, width, u):
    assert compile_relation("at-most", limit)(limit, u).outcome is Outcome.PASS
    assert compile_relation("at-least", limit)(limit, u).outcome is Outcome.PASS
    assert compile_relation("between", limit, limit + width)(limit, u).outcome is Outcome.PASS
    assert compile_relation("between", limit, limit + width)(limit + width, u).outcome is Outcome.PASS


@given(st.sampled_from(ONE_LIMIT), LENGTHS, NEAR, st.integers(1, 5_000_000))
def test_a_probability_has_two_decimals_within_its_bounds_and_sides_with_the_margin(relation, limit, distance, u):
    verdict = compile_relation(relation, limit)(limit + distance, u)

    assert verdict.probability == round(verdict.probability, 2)
    assert 0.01 <= verdict.probability <= 0.99
    assert (verdict.probability - 0.5) * verdict.margin >= 0


@given(LENGTHS, NEAR, st.integers(1, 5_000_000))
def test_an_upper_and_a_lower_limit_mirror_each_other(limit, distance, u):
    assert compile_relation("at-most", limit)(limit + distance, u) == compile_relation("at-least", limit)(
        limit - distance, u
    )
