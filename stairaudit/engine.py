"""`check(survey, ruleset) -> Audit`: pure; measuring stays apart from judging, each rule is compiled once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Literal, NamedTuple

from stairaudit.context import Context, instruments_of
from stairaudit.datanotes import notes_on
from stairaudit.findings import Audit, Batch, DataNote, Refusal, Row, Seen
from stairaudit.gates import NEVER, Gate, Gatekeeper
from stairaudit.judging import Ready, aside, judge_of, read, withheld
from stairaudit.parts import Condition
from stairaudit.ruleset import Rule, Ruleset
from stairaudit.survey import Stair, Survey
from stairaudit.triggers import close_triggers
from stairaudit.uncertainty import Instruments

Decision = Literal["simple", "guarded"]


class Compiled:
    """One rule, ready to be asked of any flight."""

    __slots__ = ("gate", "judge", "measure", "rule")

    def __init__(self, rule: Rule) -> None:
        self.rule = rule
        self.measure = rule.measure
        self.gate = Gatekeeper(rule.when, rule.unless)
        self.judge = judge_of(rule)

    def rows(self, context: Context, strict: bool) -> list[Row]:
        """Return one row for each part."""
        ready, gate = read(context, self.measure), self.gate
        if gate.always:
            return self.judge(context, ready, (), strict)
        if not gate.per_part:
            return self._gated(gate.ask(context, None), context, ready, strict)
        rows: list[Row] = []
        for item in ready:
            sample = item[2][0]
            settled = sample.absent and not gate.assumes
            asked = NEVER if settled else gate.ask(context, sample.element)
            rows += self._gated(asked, context, (item,), strict)
        return rows

    def _gated(self, gate: Gate, context: Context, ready: tuple[Ready, ...], strict: bool) -> list[Row]:
        applies, missing, assumed = gate
        if applies is False:
            return [aside(item[2][0], self.rule.limit, assumed) for item in ready]
        rows = self.judge(context, ready, assumed, strict)
        return rows if applies else [withheld(row, missing) for row in rows]


class Rules(NamedTuple):
    """The rules to ask of a flight, of a whole stair, and of a stair with guards that run along several flights."""

    of_flight: tuple[Compiled, ...]
    of_stair: tuple[Compiled, ...]
    of_stair_and_guards: tuple[Compiled, ...]


@lru_cache(maxsize=64)
def compiled(ruleset: Ruleset) -> Rules:
    """Return the rules of a set, each compiled once."""
    rules = [Compiled(rule) for rule in ruleset.rules]
    of_stair = tuple(rule for rule in rules if rule.rule.measure.of_stair)
    return Rules(
        tuple(rule for rule in rules if not rule.rule.measure.of_stair),
        of_stair,
        tuple(rule for rule in rules if rule.rule.measure.of_stair or rule.rule.measure.spans),
    )


def _refusal(ruleset: Ruleset, survey: Survey, stair: Stair) -> Refusal | None:
    """Return why a set is not for a stair: what it is used for, or what is to be done with it; None where it is."""
    why = ruleset.refuses(stair.use, survey.purpose)
    return Refusal(stair.id, *why) if why else None


def _seen(survey: Survey) -> tuple[Seen, ...]:
    return tuple(
        Seen(stair.id, item, state)
        for stair in survey.stairs
        for item in Condition.model_fields
        if (state := getattr(stair.condition, item, None)) is not None
    )


def prepared(survey: Survey) -> tuple[Context, ...]:
    """Return what the measures are taken on: each flight of each stair, then the stair as a whole."""
    error = instruments_of(survey)
    return tuple(context for stair in survey.stairs for context in _of_stair(survey, stair, error))


def _of_stair(survey: Survey, stair: Stair, error: Instruments) -> Iterator[Context]:
    flights = tuple(Context(survey, stair, flight, error) for flight in stair.flights)
    yield from flights
    whole = Context(survey, stair, None, error)
    whole.of_flights = flights
    yield whole


def rows_of(contexts: tuple[Context, ...], ruleset: Ruleset, decision: Decision = "simple") -> tuple[Batch, ...]:
    """Judge everything on prepared contexts; a measure is taken only where its context has not kept it."""
    rules = compiled(ruleset)
    strict = decision == "guarded"
    batches: list[Batch] = []
    for context in contexts:
        stair, flight = context.stair, context.flight
        if _refusal(ruleset, context.survey, stair):
            continue
        whole = rules.of_stair_and_guards if stair.guards else rules.of_stair
        name, asked = (None, whole) if flight is None else (flight.id, rules.of_flight)
        batches += [(stair.id, name, rule.rule, rule.rows(context, strict)) for rule in asked]
    return tuple(batches)


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
    return check_several(survey, (ruleset,), decision)[0]


def check_several(survey: Survey, rulesets: Sequence[Ruleset], decision: Decision = "simple") -> tuple[Audit, ...]:
    """Return the audit of a survey against each of several sets; what they measure alike is measured once."""
    contexts = prepared(survey)
    notes = notes_on(contexts)
    return tuple(_audit(survey, ruleset, decision, contexts, notes) for ruleset in rulesets)


def _audit(
    survey: Survey, ruleset: Ruleset, decision: Decision, contexts: tuple[Context, ...], notes: tuple[DataNote, ...]
) -> Audit:
    batches = rows_of(contexts, ruleset, decision)
    refused = (_refusal(ruleset, survey, stair) for stair in survey.stairs)
    skipped = tuple(refusal for refusal in refused if refusal)
    left = {refusal.stair for refusal in skipped}
    used = tuple(context for context in contexts if context.stair.id not in left)
    told = (*(note for note in notes if note.stair not in left), *close_triggers(used, ruleset))
    return Audit(survey, ruleset, decision, batches, skipped, _seen(survey), told)
