"""The largest ball in the triangle of tread, riser and bottom rail, worked out from the gap under the rail."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from stairaudit.context import Context, GuardAt
from stairaudit.measures.nosings import nosing_rows
from stairaudit.measures.steps import gaps
from stairaudit.readings import Absent, mean_of
from stairaudit.samples import At, Places, Sample, Value, unmeasured
from stairaudit.uncertainty import combined_u


class Step(NamedTuple):
    """A tread with the riser and the nosing above it, and the gap under the rail [nm each]."""

    rise: Value
    run: Value
    nosing: Value
    gap: Value


def sphere(rise: float, run: float, nosing: float, gap: float) -> float:
    """Return the diameter of the largest ball between tread, closed riser and rail [the unit of the four].

    The rail runs parallel to the nosing line, `gap` above it, plumb; the riser face stands `nosing` behind
    the nosing above. It holds while the ball clears the underside of that nosing. Derivation: the circle in
    a right triangle, whose legs grow with the gap and the nosing in proportion.

    >>> round(sphere(7.25, 10, 0, 2), 3)
    6.25
    """
    grown = 1 + gap / rise + nosing / run
    return grown * (rise + run - math.hypot(rise, run))


def _worked_out(step: Step, at: At | None) -> Value:
    sizes = [float(value.x) for value in step]
    shifts = []
    for index, value in enumerate(step):
        both = [[*sizes[:index], sizes[index] + way * value.u, *sizes[index + 1 :]] for way in (-1, 1)]
        low, high = (sphere(*moved) for moved in both)
        shifts.append((high - low) / 2)
    return Value(Fraction(sphere(*sizes)), combined_u(*shifts), at)


def _one(places: Places) -> Value:
    return Value(mean_of(tuple(value.x for value in places)), max(value.u for value in places))


Row = tuple[Places, Places, Places]


def _rows(context: Context) -> tuple[list[Row], tuple[str, ...]]:
    """Return riser above, tread and nosing above of each step of a flight, and the names of what is missing."""
    form = context.this.riser_form
    if form != "closed":
        return [], ("riser form" if form is None else "a ball in the triangle, since risers are open",)
    risers, treads, nosings = context.risers or (), context.treads or (), nosing_rows(context)
    untold = [noun for noun, rows in (("risers", risers), ("treads", treads), ("nosings", nosings)) if not rows]
    if untold:
        return [], tuple(untold)
    over = ((Value(0),),) * len(risers) if isinstance(nosings, Absent) else nosings or ()
    missing = gaps(risers[1:], "riser") + gaps(treads, "tread") + gaps(over, "nosing")
    return [step for step in zip(risers[1:], treads, over[1:], strict=False) if step[1]], missing


def _flights(context: Context, guard: GuardAt) -> Iterator[Context]:
    if context.flight is not None:
        yield context
    yield from (flight for flight in context.of_flights if flight.this.id in guard.along)


def triangle_of(context: Context, part: str, guard: GuardAt) -> Sample:
    """Return the largest ball of each step along a guard [nm], from the gap under its bottom rail."""
    told = guard.guard.rail_gap or ()
    if not told or any(item is None for item in told):
        return unmeasured(part, f"{part} rail gap", element=guard)
    gap = max((context.length(item) for item in told), key=lambda value: value.x)
    steps: list[tuple[Step, At | None]] = []
    for flight in _flights(context, guard):
        rows, missing = _rows(flight)
        if missing:
            return unmeasured(part, *missing, element=guard)
        name = flight.this.id if context.flight is None else ""
        places = [At(i, len(rows), "along", name) if name or len(rows) > 1 else None for i in range(len(rows))]
        made = [Step(_one(rise), _one(run), _one(over), gap) for rise, run, over in rows]
        steps += zip(made, places, strict=True)
    if not steps:
        return unmeasured(part, f"{part} triangle", element=guard)
    return Sample(part, tuple(_worked_out(step, at) for step, at in steps), guard, computed=True)
