"""The side view of one flight as measured, to scale, as SVG."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from stairaudit.output.profile import PLAIN_RISE, RUN_PER_RISE, Floor, Laid, floors, lay_out, under_nosing
from stairaudit.output.svg import (
    FILL,
    LEADING,
    MARGIN,
    SIGNS,
    SIZE,
    WIDTH,
    Point,
    path,
    sheet,
    stroke,
    width_of,
    words,
)
from stairaudit.words.marks import Step
from stairaudit.words.pictures import Line, Picture

MOST_LABELLED = 12
# Most units of the sheet for a millimetre, and the height that steps and lines may take.
LARGEST, TALLEST = 0.32, 640.0
BELOW, ASIDE = 20.0, 18.0
# How far the lines over a single nosing reach beyond it [mm].
REACH = 250.0


class View(NamedTuple):
    """A flight laid out, with its scale [units for each mm]."""

    picture: Picture
    laid: list[Laid]
    floors: tuple[Floor, Floor]
    scale: float

    def at(self, point: Point) -> Point:
        """Return the place on the sheet of a point of the stair."""
        return Point(point.x * self.scale, -point.y * self.scale)


def _rooms(picture: Picture, laid: list[Laid], ends: tuple[Floor, Floor]) -> Iterator[tuple[float, float]]:
    """Yield where something begins [mm] and how many units it takes to the right of that, whatever the scale."""
    last = laid[-1]
    yield max(ends[1].end.x, last.nose.x + _reach(laid)), 0.0
    yield ends[1].start.x, 8 + width_of(_floor_label(ends[1]))
    yield last.head.x, 6 + max(map(width_of, _size_labels(len(laid), last)))
    for line in picture.lines:
        yield last.nose.x + _reach(laid), ASIDE + max(width_of(SIGNS[line.flag] + line.name), width_of(line.label))


def _reach(laid: list[Laid]) -> float:
    return REACH if len(laid) == 1 else 0.0


def _left(laid: list[Laid], ends: tuple[Floor, Floor]) -> float:
    return max(-ends[0].end.x, _reach(laid))


def _label_room(ends: tuple[Floor, Floor]) -> float:
    """Return how far left of the flight the label of the bottom landing reaches [units], where it does not fit it."""
    return width_of(_floor_label(ends[0])) + 6


def view_of(picture: Picture) -> View:
    """Return a flight laid out at the largest scale at which it fits the sheet."""
    laid = lay_out(picture)
    ends = floors(picture, laid)
    left = _left(laid, ends)
    noses = [step.nose.y for step in laid]
    overs = [y for line in picture.lines for y in (noses[0] + line.low, noses[-1] + line.high)]
    # Levels may run downhill; even then there is something to draw.
    tall = max(*noses, *overs, PLAIN_RISE)
    room = WIDTH - 2 * MARGIN
    rooms = list(_rooms(picture, laid, ends))
    fits = [(room - units) / (left + x) for x, units in rooms]
    fits += [(room - units - _label_room(ends)) / x for x, units in rooms if x > 0]
    return View(picture, laid, ends, min(LARGEST, TALLEST / tall, *fits))


def needs_table(picture: Picture) -> bool:
    """Say whether the sizes of the steps would not fit into the side view, so that it bears numbers only."""
    return _numbers_only(view_of(picture))


def _numbers_only(view: View) -> bool:
    lowest = min(step.head.y - step.foot.y for step in view.laid)
    return len(view.laid) > MOST_LABELLED or lowest * view.scale < 2 * LEADING


def _body(view: View) -> str:
    bottom, top = view.floors
    outline = [point for step in view.laid for point in under_nosing(step)]
    places = [view.at(point) for point in (bottom.end, *outline, top.start, top.end)]
    corners = [Point(places[0].x, BELOW), *places, Point(places[-1].x, BELOW)]
    return path([*corners, corners[0]], f'fill="{FILL}" stroke="none"')


def _edge(view: View, points: list[Point], step: Step) -> str:
    dash = "unmeasured" if step.mm is None else ""
    return path([view.at(point) for point in points], stroke(step.flag, dash))


def _edges(view: View) -> Iterator[str]:
    parts = [(under_nosing(step), step.riser) for step in view.laid]
    parts += [([step.nose, step.end], step.tread) for step in view.laid if step.tread is not None]
    parts += [([floor.start, floor.end], floor.depth) for floor in view.floors]
    for points, step in sorted(parts, key=lambda part: bool(part[1].flag)):
        yield _edge(view, points, step)


def _floor_label(floor: Floor) -> str:
    return f"{SIGNS[floor.depth.flag]}landing {floor.depth.label}"


def _floor_marks(view: View) -> Iterator[str]:
    bottom, top = view.floors
    left = min(view.at(bottom.end).x, -_label_room(view.floors))
    yield words(Point(left, LEADING), _floor_label(bottom), bottom.depth.flag)
    start = view.at(top.start)
    yield words(Point(start.x + 8, start.y - 5), _floor_label(top), top.depth.flag)
    for floor in view.floors:
        x, y = view.at(floor.end)
        if floor.broken:
            zigzag = [(0, -9), (0, -3), (4, -1), (-4, 3), (0, 5), (0, 11)]
            yield path([Point(x + across, y + down) for across, down in zigzag], stroke())
        elif floor.depth.mm is not None:
            yield path([Point(x, y - 4), Point(x, y + 3)], stroke())


def _size_labels(index: int, step: Laid) -> tuple[str, str]:
    tread = f"{SIGNS[step.tread.flag]}T{index} {step.tread.label}" if step.tread else ""
    return tread, f"{SIGNS[step.riser.flag]}R{index} {step.riser.label}"


def _sized(view: View) -> Iterator[str]:
    for index, step in enumerate(view.laid, 1):
        at = view.at(step.head)
        tread, riser = _size_labels(index, step)
        if step.tread:
            yield words(Point(at.x + 6, at.y + LEADING - 1), tread, step.tread.flag)
        yield words(Point(at.x + 6, at.y + 2 * LEADING - 2), riser, step.riser.flag)


def sign_of(step: Step | None) -> str:
    """Return the bare sign of a part: ? where it was not measured."""
    if step is None:
        return ""
    return "?" if step.mm is None else SIGNS[step.flag].strip()


def _numbered(view: View) -> Iterator[str]:
    lowest = LEADING
    for index, step in enumerate(view.laid, 1):
        at = view.at(step.head)
        if index > 1 and lowest - at.y < LEADING:
            continue
        lowest = at.y
        signs = {"R": sign_of(step.riser), "T": sign_of(step.tread)}
        told = [str(index), *(f"{letter}{sign}" for letter, sign in signs.items() if sign)]
        flags = {step.riser.flag, step.tread.flag if step.tread else ""}
        flag = "outside" if "outside" in flags else "close" if "close" in flags else ""
        yield words(Point(at.x + 6, at.y + LEADING - 1), " ".join(told), flag)


def _over(view: View, line: Line) -> tuple[Point, Point]:
    first, last, reach = view.laid[0].nose, view.laid[-1].nose, _reach(view.laid)
    ends = Point(first.x - reach, first.y + line.low), Point(last.x + reach, last.y + line.high)
    return view.at(ends[0]), view.at(ends[1])


def _placed(view: View) -> Iterator[tuple[Line, float]]:
    """Yield the lines, lowest first, with the heights of their names: moved up until no label lies on another."""
    free = view.at(view.floors[1].start).y - 2 * LEADING
    for line in sorted(view.picture.lines, key=lambda line: line.high):
        height = min(_over(view, line)[1].y, free - LEADING)
        free = height - LEADING
        yield line, height


def _dash_of(line: Line) -> str:
    kind = line.name.partition(" ")[0]
    return kind if kind in ("guard", "headroom") else ""


def _line_marks(view: View) -> Iterator[str]:
    for line, height in _placed(view):
        start, end = _over(view, line)
        yield path([start, end], stroke(line.flag, _dash_of(line), 0.0 if line.flag else 1.8))
        x = end.x + ASIDE
        yield path([end, Point(x - 4, height)], stroke("", "", 0.7))
        yield words(Point(x, height + 2), SIGNS[line.flag] + line.name, line.flag)
        yield words(Point(x, height + 2 + LEADING), line.label, line.flag)


def _box(view: View) -> tuple[float, float, float]:
    left = -max(_left(view.laid, view.floors) * view.scale, _label_room(view.floors))
    rooms = _rooms(view.picture, view.laid, view.floors)
    right = max(x * view.scale + units for x, units in rooms)
    heights = [height for _, height in _placed(view)]
    starts = [min(end.y for end in _over(view, line)) for line in view.picture.lines]
    top = min([view.at(view.floors[1].start).y - LEADING, *heights, *starts]) - SIZE - MARGIN
    return left - (WIDTH - (right - left)) / 2, top, BELOW + 4 - top


def draw(picture: Picture, prefix: str) -> str:
    """Return the side view of a flight to scale, 860 units wide; `prefix` keeps ids apart on one page."""
    view = view_of(picture)
    noses = [view.at(step.nose) for step in view.laid]
    body = [
        _body(view),
        *_edges(view),
        path(noses, stroke("", "nosings", 1.3)),
        *_line_marks(view),
        *_floor_marks(view),
        *(_numbered(view) if _numbers_only(view) else _sized(view)),
    ]
    return sheet((picture.title, picture.description), prefix, "side", _box(view), body)


def caption_of(picture: Picture) -> str:
    """Return what the signs and dashes of a side view mean, and what is not drawn in full."""
    return " ".join(_caption(view_of(picture)))


def _caption(view: View) -> Iterator[str]:
    yield "To scale; the figures govern. R is a riser, T a tread, from the bottom up."
    if len(view.laid) > 1:
        yield "The dotted line joins the nosings."
    if any(tread.taper is not None for tread in view.picture.plan.treads):
        yield (
            "The view is developed along the walkline: a tapered tread is as deep as it was read there, "
            "or midway between its ends where only these were read."
        )
    steps = [*view.picture.risers, *view.picture.treads, view.picture.landing_top, view.picture.landing_bottom]
    if any(line.label.endswith(" square") for line in view.picture.lines):
        yield "square: taken square to the slope, and drawn plumb by the pitch where that was read."
    flags = {step.flag for step in steps} | {line.flag for line in view.picture.lines}
    if "outside" in flags:
        yield "! and a heavy line: a reading there lies outside its figure."
    if "close" in flags:
        yield "~ at a name or letter: too close to call."
    labels = [step.label for step in steps] + [line.label for line in view.picture.lines]
    if any("~" in label for label in labels):
        yield "~ before a figure: rounded."
    yield from _gaps(view.picture, steps)
    if any(floor.broken for floor in view.floors):
        yield "A landing that ends in a zigzag is longer than it is drawn."
    if _numbers_only(view):
        yield "The sizes stand in the table."


def _gaps(picture: Picture, steps: list[Step]) -> Iterator[str]:
    if any(step.mm is None for step in steps):
        yield "? and short dashes: not measured; a step is drawn at the mean of the others, a landing at any length."
    if all(step.mm is None for step in picture.risers):
        yield "No riser was measured: their height here is a proportion of the drawing."
    if picture.treads and all(step.mm is None for step in picture.treads):
        yield f"No tread was measured: they are drawn {RUN_PER_RISE} times as deep as the mean riser is high."
