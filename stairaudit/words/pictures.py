"""What a drawing of one flight shows: sizes in millimetres, labels as text, and which parts are flagged."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from stairaudit.context import Context, guards_of, instruments_of, long_guards
from stairaudit.findings import Audit
from stairaudit.lengths import Unit, millimetres
from stairaudit.railings import Handrail, Stretch
from stairaudit.readings import Absent, Reading, mean_of
from stairaudit.samples import Places
from stairaudit.survey import Flight, Stair
from stairaudit.words.marks import Step, flags_of, label_of, of_measures, range_of, short, size_of, worst
from stairaudit.words.plans import Plan, plan_of
from stairaudit.words.step_flags import riser_flags


class Line(NamedTuple):
    """A line over the nosings: its height above each end [mm], its label and its flag."""

    name: str
    low: float
    high: float
    label: str
    flag: str


class Picture(NamedTuple):
    """One flight as measured. A flag is empty, `outside` or `close`; the mean of the risers is empty without one."""

    title: str
    description: str
    risers: tuple[Step, ...]
    treads: tuple[Step, ...]
    nosings: tuple[float, ...]
    lines: tuple[Line, ...]
    landing_top: Step
    landing_bottom: Step
    mean_riser: str
    plan: Plan


def _mean_riser(rows: tuple[Places, ...], unit: Unit) -> str:
    known = tuple(size for size in map(size_of, rows) if size is not None)
    return short(mean_of(known), unit) if known else ""


def _risers(rows: tuple[Places, ...], flags: dict[str, str], unit: Unit) -> tuple[Step, ...]:
    steps = []
    for index, row in enumerate(rows, 1):
        size = size_of(row)
        label = label_of(row, unit)
        mm = None if size is None else millimetres(size)
        steps.append(Step(mm, label, flags.get(f"riser {index}", "")))
    return tuple(steps)


def _line(name: str, readings: tuple[Reading | None, ...] | None, flag: str, unit: Unit) -> Line | None:
    known = [reading.value for reading in readings or () if reading is not None]
    if not known:
        return None
    label = range_of(min(known), max(known), unit)
    return Line(name, millimetres(known[0]), millimetres(known[-1]), label, flag)


def _rail(context: Context, name: str, rail: Handrail | Stretch, flag: str, unit: Unit) -> Line | None:
    """Return the line of a rail or guard; what was taken square to the slope is made plumb by the pitch, if told."""
    line = _line(name, rail.heights, flag, unit)
    if line is None or rail.heights_taken != "square":
        return line
    pitch = context.this.pitch
    plumb = 1 / math.cos(math.radians(float(pitch.value))) if pitch is not None and pitch.value < 90 else 1.0
    return line._replace(low=line.low * plumb, high=line.high * plumb, label=f"{line.label} square")


def _lines(context: Context, flags: dict[str, str], long_flags: dict[str, str], unit: Unit) -> Iterator[Line | None]:
    flight = context.this
    rails = context.handrails
    for rail in rails if isinstance(rails, tuple) else ():
        yield _rail(context, rail.part, rail.rail, flags.get(rail.part, ""), unit)
    guards = guards_of(context, flight)
    for guard in guards if isinstance(guards, tuple) else ():
        yield _rail(context, guard.part, guard.guard, flags.get(guard.part, ""), unit)
    for long, _, part in long_guards(context):
        if context.name_of() in long.along and long.rake is not None:
            yield _rail(context, part, long.rake, long_flags.get(part, ""), unit)
    if flight.headroom is not None and not isinstance(flight.headroom, Absent):
        yield _line("headroom", flight.headroom, flags.get("headroom", ""), unit)


def _landing(context: Context, place: str, flags: dict[str, str], unit: Unit) -> Step:
    at = next(item for item in context.landings if item.place == place)
    flag = flags.get(at.part, "")
    if at.landing is not None and at.landing.present is False:
        return Step(0.0, "none", flag)
    depths = context.lengths((at.landing.depth if at.landing else None) or ())
    known = [value.x for value in depths if value.x is not None]
    return Step(millimetres(min(known)) if known else None, label_of(depths, unit), flag)


def _describe(risers: tuple[Step, ...], flags: dict[str, str]) -> str:
    missing = sum(step.mm is None for step in risers)
    flagged = ", ".join(flags) or "none"
    return f"{len(risers)} risers, {missing} of them not measured. Flagged: {flagged}."


def picture_of(audit: Audit, stair: Stair, flight: Flight, unit: Unit) -> Picture | None:
    """Return what to draw of a flight, None when not even the number of risers is known."""
    context = Context(audit.survey, stair, flight, instruments_of(audit.survey))
    if not context.risers:
        return None
    mine = [f for f in audit.findings if f.stair == stair.id and f.flight == flight.id]
    whole = [f for f in audit.findings if f.stair == stair.id and f.flight is None]
    flags = flags_of(mine)
    headroom = worst(flags_of(of_measures(mine, "headroom")).values())
    depths = flags_of(of_measures(mine, "landing-depth"))
    risers = _risers(context.risers, riser_flags(mine), unit)
    rows = flight.nosings if isinstance(flight.nosings, tuple) else ()
    name = f"{stair.name or stair.id}, flight {flight.id}"
    plan = plan_of(context, f"{name}, from above", mine, whole, unit)
    lines = _lines(context, {**flags, "headroom": headroom}, flags_of(whole), unit)
    return Picture(
        f"{name}, as measured",
        _describe(risers, flags),
        risers,
        tuple(tread.depth for tread in plan.treads),
        tuple(millimetres(size_of(context.lengths(row)) or 0) for row in rows),
        tuple(line for line in lines if line is not None),
        _landing(context, "top", depths, unit),
        _landing(context, "bottom", depths, unit),
        _mean_riser(context.risers, unit),
        plan,
    )
