"""Left and right changed over: a guard or a rail beside a wall that is told on the other side."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from stairaudit.context import Context
from stairaudit.findings import DataNote
from stairaudit.railings import Handrail

OTHER = {"left": "right", "right": "left"}


def _walled(holder: Any, name: str) -> bool | None:
    """Say whether a side is a wall, None where it was not told."""
    side = getattr(holder.sides, name, None)
    return None if side is None else bool(side.wall)


def _guards(context: Context, holder: Any, called: str) -> set[str]:
    """Return the sides that guards are told on, those in one piece over several flights with them."""
    listed = holder.guards if isinstance(holder.guards, tuple) else ()
    along = [guard for guard in context.stair.guards or () if called in guard.along]
    return {guard.side for guard in (*listed, *along) if guard.side}


def _holders(context: Context) -> Iterator[tuple[str, Any, str]]:
    yield "", context.this, context.name_of()
    for at in context.landings:
        if at.landing is not None and not at.shared:
            yield f"{at.part} ", at.landing, context.name_of(at)


def _swapped_guards(context: Context) -> Iterator[str]:
    for prefix, holder, called in _holders(context):
        guarded = _guards(context, holder, called)
        for name, other in OTHER.items():
            at_wall = _walled(holder, name) is True and _walled(holder, other) is False
            if at_wall and name in guarded and other not in guarded:
                yield f"{prefix}guard {name}"


def _swapped_rail(context: Context, rail: Handrail) -> bool:
    other = OTHER.get(rail.side or "")
    if other is None or not rail.beside_wall:
        return False
    return _walled(context.this, str(rail.side)) is False and _walled(context.this, other) is True


def sides(context: Context) -> Iterator[DataNote]:
    """Tell the guards and handrails that would fit if left and right were changed over."""
    for part in _swapped_guards(context):
        yield DataNote(context.stair.id, context.this.id, "sides-exchanged", part=part)
    rails = context.handrails
    for at in rails if isinstance(rails, tuple) else ():
        if _swapped_rail(context, at.rail):
            yield DataNote(context.stair.id, context.this.id, "sides-exchanged", part=at.part)
