"""One value against one limit: inside or outside as read, and whether the measuring error could change it."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from functools import lru_cache
from typing import Any, Literal, NamedTuple

from stairaudit.samples import Number
from stairaudit.uncertainty import CLOSE_PAIR_THOUSANDTHS, CLOSE_THOUSANDTHS, normal_cdf, q95

Relation = Literal["at-most", "at-least", "less-than", "more-than", "between", "equals"]


class Outcome(StrEnum):
    """What a finding says about its rule."""

    PASS = "pass"
    WARN = "warn"
    UNMEASURED = "unmeasured"
    NOT_APPLICABLE = "not-applicable"


# Bound once: on Python 3.11 every look-up of an enum member through its class is a call.
PASS, WARN = Outcome.PASS, Outcome.WARN


class Verdict(NamedTuple):
    """One value judged: `margin` is positive inside [unit of the value], None where there is no distance.

    `probability` that the true value meets the limit is None where there is no measuring error.
    """

    outcome: Outcome
    margin: Number | None
    close: bool
    probability: float | None


Decide = Callable[[Any, float], Verdict]
DecideSpread = Callable[[Number, float, int], Verdict]

# Beyond this many standard uncertainties the probability is 0.99 or 0.01 and nothing is close.
CLEAR = 3
_LEAST, _MOST = 0.01, 0.99

# A verdict without its margin, and with 1 where the value as read lies outside, else 0.
Settled = tuple[Outcome, bool, float | None, int]
CLEARLY_INSIDE: Settled = (PASS, False, _MOST, 0)
CLEARLY_OUTSIDE: Settled = (WARN, False, _LEAST, 1)


def compile_relation(relation: Relation, low: Any, high: Any = None) -> Decide:
    """Return a function (value, u) -> Verdict with the limits bound; value, u and limits share one unit.

    `between` takes both limits; every other relation takes one, as `low` or as `high`. The outcome
    compares the value as read (simple acceptance, JCGM 106:2012 clause 8.2, from memory), and `close`
    tells that the nearer limit lies less than 1.645 u away. u is 0 where nothing is uncertain.

    Raises ValueError when the number of limits does not fit the relation.

    >>> decide = compile_relation("at-most", 196_850_000)
    >>> decide(198_437_500, 793_750)
    Verdict(outcome=<Outcome.WARN: 'warn'>, margin=-1587500, close=False, probability=0.02)
    """
    if relation == "between":
        if low is None or high is None:
            raise ValueError("between takes two limits")
        return _between(low, high)
    return _ONE_LIMIT[relation](_only(relation, low, high))


def remembered(decide: Callable[..., Verdict]) -> Callable[..., Settled]:
    """Return a decision that keeps its latest answers: readings stand on the marks of a tape, so they repeat."""

    @lru_cache(maxsize=512)
    def settle(*reading: Any) -> Settled:
        outcome, _, close, probability = decide(*reading)
        return outcome, close, probability, 1 if outcome is WARN else 0

    return settle


def compile_spread(relation: Literal["at-most", "less-than"], limit: Number) -> DecideSpread:
    """Return a function (spread, u, n) -> Verdict for the spread of n readings with error u each.

    Measuring error widens a spread, so it is close from 2.326 u below the limit to q95(n) u above it.

    >>> compile_spread("at-most", 9_525_000)(12_700_000, 793_750, 14)
    Verdict(outcome=<Outcome.WARN: 'warn'>, margin=-3175000, close=True, probability=None)
    """
    inclusive = relation == "at-most"

    def decide(spread: Number, u: float, n: int) -> Verdict:
        margin = limit - spread
        if margin > 0 or (inclusive and margin == 0):
            return Verdict(PASS, margin, margin * 1000 < CLOSE_PAIR_THOUSANDTHS * u, None)
        return Verdict(WARN, margin, -margin * 1000 < round(q95(n) * 1000) * u, None)

    return decide


def ball_verdict(relation: Relation, limit: Number, diameter: Number, passes: bool) -> Verdict | None:
    """Return what a ball of a diameter [unit of the limit] tried in an opening settles, None for nothing.

    A ball that passes shows an opening of its diameter or more, one that does not pass a smaller one.

    >>> ball_verdict("less-than", 111_125_000, 101_600_000, passes=True) is None
    True
    """
    if relation not in ("at-most", "less-than"):
        return None
    if not passes:
        return Verdict(PASS, None, False, None) if diameter <= limit else None
    outside = diameter > limit or (relation == "less-than" and diameter == limit)
    return Verdict(WARN, None, False, None) if outside else None


def guarded(verdict: Verdict) -> Verdict:
    """Return the verdict of one who counts only what is clearly inside: a close pass becomes a warn."""
    if verdict.close and verdict.outcome is PASS:
        return verdict._replace(outcome=WARN)
    return verdict


def _only(relation: str, low: Any, high: Any) -> Any:
    if (low is None) == (high is None):
        raise ValueError(f"{relation} takes one limit")
    return high if low is None else low


def _upper(limit: Number, inclusive: bool) -> Decide:
    def decide(value: Number, u: float) -> Verdict:
        margin = limit - value
        return _one_sided(margin > 0 or (inclusive and margin == 0), margin, u)

    return decide


def _lower(limit: Number, inclusive: bool) -> Decide:
    def decide(value: Number, u: float) -> Verdict:
        margin = value - limit
        return _one_sided(margin > 0 or (inclusive and margin == 0), margin, u)

    return decide


def _between(low: Number, high: Number) -> Decide:
    def decide(value: Number, u: float) -> Verdict:
        above, below = value - low, high - value
        margin = min(above, below)
        outcome = PASS if margin >= 0 else WARN
        size = margin if margin >= 0 else -margin
        if not u or size >= CLEAR * u:
            return _clear(outcome, margin, u)
        probability = _kept(normal_cdf(below / u) - normal_cdf(-above / u))
        return Verdict(outcome, margin, size * 1000 < CLOSE_THOUSANDTHS * u, probability)

    return decide


def _equals(wanted: Any) -> Decide:
    def decide(value: Any, _u: float) -> Verdict:
        return Verdict(PASS if value == wanted else WARN, None, False, None)

    return decide


def _one_sided(inside: bool, margin: Number, u: float) -> Verdict:
    outcome = PASS if inside else WARN
    if not u:
        return Verdict(outcome, margin, False, None)
    size = margin if margin >= 0 else -margin
    if size >= CLEAR * u:
        return Verdict(outcome, margin, False, _MOST if margin > 0 else _LEAST)
    return Verdict(outcome, margin, size * 1000 < CLOSE_THOUSANDTHS * u, _kept(normal_cdf(margin / u)))


def _clear(outcome: Outcome, margin: Number, u: float) -> Verdict:
    if not u:
        return Verdict(outcome, margin, False, None)
    return Verdict(outcome, margin, False, _MOST if margin > 0 else _LEAST)


def _kept(probability: float) -> float:
    return min(max(round(probability, 2), _LEAST), _MOST)


_ONE_LIMIT: dict[str, Callable[[Any], Decide]] = {
    "at-most": lambda limit: _upper(limit, inclusive=True),
    "less-than": lambda limit: _upper(limit, inclusive=False),
    "at-least": lambda limit: _lower(limit, inclusive=True),
    "more-than": lambda limit: _lower(limit, inclusive=False),
    "equals": _equals,
}
