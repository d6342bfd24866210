"""Tapered treads, coverings, guards of several flights, shared landings: what is measured of them."""

from __future__ import annotations

from typing import Any

import pytest
from cases import audit_of, finding, survey_of

from stairaudit import Finding
from stairaudit.catalog import load_ruleset
from stairaudit.engine import check, prepared
from stairaudit.errors import SurveyError
from stairaudit.lengths import NM_PER_IN
from stairaudit.loading import load_survey

STAIR = {"setting": "indoor", "use": "one-dwelling"}


def found(flight: dict[str, Any], rule: str, part: str, stair: dict[str, Any] | None = None) -> Finding:
    return finding(audit_of(survey_of(flight, {**STAIR, **(stair or {})})), rule, part)


def two_flights(*flights: dict[str, Any], **stair: Any) -> dict[tuple[str | None, str, str], Finding]:
    data = {"format": 1, "units": "in", "stairs": [{"id": "s", **STAIR, **stair, "flights": list(flights)}]}
    audit = check(load_survey(data), load_ruleset("us-irc-2021"))
    return {(f.flight, f.part, f.rule.id): f for f in audit.findings}


DEPTH = ("winder-walkline-depth-min", "tread 1")
WINDER: dict[str, Any] = {"form": "winder", "risers": ["7"] * 3, "walkline_out": "12", "width": "36"}


def test_a_reading_on_the_line_of_the_rule_is_taken_as_it_is() -> None:
    told = found({**WINDER, "treads": [{"narrow": "6", "walkline": "9 7/8", "wide": "24"}]}, *DEPTH)

    assert (told.outcome.value, told.value, told.computed) == ("warn", 9.875 * NM_PER_IN, False)


def test_a_line_elsewhere_is_carried_over_between_its_neighbours() -> None:
    """Between 9 at 10 in out and 24 at 36 in: 9 + 15 x 2/26 = 10 2/13, by similar triangles."""
    told = found({**WINDER, "walkline_out": "10", "treads": [{"narrow": "1", "walkline": "9", "wide": "24"}]}, *DEPTH)

    assert told.value * 13 == 132 * NM_PER_IN
    assert told.computed
    assert told.outcome.value == "pass"


@pytest.mark.parametrize(
    ("tread", "missing"),
    [
        ({"narrow": "6"}, "tread 1 at the walkline"),
        ({"wide": "24"}, "tread 1 at the walkline"),
        ("11", "tread 1 at the walkline"),
        ({}, "tread 1 at the walkline"),
    ],
)
def test_what_was_not_read_at_the_line_is_not_taken_from_elsewhere(tread: Any, missing: str) -> None:
    told = found({**WINDER, "treads": [tread, None]}, *DEPTH)

    assert (told.outcome.value, told.missing) == ("unmeasured", (missing,))


def test_a_walkline_reading_needs_to_say_how_far_out_it_was_taken() -> None:
    flight = {"form": "winder", "risers": ["7"] * 3, "treads": [{"walkline": "11"}]}

    assert found(flight, *DEPTH).missing == ("walkline out",)


def test_the_measuring_error_of_a_depth_worked_out_holds_that_of_the_width() -> None:
    """Halfway: half of each end's error and 18 in over 36 in of slope times half the width's, by GUM 5.1.2."""
    told = found({**WINDER, "width": "24", "treads": [{"narrow": "0", "wide": "24"}]}, *DEPTH)

    assert told.u == pytest.approx((2 * (0.5 / 32) ** 2 + (0.5 / 32) ** 2) ** 0.5 * NM_PER_IN)


def test_winders_and_straight_treads_are_kept_apart() -> None:
    treads = ["10", "10 1/4", {"walkline": "13"}, {"walkline": "13 1/8"}]
    flight = {**WINDER, "form": "mixed", "risers": ["7"] * 5, "treads": treads}

    assert found(flight, "tread-spread-max", "flight").value == NM_PER_IN // 4
    assert found(flight, "winder-walkline-spread-max", "flight").value == NM_PER_IN // 8


CARPET: dict[str, Any] = {"risers": ["8", "7 1/2", "7"], "measured_over": "carpet"}


def test_carpet_of_a_known_thickness_lands_in_the_end_risers() -> None:
    coverings = {"treads": {"kind": "carpet", "thickness": "1/2"}, "bottom": {"kind": "tile"}, "top": "none"}
    flight = {**CARPET, "coverings": coverings}

    for part, basis in (("riser 1", "bare, worked out"), ("riser 2", "over carpet"), ("riser 3", "bare, worked out")):
        told = found(flight, "riser-height-max", part)
        assert (told.value, told.basis) == (7.5 * NM_PER_IN, basis)
    assert found(flight, "riser-spread-max", "flight").value == 0
    assert found(flight, "measured-bare", "flight").outcome.value == "warn"


@pytest.mark.parametrize("coverings", [None, {"treads": {"kind": "carpet"}}, {"treads": {"thickness": "1/2"}}])
def test_carpet_of_an_unknown_thickness_lets_no_end_riser_pass(coverings: Any) -> None:
    flight = {**CARPET, "risers": ["7"] * 3, "coverings": coverings}

    assert [found(flight, "riser-height-max", f"riser {i}").outcome.value for i in (1, 2, 3)] == [
        "unmeasured",
        "pass",
        "unmeasured",
    ]
    assert found(flight, "riser-spread-max", "flight").missing == ("coverings",)
    assert found({**flight, "risers": ["8"] * 3}, "riser-height-max", "riser 1").outcome.value == "warn"


def test_readings_over_carpet_and_bare_mixed_let_no_riser_pass() -> None:
    flight = {"risers": ["7"] * 3, "measured_over": "mixed"}

    assert found(flight, "riser-height-max", "riser 2").missing == ("which risers were read over carpet",)


def test_a_single_riser_has_a_floor_at_both_ends() -> None:
    coverings = {"bottom": {"kind": "rug", "thickness": "1/4"}, "top": {"kind": "carpet", "thickness": "3/4"}}
    flight = {"risers": ["7"], "measured_over": "carpet", "coverings": coverings}

    assert found(flight, "riser-height-max", "riser 1").value == 6.5 * NM_PER_IN


LOWER: dict[str, Any] = {
    "id": "lower",
    "width": "36",
    "sides": {"left": "wall", "right": {"drop": "40"}},
    "landings": {"top": {"depth": "35", "width": "36", "headroom": "79", "sides": {"right": {"drop": "45"}}}},
}
SHARED = {"same_as": "lower landing top", "depth": "35", "width": "36"}
UPPER: dict[str, Any] = {"id": "upper", "width": "38", "landings": {"bottom": SHARED}}
LONG = {
    "side": "right",
    "along": ["lower", "lower landing top"],
    "rake": {"heights": "33"},
    "level": {"heights": "36"},
}


def test_a_shared_landing_is_judged_where_it_is_told_but_for_the_width_of_each_flight() -> None:
    findings = two_flights(LOWER, UPPER)

    assert findings["lower", "landing top", "landing-width-min"].outcome.value == "pass"
    assert findings["upper", "landing bottom", "landing-width-min"].outcome.value == "warn"
    assert findings["upper", "landing bottom", "landing-depth-min"].outcome.value == "warn"
    assert findings["lower", "landing top", "headroom-landing"].outcome.value == "warn"
    assert ("upper", "landing bottom", "headroom-landing") not in findings


def test_how_deep_a_shared_landing_is_from_the_other_flight_is_read_there() -> None:
    findings = two_flights(LOWER, {**UPPER, "landings": {"bottom": {"same_as": "lower landing top"}}})

    assert findings["upper", "landing bottom", "landing-bottom-present"].outcome.value == "pass"
    assert findings["upper", "landing bottom", "landing-depth-min"].outcome.value == "unmeasured"


def test_a_guard_along_flight_and_landing_is_found_once_for_the_stair() -> None:
    findings = two_flights(LOWER, UPPER, guards=[LONG])

    assert findings[None, "guard right", "guard-height-stair"].outcome.value == "warn"
    assert findings[None, "guard right level", "guard-height-level"].outcome.value == "pass"
    assert findings[None, "guard right", "guard-opening-stair"].missing == ("guard right openings",)
    assert findings["lower", "side right", "guard-required-flight"].outcome.value == "pass"
    assert findings["lower", "landing top side right", "guard-required-landing"].outcome.value == "pass"
    assert ("lower", "guards", "guard-height-stair") in findings


def test_the_drop_beside_a_long_guard_is_that_of_the_sides_it_stands_on() -> None:
    low = {**LOWER, "sides": {"left": "wall", "right": {"drop": "20"}}, "landings": {"top": {}}}

    findings = two_flights(low, guards=[LONG])
    assert findings[None, "guard right", "guard-height-stair"].outcome.value == "not-applicable"
    assert findings[None, "guard right level", "guard-height-level"].missing == ("drop",)


def test_the_top_of_a_guard_that_serves_as_handrail_counts_as_one() -> None:
    guards = [{"side": "right", "heights": "33", "top_is_handrail": "yes"}]
    flight = {"risers": ["7"] * 5, "handrails": "none", "guards": guards}

    assert found(flight, "handrail-required", "flight").outcome.value == "pass"
    assert found(flight, "handrail-height", "handrail right").outcome.value == "warn"
    assert found(flight, "handrail-continuous", "handrail right").outcome.value == "unmeasured"


def test_a_rail_listed_on_that_side_is_not_counted_twice() -> None:
    guards = [{"side": "right", "heights": "33", "top_is_handrail": "yes"}]
    flight = {"risers": ["7"] * 5, "handrails": [{"side": "right"}], "guards": guards}

    assert found(flight, "handrail-required", "flight").value == 1


def test_a_height_taken_square_needs_the_pitch() -> None:
    rail = {"side": "left", "heights": "30", "heights_taken": "square"}
    flight = {"risers": ["7"] * 5, "handrails": [rail]}

    told = found(flight, "handrail-height", "handrail left")
    assert told.missing == ("pitch, since handrail left was taken square to the slope",)
    assert found({**flight, "pitch": "60 deg"}, "handrail-height", "handrail left").value == pytest.approx(
        60 * NM_PER_IN
    )


def test_the_nosings_of_all_flights_are_compared() -> None:
    one = {"id": "lower", "risers": ["7", "7"], "nosings": ["1", "1"]}
    findings = two_flights(one, {"id": "upper", "risers": ["7"], "nosings": ["1 7/16"]})

    told = findings[None, "stair", "nosing-spread-max"]
    assert (told.outcome.value, told.value, told.readings) == ("warn", 7 * NM_PER_IN // 16, 3)
    untold = two_flights(one, {"id": "upper", "risers": ["7"]})[None, "stair", "nosing-spread-max"]
    assert (untold.outcome.value, untold.missing) == ("unmeasured", ("upper nosings",))


def test_the_contexts_of_flights_are_those_of_their_stair() -> None:
    flight, stair = prepared(survey_of({"risers": ["7"]}))

    assert stair.of_flights == (flight,)


@pytest.mark.parametrize("height", ["26", "44"])
def test_a_pitch_that_the_steps_contradict_makes_no_height_plumb(height: str) -> None:
    """Steps of 7 over 10 climb at 35 deg; 53 by the level cannot be right, and 26 in would pass by it."""
    flight = {
        "risers": ["7"] * 4,
        "treads": ["10"] * 3,
        "pitch": "53 deg",
        "guards": [{"side": "right", "heights": height, "heights_taken": "square"}],
        "sides": {"left": "wall", "right": {"drop": "40"}},
    }

    assert found(flight, "guard-height-stair", "guard right").outcome.value == "unmeasured"
    near = {**flight, "pitch": "35.1 deg"}
    assert found(near, "guard-height-stair", "guard right").outcome.value in ("pass", "warn")


@pytest.mark.parametrize(
    ("flight", "words"),
    [
        ({"treads": [{"narrow": "20", "wide": "5"}]}, "grows from narrow over walkline to wide"),
        ({"treads": [{"narrow": "6", "walkline": "60", "wide": "18"}]}, "grows from narrow over walkline to wide"),
        ({"walkline_out": "48", "treads": [{"walkline": "10"}]}, "walkline_out lies outside the flight"),
        ({"form": "spiral", "pole_diameter": "4", "treads": [{"walkline": "30"}]}, "deeper at the walkline than"),
        ({"pitch": "90 deg"}, "more than 80 deg"),
        ({"coverings": {"treads": {"kind": "carpet", "thickness": "9"}}}, "more than 4 in"),
    ],
)
def test_what_cannot_be_is_refused(flight: dict[str, Any], words: str) -> None:
    with pytest.raises(SurveyError, match=words):
        survey_of({**WINDER, **flight})


def test_a_carpet_thicker_than_its_riser_lets_nothing_pass() -> None:
    coverings = {"treads": {"kind": "carpet", "thickness": "4"}, "bottom": "none", "top": "none"}
    flight = {"risers": ["3 1/2", "3 1/2"], "measured_over": "carpet", "coverings": coverings}

    assert found(flight, "riser-height-max", "riser 1").outcome.value == "unmeasured"


def test_readings_of_spiral_treads_outweigh_the_answer_that_they_are_alike() -> None:
    flight = {"form": "spiral", "treads_alike": "yes", "treads": [{"walkline": "7"}, {"walkline": "9"}]}

    assert found(flight, "spiral-treads-alike", "flight").outcome.value == "warn"
    alike = {**flight, "treads": [{"walkline": "7"}, {"walkline": "7 1/16"}]}
    assert found(alike, "spiral-treads-alike", "flight").outcome.value == "pass"
    untold = {key: value for key, value in alike.items() if key != "treads_alike"}
    assert found(untold, "spiral-treads-alike", "flight").outcome.value == "unmeasured"


def test_the_level_part_of_a_long_guard_goes_by_the_drop_of_landings_alone() -> None:
    lower = {**LOWER, "sides": {"left": "wall", "right": {"drop": "60"}}}
    low_landing = {**lower, "landings": {"top": {"sides": {"right": {"drop": "28"}}}}}
    findings = two_flights(low_landing, guards=[{**LONG, "level": {"heights": "30"}}])

    assert findings[None, "guard right level", "guard-height-level"].outcome.value == "not-applicable"
    assert findings[None, "guard right", "guard-height-stair"].outcome.value == "warn"
