"""What a survey answers about one part of a stair: an opening, a rail, a side, a guard, a landing, a door, a pane."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, NamedTuple

from stairaudit.context import Context, GuardAt, LandingAt, RailAt, SideAt, sides_of
from stairaudit.parts import Door, Glazing, Landing, Side
from stairaudit.railings import Opening
from stairaudit.readings import Absent, Reading


class Answer(NamedTuple):
    """What the survey says: the value, None for unknown, and whether a gap could still change it."""

    value: Any
    whole: bool = True


class Span(NamedTuple):
    """A figure of which only the least and the greatest value is known."""

    low: int
    high: int


UNKNOWN = Answer(None)
Read = Callable[[Context, Any], Answer]


def gathered(told: Iterable[Answer], pick: Callable[[list[Any]], Any]) -> Answer:
    """Return one answer out of those known of several, whole only when each of them is."""
    answers = list(told)
    known = [answer.value for answer in answers if answer.value is not None]
    whole = len(known) == len(answers) and all(answer.whole for answer in answers)
    return Answer(pick(known), whole) if known else UNKNOWN


def extreme(readings: Iterable[Reading | None] | None, pick: Callable[[list[Any]], Any]) -> Answer:
    """Return the greatest or the least of several readings, not whole after a gap."""
    return gathered((UNKNOWN if item is None else Answer(item.value) for item in readings or ()), pick)


def opening_height(_: Context, element: Any) -> Answer:
    """Answer how high an opening between treads lies above what is below it."""
    return extreme(element.above, max) if isinstance(element, Opening) else UNKNOWN


def of_rail(key: str) -> Read:
    """Return what asks a handrail for one of its keys."""
    return lambda _, element: Answer(getattr(element.rail, key)) if isinstance(element, RailAt) else UNKNOWN


def grip_shape(_: Context, element: Any) -> Answer:
    """Answer what cross-section a handrail has."""
    return Answer(element.rail.grip.shape) if isinstance(element, RailAt) and element.rail.grip else UNKNOWN


def beside_wall(_: Context, element: Any) -> Answer:
    """Answer whether a handrail runs beside a wall, by its own key, else by the side that it stands on."""
    if not isinstance(element, RailAt):
        return UNKNOWN
    if element.rail.beside_wall is None and element.side is not None:
        return Answer(element.side.wall)
    return Answer(element.rail.beside_wall)


def grip_perimeter(_: Context, element: Any) -> Answer:
    """Answer how far it is once round a handrail."""
    grip = element.rail.grip if isinstance(element, RailAt) else None
    return Answer(grip.perimeter.value) if grip and grip.perimeter else UNKNOWN


def side_kind(_: Context, element: Any) -> Answer:
    """Answer whether a side, or the side that a guard stands on, is a wall or open."""
    at = element.on if isinstance(element, GuardAt) else element
    side = at.side if isinstance(at, SideAt) else None
    return UNKNOWN if side is None else Answer("wall" if side.wall else "open")


def open_sides(context: Context, _: Any) -> Answer:
    """Answer how many sides of a flight are no wall."""
    if context.flight is None:
        return UNKNOWN
    sides = sides_of(context.flight).values()
    return gathered((UNKNOWN if side is None else Answer(not side.wall) for side in sides), sum)


def _drop_of(side: Side | None) -> Answer:
    if side is None:
        return UNKNOWN
    return Answer(0) if side.wall else extreme(side.drop, max)


def drop(context: Context, element: Any) -> Answer:
    """Answer how far it falls beside a side, a guard, or any side of a landing or flight."""
    if isinstance(element, SideAt):
        return _drop_of(element.side)
    if isinstance(element, GuardAt):
        return _drop_of(element.on.side)
    holder = element.landing if isinstance(element, LandingAt) else context.flight
    return gathered(map(_drop_of, sides_of(holder).values()), max)


def of_guard(key: str) -> Read:
    """Return what asks a guard for one of its keys."""
    return lambda _, element: Answer(getattr(element.guard, key)) if isinstance(element, GuardAt) else UNKNOWN


def _landing_at(element: Any) -> LandingAt | None:
    """Return the landing that a condition is asked of: the part itself, or what a side or a guard of it stands on."""
    if isinstance(element, GuardAt):
        return element.on.landing
    if isinstance(element, SideAt):
        return element.landing
    return element if isinstance(element, LandingAt) else None


def _landing(element: Any) -> Landing | None:
    at = _landing_at(element)
    return at.landing if at else None


def landing_place(_: Context, element: Any) -> Answer:
    """Answer where on the flight a landing lies."""
    at = _landing_at(element)
    return Answer(at.place or None) if at else UNKNOWN


def of_landing(key: str) -> Read:
    """Return what asks a landing, or that on which a side or a guard stands, for one of its keys."""
    return lambda _, element: Answer(getattr(_landing(element), key, None))


def landing_turn(_: Context, element: Any) -> Answer:
    """Answer by how much the way changes direction at a landing."""
    landing = _landing(element)
    return Answer(landing.turn.value if landing and landing.turn else None)


def door(key: str) -> Read:
    """Return what asks the door on a landing for one of its keys; without a door there is none, and nothing opens."""

    def read(_: Context, element: Any) -> Answer:
        landing = _landing(element)
        told: Door | Absent | None = landing.door if landing else None
        if isinstance(told, Absent):
            return Answer(False if key == "opens_over_stair" else "none")
        return Answer(getattr(told, key) if told else None)

    return read


def pane(key: str) -> Read:
    """Return what asks a pane for one of its keys."""
    return lambda _, element: Answer(getattr(element, key)) if isinstance(element, Glazing) else UNKNOWN


def pane_length(key: str) -> Read:
    """Return what asks a pane for the least of its readings."""

    def read(_: Context, element: Any) -> Answer:
        return extreme(getattr(element, key), min) if isinstance(element, Glazing) else UNKNOWN

    return read
