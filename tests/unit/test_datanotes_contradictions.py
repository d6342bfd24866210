"""Things told of one flight that cannot all be so, units of a whole file, and figures on which a clause hangs."""

from __future__ import annotations

from typing import Any

import pytest
from noting import told

from stairaudit import check, load_ruleset, load_survey
from stairaudit.words.data_notes import note_words

AT = "Flight 'f' of stair 's'"


def told_in(unit: str, risers: list[str]) -> list[str]:
    data = {"format": 1, "units": unit, "stairs": [{"id": "s", "flights": [{"id": "f", "risers": risers}]}]}
    return [note_words(note, "mm") for note in check(load_survey(data), load_ruleset("us-irc-2021")).notes]


def test_risers_in_the_unit_of_another_file_are_told() -> None:
    assert told_in("cm", ["7.5", "7.6", "7.5"]) == [
        f"{AT}: the risers are about 75 mm, which is no riser; '7.5' as 7.5 in would be one. Look at the unit of "
        "this file."
    ]
    assert "'18' as 18 cm would be one" in told_in("mm", ["18", "18"])[0]
    assert told_in("mm", ["190", "190"]) == []
    assert told_in("in", ["4", "4"]) == []


def test_more_width_at_the_rail_than_above_it_is_told() -> None:
    assert told({"width": "36", "width_at_rail": "40"}) == [
        f"{AT}: it was read as 40 in wide at the rail and 36 in above it, but a rail takes width away. Look which is "
        "which, and measure both again."
    ]
    assert told({"width": "36", "width_at_rail": "36 1/16"}) == []


def test_guards_that_cannot_be_are_told() -> None:
    walls = {"sides": {"left": "wall", "right": "wall"}, "guards": [{"side": "left"}]}
    assert told(walls) == [
        f"{AT}, guard left: it stands on a side that is told as a wall. Left and right are as seen going up: look "
        "again which side it stands on."
    ]
    long = {"guards": [{"side": "right", "along": ["f"], "drop": "50"}]}
    assert told({"guards": "none"}, long) == [
        f"{AT}: guards are told as none, and a guard of the stair runs along it. Look again which holds."
    ]


@pytest.mark.parametrize(
    ("drop", "notes"), [("29 31/32", 1), ("30", 1), ("30 1/32", 1), ("30 1/16", 0), ("29 15/16", 0)]
)
def test_a_drop_on_which_the_duty_of_a_guard_hangs_is_told_when_it_is_close(drop: str, notes: int) -> None:
    """Close is within 1.645 of 1/32 in, 0.0514 in, of the 30 in of IRC 2021 R312.1.1."""
    words = told({"sides": {"left": "wall", "right": {"drop": drop}}})

    assert len(words) == notes
    if words:
        assert words[0].startswith(f"{AT}, side right: whether clauses apply hangs on the drop of ")


def test_the_slope_of_a_shared_landing_is_that_of_the_flight_at_which_it_is_told() -> None:
    lower = {"id": "f", "landings": {"top": {"slope": {"across": "3 deg"}}}}
    upper = {
        "id": "g", "risers": ["7", "7"], "width": "36", "landings": {"bottom": {"same_as": "f landing top"}},
    }  # fmt: skip
    data = {"format": 1, "units": "in", "stairs": [{"id": "s", "flights": [lower, upper]}]}

    assert check(load_survey(data), load_ruleset("us-irc-2021")).notes == ()


def test_a_walkline_reading_that_the_ends_contradict_is_told() -> None:
    """Ends of 6 and 24 in over 36 in make 6 + 18 x 12/36 = 12 in at 12 in out, by similar triangles."""
    flight = {"form": "winder", "walkline_out": "12", "width": "36", "risers": ["7", "7"]}

    def winder(walkline: str) -> dict[str, Any]:
        return {**flight, "treads": [{"narrow": "6", "walkline": walkline, "wide": "24"}]}

    assert told(winder("10")) == [
        f"{AT}, tread 1: its depth at the walkline was read as 10 in, but its ends and the width make 12 in there. "
        "Measure all three again, level and from nosing to nosing."
    ]
    assert told(winder("12 1/16")) == []
