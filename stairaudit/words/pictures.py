"""What a drawing of one flight shows: sizes in millimetres, labels as text, and which parts are flagged."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from stairaudit.context import Context, Places, instruments_of
from stairaudit.decision import Outcome
from stairaudit.findings import Audit, Finding
from stairaudit.lengths import Unit, millimetres, show_length
from stairaudit.readings import Absent, Reading, mean_of
from stairaudit.survey import Flight, Stair


class Step(NamedTuple):
    """One riser or tread: its size [mm], None where it was not measured; its label and its flag."""

    mm: float | None
    label: str
    flag: str


class Line(NamedTuple):
    """A line over the nosings: its height above each end [mm], its label and its flag."""

    name: str
    low: float
    high: float
    label: str
    flag: str


class Picture(NamedTuple):
    """One flight as measured. A flag is empty, `outside` or `close`."""

    title: str
    description: str
    risers: tuple[Step, ...]
    treads: tuple[Step, ...]
    nosings: tuple[float, ...]
    lines: tuple[Line, ...]
    landing_top: float | None
    landing_bottom: float | None


def _flags(findings: Iterable[Finding]) -> dict[str, str]:
    flags: dict[str, str] = {}
    for finding in findings:
        if finding.rule.measure.derived or finding.rule.level == "advice":
            continue
        if finding.outcome is Outcome.WARN:
            flags[finding.part] = "outside"
        elif finding.close:
            flags.setdefault(finding.part, "close")
    return flags


def _size(places: Places) -> int | None:
    known = tuple(value.x for value in places if value.x is not None)
    return round(mean_of(known)) if known else None


def _label(places: Places, unit: Unit) -> str:
    known = [value.x for value in places if value.x is not None]
    if not known:
        return "?"
    low, high = show_length(min(known), unit), show_length(max(known), unit)
    return low if low == high else f"{low.removesuffix(' in')} to {high}"


def _steps(rows: tuple[Places, ...] | None, noun: str, flags: dict[str, str], unit: Unit) -> tuple[Step, ...]:
    steps = []
    for index, row in enumerate(rows or (), 1):
        size = _size(row)
        label = _label(row, unit)
        mm = None if size is None else millimetres(size)
        steps.append(Step(mm, label, flags.get(f"{noun} {index}", "")))
    return tuple(steps)


def _line(name: str, readings: tuple[Reading | None, ...], flag: str, unit: Unit) -> Line | None:
    known = [reading.value for reading in readings if reading is not None]
    if not known:
        return None
    low, high = min(known), max(known)
    label = show_length(low, unit) if low == high else f"{show_length(low, unit)} to {show_length(high, unit)}"
    return Line(name, millimetres(known[0]), millimetres(known[-1]), label, flag)


def _lines(context: Context, flags: dict[str, str], unit: Unit) -> tuple[Line, ...]:
    flight = context.this
    found: list[Line | None] = []
    rails = context.handrails
    for rail in rails if isinstance(rails, tuple) else ():
        found.append(_line(rail.part, rail.rail.heights or (), flags.get(rail.part, ""), unit))
    for guard in flight.guards if isinstance(flight.guards, tuple) else ():
        part = f"guard {guard.side}" if guard.side else "guard"
        found.append(_line(part, guard.heights or (), flags.get(part, ""), unit))
    if flight.headroom is not None and not isinstance(flight.headroom, Absent):
        found.append(_line("headroom", flight.headroom, flags.get("headroom", ""), unit))
    return tuple(line for line in found if line is not None)


def _depth(context: Context, place: str) -> float | None:
    at = next(item for item in context.landings if item.place == place)
    if at.landing is None or not at.landing.depth:
        return None
    known = [reading.value for reading in at.landing.depth if reading is not None]
    return millimetres(min(known)) if known else None


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
    flags = _flags(mine)
    headroom = [f for f in mine if f.rule.measure.name == "headroom"]
    flags |= {f.rule.measure.name: flag for f in headroom for flag in _flags([f]).values()}
    risers = _steps(context.risers, "riser", flags, unit)
    rows = flight.nosings if isinstance(flight.nosings, tuple) else ()
    nosings = tuple(millimetres(_size(context.lengths(row)) or 0) for row in rows)
    return Picture(
        f"{stair.name or stair.id}, flight {flight.id}, as measured",
        _describe(risers, flags),
        risers,
        _steps(context.treads, "tread", flags, unit),
        nosings,
        _lines(context, flags, unit),
        _depth(context, "top"),
        _depth(context, "bottom"),
    )
