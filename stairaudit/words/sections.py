"""The rows of an audit under their headings, and the other tables made of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from stairaudit.decision import Outcome
from stairaudit.findings import Audit, Finding
from stairaudit.lengths import Unit
from stairaudit.words.rows import Row, row_of, rows_of, totals_of
from stairaudit.words.tally import section_of


class Section(NamedTuple):
    """Rows of one outcome under one heading; `held` counts findings."""

    key: str
    title: str
    intro: str
    rows: tuple[Row, ...]
    held: int


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


def sections_of(audit: Audit, unit: Unit) -> Iterator[Section]:
    """Yield the sections of an audit that hold anything."""
    mine: dict[str, list[Finding]] = {}
    for finding in audit.findings:
        mine.setdefault(section_of(finding), []).append(finding)
    totals = totals_of(audit.findings)
    for key, (title, intro) in HEADINGS.items():
        if key in mine:
            yield Section(key, title, intro, tuple(rows_of(mine[key], unit, totals)), len(mine[key]))


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


def several_flights(findings: Iterable[Finding]) -> bool:
    """Say whether findings come from more than one flight, so that each must name its own."""
    return len({(finding.stair, finding.flight) for finding in findings if finding.flight is not None}) > 1
