"""The readings of one kind in a flight, and whether one of them is like its fellows."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from stairaudit.context import Context
from stairaudit.datanotes.errors import apart, middle
from stairaudit.readings import Reading
from stairaudit.samples import Number
from stairaudit.surfaces import TaperedTread

# Fewer fellows show nothing: the one of two that is odd is not to be told. Common practice, no source.
LEAST_FELLOWS = 3
# A reading is like its fellows within an eighth of their middle one, an inch for most steps, and far from them
# beyond twice or half of it. Common practice, no source.
LIKE = Fraction(1, 8)
FAR = 2


class Told(NamedTuple):
    """One reading as it stands in the survey, with its part."""

    part: str
    reading: Reading

    @property
    def x(self) -> Number:
        """The value [nm]."""
        return self.reading.value


def readings_of(context: Context, noun: str) -> tuple[Told, ...]:
    """Return the readings of risers or of plain treads, those at several places one by one."""
    return tuple(_read(context, noun))


def _read(context: Context, noun: str) -> Iterator[Told]:
    rows = context.this.risers if noun == "riser" else context.this.treads
    for number, row in enumerate(rows or (), 1):
        for reading in () if isinstance(row, TaperedTread) else row:
            if reading is not None:
                yield Told(f"{noun} {number}", reading)


def _far(value: Number, centre: Number) -> bool:
    return not centre <= FAR * value <= FAR * FAR * centre


def far_ones(told: tuple[Told, ...]) -> Iterator[tuple[Told, Number]]:
    """Yield each reading that lies far from its fellows, with their middle one."""
    if len(told) <= LEAST_FELLOWS:
        return
    values = [item.x for item in told]
    centre = middle(values)
    if not _far(min(values), centre) and not _far(max(values), centre):
        return
    for index, item in enumerate(told):
        if _far(item.x, centre):
            yield item, middle(values[:index] + values[index + 1 :])


def like(value: Number, centre: Number) -> bool:
    """Say whether a reading is like fellows whose middle one is given [same unit]."""
    return apart(value, centre) <= LIKE * centre
