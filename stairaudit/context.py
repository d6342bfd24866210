"""One flight laid out for measuring: its readings in order, gaps in their places, each with its error."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Any, NamedTuple

from stairaudit.parts import Guard, Handrail, Landing, Side
from stairaudit.readings import Absent, Reading
from stairaudit.samples import At, Value
from stairaudit.survey import Flight, Stair, Survey
from stairaudit.uncertainty import Instruments

GAP = Value(None)
Places = tuple[Value, ...]


@lru_cache(maxsize=256)
def _places(count: int, way: Any) -> tuple[At, ...]:
    return tuple(At(place, count, way) for place in range(count))


def _part_names(noun: str, parts: Iterable[Handrail | Guard]) -> Iterable[str]:
    """Yield the name of each part by its side; a second one on a side is numbered."""
    seen: dict[str, int] = {}
    for part in parts:
        name = f"{noun} {part.side}" if part.side else noun
        seen[name] = seen.get(name, 0) + 1
        yield name if seen[name] == 1 else f"{name} {seen[name]}"


class LandingAt(NamedTuple):
    """A landing and where it lies; `landing` None when it was not described."""

    place: str
    part: str
    landing: Landing | None


NO_LANDING = LandingAt("", "", None)


class SideAt(NamedTuple):
    """One side of a flight or landing, with whether a guard stands on it (None when not told)."""

    name: str
    side: Side | None
    guarded: bool | None


class GuardAt(NamedTuple):
    """One guard, the side that it stands on, and its part name."""

    guard: Guard
    on: SideAt
    part: str


class RailAt(NamedTuple):
    """One handrail, its part name, and the side that it stands on."""

    part: str
    rail: Handrail
    side: Side | None


def instruments_of(survey: Survey) -> Instruments:
    """Return the instruments of a survey, the usual ones where none were named."""
    used = survey.instruments
    if used is None:
        return Instruments()
    named: dict[str, Any] = {}
    if used.tape is not None:
        named["tape"] = used.tape.value
    if used.level is not None:
        named["level"] = Fraction(used.level.value)
    return Instruments(**named)


class Context:
    """One flight of one stair of one survey; `flight` is None while the whole stair is looked at."""

    def __init__(self, survey: Survey, stair: Stair, flight: Flight | None, error: Instruments) -> None:
        self.survey = survey
        self.stair = stair
        self.flight = flight
        self.error = error
        self.cache: dict[Any, Any] = {}
        self.answers: dict[Any, Any] = {}

    @property
    def this(self) -> Flight:
        """The flight; a measure of a flight is never asked while the whole stair is looked at."""
        assert self.flight is not None
        return self.flight

    def length(self, reading: Reading | None, at: At | None = None) -> Value:
        """Return a length reading as a value, a gap for None."""
        if reading is None:
            return Value(None, 0, at)
        return Value(reading.value, self.error.length_u(reading.value), at)

    def lengths(self, readings: Iterable[Reading | None], way: Any = "along") -> Places:
        """Return several places; a single one carries no place name."""
        listed = tuple(readings)
        if len(listed) == 1:
            return (self.length(listed[0]),)
        return tuple(map(self.length, listed, _places(len(listed), way)))

    @cached_property
    def risers(self) -> tuple[Places, ...] | None:
        """Bottom to top, gaps in place; None when nothing tells how many there are."""
        flight = self.this
        if flight.levels is not None:
            return tuple(self._steps(flight.levels))
        given = tuple(self.lengths(places, "across") for places in flight.risers or ())
        count = max(flight.riser_count or 0, len(given))
        return given + ((GAP,),) * (count - len(given)) if count else None

    def _steps(self, levels: tuple[Reading | None, ...]) -> Iterable[Places]:
        for lower, upper in pairwise(levels):
            if lower is None or upper is None:
                yield (GAP,)
            else:
                u = self.error.difference_u(lower.value, upper.value)
                yield (Value(upper.value - lower.value, u),)

    @property
    def riser_count(self) -> int | None:
        """Number of risers, None when it was not told."""
        return None if self.risers is None else len(self.risers)

    @cached_property
    def treads(self) -> tuple[Places, ...] | None:
        """Bottom to top, padded with gaps to the number that goes with the risers."""
        flight = self.this
        given = tuple(self.lengths(places, "across") for places in flight.treads or ())
        if self.riser_count is None:
            return given or None
        count = self.riser_count - (flight.top_tread != "level-with-landing")
        return given + ((GAP,),) * (count - len(given))

    @cached_property
    def landings(self) -> tuple[LandingAt, ...]:
        """The bottom landing, those between, the top one; top and bottom also when not described."""
        told = self.this.landings
        between = (told.middle if told else None) or ()
        middle = tuple(LandingAt("middle", f"landing middle {i + 1}", item) for i, item in enumerate(between))
        bottom = LandingAt("bottom", "landing bottom", told.bottom if told else None)
        return (bottom, *middle, LandingAt("top", "landing top", told.top if told else None))

    @cached_property
    def handrails(self) -> tuple[RailAt, ...] | Absent | None:
        """The handrails with their names."""
        rails = self.this.handrails
        if isinstance(rails, Absent):
            return rails
        if not rails:
            return None
        return tuple(self._named(rails))

    def _named(self, rails: tuple[Handrail, ...]) -> Iterable[RailAt]:
        sides = self.this.sides
        for rail, part in zip(rails, _part_names("handrail", rails), strict=True):
            yield RailAt(part, rail, getattr(sides, rail.side or "", None))

    def side_at(self, holder: Any, name: str) -> SideAt:
        """Return one side of a flight or landing."""
        side: Side | None = getattr(holder.sides, name, None) if holder.sides else None
        return SideAt(name, side, _guarded(holder.guards, side, name))


def sides_of(holder: Any) -> dict[str, Side | None]:
    """Return the sides of a flight or landing: left and right, told or not, and the far one where it was told."""
    told = getattr(holder, "sides", None)
    sides: dict[str, Side | None] = {name: getattr(told, name, None) for name in ("left", "right")}
    end: Side | None = getattr(told, "end", None)
    return sides if end is None else {**sides, "end": end}


def _guarded(guards: Any, side: Side | None, name: str) -> bool | None:
    """Say whether a guard stands on a side; a list of guards does not deny one that it leaves out."""
    if guards is Absent.NONE or (side is not None and side.guard == "none"):
        return False
    named = {guard.side for guard in guards or ()}
    return True if name in named else None


def guards_of(context: Context, holder: Any) -> tuple[GuardAt, ...] | Absent | None:
    """Return the guards of a flight or landing with the sides that they stand on."""
    guards = holder.guards
    if isinstance(guards, Absent):
        return guards
    if not guards:
        return None
    return tuple(
        GuardAt(guard, context.side_at(holder, guard.side or ""), part)
        for guard, part in zip(guards, _part_names("guard", guards), strict=True)
    )
