"""Readings that do not agree with each other are told, apart from any clause.

Sums and angles are worked by hand from the readings in each test; measuring errors from GUM (JCGM 100:2008) 5.1.2 and
5.2.2, from memory.
"""

from __future__ import annotations

import math
import random
from pathlib import Path
from typing import Any

import pytest
from cases import audit_of, survey_of
from noting import kinds, notes_of, sixteenths, told

from stairaudit import load_survey
from stairaudit.datanotes import notes_on
from stairaudit.engine import prepared

AT = "Flight 'f' of stair 's'"
LOOK_AGAIN = "Left and right are as seen going up: look again which side it stands on."
RAIL_AGAIN = "Read its angle again, and its height plumb above the nosings at the bottom and at the top."


# The total rise


def test_risers_that_do_not_add_up_to_the_total_rise_are_told() -> None:
    assert told({"risers": ["7"] * 5, "total_rise": "60"}) == [
        "Flight 'f' of stair 's': the risers add up to 35 in, but the total rise was read as 60 in; the tape does "
        "not explain it. Look for a riser left out or misread, and measure both again."
    ]


def test_a_tape_may_miss_by_its_own_error_at_every_riser() -> None:
    """Fourteen risers of 7 1/2 with a hook 0.016 in out miss by 0.22 in (worked by hand from GUM 5.2.2)."""
    assert told({"risers": ["7 1/2"] * 14, "total_rise": "105 5/16"}) == []
    assert told({"risers": ["7 1/2"] * 14, "total_rise": "106"}) != []


def test_a_flight_with_a_gap_or_two_places_is_not_added_up() -> None:
    assert told({"risers": ["7", None], "total_rise": "60"}) == []
    assert told({"risers": ["7", ["7", "8"]], "total_rise": "60"}) == []


def test_the_risers_added_up_are_those_read_over_the_carpet() -> None:
    """Five of 7 in over carpet make 35 in over carpet; a floor 1 in lower under no carpet plays no part."""
    carpet = {"kind": "carpet", "thickness": "1"}
    flight = {"risers": ["7"] * 5, "measured_over": "carpet"}
    covered = {**flight, "coverings": {"treads": carpet, "bottom": "none", "top": carpet}}

    assert kinds({**covered, "total_rise": "35"}) == ["covering-at-ends"]
    assert kinds({**covered, "total_rise": "34"}) == ["covering-at-ends", "risers-against-total-rise"]


def test_a_total_rise_from_the_edge_of_a_falling_ground_is_told_with_the_size() -> None:
    """1/4 in per ft is 1:48, over four treads of 10 in 40/48 = 0.83 in."""
    flight = {
        "riser_count": 5,
        "treads": ["10"] * 4,
        "total_rise": {"value": "36", "at": "edge"},
        "landings": {"bottom": {"slope": {"along": "1/4 in per ft"}}},
    }

    assert told(flight) == [
        f"{AT}: the total rise was read at the edge of the upper floor, and the landing at the foot is out of level "
        "along the flight; over 40 in of run that makes about 13/16 in. Measure the total rise again, plumb at the "
        "last step."
    ]
    assert kinds({**flight, "total_rise": {"value": "36", "at": "last-step"}}) == []
    assert kinds({**flight, "landings": {"bottom": {"slope": {"along": "0.05 deg"}}}}) == []


def test_the_fall_of_the_ground_explains_a_sum_that_is_off_by_it_and_no_other() -> None:
    flight = {
        "treads": ["10"] * 4,
        "total_rise": {"value": "36", "at": "edge"},
        "landings": {"bottom": {"slope": {"along": "1/4 in per ft"}}},
    }

    assert kinds({**flight, "risers": ["7 3/8"] * 5}) == ["total-rise-at-edge"]
    assert kinds({**flight, "risers": ["7 3/16"] * 5}) == []
    assert kinds({**flight, "risers": ["8"] * 5}) == ["risers-against-total-rise", "total-rise-at-edge"]


# Counts


def test_fewer_risers_than_were_told_are_told() -> None:
    assert told({"riser_count": 14, "risers": ["7"] * 6}) == [
        f"{AT}: 14 risers are told, but 6 are given; those left out are taken to lie at the top. Count them "
        "again, and write ~ for one that was not measured."
    ]
    assert told({"riser_count": 6, "risers": ["7"] * 6}) == []
    assert told({"riser_count": 6, "risers": ["7"] * 5 + [None]}) == []


def test_levels_that_make_another_number_of_risers_are_told() -> None:
    assert told({"riser_count": 6, "levels": ["0", "7", "14"]}) == [
        f"{AT}: 6 risers are told, but the levels given make 2. Count the risers again."
    ]


def test_treads_that_do_not_go_with_the_risers_told_are_told() -> None:
    assert told({"riser_count": 6, "treads": ["10"] * 4}) == [
        f"{AT}: 6 risers are told, which go with 5 treads, but 4 are given; those left out are taken to lie at the "
        "top. Count both again, and write ~ for a tread that was not measured."
    ]
    assert told({"riser_count": 6, "treads": ["10"] * 5}) == []
    assert "go with 6 treads" in told({"riser_count": 6, "top_tread": "level-with-landing", "treads": ["10"] * 5})[0]
    assert told({"riser_count": 6}) == []


# The slope


def test_a_measured_pitch_that_the_steps_do_not_make_is_told() -> None:
    """atan(7 1/4 / 10) = 35.94 deg."""
    steps = {"risers": ["7 1/4"] * 6, "treads": ["10"] * 5}

    assert told({**steps, "pitch": "39 deg"}) == [
        f"{AT}: the nosing line was read as 39 deg, but the risers and treads make it 35.94 deg; level and tape do "
        "not explain it. Lay the level on the nosings again at several places, and measure the treads again from "
        "nosing to nosing, without the overhang."
    ]
    assert kinds({**steps, "pitch": "36.1 deg"}) == []


def test_two_errors_of_level_and_tape_are_allowed_and_no_more() -> None:
    """u = hypot(0.1, 180/pi x (1/32) / hypot(7 1/4, 10)) = 0.1768 deg, twice that 0.354 deg about 35.942 deg."""
    steps = {"risers": ["7 1/4"] * 6, "treads": ["10"] * 5}

    assert kinds({**steps, "pitch": "36.29 deg"}) == []
    assert kinds({**steps, "pitch": "36.30 deg"}) == ["pitch-against-readings"]


def test_the_first_riser_has_no_part_in_the_nosing_line() -> None:
    steps = {"risers": ["10", *["7 1/4"] * 5], "treads": ["10"] * 5}

    assert kinds({**steps, "pitch": "35.9 deg"}) == []


def test_a_pitch_is_set_against_plain_treads_only() -> None:
    wide = {"narrow": "6", "walkline": "10"}
    mixed = {"form": "mixed", "risers": ["7 1/4"] * 5, "treads": [wide, "10", "10", "10"]}

    assert kinds({**mixed, "pitch": "35.9 deg"}) == []
    assert kinds({**mixed, "pitch": "30 deg"}) == ["pitch-against-readings"]
    assert kinds({"form": "spiral", "risers": ["9"] * 4, "treads": [wide] * 3, "pitch": "30 deg"}) == []
    assert kinds({"form": "ship-ladder", "risers": ["9"] * 4, "treads": ["6"] * 3, "pitch": "68 deg"}) == []


def test_a_rail_out_of_line_with_the_nosings_is_told_with_its_gain() -> None:
    """46 in x (tan 35 deg - tan 31.56 deg) = 3.95 in; atan(7 1/16 / 11 1/2) = 31.56 deg."""
    assert 46 * (math.tan(math.radians(35)) - math.tan(math.radians(31.56))) == pytest.approx(3.954, abs=0.001)
    steps = {"risers": ["7 1/16"] * 5, "treads": ["11 1/2"] * 4}
    rail = {"side": "left", "angle": "35 deg"}

    assert told({**steps, "handrails": [rail]}) == [
        f"{AT}, handrail left: the rail was read as 35 deg, but the nosing line rises at 31.56 deg: over 46 in of "
        f"run the rail would gain about 3 15/16 in on it. {RAIL_AGAIN}"
    ]
    low = {**rail, "angle": "28 deg"}
    assert "over 46 in of run the rail would lose about 3 13/16 in to it." in told({**steps, "handrails": [low]})[0]
    assert kinds({**steps, "handrails": [{**rail, "angle": "31.6 deg"}]}) == []


def test_without_steps_the_measured_pitch_stands_in_and_no_gain_is_named() -> None:
    rail = {"side": "left", "angle": "35 deg"}

    assert told({"pitch": "31.56 deg", "handrails": [rail]}) == [
        f"{AT}, handrail left: the rail was read as 35 deg, but the nosing line rises at 31.56 deg. {RAIL_AGAIN}"
    ]
    assert told({"handrails": [rail]}) == []


def test_a_rail_whose_heights_change_by_that_gain_contradicts_nothing() -> None:
    steps = {"risers": ["7 1/16"] * 5, "treads": ["11 1/2"] * 4}
    rail = {"side": "left", "angle": "35 deg"}

    assert kinds({**steps, "handrails": [{**rail, "heights": ["34", "36", "37 15/16"]}]}) == []
    assert kinds({**steps, "handrails": [{**rail, "heights": ["34", "34", "34"]}]}) == ["rail-angle-against-nosings"]


def test_a_rail_in_line_with_the_measured_pitch_is_not_told_beside_a_pitch_that_is_in_doubt() -> None:
    steps = {"risers": ["7 1/16"] * 5, "treads": ["11 1/2"] * 4, "pitch": "35 deg"}

    assert kinds({**steps, "handrails": [{"side": "left", "angle": "35 deg"}]}) == ["pitch-against-readings"]


# Sides


def test_a_guard_on_the_wall_while_the_open_side_has_none_is_told() -> None:
    flight = {"sides": {"left": "wall", "right": {"drop": "40"}}, "guards": [{"side": "left", "heights": "36"}]}

    assert told(flight) == [
        f"{AT}, guard left: a guard is told on a side that is a wall, while the other side is open and has none. "
        f"{LOOK_AGAIN}"
    ]
    assert kinds({**flight, "guards": [{"side": "left"}, {"side": "right"}]}) == ["guard-at-wall"]
    assert kinds({**flight, "sides": {"left": "wall"}}) == ["guard-at-wall"]
    assert kinds({**flight, "guards": [{"side": "right"}]}) == []
    top = {"landings": {"top": flight}}
    assert "landing top guard left" in told(top)[0]


def test_a_guard_in_one_piece_counts_for_the_sides_that_it_runs_along() -> None:
    flight = {"sides": {"left": "wall", "right": {"drop": "40"}}}
    long = {"along": ["f"], "side": "left"}

    assert len(told(flight, {"guards": [long]})) == 1
    assert told(flight, {"guards": [long, {**long, "side": "right"}]}) == []


def test_a_rail_beside_a_wall_on_the_open_side_is_told() -> None:
    flight = {
        "sides": {"left": "wall", "right": {"drop": "40"}},
        "handrails": [{"side": "right", "beside_wall": "yes"}],
    }

    assert told(flight) == [
        f"{AT}, handrail right: the rail is told to be beside a wall, but that side is open and the other one is a "
        f"wall. {LOOK_AGAIN}"
    ]
    assert kinds({**flight, "handrails": [{"side": "left", "beside_wall": "yes"}]}) == []
    assert kinds({**flight, "sides": {"right": {"drop": "40"}}}) == []


# Coverings


def test_readings_on_two_surfaces_are_told() -> None:
    assert told({"measured_over": "mixed"}) == [
        f"{AT}: some readings were taken over carpet and some not, so that they do not go together. Measure all of "
        "them again on one surface, best on the bare one."
    ]


def test_coverings_that_differ_are_told_with_what_they_add_to_the_end_risers() -> None:
    """Bare riser 1 = read - tread carpet + floor carpet = -1/2; bare top riser = read - 3/4 + 1/2 = -1/4."""
    thick, thin = ({"kind": "carpet", "thickness": size} for size in ("3/4", "1/2"))
    flight = {"measured_over": "carpet", "risers": ["7"] * 5}
    unlike = {"treads": thin, "bottom": "none", "top": thick}

    assert told({**flight, "coverings": unlike}) == [
        f"{AT}: the coverings of treads and floors differ; without them the bottom riser is 1/2 in less than read, "
        "the top riser 1/4 in less than read, and those between as read. Measure both ends again on the bare surface."
    ]
    assert told({**flight, "risers": ["7"], "coverings": unlike}) == [
        f"{AT}: the coverings of the floors differ; without them the riser is 3/4 in less than read. Measure it "
        "again bare."
    ]
    assert told({**flight, "coverings": {"treads": thin, "bottom": thin, "top": thin}}) == []


def test_coverings_that_are_not_told_in_full_leave_the_end_risers_open() -> None:
    flight = {"measured_over": "carpet", "risers": ["7"] * 5}
    words = [
        f"{AT}: the readings were taken over carpet, and what lies on the treads and on both floors is not told in "
        "full. Equal carpet cancels between two treads; what differs lands in the bottom and the top riser. Measure "
        "both again on the bare surface, or tell each covering with its thickness."
    ]

    assert told(flight) == words
    assert told({**flight, "coverings": {"treads": {"kind": "carpet"}, "bottom": "none", "top": "none"}}) == words
    assert told({**flight, "measured_over": "bare"}) == []


# The foot


def test_a_landing_out_of_level_across_the_flight_is_told_where_the_first_riser_was_read_once() -> None:
    """1/4 in per ft over 18 in is 3/8 in."""
    landing = {"bottom": {"slope": {"across": "1/4 in per ft"}}}
    flight = {"risers": ["7 1/4"], "width": "18", "landings": landing}

    assert told(flight) == [
        f"{AT}, riser 1: it was read at one place, and the landing at the foot is out of level across the flight; "
        "over 18 in of width that makes about 3/8 in from left to right. Read it at both sides."
    ]
    assert kinds({**flight, "risers": [["7 1/4", "7 5/8"]]}) == []
    assert kinds({**flight, "landings": {"bottom": {"slope": {"across": "0.1 deg"}}}}) == []
    assert kinds({**flight, "risers": [None, "7"]}) == []


# The ball


def test_a_ball_against_the_tape_is_told() -> None:
    guard = {"side": "right", "openings": [{"gap": "5", "ball": "4", "passes": "no"}]}

    assert told({"guards": [guard]}) == [
        "Flight 'f' of stair 's', guard right: what the ball shows and what the tape shows cannot both be right. The "
        "ball was believed; try it and measure again."
    ]
    near = {**guard, "openings": [{"gap": "4 1/16", "ball": "4", "passes": "no"}]}
    assert told({"guards": [near]}) == []
    assert "landing top guard right" in told({"landings": {"top": {"guards": [guard]}}})[0]


def test_a_ball_in_a_guard_over_several_flights_is_told_for_the_stair() -> None:
    opening = {"gap": "5", "ball": "4", "passes": "no"}
    long = {"side": "right", "along": ["f"], "level": {"openings": opening}}

    assert told({}, {"guards": [long]}) == [
        "Stair 's', guard right level: what the ball shows and what the tape shows cannot both be right. The ball "
        "was believed; try it and measure again."
    ]


# No noise


def test_notes_are_told_for_checked_stairs_only_and_a_form_is_none() -> None:
    assert told({"form": "spiral"}) == []
    assert audit_of(survey_of({"measured_over": "mixed"}, {"use": "workplace"})).notes == ()


def test_the_demo_survey_has_no_note() -> None:
    demo = Path(__file__).parents[2] / "stairaudit" / "demo" / "porch.yaml"

    assert notes_on(prepared(load_survey(demo))) == ()


GOOD = {
    "cellar": {
        "risers": ["8 3/16", "8 1/4", "8 1/4", "8 3/16", "8 5/16", "8 1/4", "8 1/4", "8 1/8"],
        "treads": ["9", "9", "9 1/16", "8 15/16", "9", "9", "9 1/16"],
        "total_rise": {"value": "65 3/4", "at": "edge"},
        "pitch": "42.4 deg",
        "width": "34",
        "handrails": [{"side": "left", "heights": ["33", "33 1/4"], "angle": "42.5 deg", "beside_wall": "yes"}],
        "sides": {"left": "wall", "right": "wall"},
        "landings": {"bottom": {"slope": "level"}},
    },
    "walk settled at the foot": {
        "risers": ["10", "7 1/4", "7 1/4", "7 1/4", "7 1/4", "7 1/4"],
        "treads": ["10"] * 5,
        "total_rise": "46 1/4",
        "pitch": "35.9 deg",
    },
    "built without dropping the stringer": {
        "risers": ["8 1/4", "7 1/4", "7 1/4", "7 1/4", "7 1/4", "6 1/4"],
        "treads": ["10"] * 5,
    },
    "two steps to a door": {
        "risers": [["7", "7 1/4"], "8"],
        "treads": ["12"],
        "width": "36",
        "sides": {"left": {"drop": "15"}, "right": {"drop": "15"}},
        "landings": {"bottom": {"slope": {"along": "1/4 in per ft", "across": "1/4 in per ft"}}},
    },
    "half turn with winders": {
        "form": "mixed",
        "risers": ["7 1/2"] * 6,
        "treads": ["10", {"narrow": "6", "walkline": "10 1/4"}, {"narrow": "6", "walkline": "10 1/4"}, "10", "10"],
        "pitch": "37 deg",
    },
    "terrace with a deep step": {"risers": ["6", "6", "6", "6", "6"], "treads": ["13", "38", "13", "13"]},
}


@pytest.mark.parametrize("name", GOOD)
def test_a_plausible_survey_has_no_note(name: str) -> None:
    assert notes_of(GOOD[name]) == ()


def _noisy(size: float, draw: random.Random, u: float = 1 / 32) -> str:
    return sixteenths(round(16 * draw.gauss(size, u)))


def _even_flight(draw: random.Random) -> dict[str, Any]:
    """Return an even flight as read with u = 1/32 in and 0.1 deg, its long readings with twice that."""
    count, riser, tread = draw.randint(3, 16), draw.uniform(5, 8), draw.uniform(9, 13)
    pitch = math.degrees(math.atan2(riser, tread))
    return {
        "risers": [_noisy(riser, draw) for _ in range(count)],
        "treads": [_noisy(tread, draw) for _ in range(count - 1)],
        "riser_count": count,
        "total_rise": {"value": _noisy(count * riser, draw, 1 / 16), "at": "edge"},
        "pitch": f"{draw.gauss(pitch, 0.1):.1f} deg",
        "handrails": [{"side": "left", "angle": f"{draw.gauss(pitch, 0.1):.1f} deg", "heights": ["35", "35"]}],
        "width": _noisy(38, draw),
        "landings": {"bottom": {"slope": {"along": "0.1 deg", "across": "0.1 deg"}}},
        "measured_over": "bare",
    }


def test_even_flights_read_with_the_error_of_the_tape_are_hardly_ever_noted() -> None:
    """What is added up or averaged is compared at two standard errors or more: at most one in forty is expected."""
    draw = random.Random(20260418)
    noted = sum(bool(notes_of(_even_flight(draw))) for _ in range(400))

    assert noted <= 10


def test_a_first_riser_that_differs_across_shows_that_the_edge_is_no_place_for_the_total_rise() -> None:
    flight = {"risers": [["7", "7 1/2"], "7", "7"], "total_rise": {"value": "21", "at": "edge"}}

    assert told(flight) == [
        "Flight 'f' of stair 's': the total rise was read at the edge of the upper floor, and the first riser shows "
        "that the ground is not level. Measure the total rise again, plumb at the last step."
    ]
    assert told({**flight, "total_rise": {"value": "21", "at": "last-step"}}) == []
    assert told({**flight, "risers": [["7", "7 1/16"], "7", "7"]}) == []
