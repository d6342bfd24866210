"""What a measure returns: one sample for each part, one value for each place on it."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, Literal, NamedTuple

Number = int | Fraction


class At(NamedTuple):
    """Which of several places: counted from 0, bottom to top, left to right, or tallest and shortest.

    `flight` names the flight where a part runs along several.
    """

    place: int
    places: int
    way: Literal["across", "along", "extremes"]
    flight: str = ""


class Ball(NamedTuple):
    """A ball of a diameter [nm] tried in an opening."""

    diameter: Number
    passes: bool


class Value(NamedTuple):
    """One place: its value, None where it was not measured, and the measuring error u [same unit]."""

    x: Any
    u: float = 0
    at: At | None = None
    ball: Ball | None = None


Places = tuple[Value, ...]


class Sample(NamedTuple):
    """One part with all its places.

    `absent`: looked, and it is not there. `whole` False: some of it is missing, so it may warn and
    never pass; `missing` says what. `n` readings stand behind a derived value. `element` is what
    conditions about this part look at. `computed`: worked out from other readings. `basis` says which
    surface the tape stood on.
    """

    part: str
    values: tuple[Value, ...] = ()
    element: Any = None
    whole: bool = True
    missing: tuple[str, ...] = ()
    absent: bool = False
    n: int = 1
    computed: bool = False
    basis: str | None = None


Samples = tuple[Sample, ...]


GAP = Value(None)


def padded(rows: tuple[Any, ...], total: int | None, gap: Any) -> tuple[Any, ...]:
    """Return rows with a gap for each one up to a total, if that is known."""
    return (*rows, *(gap,) * ((total or 0) - len(rows)))


def unmeasured(part: str, *missing: str, element: Any = None) -> Sample:
    """Return the sample of a part of which nothing was measured."""
    return Sample(part, (), element, False, missing or (part,))


def absent(part: str) -> Sample:
    """Return the sample of a part that is not there."""
    return Sample(part, absent=True)
