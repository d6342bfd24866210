"""`check(survey, ruleset) -> Audit`: pure, each rule compiled once into a closure."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Any, Literal, NamedTuple

from stairaudit.context import Context, instruments_of
from stairaudit.decision import (
    WARN,
    Decide,
    Outcome,
    Verdict,
    ball_verdict,
    compile_relation,
    compile_spread,
    guarded,
)
from stairaudit.findings import Audit, DataNote, Finding, Seen
from stairaudit.gates import Gate, Gatekeeper
from stairaudit.measures import MEASURES, Measure
from stairaudit.parts import Condition
from stairaudit.ruleset import Limit, Rule, Ruleset
from stairaudit.samples import Sample, Value
from stairaudit.survey import Survey
from stairaudit.uncertainty import CLOSE_PAIR_THOUSANDTHS, combined_u

UNMEASURED, NOT_APPLICABLE = Outcome.UNMEASURED, Outcome.NOT_APPLICABLE
Decision = Literal["simple", "guarded"]
Judge = Callable[[Context, Sample], "Judged"]


class Judged(NamedTuple):
    """The deciding place of one part, and how many places there were."""

    verdict: Verdict | None
    value: Value | None
    limit: Limit
    readings: int
    outside: int
    gap: bool


def _read(context: Context, measure: Measure) -> tuple[Sample, ...]:
    samples = context.cache.get(measure.name)
    if samples is None:
        samples = context.cache[measure.name] = measure.read(context)
    return samples


def _severity(verdict: Verdict) -> tuple[int, Any]:
    return (0 if verdict.outcome is WARN else 1, 0 if verdict.margin is None else verdict.margin)


def _at_places(places: list[tuple[Verdict, Value]], gap: bool, limit: Limit) -> Judged:
    if not places:
        return Judged(None, None, limit, 0, 0, True)
    verdict, value = min(places, key=lambda place: _severity(place[0])) if len(places) > 1 else places[0]
    outside = sum([place[0].outcome is WARN for place in places])
    return Judged(verdict, value, limit, len(places), outside, gap)


def _place(decide: Decide, limit: Limit, value: Value) -> Verdict | None:
    """Judge one place; a ball that settles it beats the tape."""
    if value.ball is not None:
        tried = ball_verdict(limit.relation, limit.low, value.ball.diameter, value.ball.passes)
        if tried is not None:
            return tried
    return None if value.x is None else decide(value.x, value.u)


def _fixed(limit: Limit) -> Judge:
    decide = compile_relation(limit.relation, limit.low, limit.high)

    def judge(_: Context, sample: Sample) -> Judged:
        values = sample.values
        if len(values) == 1 and values[0].ball is None:
            value = values[0]
            if value.x is None:
                return Judged(None, None, limit, 0, 0, True)
            verdict = decide(value.x, value.u)
            return Judged(verdict, value, limit, 1, int(verdict.outcome is WARN), not sample.whole)
        judged = [(_place(decide, limit, value), value) for value in values]
        places = [(verdict, value) for verdict, value in judged if verdict is not None]
        return _at_places(places, len(places) < len(values) or not sample.whole, limit)

    return judge


def _spread(limit: Limit) -> Judge:
    decide = compile_spread("at-most" if limit.relation == "at-most" else "less-than", limit.low)

    def judge(_: Context, sample: Sample) -> Judged:
        if not sample.values:
            return Judged(None, None, limit, 0, 0, True)
        value = sample.values[0]
        verdict = decide(value.x, value.u, sample.n)
        return Judged(verdict, value, limit, sample.n, int(verdict.outcome is WARN), not sample.whole)

    return judge


def _of_reading(limit: Limit) -> Judge:
    other = MEASURES[limit.measure or ""]

    def judge(context: Context, sample: Sample) -> Judged:
        against = [s for s in _read(context, other) if s.part in (sample.part, "flight", "stair")]
        values = [value for s in against for value in s.values if value.x is not None]
        if not values:
            return Judged(None, None, limit, 0, 0, True)
        bound = min(values, key=lambda value: value.x)
        decide = compile_relation(limit.relation, bound.x)
        known = [v._replace(u=combined_u(v.u, bound.u)) for v in sample.values if v.x is not None]
        places = [(decide(value.x, value.u), value) for value in known]
        met = Limit(limit.relation, bound.x, None, limit.measure)
        return _at_places(places, len(known) < len(sample.values) or not sample.whole, met)

    return judge


def _judge_of(rule: Rule) -> Judge:
    if rule.limit.measure is not None:
        return _of_reading(rule.limit)
    if rule.measure.kind == "spread" and rule.limit.relation in ("at-most", "less-than"):
        return _spread(rule.limit)
    return _fixed(rule.limit)


def _again(sample: Sample, value: Value) -> tuple[str, ...]:
    """Name the parts to read afresh when a spread is close: error could make each of them the extreme."""
    readings = [x for _, x in sample.element]
    low, high = min(readings), max(readings)
    near = CLOSE_PAIR_THOUSANDTHS * value.u
    parts = [part for part, x in sample.element if (x - low) * 1000 <= near or (high - x) * 1000 <= near]
    return tuple(dict.fromkeys(parts))


class Compiled:
    """One rule, ready to be asked of any flight."""

    __slots__ = ("gate", "judge", "rule")

    def __init__(self, rule: Rule) -> None:
        self.rule = rule
        self.gate = Gatekeeper(rule.when, rule.unless)
        self.judge = _judge_of(rule)

    def findings(self, context: Context, stair: str, flight: str | None, strict: bool) -> list[Finding]:
        """Return one finding for each part."""
        samples = _read(context, self.rule.measure)
        make, at = self._finding, (stair, flight)
        if not self.gate.per_part:
            gate = self.gate.ask(context, None)
            return [make(context, sample, gate, at, strict) for sample in samples]
        ask = self.gate.ask
        return [make(context, sample, ask(context, sample.element), at, strict) for sample in samples]

    def _finding(
        self, context: Context, sample: Sample, gate: Gate, at: tuple[str, str | None], strict: bool
    ) -> Finding:
        rule = self.rule
        if sample.absent or gate.applies is False:
            return Finding(
                at[0], at[1], sample.part, rule, NOT_APPLICABLE, False, None, None, 0, rule.limit, None,
                None, None, 0, 0, (), gate.assumed, (), not sample.absent,
            )  # fmt: skip
        judged = self.judge(context, sample)
        verdict, value, limit, readings, outside, gap = judged
        if gate.applies is None or verdict is None or (gap and verdict.outcome is not WARN):
            missing = tuple(dict.fromkeys(gate.missing + _gaps(sample, judged)))
            x, u = (value.x, value.u) if value else (None, 0)
            return Finding(
                at[0], at[1], sample.part, rule, UNMEASURED, False, None, x, u, limit, None,
                None, value.ball if value else _ball(sample), readings, 0, missing, gate.assumed, (), False,
            )  # fmt: skip
        assert value is not None
        if strict:
            verdict = guarded(verdict)
        again: tuple[str, ...] = ()
        if verdict.close:
            again = _again(sample, value) if rule.measure.kind == "spread" else (sample.part,)
        return Finding(
            at[0], at[1], sample.part, rule, verdict.outcome, verdict.close, verdict.probability, value.x, value.u,
            limit, verdict.margin, value.at, value.ball, readings, outside,
            _gaps(sample, judged) if gap else (), gate.assumed, again, False,
        )  # fmt: skip


def _ball(sample: Sample) -> Any:
    return next((value.ball for value in sample.values if value.ball is not None), None)


def _gaps(sample: Sample, judged: Judged) -> tuple[str, ...]:
    if sample.missing:
        return sample.missing
    if judged.limit.measure is not None and judged.limit.low is None:
        return (judged.limit.measure.replace("-", " "),)
    return (sample.part,) if judged.gap else ()


@lru_cache(maxsize=64)
def compiled(ruleset: Ruleset) -> tuple[tuple[Compiled, ...], tuple[Compiled, ...]]:
    """Return the rules of a set compiled once: those of a flight, and those of a whole stair."""
    rules = [Compiled(rule) for rule in ruleset.rules]
    return (
        tuple(rule for rule in rules if not rule.rule.measure.of_stair),
        tuple(rule for rule in rules if rule.rule.measure.of_stair),
    )


PARTS = ("riser", "tread", "nosing", "flight", "side", "handrail", "guard", "landing", "glazing", "stair")


@lru_cache(maxsize=512)
def _rank(part: str) -> tuple[int, int, str]:
    noun, _, rest = part.partition(" ")
    kind = noun.removesuffix("s")
    number = rest.partition("-")[0]
    order = PARTS.index(kind) if kind in PARTS else len(PARTS)
    return order, int(number) if number.isdigit() else 0, noun


def _skipped(survey: Survey, ruleset: Ruleset) -> dict[str, str]:
    return {
        stair.id: stair.use
        for stair in survey.stairs
        if ruleset.uses and stair.use is not None and stair.use not in ruleset.uses
    }


def _seen(survey: Survey) -> tuple[Seen, ...]:
    return tuple(
        Seen(stair.id, item, state)
        for stair in survey.stairs
        for item in Condition.model_fields
        if (state := getattr(stair.condition, item, None)) is not None
    )


def _notes(survey: Survey) -> tuple[DataNote, ...]:
    return tuple(
        DataNote(stair.id, flight.id, f"form-{flight.form}")
        for stair in survey.stairs
        for flight in stair.flights
        if flight.form not in (None, "straight")
    )


def check(survey: Survey, ruleset: Ruleset, decision: Decision = "simple") -> Audit:
    """Compare every reading of a survey with every rule of a set.

    Parameters
    ----------
    survey, ruleset
        As returned by `load_survey` and `load_ruleset`.
    decision
        `simple` compares each reading as read; `guarded` turns a close pass into a warn.

    Returns
    -------
    Audit
        One finding for each rule and part, in the order flight, part, rule.
    """
    of_flight, of_stair = compiled(ruleset)
    error, strict = instruments_of(survey), decision == "guarded"
    skipped = _skipped(survey, ruleset)
    findings: list[Finding] = []
    for stair in survey.stairs:
        if stair.id in skipped:
            continue
        for flight in stair.flights:
            context = Context(survey, stair, flight, error)
            found = [f for rule in of_flight for f in rule.findings(context, stair.id, flight.id, strict)]
            findings += sorted(found, key=lambda finding: _rank(finding.part))
        context = Context(survey, stair, None, error)
        findings += [f for rule in of_stair for f in rule.findings(context, stair.id, None, strict)]
    seen, notes = _seen(survey), _notes(survey)
    return Audit(survey, ruleset, decision, tuple(findings), tuple(skipped.items()), seen, notes)
