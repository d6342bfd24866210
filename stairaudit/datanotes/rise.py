"""The risers against the rise measured in one go, and against the number that was told."""

from __future__ import annotations

from collections.abc import Iterator

from stairaudit.context import Context
from stairaudit.datanotes.closure import closure
from stairaudit.datanotes.ground import fall
from stairaudit.findings import DataNote


def rise(context: Context) -> Iterator[DataNote]:
    """Set the sum of the risers against the rise measured in one go."""
    sums = closure(context)
    if sums is None or sums.agrees():
        return
    falls = fall(context)
    if falls is None or not falls.explains(sums):
        yield DataNote(context.stair.id, context.this.id, "risers-against-total-rise", (sums.added, sums.total))


def _given(context: Context) -> int:
    flight = context.this
    return len(flight.risers or ()) if flight.levels is None else len(flight.levels) - 1


def count(context: Context) -> Iterator[DataNote]:
    """Set the number of risers that was told against the risers, levels and treads that were given."""
    flight = context.this
    told, given = flight.riser_count, _given(context)
    if told is None:
        return
    if given and given != told:
        noun = "risers" if flight.levels is None else "levels"
        yield DataNote(context.stair.id, flight.id, "riser-count", part=noun, counts=(told, given, told))
        return
    treads, fitting = len(flight.treads or ()), context.tread_count
    if treads and fitting is not None and treads != fitting:
        yield DataNote(context.stair.id, flight.id, "riser-count", part="treads", counts=(told, treads, fitting))
