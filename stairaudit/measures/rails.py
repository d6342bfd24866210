"""Measures of handrails."""

from __future__ import annotations

from collections.abc import Callable

from stairaudit.context import Context, RailAt
from stairaudit.measures.sizes import plumb
from stairaudit.readings import Absent, Reading
from stairaudit.samples import Sample, Samples, Value, absent, unmeasured

Measure = Callable[[Context], Samples]


def handrail_count(context: Context) -> Samples:
    """Number of handrails."""
    rails = context.handrails
    if rails is None:
        return (unmeasured("flight", "handrails"),)
    return (Sample("flight", (Value(0 if isinstance(rails, Absent) else len(rails)),)),)


def _each(context: Context, make: Callable[[RailAt], Sample]) -> Samples:
    rails = context.handrails
    if rails is None:
        return (unmeasured("handrails"),)
    if isinstance(rails, Absent) or not rails:
        return (absent("handrails"),)
    return tuple([make(rail) for rail in rails])


def lengths_of(key: str) -> Measure:
    """Return the measure of a length, or of several along the flight, of each handrail."""

    def measure(context: Context) -> Samples:
        def sample(rail: RailAt) -> Sample:
            told: tuple[Reading | None, ...] | None = getattr(rail.rail, key)
            if not told:
                return unmeasured(rail.part, f"{rail.part} {key}", element=rail)
            return Sample(rail.part, context.lengths(told), rail)

        return _each(context, sample)

    return measure


def heights(context: Context) -> Samples:
    """Height of each handrail above the nosing line at each place, plumb [nm]."""

    def sample(rail: RailAt) -> Sample:
        told = rail.rail.heights
        if not told:
            return unmeasured(rail.part, f"{rail.part} heights", element=rail)
        read = context.lengths(told)
        if rail.rail.heights_taken == "square":
            return plumb(context, rail.part, read, rail)
        return Sample(rail.part, read, rail)

    return _each(context, sample)


def answer_of(key: str) -> Measure:
    """Return the measure of a yes or no about each handrail."""

    def measure(context: Context) -> Samples:
        def sample(rail: RailAt) -> Sample:
            told: bool | None = getattr(rail.rail, key)
            if told is None:
                return unmeasured(rail.part, f"{rail.part} {key.replace('_', ' ')}", element=rail)
            return Sample(rail.part, (Value(told),), rail)

        return _each(context, sample)

    return measure


def grip_of(key: str) -> Measure:
    """Return the measure of one length of the cross-section of each handrail."""

    def measure(context: Context) -> Samples:
        def sample(rail: RailAt) -> Sample:
            told: Reading | None = getattr(rail.rail.grip, key) if rail.rail.grip else None
            if told is None:
                missing = f"{rail.part} grip {key.replace('_', ' ')}"
                return unmeasured(rail.part, missing, element=rail)
            return Sample(rail.part, (context.length(told),), rail)

        return _each(context, sample)

    return measure
