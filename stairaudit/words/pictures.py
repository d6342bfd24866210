"""What a drawing of one flight shows: sizes in millimetres, labels as text, and which parts are flagged."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import NamedTuple

from stairaudit.context import Context, guards_of, instruments_of
from stairaudit.decision import Outcome
from stairaudit.findings import Audit, Finding
from stairaudit.lengths import Unit, millimetres, show_length
from stairaudit.readings import Absent, Reading, mean_of
from stairaudit.samples import Places
from stairaudit.survey import Flight, Stair


class Step(NamedTuple):
    """One riser, tread or landing depth: its size [mm], None where it was not measured; its label and its flag."""

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


def _short(size: int | Fraction, unit: Unit) -> str:
    """Return a length without the exact figures in brackets, for which a drawing has no room."""
    return show_length(size, unit).partition(" (")[0]


def _range(low: int | Fraction, high: int | Fraction, unit: Unit) -> str:
    first, last = _short(low, unit), _short(high, unit)
    if first == last:
        return first
    number, _, word = first.rpartition(" ")
    same = last.endswith(f" {word}") and " ft " not in f"{first} {last}"
    return f"{number if same else first} to {last}"


def _label(places: Places, unit: Unit) -> str:
    known = [value.x for value in places if value.x is not None]
    return _range(min(known), max(known), unit) if known else "?"


def _mean_riser(rows: tuple[Places, ...], unit: Unit) -> str:
    known = tuple(size for size in map(_size, rows) if size is not None)
    return _short(mean_of(known), unit) if known else ""


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
    label = _range(min(known), max(known), unit)
    return Line(name, millimetres(known[0]), millimetres(known[-1]), label, flag)


def _lines(context: Context, flags: dict[str, str], unit: Unit) -> tuple[Line, ...]:
    flight = context.this
    found: list[Line | None] = []
    rails = context.handrails
    for rail in rails if isinstance(rails, tuple) else ():
        found.append(_line(rail.part, rail.rail.heights or (), flags.get(rail.part, ""), unit))
    guards = guards_of(context, flight)
    for guard in guards if isinstance(guards, tuple) else ():
        found.append(_line(guard.part, guard.guard.heights or (), flags.get(guard.part, ""), unit))
    if flight.headroom is not None and not isinstance(flight.headroom, Absent):
        found.append(_line("headroom", flight.headroom, flags.get("headroom", ""), unit))
    return tuple(line for line in found if line is not None)


def _landing(context: Context, place: str, flags: dict[str, str], unit: Unit) -> Step:
    at = next(item for item in context.landings if item.place == place)
    flag = flags.get(at.part, "")
    if at.landing is not None and at.landing.present is False:
        return Step(0.0, "none", flag)
    depths = context.lengths((at.landing.depth if at.landing else None) or ())
    known = [value.x for value in depths if value.x is not None]
    return Step(millimetres(min(known)) if known else None, _label(depths, unit), flag)


def _describe(risers: tuple[Step, ...], flags: dict[str, str]) -> str:
    missing = sum(step.mm is None for step in risers)
    flagged = ", ".join(flags) or "none"
    return f"{len(risers)} risers, {missing} of them not measured. Flagged: {flagged}."


def _of_measure(findings: Iterable[Finding], name: str) -> Iterator[Finding]:
    return (finding for finding in findings if finding.rule.measure.name == name)


def picture_of(audit: Audit, stair: Stair, flight: Flight, unit: Unit) -> Picture | None:
    """Return what to draw of a flight, None when not even the number of risers is known."""
    context = Context(audit.survey, stair, flight, instruments_of(audit.survey))
    if not context.risers:
        return None
    mine = [f for f in audit.findings if f.stair == stair.id and f.flight == flight.id]
    flags = _flags(mine)
    headroom = _flags(_of_measure(mine, "headroom"))
    if headroom:
        flags["headroom"] = max(headroom.values())
    depths = _flags(_of_measure(mine, "landing-depth"))
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
        _landing(context, "top", depths, unit),
        _landing(context, "bottom", depths, unit),
        _mean_riser(context.risers, unit),
    )
