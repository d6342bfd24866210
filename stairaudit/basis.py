"""Risers brought to the hard surface where the tape stood on carpet: equal carpet cancels but for the end risers."""

from __future__ import annotations

from typing import NamedTuple

from stairaudit.readings import Absent
from stairaudit.samples import Places, Value
from stairaudit.surfaces import SOFT, Covering
from stairaudit.survey import Flight
from stairaudit.uncertainty import Instruments, combined_u

BARE, OVER, WORKED_OUT = "bare", "over carpet", "bare, worked out"
NOTHING = Value(0)


class Based(NamedTuple):
    """Risers on one surface: `doubts` names what is missing to know each of them on it, `names` the surface."""

    rows: tuple[Places, ...]
    doubts: tuple[str | None, ...]
    names: tuple[str | None, ...]


def _soft(covering: Covering | Absent | None, error: Instruments) -> Value | None:
    """Return the thickness of what is left out of a reading, None where it is not known."""
    if covering is None:
        return None
    if isinstance(covering, Absent):
        return NOTHING
    if covering.kind is None or covering.kind not in SOFT:
        return None if covering.kind is None else NOTHING
    told = covering.thickness
    return None if told is None else Value(told.value, error.length_u(told.value))


def _moved(places: Places, off: Value, on: Value) -> Places:
    """Return readings without the covering above and with the one below."""
    return tuple(
        value if value.x is None else value._replace(x=value.x - off.x + on.x, u=combined_u(value.u, off.u, on.u))
        for value in places
    )


def _over_carpet(flight: Flight, rows: tuple[Places, ...], error: Instruments) -> Based:
    told = flight.coverings
    treads, bottom, top = (_soft(getattr(told, key, None), error) for key in ("treads", "bottom", "top"))
    last = len(rows) - 1
    new, names = list(rows), [OVER] * len(rows)
    found: list[str | None] = [None] * len(rows)
    for index in {0, last}:
        above = top if index == last else treads
        below = bottom if index == 0 else treads
        moved = None if above is None or below is None else _moved(rows[index], above, below)
        if moved is None or any(value.x is not None and value.x <= 0 for value in moved):
            found[index] = "coverings"
        else:
            new[index], names[index] = moved, WORKED_OUT
    return Based(tuple(new), tuple(found), tuple(names))


def based(flight: Flight, rows: tuple[Places, ...], error: Instruments) -> Based:
    """Return the risers of a flight on the hard surface, as far as it can be told."""
    over = flight.measured_over
    if over == "carpet" and rows:
        return _over_carpet(flight, rows, error)
    doubt = "which risers were read over carpet" if over == "mixed" else None
    return Based(rows, (doubt,) * len(rows), (BARE if over == "bare" else None,) * len(rows))
