"""What every drawing of a flight shares: a size with its label, and which parts are flagged."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import NamedTuple

from stairaudit.decision import Outcome
from stairaudit.findings import Finding
from stairaudit.lengths import Unit, millimetres, show_length
from stairaudit.readings import Reading, mean_of
from stairaudit.samples import Places


class Step(NamedTuple):
    """One riser, tread, width or depth: its size [mm], None where it was not measured; its label and its flag."""

    mm: float | None
    label: str
    flag: str


UNTOLD = Step(None, "?", "")


def flags_of(findings: Iterable[Finding]) -> dict[str, str]:
    """Return the flagged parts: `outside` or `close`."""
    flags: dict[str, str] = {}
    for finding in findings:
        if finding.rule.measure.derived or finding.rule.level == "advice":
            continue
        if finding.outcome is Outcome.WARN:
            flags[finding.part] = "outside"
        elif finding.close:
            flags.setdefault(finding.part, "close")
    return flags


def of_measures(findings: Iterable[Finding], *names: str) -> Iterator[Finding]:
    """Yield the findings of some measures."""
    return (finding for finding in findings if finding.rule.measure.name in names)


def worst(flags: Iterable[str]) -> str:
    """Return the flag that weighs most.

    >>> worst(["", "close", "outside"]), worst([])
    ('outside', '')
    """
    return max(flags, default="")


def size_of(places: Places) -> int | None:
    """Return the mean of what was read [nm], None without a reading."""
    known = tuple(value.x for value in places if value.x is not None)
    return round(mean_of(known)) if known else None


def short(size: int | Fraction, unit: Unit) -> str:
    """Return a length [nm] without the exact figures in brackets, for which a drawing has no room."""
    return show_length(size, unit).partition(" (")[0]


def range_of(low: int | Fraction, high: int | Fraction, unit: Unit) -> str:
    """Return two lengths [nm] as one label, the unit once."""
    first, last = short(low, unit), short(high, unit)
    if first == last:
        return first
    number, _, word = first.rpartition(" ")
    same = last.endswith(f" {word}") and " ft " not in f"{first} {last}"
    return f"{number if same else first} to {last}"


def label_of(places: Places, unit: Unit) -> str:
    """Return what was read at some places, ? without a reading."""
    known = [value.x for value in places if value.x is not None]
    return range_of(min(known), max(known), unit) if known else "?"


def read_as(readings: Iterable[Reading | None] | None, unit: Unit, flag: str = "") -> Step:
    """Return readings as a size, the least of them, with all of them in the label."""
    known = [reading.value for reading in readings or () if reading is not None]
    if not known:
        return Step(None, "?", flag)
    return Step(millimetres(min(known)), range_of(min(known), max(known), unit), flag)
