"""Measures of landings and of the doors that open on them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from stairaudit.context import Context, LandingAt
from stairaudit.measures.openings import opening
from stairaudit.parts import Door, Landing
from stairaudit.readings import Absent, Reading
from stairaudit.samples import At, Sample, Samples, Value, absent, unmeasured
from stairaudit.uncertainty import product_u

Measure = Callable[[Context], Samples]


def landing_present(context: Context) -> Samples:
    """Is there a floor or landing at the top and at the bottom?"""
    if context.this.landings is None:
        return (unmeasured("landings"),)
    return tuple(
        unmeasured(at.part, element=at) if at.landing is None else Sample(at.part, (Value(at.landing.present),), at)
        for at in context.landings
    )


# What each flight needs of a landing that it shares; the rest is judged at the flight that tells of it.
OF_EACH_FLIGHT = ("width", "depth", "walkline depth", "area")


def each(take: Callable[[Context, Landing], Any], missing: str) -> Measure:
    """Return the measure that `take` makes of each landing: its values, None for not measured."""
    of_each_flight = missing in OF_EACH_FLIGHT

    def sample(context: Context, at: LandingAt) -> Sample | None:
        if at.landing is None:
            return unmeasured(at.part, element=at)
        if not at.landing.present or (at.shared and not of_each_flight):
            return None
        values = take(context, at.landing)
        if values is None:
            return unmeasured(at.part, f"{at.part} {missing}", element=at)
        return None if isinstance(values, Absent) else Sample(at.part, values, at)

    def measure(context: Context) -> Samples:
        if context.this.landings is None:
            return (unmeasured("landings"),)
        samples = [sample(context, at) for at in context.landings]
        return tuple(item for item in samples if item is not None) or (absent("landings"),)

    return measure


def lengths_of(key: str) -> Measure:
    """Return the measure of a length of each landing, at one place or several."""

    def take(context: Context, landing: Landing) -> Any:
        told = getattr(landing, key)
        if told is None or isinstance(told, Absent):
            return told
        return context.lengths((told,) if isinstance(told, Reading) else told)

    return each(take, key.replace("_", " "))


def answer_of(key: str) -> Measure:
    """Return the measure of a yes or no about each landing."""

    def take(_: Context, landing: Landing) -> Any:
        told: bool | None = getattr(landing, key)
        return None if told is None else (Value(told),)

    return each(take, key)


def faults_of(key: str) -> Measure:
    """Return the measure of what breaks the floor of each landing [nm]; nothing where nothing does."""

    def take(context: Context, landing: Landing) -> Any:
        told = getattr(landing, key)
        return (Value(0),) if isinstance(told, Absent) else context.lengths(told) if told else None

    return each(take, key)


def _holes(context: Context, landing: Landing) -> Any:
    told = landing.holes
    if not told:
        return None
    if isinstance(told, Absent):
        return (Value(0),)
    places = [At(i, len(told), "along") if len(told) > 1 else None for i in range(len(told))]
    return tuple(opening(context, item, at) for item, at in zip(told, places, strict=True))


landing_hole = each(_holes, "holes")


def slope_of(key: str) -> Measure:
    """Return the measure of the fall of each landing, along or across the way of travel [ratio]."""

    def take(context: Context, landing: Landing) -> Any:
        reading: Reading | None = getattr(landing.slope, key) if landing.slope else None
        return None if reading is None else (Value(reading.value, context.error.slope_u()),)

    return each(take, f"slope {key}")


def _area(context: Context, landing: Landing) -> Any:
    if landing.area is None:
        return None
    side = float(landing.area.value) ** 0.5
    u = context.error.length_u(round(side))
    return (Value(landing.area.value, product_u(round(side), round(side), u, u)),)


landing_area = each(_area, "area")


def _handrail_heights(context: Context, landing: Landing) -> Any:
    if landing.handrails is Absent.NONE or landing.handrails == 0:
        return Absent.NONE
    told = landing.handrail_heights
    return context.lengths(told) if told else None


def _handrail_count(_: Context, landing: Landing) -> Any:
    told = landing.handrails
    return None if told is None else (Value(0 if isinstance(told, Absent) else told),)


handrail_heights = each(_handrail_heights, "handrail heights")
handrail_count = each(_handrail_count, "handrails")


def door_of(key: str) -> Measure:
    """Return the measure of a length of the door that opens on each landing [nm]."""

    def take(context: Context, landing: Landing) -> Any:
        door: Door | Absent | None = landing.door
        if door is None or isinstance(door, Absent):
            return door
        reading: Reading | None = getattr(door, key)
        return None if reading is None else (context.length(reading),)

    return each(take, f"door {key.replace('_', ' ')}")
