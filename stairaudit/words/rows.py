"""Equal findings put together into one row for people."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from stairaudit.findings import Finding
from stairaudit.lengths import Unit
from stairaudit.quantities import show
from stairaudit.words.figures import limit_of, margin_words, reading_of
from stairaudit.words.notes import SIGNS, listed, notes_of, word_of


class Row(NamedTuple):
    """One line of a document: equal findings of one rule, every figure as text."""

    stair: str
    flight: str | None
    part: str
    title: str
    clause: str
    rule: str
    outcome: str
    close: bool
    level: str
    sign: str
    word: str
    reading: str
    limit: str
    margin: str
    notes: tuple[str, ...]
    missing: tuple[str, ...]
    why: str
    how_to_measure: str
    advice: str
    hazard: str
    provenance: str
    size: int


def _key(finding: Finding) -> tuple[object, ...]:
    return (finding.stair, finding.flight, finding.rule.id, finding.outcome, finding.close, finding.limit)


def parts_told(names: list[str], total: int = 0) -> str:
    """Return the names of some parts as people say them; `total` is how many of that kind there are in all.

    >>> parts_told(["riser 2", "riser 3"]), parts_told(["riser 1", "riser 2", "riser 3"], 3)
    ('risers 2 and 3', 'all 3 risers')
    """
    kinds = {re.sub(r"s? [\w-]+$", "", name) for name in names}
    if len(names) == 1:
        return names[0]
    if len(kinds) > 1:
        return listed(tuple(names))
    kind = kinds.pop()
    if len(names) == total:
        return f"all {total} {kind}s" if total > 2 else f"both {kind}s"
    if len(names) > 3:
        return f"{len(names)} of {total} {kind}s"
    return f"{kind}s {listed(tuple(name.split()[-1] for name in names))}"


def _readings(findings: list[Finding], unit: Unit) -> str:
    kind = findings[0].rule.measure.kind
    values = [finding.value for finding in findings]
    texts = list(dict.fromkeys(reading_of(finding, unit) or "" for finding in findings))
    if len(texts) == 1:
        return texts[0]
    if any(finding.ball for finding in findings) or any(isinstance(v, (bool, type(None))) for v in values):
        return "; ".join(text for text in texts if text)
    return f"{show(kind, min(values), unit)} to {show(kind, max(values), unit)}"


def _margin(findings: list[Finding], unit: Unit) -> str:
    margins = [(finding.margin, finding) for finding in findings if finding.margin is not None]
    if not margins:
        return ""
    text = margin_words(min(margins, key=lambda pair: pair[0])[1], unit)
    return f"{text} at the worst" if text and len({margin for margin, _ in margins}) > 1 else text


def _notes(findings: list[Finding], unit: Unit) -> tuple[str, ...]:
    notes: dict[str, None] = {}
    for finding in findings:
        for note in notes_of(finding, unit):
            if len(findings) == 1 or not note.startswith(("Missing:", "Worst at:")):
                notes[note] = None
    return tuple(notes)


def row_of(findings: list[Finding], total: int, unit: Unit) -> Row:
    """Return one row for some findings of one rule, of `total` that this rule has on the flight."""
    first = findings[0]
    rule = first.rule
    parts = parts_told([finding.part for finding in findings], total)
    missing = tuple(dict.fromkeys(name for finding in findings for name in finding.missing))
    return Row(
        first.stair, first.flight, parts, rule.title, rule.clause, rule.id,
        first.outcome.value, first.close, rule.level, SIGNS[first.outcome], word_of(first),
        _readings(findings, unit), limit_of(first.limit, rule.measure.kind, unit), _margin(findings, unit),
        _notes(findings, unit), missing, rule.why, rule.how_to_measure, rule.advice, rule.hazard,
        rule.provenance, len(findings),
    )  # fmt: skip


def rows_of(findings: Iterable[Finding], unit: Unit) -> list[Row]:
    """Return one row for each rule, outcome and limit, in the order in which they were found."""
    listed_findings = list(findings)
    totals: dict[tuple[object, ...], int] = {}
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in listed_findings:
        rule = (finding.stair, finding.flight, finding.rule.id)
        totals[rule] = totals.get(rule, 0) + 1
        groups.setdefault(_key(finding), []).append(finding)
    return [row_of(group, totals[key[:3]], unit) for key, group in groups.items()]
