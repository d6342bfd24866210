"""Measures of the clear space of a flight, and of how it climbs."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

from stairaudit.context import Context, Places
from stairaudit.measures.steps import gaps
from stairaudit.readings import Absent, Reading, mean_of
from stairaudit.samples import Sample, Samples, Value, absent, unmeasured
from stairaudit.uncertainty import combined_u, pitch_u, product_u, step_sum_u

Measure = Callable[[Context], Samples]


def lengths_of(key: str) -> Measure:
    """Return the measure of a length of the flight, at one place or several [nm]."""

    def measure(context: Context) -> Samples:
        told: tuple[Reading | None, ...] | Absent | Reading | None = getattr(context.this, key)
        if isinstance(told, Absent):
            return (absent("flight"),)
        if not told:
            return (unmeasured("flight", key.replace("_", " ")),)
        return (Sample("flight", context.lengths((told,) if isinstance(told, Reading) else told)),)

    return measure


def _mean(rows: tuple[Places, ...]) -> Value:
    values = tuple(mean_of(tuple(value.x for value in row)) for row in rows)
    return Value(mean_of(values), max(value.u for row in rows for value in row))


def _rise_and_run(context: Context) -> tuple[Value, Value] | tuple[str, ...]:
    """Return the mean riser and the mean tread, or the names of what is missing."""
    risers, treads = context.risers, context.treads
    missing = _missing(risers, "riser") + _missing(treads, "tread")
    if missing or not risers or not treads:
        return missing
    return _mean(risers), _mean(treads)


def _missing(rows: tuple[Places, ...] | None, noun: str) -> tuple[str, ...]:
    if not rows or all(value.x is None for row in rows for value in row):
        return (f"{noun}s",)
    return gaps(rows, noun)


def climbing(combine: Callable[[Context, Value, Value], Value]) -> Measure:
    """Return the measure that combines the mean riser and the mean tread."""

    def measure(context: Context) -> Samples:
        if context.riser_count == 1 and context.this.top_tread != "level-with-landing":
            return (absent("flight"),)
        both = _rise_and_run(context)
        if len(both) != 2 or not isinstance(both[0], Value) or not isinstance(both[1], Value):
            return (Sample("flight", (), None, False, tuple(map(str, both))),)
        return (Sample("flight", (combine(context, both[0], both[1]),)),)

    return measure


def step_sum(_: Context, rise: Value, run: Value) -> Value:
    """Twice the riser plus the tread [nm]."""
    return Value(2 * rise.x + run.x, step_sum_u(rise.u, run.u))


def rise_plus_run(_: Context, rise: Value, run: Value) -> Value:
    """Riser plus tread [nm]."""
    return Value(rise.x + run.x, combined_u(rise.u, run.u))


def rise_times_run(_: Context, rise: Value, run: Value) -> Value:
    """Riser times tread [nm2]."""
    return Value(rise.x * run.x, product_u(rise.x, run.x, rise.u, run.u))


def pitch(_: Context, rise: Value, run: Value) -> Value:
    """Angle of the nosing line from level [deg]."""
    angle = math.degrees(math.atan2(rise.x, run.x))
    return Value(Fraction(angle), pitch_u(rise.x, run.x, rise.u, run.u))


def quarter_circle_of_width(context: Context) -> Samples:
    """Area of a quarter circle with the clear width of the flight as radius [nm2]."""
    told = context.this.width
    if not told or any(item is None for item in told):
        return (unmeasured("flight", "width"),)
    least = min((context.length(item) for item in told), key=lambda value: value.x)
    area = math.pi / 4 * float(least.x) ** 2
    return (Sample("flight", (Value(Fraction(area), math.pi / 2 * float(least.x) * least.u),)),)
