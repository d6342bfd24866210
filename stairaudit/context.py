"""One flight laid out for measuring: its readings in order, gaps in their places, each with its error."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Any, NamedTuple

from stairaudit.basis import Based, based
from stairaudit.parts import Landing, Side
from stairaudit.railings import Guard, Handrail, LongGuard, Stretch
from stairaudit.readings import Absent, Reading
from stairaudit.samples import GAP, At, Places, Value, padded
from stairaudit.surfaces import TaperedTread
from stairaudit.survey import TAPERED_FORMS, Flight, Stair, Survey
from stairaudit.uncertainty import Instruments

# Forms of which every tread is tapered.


@lru_cache(maxsize=256)
def _places(count: int, way: Any) -> tuple[At, ...]:
    return tuple(At(place, count, way) for place in range(count))


def _part_names(noun: str, parts: Iterable[Handrail | Guard | LongGuard]) -> Iterable[str]:
    """Yield the name of each part by its side; a second one on a side is numbered."""
    seen: dict[str, int] = {}
    for part in parts:
        name = f"{noun} {part.side}" if part.side else noun
        seen[name] = seen.get(name, 0) + 1
        yield name if seen[name] == 1 else f"{name} {seen[name]}"


class LandingAt(NamedTuple):
    """A landing and where it lies; `landing` None when it was not described, `shared` when told at another flight."""

    place: str
    part: str
    landing: Landing | None
    shared: bool = False


NO_LANDING = LandingAt("", "", None)


class SideAt(NamedTuple):
    """One side of a flight or landing, with whether a guard stands on it (None when not told)."""

    name: str
    side: Side | None
    guarded: bool | None
    landing: LandingAt | None = None


class GuardAt(NamedTuple):
    """One guard, its side and its part name; `along` names what it runs along where that is several flights."""

    guard: Guard
    on: SideAt
    part: str
    along: tuple[str, ...] = ()


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
    """One flight of one stair of one survey.

    `flight` is None while the whole stair is looked at, and `of_flights` has its flights then.
    """

    def __init__(self, survey: Survey, stair: Stair, flight: Flight | None, error: Instruments) -> None:
        self.survey = survey
        self.stair = stair
        self.flight = flight
        self.error = error
        self.cache: dict[Any, Any] = {}
        self.answers: dict[Any, Any] = {}
        self.of_flights: tuple[Context, ...] = ()

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
    def read_risers(self) -> tuple[Places, ...] | None:
        """As read, bottom to top, gaps in place; None when nothing tells how many there are."""
        flight = self.this
        if flight.levels is not None:
            return tuple(self._steps(flight.levels))
        given = tuple(self.lengths(places, "across") for places in flight.risers or ())
        count = max(flight.riser_count or 0, len(given))
        return padded(given, count, (GAP,)) if count else None

    def _steps(self, levels: tuple[Reading | None, ...]) -> Iterable[Places]:
        for lower, upper in pairwise(levels):
            if lower is None or upper is None:
                yield (GAP,)
            else:
                u = self.error.difference_u(lower.value, upper.value)
                yield (Value(upper.value - lower.value, u),)

    @cached_property
    def based_risers(self) -> Based:
        """The risers on the hard surface, with what is missing to know them on it."""
        return based(self.this, self.read_risers or (), self.error)

    @property
    def risers(self) -> tuple[Places, ...] | None:
        """On the hard surface, bottom to top, gaps in place; None when nothing tells how many there are."""
        return None if self.read_risers is None else self.based_risers.rows

    @property
    def riser_count(self) -> int | None:
        """Number of risers, None when it was not told."""
        return None if self.read_risers is None else len(self.read_risers)

    @cached_property
    def treads(self) -> tuple[Places, ...] | None:
        """Bottom to top, padded with gaps to the number that goes with the risers; nothing for a tapered tread."""
        given = tuple(
            () if isinstance(tread, TaperedTread) else self.lengths(tread, "across")
            for tread in self.this.treads or ()
        )
        if self.tread_count is None:
            return given or None
        return padded(given, self.tread_count, (GAP,))

    @property
    def tread_count(self) -> int | None:
        """Number of treads that goes with the risers, None when these were not told."""
        if self.riser_count is None:
            return None
        return self.riser_count - (self.this.top_tread != "level-with-landing")

    @cached_property
    def tapers(self) -> tuple[tuple[int, TaperedTread | None], ...]:
        """The tapered treads by their number; None where one is, or may be, of which nothing is told."""
        told = padded(self.this.treads or (), self.tread_count, (None,))
        every, mixed = self.this.form in TAPERED_FORMS, self.this.form == "mixed"
        found: list[tuple[int, TaperedTread | None]] = []
        for number, tread in enumerate(told, 1):
            if isinstance(tread, TaperedTread):
                found.append((number, tread))
            elif every or (mixed and all(item is None for item in tread)):
                found.append((number, None))
        return tuple(found)

    @cached_property
    def landings(self) -> tuple[LandingAt, ...]:
        """The bottom landing, those between, the top one; top and bottom also when not described."""
        told = self.this.landings
        between = (told.middle if told else None) or ()
        middle = tuple(self._landing_at("middle", f"landing middle {i + 1}", item) for i, item in enumerate(between))
        bottom = self._landing_at("bottom", "landing bottom", told.bottom if told else None)
        return (bottom, *middle, self._landing_at("top", "landing top", told.top if told else None))

    def _landing_at(self, place: str, part: str, told: Landing | None) -> LandingAt:
        if told is None or told.same_as is None:
            return LandingAt(place, part, told)
        other = self._landing_named(told.same_as)
        own = {"depth": told.depth, "width": told.width}
        return LandingAt(place, part, None if other is None else other.model_copy(update=own), shared=True)

    def _landing_named(self, name: str) -> Landing | None:
        """Return the landing that is told at another flight of this stair."""
        flight_id, _, place = name.rpartition(" landing ")
        flight = next((item for item in self.stair.flights if item.id == flight_id), None)
        landings = flight.landings if flight else None
        if landings is None:
            return None
        word, _, number = place.partition(" ")
        if word == "middle" and number.isdigit():
            return (landings.middle or ())[int(number) - 1 :][0]
        found: Landing | None = getattr(landings, word, None)
        return found

    @cached_property
    def handrails(self) -> tuple[RailAt, ...] | Absent | None:
        """The handrails with their names; the top of a guard that serves as one counts where none is listed."""
        rails = self.this.handrails
        listed = rails if isinstance(rails, tuple) else ()
        sides = {rail.side for rail in listed}
        tops = tuple(rail for rail in self._guard_tops() if rail.side not in sides)
        if listed or tops:
            return tuple(self._named((*listed, *tops)))
        return rails if isinstance(rails, Absent) else None

    def _guard_tops(self) -> Iterable[Handrail]:
        guards = self.this.guards if isinstance(self.this.guards, tuple) else ()
        for guard in guards:
            if guard.top_is_handrail and guard.side != "end":
                yield Handrail(
                    side=guard.side, heights=guard.heights, heights_taken=guard.heights_taken, material=guard.material
                )
        for long in self.stair.guards or ():
            if long.top_is_handrail and self.this.id in long.along:
                rake = long.rake or Stretch()
                yield Handrail(
                    side=long.side, heights=rake.heights, heights_taken=rake.heights_taken, material=long.material
                )

    def _named(self, rails: tuple[Handrail, ...]) -> Iterable[RailAt]:
        sides = self.this.sides
        for rail, part in zip(rails, _part_names("handrail", rails), strict=True):
            yield RailAt(part, rail, getattr(sides, rail.side or "", None))

    def side_at(self, holder: Any, name: str, along: str = "") -> SideAt:
        """Return one side of a flight or landing; `along` is its name in a guard that runs on over several."""
        side: Side | None = getattr(holder.sides, name, None) if holder.sides else None
        run = any(guard.side == name and along in guard.along for guard in self.stair.guards or ())
        return SideAt(name, side, True if run else _guarded(holder.guards, side, name))

    def name_of(self, at: LandingAt | None = None) -> str:
        """Return the name of the flight, or of a landing of it, as a guard that runs along both calls it."""
        return self.this.id if at is None else f"{self.this.id} {at.part}"

    def side_of(self, along: str, name: str) -> Side | None:
        """Return a side of a flight or of a landing of the stair by the name that a long guard gives it."""
        for context in self.of_flights:
            holders: list[tuple[str, Any]] = [(context.name_of(), context.this)]
            holders += [(context.name_of(at), at.landing) for at in context.landings if at.landing is not None]
            for called, holder in holders:
                if called == along:
                    side: Side | None = getattr(holder.sides, name, None)
                    return side
        return None


def sides_of(holder: Any) -> dict[str, Side | None]:
    """Return the sides of a flight or landing: left and right, told or not, and the far one where it was told."""
    told = getattr(holder, "sides", None)
    sides: dict[str, Side | None] = {name: getattr(told, name, None) for name in ("left", "right")}
    end: Side | None = getattr(told, "end", None)
    return sides if end is None else {**sides, "end": end}


LANDING = " landing "


def long_guards(context: Context, way: str | None = None) -> Iterable[tuple[LongGuard, SideAt, str]]:
    """Yield the guards that run along several flights and landings, each with its side and its part name.

    The drop beside it is that of the flights for its `rake`, of the landings for its `level`, else of all.
    """
    guards = context.stair.guards or ()
    for guard, part in zip(guards, _part_names("guard", guards), strict=True):
        drop = guard.drop
        if drop is None:
            stretch = [name for name in guard.along if way is None or (LANDING in name) == (way == "level")]
            sides = [context.side_of(along, guard.side) for along in stretch]
            open_sides = [side for side in sides if side is None or not side.wall]
            drop = tuple(item for side in open_sides for item in ((side.drop if side else None) or (None,)))
        yield guard, SideAt(guard.side, Side(drop=drop), True), part


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
