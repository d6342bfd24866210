"""The closed vocabulary of `when` and `unless`: name -> what it asks, and how a survey answers it.

An answer is a value with whether all of it is known; None is unknown. Definitions stand in
`condition_descriptions.yaml` beside this file; a test holds the two lists together.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable
from typing import Any, Literal, NamedTuple, get_args

from stairaudit.answers import (
    UNKNOWN,
    Answer,
    Read,
    Span,
    beside_wall,
    door,
    drop,
    extreme,
    gathered,
    grip_perimeter,
    grip_shape,
    landing_place,
    landing_turn,
    of_guard,
    of_landing,
    of_rail,
    open_sides,
    opening_height,
    pane,
    pane_length,
    side_kind,
)
from stairaudit.context import Context
from stairaudit.fields import Material
from stairaudit.measures import sizes, steps
from stairaudit.parts import DoorKind, DoorOpens, LandingKind
from stairaudit.quantities import Kind
from stairaudit.railings import Infill
from stairaudit.readings import Absent
from stairaudit.surfaces import CoveringKind
from stairaudit.survey import Accepted, Building, Flight, Form, Occupancy, Route, Serves, Setting, Use, Work

Of = Literal["any", "opening", "handrail", "side", "guard", "landing", "glazing"]


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


def _of_each(answer: Callable[[Flight], Any]) -> Read:
    """Ask the flight; of a stair as a whole, what all its flights agree on."""

    def read(context: Context, _: Any) -> Answer:
        if context.flight is not None:
            return Answer(answer(context.flight))
        told = {answer(flight) for flight in context.stair.flights}
        return Answer(told.pop()) if len(told) == 1 else Answer(None, whole=False)

    return read


def _of_flight(key: str) -> Read:
    return _of_each(lambda flight: getattr(flight, key))


def _covering_of(flight: Flight) -> str | None:
    told = flight.coverings.treads if flight.coverings else None
    return told.value if isinstance(told, Absent) else told.kind if told else None


_covering_kind = _of_each(_covering_of)


def _bulkhead_height(context: Context, _: Any) -> Answer:
    return extreme(context.stair.bulkhead_height, max)


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
    """Answer with the day it was put in, else with any day from the year it was built to that of its last change."""
    day, altered = context.stair.installed, _years(context.stair.altered)
    if day is not None and altered is None:
        return Answer(day.toordinal())
    years = _years(context.stair.built) if day is None else (day.year, day.year)
    if years is None or (altered is None and context.stair.altered is not None):
        return UNKNOWN
    first, last = datetime.date(years[0], 1, 1), datetime.date(max(years[1], altered[1] if altered else 0), 12, 31)
    return Answer(Span(first.toordinal(), last.toordinal()))


def _flight_width(context: Context, _: Any) -> Answer:
    return extreme(context.flight.width, min) if context.flight is not None else UNKNOWN


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
    return gathered(map(_rise, _flights(context)), sum)


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
    return gathered((Answer(flight.riser_count) for flight in _flights(context)), sum)


def _least_tread(context: Context, _: Any) -> Answer:
    if context.flight is None:
        return UNKNOWN
    values = [value.x for row in context.treads or () for value in row]
    walked = [tread.walkline if tread else None for _, tread in context.tapers]
    values += [None if item is None else item.value for item in walked]
    return gathered(map(Answer, values), min)


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


# Yes or no about the whole stair, by the keys of its model.
TOLD_OF_STAIR = (
    "inside_dwelling", "open_to_public", "young_children", "permanent", "lift_beside", "accessible", "factory_built",
    "pitch_fixed", "secondary_suite",
)  # fmt: skip


def _words(alias: Any) -> tuple[str, ...]:
    return tuple(get_args(alias))


def _of_the_stair() -> list[Condition]:
    return [
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
        Condition("accepted", "word", "any", _accepted, _words(Accepted), default="none"),
        Condition("route", "word", "any", _of_stair("route"), _words(Route), default="everyday"),
        Condition("building-kind", "word", "any", _of_stair("building"), _words(Building)),
        Condition("occupancy", "word", "any", _of_stair("occupancy"), _words(Occupancy)),
        Condition("work", "word", "any", _of_stair("work"), _words(Work)),
        *(Condition(key.replace("_", "-"), "yes-no", "any", _of_stair(key)) for key in TOLD_OF_STAIR),
        Condition("alpine", "yes-no", "any", _of_stair("alpine"), default="no"),
        Condition("people-served", "count", "any", _of_stair("people_served")),
        Condition("storeys", "count", "any", _of_stair("storeys")),
        Condition("homes-served", "count", "any", _of_stair("homes_served")),
    ]


def _of_the_flight() -> list[Condition]:
    return [
        Condition("form", "word", "any", _of_flight("form"), _words(Form), default="straight"),
        Condition("riser-count", "count", "any", _riser_count),
        Condition("tread-count", "count", "any", _tread_count),
        Condition("flight-width", "length", "any", _flight_width, extreme="least"),
        Condition("flight-rise", "length", "any", _flight_rise),
        Condition("least-tread", "length", "any", _least_tread, extreme="least"),
        Condition("handrail-count", "count", "any", _handrail_count),
        Condition("open-sides", "count", "any", open_sides),
        Condition("pitch", "angle", "any", _pitch),
        Condition("flight-risers", "word", "any", _of_flight("riser_form"), ("closed", "open")),
        Condition("nosing-edge", "word", "any", _of_flight("nosing_edge"), ("round", "bevelled", "square")),
        Condition("tread-material", "word", "any", _of_flight("tread_material"), _words(Material)),
        Condition("covering-kind", "word", "any", _covering_kind, ("none", *_words(CoveringKind))),
    ]


def _of_one_part() -> list[Condition]:
    material = _words(Material)
    return [
        Condition("opening-height", "length", "opening", opening_height),
        Condition("grip-shape", "word", "handrail", grip_shape, ("round", "not-round", "finger-recess")),
        Condition("beside-wall", "yes-no", "handrail", beside_wall),
        Condition("handrail-material", "word", "handrail", of_rail("material"), material),
        Condition("passing-nosings", "yes-no", "handrail", of_rail("passing_nosings"), default="no"),
        Condition("rail-role", "word", "handrail", of_rail("role"), ("main", "lower"), "main"),
        Condition("wall-rough", "yes-no", "handrail", of_rail("wall_rough")),
        Condition("grip-perimeter", "length", "handrail", grip_perimeter),
        Condition("side-kind", "word", "side", side_kind, ("wall", "open")),
        Condition("drop", "length", "side", drop),
        Condition("top-is-handrail", "yes-no", "guard", of_guard("top_is_handrail")),
        Condition("guard-material", "word", "guard", of_guard("material"), material),
        Condition("guard-infill", "word", "guard", of_guard("infill"), _words(Infill)),
        Condition("landing-place", "word", "landing", landing_place, ("top", "bottom", "middle")),
        Condition("landing-shape", "word", "landing", of_landing("shape"), ("rectangular", "other"), "rectangular"),
        Condition("must-drain", "yes-no", "landing", of_landing("must_drain"), default="no"),
        Condition("small-balcony", "yes-no", "landing", of_landing("small_balcony"), default="no"),
        Condition("landing-kind", "word", "landing", of_landing("kind"), _words(LandingKind)),
        Condition("landing-turn", "angle", "landing", landing_turn, default="0 deg"),
        Condition("landing-ground", "yes-no", "landing", of_landing("ground")),
        Condition("sloping-ground", "yes-no", "landing", of_landing("sloping_ground")),
        Condition("door-kind", "word", "landing", door("kind"), ("none", *_words(DoorKind))),
        Condition("door-opens", "word", "landing", door("opens"), ("none", *_words(DoorOpens))),
        Condition("door-swings-over-stair", "yes-no", "landing", door("opens_over_stair")),
        Condition("glazing-place", "word", "glazing", pane("place"), ("flight", "bottom-landing")),
        Condition("glazing-height", "length", "glazing", pane_length("height"), extreme="least"),
        Condition("glazing-distance", "length", "glazing", pane_length("distance"), extreme="least"),
        Condition("glazing-protected", "yes-no", "glazing", pane("protected")),
    ]


CONDITIONS: dict[str, Condition] = {row.name: row for row in (*_of_the_stair(), *_of_the_flight(), *_of_one_part())}
