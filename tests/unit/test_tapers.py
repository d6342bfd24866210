"""Tapered treads at half their width and counted in from the wide edge."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from cases import survey_of

from stairaudit.engine import prepared
from stairaudit.lengths import NM_PER_IN
from stairaudit.measures import MEASURES
from stairaudit.samples import Sample

U_SHORT = 1 / 32


def taken(name: str, flight: dict[str, Any], at: int | None = None) -> list[Sample]:
    measure = MEASURES[name] if at is None else MEASURES[name].taken_at(at * NM_PER_IN)
    return list(measure.read(prepared(survey_of({"form": "winder", **flight}))[0]))


def depth(sample: Sample) -> Fraction:
    return Fraction(sample.values[0].x) / NM_PER_IN


def test_halfway_between_both_edges_is_the_mean_of_their_depths() -> None:
    (sample,) = taken("walkline-middle-depth", {"width": "37", "treads": [{"narrow": "3", "wide": "20"}]})

    assert depth(sample) == Fraction(23, 2)
    assert sample.computed


def test_the_mean_of_both_edges_holds_no_error_of_the_width() -> None:
    """(3 + 20) / 2 does not depend on the width: u = root of 2 times half of 1/32 in, by GUM 5.1.2."""
    (sample,) = taken("walkline-middle-depth", {"width": "37", "treads": [{"narrow": "3", "wide": "20"}]})

    assert sample.values[0].u / NM_PER_IN == pytest.approx(2**0.5 * U_SHORT / 2)


def test_halfway_lies_between_the_walkline_and_the_nearer_edge() -> None:
    """From 10 at 12 in out to 20 at 36 in: at 18 in out 10 + 10 x 6/24 = 12 1/2."""
    treads = [{"narrow": "1", "walkline": "10", "wide": "20"}]
    (sample,) = taken("walkline-middle-depth", {"width": "36", "walkline_out": "12", "treads": treads})

    assert depth(sample) == Fraction(25, 2)
    slope, share = 10 / 24, 6 / 24
    parts = (share * U_SHORT, (1 - share) * U_SHORT, slope * (1 - share) * U_SHORT, slope * (0.5 - share) * U_SHORT)
    assert sample.values[0].u / NM_PER_IN == pytest.approx(sum(part**2 for part in parts) ** 0.5)


def test_a_reading_at_half_the_width_is_taken_as_it_is() -> None:
    treads = [{"narrow": "1", "walkline": "11", "wide": "20"}]
    (sample,) = taken("walkline-middle-depth", {"width": "36", "walkline_out": "18", "treads": treads})

    assert (depth(sample), sample.computed) == (11, False)


def test_the_width_of_the_tread_goes_before_that_of_the_flight_of_which_the_least_counts() -> None:
    tread = {"walkline": "10", "wide": "20", "width": "48"}
    own = taken("walkline-middle-depth", {"width": "36", "walkline_out": "12", "treads": [tread]})
    least = taken(
        "walkline-middle-depth", {"width": ["44", "36"], "walkline_out": "12", "treads": [{**tread, "width": None}]}
    )

    assert depth(own[0]) == 10 + Fraction(10, 36) * 12
    assert depth(least[0]) == Fraction(25, 2)


@pytest.mark.parametrize("name", ["walkline-middle-depth", "walkline-outer-depth"])
@pytest.mark.parametrize(
    ("flight", "missing"),
    [
        ({"treads": [{"narrow": "3", "wide": "20"}]}, "width"),
        ({"width": ["36", None], "treads": [{"narrow": "3", "wide": "20"}]}, "width"),
        ({"width": "36", "treads": [{"narrow": "3"}]}, "tread 1 at the walkline"),
        ({"width": "36", "treads": [{"walkline": "10", "narrow": "3"}]}, "walkline out"),
        ({"width": "36", "treads": ["10"]}, "tread 1 at the walkline"),
    ],
)
def test_what_is_not_known_on_both_sides_is_unmeasured(name: str, flight: dict[str, Any], missing: str) -> None:
    (sample,) = taken(name, flight, 12 if MEASURES[name].placed else None)

    assert (sample.values, sample.missing) == ((), (missing,))


def test_outer_depths_are_counted_from_the_wide_edge() -> None:
    """At 9 in from the wide edge of 36 in, 27 in out: 3 + 16 x 27/36 = 15."""
    flight = {"width": "36", "treads": [{"narrow": "3", "wide": "19"}]}

    assert depth(taken("walkline-outer-depth", flight, 9)[0]) == 15
    assert depth(taken("walkline-outer-depth", flight, 0)[0]) == 19
    assert depth(taken("walkline-depth", flight, 27)[0]) == 15


def test_an_error_of_the_width_moves_a_place_counted_from_the_wide_edge_less_than_one_from_the_narrow() -> None:
    """The slope of 16/36 times (1 - 27/36) of the width's error, against 27/36 of it (GUM 5.1.2)."""
    flight = {"width": "36", "treads": [{"narrow": "3", "wide": "19"}]}
    read = (0.25**2 + 0.75**2) * U_SHORT**2

    for name, at, share in (("walkline-outer-depth", 9, 0.25), ("walkline-depth", 27, 0.75)):
        (sample,) = taken(name, flight, at)
        expected = (read + (16 / 36 * share * U_SHORT) ** 2) ** 0.5
        assert sample.values[0].u / NM_PER_IN == pytest.approx(expected)


def test_a_place_beyond_the_narrow_edge_is_not_on_the_tread() -> None:
    flight = {"width": "36", "treads": [{"narrow": "3", "wide": "19"}]}

    assert taken("walkline-outer-depth", flight, 37)[0].values == ()


def test_the_spread_at_half_the_width_warns_and_never_passes_after_a_gap() -> None:
    treads = [{"narrow": "3", "wide": "20"}, {"narrow": "3", "wide": "21"}, {"narrow": "3"}]
    (sample,) = taken("walkline-middle-spread", {"width": "36", "treads": treads})

    assert depth(sample) == Fraction(1, 2)
    assert (sample.whole, sample.missing) == (False, ("tread 3 at the walkline",))


def test_a_straight_flight_has_nothing_at_half_the_width() -> None:
    (sample,) = taken("walkline-middle-depth", {"form": "straight", "treads": ["10"]})

    assert sample.absent
