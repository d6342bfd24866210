"""The ground at the foot: where it is out of level, one rise is not like another."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from stairaudit.context import Context
from stairaudit.datanotes.closure import Closure, closure
from stairaudit.datanotes.errors import allowed, apart
from stairaudit.findings import DataNote
from stairaudit.parts import Slopes
from stairaudit.readings import mean_of
from stairaudit.samples import Number


class Fall(NamedTuple):
    """How far the ground falls over the run of the flight, and the run [nm]."""

    size: Number
    run: Number
    u: float

    def explains(self, sums: Closure) -> bool:
        """Say whether the risers and the total rise lie apart by just that fall, up or down."""
        return apart(apart(sums.added, sums.total), self.size) <= sums.allowed


def run_of(context: Context) -> Number | None:
    """Return the run of the plain treads [nm], a mean for each that was not read; None when none was."""
    rows = [tuple(v.x for v in row if v.x is not None) for row in context.treads or ()]
    read = [mean_of(row) for row in rows if row]
    if not read:
        return None
    if context.this.form == "mixed":
        return sum(read)
    return mean_of(tuple(read)) * (context.tread_count or len(read))


def _slopes(context: Context) -> Slopes | None:
    at = context.landings[0]
    # How a landing slopes is told as seen from the flight at which it is told.
    return at.landing.slope if at.landing is not None and not at.shared else None


def fall(context: Context) -> Fall | None:
    """Return by how much the total rise at the last step differs from that at the edge; None where it cannot be told.

    The ground is taken to go on at the slope of the bottom landing; a slope is told without its direction.
    """
    total, slopes = context.this.total_rise, _slopes(context)
    if total is None or total.at != "edge" or context.this.form not in (None, "straight"):
        return None
    run = run_of(context) if slopes is not None and slopes.along is not None else None
    if slopes is None or slopes.along is None or run is None:
        return None
    u = float(run) * context.error.slope_u()
    return Fall(slopes.along.value * run, run, u)


def _told_apart(context: Context, size: Number, u: float) -> bool:
    return size > allowed(context.error.length_u(size), u)


def _uneven(context: Context) -> bool:
    """Say whether the first riser shows that the ground is not level, under a total rise from the edge."""
    total, rows = context.this.total_rise, context.read_risers
    if total is None or total.at != "edge" or not rows:
        return False
    read = [value.x for value in rows[0] if value.x is not None]
    return bool(read) and max(read) - min(read) > allowed(context.error.difference_u(max(read), min(read)))


def edge(context: Context) -> Iterator[DataNote]:
    """Tell where a total rise from the edge of the upper floor is not that at the last step."""
    falls = fall(context)
    if falls is None and _uneven(context):
        yield DataNote(context.stair.id, context.this.id, "total-rise-at-edge")
    if falls is None or not _told_apart(context, falls.size, falls.u):
        return
    sums = closure(context)
    # Risers that add up to it as it stands show that the ground under the flight does not fall.
    if sums is None or not sums.agrees() or falls.explains(sums):
        yield DataNote(context.stair.id, context.this.id, "total-rise-at-edge", (falls.size, falls.run))


def cross_slope(context: Context) -> Iterator[DataNote]:
    """Tell where the first riser differs from left to right and was read at one place only."""
    slopes, rows = _slopes(context), context.read_risers
    width = [item.value for item in context.this.width or () if item is not None]
    if slopes is None or slopes.across is None or not width or not rows:
        return
    if len(rows[0]) > 1 or rows[0][0].x is None:
        return
    wide = mean_of(tuple(width))
    size = slopes.across.value * wide
    if _told_apart(context, size, float(wide) * context.error.slope_u()):
        yield DataNote(context.stair.id, context.this.id, "cross-slope-at-foot", (size, wide), "riser 1")
