"""Measures of the sides of a flight beside its guards: the gap at the treads, the triangle over a cut string."""

from __future__ import annotations

from stairaudit.context import Context
from stairaudit.samples import Sample, Samples, unmeasured


def side_gap(context: Context) -> Samples:
    """Level distance from the edge of the treads to what stands beside it, on each side of the flight [nm]."""
    if context.this.sides is None:
        return (unmeasured("sides"),)
    return tuple(_gap(context, name) for name in ("left", "right"))


def _gap(context: Context, name: str) -> Sample:
    part = f"side {name}"
    at = context.side_at(context.this, name, context.name_of())
    told = getattr(context.this.sides, name)
    if told is None or not told.gap:
        return unmeasured(part, part if told is None else f"{part} gap", element=at)
    return Sample(part, context.lengths(told.gap), at)
