"""Rules of one set that get in each other's way, and rules that can never apply."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Any, NamedTuple

from stairaudit.gates import ABOVE, COMPARE, Expected
from stairaudit.ruleset import Bounds, Limit, Rule, bounds_of


class Overlap(NamedTuple):
    """What is wrong with a rule, by its place in the set, and what to do."""

    number: int
    found: str
    wanted: str


def _bounds(limit: Limit) -> Bounds | None:
    """Return the ends of a limit with figures of its own, None for an answer or another reading."""
    if limit.measure is not None or limit.relation == "equals":
        return None
    return bounds_of(limit)


def _implies(known: Expected, asked: Expected) -> bool:
    """Say whether a condition that holds makes another one hold."""
    if known.condition != asked.condition:
        return False
    if not known.relation or not asked.relation:
        return not known.relation and not asked.relation and set(known.words) <= set(asked.words)
    if known.relation == "equals":
        return COMPARE[asked.relation](known.figure, asked.figure)
    if known.relation == asked.relation:
        return COMPARE[_loose(asked.relation)](known.figure, asked.figure)
    if (known.relation in ABOVE) != (asked.relation in ABOVE) or asked.relation == "equals":
        return False
    return COMPARE["more-than" if asked.relation in ABOVE else "less-than"](known.figure, asked.figure)


def _loose(relation: str) -> str:
    return "at-least" if relation in ABOVE else "at-most" if relation != "equals" else "equals"


def _never(rule: Rule) -> str | None:
    """Return why a rule can never apply, None when it can."""
    empty = [expected.condition for expected in rule.when if not expected.relation and not expected.words]
    if empty:
        return f"{empty[0]} is asked to be one of no answers"
    for excuse in rule.unless:
        if excuse and all(any(_implies(known, asked) for known in rule.when) for asked in excuse):
            names = " and ".join(asked.condition for asked in excuse)
            return f"whenever it applies, it is excused by {names}"
    return None


def _scope(rule: Rule) -> tuple[Any, ...]:
    return (
        rule.measure.name,
        rule.measure.at,
        rule.level,
        frozenset(rule.when),
        frozenset(map(frozenset, rule.unless)),
    )


def _against(first: Rule, second: Rule) -> tuple[str, str] | None:
    # Rules of thumb come from several sources, which may say nearly the same.
    if first.level == "advice" or _scope(first) != _scope(second):
        return None
    one, other = _bounds(first.limit), _bounds(second.limit)
    if one is None or other is None:
        if first.limit.relation == "equals" and second.limit.relation == "equals":
            return _twice(first) if first.limit.low == second.limit.low else _opposed(first)
        return None
    lows = [bound for bound in (one.low, other.low) if bound is not None]
    highs = [bound for bound in (one.high, other.high) if bound is not None]
    if lows and highs and max(lows) > min(highs):
        return _opposed(first)
    return _twice(first) if len(lows) == 2 or len(highs) == 2 else None


def _opposed(first: Rule) -> tuple[str, str]:
    return (
        f"no reading can lie inside both this rule and {first.id!r}",
        "correct a figure, or tell them apart by `when`",
    )


def _twice(first: Rule) -> tuple[str, str]:
    return (
        f"this rule and {first.id!r} are about the same readings",
        "keep the stricter, or tell them apart by `when`",
    )


def overlaps(rules: Sequence[Rule]) -> Iterator[Overlap]:
    """Yield what is wrong among the rules of one set.

    A rule that can never apply; two rules of one measure and the same conditions that no reading can meet together,
    or of which one never decides.
    """
    for index, rule in enumerate(rules):
        never = _never(rule)
        if never is not None:
            yield Overlap(index, f"the rule {rule.id!r} can never apply: {never}", "correct its when or unless")
    for (_, first), (index, second) in combinations(enumerate(rules), 2):
        clash = _against(first, second)
        if clash is not None:
            yield Overlap(index, *clash)
