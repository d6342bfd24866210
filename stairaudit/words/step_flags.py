"""Which flag belongs to the size that a drawing shows of a step, and what else was flagged there."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from stairaudit.findings import Finding
from stairaudit.lengths import Unit
from stairaudit.readings import Reading
from stairaudit.surfaces import TaperedTread
from stairaudit.words.figures import reading_of
from stairaudit.words.marks import Step, flags_of, of_measures, range_of, worst

# What of a tapered tread is read at one of the places that a survey tells.
READ = (
    "walkline-depth",
    "walkline-middle-depth",
    "walkline-outer-depth",
    "tapered-least-depth",
)
LETTERS = {"tread": "T", "riser": "R"}
_STEP = re.compile(r"(tread|riser) (\d+)")
# Of more stretches than these only their number is told.
MOST_STRETCHES = 6


def riser_flags(findings: Iterable[Finding]) -> dict[str, str]:
    """Return the flags of the heights of risers."""
    return flags_of(of_measures(findings, "riser-height"))


def plain_flags(findings: Iterable[Finding]) -> dict[str, str]:
    """Return the flags of the depths of plain treads."""
    return flags_of(of_measures(findings, "tread-depth"))


def flag_at(findings: Iterable[Finding], part: str, reading: Reading | None) -> str:
    """Return the flag of one reading of a tapered tread; a depth worked out from others flags none of them."""
    return worst(
        flag
        for finding in of_measures(findings, *READ)
        if reading is not None and not finding.computed and finding.value == reading.value
        for flag in [flags_of([finding]).get(part, "")]
    )


def shown_of(tread: TaperedTread | None) -> tuple[Reading, ...]:
    """Return the readings that the label of a tapered tread shows: at the walkline, else at both ends."""
    if tread is None:
        return ()
    if tread.walkline is not None:
        return (tread.walkline,)
    return (tread.narrow, tread.wide) if tread.narrow is not None and tread.wide is not None else ()


def others(findings: Sequence[Finding], tapers: dict[int, TaperedTread | None], unit: Unit) -> Iterator[Step]:
    """Yield what was flagged on a step beside the size that its label shows, alike ones together."""
    groups: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        flag = flags_of([finding]).get(finding.part, "")
        found = _STEP.fullmatch(finding.part)
        if flag and found and not _is_shown(finding, tapers.get(int(found[2]))):
            groups.setdefault((finding.rule.measure.name, flag), []).append(finding)
    for (name, flag), group in groups.items():
        noun = name.removeprefix("tapered-").replace("-", " ")
        yield Step(None, f"{_parts(group)}: {noun} {_readings(group, unit)}".rstrip(), flag)


def _is_shown(finding: Finding, tread: TaperedTread | None) -> bool:
    if finding.rule.measure.name in ("riser-height", "tread-depth"):
        return True
    values = [reading.value for reading in shown_of(tread)]
    return finding.rule.measure.name in READ and not finding.computed and finding.value in values


def _parts(group: Sequence[Finding]) -> str:
    """Return the steps as stretches: T1 to T4, T7."""
    noun = group[0].part.partition(" ")[0]
    numbers = sorted({int(finding.part.partition(" ")[2]) for finding in group})
    stretches: list[list[int]] = []
    for number in numbers:
        if stretches and stretches[-1][-1] == number - 1:
            stretches[-1].append(number)
        else:
            stretches.append([number])
    if len(stretches) > MOST_STRETCHES:
        return f"{len(numbers)} {noun}s"
    return ", ".join(stretch_of(LETTERS[noun], stretch) for stretch in stretches)


def stretch_of(letter: str, numbers: Sequence[int]) -> str:
    """Return the first and last of neighbouring steps.

    >>> stretch_of("T", [3]), stretch_of("T", [3, 4, 5])
    ('T3', 'T3 to T5')
    """
    first, last = f"{letter}{numbers[0]}", f"{letter}{numbers[-1]}"
    return first if first == last else f"{first} to {last}"


def _readings(group: Sequence[Finding], unit: Unit) -> str:
    values = [finding.value for finding in group if finding.value is not None]
    if group[0].rule.measure.kind == "length" and len(values) == len(group):
        return range_of(min(values), max(values), unit)
    texts = {reading_of(finding, unit) or "" for finding in group}
    return texts.pop() if len(texts) == 1 else ""
