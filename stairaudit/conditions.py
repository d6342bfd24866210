"""The closed vocabulary of `when` and `unless`: name -> what it asks, and how a survey answers it.

An answer is a value with whether all of it is known; None is unknown. Definitions stand in
`condition_descriptions.yaml` beside this file; a test holds the two lists together.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable
from typing import Any, Literal, NamedTuple, get_args

from stairaudit.context import Context, GuardAt, LandingAt, RailAt, SideAt, sides_of
from stairaudit.fields import Material
from stairaudit.measures import sizes, steps
from stairaudit.parts import Door, Glazing, Landing, Side
from stairaudit.quantities import Kind
from stairaudit.railings import Opening
from stairaudit.readings import Absent, Reading
from stairaudit.survey import Accepted, Building, Form, Occupancy, Route, Serves, Setting, Use, Work

Of = Literal["any", "opening", "handrail", "side", "guard", "landing", "glazing"]


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


class Condition(NamedTuple):
    """One condition: the kind of its value, its words, the part it is about, and what stands in for silence."""

    name: str
    kind: Kind
    of: Of
    read: Read
    words: tuple[str, ...] = ()
    default: str | None = None
    extreme: Literal["greatest", "least"] = "greatest"

    @property
    def missing(self) -> str:
        """The name of what was not told."""
        return self.name.replace("-", " ")


def _of_stair(key: str) -> Read:
    return lambda context, _: Answer(getattr(context.stair, key))


def _of_flight(key: str) -> Read:
    """Ask the flight; of a stair as a whole, what all its flights agree on."""

    def read(context: Context, _: Any) -> Answer:
        if context.flight is not None:
            return Answer(getattr(context.flight, key))
        told = {getattr(flight, key) for flight in context.stair.flights}
        return Answer(told.pop() if len(told) == 1 else None)

    return read


def _extreme(readings: Iterable[Reading | None] | None, pick: Callable[[list[Any]], Any]) -> Answer:
    listed = list(readings or ())
    known = [item.value for item in listed if item is not None]
    return Answer(pick(known), len(known) == len(listed)) if known else UNKNOWN


def _bulkhead_height(context: Context, _: Any) -> Answer:
    return _extreme(context.stair.bulkhead_height, max)


def _of_survey(key: str) -> Read:
    return lambda context, _: Answer(getattr(context.survey, key))


def _accepted(context: Context, _: Any) -> Answer:
    told = context.survey.authority
    return Answer(told.accepted if told else None)


def _years(text: str | None) -> tuple[int, int] | None:
    """Return the first and the last year of a text such as 1994 or 1990-1996, None for an unknown one."""
    if text is None or not text[:4].isdigit():
        return None
    first, _, last = text.partition("-")
    return int(first), int(last or first)


def _year_of(key: str) -> Read:
    def read(context: Context, _: Any) -> Answer:
        years = _years(getattr(context.stair, key))
        return Answer(Span(*years)) if years else UNKNOWN

    return read


def _installed(context: Context, _: Any) -> Answer:
    """Answer with the day it was put in, else with the year it was built, which is any day of that year."""
    day = context.stair.installed
    if day is not None:
        return Answer(day.toordinal())
    years = _years(context.stair.built)
    if years is None:
        return UNKNOWN
    first, last = datetime.date(years[0], 1, 1), datetime.date(years[1], 12, 31)
    return Answer(Span(first.toordinal(), last.toordinal()))


def _flight_width(context: Context, _: Any) -> Answer:
    return _extreme(context.flight.width, min) if context.flight is not None else UNKNOWN


def _rise(context: Context) -> Answer:
    sample = steps.flight_rise(context)[0]
    return Answer(sample.values[0].x, sample.whole) if sample.values else UNKNOWN


def _flight_rise(context: Context, _: Any) -> Answer:
    return _rise(context) if context.flight is not None else UNKNOWN


def _flights(context: Context) -> tuple[Context, ...]:
    return context.of_flights or tuple(
        Context(context.survey, context.stair, flight, context.error) for flight in context.stair.flights
    )


def _stair_rise(context: Context, _: Any) -> Answer:
    rises = [_rise(flight) for flight in _flights(context)]
    known = [rise.value for rise in rises if rise.value is not None]
    return Answer(sum(known), len(known) == len(rises) and all(rise.whole for rise in rises)) if known else UNKNOWN


def _tread_count(context: Context, _: Any) -> Answer:
    if context.flight is None:
        return UNKNOWN
    told = context.flight.treads
    return Answer(context.tread_count if context.tread_count is not None else len(told) if told else None)


def _under_stair(context: Context, _: Any) -> Answer:
    under = context.stair.under_stair
    return Answer(under.enclosed if under else None)


def _automatic(context: Context, _: Any) -> Answer:
    return Answer(context.stair.lighting.automatic if context.stair.lighting else None)


def _riser_count(context: Context, _: Any) -> Answer:
    return Answer(context.riser_count) if context.flight is not None else UNKNOWN


def _stair_riser_count(context: Context, _: Any) -> Answer:
    counts = [flight.riser_count for flight in _flights(context)]
    known = [count for count in counts if count is not None]
    return Answer(sum(known), len(known) == len(counts)) if known else UNKNOWN


def _least_tread(context: Context, _: Any) -> Answer:
    if context.flight is None:
        return UNKNOWN
    values = [value.x for row in context.treads or () for value in row]
    walked = [tread.walkline if tread else None for _, tread in context.tapers]
    values += [None if item is None else item.value for item in walked]
    known = [x for x in values if x is not None]
    return Answer(min(known), len(known) == len(values)) if known else UNKNOWN


def _handrail_count(context: Context, _: Any) -> Answer:
    if context.flight is None:
        return UNKNOWN
    rails = context.handrails
    return Answer(None if rails is None else 0 if isinstance(rails, Absent) else len(rails))


def _pitch(context: Context, _: Any) -> Answer:
    if context.flight is None:
        return UNKNOWN
    sample = sizes.pitch(context)[0]
    return Answer(sample.values[0].x) if sample.values else UNKNOWN


def _opening_height(_: Context, element: Any) -> Answer:
    return _extreme(element.above, max) if isinstance(element, Opening) else UNKNOWN


def _of_rail(key: str) -> Read:
    return lambda _, element: Answer(getattr(element.rail, key)) if isinstance(element, RailAt) else UNKNOWN


def _grip_shape(_: Context, element: Any) -> Answer:
    return Answer(element.rail.grip.shape) if isinstance(element, RailAt) and element.rail.grip else UNKNOWN


def _beside_wall(_: Context, element: Any) -> Answer:
    if not isinstance(element, RailAt):
        return UNKNOWN
    if element.rail.beside_wall is None and element.side is not None:
        return Answer(element.side.wall)
    return Answer(element.rail.beside_wall)


def _drop_of(side: Side | None) -> Answer:
    if side is None:
        return UNKNOWN
    return Answer(0) if side.wall else _extreme(side.drop, max)


def _drop(context: Context, element: Any) -> Answer:
    if isinstance(element, SideAt):
        return _drop_of(element.side)
    if isinstance(element, GuardAt):
        return _drop_of(element.on.side)
    holder = element.landing if isinstance(element, LandingAt) else context.flight
    told = [_drop_of(side) for side in sides_of(holder).values()]
    known = [answer.value for answer in told if answer.value is not None]
    return Answer(max(known), len(known) == len(told) and all(a.whole for a in told)) if known else UNKNOWN


def _of_guard(key: str) -> Read:
    return lambda _, element: Answer(getattr(element.guard, key)) if isinstance(element, GuardAt) else UNKNOWN


def _landing(element: Any) -> Landing | None:
    return element.landing if isinstance(element, LandingAt) else None


def _landing_place(_: Context, element: Any) -> Answer:
    return Answer(element.place) if isinstance(element, LandingAt) else UNKNOWN


def _of_landing(key: str) -> Read:
    return lambda _, element: Answer(getattr(_landing(element), key, None))


def _door(key: str) -> Read:
    def read(_: Context, element: Any) -> Answer:
        landing = _landing(element)
        door: Door | Absent | None = landing.door if landing else None
        if isinstance(door, Absent):
            return Answer("none" if key == "kind" else False)
        return Answer(getattr(door, key) if door else None)

    return read


def _pane(key: str) -> Read:
    return lambda _, element: Answer(getattr(element, key)) if isinstance(element, Glazing) else UNKNOWN


def _pane_length(key: str) -> Read:
    def read(_: Context, element: Any) -> Answer:
        return _extreme(getattr(element, key), min) if isinstance(element, Glazing) else UNKNOWN

    return read


# Yes or no about the whole stair, by the keys of its model.
TOLD_OF_STAIR = (
    "inside_dwelling", "open_to_public", "young_children", "permanent", "lift_beside", "accessible", "factory_built",
    "pitch_fixed", "secondary_suite", "alpine",
)  # fmt: skip


def _words(alias: Any) -> tuple[str, ...]:
    return tuple(get_args(alias))


def _table() -> dict[str, Condition]:
    material = _words(Material)
    rows = [
        Condition("setting", "word", "any", _of_stair("setting"), _words(Setting)),
        Condition("use", "word", "any", _of_stair("use"), _words(Use)),
        Condition("serves", "word", "any", _of_stair("serves"), _words(Serves), default="building"),
        Condition("bulkhead", "yes-no", "any", _of_stair("bulkhead"), default="no"),
        Condition("bulkhead-height", "length", "any", _bulkhead_height),
        Condition("required-egress", "yes-no", "any", _of_stair("required_egress")),
        Condition("leads-to-basement", "yes-no", "any", _of_stair("leads_to_basement")),
        Condition("automatic-light", "yes-no", "any", _automatic),
        Condition("under-stair-enclosed", "yes-no", "any", _under_stair),
        Condition("stair-riser-count", "count", "any", _stair_riser_count),
        Condition("stair-rise", "length", "any", _stair_rise),
        Condition("installed", "day", "any", _installed),
        Condition("built-year", "count", "any", _year_of("built")),
        Condition("altered-year", "count", "any", _year_of("altered")),
        Condition("purpose", "word", "any", _of_survey("purpose"), ("as-found", "repair", "replace", "new")),
        Condition("tenure", "word", "any", _of_survey("tenure"), ("owner", "rented")),
        Condition("accepted", "word", "any", _accepted, _words(Accepted)),
        Condition("route", "word", "any", _of_stair("route"), _words(Route)),
        Condition("building-kind", "word", "any", _of_stair("building"), _words(Building)),
        Condition("occupancy", "word", "any", _of_stair("occupancy"), _words(Occupancy)),
        Condition("work", "word", "any", _of_stair("work"), _words(Work)),
        *(Condition(key.replace("_", "-"), "yes-no", "any", _of_stair(key)) for key in TOLD_OF_STAIR),
        Condition("people-served", "count", "any", _of_stair("people_served")),
        Condition("storeys", "count", "any", _of_stair("storeys")),
        Condition("homes-served", "count", "any", _of_stair("homes_served")),
        Condition("form", "word", "any", _of_flight("form"), _words(Form), default="straight"),
        Condition("riser-count", "count", "any", _riser_count),
        Condition("tread-count", "count", "any", _tread_count),
        Condition("flight-width", "length", "any", _flight_width, extreme="least"),
        Condition("flight-rise", "length", "any", _flight_rise),
        Condition("least-tread", "length", "any", _least_tread, extreme="least"),
        Condition("handrail-count", "count", "any", _handrail_count),
        Condition("pitch", "angle", "any", _pitch),
        Condition("flight-risers", "word", "any", _of_flight("riser_form"), ("closed", "open")),
        Condition("nosing-edge", "word", "any", _of_flight("nosing_edge"), ("round", "bevelled", "square")),
        Condition("tread-material", "word", "any", _of_flight("tread_material"), material),
        Condition("opening-height", "length", "opening", _opening_height),
        Condition("grip-shape", "word", "handrail", _grip_shape, ("round", "not-round", "finger-recess")),
        Condition("beside-wall", "yes-no", "handrail", _beside_wall),
        Condition("handrail-material", "word", "handrail", _of_rail("material"), material),
        Condition("passing-nosings", "yes-no", "handrail", _of_rail("passing_nosings"), default="no"),
        Condition("drop", "length", "side", _drop),
        Condition("top-is-handrail", "yes-no", "guard", _of_guard("top_is_handrail")),
        Condition("guard-material", "word", "guard", _of_guard("material"), material),
        Condition("landing-place", "word", "landing", _landing_place, ("top", "bottom", "middle")),
        Condition("landing-shape", "word", "landing", _of_landing("shape"), ("rectangular", "other"), "rectangular"),
        Condition("must-drain", "yes-no", "landing", _of_landing("must_drain"), default="no"),
        Condition("small-balcony", "yes-no", "landing", _of_landing("small_balcony"), default="no"),
        Condition("door-kind", "word", "landing", _door("kind"), ("none", "required-egress", "exterior", "interior")),
        Condition("door-swings-over-stair", "yes-no", "landing", _door("swings_over_stair")),
        Condition("glazing-place", "word", "glazing", _pane("place"), ("flight", "bottom-landing")),
        Condition("glazing-height", "length", "glazing", _pane_length("height"), extreme="least"),
        Condition("glazing-distance", "length", "glazing", _pane_length("distance"), extreme="least"),
        Condition("glazing-protected", "yes-no", "glazing", _pane("protected")),
    ]
    return {row.name: row for row in rows}


CONDITIONS: dict[str, Condition] = _table()
