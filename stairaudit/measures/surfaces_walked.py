"""Measures of what the foot stands on and of the room over it: holes, steps, damage, strips, width, headroom."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from stairaudit.context import Context
from stairaudit.measures.openings import opening
from stairaudit.measures.sizes import least_width
from stairaudit.measures.steps import answer, listed, numbered
from stairaudit.readings import Absent, Reading
from stairaudit.samples import Sample, Samples, Value, absent, padded, unmeasured
from stairaudit.surfaces import Damage

Measure = Callable[[Context], Samples]
NOTHING = Value(0)


def risers_closed(context: Context) -> Samples:
    """Are the risers closed?"""
    form = context.this.riser_form
    return answer("flight", None if form is None else form == "closed", "riser form")


def way_out(context: Context) -> Samples:
    """Is the flight part of the required way out?"""
    return answer("flight", context.stair.required_egress, "required egress")


def tread_hole(context: Context) -> Samples:
    """Widest hole in each tread, by tape or by ball [nm]; nothing where there is none."""
    told, total = context.this.tread_holes, context.tread_count
    if total == 0:
        return (absent("treads"),)
    if isinstance(told, Absent):
        return (Sample("treads", (NOTHING,)),)
    if not told or all(item is None for item in told):
        return (unmeasured("treads", "tread holes"),)
    if len(told) == 1:
        return (Sample("flight", (opening(context, told[0]),)),)
    every = padded(told, total, None)
    return tuple(Sample(f"tread {i}", (opening(context, item),)) for i, item in enumerate(every, 1))


def tread_step(context: Context) -> Samples:
    """Highest sudden step within each tread [nm]; nothing where there is none."""
    told = context.this.tread_steps
    if isinstance(told, Absent):
        return (absent("treads") if context.tread_count == 0 else Sample("treads", (NOTHING,)),)
    return listed(context, told, "tread", "tread steps")


def nosing_damage_of(key: str) -> Measure:
    """Return the measure of a length of what is broken out of each nosing [nm]; nothing where nothing is."""

    def measure(context: Context) -> Samples:
        told, total = context.this.nosing_damage, context.riser_count
        if isinstance(told, Absent):
            return (Sample("nosings", (NOTHING,)),)
        if not told or all(item is None for item in told):
            return (unmeasured("nosings", "nosing damage"),)
        every = padded(told, total, None)
        return tuple(_damaged(context, numbered("nosing", i, total), item, key) for i, item in enumerate(every, 1))

    return measure


def _damaged(context: Context, part: str, told: Damage | Absent | None, key: str) -> Sample:
    if isinstance(told, Absent):
        return Sample(part, (NOTHING,))
    reading: Reading | None = getattr(told, key, None)
    return unmeasured(part, f"{part} damage {key}") if reading is None else Sample(part, (context.length(reading),))


def strip_of(key: str) -> Measure:
    """Return the measure of the width of the marking strips, on the tread or on the riser [nm]; nothing without."""

    def measure(context: Context) -> Samples:
        told = context.this.strips
        if isinstance(told, Absent):
            return (Sample("flight", (NOTHING,)),)
        reading: Reading | None = getattr(told, key, None)
        if reading is None:
            return (unmeasured("flight", f"strips {key}"),)
        return (Sample("flight", (context.length(reading),)),)

    return measure


def headroom_across(key: str) -> Measure:
    """Return the measure of headroom at one line along a flight whose ceiling slopes across it [nm]."""

    def measure(context: Context) -> Samples:
        told: Any = getattr(context.this.headroom_across, key, None)
        if isinstance(told, Absent):
            return (absent("flight"),)
        if not told:
            return (unmeasured("flight", f"headroom across {key}"),)
        return (Sample("flight", context.lengths(told)),)

    return measure


def width_between_rails(context: Context) -> Samples:
    """Clear width between neighbouring handrails, left to right [nm]."""
    told = context.this.width_between_rails
    if not told:
        return (unmeasured("flight", "width between rails"),)
    return (Sample("flight", context.lengths(told, "across")),)


def twice_width(context: Context) -> Samples:
    """Two times the least clear width of the flight [nm]."""
    width = least_width(context)
    if width is None:
        return (unmeasured("flight", "width"),)
    return (Sample("flight", (Value(2 * width.x, 2 * width.u),), computed=True),)
