"""Seeded surveys of straight flights for tests/benchmark.py, and the same as plain numbers with a JSON Schema."""

from __future__ import annotations

import random
from itertools import pairwise
from typing import Any

from stairaudit import Survey, load_survey
from stairaudit.readings import Absent

INCH = 25_400_000
Plain = dict[str, Any]


class Tape:
    """Draws readings in sixteenths of an inch."""

    def __init__(self, seed: int) -> None:
        self.draw = random.Random(seed)

    def one(self, low: float, high: float) -> str:
        """Return one reading between two figures [in] as text."""
        return str(self.draw.randint(round(low * 16), round(high * 16)) / 16)

    def some(self, count: int, low: float, high: float) -> list[str]:
        """Return several readings."""
        return [self.one(low, high) for _ in range(count)]

    def around(self, count: int, low: float, high: float) -> list[str | None]:
        """Return readings within 5/16 in of one another, now and then with a gap."""
        middle = self.draw.randint(round(low * 16), round(high * 16)) / 16
        listed: list[str | None] = [*self.some(count, middle, middle + 5 / 16)]
        if count > 3 and self.draw.random() < 0.1:
            listed[self.draw.randrange(count)] = None
        return listed

    def chance(self, share: float) -> bool:
        """Return True in that share of draws."""
        return self.draw.random() < share


def _rail(tape: Tape) -> Plain:
    rail: Plain = {
        "side": "left",
        "heights": tape.some(3, 33.5, 38),
        "projection": tape.one(3, 4.25),
        "continuous": "yes" if tape.chance(0.9) else "no",
    }
    return rail | ({"clearance": tape.one(1.25, 2.5)} if tape.chance(0.9) else {})


def _landing(tape: Tape) -> Plain:
    return {
        "depth": tape.one(35.5, 44),
        "width": tape.one(35.5, 44),
        "headroom": "open" if tape.chance(0.4) else tape.one(79.5, 90),
    }


def flight_data(tape: Tape) -> Plain:
    """Return one flight of 2 to 16 risers as a person would write it."""
    count = tape.draw.randint(2, 16)
    rails = tape.chance(0.85)
    return {
        "id": "f",
        "risers": tape.around(count, 5.75, 8),
        "treads": tape.around(count - 1, 9.75, 11),
        "nosings": tape.around(count, 0.5, 1.375),
        "width": tape.some(3, 35.5, 40),
        "width_at_rail": tape.one(31.5, 36),
        "headroom": "open" if tape.chance(0.2) else tape.some(3, 79.5, 90),
        "sides": {"left": "wall", "right": {"drop": tape.one(10, 120)}},
        "handrails": [_rail(tape)] if rails else "none",
        "guards": [{"side": "right", "heights": tape.some(3, 35.5, 40), "openings": tape.some(4, 3, 4)}]
        if tape.chance(0.8)
        else "none",
        "landings": {"bottom": "none" if tape.chance(0.1) else _landing(tape), "top": _landing(tape)},
    }


def surveys(count: int, seed: int = 1) -> list[Survey]:
    """Return surveys of one flight each, the same ones for the same seed."""
    tape = Tape(seed)
    listed = []
    for _ in range(count):
        stair: Plain = {"id": "s", "flights": [flight_data(tape)]}
        if tape.chance(0.3):
            stair["serves"] = tape.draw.choice(["porch", "garden"])
        listed.append(load_survey({"format": 1, "units": "in", "stairs": [stair]}))
    return listed


def _values(told: Any) -> list[int]:
    if told is None or isinstance(told, Absent):
        return []
    readings = [item[0] if isinstance(item, tuple) and not hasattr(item, "typed") else item for item in told]
    return [item.value for item in readings if item is not None]


def _steps(rows: Any) -> list[int]:
    return [abs(a[0].value - b[0].value) for a, b in pairwise(rows) if a[0] and b[0]]


def _spread(rows: Any) -> int:
    read = _values(rows)
    return max(read) - min(read)


def _plain_landing(landing: Any) -> Plain:
    if not landing.present:
        return {"present": False}
    return {
        "present": True,
        "depth": _values(landing.depth),
        "width": _values(landing.width),
        "headroom": _values(landing.headroom),
    }


def _plain_rail(rail: Any) -> Plain:
    return {
        "heights": _values(rail.heights),
        "clearance": _values(rail.clearance),
        "projection": _values(rail.projection),
        "continuous": rail.continuous,
    }


def plain(survey: Survey) -> Plain:
    """Return a survey as numbers [nm] with what a schema cannot work out handed over ready-made."""
    stair = survey.stairs[0]
    flight: Any = stair.flights[0]
    rails = () if isinstance(flight.handrails, Absent) else flight.handrails
    guards = () if isinstance(flight.guards, Absent) else flight.guards
    drop = flight.sides.right.drop[0].value
    return {
        "serves": stair.serves or "building",
        "risers": _values(flight.risers),
        "riser_steps": _steps(flight.risers),
        "riser_spread": _spread(flight.risers),
        "riser_count": len(flight.risers),
        "rise": sum(_values(flight.risers)),
        "treads": _values(flight.treads),
        **({"tread_spread": _spread(flight.treads)} if len(flight.treads) > 1 else {}),
        "nosings": _values(flight.nosings),
        "nosing_spread": _spread(flight.nosings),
        "width": _values(flight.width),
        "width_at_rail": _values(flight.width_at_rail),
        "headroom": _values(flight.headroom),
        "rail_count": len(rails),
        "rails": [_plain_rail(rail) for rail in rails],
        "guards": [
            {"drop": drop, "heights": _values(g.heights), "openings": [o.gap.value for o in g.openings]}
            for g in guards
        ],
        "landings": [_plain_landing(item) for item in (flight.landings.bottom, flight.landings.top)],
    }


def _all(**limits: float) -> Plain:
    return {"type": "array", "items": _one(**limits)}


def _one(**limits: float) -> Plain:
    return {"type": "integer", **{key: round(figure * INCH) for key, figure in limits.items()}}


def _if(key: str, test: Plain, properties: Plain) -> Plain:
    return {"if": {"properties": {key: test}}, "then": {"properties": properties}}


def schema() -> Plain:
    """Return the limits of benchmark_rules.yaml as a JSON Schema of what `plain` returns."""
    rail = {
        "heights": _all(minimum=34, maximum=38),
        "clearance": _all(minimum=1.5),
        "projection": _all(maximum=4),
        "continuous": {"const": True},
    }
    guard = {"heights": _all(minimum=36), "openings": _all(exclusiveMaximum=4)}
    landing = {
        "present": {"const": True},
        "depth": _all(minimum=36),
        "width": _all(minimum=36),
        "headroom": _all(minimum=80),
    }
    return {
        "type": "object",
        "properties": {
            "risers": _all(minimum=6, maximum=8),
            "riser_steps": _all(maximum=0.25),
            "riser_spread": _one(maximum=0.5),
            "riser_count": {"type": "integer", "maximum": 14},
            "rise": _one(maximum=100),
            "treads": _all(minimum=10),
            "tread_spread": _one(maximum=0.5),
            "nosings": _all(minimum=0.5, maximum=1.5),
            "nosing_spread": _one(exclusiveMaximum=0.5),
            "width_at_rail": _all(minimum=32),
            "headroom": _all(minimum=80),
            "rails": {"type": "array", "items": {"type": "object", "properties": rail}},
            "guards": {"type": "array", "items": _if("drop", _one(exclusiveMinimum=30), guard)},
            "landings": {"type": "array", "items": {"type": "object", "properties": landing}},
        },
        "allOf": [
            _if("riser_count", {"minimum": 4}, {"rail_count": {"type": "integer", "minimum": 1}}),
            _if("serves", {"not": {"const": "garden"}}, {"width": _all(minimum=36)}),
        ],
    }
