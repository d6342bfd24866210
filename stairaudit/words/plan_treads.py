"""The treads of the plan of one flight: their depths, what was read across the tapered ones, and their flags."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from stairaudit.context import Context
from stairaudit.findings import Finding
from stairaudit.lengths import Unit, millimetres
from stairaudit.surfaces import TaperedTread
from stairaudit.survey import TAPERED_FORMS
from stairaudit.words.marks import UNTOLD, Step, flags_of, label_of, range_of, read_as, size_of, worst
from stairaudit.words.step_flags import flag_at, plain_flags, shown_of


class Taper(NamedTuple):
    """What was read across a tapered tread: its depths at both ends and at the walkline, and its own width."""

    narrow: Step
    walkline: Step
    wide: Step
    width: Step


class TreadPlan(NamedTuple):
    """One tread from above: its depth, the taper where it is no plain tread, and the flag of anything on it."""

    depth: Step
    taper: Taper | None
    flag: str = ""


def _tapered(tread: TaperedTread | None, part: str, findings: list[Finding], unit: Unit) -> TreadPlan:
    flag = flags_of(findings).get(part, "")
    if tread is None:
        return TreadPlan(UNTOLD, Taper(UNTOLD, UNTOLD, UNTOLD, UNTOLD), flag)
    narrow, walkline, wide = (
        read_as((reading,), unit, flag_at(findings, part, reading))
        for reading in (tread.narrow, tread.walkline, tread.wide)
    )
    shown = worst(flag_at(findings, part, reading) for reading in shown_of(tread))
    return TreadPlan(_along(tread, shown, unit), Taper(narrow, walkline, wide, read_as((tread.width,), unit)), flag)


def _along(tread: TaperedTread, flag: str, unit: Unit) -> Step:
    """Return the depth of a tapered tread for its side view: at the walkline, else midway between its ends."""
    shown = shown_of(tread)
    if len(shown) == 1:
        return read_as(shown, unit, flag)
    if shown:
        low, high = sorted(reading.value for reading in shown)
        return Step((millimetres(low) + millimetres(high)) / 2, range_of(low, high, unit), flag)
    return UNTOLD


def treads_of(context: Context, findings: list[Finding], unit: Unit) -> Iterator[TreadPlan]:
    """Yield the treads of a flight, bottom to top."""
    tapers, flags, plain = dict(context.tapers), flags_of(findings), plain_flags(findings)
    every = context.this.form in TAPERED_FORMS
    for number, row in enumerate(context.treads or (), 1):
        part = f"tread {number}"
        if number in tapers and (every or tapers[number] is not None):
            yield _tapered(tapers[number], part, findings, unit)
        else:
            size = size_of(row)
            depth = Step(None if size is None else millimetres(size), label_of(row, unit), plain.get(part, ""))
            yield TreadPlan(depth, None, flags.get(part, ""))
