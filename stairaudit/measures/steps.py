"""Measures of risers, treads and nosings."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise

from stairaudit.basis import WORKED_OUT
from stairaudit.context import Context
from stairaudit.readings import Reading
from stairaudit.samples import GAP, At, Places, Sample, Samples, Value, absent, padded, unmeasured
from stairaudit.survey import Flight


def known(rows: tuple[Places, ...]) -> Iterator[tuple[str, Value]]:
    """Yield the number of each row, from 1, with every value that was measured on it."""
    for index, places in enumerate(rows):
        for value in places:
            if value.x is not None:
                yield str(index + 1), value


def gaps(rows: tuple[Places, ...], noun: str) -> tuple[str, ...]:
    """Return the names of the rows on which a place was not measured."""
    return tuple(f"{noun} {i + 1}" for i, row in enumerate(rows) if any(v.x is None for v in row))


def unread(rows: tuple[Places, ...]) -> bool:
    """Say whether nothing at all was measured on some rows; a tapered tread is no such row."""
    return any(rows) and all(value.x is None for row in rows for value in row)


def each(rows: tuple[Places, ...] | None, noun: str) -> Samples:
    """Return one sample for each row."""
    if rows is None or (rows and unread(rows)):
        return (unmeasured(f"{noun}s"),)
    return tuple([Sample(f"{noun} {i}", row) for i, row in enumerate(rows, 1) if row]) or (absent(f"{noun}s"),)


def spread(rows: tuple[Places, ...] | None, noun: str) -> Samples:
    """Return the largest minus the smallest reading of all rows."""
    if rows is None:
        return (unmeasured("flight", f"{noun}s"),)
    if sum(map(bool, rows)) < 2:
        return (absent("flight"),)
    read = list(known(rows))
    missing = gaps(rows, noun)
    if len(read) < 2:
        return (Sample("flight", (), (), False, (f"{noun}s",) if not read else missing),)
    values = [value.x for _, value in read]
    u = max([value.u for _, value in read])
    size = Value(max(values) - min(values), u)
    parts = tuple((f"{noun} {number}", value.x) for number, value in read)
    return (Sample("flight", (size,), parts, not missing, missing, n=len(read)),)


# Two neighbouring steps between levels share one level: its error counts twice, 6 ** 0.5 of a level reading in all,
# against 2 of it for steps read apart. GUM (JCGM 100:2008) 5.2.2, from memory.
SHARED_LEVEL = 1.5**0.5


def riser_neighbours(context: Context) -> Samples:
    """Difference of each two neighbouring risers [nm]."""
    samples = tuple(_doubted_pair(context, sample) for sample in neighbours(context.risers, "riser"))
    if context.this.levels is None:
        return samples
    return tuple(
        sample._replace(values=tuple(v._replace(u=v.u * SHARED_LEVEL) for v in sample.values)) for sample in samples
    )


def _doubted_pair(context: Context, sample: Sample) -> Sample:
    """Hold back a difference of risers of which one is not known on the hard surface."""
    first = int(sample.part.rpartition(" ")[2].partition("-")[0]) if "-" in sample.part else 0
    doubts = [doubt for doubt in context.based_risers.doubts[first - 1 : first + 1] if doubt] if first else []
    return sample._replace(whole=False, missing=tuple(dict.fromkeys(doubts))) if doubts else sample


def neighbours(rows: tuple[Places, ...] | None, noun: str) -> Samples:
    """Return the difference of each two neighbouring rows, place by place."""
    if rows is None:
        return (unmeasured(f"{noun}s"),)
    pairs = tuple(
        Sample(f"{noun}s {i}-{i + 1}", tuple(differences(a, b)))
        for i, (a, b) in enumerate(pairwise(rows), 1)
        if a and b
    )
    if pairs and all(value.x is None for pair in pairs for value in pair.values):
        return (unmeasured(f"{noun}s"),)
    return pairs or (absent(f"{noun}s"),)


def differences(a: Places, b: Places) -> Iterator[Value]:
    """Yield how much two rows differ without sign: place by place where they have as many, else each with each."""
    pairs = list(zip(a, b, strict=True)) if len(a) == len(b) else [(x, y) for x in a for y in b]
    for index, (x, y) in enumerate(pairs):
        at = At(index, len(pairs), "across") if len(pairs) > 1 and len(a) == len(b) else None
        if x.x is None or y.x is None:
            yield Value(None, 0, at)
        else:
            yield Value(abs(x.x - y.x), (x.u * x.u + y.u * y.u) ** 0.5, at)


def _is_sample(flight: Flight) -> bool:
    return bool(flight.sampled) and flight.risers is None and flight.levels is None


def riser_height(context: Context) -> Samples:
    """Height of each riser [nm]; of a sampled flight the tallest and the shortest."""
    flight = context.this
    if _is_sample(flight):
        read = [(flight.tallest, 0), (flight.shortest, 1)]
        values = tuple(context.length(item, At(i, 2, "extremes")) for item, i in read if item is not None)
        return (Sample("risers", values, None, False, ("every riser",)),)
    samples = each(context.risers, "riser")
    if flight.measured_over is None or len(samples) != context.riser_count or not samples[0].values:
        return samples
    based = context.based_risers
    return tuple(map(_on_basis, samples, based.doubts, based.names))


def _on_basis(sample: Sample, doubt: str | None, basis: str | None) -> Sample:
    """Name the surface of a reading; one that is not known on the hard surface may warn and never pass."""
    computed = basis == WORKED_OUT
    if doubt is None:
        return sample._replace(basis=basis, computed=computed)
    return sample._replace(basis=basis, whole=False, missing=(doubt,))


def _doubts(context: Context) -> tuple[str, ...]:
    return tuple(dict.fromkeys(doubt for doubt in context.based_risers.doubts if doubt))


def riser_spread(context: Context) -> Samples:
    """Tallest minus shortest riser [nm]."""
    flight = context.this
    if _is_sample(flight) and flight.tallest is not None and flight.shortest is not None:
        tall, short = context.length(flight.tallest), context.length(flight.shortest)
        size = Value(tall.x - short.x, max(tall.u, short.u))
        parts = (("tallest riser", tall.x), ("shortest riser", short.x))
        count = flight.riser_count or 2
        return (Sample("flight", (size,), parts, False, ("every riser",), n=max(2, count)),)
    found = spread(context.risers, "riser")
    doubts = _doubts(context)
    if not doubts or not found[0].values:
        return found
    return (found[0]._replace(whole=False, missing=(*found[0].missing, *doubts)),)


def riser_count(context: Context) -> Samples:
    """Number of risers."""
    count = context.riser_count
    return (unmeasured("flight", "risers") if count is None else Sample("flight", (Value(count),)),)


def listed(
    context: Context,
    readings: tuple[Reading | None, ...] | None,
    noun: str,
    missing: str,
    u: Callable[[Reading], float] | None = None,
) -> Samples:
    """Return a sample for each reading of a list, or one for the flight when a single one was given.

    `u` is the measuring error of a reading, by default that of a length.
    """
    total = context.tread_count if noun == "tread" else context.riser_count
    if total == 0:
        return (absent(f"{noun}s"),)
    if readings is None or all(item is None for item in readings):
        return (unmeasured(f"{noun}s", missing),)
    values = tuple(
        context.length(item) if item is None or u is None else Value(item.value, u(item)) for item in readings
    )
    if len(values) == 1:
        return (Sample("flight", (values[0],)),)
    rows = padded(values, total, GAP)
    return tuple(Sample(numbered(noun, i, total), (value,)) for i, value in enumerate(rows, 1))


def numbered(noun: str, index: int, total: int | None) -> str:
    """Return the name of one step's part; the nosing over the last riser is the top one."""
    return "nosing top" if noun == "nosing" and index == total else f"{noun} {index}"


def riser_face_slope(context: Context) -> Samples:
    """Angle of the riser face from plumb [deg]."""
    return listed(context, context.this.riser_slopes, "riser", "riser slopes", lambda _: context.error.angle_u())


def tread_slope(context: Context) -> Samples:
    """Fall of each tread in its steepest direction [ratio]."""
    return listed(context, context.this.tread_slopes, "tread", "tread slopes", lambda _: context.error.slope_u())


def flight_rise(context: Context) -> Samples:
    """Rise of the whole flight [nm]: measured in one go, else the sum of its risers."""
    total = context.this.total_rise
    if total is not None:
        return (Sample("flight", (context.length(total.value),)),)
    levels = context.this.levels
    if levels is not None and levels[0] is not None and levels[-1] is not None:
        low, high = levels[0].value, levels[-1].value
        return (Sample("flight", (Value(high - low, context.error.difference_u(low, high)),)),)
    rows = context.risers
    if rows is None:
        return (unmeasured("flight", "total rise"),)
    read = [max(row, key=lambda v: v.x) for row in rows if all(v.x is not None for v in row)]
    if not read:
        return (unmeasured("flight", "total rise"),)
    missing = (*gaps(rows, "riser"), *_doubts(context))
    size = Value(sum(v.x for v in read), context.error.sum_u([v.u for v in read]))
    return (Sample("flight", (size,), None, not missing, missing, n=len(read)),)


def measured_bare(context: Context) -> Samples:
    """Were risers and treads read on the hard surface?"""
    over = context.this.measured_over
    return answer("flight", None if over is None else over == "bare", "measured over")


def answer_of(key: str) -> Callable[[Context], Samples]:
    """Return the measure of a yes or no about the flight."""
    return lambda context: answer("flight", getattr(context.this, key), key.replace("_", " "))


def answer(part: str, told: bool | None, missing: str, element: object = None) -> Samples:
    """Return a yes or no as a sample."""
    if told is None:
        return (unmeasured(part, missing, element=element),)
    return (Sample(part, (Value(told),), element),)
