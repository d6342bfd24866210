"""Equal findings put together into one row for people."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

from stairaudit.findings import Finding
from stairaudit.lengths import Unit
from stairaudit.quantities import show
from stairaudit.words.figures import limit_of, margin_words, reading_words
from stairaudit.words.missing_names import missing_of, plainly
from stairaudit.words.notes import SIGNS, listed, notes_of, origin_of, word_of
from stairaudit.words.ranking import WAYS_OF_READING

# Notes that a row leaves out, since its reading tells; one of several parts also those in which they differ.
TOLD_BY_READING = ("Outside at the other end",)
OF_ONE = ("Missing:", "Worst at:")


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
    measure: str
    origin: tuple[str, ...]

    @property
    def needs(self) -> tuple[str, ...]:
        """What is missing, in plain words."""
        return plainly(self.missing)

    @property
    def build_to(self) -> str:
        """The figure to build to; of how a reading was taken, what to do instead."""
        return self.limit if self.measure not in WAYS_OF_READING else "nothing to build: read again as advised"


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
    texts = list(dict.fromkeys(reading_words(finding, unit) for finding in findings))
    if len(texts) == 1:
        return texts[0]
    if any(finding.ball for finding in findings) or any(isinstance(v, (bool, type(None))) for v in values):
        return "; ".join(text for text in texts if text)
    values += [finding.opposite.x for finding in findings if finding.opposite is not None]
    return f"{show(kind, min(values), unit)} to {show(kind, max(values), unit)}"


def _margin(findings: list[Finding], unit: Unit) -> str:
    margins = [(finding.margin, finding) for finding in findings if finding.margin is not None]
    if not margins:
        return ""
    text = margin_words(min(margins, key=lambda pair: pair[0])[1], unit)
    return f"{text} at the worst" if text and len({margin for margin, _ in margins}) > 1 else text


def _shared(findings: list[Finding], sentences: Callable[[Finding], Iterable[str]]) -> tuple[str, ...]:
    """Return the sentences of some findings; one that is not of all of them names its parts."""
    told: dict[str, list[str]] = {}
    for finding in findings:
        for sentence in sentences(finding):
            told.setdefault(sentence, []).append(finding.part)
    return tuple(
        sentence if len(parts) == len(findings) else _of_some(parts_told(parts, len(findings)), sentence)
        for sentence, parts in told.items()
    )


def _of_some(parts: str, sentence: str) -> str:
    return f"{parts[:1].upper()}{parts[1:]}: {sentence[:1].lower()}{sentence[1:]}"


def _notes(findings: list[Finding], unit: Unit) -> tuple[str, ...]:
    def told(finding: Finding) -> list[str]:
        left_out = TOLD_BY_READING if len(findings) == 1 else (*TOLD_BY_READING, *OF_ONE)
        return [note for note in notes_of(finding, unit) if not note.startswith(left_out)]

    return _shared(findings, told)


def row_of(findings: list[Finding], total: int, unit: Unit) -> Row:
    """Return one row for some findings of one rule, of `total` that this rule has on the flight."""
    first = findings[0]
    rule = first.rule
    parts = parts_told([finding.part for finding in findings], total)
    missing = tuple(dict.fromkeys(name for finding in findings for name in missing_of(finding)))
    return Row(
        first.stair, first.flight, parts, rule.title, rule.clause, rule.id,
        first.outcome.value, first.close, rule.level, SIGNS[first.outcome], word_of(first),
        _readings(findings, unit), limit_of(first.limit, rule.measure.kind, unit), _margin(findings, unit),
        _notes(findings, unit), missing, rule.why, rule.how_to_measure, rule.advice, rule.hazard,
        rule.provenance, len(findings), rule.measure.name, _shared(findings, origin_of),
    )  # fmt: skip


def totals_of(findings: Iterable[Finding]) -> Counter[tuple[object, ...]]:
    """Return how many findings each rule has on each flight."""
    return Counter((finding.stair, finding.flight, finding.rule.id) for finding in findings)


def rows_of(findings: Iterable[Finding], unit: Unit, totals: Mapping[tuple[object, ...], int]) -> list[Row]:
    """Return one row for each rule, outcome and limit, in the order in which they were found."""
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        groups.setdefault(_key(finding), []).append(finding)
    return [row_of(group, totals[key[:3]], unit) for key, group in groups.items()]
