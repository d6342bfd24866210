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


def each(context: Context, make: Callable[[RailAt], Sample]) -> Samples:
    """Return one sample for each handrail."""
    rails = context.handrails
    if rails is None:
        return (unmeasured("handrails"),)
    if isinstance(rails, Absent) or not rails:
        return (absent("handrails"),)
    return tuple([make(rail) for rail in rails])


def untold(rail: RailAt, key: str) -> Sample:
    """Return the sample of a handrail of which something was not told."""
    return unmeasured(rail.part, f"{rail.part} {key.replace('_', ' ')}", element=rail)


def lengths_of(key: str) -> Measure:
    """Return the measure of a length, or of several along the flight, of each handrail [nm]."""

    def measure(context: Context) -> Samples:
        def sample(rail: RailAt) -> Sample:
            told: tuple[Reading | None, ...] | Reading | None = getattr(rail.rail, key)
            if not told:
                return untold(rail, key)
            return Sample(rail.part, context.lengths((told,) if isinstance(told, Reading) else told), rail)

        return each(context, sample)

    return measure


def heights(context: Context) -> Samples:
    """Height of each handrail above the nosing line at each place, plumb [nm]."""

    def sample(rail: RailAt) -> Sample:
        told = rail.rail.heights
        if not told:
            return untold(rail, "heights")
        read = context.lengths(told)
        if rail.rail.heights_taken == "square":
            return plumb(context, rail.part, read, rail)
        return Sample(rail.part, read, rail)

    return each(context, sample)


def told_of(key: str) -> Measure:
    """Return the measure of a yes or no, or of a number of things, of each handrail."""

    def measure(context: Context) -> Samples:
        def sample(rail: RailAt) -> Sample:
            told: bool | int | None = getattr(rail.rail, key)
            return untold(rail, key) if told is None else Sample(rail.part, (Value(told),), rail)

        return each(context, sample)

    return measure


def grip_of(key: str) -> Measure:
    """Return the measure of one length of the cross-section of each handrail."""

    def measure(context: Context) -> Samples:
        def sample(rail: RailAt) -> Sample:
            told: Reading | None = getattr(rail.rail.grip, key) if rail.rail.grip else None
            if told is None:
                return untold(rail, f"grip {key}")
            return Sample(rail.part, (context.length(told),), rail)

        return each(context, sample)

    return measure
