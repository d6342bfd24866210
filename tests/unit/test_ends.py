"""The first and the last riser against those between, and their slope across the flight."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from cases import survey_of

from stairaudit.engine import prepared
from stairaudit.lengths import NM_PER_IN
from stairaudit.measures import MEASURES
from stairaudit.samples import Sample

HALF_TAPE = 1_587_500 / 2


def taken(name: str, flight: dict[str, Any]) -> dict[str, Sample]:
    return {sample.part: sample for sample in MEASURES[name].read(prepared(survey_of(flight))[0])}


def inches(sample: Sample) -> Fraction:
    return Fraction(sample.values[0].x) / NM_PER_IN


def test_each_end_is_set_against_the_riser_between_that_differs_most() -> None:
    found = taken("end-riser-difference", {"risers": ["7", "7 1/4", "7 1/2", "8"]})

    assert {part: inches(sample) for part, sample in found.items()} == {
        "riser 1": Fraction(1, 2),
        "riser 4": Fraction(3, 4),
    }


@pytest.mark.parametrize("risers", [["7"], ["7", "7 1/2"]])
def test_without_a_riser_between_there_is_nothing_to_compare(risers: list[str]) -> None:
    assert taken("end-riser-difference", {"risers": risers})["risers"].absent


def test_a_riser_between_that_was_not_read_holds_both_ends_back() -> None:
    found = taken("end-riser-difference", {"risers": ["7", None, "7 1/2", "7 1/2"]})

    assert [(sample.part, sample.whole, sample.missing) for sample in found.values()] == [
        ("riser 1", False, ("riser 2",)),
        ("riser 4", False, ("riser 2",)),
    ]
    assert inches(found["riser 1"]) == Fraction(1, 2)


def test_an_end_that_was_not_read_is_unmeasured_and_the_other_is_not_held_back() -> None:
    found = taken("end-riser-difference", {"risers": ["7", "7 1/2", None]})

    assert (found["riser 3"].values, found["riser 3"].missing) == ((), ("riser 3",))
    assert found["riser 1"].whole


def test_places_across_are_compared_side_by_side() -> None:
    found = taken("end-riser-difference", {"risers": [["7", "8"], ["7 1/8", "7 7/8"], "7"]})

    assert inches(found["riser 1"]) == Fraction(1, 8)
    assert inches(found["riser 3"]) == Fraction(7, 8)


def test_neighbours_between_levels_share_one_level_and_others_do_not() -> None:
    """Neighbours stand on three levels with weights 1, -2, 1: root of 6; others on four: root of 4 (GUM 5.1.2)."""
    near = taken("end-riser-difference", {"levels": ["0", "7", "15", "22"]})["riser 1"]
    far = taken("end-riser-difference", {"levels": ["0", "7", "14", "22", "29"]})["riser 1"]

    assert near.values[0].u == pytest.approx(HALF_TAPE * 6**0.5)
    assert far.values[0].u == pytest.approx(HALF_TAPE * 4**0.5)


def test_an_end_over_carpet_of_an_unknown_thickness_may_warn_and_never_passes() -> None:
    found = taken("end-riser-difference", {"risers": ["7", "7", "7"], "measured_over": "carpet"})

    assert [(sample.whole, sample.missing) for sample in found.values()] == [(False, ("coverings",))] * 2


def test_a_sampled_flight_has_no_ends() -> None:
    flight = {"riser_count": 9, "sampled": "yes", "tallest": "8", "shortest": "7"}

    assert taken("end-riser-difference", flight)["risers"].missing == ("risers",)
    assert taken("inner-riser-spread", flight)["flight"].values == ()


def test_the_spread_between_leaves_out_both_ends_and_keeps_their_numbers() -> None:
    sample = taken("inner-riser-spread", {"risers": ["4", "7", "7 1/4", "7 1/8", "9"]})["flight"]

    assert inches(sample) == Fraction(1, 4)
    assert [part for part, _ in sample.element] == ["riser 2", "riser 3", "riser 4"]
    assert sample.n == 3


def test_a_gap_at_an_end_does_not_hold_back_the_spread_between() -> None:
    assert taken("inner-riser-spread", {"risers": [None, "7", "7 1/4", None]})["flight"].whole
    assert not taken("inner-riser-spread", {"risers": ["7", "7", None, "7 1/4", "7"]})["flight"].whole


@pytest.mark.parametrize("risers", [["7"], ["7", "7"], ["7", "7", "7"]])
def test_fewer_than_two_between_have_no_spread(risers: list[str]) -> None:
    assert taken("inner-riser-spread", {"risers": risers})["flight"].absent


def test_carpet_alike_on_all_treads_does_not_hold_back_the_spread_between() -> None:
    flight = {"risers": ["7", "7", "7 1/4", "7"], "measured_over": "carpet"}

    assert taken("inner-riser-spread", flight)["flight"].whole
    assert not taken("inner-riser-spread", {**flight, "measured_over": "mixed"})["flight"].whole


def test_an_end_riser_slopes_by_its_two_sides_over_the_least_width() -> None:
    """7 in left and 4 in right over 36 in: 3/36, that is 1:12."""
    found = taken("riser-slope-across", {"width": ["40", "36"], "risers": [["7", "6", "4"], "7", ["7", "7"]]})

    assert [(part, sample.values[0].x) for part, sample in found.items()] == [
        ("riser 1", Fraction(1, 12)),
        ("riser 3", 0),
    ]


def test_its_measuring_error_is_that_of_a_quotient() -> None:
    """GUM 5.1.2 with 3 in over 36 in: both readings and 1/12 of the width's error, over 36 in."""
    sample = taken("riser-slope-across", {"width": "36", "risers": [["7", "4"], "7"]})["riser 1"]

    u = 1 / 32
    assert sample.values[0].u == pytest.approx((2 * u**2 + (u / 12) ** 2) ** 0.5 / 36)


@pytest.mark.parametrize(
    ("flight", "missing"),
    [
        ({"width": "36", "risers": ["7"]}, ("riser 1 left and right",)),
        ({"width": "36", "risers": [["7", None]]}, ("riser 1 left and right",)),
        ({"width": ["36", None], "risers": [["7", "6"]]}, ("width",)),
        ({"risers": ["7"]}, ("riser 1 left and right", "width")),
    ],
)
def test_a_slope_across_needs_both_sides_and_the_whole_width(
    flight: dict[str, Any], missing: tuple[str, ...]
) -> None:
    found = taken("riser-slope-across", flight)

    assert list(found) == ["riser 1"]
    assert found["riser 1"].missing == missing
