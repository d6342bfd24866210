"""Openings tried with a ball and read with a tape: where these differ by more than its error, one is wrong."""

from __future__ import annotations

from collections.abc import Iterator

from stairaudit.context import Context, guards_of, long_guards
from stairaudit.datanotes.errors import allowed
from stairaudit.findings import DataNote
from stairaudit.parts import Landing
from stairaudit.railings import Opening, Stretch
from stairaudit.survey import Flight


def _contradicts(opening: Opening | None, context: Context) -> bool:
    if opening is None or opening.gap is None or opening.ball is None:
        return False
    gap, ball = opening.gap.value, opening.ball.value
    error = allowed(context.error.length_u(gap), context.error.length_u(ball))
    return (ball - gap if opening.passes else gap - ball) > error


def _of(stretch: Stretch) -> tuple[Opening | None, ...]:
    return (*(stretch.openings or ()), *(stretch.triangle or ()))


def _openings(context: Context) -> Iterator[tuple[str, Opening | None]]:
    for number, opening in enumerate(context.this.riser_openings or (), 1):
        yield f"riser {number}", opening
    holders: list[tuple[str, Flight | Landing]] = [("", context.this)]
    holders += [(f"{at.part} ", at.landing) for at in context.landings if at.landing and not at.shared]
    for name, holder in holders:
        guards = guards_of(context, holder)
        for guard in guards if isinstance(guards, tuple) else ():
            for opening in _of(guard.guard):
                yield f"{name}{guard.part}", opening


def balls(context: Context) -> Iterator[DataNote]:
    """Set the ball against the tape in the openings of a flight and its landings."""
    for part, opening in _openings(context):
        if _contradicts(opening, context):
            yield DataNote(context.stair.id, context.this.id, "ball-against-tape", (), part)


def long_balls(context: Context) -> Iterator[DataNote]:
    """Set the ball against the tape in the guards that run along several flights."""
    for guard, _, part in long_guards(context):
        for name, stretch in ((part, guard.rake), (f"{part} level", guard.level)):
            for opening in _of(stretch) if stretch else ():
                if _contradicts(opening, context):
                    yield DataNote(context.stair.id, None, "ball-against-tape", (), name)
