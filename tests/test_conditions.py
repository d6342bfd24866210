"""Every condition of a rule holds, does not hold and is not told in a survey of its own; see conditions.yaml."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from stairaudit import Finding, check, load_ruleset, load_survey
from stairaudit.conditions import CONDITIONS
from stairaudit.documents import read_document

DATA: Any = read_document(Path(__file__).with_name("conditions.yaml").read_bytes(), "conditions.yaml").data
MEASURES: dict[str, Any] = DATA["measures"]
CASES: dict[str, Any] = DATA["conditions"]
FIGURES = [name for name, case in CASES.items() if isinstance(case["when"], dict)]
SEVERAL = [name for name in FIGURES if "counted" in CASES[name]]
RELATIONS = ("at-least", "more-than", "at-most", "less-than")

JUDGED = {"pass", "warn"}
WHEN = {"holds": JUDGED, "not": {"not-applicable"}, "unknown": {"unmeasured"}}
UNLESS = {**WHEN, "holds": {"not-applicable"}, "not": JUDGED}
AT_THE_FIGURE = {"at-least": "holds", "more-than": "not", "at-most": "holds", "less-than": "not"}
# What the places that were read decide, whatever those that were not may be.
BEYOND = {
    "greatest": {"at-least": "holds", "more-than": "holds", "at-most": "not", "less-than": "not"},
    "least": {"at-least": "not", "more-than": "not", "at-most": "holds", "less-than": "holds"},
}
WORDS = ("measure", "when", "holds", "not", "unknown")
ALSO = [(name, told) for name, case in CASES.items() for told in case.get("also", ())]
SEVERAL_KEYS = ("counted", "gap_settles", "gap_open")


def figure_of(name: str) -> str:
    (figure,) = CASES[name]["when"].values()
    return str(figure)


def findings(folder: Path, name: str, told: dict[str, Any], when: Any) -> tuple[Finding, Finding]:
    """Return the finding of a rule that asks for the condition, and that of one which it excuses."""
    measure = told.get("measure", CASES[name]["measure"])
    made = MEASURES[measure]
    rule = {"clause": "1", "title": "T", "measure": measure, "limit": made["limit"], "provenance": "memory"}
    rules = [{"id": "asks", **rule, "when": {name: when}}, {"id": "excused", **rule, "unless": {name: when}}]
    path = folder / "one.json"
    path.write_text(json.dumps({"format": 1, "id": "one", "title": "One", "rules": rules}), encoding="utf-8")

    flight = {"id": "f", **made.get("flight", {}), **told.get("flight", {})}
    stair = {"id": "s", **told.get("stair", {}), "flights": [flight, *told.get("others", ())]}
    survey = load_survey({"format": 1, "units": "in", "stairs": [stair], **told.get("top", {})})
    audit = check(survey, load_ruleset(path))
    part = told.get("part", made["part"])
    asks, excused = (f for f in audit.findings if f.part == part and f.flight in ("f", None))
    assert (asks.rule.id, excused.rule.id) == ("asks", "excused")
    return asks, excused


def assert_outcome(folder: Path, name: str, told: dict[str, Any], when: Any, expected: str) -> None:
    asks, excused = findings(folder, name, told, when)

    assert asks.outcome.value in WHEN[expected]
    assert excused.outcome.value in UNLESS[expected]
    missing = (name.replace("-", " "),) if expected == "unknown" else ()
    assert asks.missing == excused.missing == missing
    assert asks.assumed == excused.assumed == ()


def test_every_condition_has_its_cases_in_the_order_of_the_table() -> None:
    assert list(CASES) == list(CONDITIONS)


@pytest.mark.parametrize("name", CASES)
def test_a_case_has_the_keys_that_its_condition_needs(name: str) -> None:
    condition, case = CONDITIONS[name], CASES[name]
    figure = condition.kind not in ("word", "yes-no")
    several = SEVERAL_KEYS if "counted" in case else ()
    also = ("also",) if "also" in case else ()
    default = ("unknown_is",) if condition.default is not None else ()

    assert list(case) == [*WORDS, *default, *(("at",) if figure else ()), *several, *also]


@pytest.mark.parametrize("expected", ["holds", "not"])
@pytest.mark.parametrize("name", CASES)
def test_what_is_told_decides_whether_the_rule_is_asked(name: str, expected: str, tmp_path: Path) -> None:
    assert_outcome(tmp_path, name, CASES[name][expected], CASES[name]["when"], expected)


@pytest.mark.parametrize("name", [name for name, case in CASES.items() if "unknown_is" not in case])
def test_a_rule_whose_condition_is_not_told_is_unmeasured_and_names_it(name: str, tmp_path: Path) -> None:
    assert_outcome(tmp_path, name, CASES[name]["unknown"], CASES[name]["when"], "unknown")


@pytest.mark.parametrize("name", [name for name, case in CASES.items() if "unknown_is" in case])
def test_silence_is_taken_for_the_documented_answer_and_the_finding_says_so(name: str, tmp_path: Path) -> None:
    case = CASES[name]
    asks, excused = findings(tmp_path, name, case["unknown"], case["when"])

    assert asks.outcome.value in WHEN[case["unknown_is"]]
    assert excused.outcome.value in UNLESS[case["unknown_is"]]
    assert asks.missing == excused.missing == ()
    assert asks.assumed == excused.assumed == (f"{name}: {CONDITIONS[name].default}",)


@pytest.mark.parametrize(("name", "told"), ALSO, ids=lambda value: value if isinstance(value, str) else value["is"])
def test_what_more_is_told_decides_too(name: str, told: dict[str, Any], tmp_path: Path) -> None:
    assert_outcome(tmp_path, name, told, CASES[name]["when"], told["is"])


@pytest.mark.parametrize("relation", RELATIONS)
@pytest.mark.parametrize("name", FIGURES)
def test_exactly_at_the_figure_the_relations_part(name: str, relation: str, tmp_path: Path) -> None:
    when = {relation: figure_of(name)}
    assert_outcome(tmp_path, name, CASES[name]["at"], when, AT_THE_FIGURE[relation])


@pytest.mark.parametrize("relation", RELATIONS)
@pytest.mark.parametrize("name", SEVERAL)
def test_a_gap_leaves_decided_what_no_reading_could_turn(name: str, relation: str, tmp_path: Path) -> None:
    told = CASES[name]["gap_settles"]
    when = {relation: told.get("figure", figure_of(name))}
    assert_outcome(tmp_path, name, told, when, BEYOND[CASES[name]["counted"]][relation])


@pytest.mark.parametrize("relation", RELATIONS)
@pytest.mark.parametrize("name", SEVERAL)
def test_a_gap_leaves_open_what_a_reading_could_still_turn(name: str, relation: str, tmp_path: Path) -> None:
    told = CASES[name]["gap_open"]
    assert_outcome(tmp_path, name, told, {relation: told.get("figure", figure_of(name))}, "unknown")


@pytest.mark.parametrize(
    ("sides", "asks", "excused"),
    [
        ({"left": "wall", "right": {"drop": "31"}}, "unmeasured", "not-applicable"),
        ({"left": {"drop": "31"}}, "unmeasured", "not-applicable"),
        ({"left": "wall", "right": {"drop": "29"}}, "not-applicable", "unmeasured"),
        ({"left": {"drop": "29"}}, "unmeasured", "unmeasured"),
        ({"left": {"drop": "29"}, "right": {"drop": ["29", None]}}, "unmeasured", "unmeasured"),
    ],
)
def test_where_no_guard_was_told_of_the_deepest_drop_beside_the_landing_counts(
    sides: dict[str, Any], asks: str, excused: str, tmp_path: Path
) -> None:
    flight = {"sides": {"left": "wall", "right": "wall"}, "landings": {"top": {"sides": sides}}}
    told = {"measure": "landing-guard-height", "part": "landing top guards", "flight": flight}
    found = findings(tmp_path, "drop", told, {"more-than": "30 in"})

    assert [finding.outcome.value for finding in found] == [asks, excused]
