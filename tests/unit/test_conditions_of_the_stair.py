"""Days, years, lists of words and figures of the whole stair as conditions of a rule."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from cases import finding

from stairaudit import check, load_ruleset, load_survey

RULE = (
    "format: 1\nid: mine\ntitle: Mine\nrules:\n  - {{id: r, clause: '1', title: T, measure: riser-height, "
    "limit: {{at-most: 9 in}}, when: {when}, provenance: memory}}\n"
)


def outcome(tmp_path: Path, when: str, stair: dict[str, Any], **top: Any) -> str:
    path = tmp_path / "mine.yaml"
    path.write_text(RULE.format(when=when), encoding="utf-8")
    flights = stair.pop("flights", [{"id": "f", "risers": ["8"]}])
    data = {"format": 1, "units": "in", "stairs": [{"id": "s", **stair, "flights": flights}], **top}
    return finding(check(load_survey(data), load_ruleset(path)), "r", "riser 1").outcome.value


@pytest.mark.parametrize(
    ("told", "expected"),
    [
        ({"installed": "2017-01-16"}, "pass"),
        ({"installed": "2017-01-17"}, "not-applicable"),
        ({"built": "2016"}, "pass"),
        ({"built": "2018"}, "not-applicable"),
        ({"built": "2017"}, "unmeasured"),
        ({"built": "1990-1996"}, "pass"),
        ({"built": "2010-2020"}, "unmeasured"),
        ({"built": "unknown"}, "unmeasured"),
        ({"built": "2018", "installed": "2016-05-01"}, "pass"),
        ({"installed": "2010-05-01", "altered": "2016"}, "pass"),
        ({"installed": "2010-05-01", "altered": "2018"}, "unmeasured"),
        ({"built": "2018", "altered": "2020"}, "not-applicable"),
        ({"built": "1990", "altered": "unknown"}, "unmeasured"),
        ({}, "unmeasured"),
    ],
)
def test_a_day_decides_and_a_year_only_where_all_of_it_lies_on_one_side(
    told: dict[str, Any], expected: str, tmp_path: Path
) -> None:
    assert outcome(tmp_path, "{installed: {less-than: 2017-01-17}}", told) == expected


@pytest.mark.parametrize(
    ("built", "expected"),
    [("1997", "pass"), ("1996", "not-applicable"), ("1990-1997", "unmeasured"), ("1997-1999", "pass")],
)
def test_a_range_of_years_decides_where_both_ends_agree(built: str, expected: str, tmp_path: Path) -> None:
    assert outcome(tmp_path, "{built-year: {at-least: 1997}}", {"built": built}) == expected


@pytest.mark.parametrize(
    ("authority", "expected"),
    [
        ({"accepted": ["historic", "meets-1991"]}, "pass"),
        ({"accepted": ["historic"]}, "not-applicable"),
        ({"accepted": []}, "not-applicable"),
        ({"place": "Marl County"}, "not-applicable"),
        (None, "not-applicable"),
    ],
)
def test_what_the_authority_accepted_is_told_and_never_inferred(
    authority: dict[str, Any] | None, expected: str, tmp_path: Path
) -> None:
    assert outcome(tmp_path, "{accepted: meets-1991}", {}, authority=authority) == expected


def test_the_rise_of_the_stair_adds_up_its_flights(tmp_path: Path) -> None:
    flights = [{"id": "f", "risers": ["8"]}, {"id": "g", "total_rise": "23"}]

    assert outcome(tmp_path, "{stair-rise: {more-than: 30 in}}", {"flights": flights}) == "pass"
    assert outcome(tmp_path, "{stair-rise: {more-than: 31 in}}", {"flights": flights}) == "not-applicable"
    gap = [flights[0], {"id": "g"}]
    assert outcome(tmp_path, "{stair-rise: {more-than: 31 in}}", {"flights": gap}) == "unmeasured"
    assert outcome(tmp_path, "{stair-rise: {more-than: 7 in}}", {"flights": gap}) == "pass"


def test_the_least_width_and_the_number_of_treads_can_be_asked(tmp_path: Path) -> None:
    flight = {"id": "f", "risers": ["8", "8", "8", "8"], "width": ["44", "43"]}

    assert outcome(tmp_path, "{flight-width: {less-than: 44 in}}", {"flights": [flight]}) == "pass"
    assert outcome(tmp_path, "{tread-count: {at-least: 4}}", {"flights": [flight]}) == "not-applicable"
    assert outcome(tmp_path, "{flight-rise: {more-than: 30 in}}", {"flights": [flight]}) == "pass"


def test_purpose_and_tenure_are_asked_of_the_survey(tmp_path: Path) -> None:
    assert outcome(tmp_path, "{purpose: [replace, new]}", {}, purpose="new") == "pass"
    assert outcome(tmp_path, "{purpose: [replace, new]}", {}) == "unmeasured"
    assert outcome(tmp_path, "{tenure: rented}", {}, tenure="owner") == "not-applicable"
