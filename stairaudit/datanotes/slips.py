"""Readings that look like a slip of the hand or the eye: a space lost, another unit, a whole inch."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stairaudit.context import Context
from stairaudit.datanotes.closure import Closure, closure
from stairaudit.datanotes.errors import allowed, apart
from stairaudit.datanotes.fellows import LEAST_FELLOWS, Told, far_ones, like, readings_of
from stairaudit.datanotes.meanings import other_units, spaced
from stairaudit.findings import DataNote
from stairaudit.lengths import NM_PER_IN
from stairaudit.samples import Number
from stairaudit.uncertainty import q95

_METRIC = re.compile(r"[0-9]\s*(mm|cm|m)\b|metre|meter")
# By a whole inch, or by a block of 4 in under the tape that was not taken off. Common practice, no source.
INCHES = {"inch-slip": 1, "four-inch-slip": 4}


def _in_inches(context: Context, typed: str) -> bool:
    return context.survey.units not in ("mm", "cm") and not _METRIC.search(typed)


def _note(context: Context, kind: str, told: Told, *likely: Number) -> DataNote:
    return DataNote(context.stair.id, context.this.id, kind, (told.x, *likely), told.part, typed=told.reading.typed)


def _fitting(sums: Closure | None, told: Told, likely: list[Number]) -> list[Number]:
    """Return those of the likely readings with which the risers add up to the total rise."""
    return [value for value in likely if sums is not None and sums.agrees(value - told.x)]


def _misread(context: Context, told: Told, centre: Number) -> DataNote | None:
    """Return the note on a reading far from its fellows that another way of reading it brings back to them."""
    typed, inches = told.reading.typed, _in_inches(context, told.reading.typed)
    likely: list[Number] = [
        value for value in (spaced(typed, context.error.tape) if inches else ()) if like(value, centre)
    ]
    if likely:
        return _note(context, "lost-space", told, *likely)
    units = sorted((apart(value, centre), value, meant) for value, meant in other_units(typed) if like(value, centre))
    return _note(context, "unit-slip", told, units[0][1])._replace(meant=units[0][2]) if units else None


def _far(context: Context, told: tuple[Told, ...], sums: Closure | None) -> Iterator[DataNote]:
    for item, centre in far_ones(told):
        note = _misread(context, item, centre)
        if note is not None:
            fitting = _fitting(sums, item, list(note.sizes[1:]))
            yield note._replace(sizes=(item.x, *fitting), sure=True) if fitting else note


def _by_inches(context: Context, odd: Told, others: list[Number], sums: Closure | None) -> DataNote | None:
    """Return the note on a reading whole inches off the others, which are even or add up once it is put right."""
    u, spread = context.error.length_u(odd.x), float(max(others) - min(others))
    even = spread <= q95(len(others)) * u
    if sums is None and not even:
        return None
    off = float(odd.x) - float(sum(others)) / len(others)
    for kind, inches in INCHES.items():
        size = inches * NM_PER_IN if off > 0 else -inches * NM_PER_IN
        sure = sums is not None and sums.agrees(-size)
        # Known by the sum, it need stand out from the others only; without it these must be even.
        slack = max(allowed(u), spread) if sure else allowed(u)
        stands_out = 2 * spread <= abs(size) if sure else even
        if abs(off - size) <= slack and stands_out:
            return _note(context, kind, odd, odd.x - size)._replace(sure=sure)
    return None


def _whole_inch(context: Context, told: tuple[Told, ...], sums: Closure | None) -> Iterator[DataNote]:
    """Look at the largest and the smallest of the readings."""
    by_size = sorted(told, key=lambda item: item.x)
    if len(told) <= LEAST_FELLOWS or 2 * (by_size[-1].x - by_size[0].x) <= NM_PER_IN:
        return
    for place in (-1, 0):
        odd = by_size[place]
        if _in_inches(context, odd.reading.typed):
            note = _by_inches(context, odd, [item.x for item in by_size if item is not odd], sums)
            if note is not None:
                yield note
                return


def slips(context: Context) -> Iterator[DataNote]:
    """Yield the slips in the risers and plain treads of a flight, with the reading that was likely meant."""
    for noun in ("riser", "tread"):
        told, sums = readings_of(context, noun), closure(context) if noun == "riser" else None
        if sums is not None and sums.agrees():
            # As they stand they add up to the total rise, so that none of them is misread.
            continue
        far = tuple(_far(context, told, sums))
        yield from far or _whole_inch(context, told, sums)
