"""Readings of one survey that do not agree with each other, as facts apart from any clause."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from stairaudit.context import Context
from stairaudit.datanotes.contradictions import guards, widths
from stairaudit.datanotes.coverings import coverings
from stairaudit.datanotes.file_unit import file_unit
from stairaudit.datanotes.ground import cross_slope, edge
from stairaudit.datanotes.openings import balls, long_balls
from stairaudit.datanotes.pitch import pitches
from stairaudit.datanotes.rise import count, rise
from stairaudit.datanotes.sides import sides
from stairaudit.datanotes.slips import slips
from stairaudit.datanotes.tapered import tapered
from stairaudit.findings import DataNote


def _of_flight(context: Context) -> Iterator[DataNote]:
    slipped = tuple(slips(context))
    yield from file_unit(context)
    yield from count(context)
    yield from slipped
    yield from coverings(context)
    # What is worked out from a slip says nothing new; the slip is told already.
    if not any(note.part and note.part.startswith("riser") and note.sure for note in slipped):
        yield from rise(context)
    yield from edge(context)
    yield from cross_slope(context)
    yield from pitches(context, trusted=not slipped)
    exchanged = tuple(sides(context))
    yield from exchanged
    yield from widths(context)
    yield from tapered(context)
    yield from guards(context, tuple(note.part or "" for note in exchanged))
    yield from balls(context)


def notes_on(contexts: Iterable[Context]) -> tuple[DataNote, ...]:
    """Return what does not agree in the readings of some flights, and of the stairs that they belong to."""
    return tuple(
        note
        for context in contexts
        for note in (long_balls(context) if context.flight is None else _of_flight(context))
    )
