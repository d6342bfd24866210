"""Where the parts of one flight lie in its plan [mm]: the first nosing on the x axis about nought, going up is +y."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from stairaudit.output.profile import STUB
from stairaudit.output.svg import Point
from stairaudit.output.taper import Shape, shapes_of, width_of_plan
from stairaudit.words.plan_treads import TreadPlan
from stairaudit.words.plans import Deck, Plan

# Proportions of the drawing only: the depth of a plain tread where none was measured.
PLAIN_DEPTH = 250.0
# A larger landing is broken off, so that the steps stay large enough to read.
DEEPEST, WIDEST = 1200.0, 2000.0
PIECE = math.radians(5)


class Tile(NamedTuple):
    """One tread laid out: its two sides from its own nosing to the next one, and the walkline over it."""

    tread: TreadPlan
    left: tuple[Point, ...]
    right: tuple[Point, ...]
    walk: tuple[Point, ...]
    turn: float
    told: bool

    @property
    def outline(self) -> list[Point]:
        """Once round the tread."""
        return [*self.left, *reversed(self.right)]


class Floor(NamedTuple):
    """A landing laid out: near left, near right, far right and far left corner, going up; what is broken off.

    It is not `drawn` where the flight, or the other landing, lies over or under it.
    """

    deck: Deck
    corners: tuple[Point, Point, Point, Point]
    broken: tuple[bool, bool]
    drawn: bool = True

    @property
    def at_bottom(self) -> bool:
        """Is it the landing at the foot of the flight?"""
        return self.deck.name.endswith("bottom")

    def side(self, name: str) -> list[Point]:
        """Return a side of the landing, from below going up; that of its far end from left to right."""
        near_left, near_right, far_right, far_left = self.corners
        sides = {"left": [near_left, far_left], "right": [near_right, far_right], "end": [far_left, far_right]}
        return sides[name][:: -1 if self.at_bottom and name != "end" else 1]


class Laid(NamedTuple):
    """A flight laid out from above, with the turn that it makes [rad]."""

    tiles: tuple[Tile, ...]
    start: tuple[Point, Point]
    bottom: Floor
    top: Floor
    width: float
    turn: float
    axis: Point | None


class _Pose(NamedTuple):
    """A place on the inner side, with the direction of going up [rad]."""

    at: Point
    heading: float

    def ahead(self, far: float, bend: float = 0.0) -> Point:
        way = self.heading + bend
        return Point(self.at.x + far * math.cos(way), self.at.y + far * math.sin(way))

    def across(self, far: float) -> _Pose:
        """Return the place on the same nosing further out."""
        return _Pose(
            Point(self.at.x + far * math.sin(self.heading), self.at.y - far * math.cos(self.heading)), self.heading
        )


def _arc(pose: _Pose, chord: float, turn: float) -> tuple[Point, ...]:
    """Return a round side of a tread in short pieces: the chord from nosing to nosing is exact."""
    pieces = max(1, math.ceil(abs(turn) / PIECE))
    if pieces == 1:
        return pose.at, pose.ahead(chord, turn / 2)
    whole = math.sin(turn / 2)
    parts = [turn * k / pieces for k in range(1, pieces)]
    between = [pose.ahead(chord * math.sin(part / 2) / whole, part / 2) for part in parts]
    return (pose.at, *between, pose.ahead(chord, turn / 2))


def _tile(pose: _Pose, tread: TreadPlan, shape: Shape, out: float | None) -> Tile:
    inner = _arc(pose, shape.narrow, shape.turn)
    outer = _arc(pose.across(shape.width), shape.wide, shape.turn)
    walk: tuple[Point, ...] = ()
    if tread.taper is not None and out is not None and out <= shape.width:
        walk = _arc(pose.across(out), shape.narrow + out * 2 * math.sin(shape.turn / 2), shape.turn)
    return Tile(tread, inner, outer, walk, shape.turn, shape.told)


def _mean_depth(plan: Plan) -> float:
    known = [tread.depth.mm for tread in plan.treads if tread.taper is None and tread.depth.mm is not None]
    return sum(known) / len(known) if known else PLAIN_DEPTH


def _plain(tread: TreadPlan, mean: float, width: float) -> Shape:
    depth = mean if tread.depth.mm is None else tread.depth.mm
    return Shape(depth, depth, width, 0.0, tread.depth.mm is not None)


def _walk(plan: Plan, width: float) -> tuple[list[Tile], _Pose]:
    """Return the treads one after the other, as if they turned to the left, and where they end."""
    pose, mean = _Pose(Point(-width / 2, 0.0), math.pi / 2), _mean_depth(plan)
    tiles = []
    for tread, shape in zip(plan.treads, shapes_of(plan), strict=True):
        tile = _tile(pose, tread, shape or _plain(tread, mean, width), plan.walkline_out.mm)
        tiles.append(tile)
        pose = _Pose(tile.left[-1], pose.heading + tile.turn)
    return tiles, pose


def _floor(deck: Deck, pose: _Pose, width: float) -> Floor:
    """Return a landing about the middle of the nosing that it meets, on its far side."""
    deep = 0.0 if not deck.there else STUB if deck.depth.mm is None else min(deck.depth.mm, DEEPEST)
    wide = width if deck.width.mm is None else min(deck.width.mm, max(WIDEST, width))
    left, right = pose.across((width - wide) / 2), pose.across((width + wide) / 2)
    corners = (left.at, right.at, right.ahead(deep), left.ahead(deep))
    cut = deck.there and deck.depth.mm is not None and deck.depth.mm > DEEPEST
    return Floor(deck, corners, (cut, deck.width.mm is not None and deck.width.mm > wide))


def _bottom(deck: Deck, width: float) -> Floor:
    floor = _floor(deck, _Pose(Point(-width / 2, 0.0), math.pi / 2), width)
    near_left, near_right, far_right, far_left = floor.corners
    down = [Point(point.x, -point.y) for point in (far_right, far_left)]
    return floor._replace(corners=(near_left, near_right, down[0], down[1]))


def lay_out_plan(plan: Plan) -> Laid:
    """Return a flight from above: a plain tread goes straight on, a tapered one turns by what its ends make."""
    width = width_of_plan(plan)
    tiles, end = _walk(plan, width)
    start = Point(-width / 2, 0.0), Point(width / 2, 0.0)
    axis = None
    if plan.form == "spiral" and tiles and tiles[0].turn > 0:
        radius = math.dist(tiles[0].left[0], tiles[0].left[-1]) / (2 * math.sin(tiles[0].turn / 2))
        axis = Point(-width / 2 - radius, 0.0)
    laid = Laid(
        tuple(tiles), start, _bottom(plan.bottom, width), _floor(plan.top, end, width), width,
        sum(tile.turn for tile in tiles), axis,
    )  # fmt: skip
    return _mirrored(laid) if plan.turns == "right" else laid


def _flip(points: tuple[Point, ...]) -> tuple[Point, ...]:
    return tuple(Point(-point.x, point.y) for point in points)


def _mirror_floor(floor: Floor) -> Floor:
    near_left, near_right, far_right, far_left = _flip(floor.corners)
    return floor._replace(corners=(near_right, near_left, far_left, far_right))


def _mirrored(laid: Laid) -> Laid:
    """Return a flight that turns to the left as one that turns to the right."""
    tiles = tuple(t._replace(left=_flip(t.right), right=_flip(t.left), walk=_flip(t.walk)) for t in laid.tiles)
    axis = None if laid.axis is None else Point(-laid.axis.x, laid.axis.y)
    return laid._replace(tiles=tiles, bottom=_mirror_floor(laid.bottom), top=_mirror_floor(laid.top), axis=axis)


def points_of(laid: Laid) -> Iterator[Point]:
    """Yield every point of a flight."""
    yield from laid.start
    for tile in laid.tiles:
        yield from tile.left
        yield from tile.right
    yield from laid.bottom.corners
    yield from laid.top.corners
