"""All risers of a flight so small or so tall that the unit of the file must be another one."""

from __future__ import annotations

from collections.abc import Iterator

from stairaudit.context import Context
from stairaudit.datanotes.errors import middle
from stairaudit.datanotes.fellows import readings_of
from stairaudit.datanotes.meanings import other_units
from stairaudit.findings import DataNote
from stairaudit.lengths import NM_PER_IN

# Between which sizes a riser of any stair lies, and an ordinary one. Common practice, no source.
ANY = 3 * NM_PER_IN, 20 * NM_PER_IN
ORDINARY = 5 * NM_PER_IN, 10 * NM_PER_IN


def file_unit(context: Context) -> Iterator[DataNote]:
    """Tell where the middle riser is no riser in the unit of the file and an ordinary one in another."""
    told = readings_of(context, "riser")
    if not told:
        return
    centre = middle([item.x for item in told])
    if ANY[0] <= centre <= ANY[1]:
        return
    typed = next(item.reading.typed for item in told if item.x == centre)
    meant = [text for value, text in other_units(typed) if ORDINARY[0] <= value <= ORDINARY[1]]
    if meant:
        yield DataNote(context.stair.id, context.this.id, "unit-of-file", (centre,), typed=typed, meant=meant[0])
