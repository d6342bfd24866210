"""Rules that get in each other's way, and rules that can never apply, are told with line and column."""

from __future__ import annotations

from pathlib import Path

import pytest

from stairaudit import load_ruleset
from stairaudit.catalog import overlapping
from stairaudit.overlaps import overlaps
from stairaudit.shipped import shipped_ids

HEAD = "format: 1\nid: mine\ntitle: Mine\nrules:\n"


def told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *rules: str) -> list[str]:
    monkeypatch.chdir(tmp_path)
    rows = [
        f"  - {{id: r{i}, clause: '{i}', title: T, measure: {rule}, provenance: seen}}\n"
        for i, rule in enumerate(rules, 1)
    ]
    Path("mine.yaml").write_text(HEAD + "".join(rows), encoding="utf-8")
    return [str(problem) for problem in overlapping(Path("mine.yaml"))]


@pytest.mark.parametrize("name", shipped_ids())
def test_no_shipped_set_has_rules_in_each_others_way(name: str) -> None:
    assert list(overlaps(load_ruleset(name).rules)) == []


def test_two_limits_of_one_side_are_one_too_many(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    rules = "headroom, limit: {at-least: 80 in}", "headroom, limit: {between: [78 in, 200 in]}"

    assert told(tmp_path, monkeypatch, *rules) == [
        "mine.yaml:6:5: rule 'r2': this rule and 'r1' are about the same readings; keep the stricter, or tell them "
        "apart by `when`"
    ]


def test_limits_that_leave_nothing_between_them_are_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    rules = "riser-height, limit: {at-most: 7 in}", "riser-height, limit: {at-least: 7 1/4 in}"

    assert told(tmp_path, monkeypatch, *rules) == [
        "mine.yaml:6:5: rule 'r2': no reading can lie inside both this rule and 'r1'; correct a figure, or tell them "
        "apart by `when`"
    ]


@pytest.mark.parametrize(
    "rules",
    [
        ("headroom, limit: {at-least: 80 in}", "headroom, limit: {at-most: 90 in}"),
        ("headroom, limit: {at-least: 80 in}", "headroom, limit: {at-least: 78 in}, when: {form: spiral}"),
        ("headroom, limit: {at-least: 80 in}", "landing-headroom, limit: {at-least: 78 in}"),
        ("headroom, limit: {at-least: 80 in}", "headroom, limit: {at-least: 78 in}, level: advice"),
        ("walkline-depth, at: 12 in, limit: {at-least: 10 in}", "walkline-depth, at: 6 in, limit: {at-least: 8 in}"),
    ],
)
def test_limits_for_other_parts_or_sides_stand_together(
    rules: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert told(tmp_path, monkeypatch, *rules) == []


@pytest.mark.parametrize(
    ("rule", "why"),
    [
        ("headroom, limit: {at-least: 8 ft}, when: {form: []}", "form is asked to be one of no answers"),
        (
            "headroom, limit: {at-least: 8 ft}, when: {form: spiral, setting: indoor}, "
            "unless: {form: [spiral, winder]}",
            "whenever it applies, it is excused by form",
        ),
        (
            "headroom, limit: {at-least: 8 ft}, when: {riser-count: {at-least: 6}}, "
            "unless: {riser-count: {more-than: 4}}",
            "whenever it applies, it is excused by riser-count",
        ),
        (
            "headroom, limit: {at-least: 8 ft}, when: {riser-count: {equals: 2}}, "
            "unless: {riser-count: {at-most: 2}}",
            "whenever it applies, it is excused by riser-count",
        ),
    ],
)
def test_a_rule_that_can_never_apply_is_told(
    rule: str, why: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert told(tmp_path, monkeypatch, rule) == [
        f"mine.yaml:5:5: rule 'r1': the rule 'r1' can never apply: {why}; correct its when or unless"
    ]


def test_an_excuse_that_needs_more_than_the_rule_leaves_it_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    rule = (
        "headroom, limit: {at-least: 8 ft}, when: {riser-count: {at-least: 4}}, unless: {riser-count: {at-least: 6}}"
    )

    assert told(tmp_path, monkeypatch, rule) == []
