"""What to look at first.

What was seen of the condition comes before everything that was measured, since it says that a part may give way.
Then the findings outside their figure, in three grades:

1. not there at all (a yes/no duty); outside by a tenth of the figure or more, a spread by as much again as its
   figure; a length outside by 2 in or more, whatever its share (common practice, no source: headroom short by 4 in
   is a danger, and 5 % of its figure); or a ball went through, which tells only that the opening is at least as
   large;
2. outside by less than a tenth of the figure, a length by less than 2 in besides;
3. outside, but too close to call, however much that is of its figure.

Within a grade by hazard: fall, structure, entrapment, trip, head, grip, visibility, other. Within a hazard by the
margin as a share of the figure, the largest first. Then in the order of the document: stair, flight, part, rule.
Advice never appears, nor does how a reading was taken (over carpet): that is no fault of the stair. Two rules that
look at the same reading of the same part are one thing to look at: the one that ranks higher stands for both.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from typing import Any, NamedTuple

from stairaudit.decision import Outcome
from stairaudit.findings import PARTS, Audit, Finding
from stairaudit.lengths import NM_PER_IN
from stairaudit.ruleset import Rule
from stairaudit.survey import Survey

HAZARDS = ("fall", "structure", "entrapment", "trip", "head", "grip", "visibility", "other")
ABSENT_OR_FAR, OUTSIDE, CLOSE = 1, 2, 3
FAR = Fraction(1, 10)
# A spread is small beside the parts that it compares, and so is its figure. Common practice, no source.
FAR_SPREAD = 1
# Common practice, no source.
FAR_LENGTH = 2 * NM_PER_IN
# Measures of how a reading was taken.
WAYS_OF_READING = ("measured-bare",)

Rank = tuple[Any, ...]


class Order(NamedTuple):
    """Where stairs, flights and rules stand in a document."""

    flights: dict[tuple[str, str | None], int]
    rules: dict[Rule, int]


def order_of(survey: Survey, audits: Iterable[Audit]) -> Order:
    """Return the order in which a document names the flights of a survey and the rules of its rule sets."""
    places: list[tuple[str, str | None]] = []
    for stair in survey.stairs:
        places += [(stair.id, None), *((stair.id, flight.id) for flight in stair.flights)]
    rules = dict.fromkeys(rule for audit in audits for rule in audit.ruleset.rules)
    return Order(_numbered(places), _numbered(rules))


def _numbered(things: Iterable[Any]) -> dict[Any, int]:
    return {thing: number for number, thing in enumerate(things)}


def _missed_figure(finding: Finding) -> Any:
    limit = finding.limit
    if limit.relation != "between" or finding.value is None:
        return limit.low
    return limit.low if finding.value < limit.low else limit.high


def share_outside(finding: Finding) -> Fraction:
    """Return by which share of its figure a reading lies outside, 1 where there is no figure to share.

    Of a ball that passed only its own size is known: the opening is at least as large.
    """
    figure, size = _missed_figure(finding), None
    if finding.margin is not None:
        size = -finding.margin
    elif finding.ball is not None and finding.ball.passes:
        size = finding.ball.diameter - figure
    if size is None or not figure:
        return Fraction(1)
    return max(Fraction(0), Fraction(size) / Fraction(figure))


def grade_of(finding: Finding) -> int:
    """Return the grade of a finding outside its figure: 1, 2 or 3."""
    if finding.close:
        return CLOSE
    passed = finding.ball is not None and finding.ball.passes
    far = finding.rule.measure.kind == "length" and finding.margin is not None and -finding.margin >= FAR_LENGTH
    share = FAR_SPREAD if finding.rule.measure.kind == "spread" else FAR
    if passed or far or finding.rule.measure.kind == "yes-no" or share_outside(finding) >= share:
        return ABSENT_OR_FAR
    return OUTSIDE


def _part_rank(part: str) -> Rank:
    noun = part.partition(" ")[0].removesuffix("s")
    kind = PARTS.index(noun) if noun in PARTS else len(PARTS)
    return kind, tuple((int(word), "") if word.isdigit() else (-1, word) for word in re.findall(r"\d+|\D+", part))


def ranker(order: Order) -> Callable[[Finding], Rank]:
    """Return the key by which findings outside their figure are ranked; lower is looked at earlier."""

    def rank(finding: Finding) -> Rank:
        return (
            grade_of(finding),
            HAZARDS.index(finding.rule.hazard),
            -share_outside(finding),
            order.flights.get((finding.stair, finding.flight), len(order.flights)),
            _part_rank(finding.part),
            order.rules.get(finding.rule, len(order.rules)),
        )

    return rank


def ranked(findings: Iterable[Finding], order: Order) -> list[Finding]:
    """Return the findings outside their figure, what to look at first in front; advice is left out."""
    limits = (f for f in findings if f.outcome is Outcome.WARN and f.rule.level == "limit")
    outside = (f for f in limits if f.rule.measure.name not in WAYS_OF_READING)
    told: dict[tuple[Any, ...], Finding] = {}
    for finding in sorted(outside, key=ranker(order)):
        told.setdefault((finding.stair, finding.flight, finding.part, finding.rule.measure.name), finding)
    return list(told.values())


def grouped(findings: Sequence[Finding]) -> list[list[Finding]]:
    """Put ranked findings of one rule on one flight together where one of them leads, close ones apart."""
    groups: dict[tuple[Any, ...], list[Finding]] = {}
    for finding in findings:
        key = (finding.stair, finding.flight, finding.rule, finding.close, finding.limit)
        groups.setdefault(key, []).append(finding)
    return list(groups.values())
