"""Tapered treads whose reading at the walkline is not that of their ends."""

from __future__ import annotations

from collections.abc import Iterator

from stairaudit.context import Context
from stairaudit.datanotes.errors import allowed, apart
from stairaudit.findings import DataNote
from stairaudit.measures.tapers import worked_out
from stairaudit.surfaces import TaperedTread


def _without(context: Context, number: int, tread: TaperedTread, at: int) -> DataNote | None:
    assert tread.walkline is not None
    ends = tread.model_copy(update={"walkline": None})
    worked = worked_out(context, number, ends, at).values
    if not worked:
        return None
    read = context.length(tread.walkline)
    if apart(read.x, worked[0].x) <= allowed(read.u, worked[0].u):
        return None
    sizes = (read.x, round(worked[0].x))
    return DataNote(context.stair.id, context.this.id, "walkline-against-ends", sizes, f"tread {number}")


def tapered(context: Context) -> Iterator[DataNote]:
    """Tell each tapered tread on which the depth read at the walkline is not the one that its ends make there."""
    out = context.this.walkline_out
    for number, tread in context.tapers if out is not None else ():
        if out is not None and tread is not None and tread.walkline is not None:
            note = _without(context, number, tread, int(out.value))
            if note is not None:
                yield note
