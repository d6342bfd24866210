"""Readings that decide whether a rule applies, and lie so close to its figure that another could change that."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from stairaudit.conditions import CONDITIONS
from stairaudit.context import Context, GuardAt, LandingAt, RailAt, SideAt
from stairaudit.findings import DataNote
from stairaudit.gates import Expected
from stairaudit.judging import read
from stairaudit.measures import Measure
from stairaudit.ruleset import Ruleset
from stairaudit.uncertainty import CLOSE_THOUSANDTHS


def _name(element: Any) -> str | None:
    """Return the name of the part that a condition is about; what is asked of a guard is asked of its side."""
    side = element.on if isinstance(element, GuardAt) else element
    if isinstance(side, SideAt):
        landing = f"{side.landing.part} " if side.landing else ""
        return f"{landing}side {side.name}"
    return element.part if isinstance(element, (LandingAt, RailAt)) else None


@lru_cache(maxsize=64)
def _lengths(ruleset: Ruleset) -> tuple[tuple[Expected, Measure], ...]:
    """Return each length that a rule of a set hangs on, with what the rule measures, once."""
    asked = (
        (expected, rule.measure)
        for rule in ruleset.rules
        for expected in rule.when
        if expected.relation and CONDITIONS[expected.condition].kind == "length"
    )
    return tuple(dict.fromkeys(asked))


def _close(context: Context, expected: Expected, element: Any) -> DataNote | None:
    condition = CONDITIONS[expected.condition]
    value, whole = condition.read(context, element)
    if not isinstance(value, int) or not whole:
        return None
    if abs(value - expected.figure) * 1000 >= CLOSE_THOUSANDTHS * context.error.length_u(value):
        return None
    flight = None if context.flight is None else context.flight.id
    part = None if condition.of == "any" else _name(element)
    sizes = value, expected.figure
    return DataNote(context.stair.id, flight, "close-trigger", sizes, part, meant=condition.missing)


def close_triggers(contexts: tuple[Context, ...], ruleset: Ruleset) -> Iterator[DataNote]:
    """Yield each reading that stands so close to a figure of `when` that a rule could apply or not, once."""
    asked = _lengths(ruleset)
    for context in contexts:
        told: dict[DataNote, None] = {}
        for expected, measure in asked:
            if measure.of_stair != (context.flight is None):
                continue
            per_part = CONDITIONS[expected.condition].of != "any"
            elements = [item[2][0].element for item in read(context, measure)] if per_part else [None]
            asked_of = (element for element in elements if element is not None or not per_part)
            notes = (_close(context, expected, element) for element in asked_of)
            told |= dict.fromkeys(note for note in notes if note is not None)
        yield from told
