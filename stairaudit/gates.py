"""`when` and `unless` compiled once into one question: does the rule apply to this part?"""

from __future__ import annotations

import operator
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Any, NamedTuple

from stairaudit.answers import Span
from stairaudit.conditions import CONDITIONS, Condition
from stairaudit.context import Context, LandingAt
from stairaudit.quantities import read as read_figure

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


ALWAYS, NEVER = Gate(True), Gate(False)

# Whether one condition holds (None for unknown), and what was assumed to tell.
Held = tuple[bool | None, str | None]
Ask = Callable[[Context, Any], Held]


class Check(NamedTuple):
    """One compiled condition."""

    condition: Condition
    ask: Ask


def _settled(condition: Condition, relation: str, holds: bool) -> bool | None:
    """Say what a partly known value already proves: a greatest one above a floor, a least one below a ceiling."""
    if relation == "equals":
        return None
    if (condition.extreme == "greatest") == (relation in ABOVE):
        return holds or None
    return None if holds else False


def _by_word(expected: Expected, condition: Condition) -> Ask:
    read, words, default = condition.read, expected.words, condition.default
    silent: Any = {"yes": True, "no": False}.get(default or "", default)
    untold: Held = (None if silent is None else silent in words, default and f"{condition.name}: {default}")

    def ask(context: Context, element: Any) -> Held:
        value, whole = read(context, element)
        if isinstance(value, tuple):
            return any(item in words for item in value), None
        if value is None:
            return untold if whole else (None, None)
        return value in words, None

    return ask


def _by_figure(expected: Expected, condition: Condition) -> Ask:
    read, relation, figure, compare = condition.read, expected.relation, expected.figure, COMPARE[expected.relation]

    silent = None if condition.default is None else compare(read_figure(condition.kind, condition.default), figure)
    untold: Held = (silent, condition.default and f"{condition.name}: {condition.default}")

    def ask(context: Context, element: Any) -> Held:
        value, whole = read(context, element)
        if value is None:
            return untold
        if isinstance(value, Span):
            low, high = compare(value.low, figure), compare(value.high, figure)
            inside = relation == "equals" and value.low < figure < value.high
            return (None if inside or low != high else low), None
        holds = compare(value, figure)
        return holds if whole else _settled(condition, relation, holds), None

    return ask


@lru_cache(maxsize=1024)
def _check(expected: Expected) -> Check:
    condition = CONDITIONS[expected.condition]
    ask = (_by_figure if expected.relation else _by_word)(expected, condition)
    if condition.of != "any":
        return Check(condition, ask)

    def once(context: Context, element: Any) -> Held:
        held: Held | None = context.answers.get(ask)
        if held is None:
            held = context.answers[ask] = ask(context, element)
        return held

    return Check(condition, once)


def _all(checks: Sequence[Check], context: Context, element: Any) -> Gate:
    """Return whether all hold; one that does not hold settles it, whatever is unknown beside it."""
    assumed: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    applies: bool | None = True
    for condition, ask in checks:
        holds, told = ask(context, element)
        if holds is False:
            return Gate(False, (), (told,)) if told else NEVER
        if told:
            assumed += (told,)
        if holds is None:
            applies = None
            missing += _untold(condition, element)
    return Gate(applies, missing, assumed) if assumed or applies is None else ALWAYS


def _untold(condition: Condition, element: Any) -> tuple[str, ...]:
    """Name a condition that was not told, unless it is about a part that was not told at all."""
    untold = element is None or (isinstance(element, LandingAt) and element.landing is None)
    return () if condition.of != "any" and untold else (condition.missing,)


class Gatekeeper:
    """The `when` and `unless` of one rule, compiled."""

    __slots__ = ("always", "assumes", "excuses", "per_part", "when")

    def __init__(self, when: Sequence[Expected], unless: Sequence[Sequence[Expected]]) -> None:
        self.when = [_check(expected) for expected in when]
        self.excuses = [[_check(expected) for expected in excuse] for excuse in unless]
        checks = self.when + [check for excuse in self.excuses for check in excuse]
        self.per_part = any(check.condition.of != "any" for check in checks)
        self.assumes = any(check.condition.default for check in checks)
        self.always = not checks

    def ask(self, context: Context, element: Any) -> Gate:
        """Return whether the rule applies to one part."""
        if self.always:
            return ALWAYS
        gate = _all(self.when, context, element) if self.when else ALWAYS
        if gate.applies is False or (gate is ALWAYS and not self.excuses):
            return gate
        applies, missing, assumed = gate.applies, gate.missing, gate.assumed
        for excuse in self.excuses:
            excused = _all(excuse, context, element)
            if excused.applies:
                return Gate(False, (), excused.assumed)
            if excused.applies is None:
                applies, missing = None, missing + excused.missing
            assumed += excused.assumed
        if applies and not assumed:
            return ALWAYS
        return Gate(applies, tuple(dict.fromkeys(missing)), tuple(dict.fromkeys(assumed)))
