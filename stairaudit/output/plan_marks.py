"""The lines of a plan: walls hatched, open sides plain, sides not told dashed; handrails and guards along them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from stairaudit.output.svg import INK, Point, path, stroke, strokes
from stairaudit.words.plans import Edge, Run

# On the sheet: the thickness of a wall, its hatching, and how far apart lines along one side lie.
WALL, HATCH, APART = 6.0, 7.0, 5.0
THIN = f'fill="none" stroke="{INK}" stroke-width="0.7"'


def _normal(start: Point, end: Point) -> Point:
    """Return the unit vector to the right of the way from one point to another, y downwards."""
    far = math.dist(start, end)
    return Point(-(end.y - start.y) / far, (end.x - start.x) / far)


def beside(points: Sequence[Point], far: float) -> list[Point]:
    """Return a line that runs beside another, to its right [units of the sheet], to its left where `far` is less."""
    kept = [points[0], *(after for before, after in pairwise(points) if math.dist(before, after) > 0.05)]
    if len(kept) < 2:
        return []
    normals = [_normal(start, end) for start, end in pairwise(kept)]
    moved = []
    for point, before, after in zip(kept, [normals[0], *normals], [*normals, normals[-1]], strict=True):
        x, y = before.x + after.x, before.y + after.y
        # The corner of two lines that both keep the distance; at a sharp corner no further out than twice as far.
        stretch = far / max((x * x + y * y) / 2, 0.5)
        moved.append(Point(point.x + x * stretch, point.y + y * stretch))
    return moved


def _hatch(points: list[Point], out: float) -> Iterator[list[Point]]:
    """Yield the slanting strokes between a side and the back of its wall."""
    along = HATCH / 2
    for start, end in pairwise(points):
        far = math.dist(start, end)
        while along < far:
            share = along / far
            at = Point(start.x + (end.x - start.x) * share, start.y + (end.y - start.y) * share)
            normal = _normal(start, end)
            lean = Point((end.x - start.x) / far * WALL * 0.6, (end.y - start.y) / far * WALL * 0.6)
            yield [at, Point(at.x + normal.x * out + lean.x, at.y + normal.y * out + lean.y)]
            along += HATCH
        along -= far


def side_lines(edge: Edge, points: list[Point], outward: int) -> Iterator[str]:
    """Yield one side; `outward` is 1 where the fall lies to the right of the way along the points, else -1."""
    dash = "" if edge.kind else "unmeasured"
    yield path(points, stroke(edge.flag, dash))
    if edge.kind == "wall":
        back = beside(points, outward * WALL)
        yield path(back, THIN)
        yield strokes(list(_hatch(points, outward * WALL)), THIN)


def run_lines(runs: Iterable[Run], points: list[Point], outward: int) -> Iterator[str]:
    """Yield the handrails inside a side and the guards outside it."""
    placed = {"handrail": 0, "guard": 0}
    for run in runs:
        placed[run.kind] += 1
        way = outward if run.kind == "guard" else -outward
        dash = "guard" if run.kind == "guard" else ""
        yield path(beside(points, way * APART * placed[run.kind]), stroke(run.flag, dash, 0.0 if run.flag else 1.8))


def break_line(start: Point, end: Point) -> str:
    """Return a line with a zigzag in its middle, for what goes on beyond the drawing."""
    far = math.dist(start, end)
    if far < 20:
        return path([start, end], stroke())
    along, normal = Point((end.x - start.x) / far, (end.y - start.y) / far), _normal(start, end)
    mid = far / 2
    steps = [(0.0, 0.0), (mid - 6, 0.0), (mid - 2, -5.0), (mid + 2, 5.0), (mid + 6, 0.0), (far, 0.0)]
    return path(
        [Point(start.x + along.x * t + normal.x * o, start.y + along.y * t + normal.y * o) for t, o in steps],
        stroke(),
    )
