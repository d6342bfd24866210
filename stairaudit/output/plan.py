"""The plan of one flight, seen from above and to scale, as SVG."""

from __future__ import annotations

import math
from collections.abc import Iterator

from stairaudit.output.plan_labels import label_marks
from stairaudit.output.plan_layout import Floor
from stairaudit.output.plan_marks import break_line, run_lines, side_lines
from stairaudit.output.plan_texts import board, covered
from stairaudit.output.plan_view import OUTWARD, PlanView, plan_view_of
from stairaudit.output.svg import (
    FILL,
    LEADING,
    MARGIN,
    SIGNS,
    SIZE,
    TINTS,
    WIDTH,
    Point,
    number,
    path,
    sheet,
    stroke,
    width_of,
    words,
)
from stairaudit.words.marks import worst
from stairaudit.words.plans import Plan

PAPER = "#ffffff"
# How far the sides of a flight without a tread reach on both sides of its nosing [units of the sheet].
PIECE = 13.0


def _share(points: tuple[Point, Point], share: float) -> Point:
    first, last = points
    return Point(first.x + (last.x - first.x) * share, first.y + (last.y - first.y) * share)


def _nosing(told: bool) -> str:
    return stroke("", "" if told else "unmeasured")


def _tile_marks(view: PlanView, index: int, hidden: bool) -> Iterator[str]:
    tile = view.laid.tiles[index - 1]
    before = index == 1 or view.laid.tiles[index - 2].told
    part = board(view.plan.form, index, tile)
    outline = view.line(part.outline)
    yield path([*outline, outline[0]], f'fill="{TINTS.get(tile.tread.flag, FILL)}" stroke="none"')
    yield path(view.line([part.left[0], part.right[0]]), _nosing(before))
    yield path(view.line([part.left[-1], part.right[-1]]), _nosing(tile.told))
    if part is not tile:
        inner = part.right if index % 2 else part.left
        yield path(view.line(inner), stroke())
    if tile.walk and not hidden:
        yield path(view.line(tile.walk), stroke("", "walkline"))


def _tiles(view: PlanView) -> Iterator[str]:
    for index, hidden in enumerate(covered(view.laid), 1):
        yield from _tile_marks(view, index, hidden)
    if view.laid.axis is not None:
        yield _pole(view, view.at(view.laid.axis))


def _pole(view: PlanView, at: Point) -> str:
    first = view.laid.tiles[0]
    radius = math.dist(at, view.at((first.right if view.plan.turns == "right" else first.left)[0]))
    dash = "unmeasured" if view.plan.pole.mm is None else ""
    place = f'cx="{number(at.x)}" cy="{number(at.y)}" r="{number(radius)}"'
    return f"<circle {place} {stroke('', dash, fill=PAPER)}/>"


def _floor_fill(view: PlanView, floor: Floor) -> str:
    corners = view.line(floor.corners)
    tint = TINTS.get(floor.deck.flag, PAPER)
    return path([*corners, corners[0]], f'fill="{tint}" stroke="none"') if floor.drawn else ""


def _floor_lines(view: PlanView, floor: Floor) -> Iterator[str]:
    deck = floor.deck
    if not deck.there or not floor.drawn:
        return
    left, right = view.line(floor.corners[:2])
    yield path([left, right], stroke())
    for edge in deck.edges:
        points = view.line(floor.side(edge.side))
        if floor.broken[0 if edge.side == "end" else 1]:
            yield break_line(points[0], points[-1])
        elif edge.side == "end" and not edge.kind:
            yield path(points, stroke("", "unmeasured" if deck.depth.mm is None else ""))
        else:
            yield from side_lines(edge, points, _outward(floor, edge.side))
        runs = [run for run in deck.runs if run.side == edge.side]
        yield from run_lines(runs, points, _outward(floor, edge.side))


def _outward(floor: Floor, side: str) -> int:
    flipped = side == "end" and floor.at_bottom
    return -OUTWARD[side] if flipped else OUTWARD[side]


def _sides(view: PlanView) -> Iterator[str]:
    for edge in view.plan.edges:
        points = view.line([point for tile in view.laid.tiles for point in getattr(tile, edge.side)])
        if not points:
            x, y = view.at(view.laid.start[edge.side == "right"])
            points = [Point(x, y + PIECE), Point(x, y - PIECE)]
        yield from side_lines(edge, points, OUTWARD[edge.side])
        yield from run_lines([run for run in view.plan.runs if run.side == edge.side], points, OUTWARD[edge.side])
    middle = [run for run in view.plan.runs if run.side == "centre"]
    lines = [_share((a, b), 0.5) for tile in view.laid.tiles for a, b in zip(tile.left, tile.right, strict=True)]
    for run in middle:
        yield path(view.line(lines), stroke(run.flag, "", 0.0 if run.flag else 1.8))


def _width_flag(plan: Plan) -> str:
    return worst(step.flag for step in plan.widths)


def _arrow(x: float) -> Iterator[str]:
    yield path([Point(x, 46), Point(x, 8)], stroke("", "", 1.8))
    yield path([Point(x - 5, 17), Point(x, 8), Point(x + 5, 17)], stroke("", "", 1.8))
    yield words(Point(x + 8, 34), "UP")


def _told(view: PlanView, top: float, left: float) -> tuple[list[str], float]:
    """Return what is told above the plan, in rows, and where the top of them lies."""
    rows: list[list[tuple[float, str, str]]] = [[]]
    x = 0.0
    for step in view.told:
        text = SIGNS[step.flag] + step.label
        if rows[-1] and x + width_of(text) > WIDTH - 2 * MARGIN:
            rows.append([])
            x = 0.0
        rows[-1].append((x, text, step.flag))
        x += width_of(text) + 18
    start = top - 10 - len(rows) * LEADING
    marks = [
        words(Point(left + x, start + index * LEADING + SIZE), text, flag)
        for index, row in enumerate(rows)
        for x, text, flag in row
    ]
    return marks, start


def draw_plan(plan: Plan, prefix: str) -> str:
    """Return the plan of a flight to scale, 860 units wide; `prefix` keeps ids apart on one page."""
    view = plan_view_of(plan)
    left, top, right, bottom = view.box
    sheet_left = (left + right - WIDTH) / 2
    told, start = _told(view, top, sheet_left + MARGIN)
    floors = (view.laid.bottom, view.laid.top)
    texts = [text for text in view.texts if text is not None]
    start_line = path(view.line(view.laid.start), stroke(_width_flag(plan)))
    under = any(covered(view.laid))
    body = [
        *(_floor_fill(view, floor) for floor in floors),
        *(mark for floor in floors for mark in _floor_lines(view, floor)),
        start_line if under else "",
        *_tiles(view),
        "" if under else start_line,
        *_sides(view),
        *_arrow(view.arrow),
        *(words(text.at, text.words, text.flag, "middle", text.slant) for text in texts),
        *(mark for placed in view.table.placed for mark in label_marks(placed)),
        *told,
    ]
    return sheet((plan.title, plan.description), prefix, "plan", (sheet_left, start - 8, bottom + 18 - start), body)
