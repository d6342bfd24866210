"""Measures of how a handrail runs: how even it is, what blocks its underside, the recess it lies in."""

from __future__ import annotations

from stairaudit.context import Context, RailAt
from stairaudit.measures.rails import Measure, each, heights, untold
from stairaudit.readings import Absent, Reading
from stairaudit.samples import Sample, Samples, Value, absent


def spread(context: Context) -> Samples:
    """Largest minus smallest height of each handrail above the nosing line [nm]."""
    return tuple(_spread(sample) for sample in heights(context))


def _spread(rail: Sample) -> Sample:
    if rail.absent:
        return rail
    known = [value for value in rail.values if value.x is not None]
    if len(known) < 2:
        lacking = (f"{rail.part} heights at two places or more",)
        return rail._replace(values=(), whole=False, missing=rail.missing or lacking)
    sizes = [value.x for value in known]
    size = Value(max(sizes) - min(sizes), max(value.u for value in known))
    missing = () if len(known) == len(rail.values) else (f"{rail.part} heights",)
    return rail._replace(values=(size,), whole=not missing, missing=missing, n=len(known))


def underside_blocked(context: Context) -> Samples:
    """Blocked length of the underside of each handrail over the length of the rail [ratio]."""

    def sample(rail: RailAt) -> Sample:
        told = rail.rail.underside_blocked
        return untold(rail, "underside blocked") if told is None else Sample(rail.part, (Value(told.value),), rail)

    return each(context, sample)


def recess_of(key: str) -> Measure:
    """Return the measure of one length of the wall recess that each handrail runs in [nm]."""

    def measure(context: Context) -> Samples:
        def sample(rail: RailAt) -> Sample:
            recess = rail.rail.wall_recess
            if isinstance(recess, Absent):
                return absent(rail.part)
            told: Reading | None = getattr(recess, key) if recess else None
            if told is None:
                return untold(rail, f"wall recess {key}")
            return Sample(rail.part, (context.length(told),), rail)

        return each(context, sample)

    return measure
