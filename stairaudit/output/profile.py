"""Where the parts of one flight lie in its side view [mm], the first nosing over nought, y upwards."""

from __future__ import annotations

from itertools import accumulate
from typing import NamedTuple

from stairaudit.output.svg import Point
from stairaudit.words.marks import Step
from stairaudit.words.pictures import Picture

# Proportions of the drawing only, used where nothing was measured.
RUN_PER_RISE = 1.4
PLAIN_RISE = 180.0
THICKNESS = 25.0
STUB = 420.0
# A longer landing is broken off, so that the steps stay large enough to read.
LONGEST = 1200.0


class Laid(NamedTuple):
    """One step laid out: the foot and head of its riser, the tip of its nosing, the end of its tread."""

    foot: Point
    head: Point
    nose: Point
    end: Point
    riser: Step
    tread: Step | None


class Floor(NamedTuple):
    """A landing: where the flight meets it, its length drawn away from the flight, and whether that is all of it."""

    start: Point
    length: float
    depth: Step
    broken: bool

    @property
    def end(self) -> Point:
        """The far end as drawn."""
        return Point(self.start.x + self.length, self.start.y)


def _mean(steps: tuple[Step, ...], otherwise: float) -> float:
    known = [step.mm for step in steps if step.mm is not None]
    return sum(known) / len(known) if known else otherwise


def _filled(steps: tuple[Step, ...], mean: float) -> list[float]:
    return [mean if step.mm is None else step.mm for step in steps]


def lay_out(picture: Picture) -> list[Laid]:
    """Return the steps from nosing to nosing, as treads are read; one that was not measured takes the mean."""
    count = len(picture.risers)
    rise = _mean(picture.risers, PLAIN_RISE)
    run = _mean(picture.treads, rise * RUN_PER_RISE)
    heights = list(accumulate(_filled(picture.risers, rise), initial=0.0))
    tips = list(accumulate([*_filled(picture.treads, run), *[run] * count][:count], initial=0.0))
    out = [*picture.nosings, *[0.0] * count][:count]
    faces = [tip + over for tip, over in zip(tips, out, strict=False)]
    ends = [*faces[1:], tips[count] if len(picture.treads) == count else faces[-1]]
    treads = [*picture.treads, *[None] * count][:count]
    return [
        Laid(
            Point(faces[i], heights[i]), Point(faces[i], heights[i + 1]), Point(tips[i], heights[i + 1]),
            Point(ends[i], heights[i + 1]), picture.risers[i], treads[i],
        )
        for i in range(count)
    ]  # fmt: skip


def floors(picture: Picture, laid: list[Laid]) -> tuple[Floor, Floor]:
    """Return the landing at the bottom and the one at the top."""
    last = laid[-1]
    top = last.nose if last.tread is None else last.end
    return _floor(picture.landing_bottom, laid[0].foot, -1), _floor(picture.landing_top, top, 1)


def _floor(depth: Step, start: Point, way: int) -> Floor:
    length = STUB if depth.mm is None else min(depth.mm, LONGEST)
    return Floor(start, way * length, depth, depth.mm is not None and depth.mm > LONGEST)


def under_nosing(step: Laid) -> list[Point]:
    """Return the line of a riser from its foot to the tip of its nosing."""
    if step.nose.x >= step.head.x:
        return [step.foot, step.head]
    edge = step.head.y - min(THICKNESS, abs(step.head.y - step.foot.y) / 3)
    return [step.foot, Point(step.head.x, edge), Point(step.nose.x, edge), step.nose]
