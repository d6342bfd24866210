"""How much a tapered tread turns, and how deep it is at its ends, worked out from what was read of it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from stairaudit.words.plan_treads import Taper
from stairaudit.words.plans import Plan

# Proportions of the drawing only, used where nothing was measured.
PLAIN_WIDTH, PLAIN_NARROW, PLAIN_POLE = 900.0, 90.0, 110.0
RUN_TURN, SPIRAL_TURN = math.pi / 2, math.pi / 6


class Shape(NamedTuple):
    """A tapered tread as drawn: depths at its ends [mm], its width [mm], its turn [rad]; `told` when it was read."""

    narrow: float
    wide: float
    width: float
    turn: float
    told: bool


def width_of_plan(plan: Plan) -> float:
    """Return the width that a flight is drawn with [mm]."""
    if plan.width.mm is not None:
        return plan.width.mm
    known = [t.taper.width.mm for t in plan.treads if t.taper is not None and t.taper.width.mm is not None]
    return sum(known) / len(known) if known else PLAIN_WIDTH


def _points(taper: Taper, width: float, out: float | None) -> list[tuple[float, float]]:
    """Return what was read: how far out from the narrow edge, and the depth there; the ends first."""
    places = ((0.0, taper.narrow.mm), (width, taper.wide.mm), (out, taper.walkline.mm))
    return [(at, depth) for at, depth in places if at is not None and depth is not None]


def _growth(points: list[tuple[float, float]]) -> float | None:
    """Return by how much a tread grows deeper for each mm outwards, None where that was not read.

    The chord of a circle grows by 2 sin(a/2) for each mm of its radius, so no tread grows by more than 2.
    """
    if len(points) < 2 or points[0][0] == points[1][0]:
        return None
    (near, low), (far, high) = points[:2]
    growth = (high - low) / (far - near)
    return growth if abs(growth) < 2 else None


def _turn(growth: float) -> float:
    return 2 * math.asin(max(-1.0, min(1.0, growth / 2)))


def _width(taper: Taper, width: float) -> float:
    return width if taper.width.mm is None else taper.width.mm


def _read(taper: Taper, width: float, out: float | None) -> Shape | None:
    own = _width(taper, width)
    points = _points(taper, own, out)
    growth = _growth(points)
    if growth is None:
        return None
    at, depth = points[0]
    narrow = depth - at * growth
    if narrow < 0:
        # Only where the narrow end was not read: it runs to a point at most.
        narrow, growth = 0.0, min(depth / at, 2.0)
    return Shape(narrow, narrow + own * growth, own, _turn(growth), True)


def _assumed(taper: Taper, width: float, out: float | None, turn: float, narrow: float) -> Shape:
    """Return a tread that turns by an assumed angle, through the one depth that was read, if any."""
    own = _width(taper, width)
    growth = 2 * math.sin(turn / 2)
    points = _points(taper, own, out)
    if not points and taper.walkline.mm is not None:
        points = [(own / 2, taper.walkline.mm)]
    if points:
        at, depth = points[0]
        if at > 0:
            growth = min(growth, depth / at)
        narrow = depth - at * growth
    return Shape(max(0.0, narrow), narrow + own * growth, own, _turn(growth), False)


def _shares(plan: Plan) -> list[float]:
    """Return the turn of each tread where no tread of the flight tells one: a run shares a quarter turn."""
    shares = [0.0] * len(plan.treads)
    runs: list[list[int]] = [[]]
    for index, tread in enumerate(plan.treads):
        if tread.taper is None:
            runs.append([])
        else:
            runs[-1].append(index)
    for run in runs:
        for index in run:
            shares[index] = RUN_TURN / len(run)
    return shares


def shapes_of(plan: Plan) -> list[Shape | None]:
    """Return the shape of each tread, None for a plain one."""
    if plan.form == "spiral":
        return list(_spiral(plan))
    width, out = width_of_plan(plan), plan.walkline_out.mm
    read = [None if t.taper is None else _read(t.taper, width, out) for t in plan.treads]
    known = [shape for shape in read if shape is not None]
    narrow = sum(s.narrow for s in known) / len(known) if known else PLAIN_NARROW
    mean = sum(s.turn for s in known) / len(known) if known else None
    shapes: list[Shape | None] = []
    for tread, shape, share in zip(plan.treads, read, _shares(plan), strict=True):
        if tread.taper is not None and shape is None:
            shape = _assumed(tread.taper, width, out, share if mean is None else mean, narrow)
        shapes.append(shape)
    return shapes


def pole_radius(plan: Plan) -> float:
    """Return how far the narrow edge of the treads of a spiral lies from its axis [mm]."""
    if plan.pole.mm is not None:
        return plan.pole.mm / 2
    width, out = width_of_plan(plan), plan.walkline_out.mm
    read = [_read(tread.taper, width, out) for tread in plan.treads if tread.taper is not None]
    radii = [shape.narrow / (2 * math.sin(shape.turn / 2)) for shape in read if shape is not None and shape.turn > 0]
    return sum(radii) / len(radii) if radii else PLAIN_POLE / 2


def _spiral(plan: Plan) -> Iterator[Shape]:
    """Yield sectors round the pole, each by the outermost depth that was read of it."""
    width, out, radius = width_of_plan(plan), plan.walkline_out.mm, pole_radius(plan)
    growths: list[float | None] = []
    for tread in plan.treads:
        points = _points(tread.taper, _width(tread.taper, width), out) if tread.taper else []
        at, depth = max(points, default=(0.0, 0.0))
        growths.append(min(depth / (radius + at), 2.0) if depth > 0 and radius + at > 0 else None)
    known = [growth for growth in growths if growth is not None]
    turns = [_turn(growth) for growth in known]
    other = 2 * math.sin((sum(turns) / len(turns) if turns else SPIRAL_TURN) / 2)
    for growth in growths:
        grown = other if growth is None else growth
        yield Shape(radius * grown, (radius + width) * grown, width, _turn(grown), growth is not None)
