"""Measures of one guard that are the same on a flight and on a landing: answers, and lengths taken on it."""

from __future__ import annotations

from stairaudit.context import Context, GuardAt
from stairaudit.measures.guards import Make
from stairaudit.readings import Absent, Reading
from stairaudit.samples import Sample, Value, absent, unmeasured


def _untold(part: str, key: str, guard: GuardAt) -> Sample:
    return unmeasured(part, f"{part} {key.replace('_', ' ')}", element=guard)


def answer_of(key: str, turned: bool = False) -> Make:
    """Return how a yes or no about a guard is taken; `turned` makes a no of each yes."""

    def make(_: Context, part: str, guard: GuardAt) -> Sample:
        told: bool | None = getattr(guard.guard, key)
        if told is None:
            return _untold(part, key, guard)
        return Sample(part, (Value(told is not turned),), guard)

    return make


def lengths_of(key: str) -> Make:
    """Return how a length of a guard is taken, at one place or several [nm]."""

    def make(context: Context, part: str, guard: GuardAt) -> Sample:
        told: tuple[Reading | None, ...] | Absent | None = getattr(guard.guard, key)
        if isinstance(told, Absent):
            return absent(part)
        return Sample(part, context.lengths(told), guard) if told else _untold(part, key, guard)

    return make
