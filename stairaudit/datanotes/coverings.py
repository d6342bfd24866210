"""Readings taken over carpet: what it leaves unknown, and what it adds to the end risers."""

from __future__ import annotations

from collections.abc import Iterator

from stairaudit.basis import based
from stairaudit.context import Context
from stairaudit.findings import DataNote
from stairaudit.samples import Value

# Taller than any two coverings together [nm].
TALL = 1_000_000_000


def coverings(context: Context) -> Iterator[DataNote]:
    """Tell readings on two surfaces, and coverings that do not cancel between two steps."""
    over, count = context.this.measured_over, context.riser_count
    if over == "mixed":
        yield DataNote(context.stair.id, context.this.id, "covering-mixed")
    if over != "carpet" or not count:
        return
    # Risers of one size come out with what is added to each riser to know it on the hard surface.
    added = based(context.this, ((Value(TALL),),) * count, context.error)
    ends = sorted({0, count - 1})
    if any(added.doubts[end] for end in ends):
        yield DataNote(context.stair.id, context.this.id, "covering-at-ends")
        return
    sizes = tuple(added.rows[end][0].x - TALL for end in ends)
    if any(sizes):
        yield DataNote(context.stair.id, context.this.id, "covering-at-ends", sizes)
