"""Surveys for tests, made from a few keys."""

from __future__ import annotations

import copy
from typing import Any

from stairaudit import Audit, Finding, Survey, check, load_ruleset, load_survey


def put(data: Any, path: str, value: Any) -> None:
    """Set the value at a path such as flight.risers.2."""
    *steps, last = path.split(".")
    for step in steps:
        data = data[int(step)] if isinstance(data, list) else data[step]
    if isinstance(data, list):
        data[int(last)] = value
    else:
        data[last] = value


def survey_of(flight: dict[str, Any], stair: dict[str, Any] | None = None, **top: Any) -> Survey:
    """Return a survey of one flight in inches."""
    one = {"id": "s", **(stair or {}), "flights": [{"id": "f", **flight}]}
    return load_survey({"format": 1, "units": "in", "stairs": [one], **top})


def changed(base: dict[str, Any], *changes: dict[str, Any]) -> Survey:
    """Return the survey of a base of `stair` and `flight` with some paths set to other values."""
    data = copy.deepcopy(base)
    for change in changes:
        for path, value in change.items():
            put(data, path, copy.deepcopy(value))
    return survey_of(data["flight"], data["stair"], **data.get("survey", {}))


def audit_of(survey: Survey, ruleset: str = "us-irc-2021") -> Audit:
    """Return the audit of a survey against a shipped set."""
    return check(survey, load_ruleset(ruleset))


def finding(audit: Audit, rule: str, part: str) -> Finding:
    """Return the only finding of a rule on a part."""
    found = [f for f in audit.findings if f.rule.id == rule and f.part == part]
    assert len(found) == 1, f"{len(found)} findings of {rule} on {part}"
    return found[0]
