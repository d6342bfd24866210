"""The rows of an audit under their headings, and the other tables made of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from stairaudit.decision import Outcome
from stairaudit.findings import Audit, Finding
from stairaudit.lengths import Unit
from stairaudit.words.rows import Row, row_of, rows_of


class Section(NamedTuple):
    """Rows of one outcome under one heading."""

    key: str
    title: str
    intro: str
    rows: tuple[Row, ...]
    held: int


class Open(NamedTuple):
    """Readings that are missing, and the checks that wait for them."""

    where: str
    needs: tuple[str, ...]
    checks: tuple[str, ...]


HEADINGS = {
    "outside": ("Outside the published figure", "Each of these readings lies outside the figure named."),
    "close": ("Within, but too close to call", "Measure these again: a second reading could change the result."),
    "unmeasured": ("Not measured", "A missing reading is never a pass."),
    "advice": ("Advice", "Rules of thumb, no limits; they count apart."),
    "within": ("Within the published figure", ""),
    "in-line": ("In line with the advice", ""),
    "not-applicable": ("Does not apply here", ""),
}
# What somebody who builds has to put right, to measure again, or to think of.
TO_BUILD = ("outside", "close", "advice")


def _section_of(row: Row) -> str:
    if row.level == "advice" and row.outcome in ("warn", "pass"):
        return "advice" if row.outcome == "warn" else "in-line"
    if row.outcome == "warn":
        return "outside"
    if row.outcome == "pass":
        return "close" if row.close else "within"
    return row.outcome


def sections_of(audit: Audit, unit: Unit) -> Iterator[Section]:
    """Yield the sections of an audit that hold anything."""
    rows = rows_of(audit.findings, unit)
    for key, (title, intro) in HEADINGS.items():
        mine = tuple(row for row in rows if _section_of(row) == key)
        if mine:
            yield Section(key, title, intro, mine, _count(key, mine))


def _count(key: str, rows: tuple[Row, ...]) -> int:
    """Return how many findings a section holds; of what was not measured, how many checks wait for it."""
    if key == "unmeasured":
        return len({(row.stair, row.flight, row.rule) for row in rows})
    return sum(row.size for row in rows)


def clauses_of(audit: Audit, unit: Unit) -> tuple[Row, ...]:
    """Return one row for every finding, clause by clause in the order of the rule set; advice is no clause.

    Of a rule that does not apply, the parts stand in one row.
    """
    findings = [finding for finding in audit.findings if finding.rule.level == "limit"]
    order = {rule: number for number, rule in enumerate(audit.ruleset.rules)}
    totals: Counter[tuple[object, ...]] = Counter(
        (finding.stair, finding.flight, finding.rule) for finding in findings
    )
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in sorted(findings, key=lambda finding: order[finding.rule]):
        applies = finding.outcome is not Outcome.NOT_APPLICABLE
        key = (finding.stair, finding.flight, finding.rule, finding.part if applies else None)
        groups.setdefault(key, []).append(finding)
    return tuple(row_of(group, totals[key[:3]], unit) for key, group in groups.items())


def open_of(rows: Iterable[Row], several: bool) -> tuple[Open, ...]:
    """Put together what waits for the same readings; the place is named where there are several flights.

    Advice counts only where there is nothing else.
    """
    groups: dict[tuple[str, tuple[str, ...]], dict[str, None]] = {}
    listed = list(rows)
    for row in [row for row in listed if row.level == "limit"] or listed:
        where = "/".join(filter(None, (row.stair, row.flight))) if several else ""
        groups.setdefault((where, row.missing), {})[row.title] = None
    return tuple(Open(where, needs, tuple(checks)) for (where, needs), checks in groups.items())


def several_flights(sections: Sequence[Section]) -> bool:
    """Say whether rows come from more than one flight, so that each must name its own."""
    places = {(row.stair, row.flight) for section in sections for row in section.rows}
    return len({place for place in places if place[1] is not None}) > 1
