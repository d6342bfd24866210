"""Every shipped rule warns, passes, holds at its limit, lacks a reading, and steps back where it does not apply."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from cases import audit_of, changed

from stairaudit import load_ruleset
from stairaudit.documents import read_document
from stairaudit.shipped import shipped_ids

HERE = Path(__file__).parent / "rules"
CASES: dict[str, Any] = {
    path.stem: read_document(path.read_bytes(), path.name).data for path in sorted(HERE.glob("*.yaml"))
}
EACH = [(ruleset, rule) for ruleset, data in CASES.items() for rule in data["rules"]]


def outcomes(ruleset: str, rule: str, part: str, *changes: dict[str, Any]) -> set[str]:
    survey = changed(CASES[ruleset]["base"], *changes)
    found = [f for f in audit_of(survey, ruleset).findings if f.rule.id == rule]
    mine = {f.outcome.value for f in found if f.part == part}
    return mine or {f.outcome.value for f in found}


def test_every_shipped_rule_has_its_cases() -> None:
    for name in shipped_ids():
        assert list(CASES[name]["rules"]) == [rule.id for rule in load_ruleset(name).rules]


@pytest.mark.parametrize(("ruleset", "rule"), EACH)
def test_rule(ruleset: str, rule: str) -> None:
    case = CASES[ruleset]["rules"][rule]
    given, part = case.get("given", {}), case["part"]

    def outcome(key: str) -> set[str]:
        return outcomes(ruleset, rule, part, given, case[key])

    assert outcomes(ruleset, rule, part, given) == {"pass"}
    assert outcome("warn") == {"warn"}
    assert outcome("missing") == {"unmeasured"}
    if "na" in case:
        assert outcome("na") == {"not-applicable"}
    if "at" in case:
        assert outcome("at") == {case.get("at_is", "pass")}


def test_rules_with_a_length_limit_have_a_case_exactly_at_it() -> None:
    for name, data in CASES.items():
        for rule in load_ruleset(name).rules:
            exact = rule.measure.kind in ("length", "spread", "slope", "count") and rule.limit.relation != "equals"
            assert ("at" in data["rules"][rule.id]) or not exact, rule.id


def test_rules_with_conditions_have_a_case_to_which_they_do_not_apply() -> None:
    for name, data in CASES.items():
        for rule in load_ruleset(name).rules:
            assert "na" in data["rules"][rule.id] or not (rule.when or rule.unless), rule.id
