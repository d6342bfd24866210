"""Taking any single thing out of a survey never creates a pass, whatever it was."""

from __future__ import annotations

from typing import Any

import pytest
from removing import new_passes
from test_rules import CASES

from stairaudit import check, load_ruleset, load_survey
from stairaudit.commands.demo import SURVEY
from stairaudit.decision import Outcome
from stairaudit.documents import read_document


def whole(ruleset: str) -> dict[str, Any]:
    base = CASES[ruleset]["base"]
    return {"format": 1, "units": "in", "stairs": [{**base["stair"], "flights": [base["flight"]]}]}


def demo() -> dict[str, Any]:
    data = read_document(SURVEY.read_bytes(), SURVEY.name).data
    assert isinstance(data, dict)
    return data


TURNED = """
format: 1
units: in
stairs:
  - id: hall
    setting: indoor
    use: one-dwelling
    bulkhead: no
    guards:
      - side: right
        along: [lower, lower landing top]
        drop: 50
        rake: {heights: 35, openings: [4], rail_gap: 1/4}
        level: {heights: 37, openings: [3]}
        top_is_handrail: no
    flights:
      - id: lower
        form: mixed
        risers: [8, 7 1/2, 7 1/2, 7 1/2, 7]
        measured_over: carpet
        coverings: {treads: {kind: carpet, thickness: 1/2}, bottom: {kind: tile}, top: none}
        walkline_out: 12
        treads: [10 1/4, {narrow: 6 1/4, walkline: 10 1/2}, {narrow: 6 1/4, wide: 24, width: 37}, 10 1/2]
        nosings: [1, 1, 1, 1, 1 1/8]
        riser_form: closed
        pitch: 36 deg
        width: 37
        handrails: [{side: left, heights: 29, heights_taken: square}]
        sides: {left: wall, right: {drop: 50}}
        landings:
          top: {depth: 40, width: 40, sides: {left: wall, right: {drop: 50}}, door: none}
          bottom: {depth: 36}
      - id: upper
        form: spiral
        risers: [8, 8]
        pole_diameter: 4
        treads_alike: yes
        walkline_out: 12
        treads: [{walkline: 7, wide: 20}]
        nosings: [1, 1]
        landings: {bottom: {same_as: lower landing top}}
"""


def turned() -> dict[str, Any]:
    data = read_document(TURNED.encode(), "turned.yaml").data
    assert isinstance(data, dict)
    return data


def passes(data: dict[str, Any], ruleset: str) -> set[tuple[Any, ...]]:
    audit = check(load_survey(data), load_ruleset(ruleset))
    # Where nobody tells how many risers there are, the last nosing is not known to be the top one.
    last = {"lower": "nosing 5", "upper": "nosing 2"}
    passed = [f for f in audit.findings if f.outcome is Outcome.PASS]
    return {
        (f.stair, f.flight, f.rule.id, "nosing top" if f.part == last.get(f.flight or "", "nosing 6") else f.part)
        for f in passed
    }


@pytest.mark.parametrize(
    ("data", "ruleset"),
    [
        (demo(), "us-irc-2021"),
        (demo(), "good-practice"),
        (whole("us-irc-2021"), "us-irc-2021"),
        (turned(), "us-irc-2021"),
    ],
    ids=["demo", "demo-advice", "everything-told", "turned"],
)
def test_less_is_never_a_new_pass(data: dict[str, Any], ruleset: str) -> None:
    tried = 0
    for new, less in new_passes(data, lambda told: passes(told, ruleset)):
        tried += 1
        assert new == set(), (new, less)
    assert tried > 60
