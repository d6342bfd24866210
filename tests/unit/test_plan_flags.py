"""The flags of a drawing: each belongs to the reading that is shown, or what is flagged is told in words."""

from __future__ import annotations

from typing import Any

import pytest
from cases import audit_of, survey_of

from stairaudit import Survey, load_survey
from stairaudit.output.drawing import draw
from stairaudit.output.plan import draw_plan
from stairaudit.output.plan_caption import plan_caption_of, plan_sizes
from stairaudit.output.svg import TINTS
from stairaudit.words.pictures import Picture, picture_of
from stairaudit.words.plans import Plan
from stairaudit.words.step_flags import stretch_of


def pictures(survey: Survey) -> list[Picture]:
    stair = survey.stairs[0]
    found = [picture_of(audit_of(survey), stair, flight, "in") for flight in stair.flights]
    return [drawn for drawn in found if drawn is not None]


def picture(flight: dict[str, Any]) -> Picture:
    return pictures(survey_of(flight))[0]


GOOD = {"narrow": "7", "walkline": "10 1/2", "wide": "19"}
WINDERS = {
    "form": "winder", "risers": ["7 1/2"] * 4, "walkline_out": "12", "width": "37",
    "treads": [GOOD, {**GOOD, "narrow": "2 1/2", "walkline": "10"}, GOOD],
}  # fmt: skip
# Twelve inches out is 12/36 of the way from 7 in to 13 in: 9 in, worked out and not read.
WORKED_OUT = {**WINDERS, "width": "36", "treads": [GOOD, {"narrow": "7", "wide": "13"}, GOOD]}
LADDER = {
    "form": "alternating-tread", "risers": ["9"] * 4, "treads": ["5 1/2"] * 3, "width": "20",
    "projected_treads": ["9", "8", "9"],
}  # fmt: skip


# At least 10 in at the walkline and 6 in anywhere: IRC 2021, R311.7.5.2.1 (from memory).
# At least 8 1/2 in as projected: IRC 2021, R311.7.11.1 (from memory).
@pytest.mark.parametrize(
    ("flight", "label", "told"),
    [(WINDERS, "~ T2 10 in", "! T2: least depth 2 1/2 in"),
     (WORKED_OUT, "T2 7 to 13 in", "! T2: walkline depth 9 in"),
     (LADDER, "T2 5 1/2 in", "! T2: projected tread depth 8 in")],
)  # fmt: skip
def test_a_size_that_is_shown_is_not_flagged_for_another_one(flight: dict[str, Any], label: str, told: str) -> None:
    drawn = picture(flight)
    plan = draw_plan(drawn.plan, "a")

    assert f">{label}</text>" in draw(drawn, "a")
    assert f">{told}</text>" in plan
    assert f'fill="{TINTS["outside"]}"' in plan


def test_a_number_without_a_size_bears_the_flag_of_anything_on_the_tread() -> None:
    assert ">! 2</text>" in draw_plan(picture(LADDER).plan, "a")


def test_a_table_has_the_sign_at_the_reading_that_lies_outside() -> None:
    assert plan_sizes(picture(WINDERS).plan)[2] == ("2", "! 2 1/2 in", "~ 10 in", "19 in", "as the flight")


def test_a_riser_is_not_flagged_for_what_lies_open_in_it() -> None:
    # At most a 4 in ball through an open riser: IRC 2021, R311.7.5.1 (from memory).
    gaps = [{"gap": "5", "above": "40"}] * 3
    flight = {"risers": ["7"] * 3, "treads": ["11"] * 2, "riser_form": "open", "riser_openings": gaps}
    drawn = picture(flight)

    assert ">R3 7 in</text>" in draw(drawn, "a")
    assert ">! R1 to R3: riser opening 5 in</text>" in draw_plan(drawn.plan, "a")


def test_alike_readings_are_told_together_by_their_stretches() -> None:
    narrow = {**GOOD, "narrow": "3"}
    deeper = {**GOOD, "narrow": "4"}
    treads = [narrow, deeper, narrow, GOOD, narrow]
    plan = draw_plan(picture({**WINDERS, "risers": ["7 1/2"] * 6, "treads": treads}).plan, "a")

    assert ">! T1 to T3, T5: least depth 3 to 4 in</text>" in plan
    assert stretch_of("R", [4, 5]) == "R4 to R5"


def two_flights(along: list[str]) -> tuple[Plan, Plan]:
    sides = {"left": "wall", "right": {"drop": "45"}, "end": {"drop": "45"}}
    landing = {"depth": "36", "width": "40", "sides": sides, "guards": [{"side": "end", "heights": ["36"]}]}
    steps = {"risers": ["7"] * 3, "treads": ["11"] * 2, "width": "37"}
    same = {"same_as": "lower landing top", "depth": "40", "width": "36"}
    stair = {
        "id": "s",
        "flights": [
            {"id": "lower", **steps, "landings": {"top": landing}},
            {"id": "upper", **steps, "landings": {"bottom": same}},
        ],
        "guards": [{"side": "right", "along": along, "level": {"heights": ["40"]}}],
    }
    lower, upper = pictures(load_survey({"format": 1, "units": "in", "stairs": [stair]}))
    return lower.plan, upper.plan


def test_a_long_guard_stands_beside_a_landing_that_both_flights_share() -> None:
    lower, upper = two_flights(["lower", "lower landing top", "upper"])

    assert [run.name for run in lower.top.runs] == ["guard end", "guard right"]
    assert [(run.name, run.side) for run in upper.bottom.runs] == [("guard right", "right")]
    assert ">guard right</text>" in draw_plan(upper, "a")
    assert two_flights(["lower", "upper"])[1].bottom.runs == ()


def test_the_sides_of_a_landing_told_at_another_flight_are_left_to_that_one() -> None:
    lower, upper = two_flights(["lower", "upper"])
    words = "The sides of a landing that is told at another flight are dashed too: see that flight."

    assert [edge.kind for edge in lower.top.edges] == ["wall", "open", "open"]
    assert [edge.kind for edge in upper.bottom.edges] == ["", "", ""]
    assert (upper.bottom.depth.label, upper.bottom.width.label) == ("40 in", "36 in")
    assert "drop 45" not in draw_plan(upper, "a")
    assert words in plan_caption_of(upper)
    assert words not in plan_caption_of(lower)
