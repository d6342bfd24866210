"""Holes, steps, damage and strips; what is not there, what was not looked at; and that less is never a new pass."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from cases import survey_of
from removing import new_passes

from stairaudit import Ruleset, check, load_ruleset, load_survey
from stairaudit.decision import Outcome
from stairaudit.engine import prepared
from stairaudit.lengths import NM_PER_IN
from stairaudit.measures import MEASURES
from stairaudit.samples import Samples


def taken(name: str, flight: dict[str, Any]) -> Samples:
    return MEASURES[name].read(prepared(survey_of(flight))[0])


NONE_OF = {
    "tread-hole": "tread_holes",
    "tread-step": "tread_steps",
    "nosing-damage-depth": "nosing_damage",
    "nosing-damage-width": "nosing_damage",
    "nosing-strip-tread": "strips",
    "nosing-strip-riser": "strips",
}


@pytest.mark.parametrize("name", NONE_OF)
def test_none_is_a_length_of_nothing_and_silence_is_not(name: str) -> None:
    (none,), (silent,) = taken(name, {NONE_OF[name]: "none"}), taken(name, {})

    assert (none.values[0].x, none.whole) == (0, True)
    assert (silent.values, silent.whole, silent.absent) == ((), False, False)


@pytest.mark.parametrize("name", ["tread-hole", "tread-step"])
def test_a_flight_of_one_riser_has_no_tread_to_look_at(name: str) -> None:
    for told in ({}, {NONE_OF[name]: "none"}, {NONE_OF[name]: "1/4"}):
        assert [sample.absent for sample in taken(name, {"riser_count": 1, **told})] == [True]


def test_one_hole_stands_for_the_flight_and_a_list_for_the_treads() -> None:
    alone, listed = taken("tread-hole", {"tread_holes": "1/2"}), taken("tread-hole", {"tread_holes": ["1/2", None]})

    assert [sample.part for sample in alone] == ["flight"]
    assert [(sample.part, sample.values[0].x is None) for sample in listed] == [("tread 1", False), ("tread 2", True)]


def test_a_ball_that_passes_a_hole_outweighs_the_tape(tmp_path: Path) -> None:
    flight = {"tread_holes": {"gap": "3/8", "ball": "5/8", "passes": "yes"}}
    audit = check(survey_of(flight), rules(tmp_path, [("tread-hole", "at-most", "1/2 in")]))

    assert [f.outcome for f in audit.findings] == [Outcome.WARN]


def test_damage_with_one_of_its_two_lengths_told_leaves_the_other_unmeasured() -> None:
    flight = {"risers": ["7"] * 2, "nosing_damage": [{"depth": "1"}, "none"]}

    (first, top) = taken("nosing-damage-width", flight)
    assert (first.part, first.values, first.missing) == ("nosing 1", (), ("nosing 1 damage width",))
    assert (top.part, top.values[0].x) == ("nosing top", 0)


def test_parts_of_a_divided_flight_lie_left_to_right() -> None:
    (sample,) = taken("width-between-rails", {"width_between_rails": ["44", "43", None]})

    assert [(value.at.place, value.at.way) for value in sample.values if value.at] == [
        (0, "across"),
        (1, "across"),
        (2, "across"),
    ]


def test_the_step_line_is_the_mean_tread_and_four_thirds_of_the_mean_riser() -> None:
    """10 + 4/3 x 7 = 19 1/3, with u the root of 1 and 16/9 times that of one reading (GUM 5.1.2)."""
    (sample,) = taken("step-line", {"risers": ["6 1/2", "7 1/2"], "treads": ["10"]})

    assert Fraction(sample.values[0].x) / NM_PER_IN == Fraction(58, 3)
    assert sample.values[0].u / NM_PER_IN == pytest.approx((1 + 16 / 9) ** 0.5 / 32)
    assert taken("step-line", {"risers": ["7", None], "treads": ["10"]})[0].missing == ("riser 2",)


def test_twice_the_width_needs_every_width() -> None:
    assert taken("twice-width", {"width": ["36", "34"]})[0].values[0].x == 68 * NM_PER_IN
    assert taken("twice-width", {"width": ["36", None]})[0].missing == ("width",)


def rules(tmp_path: Path, limits: list[tuple[str, str, str]]) -> Ruleset:
    rest = "title: t, level: advice, provenance: memory"
    lines = [
        f"  - {{id: r{i}, clause: '', {rest}, measure: {measure}, limit: {{{relation}: {figure}}}"
        + (", at: 12 in}" if MEASURES[measure].placed else "}")
        for i, (measure, relation, figure) in enumerate(limits)
    ]
    path = tmp_path / "set.yaml"
    path.write_text("format: 1\nid: set\ntitle: A set\nrules:\n" + "\n".join(lines) + "\n", encoding="utf-8")
    return load_ruleset(path)


FLIGHT: dict[str, Any] = {
    "id": "f", "form": "mixed", "risers": [["7 1/2", "7 1/4"], "7", "7 1/8", "7", "7 1/2"], "measured_over": "bare",
    "treads": ["10", {"narrow": "4", "walkline": "10", "wide": "22"}, {"narrow": "4", "wide": "22"}, "10"],
    "walkline_out": "12", "width": ["36", "37"], "riser_form": "closed", "turns_one_way": "yes", "curve_radius": "80",
    "tread_holes": ["1/4", {"ball": "1/2", "passes": "no"}, "3/8", "1/4"], "tread_steps": ["1/8", "0", "0", "1/8"],
    "nosing_damage": [{"depth": "1/2", "width": "3"}, "none", "none", "none", "none"],
    "strips": {"tread": "2", "riser": "1 1/2"}, "treads_solid": "yes", "treads_sound": "yes",
    "stringers_sound": "yes", "slip_resistant": "yes", "drains_water": "yes", "unobstructed": "yes",
    "nosings_seen": "yes", "nosing_underside_shaped": "yes", "width_between_rails": ["36", "38"],
    "width_beside_lift": "22", "headroom_beam": ["74", "75"],
    "headroom_across": {"middle": ["75", "76"], "edge": "71"},
    "landings": {
        "top": {"holes": "none", "steps": ["1/8", "1/4"], "gap": "1/2", "clear": "yes", "firm": "yes",
                "turn": "90 deg", "door": {"opens": "over-landing", "clear": "20", "leaves_depth": "22",
                                           "leaves_width": "30", "stands_in": "3"}},
        "bottom": {"holes": ["1/4", {"gap": "3/8", "ball": "1/2", "passes": "no"}], "steps": "none", "gap": "none",
                   "clear": "yes", "firm": "yes", "door": "none"},
    },
}  # fmt: skip
STAIR: dict[str, Any] = {
    "id": "s", "required_egress": "no", "risers_in_row": "12", "flights": [FLIGHT],
    "lighting": {"near_landings": "yes", "switch_indoors": "yes"},
    "under_stair": {"headroom": ["80", "79"], "guarded": "yes"},
}  # fmt: skip
MIDDLING = {
    "end-riser-difference": "1/2 in", "inner-riser-spread": "1/8 in", "riser-slope-across": "1:100",
    "walkline-middle-depth": "13 in", "walkline-outer-depth": "15 in", "winders-in-turn": "2",
    "curve-radius": "80 in", "walkline-middle-spread": "1 in", "tread-hole": "3/8 in", "tread-step": "1/8 in",
    "nosing-damage-depth": "1/2 in", "nosing-damage-width": "3 in", "nosing-strip-tread": "2 in",
    "nosing-strip-riser": "1 1/2 in", "step-line": "20 in",
    "width-between-rails": "36 in", "width-beside-lift": "22 in", "twice-width": "72 in", "headroom-middle": "75 in",
    "headroom-edge": "71 in", "headroom-beam": "74 in", "landing-hole": "3/8 in", "landing-step": "1/8 in",
    "landing-gap": "1/2 in", "landing-door-clear": "20 in", "door-leaves-depth": "22 in",
    "door-leaves-width": "30 in", "door-stands-in": "3 in", "under-stair-headroom": "80 in", "risers-in-row": "12",
}  # fmt: skip
ANSWERED = (
    "risers-closed", "turns-one-way", "serves-required-way-out", "treads-solid", "treads-sound", "stringers-sound",
    "slip-resistant", "drains-water", "flight-unobstructed", "nosings-seen", "nosing-underside-shaped",
    "landing-clear", "landing-firm", "light-near-landings", "switch-indoors", "under-stair-guarded",
)  # fmt: skip
LIMITS = [
    *((name, relation, figure) for name, figure in MIDDLING.items() for relation in ("at-most", "at-least")),
    *((name, "equals", word) for name in ANSWERED for word in ("yes", "no")),
]


def passes(survey: dict[str, Any], ruleset: Ruleset) -> set[tuple[str, str]]:
    findings = check(load_survey(survey), ruleset).findings
    return {
        (f.rule.id, "nosing 5" if f.part == "nosing top" else f.part) for f in findings if f.outcome is Outcome.PASS
    }


def test_less_is_never_a_new_pass(tmp_path: Path) -> None:
    usable = [limit for limit in LIMITS if MEASURES[limit[0]].kind != "spread" or limit[1] == "at-most"]
    ruleset, data = rules(tmp_path, usable), {"format": 1, "units": "in", "stairs": [STAIR]}
    before = passes(data, ruleset)
    assert {
        limit[0] for limit, rule in zip(usable, ruleset.rules, strict=True) if rule.id in {r for r, _ in before}
    } == {
        *MIDDLING,
        *ANSWERED,
    }

    tried = 0
    for new, less in new_passes(data, lambda told: passes(told, ruleset)):
        tried += 1
        assert new == set(), less
    assert tried > 100
