"""Measures of tapered treads: winders, spiral and curved treads, at a place across them or anywhere on them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from stairaudit.context import Context
from stairaudit.samples import Sample, Samples, Value, absent, unmeasured
from stairaudit.surfaces import TaperedTread
from stairaudit.uncertainty import combined_u


class Known(NamedTuple):
    """A depth that was read at a distance out from the narrow edge [nm]."""

    out: Value
    depth: Value


def _width(context: Context, tread: TaperedTread) -> Value | None:
    """Return how far apart the edges of a tread lie: its own width, else the least width of the flight."""
    if tread.width is not None:
        return context.length(tread.width)
    told = context.this.width or ()
    if not told or any(item is None for item in told):
        return None
    return min((context.length(item) for item in told), key=lambda value: value.x)


def _known(context: Context, tread: TaperedTread) -> Iterator[Known]:
    if tread.narrow is not None:
        yield Known(Value(0), context.length(tread.narrow))
    out = context.this.walkline_out
    if tread.walkline is not None and out is not None:
        yield Known(context.length(out), context.length(tread.walkline))
    width = _width(context, tread)
    if tread.wide is not None and width is not None:
        yield Known(width, context.length(tread.wide))


def _between(low: Known, high: Known, at: int) -> Value:
    """Return the depth between two known ones: nosing lines are straight, so it grows evenly from one to the other.

    Exact for the chord on a circle round the point where the nosing lines meet.
    """
    reach = high.out.x - low.out.x
    share = Fraction(at - low.out.x, reach)
    slope = (high.depth.x - low.depth.x) / reach
    far = float(share)
    moved = (float(slope) * (1 - far) * low.out.u, float(slope) * far * high.out.u)
    u = combined_u((1 - far) * low.depth.u, far * high.depth.u, *moved)
    return Value(low.depth.x + share * (high.depth.x - low.depth.x), u)


def _missing(context: Context, part: str, tread: TaperedTread | None) -> tuple[str, ...]:
    if tread is not None and tread.walkline is not None and context.this.walkline_out is None:
        return ("walkline out",)
    return (f"{part} at the walkline",)


def _depth(context: Context, number: int, tread: TaperedTread | None, at: int) -> Sample:
    part = f"tread {number}"
    known = sorted(_known(context, tread), key=lambda item: item.out.x) if tread else []
    for item in known:
        if item.out.x == at:
            return Sample(part, (item.depth,), tread)
    below = [item for item in known if item.out.x < at]
    above = [item for item in known if item.out.x > at]
    if not below or not above:
        return unmeasured(part, *_missing(context, part, tread), element=tread)
    return Sample(part, (_between(below[-1], above[0], at),), tread, computed=True)


def walkline_depth(context: Context, at: int) -> Samples:
    """Depth of each tapered tread at a distance out from its narrow edge [nm], read there or worked out."""
    if not context.tapers:
        return (_none_told(context),)
    return tuple(_depth(context, number, tread, at) for number, tread in context.tapers)


def _none_told(context: Context) -> Sample:
    """Return what stands for tapered treads of which none is known: not measured where the form has some."""
    straight = context.this.form in (None, "straight") or context.tread_count == 0
    return absent("treads") if straight else unmeasured("treads", "treads at the walkline")


def walkline_spread(context: Context, at: int) -> Samples:
    """Deepest minus shallowest tapered tread at a distance out from the narrow edges [nm]."""
    samples = walkline_depth(context, at)
    if not context.tapers:
        return (samples[0]._replace(part="flight"),)
    if len(samples) < 2:
        return (absent("flight"),)
    read = [(sample.part, sample.values[0]) for sample in samples if sample.values]
    missing = tuple(dict.fromkeys(name for sample in samples if not sample.values for name in sample.missing))
    if len(read) < 2:
        return (unmeasured("flight", *missing),)
    sizes = [value.x for _, value in read]
    size = Value(max(sizes) - min(sizes), max(value.u for _, value in read))
    parts = tuple((part, value.x) for part, value in read)
    computed = any(sample.computed for sample in samples)
    return (Sample("flight", (size,), parts, not missing, missing, n=len(read), computed=computed),)


def least_depth(context: Context) -> Samples:
    """Least depth of each tapered tread within the clear width [nm]: at its narrow edge, unless another is less."""
    if not context.tapers:
        return (_none_told(context),)
    return tuple(_least(context, number, tread) for number, tread in context.tapers)


def _least(context: Context, number: int, tread: TaperedTread | None) -> Sample:
    part = f"tread {number}"
    told = (tread.narrow, tread.walkline, tread.wide) if tread else ()
    values = [context.length(item) for item in told if item is not None]
    if not values:
        return unmeasured(part, f"{part} narrow", element=tread)
    whole = tread is not None and tread.narrow is not None
    least = min(values, key=lambda value: value.x)
    return Sample(part, (least,), tread, whole, () if whole else (f"{part} narrow",))


def walkline_radius(context: Context, at: int) -> Samples:
    """From the axis of a spiral to the walkline, at a distance out from the narrow edge of the treads [nm]."""
    told = context.this.pole_diameter
    if told is None:
        return (unmeasured("flight", "pole diameter"),)
    across = context.length(told)
    return (Sample("flight", (Value(Fraction(across.x) / 2 + at, across.u / 2),), computed=True),)
