"""Cases that documents outside the United States work out or decide by their wording; sources beside each."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from cases import audit_of, survey_of

from stairaudit import Finding, load_ruleset
from stairaudit.documents import read_document
from stairaudit.lengths import parse_length
from stairaudit.quantities import read
from stairaudit.shipped import shipped_ids

FILE = Path(__file__).parent / "rulings_world.yaml"
DATA: Any = read_document(FILE.read_bytes(), FILE.name).data
CASES: list[dict[str, Any]] = DATA["cases"]
OUTCOMES = {"inside": "pass", "outside": "warn", "not asked": "not-applicable"}
SOURCE = {"document", "edition", "read_as", "provenance"}
# Angles are printed to a hundredth of a degree; lengths are exact.
HUNDREDTH = 0.005

each_case = pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])


def judged(case: dict[str, Any], said: dict[str, Any]) -> list[Finding]:
    """Return what the rules on a measure find on a part, those that do not apply only where no other does."""
    found = [
        finding
        for finding in audit_of(survey_of(case["flight"], case["stair"], units="mm"), case["ruleset"]).findings
        if (finding.rule.measure.name, finding.part) == (said["measure"], said["part"])
    ]
    return [finding for finding in found if finding.outcome.value != "not-applicable"] or found


def wrong(case: dict[str, Any], said: dict[str, Any]) -> list[str]:
    """Return in what the findings differ from what the source says."""
    found = judged(case, said)
    outcomes = {finding.outcome.value for finding in found}
    lines = [] if outcomes == {OUTCOMES[said["answer"]]} else [f"{outcomes or 'nothing'} for {said['answer']}"]
    clauses = {finding.rule.clause for finding in found}
    if said.get("clause") not in {None, *clauses}:
        lines.append(f"clause {said['clause']} among {sorted(clauses)}")
    lines += [f"reading {finding.value} for {said['figure']}" for finding in found if not same(finding, said)]
    return [f"{said['measure']} on {said['part']}: {line}" for line in lines]


def same(finding: Finding, said: dict[str, Any]) -> bool:
    """Say whether the reading is the figure of the source, where it tells one."""
    if "figure" not in said:
        return True
    figure: Any = read(finding.rule.measure.kind, said["figure"])
    allowed = HUNDREDTH if finding.rule.measure.kind == "angle" else 0
    return bool(abs(finding.value - figure) <= allowed)


@each_case
def test_the_answer_is_that_of_the_source(case: dict[str, Any]) -> None:
    if case["ruleset"] not in shipped_ids():
        pytest.skip(f"{case['ruleset']} is not there")
    lines = [line for said in case["says"] for line in wrong(case, said)]

    assert not lines, "\n".join([case["about"], *lines])


@each_case
def test_every_case_names_a_source_and_a_place_in_it(case: dict[str, Any]) -> None:
    assert set(DATA["sources"][case["source"]]) == SOURCE
    assert case["place"]
    assert case["kind"]
    assert case["says"]


def test_no_case_and_no_source_stands_twice_or_for_nothing() -> None:
    ids = [case["id"] for case in CASES]

    assert sorted(ids) == sorted(set(ids))
    assert {case["source"] for case in CASES} == set(DATA["sources"])


def test_the_published_run_of_the_new_zealand_stair_is_3900() -> None:
    """13 treads of 300 mm, one fewer than the risers (article extracts that quote D1/AS1)."""
    case = next(case for case in CASES if case["id"] == "nz-layout-2500")
    treads = [parse_length(f"{tread} mm") for tread in case["flight"]["treads"]]

    assert (len(treads), sum(treads)) == (13, parse_length("3900 mm"))


def test_a_riser_of_191_is_over_by_one_whatever_the_allowance() -> None:
    """ABCB Housing Provisions 2022, 11.2.2(1)(c): finished steps still have to meet Table 11.2.2a."""
    case = next(case for case in CASES if case["id"] == "au-riser-191")
    (finding,) = judged(case, {"measure": "riser-height", "part": "riser 2"})

    assert finding.margin == -parse_length("1 mm")
    assert load_ruleset("au-ncc-2022").rule("riser-height") is finding.rule
