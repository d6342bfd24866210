"""Audits as plain data for machines: the fixed shape of a result, every key always present."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from stairaudit.errors import Problem
from stairaudit.findings import Audit, Finding
from stairaudit.lengths import Unit, millimetres
from stairaudit.quantities import json_value
from stairaudit.words.data_notes import note_words
from stairaudit.words.facts import notes_told
from stairaudit.words.figures import at_of, bound_of, limit_shown, margin_of, reading_of, unit_of
from stairaudit.words.missing_names import missing_of
from stairaudit.words.notes import notes_of
from stairaudit.words.office import cautions_of, office_of
from stairaudit.words.standing import STATEMENT, method_of, provenance_of
from stairaudit.words.tally import reason_of, summary_of
from stairaudit.words.view import Audited

FORMAT = 1
DECIMALS = 6


def _rounded(data: dict[str, Any]) -> dict[str, Any]:
    return {key: round(value, DECIMALS) if isinstance(value, float) else value for key, value in data.items()}


def _reading(finding: Finding, unit: Unit) -> dict[str, Any] | None:
    text = reading_of(finding, unit)
    if text is None:
        return None
    kind = finding.rule.measure.kind
    empty: dict[str, Any] = {"mm": None}
    data = empty if finding.value is None else _rounded(json_value(kind, finding.value))
    data["shown"] = text
    if finding.rule.measure.sphere:
        ball = finding.ball
        data["ball"] = {"mm": millimetres(ball.diameter), "passes": ball.passes} if ball else None
    return data


def _uncertainty(finding: Finding) -> dict[str, Any] | None:
    if not finding.u or finding.value is None:
        return None
    return _rounded(json_value(finding.rule.measure.kind, Fraction(finding.u)))


def _bound(finding: Finding, bound: Any, unit: Unit) -> dict[str, Any]:
    kind = finding.rule.measure.kind
    return {**_rounded(json_value(kind, bound)), "shown": bound_of(kind, bound, unit)}


def _limit(finding: Finding, unit: Unit) -> dict[str, Any]:
    limit, kind = finding.limit, finding.rule.measure.kind
    data: dict[str, Any] = {"relation": limit.relation}
    if limit.relation == "between":
        data |= {"low": _bound(finding, limit.low, unit), "high": _bound(finding, limit.high, unit)}
    elif limit.low is None:
        data["mm"] = None
    else:
        data |= _rounded(json_value(kind, limit.low))
    data["shown"] = limit_shown(limit, kind, unit)
    if limit.measure is not None:
        data["measure"] = limit.measure
    return data


def _margin(finding: Finding, unit: Unit) -> dict[str, Any] | None:
    if finding.margin is None:
        return None
    value = _rounded(json_value(finding.rule.measure.kind, finding.margin))
    return {**value, "shown": margin_of(finding, unit)}


def finding_data(finding: Finding, unit: Unit) -> dict[str, Any]:
    """Return one finding as plain data, in the fixed order of keys."""
    rule = finding.rule
    return {
        "stair": finding.stair,
        "flight": finding.flight,
        "part": finding.part,
        "rule": rule.id,
        "clause": rule.clause,
        "title": rule.title,
        "level": rule.level,
        "outcome": finding.outcome.value,
        "close": finding.close,
        "probability": finding.probability,
        "hazard": rule.hazard,
        "provenance": rule.provenance,
        "reading": _reading(finding, unit),
        "uncertainty": _uncertainty(finding),
        "limit": _limit(finding, unit),
        "margin": _margin(finding, unit),
        "at": at_of(finding.at),
        "readings": finding.readings,
        "outside": finding.outside,
        "missing": list(missing_of(finding)),
        "assumed": list(finding.assumed),
        "again": list(finding.again),
        "basis": finding.basis,
        "computed": finding.computed,
        "note": " ".join(notes_of(finding, unit)) or None,
    }


def _audit(audited: Audited, audit: Audit) -> dict[str, Any]:
    survey, ruleset = audit.survey, audit.ruleset
    unit = unit_of(survey)
    return {
        "survey": {
            "file": audited.file,
            "site": survey.site,
            "date": survey.date.isoformat() if isinstance(survey.date, datetime.date) else None,
            "client": survey.client,
            "access": survey.access,
            "weather": survey.weather,
            "notes": [{"about": note.label, "text": note.value} for note in notes_told(survey)],
        },
        "decision": audit.decision,
        "data_notes": [
            {"stair": n.stair, "flight": n.flight, "part": n.part, "kind": n.kind, "note": note_words(n, unit)}
            for n in audit.notes
        ],
        "diagnosis": [],
        "condition": [{"stair": s.stair, "item": s.item, "state": s.state} for s in audit.seen],
        "ruleset": {
            "id": ruleset.id,
            "title": ruleset.title,
            "edition": ruleset.edition,
            "digest": ruleset.digest,
            "applies": audit.applies,
            "reason": reason_of(audit),
            "status": ruleset.status,
            "shipped": ruleset.shipped,
        },
        "provenance": provenance_of(audit),
        "method": method_of(survey, audit.decision, unit),
        "office": list(office_of(survey)),
        "cautions": cautions_of(survey),
        "summary": summary_of(audit),
        "findings": [finding_data(finding, unit) for finding in audit.findings],
    }


def _problem(problem: Problem) -> dict[str, Any]:
    mark = problem.mark
    return {
        "file": problem.file,
        "line": mark.line if mark else None,
        "column": mark.column if mark else None,
        "place": problem.place or None,
        "found": problem.found,
        "wanted": problem.wanted or None,
    }


def result_data(audited: Sequence[Audited], problems: Sequence[Problem], date: str, version: str) -> dict[str, Any]:
    """Return the whole result as plain data."""
    return {
        "format": FORMAT,
        "tool": {"name": "stairaudit", "version": version},
        "date": date or None,
        "statement": STATEMENT,
        "problems": [_problem(problem) for problem in problems],
        "audits": [_audit(item, audit) for item in audited for audit in item.audits],
    }
