"""The slope of the nosing line by the level, by the tape, and the slope of the rails along it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from statistics import pstdev

from stairaudit.context import Context, RailAt
from stairaudit.datanotes.errors import allowed
from stairaudit.datanotes.ground import run_of
from stairaudit.findings import DataNote
from stairaudit.readings import mean_of
from stairaudit.samples import Number, Places, Value
from stairaudit.survey import TAPERED_FORMS
from stairaudit.uncertainty import combined_u, pitch_u

UPRIGHT = 90


def _mean(rows: tuple[Places, ...]) -> Value | None:
    """Return the mean of the rows that were read; its error is that of one step, unevenness with it.

    A level laid on the nosings touches a step or two, not the mean of all. Common practice, no source.
    """
    read = [[value for value in row if value.x is not None] for row in rows]
    means = [mean_of(tuple(value.x for value in row)) for row in read if row]
    if not means:
        return None
    u = max(value.u for row in read for value in row)
    return Value(mean_of(tuple(means)), max(u, pstdev(map(float, means))))


def worked_out(context: Context) -> Value | None:
    """Return the angle of the nosing line [deg] by risers and plain treads, None where these were not read.

    The nosing line starts on tread 1, so that riser 1 has no part in it.
    """
    if context.this.form not in (None, "straight", "mixed"):
        return None
    rise, run = _mean((context.read_risers or ())[1:]), _mean(context.treads or ())
    if rise is None or run is None:
        return None
    u = pitch_u(rise.x, run.x, rise.u, run.u)
    return Value(math.degrees(math.atan2(rise.x, run.x)), u)


def _measured(context: Context) -> Value | None:
    told = context.this.pitch
    return None if told is None else Value(float(told.value), context.error.angle_u())


def _agree(a: Value, b: Value) -> bool:
    return bool(abs(a.x - b.x) <= allowed(a.u, b.u))


def _gain(run: Number, rail: float, pitch: float) -> float:
    """Return by how much a rail rises off the nosing line over a run [unit of the run].

    >>> round(_gain(46, 35, 31.56), 2)
    3.95
    """
    return float(run) * (math.tan(math.radians(rail)) - math.tan(math.radians(pitch)))


def _borne_out(context: Context, rail: RailAt, gain: float, u_gain: float) -> bool:
    """Say whether the heights along the rail change by just that gain, so that nothing contradicts."""
    heights = rail.rail.heights or ()
    if rail.rail.heights_taken == "square" or len(heights) < 2 or heights[0] is None or heights[-1] is None:
        return False
    low, high = heights[0].value, heights[-1].value
    return abs(high - low - gain) <= allowed(context.error.difference_u(low, high), u_gain)


def _against(context: Context, rail: RailAt, pitch: Value) -> DataNote | None:
    """Return the note on a rail that does not run along the nosings, None where the readings agree."""
    if rail.rail.angle is None:
        return None
    angle = Value(float(rail.rail.angle.value), context.error.angle_u())
    if _agree(angle, pitch) or max(angle.x, pitch.x) >= UPRIGHT:
        return None
    run, angles = run_of(context), (angle.x, pitch.x)
    note = DataNote(context.stair.id, context.this.id, "rail-angle-against-nosings", (), rail.part, angles)
    if run is None:
        return note
    gain = _gain(run, angle.x, pitch.x)
    turn = math.radians(combined_u(angle.u, pitch.u)) / math.cos(math.radians(angle.x)) ** 2
    unseen = abs(gain) <= allowed(context.error.length_u(run))
    if unseen or _borne_out(context, rail, gain, float(run) * turn):
        return None
    return note._replace(sizes=(round(gain), run))


def pitches(context: Context, trusted: bool = True) -> Iterator[DataNote]:
    """Set the measured pitch and the angle of each rail against the steps, where their readings are `trusted`."""
    if context.this.form in TAPERED_FORMS:
        return
    listed = context.handrails
    rails = [at for at in (listed if isinstance(listed, tuple) else ()) if at.rail.angle is not None]
    measured = _measured(context)
    if measured is None and not rails:
        return
    worked = worked_out(context) if trusted else None
    if worked and measured and not _agree(worked, measured):
        angles = (measured.x, worked.x)
        yield DataNote(context.stair.id, context.this.id, "pitch-against-readings", angles=angles)
    known = [pitch for pitch in (worked, measured) if pitch is not None]
    for rail in rails if known else ():
        notes = [_against(context, rail, pitch) for pitch in known]
        if notes[0] is not None and None not in notes:
            yield notes[0]
