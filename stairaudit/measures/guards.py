"""Measures of open sides and guards, along flights and on landings."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from stairaudit.context import (
    LANDING,
    NO_LANDING,
    Context,
    GuardAt,
    LandingAt,
    SideAt,
    guards_of,
    long_guards,
    sides_of,
)
from stairaudit.measures.openings import openings_of
from stairaudit.measures.sizes import plumb
from stairaudit.measures.triangle import triangle_of
from stairaudit.railings import Guard, GuardMade, LongGuard, Stretch
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
    along = context.name_of()
    read = [_guarded(context.side_at(context.this, name, along), f"side {name}") for name in ("left", "right")]
    return tuple(sample for sample in read if sample is not None) or (absent("sides"),)


def _landing_sides(context: Context, at: LandingAt) -> Iterator[Sample]:
    landing = at.landing
    assert landing is not None
    for name in sides_of(landing):
        side = context.side_at(landing, name, context.name_of(at))._replace(landing=at)
        sample = _guarded(side, f"{at.part} side {name}")
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
        elif at.shared:
            continue
        elif at.landing.present and at.landing.sides is None:
            samples.append(unmeasured(f"{at.part} sides", element=at))
        elif at.landing.present:
            samples += _landing_sides(context, at)
    return tuple(samples) or (absent("landings"),)


def flight_guards(make: Make) -> Measure:
    """Return the measure that `make` takes of each guard along the flight."""

    def measure(context: Context) -> Samples:
        if context.flight is None:
            return tuple(_long(context, make, "rake"))
        guards = guards_of(context, context.this)
        if guards is None:
            return (_untold(context, context.this, "guards", None),)
        if isinstance(guards, Absent):
            return (absent("guards"),)
        return tuple(make(context, guard.part, guard) for guard in guards) or (absent("guards"),)

    return measure


def landing_guards(make: Make) -> Measure:
    """Return the measure that `make` takes of each guard on a landing."""

    def measure(context: Context) -> Samples:
        if context.flight is None:
            return tuple(_long(context, make, "level"))
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
    if at.shared:
        return
    guards = guards_of(context, at.landing)
    if guards is None and at.landing.present:
        told = _untold(context, at.landing, f"{at.part} guards", at)
        if not told.absent:
            yield told
    for guard in guards if isinstance(guards, tuple) else ():
        yield make(context, f"{at.part} {guard.part}", guard._replace(on=guard.on._replace(landing=at)))


def _long(context: Context, make: Make, way: str) -> Iterator[Sample]:
    """Take a measure of each guard that runs along several flights and landings, on its slope or on its levels."""
    for told, side, part in long_guards(context, way):
        stretch: Stretch | None = getattr(told, way)
        if stretch is not None or any((LANDING in name) == (way == "level") for name in told.along):
            name = part if way == "rake" else f"{part} level"
            yield make(context, name, GuardAt(_guard(told, stretch or Stretch()), side, name, told.along))


def _guard(told: LongGuard, stretch: Stretch) -> Guard:
    sizes = {key: getattr(stretch, key) for key in Stretch.model_fields}
    made = {key: getattr(told, key) for key in GuardMade.model_fields}
    top = told.top_is_handrail
    return Guard(side=told.side, top_is_handrail=top, material=told.material, labelled=told.labelled, **sizes, **made)


def _untold(context: Context, holder: object, part: str, element: LandingAt | None) -> Sample:
    """Return the sample of guards that nobody told of: none are looked for where each side is a wall or guarded."""
    along = context.name_of(element)
    sides = [context.side_at(holder, name, along) for name in sides_of(holder)]
    if all((at.side is not None and at.side.wall) or at.guarded for at in sides):
        return absent(part)
    return unmeasured(part, element=element)


def height(context: Context, part: str, guard: GuardAt) -> Sample:
    """Height of a guard at each place [nm]."""
    told = guard.guard.heights
    if not told:
        return unmeasured(part, f"{part} heights", element=guard)
    if guard.guard.heights_taken != "square":
        return Sample(part, context.lengths(told), guard)
    if context.flight is None:
        return unmeasured(part, f"{part} heights taken plumb", element=guard)
    return plumb(context, part, context.lengths(told), guard)


def openings(context: Context, part: str, guard: GuardAt) -> Sample:
    """Openings of a guard [nm]."""
    return openings_of(context, part, guard.guard.openings, "openings", guard)


def triangle(context: Context, part: str, guard: GuardAt) -> Sample:
    """Largest ball in the triangle of tread, riser and bottom rail, tried, by tape or worked out [nm]."""
    if guard.guard.triangle is None and guard.guard.rail_gap is not None:
        return triangle_of(context, part, guard)
    return openings_of(context, part, guard.guard.triangle, "triangle", guard)


def every_guard(make: Make) -> Measure:
    """Return the measure that `make` takes of each guard as a whole, of the flight and of its landings."""

    def measure(context: Context) -> Samples:
        if context.flight is None:
            return tuple(
                make(context, part, GuardAt(_guard(told, Stretch()), side, part, told.along))
                for told, side, part in long_guards(context)
            )
        return flight_guards(make)(context) + landing_guards(make)(context)

    return measure
