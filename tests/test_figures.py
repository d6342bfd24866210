"""The shipped rule sets against a table of figures typed from the published documents, compared both ways."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from stairaudit import Ruleset, load_ruleset
from stairaudit.angles import parse_angle, parse_slope
from stairaudit.conditions import CONDITIONS
from stairaudit.lengths import parse_length
from stairaudit.quantities import read
from stairaudit.ruleset import Rule
from stairaudit.shipped import shipped_ids

HERE = Path(__file__).parent
ROWS = list(csv.DictReader((HERE / "figures.csv").read_text(encoding="utf-8").splitlines()))
LEFT_OUT = list(csv.DictReader((HERE / "figures_left_out.csv").read_text(encoding="utf-8").splitlines()))
Figure = tuple[str, str, Any]


def value_of(figure: str, unit: str) -> Any:
    """Return a figure of the table as the exact value that a rule holds."""
    readers: dict[str, Any] = {
        "in": lambda: parse_length(figure, "in"),
        "mm": lambda: parse_length(figure, "mm"),
        "deg": lambda: parse_angle(f"{figure} deg"),
        "slope": lambda: parse_slope(figure),
        "count": lambda: int(figure),
        "footcandle": lambda: read("light", f"{figure} footcandle"),
        "sq in": lambda: read("area", f"{figure} sq in"),
        "sq ft": lambda: read("area", f"{figure} sq ft"),
        "percent": lambda: parse_slope(f"{figure} %"),
        "date": lambda: read("day", figure),
        "years": lambda: int(figure),
    }
    if unit in readers and " x " not in figure:
        return readers[unit]()
    return {"yes": True, "no": False}.get(figure, figure)


def sides(clause: str, relation: str, low: Any, high: Any = None) -> Iterator[Figure]:
    """Yield a figure; a band as its two ends, since a set may hold them in one rule or in two."""
    for one in clause.split(" / "):
        plain = one.split(" item")[0]
        if relation == "between":
            yield plain, "at-least", low
            yield plain, "at-most", high
        else:
            yield plain, relation, low


def left_out(name: str) -> set[tuple[str, str, Any]]:
    """Return the ends of figures that a set leaves out with a reason; a row without a figure is a whole entry."""
    rows = [row for row in LEFT_OUT if row["set"] == name]
    return {
        (row["entry"], row["relation"], value_of(row["figure"], row["unit"]) if row["figure"] else "") for row in rows
    }


def typed(name: str, roles: set[str]) -> set[Figure]:
    without = left_out(name)
    found: set[Figure] = set()
    for row in ROWS:
        if row["set"] != name or row["role"] not in roles or (row["entry"], "", "") in without:
            continue
        values = [value_of(end, row["unit"]) for end in row["figure"].split("..")]
        for clause, relation, value in sides(row["clause"], row["relation"], *values):
            if (row["entry"], relation, value) not in without:
                found.add((clause, relation, value))
    return found


def held(rule: Rule) -> Iterator[Figure]:
    limit = rule.limit
    yield from sides(rule.clause, limit.relation, limit.measure or limit.low, limit.high)


def triggers(ruleset: Ruleset) -> set[tuple[str, Any]]:
    groups = [group for rule in ruleset.rules for group in (rule.when, *rule.unless)]
    return {(e.relation, e.figure) for group in groups for e in group if e.relation}


@pytest.mark.parametrize("name", shipped_ids())
def test_no_rule_without_a_figure_in_the_table(name: str) -> None:
    rules = {figure for rule in load_ruleset(name).rules for figure in held(rule)}

    assert rules - typed(name, {"limit", "duty", "yes-no"}) == set()


@pytest.mark.parametrize("name", shipped_ids())
def test_no_figure_in_the_table_without_a_rule_or_a_reason(name: str) -> None:
    rules = {figure for rule in load_ruleset(name).rules for figure in held(rule)}

    assert typed(name, {"limit", "duty", "yes-no"}) - rules == set()


@pytest.mark.parametrize("name", shipped_ids())
def test_every_trigger_of_the_table_is_asked_with_its_own_operator(name: str) -> None:
    figures = {
        (relation, value) for _, relation, value in typed(name, {"trigger"}) if not isinstance(value, (bool, str))
    }

    assert figures - triggers(load_ruleset(name)) == set()


@pytest.mark.parametrize("name", shipped_ids())
def test_every_trigger_of_the_rules_stands_in_the_table(name: str) -> None:
    figures = {(relation, value) for _, relation, value in typed(name, {"trigger"})}

    assert triggers(load_ruleset(name)) - figures == set()


@pytest.mark.parametrize("name", shipped_ids())
def test_the_places_at_which_measures_are_taken_stand_in_the_table(name: str) -> None:
    places = {rule.measure.at for rule in load_ruleset(name).rules if rule.measure.at is not None}

    assert places == {value for _, _, value in typed(name, {"place"})}


@pytest.mark.parametrize("name", shipped_ids())
def test_provenance_is_carried_over_unchanged(name: str) -> None:
    known: dict[tuple[str, Any], set[str]] = {}
    for row in ROWS:
        if row["set"] == name:
            values = [value_of(end, row["unit"]) for end in row["figure"].split("..")]
            for clause, _, value in sides(row["clause"], row["relation"], *values):
                known.setdefault((clause, value), set()).add(row["provenance"])

    for rule in load_ruleset(name).rules:
        assert all(rule.provenance in known[clause, value] for clause, _, value in held(rule)), rule.id


def test_every_figure_left_out_has_a_reason_and_stands_in_the_table() -> None:
    entries = {(row["set"], row["entry"]) for row in ROWS}

    assert all(row["reason"] and (row["set"], row["entry"]) in entries for row in LEFT_OUT)


def test_conditions_with_figures_are_known() -> None:
    kinds = {"word", "yes-no", "count", "length", "angle", "day"}

    assert {condition.kind for condition in CONDITIONS.values()} <= kinds


def test_a_slope_of_a_quarter_inch_in_a_foot_is_one_in_forty_eight() -> None:
    assert value_of("1:48", "slope") == Fraction(1, 48) == parse_slope("1/4 in per ft")
