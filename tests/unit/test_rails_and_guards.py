"""Handrails, guards and sides: what is counted or worked out, what silence means, and which part is asked."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest
from cases import audit_of, finding, survey_of
from removing import new_passes

from stairaudit import InputError, load_ruleset
from stairaudit.decision import Outcome
from stairaudit.engine import check, prepared
from stairaudit.lengths import NM_PER_IN
from stairaudit.loading import load_survey
from stairaudit.measures import MEASURES
from stairaudit.samples import Sample

LEFT, RIGHT, CENTRE = ({"side": side} for side in ("left", "right", "centre"))
SOMEWHERE: dict[str, Any] = {"firm": "yes"}


def taken(name: str, flight: dict[str, Any]) -> tuple[Sample, ...]:
    return MEASURES[name].read(prepared(survey_of(flight))[0])


def only(name: str, flight: dict[str, Any]) -> Sample:
    (sample,) = taken(name, flight)
    return sample


@pytest.mark.parametrize(
    ("rails", "sides", "centre"),
    [
        ([LEFT, RIGHT], 2, False),
        ([LEFT, LEFT], 1, False),
        ([LEFT, CENTRE], 1, True),
        ([CENTRE], 0, True),
        ([LEFT, RIGHT, SOMEWHERE], 2, None),
        ([LEFT, SOMEWHERE], None, None),
        ([CENTRE, SOMEWHERE], None, True),
        ("none", 0, False),
    ],
)
def test_sides_with_a_rail_are_counted_once_and_the_centre_is_no_side(
    rails: Any, sides: int | None, centre: bool | None
) -> None:
    flight = {"handrails": rails}

    assert [value.x for value in only("handrail-sides", flight).values] == ([] if sides is None else [sides])
    assert [value.x for value in only("centre-handrail", flight).values] == ([] if centre is None else [centre])


def test_the_top_of_a_guard_that_serves_as_handrail_makes_a_side() -> None:
    flight = {"handrails": [LEFT], "guards": [{"side": "right", "top_is_handrail": "yes"}]}

    assert only("handrail-sides", flight).values[0].x == 2
    assert [sample.values[0].x for sample in taken("side-has-handrail", flight)] == [True, True]


def test_a_side_is_not_known_to_be_without_a_rail_while_one_of_them_has_no_place() -> None:
    left, right = taken("side-has-handrail", {"handrails": [LEFT, SOMEWHERE]})

    assert left.values[0].x is True
    assert (right.part, right.values, right.missing) == ("side right", (), ("handrail side",))


@pytest.mark.parametrize("name", ["handrail-sides", "centre-handrail", "side-has-handrail"])
def test_rails_that_nobody_told_of_are_missing(name: str) -> None:
    assert {sample.missing for sample in taken(name, {})} == {("handrails",)}


def test_reach_is_the_whole_width_from_one_rail_and_half_of_it_between_two() -> None:
    """Geometry: no point of a width w is farther than w from a rail at its side, nor than w/2 from one of two."""
    one = only("handrail-reach", {"width": "36 1/4", "handrails": [LEFT]})
    two = only("handrail-reach", {"width": "36 1/4", "handrails": [LEFT, RIGHT]})

    assert (one.values[0].x, two.values[0].x) == (36.25 * NM_PER_IN, 18.125 * NM_PER_IN)
    assert two.values[0].u == pytest.approx(one.values[0].u / 2)
    assert (one.computed, two.computed) == (True, True)


def test_a_reach_that_was_read_counts_before_one_worked_out() -> None:
    told = only("handrail-reach", {"width": "40", "handrails": [LEFT], "handrail_reach": "33"})

    assert (told.values[0].x, told.computed) == (33 * NM_PER_IN, False)


@pytest.mark.parametrize(
    ("flight", "missing"),
    [
        ({}, ("handrails", "width")),
        ({"width": "40"}, ("handrails",)),
        ({"width": "40", "guards": [{"side": "left", "top_is_handrail": "yes"}]}, ("handrails",)),
        ({"width": "40", "handrails": []}, ("handrails",)),
        ({"handrails": [LEFT]}, ("width",)),
        ({"width": "40", "handrails": [LEFT, SOMEWHERE]}, ("handrail side",)),
        ({"width": "40", "handrails": [LEFT, RIGHT, CENTRE]}, ("handrail reach",)),
    ],
)
def test_reach_is_not_worked_out_of_less(flight: dict[str, Any], missing: tuple[str, ...]) -> None:
    assert only("handrail-reach", flight).missing == missing


def test_without_a_rail_there_is_no_reach() -> None:
    assert only("handrail-reach", {"width": "40", "handrails": "none"}).absent


def test_reach_keeps_a_gap_of_the_width() -> None:
    places = only("handrail-reach", {"width": ["40", "unmeasured"], "handrails": [LEFT, RIGHT]}).values

    assert [value.x for value in places] == [20 * NM_PER_IN, None]


def test_the_spread_of_a_rail_is_over_its_own_heights() -> None:
    rails = [{**LEFT, "heights": ["34", "34 3/8"]}, {**RIGHT, "heights": ["36", "36"]}]
    left, right = taken("handrail-spread", {"handrails": rails})

    assert (left.part, left.values[0].x, left.n, left.whole) == ("handrail left", 0.375 * NM_PER_IN, 2, True)
    assert right.values[0].x == 0


@pytest.mark.parametrize(
    ("heights", "missing"),
    [
        (["34", None, "35"], ("handrail left heights",)),
        ("34", ("handrail left heights at two places or more",)),
        (["34", None], ("handrail left heights at two places or more",)),
        (None, ("handrail left heights",)),
    ],
)
def test_the_spread_of_a_rail_is_never_whole_after_a_gap(heights: Any, missing: tuple[str, ...]) -> None:
    rail = LEFT if heights is None else {**LEFT, "heights": heights}
    told = only("handrail-spread", {"handrails": [rail]})

    assert (told.whole, told.missing) == (False, missing)


def test_heights_taken_square_to_the_slope_spread_as_plumb_ones() -> None:
    """At 60 deg the cosine is a half, so a difference of 1/2 in taken square is 1 in plumb."""
    rail = {**LEFT, "heights": ["17", "17 1/2"], "heights_taken": "square"}

    assert only("handrail-spread", {"pitch": "60 deg", "handrails": [rail]}).values[0].x == pytest.approx(NM_PER_IN)
    assert only("handrail-spread", {"handrails": [rail]}).missing == (
        "pitch, since handrail left was taken square to the slope",
    )


def test_a_rail_runs_through_with_no_breaks() -> None:
    assert only("handrail-breaks", {"handrails": [{**LEFT, "breaks": "0"}]}).values[0].x == 0


@pytest.mark.parametrize(("key", "typed", "least"), [("breaks", "-1", 0), ("starts_at_riser", "0", 1)])
def test_a_number_below_the_least_one_is_refused(key: str, typed: str, least: int) -> None:
    with pytest.raises(InputError) as refused:
        survey_of({"handrails": [{**LEFT, key: typed}]})

    words = {0: "a whole number is needed", 1: "a whole number from 1 to 400 is needed"}
    assert f"{typed!r} stands here; {words[least]}" in str(refused.value)


def test_no_rail_on_a_landing_is_none_or_0_and_has_no_height() -> None:
    landings = {"top": {"handrails": "none"}, "bottom": {"handrails": "0"}}

    assert [sample.values[0].x for sample in taken("landing-handrail-count", {"landings": landings})] == [0, 0]
    assert only("landing-handrail-height", {"landings": landings}).absent


def test_a_guard_in_one_piece_is_asked_what_any_guard_is() -> None:
    made = {"midrail": "yes", "firm": "no", "climbable": "no", "post_notched": "no"}
    long = {"side": "right", "along": ["f", "f landing top"], **made, "rake": {"rail_spacing": "9"}}
    stair = prepared(survey_of({"landings": {"top": {}}}, {"guards": [long]}))[1]

    def told(name: str) -> dict[str, list[Any]]:
        return {sample.part: [value.x for value in sample.values] for sample in MEASURES[name].read(stair)}

    assert told("guard-midrail") == {"guard right": [True]}
    assert told("landing-guard-firm") == {"guard right level": [False]}
    assert told("guard-not-climbable") == {"guard right": [True]}
    assert told("guard-rail-spacing") == {"guard right": [9 * NM_PER_IN]}
    assert told("landing-guard-rail-spacing") == {"guard right level": []}
    assert told("guard-post-notched") == {"guard right": [False]}


def test_what_to_climb_by_that_nobody_told_of_is_missing() -> None:
    told = only("guard-not-climbable", {"guards": [{"side": "left"}]})

    assert (told.values, told.missing) == ((), ("guard left climbable",))


def test_a_wall_may_have_a_gap_beside_the_treads() -> None:
    sides = {"left": {"wall": "yes", "gap": "2"}, "right": "wall"}
    left, right = taken("side-gap", {"sides": sides})

    assert (left.values[0].x, right.missing) == (2 * NM_PER_IN, ("side right gap",))


def test_a_gap_alone_does_not_make_an_open_side() -> None:
    with pytest.raises(InputError, match="a gap does not tell what side it is on; add wall: yes, or drop: and the"):
        survey_of({"sides": {"left": {"gap": "2"}}})


def rule(name: str, measure: str, limit: str, when: str = "") -> str:
    asked = f", when: {{{when}}}" if when else ""
    return (
        f"  - {{id: {name}, clause: '1', title: T, measure: {measure}, limit: {{{limit}}}, provenance: seen{asked}}}"
    )


def ruleset_of(folder: Path, *rules: str) -> Any:
    file = folder / "mine.yaml"
    file.write_text("format: 1\nid: mine\ntitle: Mine\nrules:\n" + "\n".join(rules) + "\n", encoding="utf-8")
    return load_ruleset(str(file))


def test_a_lower_rail_is_left_out_of_the_rule_for_the_main_one_and_has_its_own(tmp_path: Path) -> None:
    rules = ruleset_of(
        tmp_path,
        rule("main", "handrail-height", "between: [34 in, 38 in]", "rail-role: main"),
        rule("lower", "handrail-height", "at-most: 28 in", "rail-role: lower"),
    )
    rails = [{**LEFT, "heights": "35"}, {**LEFT, "heights": "24", "role": "lower"}]
    audit = check(survey_of({"handrails": rails}), rules)

    def outcomes(name: str) -> list[str]:
        return [finding(audit, name, part).outcome.value for part in ("handrail left", "handrail left 2")]

    assert outcomes("main") == ["pass", "not-applicable"]
    assert outcomes("lower") == ["not-applicable", "pass"]
    assert finding(audit, "main", "handrail left").assumed == ("rail-role: main",)


def test_each_condition_is_answered_by_its_own_part(tmp_path: Path) -> None:
    rules = ruleset_of(
        tmp_path,
        rule("walls", "side-has-handrail", "equals: yes", "side-kind: wall"),
        rule("open", "side-has-handrail", "equals: yes", "side-kind: open"),
        rule("two", "handrail-count", "at-least: 2", "open-sides: {at-least: 2}"),
        rule("rough", "handrail-clearance", "at-least: 2 in", "wall-rough: yes"),
        rule("big", "handrail-bracket-gap", "at-least: 1 in", "grip-perimeter: {more-than: 4 in}"),
        rule("wires", "guard-opening", "at-most: 4 in", "guard-infill: wires"),
    )
    flight = {
        "sides": {"left": "wall", "right": {"drop": "40"}},
        "handrails": [
            {**LEFT, "clearance": "2", "wall_rough": "yes", "bracket_gap": "1", "grip": {"perimeter": "5"}}
        ],
        "guards": [{**RIGHT, "infill": "mesh", "openings": "5"}],
    }
    found = {(f.rule.id, f.part): f.outcome.value for f in check(survey_of(flight), rules).findings}

    assert found == {
        ("walls", "side left"): "pass",
        ("walls", "side right"): "not-applicable",
        ("open", "side left"): "not-applicable",
        ("open", "side right"): "warn",
        ("two", "flight"): "not-applicable",
        ("rough", "handrail left"): "pass",
        ("big", "handrail left"): "pass",
        ("wires", "guard right"): "not-applicable",
    }


def test_one_side_told_of_two_settles_only_what_it_can(tmp_path: Path) -> None:
    rules = ruleset_of(
        tmp_path,
        rule("some", "handrail-count", "at-least: 1", "open-sides: {at-least: 1}"),
        rule("both", "handrail-count", "at-least: 1", "open-sides: {at-least: 2}"),
    )
    audit = check(survey_of({"sides": {"left": {"drop": "30"}}, "handrails": [LEFT]}), rules)

    assert finding(audit, "some", "flight").outcome.value == "pass"
    assert finding(audit, "both", "flight").missing == ("open sides",)


def test_a_close_spread_of_one_rail_asks_for_that_rail_again(tmp_path: Path) -> None:
    rules = ruleset_of(tmp_path, rule("even", "handrail-spread", "at-most: 1/4 in"))
    told = finding(
        check(survey_of({"handrails": [{**LEFT, "heights": ["34", "34 1/4"]}]}), rules), "even", "handrail left"
    )

    assert (told.outcome.value, told.close, told.again) == ("pass", True, ("handrail left",))


RAIL: dict[str, Any] = {
    "heights": ["34", "34 1/2"],
    "breaks": 0,
    "starts_at_riser": 2,
    "extension_top": "12",
    "extension_bottom": "0",
    "extensions_straight": "yes",
    "return_gap": ["1/8", "1/4"],
    "ends_safe": "no",
    "post_overhang": "3",
    "wall_recess": {"depth": "2", "above": "18"},
    "bracket_gap": ["1 1/2", "1"],
    "underside_blocked": "20 %",
    "unobstructed": "yes",
    "graspable": "no",
    "firm": "yes",
    "smooth": "yes",
    "grip": {"perimeter": "5", "depth": "1 1/2"},
    "wall_rough": "no",
}
GUARD: dict[str, Any] = {
    "infill": "rails",
    "infill_present": "yes",
    "midrail": "yes",
    "firm": "no",
    "climbable": "no",
    "rail_spacing": ["8", "9"],
    "above_seat": "36",
    "post_notched": "no",
}
TOLD: dict[str, Any] = {
    "width": ["44", "44"],
    "sides": {"left": {"wall": "yes", "gap": "1"}, "right": {"drop": "40", "gap": ["1", "2"]}},
    "handrails": [{**LEFT, **RAIL}, {**RIGHT, **RAIL, "wall_recess": "none"}, {**LEFT, "role": "lower", **RAIL}],
    "handrail_reach": "22",
    "lost_handrail": "no",
    "triangle_open": "no",
    "guards": [{**RIGHT, **GUARD}],
    "landings": {
        "top": {"handrails": 2, "handrail_heights": ["36", "37"], "guards": [{"side": "end", **GUARD}]},
        "bottom": {"handrails": "none", "guards": "none"},
    },
}
# A figure that everything above lies on one side of, for each kind of measure.
FIGURES = {"length": "30 in", "spread": "1/8 in", "slope": "30 %", "count": "1"}
OF_GUARDS = ("midrail", "infill-present", "firm", "not-climbable", "rail-spacing")
NEW = [
    *(
        name
        for name in MEASURES
        if name.startswith("handrail-") and name not in ("handrail-count", "handrail-height")
    ),
    *("grip-depth", "side-has-handrail", "centre-handrail", "lost-handrail", "side-gap", "triangle-open"),
    *("landing-handrail-height", "landing-handrail-count"),
    *(f"{where}-{what}" for where in ("guard", "landing-guard") for what in OF_GUARDS),
    *("guard-post-notched", "landing-guard-height-above-seat"),
]
WHEN = {"handrail": "wall-rough: no", "side": "side-kind: open", "guard": "guard-infill: rails"}


def rules_of(name: str) -> list[str]:
    """Return rules both ways round, with and without a condition, so that one of each pair is outside."""
    measure = MEASURES[name]
    if measure.kind == "yes-no":
        limits = ["equals: yes", "equals: no"]
    else:
        figure = FIGURES[measure.kind]
        limits = [f"at-most: {figure}", f"at-least: {figure}"]
    asked = ["", WHEN.get(measure.over, "open-sides: {at-least: 1}")]
    return [
        rule(f"{name}-{i}-{j}", name, limit, when) for i, limit in enumerate(limits) for j, when in enumerate(asked)
    ]


def passes(data: dict[str, Any], rules: Any) -> set[tuple[str, str]]:
    return {(f.rule.id, f.part) for f in check(load_survey(data), rules).findings if f.outcome is Outcome.PASS}


def test_less_told_of_rails_guards_and_sides_is_never_a_new_pass(tmp_path: Path) -> None:
    rules = ruleset_of(tmp_path, *(line for name in NEW for line in rules_of(name)))
    data = {"format": 1, "units": "in", "stairs": [{"id": "s", "flights": [{"id": "f", **copy.deepcopy(TOLD)}]}]}
    before = passes(data, rules)
    tried = 0
    for new, less in new_passes(data, lambda told: passes(told, rules)):
        tried += 1
        assert new == set(), (new, less)
    assert tried > 100
    assert len(before) > len(NEW)


def test_a_shipped_set_judges_a_lower_rail_by_the_height_of_a_rail() -> None:
    """The clause knows no second rail: International Residential Code 2021, R311.7.8.1."""
    rails = [{**LEFT, "heights": "35"}, {**LEFT, "heights": "24", "role": "lower"}]
    stair = {"setting": "indoor", "use": "one-dwelling"}
    audit = audit_of(survey_of({"risers": ["7"] * 5, "handrails": rails}, stair))

    assert finding(audit, "handrail-height", "handrail left 2").outcome.value == "warn"
