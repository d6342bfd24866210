"""What an audit found, as facts; no words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import groupby
from typing import Any, NamedTuple

from stairaudit.decision import Outcome
from stairaudit.ruleset import Limit, Rule, Ruleset
from stairaudit.samples import At, Ball
from stairaudit.survey import Survey

Number = int | Fraction


class Finding(NamedTuple):
    """One rule on one part: what was read, how it lies to the limit, and what was missing or assumed.

    Values are in the unit of the rule's measure. `limit` has the figure that was compared, also where
    it is another reading. `again` names the parts to measure once more.
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


class Seen(NamedTuple):
    """One item of the condition list of a stair."""

    stair: str
    item: str
    state: str


class DataNote(NamedTuple):
    """Something about the readings themselves, apart from any clause."""

    stair: str
    flight: str | None
    kind: str


# The fields of a finding without stair, flight and rule: a plain tuple, since a named one costs more than its
# judgement and most rows are only counted.
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


def _in_order(batches: tuple[Batch, ...]) -> Iterator[Finding]:
    for (stair, flight), group in groupby(batches, key=lambda batch: batch[:2]):
        found = [Finding(stair, flight, row[0], rule, *row[1:]) for _, _, rule, rows in group for row in rows]
        yield from found if flight is None else sorted(found, key=lambda finding: _rank(finding.part))


@dataclass(frozen=True)
class Audit:
    """One survey against one rule set; `batches` has the rows as they were judged, `findings` laid out."""

    survey: Survey
    ruleset: Ruleset
    decision: str
    batches: tuple[Batch, ...]
    skipped: tuple[tuple[str, str], ...]
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
        return sum(row[1] is Outcome.WARN for rows in limits for row in rows)
