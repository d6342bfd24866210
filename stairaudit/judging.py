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
    Settled,
    Verdict,
    ball_verdict,
    compile_relation,
    compile_spread,
    remembered,
)
from stairaudit.findings import Row
from stairaudit.measures import MEASURES, Measure
from stairaudit.ruleset import Limit, Rule, bounds_of
from stairaudit.samples import Sample, Value
from stairaudit.uncertainty import combined_u

NOT_APPLICABLE: Settled = (Outcome.NOT_APPLICABLE, False, None, 0)
UNMEASURED: Settled = (Outcome.UNMEASURED, False, None, 0)
SAME: Settled = (PASS, False, None, 0)
OTHER: Settled = (WARN, False, None, 1)

# A sample made ready: x and u of its only value where it is one whole reading, else x is None; then where they are
# from. A judgement touches three objects instead of five, which is most of its time over many stairs.
Ready = tuple[Any, float, tuple[Sample, Value | None]]
# (context, ready samples of one measure, assumed, guarded) -> a row for each.
Judge = Callable[[Context, tuple[Ready, ...], tuple[str, ...], bool], list[Row]]
Placed = tuple[Verdict, Value]

against = lru_cache(maxsize=512)(compile_relation)


def _ready(sample: Sample) -> Ready:
    if sample.whole and len(sample.values) == 1:
        value = sample.values[0]
        if value.x is not None and value.ball is None:
            return value.x, value.u, (sample, value)
    return None, 0, (sample, None)


def read(context: Context, measure: Measure) -> tuple[Ready, ...]:
    """Return the samples of a measure, taken once for each context."""
    key = measure.name if measure.at is None else (measure.name, measure.at)
    ready: tuple[Ready, ...] | None = context.cache.get(key)
    if ready is None:
        ready = context.cache[key] = tuple(map(_ready, measure.read(context)))
    return ready


def aside(sample: Sample, limit: Limit, assumed: tuple[str, ...]) -> Row:
    """Return the row of a part that is not there, or that the rule is not for."""
    return (sample, None), None, NOT_APPLICABLE, (limit, 0, (), assumed)


def _open(sample: Sample, limit: Limit, assumed: tuple[str, ...]) -> Row:
    """Return the row of a part on which nothing was measured that the limit could be set beside."""
    return (sample, None), None, UNMEASURED, (limit, 0, tuple(dict.fromkeys(_gaps(sample, limit))), assumed)


def withheld(row: Row, missing: tuple[str, ...]) -> Row:
    """Return the row of a part of which too little is known to pass, or to say that the rule applies."""
    source, _, settled, (limit, readings, gaps, assumed) = row
    if settled is NOT_APPLICABLE:
        return row
    return source, None, UNMEASURED, (limit, readings, tuple(dict.fromkeys(missing + gaps)), assumed)


def _gaps(sample: Sample, limit: Limit) -> tuple[str, ...]:
    if sample.missing:
        return sample.missing
    if limit.measure is not None and limit.low is None:
        return (limit.measure.replace("-", " "),)
    return (sample.part,)


def _guarded(settled: Settled, strict: bool) -> Settled:
    """Turn a close pass into a warn where only what is clearly inside counts."""
    outcome, close, probability, outside = settled
    return (WARN, close, probability, outside) if strict and close and outcome is PASS else settled


def _severity(verdict: Verdict) -> tuple[int, Any]:
    return (0 if verdict.outcome is WARN else 1, 0 if verdict.margin is None else verdict.margin)


def _place(decide: Decide, limit: Limit, value: Value) -> Verdict | None:
    """Judge one place; a ball that settles it beats the tape."""
    if value.ball is not None:
        tried = ball_verdict(limit.relation, limit.low, value.ball.diameter, value.ball.passes)
        if tried is not None:
            return tried
    return None if value.x is None else decide(value.x, value.u)


def _at_places(sample: Sample, places: list[Placed], limit: Limit, assumed: tuple[str, ...], strict: bool) -> Row:
    """Return the row of a part from those of its places that could be judged: the worst one decides."""
    if not places:
        return _open(sample, limit, assumed)
    verdict, value = min(places, key=lambda place: _severity(place[0]))
    gap = not sample.whole or len(places) < len(sample.values)
    outside = sum([place[0].outcome is WARN for place in places])
    settled = _guarded((verdict.outcome, verdict.close, verdict.probability, outside), strict)
    told = (limit, len(places), _gaps(sample, limit) if gap else (), assumed)
    row = ((sample, value), verdict.margin, settled, told)
    return withheld(row, ()) if gap and verdict.outcome is PASS else row


Carefully = Callable[[Sample, tuple[str, ...], bool], Row]


def _carefully(limit: Limit) -> Carefully:
    """Return the judgement of one part with gaps or balls, or that is not there."""
    decide = compile_relation(limit.relation, limit.low, limit.high)

    def judge(sample: Sample, assumed: tuple[str, ...], strict: bool) -> Row:
        if sample.absent:
            return aside(sample, limit, assumed)
        judged = [(_place(decide, limit, value), value) for value in sample.values]
        places = [(verdict, value) for verdict, value in judged if verdict is not None]
        return _at_places(sample, places, limit, assumed, strict)

    return judge


def _same(limit: Limit) -> Judge:
    """Return the judgement of answers, words and counts that have to be one thing."""
    wanted, carefully = limit.high if limit.low is None else limit.low, _carefully(limit)

    def judge(_: Context, ready: tuple[Ready, ...], assumed: tuple[str, ...], strict: bool) -> list[Row]:
        told = (limit, 1, (), assumed)
        return [
            carefully(source[0], assumed, strict)
            if x is None
            else (source, None, SAME if x == wanted else OTHER, told)
            for x, _, source in ready
        ]

    return judge


def _margins(limit: Limit) -> Callable[[list[Any]], list[Any]]:
    """Return a function from values to their distances inside the limit."""
    low, high = bounds_of(limit)
    if low is None:
        return lambda listed: [high - x for x in listed]
    if high is None:
        return lambda listed: [x - low for x in listed]
    return lambda listed: [min(x - low, high - x) for x in listed]


def _several(limit: Limit, nearby: Callable[..., Settled]) -> Carefully:
    """Return the judgement of one part with several places, of which the worst one decides."""
    carefully, margins_of = _carefully(limit), _margins(limit)
    touching = limit.relation in ("less-than", "more-than")

    def judge(sample: Sample, assumed: tuple[str, ...], strict: bool) -> Row:
        values = sample.values
        known = [x for x, _, _, ball in values if x is not None and ball is None] if sample.whole else []
        if len(known) < len(values) or not known:
            return carefully(sample, assumed, strict)
        margins = margins_of(known)
        least = min(margins)
        value = values[margins.index(least)]
        outcome, close, probability, outside = nearby(value[0], value[1])
        if outside:
            outside = sum([margin < 0 or (touching and margin == 0) for margin in margins])
        settled = _guarded((outcome, close, probability, outside), strict)
        return (sample, value), least, settled, (limit, len(values), (), assumed)

    return judge


def _measured(limit: Limit) -> Judge:
    """Return the judgement of values that have a distance to one or two fixed figures.

    One whole reading that lies three standard uncertainties off needs no further thought, and most do.
    """
    low, high = bounds_of(limit)
    nearby = remembered(compile_relation(limit.relation, limit.low, limit.high))
    several = _several(limit, nearby)

    def judge(_: Context, ready: tuple[Ready, ...], assumed: tuple[str, ...], strict: bool) -> list[Row]:
        rows: list[Row] = []
        told = (limit, 1, (), assumed)
        for x, u, source in ready:
            if x is None:
                rows.append(several(source[0], assumed, strict))
                continue
            reach = CLEAR * u
            margin = high - x if low is None else x - low if high is None else min(x - low, high - x)
            if margin >= reach > 0:
                rows.append((source, margin, CLEARLY_INSIDE, told))
            elif -margin >= reach > 0:
                rows.append((source, margin, CLEARLY_OUTSIDE, told))
            else:
                settled = nearby(x, u)
                rows.append((source, margin, _guarded(settled, strict) if strict else settled, told))
        return rows

    return judge


def _one_by_one(limit: Limit) -> Judge:
    """Return the judgement of values against a limit that is seldom set for them."""
    carefully = _carefully(limit)

    def judge(_: Context, ready: tuple[Ready, ...], assumed: tuple[str, ...], strict: bool) -> list[Row]:
        return [carefully(sample, assumed, strict) for _, _, (sample, _) in ready]

    return judge


def _spread(limit: Limit) -> Judge:
    """Return the judgement of the spread of many readings against a greatest one."""
    settle = remembered(compile_spread("at-most" if limit.relation == "at-most" else "less-than", limit.low))

    def one(sample: Sample, assumed: tuple[str, ...], strict: bool) -> Row:
        if sample.absent:
            return aside(sample, limit, assumed)
        if not sample.values:
            return _open(sample, limit, assumed)
        value, n = sample.values[0], sample.n
        simple = settle(value.x, value.u, n)
        told = (limit, n, () if sample.whole else _gaps(sample, limit), assumed)
        row = ((sample, value), limit.low - value.x, _guarded(simple, strict), told)
        return row if sample.whole or simple[0] is WARN else withheld(row, ())

    def judge(_: Context, ready: tuple[Ready, ...], assumed: tuple[str, ...], strict: bool) -> list[Row]:
        return [one(sample, assumed, strict) for _, _, (sample, _) in ready]

    return judge


def _of_reading(limit: Limit) -> Judge:
    """Return the judgement against another reading of the same part, flight or stair."""
    other = MEASURES[limit.measure or ""]

    def one(context: Context, sample: Sample, assumed: tuple[str, ...], strict: bool) -> Row:
        if sample.absent:
            return aside(sample, limit, assumed)
        there = [s for _, _, (s, _) in read(context, other)]
        # Of a row of parts of another kind the bottom one counts: a rail's lower end goes by the first tread.
        beside = [s for s in there if s.part in (sample.part, "flight", "stair")] or there[:1]
        values = [value for s in beside for value in s.values if value.x is not None]
        if not values:
            return _open(sample, limit, assumed)
        bound = min(values, key=lambda value: value.x)
        decide = against(limit.relation, bound.x)
        known = [v._replace(u=combined_u(v.u, bound.u)) for v in sample.values if v.x is not None]
        places = [(decide(value.x, value.u), value) for value in known]
        return _at_places(sample, places, Limit(limit.relation, bound.x, None, limit.measure), assumed, strict)

    def judge(context: Context, ready: tuple[Ready, ...], assumed: tuple[str, ...], strict: bool) -> list[Row]:
        return [one(context, sample, assumed, strict) for _, _, (sample, _) in ready]

    return judge


def judge_of(rule: Rule) -> Judge:
    """Return the judgement that goes with the measure and the limit of a rule."""
    limit = rule.limit
    if limit.measure is not None:
        return _of_reading(limit)
    if rule.measure.kind == "spread":
        return _spread(limit) if limit.relation in ("at-most", "less-than") else _one_by_one(limit)
    return _same(limit) if limit.relation == "equals" else _measured(limit)
