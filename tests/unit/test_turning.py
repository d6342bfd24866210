"""Tapered treads one after another, and risers without a turn."""

from __future__ import annotations

from typing import Any

import pytest
from cases import survey_of

from stairaudit.engine import prepared
from stairaudit.measures import MEASURES
from stairaudit.samples import Sample

WINDER = {"walkline": "10"}


def run_of(flight: dict[str, Any]) -> Sample:
    (sample,) = MEASURES["winders-in-turn"].read(prepared(survey_of(flight))[0])
    return sample


@pytest.mark.parametrize(
    ("treads", "longest"),
    [
        ([WINDER, WINDER, WINDER, "10"], 3),
        (["10", WINDER, "10", WINDER, WINDER], 2),
        (["10", "10", WINDER], 1),
    ],
)
def test_the_longest_run_of_tapered_treads_counts(treads: list[Any], longest: int) -> None:
    sample = run_of({"form": "mixed", "riser_count": len(treads) + 1, "treads": treads})

    assert (sample.values[0].x, sample.whole) == (longest, True)


def test_a_tread_that_may_be_tapered_is_not_counted_and_lets_nothing_pass() -> None:
    sample = run_of({"form": "mixed", "riser_count": 6, "treads": [WINDER, WINDER, None, WINDER, "10"]})

    assert (sample.values[0].x, sample.whole, sample.missing) == (2, False, ("tread 3",))


def test_without_the_number_of_risers_more_may_follow() -> None:
    sample = run_of({"form": "mixed", "treads": ["10", WINDER, WINDER]})

    assert (sample.values[0].x, sample.missing) == (2, ("risers",))


def test_every_tread_of_a_winder_flight_is_tapered_told_or_not() -> None:
    sample = run_of({"form": "winder", "riser_count": 5, "treads": [WINDER, None]})

    assert (sample.values[0].x, sample.whole) == (4, True)


@pytest.mark.parametrize("form", [None, "straight", "ship-ladder", "alternating-tread", "loft", "loft-ladder"])
def test_a_flight_of_plain_treads_has_none(form: str | None) -> None:
    assert run_of({"form": form, "riser_count": 3, "treads": ["10", "10"]}).absent


def test_a_mixed_flight_of_which_no_tapered_tread_is_told_is_unmeasured() -> None:
    sample = run_of({"form": "mixed", "riser_count": 3, "treads": ["10", "10"]})

    assert (sample.values, sample.missing) == ((), ("treads",))


def test_risers_in_a_row_are_told_and_never_taken_from_the_flights() -> None:
    _, stair = prepared(survey_of({"riser_count": 12}))

    assert MEASURES["risers-in-row"].read(stair)[0].missing == ("risers in row",)
