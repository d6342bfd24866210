"""The label of each tread of a plan: along the tread, where it is deep enough for words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from stairaudit.output.plan_layout import Laid, Tile
from stairaudit.output.plan_marks import APART
from stairaudit.output.svg import LEADING, SIGNS, SIZE, Point, width_of
from stairaudit.words.plan_treads import TreadPlan
from stairaudit.words.plans import Plan

MOST_LABELLED = 12
# How far from the end of a tread its words begin [units of the sheet], and how much further for each rail there.
RIM = 8.0
TURN_ROUND = 2 * math.pi + 1e-6


class Text(NamedTuple):
    """The label of a tread: its words, their flag, the middle of their foot and their slant [deg]."""

    words: str
    flag: str
    at: Point
    slant: float
    full: bool


def on_sheet(point: Point, scale: float) -> Point:
    """Return the place on the sheet of a point of the plan [mm]."""
    return Point(point.x * scale, -point.y * scale)


def middle_of(points: Sequence[Point]) -> Point:
    """Return the point half-way between the ends of a line."""
    return Point((points[0].x + points[-1].x) / 2, (points[0].y + points[-1].y) / 2)


def covered(laid: Laid) -> list[bool]:
    """Say of each tread whether a tread more than one turn further up lies over it."""
    left = abs(laid.turn)
    found = []
    for tile in laid.tiles:
        found.append(left > TURN_ROUND)
        left -= abs(tile.turn)
    return found


def board(form: str, index: int, tile: Tile) -> Tile:
    """Return the part of a tread's place that it fills: half of it where treads alternate, the left half first."""
    if form != "alternating-tread":
        return tile
    middle = tuple(Point((a.x + b.x) / 2, (a.y + b.y) / 2) for a, b in zip(tile.left, tile.right, strict=True))
    return tile._replace(right=middle) if index % 2 else tile._replace(left=middle)


def _choices(index: int, tread: TreadPlan, numbers_only: bool) -> Iterator[tuple[str, str, bool]]:
    """Yield words with their flag: that of the size where they give it, else that of anything on the tread."""
    if not numbers_only:
        yield f"{SIGNS[tread.depth.flag]}T{index} {tread.depth.label}", tread.depth.flag, True
    yield f"{SIGNS[tread.flag]}{index}{'?' if tread.depth.mm is None else ''}", tread.flag, False


class _Strip(NamedTuple):
    """A tread as room for words: the middles of its ends on the sheet, the deeper one first, and their depths."""

    deep: Point
    shallow: Point
    depths: tuple[float, float]
    clear: float
    rim: float

    @property
    def length(self) -> float:
        return math.dist(self.deep, self.shallow)


def _rails(plan: Plan, side: str) -> float:
    """Return how far the handrails along a side reach into the treads [units of the sheet]."""
    return APART * sum(run.kind == "handrail" and run.side == side for run in plan.runs)


def _strip(tile: Tile, scale: float, centre_rail: bool, rails: dict[str, float]) -> _Strip:
    ends = []
    for name, side in (("right", tile.right), ("left", tile.left)):
        ends.append((math.dist(side[0], side[-1]) * scale, on_sheet(middle_of(side), scale), rails[name]))
    ends.sort(key=lambda end: -end[0])
    (deep, at_deep, near), (shallow, at_shallow, far) = ends
    clear = math.dist(at_deep, at_shallow)
    if tile.walk:
        clear = math.dist(at_deep, on_sheet(middle_of(tile.walk), scale)) - 4
    elif centre_rail:
        clear /= 2
    # Even treads bear their words in the middle, so that the rails of both sides count there.
    rim = RIM + (max(near, far) if deep - shallow < 1 else near)
    return _Strip(at_deep, at_shallow, (deep, shallow), clear, rim)


def _text(strip: _Strip, words: str, flag: str, full: bool) -> Text | None:
    """Return words along a tread, at its deep end where it tapers, None where they do not fit."""
    long, span = width_of(words), strip.length
    even = strip.depths[0] - strip.depths[1] < 1 and strip.clear >= span
    start = (span - long) / 2 if even else strip.rim
    if start < strip.rim or start + long > (strip.clear if full or even else span):
        return None
    depth = strip.depths[0] - (strip.depths[0] - strip.depths[1]) * (start + long) / span
    if depth < LEADING:
        return None
    share = (start + long / 2) / span
    x = strip.deep.x + (strip.shallow.x - strip.deep.x) * share
    y = strip.deep.y + (strip.shallow.y - strip.deep.y) * share
    slant = math.degrees(math.atan2(strip.shallow.y - strip.deep.y, strip.shallow.x - strip.deep.x))
    # So that no words stand on their heads, and those of an upright tread read from below.
    slant = slant - 180 if slant > 89.9 else slant + 180 if slant <= -90.1 else slant
    down = math.radians(slant + 90)
    foot = Point(x + math.cos(down) * SIZE * 0.35, y + math.sin(down) * SIZE * 0.35)
    return Text(words, flag, foot, slant, full)


def texts_of(plan: Plan, laid: Laid, scale: float) -> Iterator[Text | None]:
    """Yield the label of each tread, None where there is no room for any."""
    plain = all(tread.taper is None for tread in plan.treads)
    numbers_only = plain and len(plan.treads) > MOST_LABELLED
    rails = {side: _rails(plan, side) for side in ("left", "right")}
    centre = any(run.side == "centre" for run in plan.runs)
    for index, (tile, hidden) in enumerate(zip(laid.tiles, covered(laid), strict=True), 1):
        found = None
        if not hidden:
            strip = _strip(board(plan.form, index, tile), scale, centre, rails)
            tries = (_text(strip, *choice) for choice in _choices(index, tile.tread, numbers_only))
            found = next((text for text in tries if text is not None), None)
        yield found
