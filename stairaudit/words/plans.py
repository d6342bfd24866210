"""What the plan of one flight shows, seen from above: sizes in millimetres, labels as text, flags."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, Literal, NamedTuple

from stairaudit.context import Context, LandingAt, guards_of, long_guards
from stairaudit.findings import Finding
from stairaudit.lengths import Unit
from stairaudit.parts import Side
from stairaudit.readings import Absent, Reading
from stairaudit.words.marks import Step, flags_of, of_measures, read_as, worst
from stairaudit.words.plan_treads import TreadPlan, treads_of
from stairaudit.words.step_flags import others

Way = Literal["left", "right"]


class Run(NamedTuple):
    """A handrail or a guard: its kind, its name, the side that it stands on and its flag."""

    kind: str
    name: str
    side: str
    flag: str


class Edge(NamedTuple):
    """One side of a flight or landing: its name, its kind (empty when not told), its label and its flag."""

    side: str
    kind: Literal["wall", "open", ""]
    label: str
    flag: str


class Deck(NamedTuple):
    """A landing from above; not `there` when looked for in vain; `told_at` names it where another flight tells it."""

    name: str
    there: bool
    depth: Step
    width: Step
    edges: tuple[Edge, ...]
    runs: tuple[Run, ...]
    told_at: str = ""

    @property
    def flag(self) -> str:
        """The flag of its sizes."""
        return worst((self.depth.flag, self.width.flag))


class Plan(NamedTuple):
    """One flight from above: its widths above the rail and at it; `told` says what is not drawn in place."""

    title: str
    description: str
    form: str
    turns: Way | None
    treads: tuple[TreadPlan, ...]
    widths: tuple[Step, Step]
    walkline_out: Step
    pole: Step
    edges: tuple[Edge, ...]
    runs: tuple[Run, ...]
    bottom: Deck
    top: Deck
    told: tuple[Step, ...]
    between: int

    @property
    def width(self) -> Step:
        """The width that the flight is drawn with."""
        above, at_rail = self.widths
        return at_rail if above.mm is None else above


def _one(reading: Reading | None, unit: Unit) -> Step:
    return read_as((reading,), unit)


def _edge_label(side: Side, unit: Unit) -> str:
    bare = ", no guard" if side.guard == "none" else ""
    return f"open, drop {read_as(side.drop, unit).label}{bare}"


def _edge(name: str, side: Side | None, flag: str, unit: Unit) -> Edge:
    if side is None:
        return Edge(name, "", "not told", flag)
    if side.wall:
        return Edge(name, "wall", "wall", flag)
    return Edge(name, "open", _edge_label(side, unit), flag)


def _edges(holder: Any, prefix: str, flags: dict[str, str], unit: Unit) -> Iterator[Edge]:
    told = getattr(holder, "sides", None)
    names = ("left", "right", "end") if prefix else ("left", "right")
    for name in names:
        yield _edge(name, getattr(told, name, None), flags.get(f"{prefix}side {name}", ""), unit)


def _along(context: Context, names: set[str], way: str, long_flags: dict[str, str]) -> Iterator[Run]:
    """Yield the long guards that run along a flight or landing, by any of its names."""
    for guard, _, part in long_guards(context):
        if names.intersection(guard.along):
            yield Run("guard", part, guard.side, long_flags.get(f"{part}{way}", ""))


def _runs(context: Context, flags: dict[str, str], long_flags: dict[str, str]) -> Iterator[Run]:
    rails = context.handrails
    for rail in rails if isinstance(rails, tuple) else ():
        yield Run("handrail", rail.part, rail.rail.side or "", flags.get(rail.part, ""))
    guards = guards_of(context, context.this)
    for guard in guards if isinstance(guards, tuple) else ():
        yield Run("guard", guard.part, guard.guard.side or "", flags.get(guard.part, ""))
    yield from _along(context, {context.name_of()}, "", long_flags)


def _deck_runs(context: Context, at: LandingAt, flags: dict[str, str], long_flags: dict[str, str]) -> Iterator[Run]:
    told_at = _told_at(context, at)
    guards = guards_of(context, at.landing) if at.landing is not None and not told_at else None
    for guard in guards if isinstance(guards, tuple) else ():
        yield Run("guard", guard.part, guard.guard.side or "", flags.get(f"{at.part} {guard.part}", ""))
    yield from _along(context, {context.name_of(at), told_at}, " level", long_flags)


def _told_at(context: Context, at: LandingAt) -> str:
    """Return the name of a landing at the flight that tells it, empty where that is this one."""
    told = getattr(context.this.landings, at.place, None)
    return (told.same_as or "") if told is not None else ""


def _deck_edges(context: Context, at: LandingAt, flags: dict[str, str], unit: Unit) -> Iterator[Edge]:
    """Yield the sides of a landing; those told at another flight are called by where they lie from there."""
    told_at = _told_at(context, at)
    if not told_at:
        yield from _edges(at.landing, f"{at.part} ", flags, unit)
    else:
        for name in ("left", "right", "end"):
            yield Edge(name, "", f"told at {told_at}", "")


def _deck(context: Context, place: str, findings: list[Finding], long_flags: dict[str, str], unit: Unit) -> Deck:
    at = next(item for item in context.landings if item.place == place)
    landing, flags = at.landing, flags_of(findings)
    depth, width = (
        read_as(getattr(landing, name, None), unit, _landing_flag(findings, name, at.part))
        for name in ("depth", "width")
    )
    there = landing is None or landing.present
    edges, runs = _deck_edges(context, at, flags, unit), _deck_runs(context, at, flags, long_flags)
    return Deck(at.part, there, depth, width, tuple(edges), tuple(runs), _told_at(context, at))


def _landing_flag(findings: list[Finding], name: str, part: str) -> str:
    return flags_of(of_measures(findings, f"landing-{name}")).get(part, "")


WIDTHS = {"width": "flight-width", "width_at_rail": "flight-width-at-rail"}


def _widths(context: Context, findings: list[Finding], unit: Unit) -> tuple[Step, Step]:
    """Return the clear width above the rail and the one at it."""
    above, at_rail = (
        read_as(getattr(context.this, key), unit, worst(flags_of(of_measures(findings, measure)).values()))
        for key, measure in WIDTHS.items()
    )
    return above, at_rail


def _told(context: Context, widths: tuple[Step, Step], runs: Iterable[Run], unit: Unit) -> Iterator[Step]:
    above, at_rail = widths
    yield above._replace(label=f"clear width {above.label}")
    if at_rail.mm is not None:
        yield at_rail._replace(label=f"at the rail {at_rail.label}")
    flight = context.this
    if flight.walkline_out is not None and context.tapers:
        yield Step(None, f"walkline {_one(flight.walkline_out, unit).label} out", "")
    if flight.form == "spiral":
        yield Step(None, f"pole {_one(flight.pole_diameter, unit).label}", "")
    for kind, parts in (("handrail", flight.handrails), ("guard", flight.guards)):
        if not any(run.kind == kind for run in runs):
            yield Step(None, f"{kind}s: {'none' if isinstance(parts, Absent) else 'not told'}", "")
    for run in runs:
        if run.side not in ("left", "right"):
            yield Step(None, run.name if run.side else f"{run.name}: side not told", run.flag)


def _describe(treads: tuple[TreadPlan, ...], flags: Iterable[str]) -> str:
    missing = sum(tread.depth.mm is None for tread in treads)
    tapered = sum(tread.taper is not None for tread in treads)
    return (
        f"{len(treads)} treads from above, {tapered} of them tapered, {missing} not measured. "
        f"Flagged: {', '.join(flags) or 'none'}."
    )


def plan_of(context: Context, title: str, findings: list[Finding], long: list[Finding], unit: Unit) -> Plan:
    """Return what to draw of a flight from above.

    `findings` are those of the flight, `long` those of the stair as a whole, whose guards may run along it.
    """
    flight, flags, long_flags = context.this, flags_of(findings), flags_of(long)
    treads = tuple(treads_of(context, findings, unit))
    widths = _widths(context, findings, unit)
    runs = tuple(_runs(context, flags, long_flags))
    told = (*_told(context, widths, runs, unit), *others(findings, dict(context.tapers), unit))
    return Plan(
        title, _describe(treads, flags), flight.form or "straight", flight.turns, treads,
        widths, _one(flight.walkline_out, unit), _one(flight.pole_diameter, unit),
        tuple(_edges(flight, "", flags, unit)), runs,
        _deck(context, "bottom", findings, long_flags, unit), _deck(context, "top", findings, long_flags, unit),
        told, sum(at.place == "middle" for at in context.landings),
    )  # fmt: skip
