"""Two rule sets against each other: which figures and conditions differ, and what that changes for one stair."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from stairaudit.findings import Audit
from stairaudit.lengths import Unit
from stairaudit.measures import MEASURES
from stairaudit.ruleset import Rule, Ruleset
from stairaudit.words.matrix import matrix_of
from stairaudit.words.rulebook import expected_words, limit_line

NO_RULE = "no rule"
Figure = tuple[Any, ...]


def _figure(rule: Rule) -> Figure:
    """Return what a rule asks, whatever its number and its words are."""
    limit = rule.limit
    return rule.level, rule.measure.at, limit.relation, limit.low, limit.high, limit.measure, *_scope(rule)


def _scope(rule: Rule) -> Figure:
    return frozenset(rule.when), frozenset(map(frozenset, rule.unless))


def _asked(rule: Rule, known: set[Figure]) -> str:
    """Return one rule in a line: its limit, its number, and when it applies where the other set has no such case."""
    told = limit_line(rule) + (" (advice)" if rule.level == "advice" else "")
    number = f" [{rule.clause}]" if rule.clause else ""
    if _scope(rule) in known:
        return f"{told}{number}"
    when = " when " + " and ".join(map(expected_words, rule.when)) if rule.when else ""
    unless = "".join(" unless " + " and ".join(map(expected_words, excuse)) for excuse in rule.unless)
    return f"{told}{number}{when}{unless}"


def _of_measure(ruleset: Ruleset, name: str) -> list[Rule]:
    return [rule for rule in ruleset.rules if rule.measure.name == name]


def _side(ruleset: Ruleset, mine: Sequence[Rule], others: Sequence[Rule]) -> Iterator[str]:
    figures, scopes = set(map(_figure, others)), set(map(_scope, others))
    told = [rule for rule in mine if _figure(rule) not in figures]
    for rule in told:
        yield f"  {ruleset.id}: {_asked(rule, scopes)}"
    if not told:
        alike = "nothing else" if mine else NO_RULE
        yield f"  {ruleset.id}: {alike}"


def difference_lines(one: Ruleset, other: Ruleset) -> Iterator[str]:
    """Yield for each measure what one set asks and the other does not."""
    yield f"{one.id}: {one.title}"
    yield f"{other.id}: {other.title}"
    alike = 0
    for name in MEASURES:
        first, second = _of_measure(one, name), _of_measure(other, name)
        if set(map(_figure, first)) == set(map(_figure, second)):
            alike += bool(first)
            continue
        yield ""
        yield name
        yield from _side(one, first, second)
        yield from _side(other, second, first)
    yield ""
    noun = "measure is" if alike == 1 else "measures are"
    yield f"{alike} {noun} asked alike. Numbers of clauses and words are not compared."


def change_lines(audits: tuple[Audit, Audit], unit: Unit) -> Iterator[str]:
    """Yield what differs for one stair between two sets."""
    matrix = matrix_of(audits, unit)
    if matrix is None:
        yield "One of the two is not for this survey; each report says why."
        return
    rows = [row for row in matrix.rows if row.differs]
    if not rows:
        yield "For this survey both come out alike, but for what is not measured or does not apply."
    for row in rows:
        yield f"{row.what}, {row.where}: {row.reading}"
        for name, cell in zip(matrix.sets, row.cells, strict=True):
            yield f"  {cell.sign} {name}: {f'{cell.limit}: ' if cell.limit else ''}{cell.word}"
