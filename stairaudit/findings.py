"""What an audit found, as facts; no words."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
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


@dataclass(frozen=True, slots=True)
class Audit:
    """One survey against one rule set."""

    survey: Survey
    ruleset: Ruleset
    decision: str
    findings: tuple[Finding, ...]
    skipped: tuple[tuple[str, str], ...]
    seen: tuple[Seen, ...]
    notes: tuple[DataNote, ...]

    @property
    def applies(self) -> bool:
        """Is the rule set for any stair of this survey?"""
        return len(self.skipped) < len(self.survey.stairs)

    @property
    def warns(self) -> int:
        """How many limits a reading lies outside of; advice does not count."""
        return sum(f.outcome is Outcome.WARN and f.rule.level == "limit" for f in self.findings)
