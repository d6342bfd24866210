"""Measures of where the handrails of a flight are: on which sides, and how far a hand is from the nearest one."""

from __future__ import annotations

from stairaudit.context import Context
from stairaudit.measures.steps import answer
from stairaudit.readings import Absent, Reading, mean_of
from stairaudit.samples import Places, Sample, Samples, Value, absent, unmeasured

ENDS = ("left", "right")


def _sides(context: Context) -> tuple[str | None, ...] | None:
    """Return the side of each handrail, None for a side that was not told; None where no rail was told of."""
    rails = context.handrails
    if rails is None:
        return None
    return () if isinstance(rails, Absent) else tuple(at.rail.side for at in rails)


def handrail_sides(context: Context) -> Samples:
    """Number of sides of the flight, left and right, that have a handrail."""
    told = _sides(context)
    if told is None:
        return (unmeasured("flight", "handrails"),)
    count = len({side for side in told if side in ENDS})
    if None in told and count < len(ENDS):
        return (unmeasured("flight", "handrail side"),)
    return (Sample("flight", (Value(count),)),)


def side_has_handrail(context: Context) -> Samples:
    """Is there a handrail on each side of the flight, be it a wall or open?"""
    told = _sides(context)
    samples: list[Sample] = []
    for name in ENDS:
        side = context.side_at(context.this, name, context.name_of())
        found = None if told is None else _on(told, name)
        missing = "handrails" if told is None else "handrail side"
        samples += answer(f"side {name}", found, missing, side)
    return tuple(samples)


def centre_handrail(context: Context) -> Samples:
    """Is there a handrail between the sides of the flight?"""
    told = _sides(context)
    if told is None:
        return answer("flight", None, "handrails")
    return answer("flight", _on(told, "centre"), "handrail side")


def _on(told: tuple[str | None, ...], name: str) -> bool | None:
    """Say whether a rail is at a place; None where a rail may be, of which nobody told the place."""
    return True if name in told else None if None in told else False


def handrail_reach(context: Context) -> Samples:
    """Greatest level distance from the width in use to the nearest handrail [nm], as read, else worked out."""
    told = context.this.handrail_reach
    if told:
        return (Sample("flight", context.lengths(told)),)
    if isinstance(context.handrails, Absent):
        return (absent("flight"),)
    # The top of a guard alone does not tell that there is no other rail, and a rail between would halve the way.
    sides = _sides(context) if context.this.handrails else None
    width = context.this.width
    missing = [name for name, known in (("handrails", sides), ("width", width)) if not known]
    if not sides or not width:
        return (unmeasured("flight", *missing),)
    return (_worked_out(context, set(sides), width),)


def _worked_out(context: Context, sides: set[str | None], width: tuple[Reading | None, ...]) -> Sample:
    """Return the whole width where one side has a rail and half of it where both have."""
    if None in sides:
        return unmeasured("flight", "handrail side")
    if "centre" in sides:
        return unmeasured("flight", "handrail reach")
    return Sample("flight", _shared(context.lengths(width), len(sides)), computed=True)


def _shared(widths: Places, rails: int) -> Places:
    if rails == 1:
        return widths
    return tuple(
        value if value.x is None else value._replace(x=mean_of((0, value.x)), u=value.u / 2) for value in widths
    )
