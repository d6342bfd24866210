"""Measures of the first and the last riser of a flight, and of the risers between them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from stairaudit.context import Context
from stairaudit.measures.sizes import least_width
from stairaudit.measures.steps import SHARED_LEVEL, differences, gaps, spread, unread
from stairaudit.samples import Number, Places, Sample, Samples, Value, absent, unmeasured
from stairaudit.uncertainty import combined_u


def _ends(rows: tuple[Places, ...]) -> list[int]:
    """Return where the first and the last riser stand; one place for a single riser."""
    return sorted({0, len(rows) - 1})


def end_riser_difference(context: Context) -> Samples:
    """First and last riser, each against the riser between that differs most from it, without sign [nm]."""
    rows = context.risers
    if rows is None:
        return (unmeasured("risers"),)
    if len(rows) < 3:
        return (absent("risers"),)
    if unread(rows):
        return (unmeasured("risers"),)
    return tuple(_against_inner(context, rows, end) for end in _ends(rows))


def _against_inner(context: Context, rows: tuple[Places, ...], end: int) -> Sample:
    part, last = f"riser {end + 1}", len(rows) - 1
    compared = [end, *range(1, last)]
    doubts = context.based_risers.doubts
    missing = gaps(tuple(row if i in compared else () for i, row in enumerate(rows)), "riser")
    missing += tuple(dict.fromkeys(doubt for i in compared if (doubt := doubts[i])))
    found = [value for inner in range(1, last) for value in _apart(context, rows, end, inner)]
    if not found:
        return unmeasured(part, *missing)
    return Sample(part, (max(found, key=lambda value: value.x),), None, not missing, missing, n=len(compared))


def _apart(context: Context, rows: tuple[Places, ...], end: int, inner: int) -> Iterator[Value]:
    """Yield how much an end riser and one between them differ, where both were measured."""
    shared = context.this.levels is not None and abs(end - inner) == 1
    for value in differences(rows[end], rows[inner]):
        if value.x is not None:
            yield value._replace(u=value.u * SHARED_LEVEL) if shared else value


def inner_riser_spread(context: Context) -> Samples:
    """Tallest minus shortest riser, the first and the last left out [nm]."""
    rows = context.risers
    if rows is None:
        return (unmeasured("flight", "risers"),)
    found = spread(((), *rows[1:-1], ()), "riser")
    doubts = tuple(dict.fromkeys(doubt for doubt in context.based_risers.doubts[1:-1] if doubt))
    if not doubts or not found[0].values:
        return found
    return (found[0]._replace(whole=False, missing=(*found[0].missing, *doubts)),)


def riser_slope_across(context: Context) -> Samples:
    """How much the first and the last riser grow from one side of the flight to the other [ratio]."""
    rows = context.risers
    if rows is None:
        return (unmeasured("risers"),)
    if not rows:
        return (absent("risers"),)
    width = least_width(context)
    return tuple(_across(context, f"riser {end + 1}", rows[end], width) for end in _ends(rows))


def _across(context: Context, part: str, places: Places, width: Value | None) -> Sample:
    left, right = places[0], places[-1]
    missing = [] if width is not None else ["width"]
    if len(places) < 2 or left.x is None or right.x is None:
        missing.insert(0, f"{part} left and right")
    if missing or width is None:
        return unmeasured(part, *missing)
    mixed = context.this.measured_over == "mixed"
    doubts = tuple(doubt for doubt in context.based_risers.doubts[:1] if doubt and mixed)
    return Sample(part, (_slope(left, right, width),), None, not doubts, doubts, n=2, computed=True)


def _slope(left: Value, right: Value, width: Value) -> Value:
    rise: Number = abs(left.x - right.x)
    run = float(width.x)
    u = combined_u(left.u / run, right.u / run, float(rise) / run * width.u / run)
    return Value(Fraction(rise) / Fraction(width.x), u)
