"""Places for the labels of a plan, so that none lies on another or on a step."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from stairaudit.output.plan_marks import THIN
from stairaudit.output.svg import LEADING, SIGNS, SIZE, Point, path, width_of, words

Polygon = Sequence[Point]
# How far out from its part a label is tried [units of the sheet].
DISTANCES = (20.0, 32.0, 48.0, 72.0, 104.0, 144.0)
# How far a label keeps off other labels, and off parts with their walls and guards.
GAP, RIM = 3.0, 11.0
# How far from the middle of a part a label in it is tried: down, then to the right.
SHIFTS = tuple((down * 12.0, right * 16.0) for down in (0, 1, -1, 2, -2, 3, -3, 4, -4) for right in (0, 1, -1, 2, -2))


class Line(NamedTuple):
    """One line of a label."""

    text: str
    flag: str

    @property
    def shown(self) -> str:
        """The text with its sign."""
        return SIGNS[self.flag] + self.text


class Anchor(NamedTuple):
    """A place that a label may point at, and the unit vector away from the flight."""

    at: Point
    away: Point


class Placed(NamedTuple):
    """A label with the place of its top left corner and of what it points at, None without a pointer."""

    lines: tuple[Line, ...]
    at: Point
    target: Point | None


def size_of(lines: Sequence[Line]) -> tuple[float, float]:
    """Return how wide and tall a label is."""
    return max(width_of(line.shown) for line in lines), len(lines) * LEADING


def rectangle(left: float, top: float, wide: float, tall: float) -> list[Point]:
    """Return the corners of an upright rectangle."""
    return [Point(left, top), Point(left + wide, top), Point(left + wide, top + tall), Point(left, top + tall)]


def _axes(polygon: Polygon) -> Iterator[Point]:
    for start, end in pairwise([*polygon, polygon[0]]):
        if math.dist(start, end) > 0.01:
            yield Point(start.y - end.y, end.x - start.x)


def overlap(one: Polygon, other: Polygon) -> bool:
    """Say whether two convex polygons overlap: no line parts them that runs along a side of either."""
    for axis in (Point(1, 0), Point(0, 1), *_axes(one), *_axes(other)):
        first = [point.x * axis.x + point.y * axis.y for point in one]
        second = [point.x * axis.x + point.y * axis.y for point in other]
        if max(first) <= min(second) or max(second) <= min(first):
            return False
    return True


class Table:
    """What already lies on the sheet: the parts of the flight, and the labels laid so far."""

    def __init__(self, parts: Sequence[Polygon]) -> None:
        self.parts = parts
        self.boxes: list[Polygon] = []
        self.pointers: list[Polygon] = []
        self.placed: list[Placed] = []

    def _free(self, at: Point, size: tuple[float, float], inside_of: Polygon | None = None) -> bool:
        """Say whether a label may lie there."""
        near, far = (rectangle(at.x - gap, at.y - gap, size[0] + 2 * gap, size[1] + 2 * gap) for gap in (GAP, RIM))
        parts = [part for part in self.parts if part is not inside_of]
        laid = (*self.boxes, *self.pointers)
        return not any(overlap(near, box) for box in laid) and not any(overlap(far, part) for part in parts)

    def _seen(self, start: Point, end: Point) -> bool:
        """Say whether a pointer crosses nothing."""
        return not any(overlap((start, end), polygon) for polygon in (*self.parts, *self.boxes))

    def put(self, lines: tuple[Line, ...], at: Point, target: Point | None = None) -> None:
        """Lay a label on the sheet."""
        self.boxes.append(rectangle(at.x, at.y, *size_of(lines)))
        self.placed.append(Placed(lines, at, target))
        if target is not None:
            self.pointers.append(pointer_of(self.placed[-1]))

    def beside(self, lines: tuple[Line, ...], anchors: Sequence[Anchor]) -> bool:
        """Lay a label beside the first of some places where there is room; say whether there was."""
        wide, tall = size_of(lines)
        for far in DISTANCES:
            for anchor in anchors:
                x, y = anchor.away
                reach = far + abs(x) * wide / 2 + abs(y) * tall / 2
                at = Point(anchor.at.x + x * reach - wide / 2, anchor.at.y + y * reach - tall / 2)
                target = Point(anchor.at.x + x * 10, anchor.at.y + y * 10)
                if self._free(at, (wide, tall)) and self._seen(*pointer_of(Placed(lines, at, target))):
                    self.put(lines, at, target)
                    return True
        return False

    def within(self, lines: tuple[Line, ...], area: Polygon) -> bool:
        """Lay a label into a part, as near to its middle as there is room; say whether there was."""
        wide, tall = size_of(lines)
        middle = Point(sum(p.x for p in area) / len(area), sum(p.y for p in area) / len(area))
        for down, right in SHIFTS:
            at = Point(middle.x + right - wide / 2, middle.y + down - tall / 2)
            box = rectangle(at.x - RIM, at.y - GAP, wide + 2 * RIM, tall + 2 * GAP)
            if all(inside(point, area) for point in box) and self._free(at, (wide, tall), area):
                self.put(lines, at)
                return True
        return False

    def below(self, lines: tuple[Line, ...], left: float) -> None:
        """Lay a label under everything."""
        bottom = max(point.y for polygon in (*self.parts, *self.boxes) for point in polygon)
        self.put(lines, Point(left, bottom + RIM))


def inside(point: Point, polygon: Polygon) -> bool:
    """Say whether a point lies in a convex polygon."""
    crosses = [
        (end.x - start.x) * (point.y - start.y) - (end.y - start.y) * (point.x - start.x)
        for start, end in pairwise([*polygon, polygon[0]])
    ]
    return min(crosses) >= 0 or max(crosses) <= 0


def pointer_of(placed: Placed) -> tuple[Point, Point]:
    """Return the line from what a label points at to the label; a point where it has no pointer."""
    target = placed.at if placed.target is None else placed.target
    wide, tall = size_of(placed.lines)
    x = min(max(target.x, placed.at.x - 3), placed.at.x + wide + 3)
    return target, Point(x, min(max(target.y, placed.at.y), placed.at.y + tall))


def label_marks(placed: Placed) -> Iterator[str]:
    """Yield a label, and a thin line to what it is about."""
    if placed.target is not None:
        yield path(list(pointer_of(placed)), THIN)
    for index, line in enumerate(placed.lines):
        yield words(Point(placed.at.x, placed.at.y + SIZE - 1 + index * LEADING), line.shown, line.flag)
