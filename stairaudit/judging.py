"""One rule compiled to a judgement: the samples of its measure -> plain rows."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Any

from stairaudit.context import Context
from stairaudit.decision import (
    CLEAR,
    CLEARLY_INSIDE,
    CLEARLY_OUTSIDE,
    PASS,
    WARN,
    Decide,
    Outcome,
    Verdict,
    ball_verdict,
    compile_relation,
    compile_spread,
    guarded,
    remembered,
)
from stairaudit.findings import Row
from stairaudit.measures import MEASURES, Measure
from stairaudit.ruleset import Limit, Rule
from stairaudit.samples import Sample, Samples, Value
from stairaudit.uncertainty import CLOSE_PAIR_THOUSANDTHS, combined_u

UNMEASURED, NOT_APPLICABLE = Outcome.UNMEASURED, Outcome.NOT_APPLICABLE
# The samples of one measure on one context -> a row for each: (context, samples, assumed, guarded).
Judge = Callable[[Context, Samples, tuple[str, ...], bool], list[Row]]
Placed = tuple[Verdict, Value]
NOTHING = Value(None)

against = lru_cache(maxsize=512)(compile_relation)


def read(context: Context, measure: Measure) -> Samples:
    """Return the samples of a measure, taken once for each context."""
    samples: Samples | None = context.cache.get(measure.name)
    if samples is None:
        samples = context.cache[measure.name] = measure.read(context)
    return samples


def aside(sample: Sample, limit: Limit, assumed: tuple[str, ...]) -> Row:
    """Return the row of a part that is not there, or that the rule is not for."""
    return (
        sample.part, NOT_APPLICABLE, False, None, None, 0, limit, None, None, None, 0, 0, (), assumed, (),
        not sample.absent,
    )  # fmt: skip


def _open(sample: Sample, limit: Limit, assumed: tuple[str, ...]) -> Row:
    """Return the row of a part on which nothing was measured that the limit could be set beside."""
    ball = next((value.ball for value in sample.values if value.ball is not None), None)
    missing = tuple(dict.fromkeys(_gaps(sample, limit)))
    return (sample.part, UNMEASURED, False, None, None, 0, limit, None, None, ball, 0, 0, missing, assumed, (), False)


def withheld(row: Row, missing: tuple[str, ...]) -> Row:
    """Return the row of a part of which too little is known to pass, or to say that the rule applies."""
    if row[1] is NOT_APPLICABLE:
        return row
    part, _, _, _, x, u, limit, _, _, ball, readings, _, gaps, assumed, _, _ = row
    missing = tuple(dict.fromkeys(missing + gaps))
    return (part, UNMEASURED, False, None, x, u, limit, None, None, ball, readings, 0, missing, assumed, (), False)


def _gaps(sample: Sample, limit: Limit) -> tuple[str, ...]:
    if sample.missing:
        return sample.missing
    if limit.measure is not None and limit.low is None:
        return (limit.measure.replace("-", " "),)
    return (sample.part,)


def _again(sample: Sample, value: Value) -> tuple[str, ...]:
    """Name the parts to read afresh when a spread is close: error could make each of them the extreme."""
    readings = [x for _, x in sample.element]
    low, high = min(readings), max(readings)
    near = CLOSE_PAIR_THOUSANDTHS * value.u
    parts = [part for part, x in sample.element if (x - low) * 1000 <= near or (high - x) * 1000 <= near]
    return tuple(dict.fromkeys(parts))


def _severity(verdict: Verdict) -> tuple[int, Any]:
    return (0 if verdict.outcome is WARN else 1, 0 if verdict.margin is None else verdict.margin)


def _place(decide: Decide, limit: Limit, value: Value) -> Verdict | None:
    """Judge one place; a ball that settles it beats the tape."""
    if value.ball is not None:
        tried = ball_verdict(limit.relation, limit.low, value.ball.diameter, value.ball.passes)
        if tried is not None:
            return tried
    return None if value.x is None else decide(value.x, value.u)


def _at_places(
    sample: Sample, places: list[Placed], limit: Limit, assumed: tuple[str, ...], strict: bool, spread: bool
) -> Row:
    """Return the row of a part from those of its places that could be judged: the worst one decides."""
    if not places:
        return _open(sample, limit, assumed)
    verdict, value = min(places, key=lambda place: _severity(place[0]))
    gap = not sample.whole or len(places) < len(sample.values)
    settled = guarded(verdict) if strict else verdict
    again: tuple[str, ...] = ()
    if verdict.close:
        again = _again(sample, value) if spread else (sample.part,)
    row: Row = (
        sample.part, settled.outcome, verdict.close, verdict.probability, value.x, value.u, limit, verdict.margin,
        value.at, value.ball, len(places), sum([place[0].outcome is WARN for place in places]),
        _gaps(sample, limit) if gap else (), assumed, again, False,
    )  # fmt: skip
    return withheld(row, ()) if gap and verdict.outcome is PASS else row


def _carefully(rule: Rule) -> Callable[[Sample, tuple[str, ...], bool], Row]:
    """Return the judgement of one part with gaps, balls or several places, or that is not there."""
    limit, spread = rule.limit, rule.measure.kind == "spread"
    decide = compile_relation(limit.relation, limit.low, limit.high)

    def judge(sample: Sample, assumed: tuple[str, ...], strict: bool) -> Row:
        if sample.absent:
            return aside(sample, limit, assumed)
        judged = [(_place(decide, limit, value), value) for value in sample.values]
        places = [(verdict, value) for verdict, value in judged if verdict is not None]
        return _at_places(sample, places, limit, assumed, strict, spread)

    return judge


def _one_by_one(rule: Rule) -> Judge:
    """Return the judgement of values that have no distance to a limit."""
    carefully = _carefully(rule)

    def judge(_: Context, samples: Samples, assumed: tuple[str, ...], strict: bool) -> list[Row]:
        return [carefully(sample, assumed, strict) for sample in samples]

    return judge


def _bounds(limit: Limit) -> tuple[Any, Any]:
    """Return the least and the greatest figure of a limit, None for the one that it does not have."""
    if limit.relation == "between":
        return limit.low, limit.high
    figure = limit.high if limit.low is None else limit.low
    return (figure, None) if limit.relation in ("at-least", "more-than") else (None, figure)


Deciding = tuple[Any, float, Any, Any, int]


def _worst_of(limit: Limit) -> Callable[[tuple[Value, ...]], Deciding]:
    """Return the choice of the deciding value of several: x, u, where it is, its margin, and how many are outside.

    A value that is missing, or beside which a ball was tried, leaves x None.
    """
    low, high = _bounds(limit)
    touching_is_outside = limit.relation in ("less-than", "more-than")

    def worst(values: tuple[Value, ...]) -> Deciding:
        read = [x for x, _, _, ball in values if x is not None and ball is None]
        if len(read) < len(values) or not read:
            return None, 0, None, None, 0
        if low is None:
            margins = [high - x for x in read]
        elif high is None:
            margins = [x - low for x in read]
        else:
            margins = [min(x - low, high - x) for x in read]
        least = min(margins)
        x, u, at, _ = values[margins.index(least)]
        if least > 0:
            return x, u, at, least, 0
        return x, u, at, least, sum([margin < 0 or (touching_is_outside and margin == 0) for margin in margins])

    return worst


def _measured(rule: Rule) -> Judge:
    """Return the judgement of values that have a distance to one or two fixed figures.

    A whole value more than three standard uncertainties off needs no further thought, and most are.
    """
    limit, carefully, worst = rule.limit, _carefully(rule), _worst_of(rule.limit)
    low, high = _bounds(limit)
    nearby = remembered(compile_relation(limit.relation, limit.low, limit.high))

    def judge(_context: Context, samples: Samples, assumed: tuple[str, ...], strict: bool) -> list[Row]:
        rows: list[Row] = []
        for sample in samples:
            part, values, _, whole, _, _, _ = sample
            count = len(values)
            if count == 1:
                x, u, at, ball = values[0]
                if x is None or ball is not None:
                    whole = False
                elif low is None:
                    margin = high - x
                elif high is None:
                    margin = x - low
                else:
                    margin = min(x - low, high - x)
            else:
                x, u, at, margin, outside = worst(values)
            if x is None or not whole:
                rows.append(carefully(sample, assumed, strict))
                continue
            reach = CLEAR * u
            if margin >= reach > 0:
                outcome, close, probability, out = CLEARLY_INSIDE
            elif -margin >= reach > 0:
                outcome, close, probability, out = CLEARLY_OUTSIDE
            else:
                outcome, close, probability, out = nearby(x, u)
                if close and strict:
                    outcome = WARN
            rows.append((
                part, outcome, close, probability, x, u, limit, margin, at, None, count,
                out if count == 1 else outside, (), assumed, (part,) if close else (), False,
            ))  # fmt: skip
        return rows

    return judge


def _same(rule: Rule) -> Judge:
    """Return the judgement of answers, words and counts that have to be one thing."""
    limit, carefully = rule.limit, _carefully(rule)
    wanted = limit.high if limit.low is None else limit.low

    def judge(_context: Context, samples: Samples, assumed: tuple[str, ...], strict: bool) -> list[Row]:
        rows: list[Row] = []
        for sample in samples:
            part, values, _, whole, _, _, _ = sample
            x, u, at, ball = values[0] if len(values) == 1 else NOTHING
            if x is None or ball is not None or not whole:
                rows.append(carefully(sample, assumed, strict))
                continue
            outcome, out = (PASS, 0) if x == wanted else (WARN, 1)
            rows.append(
                (part, outcome, False, None, x, u, limit, None, at, None, 1, out, (), assumed, (), False)
            )  # fmt: skip
        return rows

    return judge


def _spread(rule: Rule) -> Judge:
    """Return the judgement of the spread of many readings against a greatest one."""
    limit = rule.limit
    settle = remembered(compile_spread("at-most" if limit.relation == "at-most" else "less-than", limit.low))

    def one(sample: Sample, assumed: tuple[str, ...], strict: bool) -> Row:
        if sample.absent:
            return aside(sample, limit, assumed)
        if not sample.values:
            return _open(sample, limit, assumed)
        value, n = sample.values[0], sample.n
        simple, close, _, _ = settle(value.x, value.u, n)
        outcome = WARN if close and strict else simple
        row: Row = (
            sample.part, outcome, close, None, value.x, value.u, limit, limit.low - value.x, value.at, value.ball,
            n, 1 if simple is WARN else 0, () if sample.whole else _gaps(sample, limit), assumed,
            _again(sample, value) if close else (), False,
        )  # fmt: skip
        return row if sample.whole or simple is WARN else withheld(row, ())

    def judge(_: Context, samples: Samples, assumed: tuple[str, ...], strict: bool) -> list[Row]:
        return [one(sample, assumed, strict) for sample in samples]

    return judge


def _of_reading(rule: Rule) -> Judge:
    """Return the judgement against another reading of the same part, flight or stair."""
    limit, spread = rule.limit, rule.measure.kind == "spread"
    other = MEASURES[limit.measure or ""]

    def one(context: Context, sample: Sample, assumed: tuple[str, ...], strict: bool) -> Row:
        if sample.absent:
            return aside(sample, limit, assumed)
        beside = [s for s in read(context, other) if s.part in (sample.part, "flight", "stair")]
        values = [value for s in beside for value in s.values if value.x is not None]
        if not values:
            return _open(sample, limit, assumed)
        bound = min(values, key=lambda value: value.x)
        decide = against(limit.relation, bound.x)
        known = [v._replace(u=combined_u(v.u, bound.u)) for v in sample.values if v.x is not None]
        places = [(decide(value.x, value.u), value) for value in known]
        met = Limit(limit.relation, bound.x, None, limit.measure)
        return _at_places(sample, places, met, assumed, strict, spread)

    def judge(context: Context, samples: Samples, assumed: tuple[str, ...], strict: bool) -> list[Row]:
        return [one(context, sample, assumed, strict) for sample in samples]

    return judge


def judge_of(rule: Rule) -> Judge:
    limit = rule.limit
    if limit.measure is not None:
        return _of_reading(rule)
    if rule.measure.kind == "spread":
        return _spread(rule) if limit.relation in ("at-most", "less-than") else _one_by_one(rule)
    return _same(rule) if limit.relation == "equals" else _measured(rule)
