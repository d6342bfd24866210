"""What an audit found, as facts; no words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import groupby
from typing import Any, Literal, NamedTuple

from stairaudit.decision import Outcome
from stairaudit.ruleset import Limit, Rule, Ruleset
from stairaudit.samples import At, Ball, Sample, Value
from stairaudit.survey import Survey
from stairaudit.uncertainty import CLOSE_PAIR_THOUSANDTHS

Number = int | Fraction
NOTHING = Value(None)


class Finding(NamedTuple):
    """One rule on one part: what was read, how it lies to the limit, and what was missing or assumed.

    Values are in the unit of the rule's measure. `limit` has the figure that was compared, also where
    it is another reading. `again` names the parts to measure once more. `computed`: the value was worked
    out from other readings. `basis` says which surface the tape stood on, None where that plays no part.
    `opposite` is the worst place beyond the other figure of a limit with two, None where none lies there.
    `gaps` are the places of a part on which nothing was read, where other places were.
    """

    stair: str
    flight: str | None
    part: str
    rule: Rule
    outcome: Outcome
    close: bool
    probability: float | None
    value: Any
    u: float
    limit: Limit
    margin: Number | None
    at: At | None
    ball: Ball | None
    readings: int
    outside: int
    missing: tuple[str, ...]
    assumed: tuple[str, ...]
    again: tuple[str, ...]
    excused: bool
    computed: bool
    basis: str | None
    opposite: Value | None = None
    gaps: tuple[At, ...] = ()


class Seen(NamedTuple):
    """One item of the condition list of a stair."""

    stair: str
    item: str
    state: str


class Refusal(NamedTuple):
    """A stair that the rule set is not for: by its `use`, or by the `purpose` of the survey, with its value."""

    stair: str
    by: Literal["use", "purpose"]
    value: str


class DataNote(NamedTuple):
    """Something about the readings themselves, apart from any clause; `sizes` are the readings [nm].

    `angles` are angles [deg], `counts` numbers of things, `typed` what was written and `meant` what may
    have been; `sure` where another reading bears that out.
    """

    stair: str
    flight: str | None
    kind: str
    sizes: tuple[Number, ...] = ()
    part: str | None = None
    angles: tuple[float, ...] = ()
    counts: tuple[int, ...] = ()
    typed: str = ""
    meant: str = ""
    sure: bool = False


# What was judged, as it came out: (sample, its deciding value or None), the margin, then (outcome, close,
# probability, outside) and (limit, readings, missing, assumed), which many rows share. Plain tuples, since a named
# one costs more than its judgement; a finding is made of a row when it is first looked at.
Row = tuple[Any, ...]
# The rows of one rule: the stair, the flight (None for the whole stair), the rule, a row for each part.
Batch = tuple[str, str | None, Rule, list[Row]]

PARTS = ("riser", "tread", "nosing", "flight", "side", "handrail", "guard", "landing", "glazing", "stair")


@lru_cache(maxsize=512)
def _rank(part: str) -> tuple[int, int, str]:
    noun, _, rest = part.partition(" ")
    kind = noun.removesuffix("s")
    number = rest.partition("-")[0]
    order = PARTS.index(kind) if kind in PARTS else len(PARTS)
    return order, int(number) if number.isdigit() else 0, noun


def _again(sample: Sample, value: Value) -> tuple[str, ...]:
    """Name the parts to read afresh when a spread is close: error could make each of them the extreme."""
    readings = [x for _, x in sample.element]
    low, high = min(readings), max(readings)
    near = CLOSE_PAIR_THOUSANDTHS * value.u
    parts = [part for part, x in sample.element if (x - low) * 1000 <= near or (high - x) * 1000 <= near]
    return tuple(dict.fromkeys(parts))


def _opposite(sample: Sample, limit: Limit, decided: Any) -> Value | None:
    """Return the place farthest beyond the figure of `between` that the deciding value keeps to."""
    known = [value for value in sample.values if value.x is not None]
    below, above = ([v for v in known if v.x < limit.low], [v for v in known if v.x > limit.high])
    if decided < limit.low:
        return max(above, key=lambda value: value.x, default=None)
    return min(below, key=lambda value: value.x, default=None)


def _gaps(sample: Sample) -> tuple[At, ...]:
    return tuple(v.at for v in sample.values if v.at is not None and v.x is None and v.ball is None)


def _finding(stair: str, flight: str | None, rule: Rule, row: Row) -> Finding:
    (sample, value), margin, (outcome, close, probability, outside), (limit, readings, missing, assumed) = row
    x, u, at, ball = value or NOTHING
    if outcome is Outcome.UNMEASURED:
        at = None
        if value is None:
            ball = next((item.ball for item in sample.values if item.ball is not None), None)
    again: tuple[str, ...] = ()
    if close:
        # The spread of one rail is over places on it, any other over parts.
        among = rule.measure.kind == "spread" and rule.measure.over != "handrail"
        again = _again(sample, value) if among else (sample.part,)
    excused = outcome is Outcome.NOT_APPLICABLE and not sample.absent
    both = limit.relation == "between" and outcome is Outcome.WARN and outside > 1
    opposite = _opposite(sample, limit, x) if both else None
    return Finding(
        stair, flight, sample.part, rule, outcome, close, probability, x, u, limit, margin, at, ball,
        readings, outside, missing, assumed, again, excused, sample.computed, sample.basis, opposite,
        _gaps(sample) if missing else (),
    )  # fmt: skip


def _in_order(batches: tuple[Batch, ...]) -> Iterator[Finding]:
    for (stair, flight), group in groupby(batches, key=lambda batch: batch[:2]):
        found = [_finding(stair, flight, rule, row) for _, _, rule, rows in group for row in rows]
        yield from found if flight is None else sorted(found, key=lambda finding: _rank(finding.part))


@dataclass(frozen=True)
class Audit:
    """One survey against one rule set; `batches` has the rows as they were judged, `findings` laid out."""

    survey: Survey
    ruleset: Ruleset
    decision: str
    batches: tuple[Batch, ...]
    skipped: tuple[Refusal, ...]
    seen: tuple[Seen, ...]
    notes: tuple[DataNote, ...]

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """One finding for each rule and part, in the order flight, part, rule."""
        return tuple(_in_order(self.batches))

    @property
    def applies(self) -> bool:
        """Is the rule set for any stair of this survey?"""
        return len(self.skipped) < len(self.survey.stairs)

    @property
    def warns(self) -> int:
        """How many limits a reading lies outside of; advice does not count."""
        limits = (rows for _, _, rule, rows in self.batches if rule.level == "limit")
        return sum(row[2][0] is Outcome.WARN for rows in limits for row in rows)
