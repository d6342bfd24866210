"""An audit as a document: titles, sections and rows, every word in place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from stairaudit.decision import Outcome
from stairaudit.findings import Audit, DataNote, Finding
from stairaudit.lengths import Unit, show_length
from stairaudit.survey import Survey
from stairaudit.words.figures import unit_of
from stairaudit.words.notes import listed
from stairaudit.words.pictures import Picture, picture_of
from stairaudit.words.rows import Row, rows_of
from stairaudit.words.standing import STATEMENT, STRENGTH, cautions_of, method_of, office_of, provenance_of


class Fact(NamedTuple):
    """One line of the head of a document."""

    label: str
    value: str


class Section(NamedTuple):
    """Rows of one outcome under one heading."""

    key: str
    title: str
    intro: str
    rows: tuple[Row, ...]
    held: int


class AuditView(NamedTuple):
    """One survey against one rule set, in words."""

    ruleset: str
    title: str
    edition: str
    digest: str
    applies: bool
    reason: str
    headline: str
    counts: tuple[Fact, ...]
    sections: tuple[Section, ...]
    provenance: tuple[str, ...]
    remarks: tuple[str, ...]


class SurveyView(NamedTuple):
    """One survey with all its audits."""

    file: str
    title: str
    facts: tuple[Fact, ...]
    seen: tuple[str, ...]
    looked: tuple[str, ...]
    audits: tuple[AuditView, ...]
    pictures: tuple[Picture, ...]
    method: tuple[str, ...]
    office: tuple[str, ...]
    cautions: tuple[str, ...]


class ReportView(NamedTuple):
    """Everything that a document holds."""

    title: str
    date: str
    version: str
    statement: str
    surveys: tuple[SurveyView, ...]


class Audited(NamedTuple):
    """One survey by its file name, with its audits."""

    file: str
    survey: Survey
    audits: tuple[Audit, ...]


HEADINGS = {
    "outside": ("Outside the published figure", "Each of these readings lies outside the figure named."),
    "close": ("Within, but too close to call", "Measure these again: a second reading could change the result."),
    "unmeasured": ("Not measured", "A missing reading is never a pass."),
    "advice": ("Advice", "Rules of thumb, no limits; they count apart."),
    "within": ("Within the published figure", ""),
    "in-line": ("In line with the advice", ""),
    "not-applicable": ("Does not apply here", ""),
}


def _section_of(row: Row) -> str:
    if row.level == "advice" and row.outcome in ("warn", "pass"):
        return "advice" if row.outcome == "warn" else "in-line"
    if row.outcome == "warn":
        return "outside"
    if row.outcome == "pass":
        return "close" if row.close else "within"
    return row.outcome


def _sections(rows: Sequence[Row]) -> Iterator[Section]:
    for key, (title, intro) in HEADINGS.items():
        mine = tuple(row for row in rows if _section_of(row) == key)
        if mine:
            yield Section(key, title, intro, mine, _count(key, mine))


def _count(key: str, rows: tuple[Row, ...]) -> int:
    """Return how many findings a section holds; of what was not measured, how many checks wait for it."""
    if key == "unmeasured":
        return len({(row.stair, row.flight, row.rule) for row in rows})
    return sum(row.size for row in rows)


def readings_within(findings: Iterable[Finding]) -> int:
    """Return how many readings lie within every figure that they were set beside."""
    within: dict[tuple[object, ...], int] = {}
    for finding in findings:
        measure = finding.rule.measure
        if measure.derived or measure.kind == "yes-no" or finding.outcome not in (Outcome.PASS, Outcome.WARN):
            continue
        key = (finding.stair, finding.flight, finding.part, measure.name)
        out = max(1, finding.outside) if finding.outcome is Outcome.WARN else 0
        within[key] = min(within.get(key, finding.readings), finding.readings - out)
    return sum(within.values())


def _plural(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def _unmeasured(findings: Iterable[Finding]) -> int:
    open_findings = (f for f in findings if f.outcome is Outcome.UNMEASURED)
    return len({(f.stair, f.flight, f.rule.id) for f in open_findings})


def headline_of(audit: Audit) -> str:
    """Return the result of an audit in one line."""
    warns = audit.warns
    advised = sum(f.outcome is Outcome.WARN for f in audit.findings) - warns
    close = sum(finding.close for finding in audit.findings)
    parts = [f"{_plural(readings_within(audit.findings), 'reading')} within"]
    if warns:
        parts.append(f"{_plural(warns, 'finding')} outside")
    if advised:
        parts.append(f"{advised} worth a look")
    if close:
        parts.append(f"{close} too close to call")
    open_checks = _unmeasured(audit.findings)
    parts.append(f"{_plural(open_checks, 'check')} not measured")
    parts.append(STRENGTH)
    return ", ".join(parts)


def summary_of(audit: Audit) -> dict[str, int]:
    """Return how many findings have each outcome; advice is counted apart."""
    limits = [finding for finding in audit.findings if finding.rule.level == "limit"]
    summary = {outcome.value: sum(f.outcome is outcome for f in limits) for outcome in Outcome}
    summary["close"] = sum(finding.close for finding in limits)
    summary["advice"] = sum(f.rule.level == "advice" and f.outcome is Outcome.WARN for f in audit.findings)
    return summary


def reason_of(audit: Audit) -> str | None:
    """Return which stairs the rule set is not for, None when it is for all."""
    if not audit.skipped:
        return None
    stairs = listed(tuple(f"'{stair}' ({use})" for stair, use in audit.skipped))
    return f"this rule set is for {listed(audit.ruleset.uses)}; not for stair {stairs}"


def note_words(note: DataNote, unit: Unit) -> str:
    """Return a note about the readings themselves in words."""
    where = f"Flight '{note.flight}' of stair '{note.stair}'"
    if note.kind == "risers-against-total-rise":
        added, total = (show_length(size, unit) for size in note.sizes)
        return (
            f"{where}: the risers add up to {added}, but the total rise was read as {total}; the tape does not "
            "explain it. Look for a riser left out or misread, and measure both again."
        )
    if note.kind == "ball-against-tape":
        return (
            f"{where}, {note.part}: what the ball shows and what the tape shows cannot both be right. The ball was "
            "believed; try it and measure again."
        )
    form = note.kind.removeprefix("form-").replace("-", " ")
    return (
        f"{where} is recorded as {form}: only what holds for that form was checked, and its treads at the "
        "walkline were not."
    )


COUNTED = {
    "pass": "findings within",
    "warn": "findings outside",
    "unmeasured": "findings not measured",
    "not-applicable": "findings that do not apply",
    "close": "findings too close to call",
    "advice": "advice worth a look",
}


def _audit_view(audit: Audit, unit: Unit) -> AuditView:
    ruleset = audit.ruleset
    rows = rows_of(audit.findings, unit)
    counts = tuple(Fact(COUNTED[name], str(number)) for name, number in summary_of(audit).items())
    edition = " ".join(filter(None, (ruleset.document, ruleset.edition)))
    return AuditView(
        ruleset.id, ruleset.title, edition, ruleset.digest, audit.applies, reason_of(audit) or "",
        headline_of(audit), counts, tuple(_sections(rows)), tuple(provenance_of(audit)),
        tuple(note_words(note, unit) for note in audit.notes),
    )  # fmt: skip


def notes_told(survey: Survey) -> Iterator[Fact]:
    """Yield the person's own notes, with what they are about."""
    if survey.notes:
        yield Fact("Note", survey.notes)
    for stair in survey.stairs:
        if stair.notes:
            yield Fact(f"Note on stair {stair.id}", stair.notes)
        for flight in stair.flights:
            if flight.notes:
                yield Fact(f"Note on flight {stair.id}/{flight.id}", flight.notes)


def _facts(survey: Survey, unit: Unit) -> Iterator[Fact]:
    if survey.site:
        yield Fact("Site", survey.site)
    if survey.date:
        yield Fact("Measured on", survey.date.isoformat())
    if survey.surveyor:
        yield Fact("Measured by", survey.surveyor)
    if survey.purpose:
        yield Fact("Purpose", survey.purpose.replace("-", " "))
    told = survey.authority
    if told:
        words = ", ".join(
            filter(None, (told.place, told.edition, told.told_by, told.date.isoformat() if told.date else None))
        )
        yield Fact("Told by the authority", words)
    yield from notes_told(survey)
    yield Fact("Shown in", {"in": "inches", "ft": "feet and inches", "mm": "millimetres", "cm": "centimetres"}[unit])


CONDITION = {"seen": "", "could-not-look": ": could not be looked at", "not-seen": ": looked for, not seen"}


def _condition(audited: Audited) -> tuple[tuple[str, ...], tuple[str, ...]]:
    seen: list[str] = []
    looked: list[str] = []
    for item in audited.audits[0].seen if audited.audits else ():
        words = f"{item.item.replace('_', ' ')} (stair {item.stair}){CONDITION[item.state]}"
        (seen if item.state == "seen" else looked).append(words)
    return tuple(seen), tuple(looked)


def survey_view(audited: Audited) -> SurveyView:
    """Return one survey with its audits in words."""
    survey, audits = audited.survey, audited.audits
    unit = unit_of(survey)
    seen, looked = _condition(audited)
    decision = audits[0].decision if audits else "simple"
    names = listed(tuple(stair.name or stair.id for stair in survey.stairs))
    pictures = (picture_of(audits[0], s, f, unit) for s in survey.stairs for f in s.flights) if audits else ()
    return SurveyView(
        audited.file, names, tuple(_facts(survey, unit)), seen, looked,
        tuple(_audit_view(audit, unit) for audit in audits),
        tuple(picture for picture in pictures if picture is not None),
        tuple(method_of(survey, decision, unit)), tuple(office_of(survey)), tuple(cautions_of(survey)),
    )  # fmt: skip


def report_view(audited: Sequence[Audited], date: str, version: str) -> ReportView:
    """Return everything that a document about some surveys holds."""
    views = tuple(survey_view(item) for item in audited)
    title = views[0].title if len(views) == 1 else f"{len(views)} surveys"
    return ReportView(f"Stair check: {title}", date, version, STATEMENT, views)
