"""Measures of nosings, along a flight and over a whole stairway."""

from __future__ import annotations

from collections.abc import Iterator

from stairaudit.context import Context
from stairaudit.measures.steps import gaps, known, listed, numbered, spread, unread
from stairaudit.readings import Absent, Reading
from stairaudit.samples import GAP, Places, Sample, Samples, Value, absent, padded, unmeasured


def nosing_radius(context: Context) -> Samples:
    """Radius of round nosing edges [nm]."""
    if context.this.nosing_edge in ("bevelled", "square"):
        return (absent("nosings"),)
    return _edge(context, context.this.nosing_radius, "nosing radius")


def nosing_bevel(context: Context) -> Samples:
    """Bevel of bevelled nosing edges [nm]."""
    if context.this.nosing_edge in ("round", "square"):
        return (absent("nosings"),)
    return _edge(context, context.this.nosing_bevel, "nosing bevel")


def _edge(context: Context, readings: tuple[Reading | None, ...] | None, missing: str) -> Samples:
    return listed(context, readings, "nosing", missing)


def nosing_rows(context: Context) -> tuple[Places, ...] | Absent | None:
    """Return the projections, padded with gaps to one for each riser."""
    told = context.this.nosings
    if told is None or isinstance(told, Absent):
        return told
    rows = tuple(context.lengths(places, "across") for places in told)
    return padded(rows, context.riser_count, (GAP,))


def nosing_projection(context: Context) -> Samples:
    """Overhang of each nosing past the riser below it [nm]; nothing where there is none."""
    rows = nosing_rows(context)
    if isinstance(rows, Absent):
        return (Sample("nosings", (Value(0),)),)
    if not rows or unread(rows):
        return (unmeasured("nosings"),)
    total = context.riser_count
    return tuple(Sample(numbered("nosing", i, total), row) for i, row in enumerate(rows, 1))


def nosing_spread(context: Context) -> Samples:
    """Largest minus smallest projection of one flight [nm]."""
    rows = nosing_rows(context)
    return (absent("flight"),) if isinstance(rows, Absent) else spread(rows, "nosing")


def _named(context: Context, several: bool) -> Iterator[tuple[str, Value]]:
    """Yield every projection of a flight with the name of its nosing, and of its flight where there are several."""
    rows = nosing_rows(context)
    flight = f"{context.this.id} " if several else ""
    for number, value in known(rows) if isinstance(rows, tuple) else ():
        yield f"{flight}{numbered('nosing', int(number), context.riser_count)}", value


def _untold(context: Context, several: bool) -> tuple[str, ...]:
    rows = nosing_rows(context)
    if isinstance(rows, Absent):
        return ()
    flight = f"{context.this.id} " if several else ""
    if not rows or unread(rows):
        return (f"{flight}nosings",)
    return tuple(f"{flight}{name}" for name in gaps(rows, "nosing"))


def stairway_nosing_spread(context: Context) -> Samples:
    """Largest minus smallest projection over all flights of the stairway [nm]."""
    several = len(context.of_flights) > 1
    if all(isinstance(nosing_rows(flight), Absent) for flight in context.of_flights):
        return (absent("stair"),)
    if sum(flight.riser_count or 2 for flight in context.of_flights) < 2:
        return (absent("stair"),)
    read = [item for flight in context.of_flights for item in _named(flight, several)]
    missing = tuple(name for flight in context.of_flights for name in _untold(flight, several))
    if len(read) < 2:
        return (unmeasured("stair", *missing),)
    sizes = [value.x for _, value in read]
    size = Value(max(sizes) - min(sizes), max(value.u for _, value in read))
    parts = tuple((name, value.x) for name, value in read)
    return (Sample("stair", (size,), parts, not missing, missing, n=len(read)),)
