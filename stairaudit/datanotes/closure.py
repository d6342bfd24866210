"""The risers added up against the rise measured in one go."""

from __future__ import annotations

from typing import NamedTuple

from stairaudit.context import Context
from stairaudit.datanotes.errors import allowed, apart
from stairaudit.measures.steps import gaps
from stairaudit.samples import Number


class Closure(NamedTuple):
    """The risers added up, the total rise, and how far the tape lets them lie apart [nm]."""

    added: Number
    total: Number
    allowed: float

    def agrees(self, more: Number = 0) -> bool:
        """Say whether they agree when the risers add up to `more` than was read [nm]."""
        return apart(self.added + more, self.total) <= self.allowed


def closure(context: Context) -> Closure | None:
    """Return the sum as read, not brought to the hard surface; None where a riser or the total rise is missing.

    The error that a tape has in every reading adds up in the sum: GUM (JCGM 100:2008) 5.2.2, from memory.
    """
    total, rows = context.this.total_rise, context.read_risers
    if total is None or not rows or gaps(rows, "riser") or any(len(row) > 1 for row in rows):
        return None
    values = [row[0] for row in rows]
    u_sum = context.error.sum_u([value.u for value in values])
    u_total = context.error.length_u(total.value.value)
    return Closure(sum(value.x for value in values), total.value.value, allowed(u_sum, u_total))
