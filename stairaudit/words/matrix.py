"""Several rule sets side by side: each reading once, with what every set says of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple

from stairaudit.decision import Outcome
from stairaudit.findings import Audit, Finding
from stairaudit.lengths import Unit
from stairaudit.words.figures import limit_of, reading_words
from stairaudit.words.notes import SIGNS, word_of
from stairaudit.words.rows import parts_told

NOTHING = "no rule"
# What weighs most in one cell where several rules of a set look at the same reading.
WEIGHT = {Outcome.WARN: 0, Outcome.UNMEASURED: 1, Outcome.PASS: 2, Outcome.NOT_APPLICABLE: 3}


class Cell(NamedTuple):
    """What one rule set says of a reading."""

    sign: str
    word: str
    limit: str


class Same(NamedTuple):
    """The rule sets that say the same of a reading."""

    cell: Cell
    sets: str


class MatrixRow(NamedTuple):
    """One reading, or several that come out alike, beside every rule set; `same` puts equal ones together."""

    where: str
    what: str
    reading: str
    cells: tuple[Cell, ...]
    differs: bool
    same: tuple[Same, ...]


class Matrix(NamedTuple):
    """Rule sets by their ids, the readings that lie outside a figure of any of them, and how many do of none."""

    sets: tuple[str, ...]
    rows: tuple[MatrixRow, ...]
    others: int

    @property
    def intro(self) -> str:
        """What stands in it and what does not."""
        shown = "Each reading that lies outside a figure of one of these sets, beside all of them."
        noun = "part" if self.others == 1 else "parts"
        return (
            f"{shown} {self.others} further {noun} that were checked lie outside none."
            if self.rows
            else ("No reading lies outside a figure of any of these sets.")
        )


Key = tuple[Any, ...]


def _key(finding: Finding) -> Key:
    return finding.stair, finding.flight, finding.part, finding.rule.measure.name, finding.rule.measure.at


def _deciding(findings: Iterable[Finding]) -> dict[Key, Finding]:
    """Return for each reading the finding that weighs most; advice is no part of the matrix."""
    found: dict[Key, Finding] = {}
    for finding in findings:
        if finding.rule.level == "limit":
            key = _key(finding)
            if key not in found or WEIGHT[finding.outcome] < WEIGHT[found[key].outcome]:
                found[key] = finding
    return found


def _cell(finding: Finding | None, unit: Unit) -> Cell:
    if finding is None:
        return Cell(SIGNS[Outcome.NOT_APPLICABLE], NOTHING, "")
    limit = limit_of(finding.limit, finding.rule.measure.kind, unit)
    return Cell(SIGNS[finding.outcome], word_of(finding), limit)


def _told(findings: Sequence[Finding | None]) -> Finding:
    """Return the finding that names the reading: one with a value where there is one."""
    there = [finding for finding in findings if finding is not None]
    return next((finding for finding in there if finding.value is not None or finding.ball is not None), there[0])


def _where(finding: Finding, parts: str, several: bool) -> str:
    place = "/".join(filter(None, (finding.stair, finding.flight))) if several else ""
    return f"{place}: {parts}" if place else parts


# Sets that say nothing of a reading stand after those that do.
ORDER = {sign: place for place, sign in enumerate("!?+-")}


def _same(cells: Sequence[Cell], sets: Sequence[str]) -> tuple[Same, ...]:
    found: dict[Cell, list[str]] = {}
    for cell, name in zip(cells, sets, strict=True):
        found.setdefault(cell, []).append(name)
    listed = sorted(found.items(), key=lambda item: ORDER[item[0].sign])
    return tuple(Same(cell, ", ".join(names)) for cell, names in listed)


def _matters(findings: Iterable[Finding | None]) -> bool:
    return any(finding is not None and finding.outcome is Outcome.WARN for finding in findings)


def _grouped(rows: dict[Key, tuple[Finding | None, ...]], unit: Unit) -> Iterator[tuple[list[Finding], list[Cell]]]:
    """Put together the parts of a flight whose readings and cells are the same but for the part."""
    groups: dict[Key, tuple[list[Finding], list[Cell]]] = {}
    for (stair, flight, _, measure, at), findings in rows.items():
        cells = [_cell(finding, unit) for finding in findings]
        told = _told(findings)
        key = (stair, flight, measure, at, tuple(cells), reading_words(told, unit))
        groups.setdefault(key, ([], cells))[0].append(told)
    yield from groups.values()


def matrix_of(audits: Sequence[Audit], unit: Unit) -> Matrix | None:
    """Return the rule sets of one survey side by side, None unless two of them are for it."""
    used = [a for a in audits if a.applies and any(rule.level == "limit" for rule in a.ruleset.rules)]
    if len(used) < 2:
        return None
    sets = tuple(audit.ruleset.id for audit in used)
    deciding = [_deciding(audit.findings) for audit in used]
    keys = dict.fromkeys(key for found in deciding for key in found)
    rows = {key: tuple(found.get(key) for found in deciding) for key in keys}
    matter = {key: findings for key, findings in rows.items() if _matters(findings)}
    several = len({key[:2] for key in matter if key[1] is not None}) > 1
    told = []
    for findings, cells in _grouped(matter, unit):
        first = findings[0]
        names = [finding.part for finding in findings]
        where = _where(first, parts_told(names), several)
        differs = len({cell.sign for cell in cells}) > 1
        reading, same = reading_words(first, unit) or "?", _same(cells, sets)
        told.append(MatrixRow(where, first.rule.title, reading, tuple(cells), differs, same))
    return Matrix(sets, tuple(told), len(rows) - len(matter))
