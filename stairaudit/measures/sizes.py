"""Measures of the clear space of a flight, and of how it climbs."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

from stairaudit.context import Context
from stairaudit.measures.steps import gaps
from stairaudit.readings import Absent, Reading, mean_of
from stairaudit.samples import Places, Sample, Samples, Value, absent, unmeasured
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
    values = tuple(mean_of(tuple(value.x for value in row)) for row in rows if row)
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


def step_line(_: Context, rise: Value, run: Value) -> Value:
    """Tread plus four thirds of the riser [nm]."""
    size = run.x + Fraction(4, 3) * rise.x
    return Value(mean_of((size,)), combined_u(run.u, 4 / 3 * rise.u))


def rise_plus_run(_: Context, rise: Value, run: Value) -> Value:
    """Riser plus tread [nm]."""
    return Value(rise.x + run.x, combined_u(rise.u, run.u))


def rise_times_run(_: Context, rise: Value, run: Value) -> Value:
    """Riser times tread [nm2]."""
    return Value(rise.x * run.x, product_u(rise.x, run.x, rise.u, run.u))


def _pitch(_: Context, rise: Value, run: Value) -> Value:
    angle = math.degrees(math.atan2(rise.x, run.x))
    return Value(Fraction(angle), pitch_u(rise.x, run.x, rise.u, run.u))


_worked_out = climbing(_pitch)


def pitch(context: Context) -> Samples:
    """Angle of the nosing line from level, as read along the nosings, else worked out from riser and tread [deg]."""
    told = context.this.pitch
    if told is not None:
        return (Sample("flight", (Value(told.value, context.error.angle_u()),)),)
    return tuple(sample._replace(computed=bool(sample.values)) for sample in _worked_out(context))


def _contradicted(context: Context) -> bool:
    """Say whether the pitch by the level and that by the steps cannot both be right, at twice their errors."""
    told, steps = context.this.pitch, _worked_out(context)[0].values
    if told is None or not steps:
        return False
    return abs(float(told.value - steps[0].x)) > 2 * combined_u(context.error.angle_u(), _unevenness(context))


def _unevenness(context: Context) -> float:
    """Return how far the angle of one step lies from that of all [deg]: a level touches a step or two only."""
    steps = zip((context.risers or ())[1:], context.treads or (), strict=False)
    read = [(rise[0], run[0]) for rise, run in steps if run and rise[0].x is not None and run[0].x]
    if not read:
        return 0.0
    angles = [math.degrees(math.atan2(rise.x, run.x)) for rise, run in read]
    return max(max(angles) - min(angles), *(pitch_u(rise.x, run.x, rise.u, run.u) for rise, run in read))


def plumb(context: Context, part: str, heights: Places, element: object) -> Sample:
    """Return heights [nm] that were taken square to the slope as they are plumb: divided by the cosine of the pitch.

    The exact ratio is irrational; it is kept to the precision of a float.
    """
    found = pitch(context)[0]
    if not found.values or _contradicted(context):
        return Sample(part, (), element, False, (f"pitch, since {part} was taken square to the slope",))
    angle, u_angle = math.radians(float(found.values[0].x)), math.radians(found.values[0].u)
    cosine, slope = math.cos(angle), math.tan(angle)
    return Sample(part, tuple(_raised(height, cosine, slope, u_angle) for height in heights), element, computed=True)


def _raised(height: Value, cosine: float, slope: float, u_angle: float) -> Value:
    if height.x is None:
        return height
    size = float(height.x) / cosine
    return height._replace(x=Fraction(size), u=combined_u(height.u / cosine, size * slope * u_angle))


def least_width(context: Context) -> Value | None:
    """Return the least clear width of the flight [nm]; None after a gap, behind which a lesser one may lie."""
    told = context.this.width or ()
    if not told or any(item is None for item in told):
        return None
    return min((context.length(item) for item in told), key=lambda value: value.x)


def quarter_circle_of_width(context: Context) -> Samples:
    """Area of a quarter circle with the clear width of the flight as radius [nm2]."""
    least = least_width(context)
    if least is None:
        return (unmeasured("flight", "width"),)
    area = math.pi / 4 * float(least.x) ** 2
    return (Sample("flight", (Value(Fraction(area), math.pi / 2 * float(least.x) * least.u),)),)
