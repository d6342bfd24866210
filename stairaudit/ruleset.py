"""A rule set ready to be used: every limit read, every measure and condition known."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import Any, Literal, NamedTuple

from stairaudit.decision import Relation
from stairaudit.gates import ABOVE, Expected
from stairaudit.measures import Measure

Level = Literal["limit", "advice"]
Hazard = Literal["trip", "fall", "head", "grip", "entrapment", "visibility", "structure", "other"]
Provenance = Literal["seen", "secondary", "memory"]
RELATIONS = ("at-most", "at-least", "less-than", "more-than", "between", "equals")


class Limit(NamedTuple):
    """A relation with its figure, its two figures, or the measure whose reading it is; `printed` as written."""

    relation: Relation
    low: Any = None
    high: Any = None
    measure: str | None = None
    printed: str = ""


class Bounds(NamedTuple):
    """What a limit leaves open: the least and the greatest value, None where there is no end."""

    low: Any = None
    high: Any = None


def bounds_of(limit: Limit) -> Bounds:
    """Return the ends of a limit with figures of its own; an answer has none to speak of."""
    if limit.relation == "between":
        return Bounds(limit.low, limit.high)
    figure = limit.high if limit.low is None else limit.low
    return Bounds(low=figure) if limit.relation in ABOVE else Bounds(high=figure)


@dataclass(frozen=True, eq=False)
class Rule:
    """One clause: what is measured, against what, when, and how far the figure can be trusted."""

    id: str
    clause: str
    title: str
    measure: Measure
    limit: Limit
    when: tuple[Expected, ...]
    unless: tuple[tuple[Expected, ...], ...]
    level: Level
    hazard: Hazard
    why: str
    how_to_measure: str
    advice: str
    known_limits: str
    provenance: Provenance
    read_in: tuple[str, ...]
    source: str
    document: str
    edition: str
    replaced: str = ""


@dataclass(frozen=True, eq=False)
class Ruleset:
    """A resolved rule set."""

    id: str
    title: str
    document: str
    edition: str
    publisher: str
    place: str
    uses: tuple[str, ...]
    purposes: tuple[str, ...]
    licence: str
    reviewed: datetime.date | None
    status: str
    notes: tuple[str, ...]
    rules: tuple[Rule, ...]
    digest: str
    shipped: bool

    def refuses(self, use: str | None, purpose: str | None) -> tuple[Literal["use", "purpose"], str] | None:
        """Return what the set is not for, by use of the stair or by what is to be done with it, and its word."""
        if self.uses and use is not None and use not in self.uses:
            return "use", use
        if self.purposes and purpose is not None and purpose not in self.purposes:
            return "purpose", purpose
        return None

    def rule(self, rule_id: str) -> Rule | None:
        """Return the rule of an id."""
        return next((rule for rule in self.rules if rule.id == rule_id), None)
