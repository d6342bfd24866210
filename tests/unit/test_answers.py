"""What a survey answers about landings and the doors on them."""

from __future__ import annotations

from typing import Any

import pytest
from cases import survey_of

from stairaudit.conditions import CONDITIONS
from stairaudit.engine import prepared
from stairaudit.errors import InputError
from stairaudit.measures import MEASURES


def asked(name: str, landing: dict[str, Any], measure: str = "landing-depth") -> set[Any]:
    context = prepared(survey_of({"landings": {"top": landing, "bottom": "none"}}))[0]
    samples = MEASURES[measure].read(context)
    return {CONDITIONS[name].read(context, sample.element).value for sample in samples}


@pytest.mark.parametrize(
    ("door", "over"),
    [
        ({"opens": "over-stair"}, True),
        ({"opens": "away"}, False),
        ({"opens": "slides"}, False),
        ({"opens": "over-landing"}, False),
        ({"opens": "away", "swings_over_stair": "no"}, False),
        ({"swings_over_stair": "yes"}, True),
        ({"kind": "gate"}, None),
        ("none", False),
    ],
)
def test_how_the_leaf_moves_says_whether_it_swings_over_the_steps(door: Any, over: bool | None) -> None:
    assert asked("door-swings-over-stair", {"depth": "40", "door": door}) == {over}


def test_a_leaf_does_not_move_in_two_ways() -> None:
    with pytest.raises(InputError) as refused:
        asked("door-opens", {"door": {"opens": "over-stair", "swings_over_stair": "no"}})

    assert refused.value.problems[0].found == (
        "the door opens over-stair, and swings_over_stair says otherwise; give one of them"
    )


def test_no_door_is_of_no_kind_and_does_not_open() -> None:
    for name in ("door-kind", "door-opens"):
        assert asked(name, {"depth": "40", "door": "none"}) == {"none"}
        assert asked(name, {"depth": "40"}) == {None}


@pytest.mark.parametrize(
    ("name", "told", "answer"),
    [
        ("landing-turn", {"turn": "180 deg"}, 180),
        ("landing-kind", {"kind": "balcony"}, "balcony"),
        ("landing-ground", {"ground": "no"}, False),
        ("sloping-ground", {"sloping_ground": "yes"}, True),
    ],
)
def test_a_landing_answers_what_was_told_of_it_and_nothing_else(name: str, told: dict[str, str], answer: Any) -> None:
    assert asked(name, {"depth": "40", **told}) == {answer}
    assert asked(name, {"depth": "40"}) == {None}


def test_guards_and_sides_of_a_landing_answer_for_it() -> None:
    landing = {"kind": "deck", "sides": {"left": {"drop": "40"}, "right": "wall"}, "guards": [{"side": "left"}]}

    for measure in ("landing-guard-height", "landing-side-guarded"):
        assert asked("landing-kind", landing, measure) == {"deck"}
        assert asked("landing-place", landing, measure) == {"top"}


@pytest.mark.parametrize(
    ("coverings", "kind"),
    [({"treads": "none"}, "none"), ({"treads": {"kind": "sheet"}}, "sheet"), ({"top": "none"}, None), (None, None)],
)
def test_the_covering_of_the_treads_is_told_or_not_known(coverings: Any, kind: str | None) -> None:
    flight, stair = prepared(survey_of({"coverings": coverings}))

    for context in (flight, stair):
        assert CONDITIONS["covering-kind"].read(context, None).value == kind
