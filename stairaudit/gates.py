"""`when` and `unless` compiled once into one question: does the rule apply to this part?"""

from __future__ import annotations

import operator
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

from stairaudit.conditions import CONDITIONS, Condition
from stairaudit.context import Context, LandingAt

BELOW = {"at-most": operator.le, "less-than": operator.lt}
ABOVE = {"at-least": operator.ge, "more-than": operator.gt}
COMPARE: dict[str, Callable[[Any, Any], bool]] = {**BELOW, **ABOVE, "equals": operator.eq}


class Expected(NamedTuple):
    """What one condition must be: one of some words or answers, or a relation to a figure."""

    condition: str
    words: tuple[Any, ...] = ()
    relation: str = ""
    figure: Any = None


class Gate(NamedTuple):
    """Whether a rule applies: True, False, or None when `missing` is not known; `assumed` says on what."""

    applies: bool | None
    missing: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()


ALWAYS = Gate(True)
Test = Callable[[Context, Any], bool | None]


class Check(NamedTuple):
    """One compiled condition."""

    condition: Condition
    test: Test


def _settled(condition: Condition, relation: str, holds: bool) -> bool | None:
    """Say what a partly known value already proves: a greatest one above a floor, a least one below a ceiling."""
    if (condition.extreme == "greatest") == (relation in ABOVE):
        return holds or None
    return None if holds else False


def _test_of(expected: Expected, condition: Condition) -> Test:
    read, default = condition.read, condition.default
    silent: Any = {"yes": True, "no": False}.get(default or "", default)

    def by_word(context: Context, element: Any) -> bool | None:
        value = read(context, element).value
        value = silent if value is None else value
        return None if value is None else value in expected.words

    def by_figure(context: Context, element: Any) -> bool | None:
        answer = read(context, element)
        if answer.value is None:
            return None
        holds = COMPARE[expected.relation](answer.value, expected.figure)
        return holds if answer.whole else _settled(condition, expected.relation, holds)

    return by_figure if expected.relation else by_word


def _check(expected: Expected) -> Check:
    condition = CONDITIONS[expected.condition]
    test = _test_of(expected, condition)
    if condition.of != "any":
        return Check(condition, test)

    def once(context: Context, element: Any) -> bool | None:
        if expected not in context.cache:
            context.cache[expected] = test(context, element)
        answer: bool | None = context.cache[expected]
        return answer

    return Check(condition, once)


def _assumed(check: Check, context: Context, element: Any) -> str | None:
    condition = check.condition
    if condition.default is None or condition.read(context, element).value is not None:
        return None
    return f"{condition.name}: {condition.default}"


def _all(checks: Sequence[Check], context: Context, element: Any) -> Gate:
    """Return whether all hold; one that does not hold settles it, whatever is unknown beside it."""
    assumed: list[str] = []
    missing: list[str] = []
    applies: bool | None = True
    for check in checks:
        holds = check.test(context, element)
        told = _assumed(check, context, element) if check.condition.default else None
        if holds is False:
            return Gate(False, (), (told,) if told else ())
        if told:
            assumed.append(told)
        if holds is None:
            applies = None
            missing += _untold(check.condition, element)
    return Gate(applies, tuple(missing), tuple(assumed))


def _untold(condition: Condition, element: Any) -> list[str]:
    """Name a condition that was not told, unless it is about a part that was not told at all."""
    untold = element is None or (isinstance(element, LandingAt) and element.landing is None)
    return [] if condition.of != "any" and untold else [condition.missing]


class Gatekeeper:
    """The `when` and `unless` of one rule, compiled."""

    __slots__ = ("always", "excuses", "per_part", "when")

    def __init__(self, when: Sequence[Expected], unless: Sequence[Sequence[Expected]]) -> None:
        self.when = [_check(expected) for expected in when]
        self.excuses = [[_check(expected) for expected in excuse] for excuse in unless]
        checks = self.when + [check for excuse in self.excuses for check in excuse]
        self.per_part = any(check.condition.of != "any" for check in checks)
        self.always = not checks

    def ask(self, context: Context, element: Any) -> Gate:
        """Return whether the rule applies to one part."""
        if self.always:
            return ALWAYS
        gate = _all(self.when, context, element)
        if gate.applies is False:
            return gate
        applies, missing, assumed = gate.applies, gate.missing, gate.assumed
        for excuse in self.excuses:
            excused = _all(excuse, context, element)
            if excused.applies:
                return Gate(False, (), excused.assumed)
            if excused.applies is None:
                applies, missing = None, missing + excused.missing
            assumed += excused.assumed
        return Gate(applies, tuple(dict.fromkeys(missing)), tuple(dict.fromkeys(assumed)))
