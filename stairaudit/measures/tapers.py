"""Measures of tapered treads: winders, spiral and curved treads, at a place across them or anywhere on them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import NamedTuple

from stairaudit.context import Context
from stairaudit.measures.sizes import least_width
from stairaudit.samples import Number, Sample, Samples, Value, absent, unmeasured
from stairaudit.surfaces import TaperedTread
from stairaudit.uncertainty import combined_u


class Known(NamedTuple):
    """A depth that was read at a distance out from the narrow edge [nm], `wide` where that is the other edge."""

    out: Value
    depth: Value
    wide: bool = False


class Line(NamedTuple):
    """Where a depth is wanted, out from the narrow edge [nm]; `of_width` is how far it moves with the wide edge."""

    at: Number
    of_width: float = 0
    u_width: float = 0


# Where on a tapered tread a depth is wanted, None where its width is not known.
LineOf = Callable[[Context, TaperedTread], Line | None]


def _width(context: Context, tread: TaperedTread) -> Value | None:
    """Return how far apart the edges of a tread lie: its own width, else the least width of the flight."""
    if tread.width is not None:
        return context.length(tread.width)
    return least_width(context)


def _known(context: Context, tread: TaperedTread) -> Iterator[Known]:
    if tread.narrow is not None:
        yield Known(Value(0), context.length(tread.narrow))
    out = context.this.walkline_out
    if tread.walkline is not None and out is not None:
        yield Known(context.length(out), context.length(tread.walkline))
    width = _width(context, tread)
    if tread.wide is not None and width is not None:
        yield Known(width, context.length(tread.wide), True)


def _between(low: Known, high: Known, line: Line) -> Value:
    """Return the depth between two known ones: nosing lines are straight, so it grows evenly from one to the other.

    Exact for the chord on a circle round the point where the nosing lines meet.
    """
    reach = high.out.x - low.out.x
    share = Fraction(line.at - low.out.x) / Fraction(reach)
    slope, far = float((high.depth.x - low.depth.x) / reach), float(share)
    ends = ((low, 1 - far), (high, far))
    moved = [slope * part * end.out.u for end, part in ends if not end.wide]
    # An error of the width shifts the wide edge and, as far as it is counted from there, the line with it.
    width = line.of_width * line.u_width - sum(part * end.out.u for end, part in ends if end.wide)
    u = combined_u((1 - far) * low.depth.u, far * high.depth.u, *moved, slope * width)
    return Value(low.depth.x + share * (high.depth.x - low.depth.x), u)


def _missing(context: Context, part: str, tread: TaperedTread | None) -> tuple[str, ...]:
    if tread is not None and tread.walkline is not None and context.this.walkline_out is None:
        return ("walkline out",)
    return (f"{part} at the walkline",)


def _depth(context: Context, number: int, tread: TaperedTread | None, line_of: LineOf) -> Sample:
    part = f"tread {number}"
    line = line_of(context, tread) if tread else None
    if tread is None or line is None:
        return unmeasured(part, *(_missing(context, part, None) if tread is None else ("width",)), element=tread)
    known = sorted(_known(context, tread), key=lambda item: item.out.x)
    for item in known:
        if item.out.x == line.at:
            return Sample(part, (item.depth,), tread)
    below = [item for item in known if item.out.x < line.at]
    above = [item for item in known if item.out.x > line.at]
    if not below or not above:
        return unmeasured(part, *_missing(context, part, tread), element=tread)
    return Sample(part, (_between(below[-1], above[0], line),), tread, computed=True)


def _depths(context: Context, line_of: LineOf) -> Samples:
    if not context.tapers:
        return (_none_told(context),)
    return tuple(_depth(context, number, tread, line_of) for number, tread in context.tapers)


def _middle(context: Context, tread: TaperedTread) -> Line | None:
    width = _width(context, tread)
    return None if width is None else Line(Fraction(width.x) / 2, 0.5, width.u)


def _outer(context: Context, tread: TaperedTread, at: int) -> Line | None:
    width = _width(context, tread)
    return None if width is None else Line(width.x - at, 1, width.u)


def walkline_depth(context: Context, at: int) -> Samples:
    """Depth of each tapered tread at a distance out from its narrow edge [nm], read there or worked out."""
    return _depths(context, lambda *_: Line(at))


def worked_out(context: Context, number: int, tread: TaperedTread, at: int) -> Sample:
    """Return the depth of one tapered tread at a distance out from its narrow edge [nm], from what is told of it."""
    return _depth(context, number, tread, lambda *_: Line(at))


def middle_depth(context: Context) -> Samples:
    """Depth of each tapered tread at half its width [nm], read there or worked out."""
    return _depths(context, _middle)


def outer_depth(context: Context, at: int) -> Samples:
    """Depth of each tapered tread at a distance in from its wide edge [nm], read there or worked out."""
    return _depths(context, lambda context, tread: _outer(context, tread, at))


def _none_told(context: Context) -> Sample:
    """Return what stands for tapered treads of which none is known: not measured where the form has some."""
    straight = context.this.form in (None, "straight") or context.tread_count == 0
    return absent("treads") if straight else unmeasured("treads", "treads at the walkline")


def walkline_spread(context: Context, at: int) -> Samples:
    """Deepest minus shallowest tapered tread at a distance out from the narrow edges [nm]."""
    return _spread(context, walkline_depth(context, at))


def middle_spread(context: Context) -> Samples:
    """Deepest minus shallowest tapered tread at half the width [nm]."""
    return _spread(context, middle_depth(context))


def _spread(context: Context, samples: Samples) -> Samples:
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
