"""Measures of openings, by tape or by a ball: open risers, guards, the triangle at a guard's foot."""

from __future__ import annotations

from stairaudit.context import Context, GuardAt
from stairaudit.railings import Opening
from stairaudit.samples import At, Ball, Sample, Samples, Value, absent, padded, unmeasured


def opening(context: Context, item: Opening | None, at: At | None = None) -> Value:
    """Return one opening as a value [nm], with the ball that was tried in it."""
    if item is None:
        return Value(None, 0, at)
    gap = context.length(item.gap, at)
    if item.ball is None or item.passes is None:
        return gap
    return gap._replace(ball=Ball(item.ball.value, item.passes))


def riser_opening(context: Context) -> Samples:
    """Opening of each open riser [nm]."""
    flight = context.this
    if flight.riser_form == "closed":
        return (absent("risers"),)
    if not flight.riser_openings:
        missing = "riser form" if flight.riser_form is None else "riser openings"
        return (unmeasured("risers", missing),)
    told = padded(flight.riser_openings, context.riser_count, None)
    return tuple(Sample(f"riser {i}", (opening(context, item),), item) for i, item in enumerate(told, 1))


def openings_of(
    context: Context, part: str, told: tuple[Opening | None, ...] | None, key: str, guard: GuardAt
) -> Sample:
    """Return every opening of one guard."""
    if not told:
        return unmeasured(part, f"{part} {key}", element=guard)
    several = len(told) > 1
    values = tuple(
        opening(context, item, At(i, len(told), "along") if several else None) for i, item in enumerate(told)
    )
    return Sample(part, values, guard)
