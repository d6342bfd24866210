"""Readings of one survey that do not agree with each other, as facts apart from any clause."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from stairaudit.context import Context, guards_of
from stairaudit.findings import DataNote
from stairaudit.measures.steps import gaps
from stairaudit.parts import Opening

# The factor for 95 of 100 cases, both ways: GUM (JCGM 100:2008) G.2.3, from memory.
TWO_SIDED = 2


def _form(context: Context) -> Iterator[DataNote]:
    form = context.this.form
    if form not in (None, "straight"):
        yield DataNote(context.stair.id, context.this.id, f"form-{form}", ())


def _rise(context: Context) -> Iterator[DataNote]:
    """Set the sum of the risers against the rise measured in one go; one tape's own error adds up in the sum."""
    total, rows = context.this.total_rise, context.risers
    if total is None or not rows or gaps(rows, "riser") or any(len(row) > 1 for row in rows):
        return
    values = [row[0] for row in rows]
    size = sum(value.x for value in values)
    error = context.error.sum_u([value.u for value in values])
    allowed = TWO_SIDED * (error**2 + context.error.length_u(total.value.value) ** 2) ** 0.5
    if abs(size - total.value.value) > allowed:
        yield DataNote(context.stair.id, context.this.id, "risers-against-total-rise", (size, total.value.value))


def _contradicts(opening: Opening | None, context: Context) -> bool:
    """Say whether tape and ball cannot both be right, beyond the error of the tape."""
    if opening is None or opening.gap is None or opening.ball is None:
        return False
    gap, ball = opening.gap.value, opening.ball.value
    allowed = TWO_SIDED * context.error.difference_u(gap, ball)
    return (ball - gap if opening.passes else gap - ball) > allowed


def _openings(context: Context) -> Iterator[tuple[str, Opening | None]]:
    for number, opening in enumerate(context.this.riser_openings or (), 1):
        yield f"riser {number}", opening
    holders = [("", context.this)] + [(f"{at.part} ", at.landing) for at in context.landings if at.landing]
    for name, holder in holders:
        guards = guards_of(context, holder)
        for guard in guards if isinstance(guards, tuple) else ():
            for opening in (*(guard.guard.openings or ()), *(guard.guard.triangle or ())):
                yield f"{name}{guard.part}", opening


def _balls(context: Context) -> Iterator[DataNote]:
    for part, opening in _openings(context):
        if _contradicts(opening, context):
            yield DataNote(context.stair.id, context.this.id, "ball-against-tape", (), part)


def notes_on(contexts: Iterable[Context]) -> tuple[DataNote, ...]:
    """Return what does not agree in the readings of some flights."""
    return tuple(
        note
        for context in contexts
        if context.flight is not None
        for read in (_form, _rise, _balls)
        for note in read(context)
    )
