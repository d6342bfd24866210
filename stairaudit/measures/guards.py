"""Measures of open sides and guards, along flights and on landings."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from stairaudit.context import NO_LANDING, Context, GuardAt, LandingAt, SideAt, guards_of, sides_of
from stairaudit.measures.openings import openings_of
from stairaudit.readings import Absent
from stairaudit.samples import Sample, Samples, Value, absent, unmeasured

Measure = Callable[[Context], Samples]
Make = Callable[[Context, str, GuardAt], Sample]


def _guarded(side: SideAt, part: str) -> Sample | None:
    if side.side is None:
        return unmeasured(part, part, element=side)
    if side.side.wall:
        return None
    if side.guarded is None:
        return unmeasured(part, f"guard on {part}", element=side)
    return Sample(part, (Value(side.guarded),), side)


def side_guarded(context: Context) -> Samples:
    """Is there a guard on each open side of the flight?"""
    if context.this.sides is None:
        return (unmeasured("sides"),)
    read = [_guarded(context.side_at(context.this, name), f"side {name}") for name in ("left", "right")]
    return tuple(sample for sample in read if sample is not None) or (absent("sides"),)


def _landing_sides(context: Context, at: LandingAt) -> Iterator[Sample]:
    landing = at.landing
    assert landing is not None
    for name in sides_of(landing):
        sample = _guarded(context.side_at(landing, name), f"{at.part} side {name}")
        if sample is not None:
            yield sample


def landing_side_guarded(context: Context) -> Samples:
    """Is there a guard on each open side of each landing?"""
    if context.this.landings is None:
        return (unmeasured("landings", element=NO_LANDING),)
    samples: list[Sample] = []
    for at in context.landings:
        if at.landing is None:
            samples.append(unmeasured(at.part, element=at))
        elif at.landing.present and at.landing.sides is None:
            samples.append(unmeasured(f"{at.part} sides", element=at))
        elif at.landing.present:
            samples += _landing_sides(context, at)
    return tuple(samples) or (absent("landings"),)


def flight_guards(make: Make) -> Measure:
    """Return the measure that `make` takes of each guard along the flight."""

    def measure(context: Context) -> Samples:
        guards = guards_of(context, context.this)
        if guards is None:
            return (_untold(context.this, "guards", None),)
        if isinstance(guards, Absent):
            return (absent("guards"),)
        return tuple(make(context, guard.part, guard) for guard in guards) or (absent("guards"),)

    return measure


def landing_guards(make: Make) -> Measure:
    """Return the measure that `make` takes of each guard on a landing."""

    def measure(context: Context) -> Samples:
        if context.this.landings is None:
            return (unmeasured("landing guards", "landings", element=NO_LANDING),)
        samples: list[Sample] = []
        for at in context.landings:
            samples += _on_landing(context, at, make)
        return tuple(samples) or (absent("landing guards"),)

    return measure


def _on_landing(context: Context, at: LandingAt, make: Make) -> Iterator[Sample]:
    if at.landing is None:
        yield unmeasured(f"{at.part} guards", at.part, element=at)
        return
    guards = guards_of(context, at.landing)
    if guards is None and at.landing.present:
        told = _untold(at.landing, f"{at.part} guards", at)
        if not told.absent:
            yield told
    for guard in guards if isinstance(guards, tuple) else ():
        yield make(context, f"{at.part} {guard.part}", guard)


def _untold(holder: object, part: str, element: object) -> Sample:
    """Return the sample of guards that nobody told of: none are looked for where every side is a wall."""
    if all(side is not None and side.wall for side in sides_of(holder).values()):
        return absent(part)
    return unmeasured(part, element=element)


def height(context: Context, part: str, guard: GuardAt) -> Sample:
    """Height of a guard at each place [nm]."""
    told = guard.guard.heights
    if not told:
        return unmeasured(part, f"{part} heights", element=guard)
    return Sample(part, context.lengths(told), guard)


def openings(context: Context, part: str, guard: GuardAt) -> Sample:
    """Openings of a guard [nm]."""
    return openings_of(context, part, guard.guard.openings, "openings", guard)


def triangle(context: Context, part: str, guard: GuardAt) -> Sample:
    """Largest ball in the triangle of tread, riser and bottom rail [nm]."""
    return openings_of(context, part, guard.guard.triangle, "triangle", guard)


def labelled(_: Context, part: str, guard: GuardAt) -> Sample:
    """Is a maker's label to be seen on a guard?"""
    if guard.guard.labelled is None:
        return unmeasured(part, f"{part} labelled", element=guard)
    return Sample(part, (Value(guard.guard.labelled),), guard)


def guard_labelled(context: Context) -> Samples:
    """Is a maker's label to be seen on each guard, of the flight and of its landings?"""
    return flight_guards(labelled)(context) + landing_guards(labelled)(context)
