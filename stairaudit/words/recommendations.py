"""What may happen, what is recommended and whom to call; the sentences stand in recommendations.yaml."""

from __future__ import annotations

from functools import lru_cache
from typing import Any, Literal, NamedTuple

from stairaudit.decision import Outcome
from stairaudit.findings import Audit, Finding
from stairaudit.packaged import packaged
from stairaudit.survey import Survey
from stairaudit.words.occasions import first_year

Class = Literal["correct", "evaluate", "look", "again", "ask"]


class Recommendation(NamedTuple):
    """One recommendation in words: its class, what may happen, and whom to call."""

    told: str
    may_happen: str
    call: str


def _book() -> dict[str, Any]:
    return packaged("words/recommendations.yaml")


@lru_cache(maxsize=1)
def _kinds() -> dict[str, dict[str, str]]:
    return {measure: kind for kind in _book()["kinds"] for measure in kind["measures"]}


def class_of(finding: Finding) -> Class:
    """Return what is recommended for a finding outside its figure, or within but close."""
    if finding.rule.provenance == "memory":
        return "ask"
    if finding.outcome is Outcome.PASS:
        return "again"
    return "evaluate" if finding.close else "correct"


def for_finding(finding: Finding) -> Recommendation:
    """Return the recommendation for a finding."""
    rule = finding.rule
    entry = _kinds().get(rule.measure.name) or _book()["hazards"][rule.hazard]
    return Recommendation(_book()["classes"][class_of(finding)], entry["may_happen"], entry["call"])


def for_condition(item: str) -> Recommendation:
    """Return the recommendation for an item of the condition list that was seen."""
    entry = _book()["conditions"][item]
    return Recommendation(_book()["classes"]["look"], entry["may_happen"], entry["call"])


def older_of(survey: Survey, audits: tuple[Audit, ...]) -> list[str]:
    """Return, for each existing stair built before the edition of a rule set, what to ask the authority."""
    if survey.purpose not in (None, "as-found"):
        return []
    editions = [year for audit in audits if audit.warns and (year := first_year(audit.ruleset.edition))]
    lines = []
    for stair in survey.stairs:
        built = first_year(stair.built)
        if built is not None and any(built < year for year in editions):
            lines.append(
                f"{stair.name or stair.id}: built {stair.built}, the figures are those of {max(editions)}. Ask the "
                "authority whether it is judged by the figures of its day."
            )
    return lines
