"""Things told of one flight that cannot all be so: widths changed over, a guard at a wall, guards denied and told."""

from __future__ import annotations

from collections.abc import Iterator

from stairaudit.context import Context
from stairaudit.datanotes.errors import allowed
from stairaudit.findings import DataNote
from stairaudit.readings import Absent, Reading
from stairaudit.samples import Number


def _least(readings: tuple[Reading | None, ...] | None) -> Number | None:
    return min((item.value for item in readings or () if item is not None), default=None)


def widths(context: Context) -> Iterator[DataNote]:
    """Tell a clear width at the rail that is more than that above it."""
    above, at_rail = _least(context.this.width), _least(context.this.width_at_rail)
    if above is None or at_rail is None or at_rail <= above:
        return
    if at_rail - above > allowed(context.error.difference_u(above, at_rail)):
        yield DataNote(context.stair.id, context.this.id, "widths-exchanged", (at_rail, above))


def _walls_with_guards(context: Context) -> Iterator[str]:
    sides, guards = context.this.sides, context.this.guards
    told = guards if isinstance(guards, tuple) else ()
    for guard in told:
        side = getattr(sides, guard.side or "", None)
        if side is not None and side.wall:
            yield f"guard {guard.side}"


def guards(context: Context, known: tuple[str, ...] = ()) -> Iterator[DataNote]:
    """Tell a guard at a wall, and guards that are denied where one runs along; `known` parts are told already."""
    for part in _walls_with_guards(context):
        if part not in known:
            yield DataNote(context.stair.id, context.this.id, "guard-at-wall", part=part)
    run = any(context.this.id in guard.along for guard in context.stair.guards or ())
    if isinstance(context.this.guards, Absent) and run:
        yield DataNote(context.stair.id, context.this.id, "guards-denied")
