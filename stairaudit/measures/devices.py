"""Measures of ship ladders and alternating tread devices."""

from __future__ import annotations

from stairaudit.context import Context
from stairaudit.measures.nosings import nosing_rows
from stairaudit.measures.steps import answer, listed
from stairaudit.readings import Absent
from stairaudit.samples import Sample, Samples, Value, unmeasured
from stairaudit.uncertainty import combined_u, product_u, q95


def projected_depth(context: Context) -> Samples:
    """Depth of each alternating tread seen from above [nm]."""
    return listed(context, context.this.projected_treads, "tread", "projected treads")


def tread_width(context: Context) -> Samples:
    """Width of each alternating tread [nm]."""
    return listed(context, context.this.tread_widths, "tread", "tread widths")


def tread_with_nosing(context: Context) -> Samples:
    """Depth of each tread from nosing to nosing, and its own nosing besides [nm]."""
    treads, nosings = context.treads, nosing_rows(context)
    if not treads or nosings is None:
        missing = [noun for noun, rows in (("treads", treads), ("nosings", nosings)) if not rows]
        return (unmeasured("treads", *missing),)
    over = ((Value(0),),) * len(treads) if isinstance(nosings, Absent) else nosings
    return tuple(
        _sum(index, tread[0], over[index - 1][0] if index <= len(over) else Value(None))
        for index, tread in enumerate(treads, 1)
        if tread
    )


def _sum(index: int, run: Value, over: Value) -> Sample:
    part = f"tread {index}"
    missing = [name for name, value in ((part, run), (f"nosing {index}", over)) if value.x is None]
    if missing:
        return unmeasured(part, *missing)
    return Sample(part, (Value(run.x + over.x, combined_u(run.u, over.u)),), computed=True)


def treads_alike(context: Context) -> Samples:
    """Are all treads of a spiral stair of one size and shape? Their readings outweigh the answer."""
    for key in ("narrow", "walkline", "wide"):
        told = [getattr(tread, key) for _, tread in context.tapers if tread is not None]
        sizes = [context.length(item) for item in told if item is not None]
        spread = max((v.x for v in sizes), default=0) - min((v.x for v in sizes), default=0)
        if len(sizes) > 1 and spread > q95(len(sizes)) * max(value.u for value in sizes):
            return (Sample("flight", (Value(False),), computed=True),)
    return answer("flight", context.this.treads_alike, "treads alike")


def served_area(context: Context) -> Samples:
    """Area of the space that the flight serves [nm2]."""
    told = context.stair.served_area
    if told is None:
        return (unmeasured("flight", "served area"),)
    side = round(float(told.value) ** 0.5)
    u = context.error.length_u(side)
    return (Sample("flight", (Value(told.value, product_u(side, side, u, u)),)),)


def only_kitchen_or_bath(context: Context) -> Samples:
    """Does the space that the flight serves hold the only kitchen or bathroom of the dwelling?"""
    return answer("flight", context.stair.only_kitchen_or_bath, "only kitchen or bath")
