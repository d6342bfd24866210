"""How far two readings may differ before the instruments no longer explain it."""

from __future__ import annotations

from collections.abc import Sequence

from stairaudit.samples import Number
from stairaudit.uncertainty import combined_u

# The factor for 95 of 100 cases, both ways: GUM (JCGM 100:2008) G.2.3, from memory.
TWO_SIDED = 2


def allowed(*us: float) -> float:
    """Return twice the combined standard uncertainty of independent quantities [their unit]."""
    return TWO_SIDED * combined_u(*us)


def apart(a: Number, b: Number) -> Number:
    """Return how far two quantities lie apart [their unit]."""
    return a - b if a > b else b - a


def middle(values: Sequence[Number]) -> Number:
    """Return the median, the lower of the two middle ones of an even number."""
    return sorted(values)[(len(values) - 1) // 2]
