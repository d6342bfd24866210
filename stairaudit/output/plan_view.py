"""A plan at its scale: the flight on the sheet, and its labels each in its place."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from stairaudit.output.plan_labels import Anchor, Line, Polygon, Table, overlap, rectangle
from stairaudit.output.plan_layout import Floor, Laid, Tile, lay_out_plan, points_of
from stairaudit.output.plan_texts import Text, middle_of, on_sheet, texts_of
from stairaudit.output.svg import MARGIN, WIDTH, Point
from stairaudit.words.marks import Step
from stairaudit.words.plans import Deck, Edge, Plan, Run

# Most units of the sheet for a millimetre, with tapered treads too, and the height that the plan may take.
LARGEST, LARGEST_TAPERED, TALLEST = 0.3, 0.36, 700.0
SHRINK, BORDER = 0.94, 14.0


class PlanView(NamedTuple):
    """A flight laid out from above, with its scale [units for each mm], its labels and the box round it all.

    `arrow` is where on the sheet the way up is shown; `told` says what is not drawn in place.
    """

    plan: Plan
    laid: Laid
    scale: float
    table: Table
    texts: tuple[Text | None, ...]
    box: tuple[float, float, float, float]
    arrow: float
    told: tuple[Step, ...]

    def at(self, point: Point) -> Point:
        """Return the place on the sheet of a point of the plan."""
        return on_sheet(point, self.scale)

    def line(self, points: Sequence[Point]) -> list[Point]:
        """Return the places on the sheet of several points."""
        return [self.at(point) for point in points]


def _hull(tile: Tile) -> list[Point]:
    """Return a convex outline that holds a tread."""
    left, right = math.dist(tile.left[0], tile.left[-1]), math.dist(tile.right[0], tile.right[-1])
    if left <= right:
        return [tile.left[-1], tile.left[0], *tile.right]
    return [tile.right[-1], tile.right[0], *tile.left]


def _part_way(points: Sequence[Point], share: float) -> Point:
    first, last = points[0], points[-1]
    return Point(first.x + (last.x - first.x) * share, first.y + (last.y - first.y) * share)


def _away(points: Sequence[Point], outward: int) -> Anchor | None:
    start, end = points[0], points[-1]
    far = math.dist(start, end)
    if far < 1:
        return None
    half = (len(points) - 1) // 2
    on_arc = middle_of((points[half], points[len(points) - 1 - half]))
    return Anchor(on_arc, Point(-(end.y - start.y) / far * outward, (end.x - start.x) / far * outward))


OUTWARD = {"left": -1, "right": 1, "end": -1}


def _anchors(laid: Laid, side: str, scale: float) -> list[Anchor]:
    """Return where the label of a side may point, from its middle outwards."""
    if not laid.tiles:
        end = on_sheet(laid.start[side == "right"], scale)
        return [Anchor(end, Point(OUTWARD[side], 0))]
    order = sorted(range(len(laid.tiles)), key=lambda index: abs(2 * index - len(laid.tiles) + 1))
    lines = [[on_sheet(p, scale) for p in getattr(laid.tiles[index], side)] for index in order]
    return [anchor for anchor in (_away(line, OUTWARD[side]) for line in lines) if anchor is not None]


def _side_lines(name: str, edge: Edge, runs: tuple[Run, ...]) -> tuple[Line, ...]:
    mine = [Line(run.name, run.flag) for run in runs if run.side == edge.side]
    return (Line(name, ""), Line(edge.label, edge.flag), *mine)


def _deck_lines(deck: Deck) -> tuple[Line, ...]:
    if not deck.there:
        return (Line(f"{deck.name}: none", deck.depth.flag),)
    sizes = (Line(f"depth {deck.depth.label}", deck.depth.flag), Line(f"width {deck.width.label}", deck.width.flag))
    return (Line(deck.name, ""), *sizes, *(Line(run.name, run.flag) for run in deck.runs if not run.side))


def _deck_labels(table: Table, floor: Floor, area: list[Point], scale: float) -> None:
    deck = floor.deck
    if not floor.drawn:
        return
    ends = {name: _away([on_sheet(p, scale) for p in floor.side(name)], outward) for name, outward in OUTWARD.items()}
    if floor.at_bottom and ends["end"] is not None:
        ends["end"] = Anchor(ends["end"].at, Point(-ends["end"].away.x, -ends["end"].away.y))
    around = [anchor for anchor in ends.values() if anchor is not None]
    if ends["end"] is not None:
        far = [on_sheet(p, scale) for p in floor.side("end")]
        around += [ends["end"]._replace(at=_part_way(far, share)) for share in (0.85, 0.15)]
    waiting = [] if deck.there and table.within(_deck_lines(deck), area) else [(_deck_lines(deck), around)]
    for edge in deck.edges:
        anchor = ends[edge.side]
        if edge.kind or edge.flag or any(run.side == edge.side for run in deck.runs):
            lines = _side_lines(f"{deck.name} {edge.side}", edge, deck.runs)
            waiting.append((lines, around if anchor is None else [anchor]))
    for lines, anchors in waiting:
        if not table.beside(lines, anchors):
            table.below(lines, -200.0)


def _undrawn(floor: Floor) -> Iterator[Step]:
    """Yield what is told of a landing that is not drawn."""
    deck = floor.deck
    if floor.drawn:
        return
    if not deck.there:
        yield deck.depth._replace(label=f"{deck.name}: none")
        return
    yield deck.depth._replace(label=f"{deck.name}: depth {deck.depth.label}")
    yield deck.width._replace(label=f"{deck.name}: width {deck.width.label}")
    for edge in deck.edges:
        if edge.kind or edge.flag:
            yield Step(None, f"{deck.name} {edge.side}: {edge.label}", edge.flag)
    for run in deck.runs:
        yield Step(None, f"{deck.name}: {run.name}", run.flag)


def _shrunk(corners: Sequence[Point]) -> list[Point]:
    """Return an outline a little smaller, so that parts that only meet do not overlap."""
    middle = Point(sum(p.x for p in corners) / len(corners), sum(p.y for p in corners) / len(corners))
    return [_part_way((corner, middle), 0.02) for corner in corners]


def _without_crossings(laid: Laid) -> Laid:
    """Return a flight without the outlines of landings that cross its treads or each other."""
    tiles = [_hull(tile) for tile in laid.tiles]
    ends = laid.start if not laid.tiles else (laid.tiles[-1].left[-1], laid.tiles[-1].right[-1])

    def crossed(floor: Floor, parts: Sequence[Polygon]) -> bool:
        return any(overlap(_shrunk(floor.corners), part) for part in parts)

    def flat(floor: Floor, nosing: tuple[Point, Point]) -> Floor:
        left, right = nosing
        return floor._replace(corners=(left, right, right, left), broken=(False, False), drawn=False)

    if crossed(laid.bottom, tiles):
        laid = laid._replace(bottom=flat(laid.bottom, laid.start))
    if crossed(laid.top, [*tiles, *([_shrunk(laid.bottom.corners)] if laid.bottom.drawn else [])]):
        laid = laid._replace(top=flat(laid.top, ends))
    return laid


def _arrow_at(plan: Plan, laid: Laid, scale: float) -> float:
    """Return where the way up is shown: before the first nosing, beside the flight where treads lie over that."""
    room = rectangle(-6, 8, 32, 40)
    parts = [_hull(tile) for tile in laid.tiles]
    if not any(overlap(room, [on_sheet(point, scale) for point in part]) for part in parts):
        return 0.0
    outer = laid.width / 2 * scale
    return -outer - 40 if plan.turns == "right" else outer + 20


def _laid_table(plan: Plan, laid: Laid, scale: float) -> Table:
    """Return the labels, each in its place."""
    decks = [[on_sheet(p, scale) for p in floor.corners] for floor in (laid.bottom, laid.top)]
    tiles: list[Polygon] = [[on_sheet(p, scale) for p in _hull(tile)] for tile in laid.tiles]
    table = Table([*tiles, *decks, rectangle(_arrow_at(plan, laid, scale) - 2, 12, 26, 30)])
    for floor, area in zip((laid.bottom, laid.top), decks, strict=True):
        _deck_labels(table, floor, area, scale)
    for edge in plan.edges:
        inner = laid.axis is not None and edge.side == (plan.turns or "left")
        lines = _side_lines(f"{edge.side} side{', at the pole' if inner else ''}", edge, plan.runs)
        if not table.beside(lines, _anchors(laid, edge.side, scale)):
            table.below(lines, -200.0)
    return table


def _box(table: Table, laid: Laid, scale: float) -> tuple[float, float, float, float]:
    points = [point for polygon in (*table.parts, *table.boxes) for point in polygon]
    edge = [on_sheet(point, scale) for point in points_of(laid)]
    left = min(min(p.x for p in points), min(p.x for p in edge) - BORDER)
    right = max(max(p.x for p in points), max(p.x for p in edge) + BORDER)
    top = min(min(p.y for p in points), min(p.y for p in edge) - BORDER)
    bottom = max(max(p.y for p in points), max(p.y for p in edge) + BORDER)
    return left, top, right, bottom


@lru_cache(maxsize=8)
def plan_view_of(plan: Plan) -> PlanView:
    """Return a flight from above at the largest scale at which it and its labels fit the sheet."""
    laid = _without_crossings(lay_out_plan(plan))
    points = list(points_of(laid))
    wide = max(p.x for p in points) - min(p.x for p in points)
    tall = max(p.y for p in points) - min(p.y for p in points)
    room = WIDTH - 2 * MARGIN
    largest = LARGEST_TAPERED if any(tread.taper is not None for tread in plan.treads) else LARGEST
    scale = min(largest, (room - 2 * BORDER) / wide, TALLEST / max(tall, 1.0))
    while True:
        table = _laid_table(plan, laid, scale)
        box = _box(table, laid, scale)
        if box[2] - box[0] <= room or scale < 0.001:
            told = (*plan.told, *_undrawn(laid.bottom), *_undrawn(laid.top))
            texts, arrow = tuple(texts_of(plan, laid, scale)), _arrow_at(plan, laid, scale)
            return PlanView(plan, laid, scale, table, texts, box, arrow, told)
        scale *= SHRINK
