"""The closed list of measures: name -> what it is a measure of, and the pure function that takes it.

Definitions, sources and examples of each stand in `descriptions.yaml` beside this file; a test holds
the two lists together.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Literal, NamedTuple

from stairaudit.measures import (
    devices,
    ends,
    flight_sides,
    guard_details,
    guards,
    landings,
    nosings,
    openings,
    rail_lines,
    rail_sides,
    rails,
    sizes,
    steps,
    surfaces_walked,
    surroundings,
    tapers,
    turning,
)
from stairaudit.quantities import Kind
from stairaudit.samples import Samples

Over = Literal["riser", "tread", "nosing", "flight", "handrail", "side", "guard", "landing", "glazing", "stair"]


class Measure(NamedTuple):
    """One measure: its name, the kind of value, the part it looks at and how it is read.

    `sphere`: a ball can tell too. `derived`: worked out from other readings, so no reading of its own.
    `placed`: it is taken at a place that the rule names, `at` once it does.
    """

    name: str
    kind: Kind
    over: Over
    read: Callable[..., Samples]
    sphere: bool = False
    derived: bool = False
    placed: bool = False
    at: int | None = None

    @property
    def of_stair(self) -> bool:
        """Is it taken once for the whole stair?"""
        return self.over in ("stair", "glazing")

    @property
    def spans(self) -> bool:
        """Is it also taken of what runs along several flights, for the stair as a whole?"""
        return self.over == "guard"

    def taken_at(self, at: int) -> Measure:
        """Return the measure as it is taken at a place [nm]."""
        return self._replace(read=partial(self.read, at=at), at=at)


def _table() -> dict[str, Measure]:
    rows = [
        Measure("riser-height", "length", "riser", steps.riser_height),
        Measure("riser-spread", "spread", "flight", steps.riser_spread, derived=True),
        Measure(
            "riser-neighbour-difference",
            "length",
            "riser",
            steps.riser_neighbours,
            derived=True,
        ),
        Measure("end-riser-difference", "length", "riser", ends.end_riser_difference, derived=True),
        Measure("inner-riser-spread", "spread", "flight", ends.inner_riser_spread, derived=True),
        Measure("riser-slope-across", "slope", "riser", ends.riser_slope_across, derived=True),
        Measure("riser-count", "count", "flight", steps.riser_count, derived=True),
        Measure("riser-face-slope", "angle", "riser", steps.riser_face_slope),
        Measure("riser-opening", "length", "riser", openings.riser_opening, sphere=True),
        Measure("risers-closed", "yes-no", "flight", surfaces_walked.risers_closed),
        Measure("flight-rise", "length", "flight", steps.flight_rise, derived=True),
        Measure("tread-depth", "length", "tread", lambda c: steps.each(c.treads, "tread")),
        Measure("tread-spread", "spread", "flight", lambda c: steps.spread(c.treads, "tread"), derived=True),
        Measure(
            "tread-neighbour-difference",
            "length",
            "tread",
            lambda c: steps.neighbours(c.treads, "tread"),
            derived=True,
        ),
        Measure("walkline-depth", "length", "tread", tapers.walkline_depth, placed=True),
        Measure("walkline-spread", "spread", "flight", tapers.walkline_spread, derived=True, placed=True),
        Measure("walkline-middle-depth", "length", "tread", tapers.middle_depth),
        Measure("walkline-middle-spread", "spread", "flight", tapers.middle_spread, derived=True),
        Measure("walkline-outer-depth", "length", "tread", tapers.outer_depth, placed=True),
        Measure("walkline-radius", "length", "flight", tapers.walkline_radius, placed=True),
        Measure("tapered-least-depth", "length", "tread", tapers.least_depth),
        Measure("winders-in-turn", "count", "flight", turning.winders_in_turn, derived=True),
        Measure("turns-one-way", "yes-no", "flight", steps.answer_of("turns_one_way")),
        Measure("curve-radius", "length", "flight", sizes.lengths_of("curve_radius")),
        Measure("tread-with-nosing", "length", "tread", devices.tread_with_nosing, derived=True),
        Measure("projected-tread-depth", "length", "tread", devices.projected_depth),
        Measure("tread-width", "length", "tread", devices.tread_width),
        Measure("treads-alike", "yes-no", "flight", devices.treads_alike),
        Measure("first-tread-at-floor", "yes-no", "flight", steps.answer_of("first_tread_at_floor")),
        Measure("served-area", "area", "flight", devices.served_area),
        Measure("holds-only-kitchen-or-bath", "yes-no", "flight", devices.only_kitchen_or_bath),
        Measure("serves-required-way-out", "yes-no", "flight", surfaces_walked.way_out),
        Measure("tread-slope", "slope", "tread", steps.tread_slope),
        Measure("tread-hole", "length", "tread", surfaces_walked.tread_hole, sphere=True),
        Measure("tread-step", "length", "tread", surfaces_walked.tread_step),
        Measure("treads-solid", "yes-no", "flight", steps.answer_of("treads_solid")),
        Measure("treads-sound", "yes-no", "flight", steps.answer_of("treads_sound")),
        Measure("stringers-sound", "yes-no", "flight", steps.answer_of("stringers_sound")),
        Measure("slip-resistant", "yes-no", "flight", steps.answer_of("slip_resistant")),
        Measure("drains-water", "yes-no", "flight", steps.answer_of("drains_water")),
        Measure("flight-unobstructed", "yes-no", "flight", steps.answer_of("unobstructed")),
        Measure("tread-labelled", "yes-no", "flight", steps.answer_of("tread_labelled")),
        Measure("measured-bare", "yes-no", "flight", steps.measured_bare),
        Measure("nosing-projection", "length", "nosing", nosings.nosing_projection),
        Measure("nosing-spread", "spread", "flight", nosings.nosing_spread, derived=True),
        Measure("stairway-nosing-spread", "spread", "stair", nosings.stairway_nosing_spread, derived=True),
        Measure("nosing-radius", "length", "nosing", nosings.nosing_radius),
        Measure("nosing-bevel", "length", "nosing", nosings.nosing_bevel),
        Measure("nosing-damage-depth", "length", "nosing", surfaces_walked.nosing_damage_of("depth")),
        Measure("nosing-damage-width", "length", "nosing", surfaces_walked.nosing_damage_of("width")),
        Measure("nosing-strip-tread", "length", "nosing", surfaces_walked.strip_of("tread")),
        Measure("nosing-strip-riser", "length", "nosing", surfaces_walked.strip_of("riser")),
        Measure("nosings-seen", "yes-no", "flight", steps.answer_of("nosings_seen")),
        Measure("nosing-underside-shaped", "yes-no", "flight", steps.answer_of("nosing_underside_shaped")),
        Measure("step-sum", "length", "flight", sizes.climbing(sizes.step_sum), derived=True),
        Measure("step-line", "length", "flight", sizes.climbing(sizes.step_line), derived=True),
        Measure("rise-plus-run", "length", "flight", sizes.climbing(sizes.rise_plus_run), derived=True),
        Measure("rise-times-run", "area", "flight", sizes.climbing(sizes.rise_times_run), derived=True),
        Measure("pitch", "angle", "flight", sizes.pitch, derived=True),
        Measure("flight-width", "length", "flight", sizes.lengths_of("width")),
        Measure("flight-width-at-rail", "length", "flight", sizes.lengths_of("width_at_rail")),
        Measure("width-between-rails", "length", "flight", surfaces_walked.width_between_rails),
        Measure("width-beside-lift", "length", "flight", sizes.lengths_of("width_beside_lift")),
        Measure("twice-width", "length", "flight", surfaces_walked.twice_width, derived=True),
        Measure("headroom", "length", "flight", sizes.lengths_of("headroom")),
        Measure("headroom-middle", "length", "flight", surfaces_walked.headroom_across("middle")),
        Measure("headroom-edge", "length", "flight", surfaces_walked.headroom_across("edge")),
        Measure("headroom-beam", "length", "flight", sizes.lengths_of("headroom_beam")),
        Measure("opening-edge-intrusion", "length", "flight", sizes.lengths_of("opening_edge")),
        Measure("quarter-circle-of-width", "area", "flight", sizes.quarter_circle_of_width, derived=True),
        Measure("handrail-count", "count", "flight", rails.handrail_count, derived=True),
        Measure("handrail-height", "length", "handrail", rails.heights),
        Measure("handrail-clearance", "length", "handrail", rails.lengths_of("clearance")),
        Measure("handrail-projection", "length", "handrail", rails.lengths_of("projection")),
        Measure("handrail-continuous", "yes-no", "handrail", rails.told_of("continuous")),
        Measure("handrail-ends-returned", "yes-no", "handrail", rails.told_of("ends_returned")),
        Measure("handrail-uniform", "yes-no", "handrail", rails.told_of("uniform")),
        Measure("handrail-labelled", "yes-no", "handrail", rails.told_of("labelled")),
        Measure("grip-diameter", "length", "handrail", rails.grip_of("diameter")),
        Measure("grip-perimeter", "length", "handrail", rails.grip_of("perimeter")),
        Measure("grip-cross-section", "length", "handrail", rails.grip_of("cross_section")),
        Measure("grip-edge-radius", "length", "handrail", rails.grip_of("edge_radius")),
        Measure("grip-recess-start", "length", "handrail", rails.grip_of("recess_start")),
        Measure("grip-recess-depth", "length", "handrail", rails.grip_of("recess_depth")),
        Measure("grip-recess-depth-at", "length", "handrail", rails.grip_of("recess_depth_at")),
        Measure("grip-recess-height", "length", "handrail", rails.grip_of("recess_height")),
        Measure("grip-recess-end", "length", "handrail", rails.grip_of("recess_end")),
        Measure("grip-width", "length", "handrail", rails.grip_of("width")),
        Measure("grip-depth", "length", "handrail", rails.grip_of("depth")),
        Measure("handrail-sides", "count", "flight", rail_sides.handrail_sides, derived=True),
        Measure("side-has-handrail", "yes-no", "side", rail_sides.side_has_handrail, derived=True),
        Measure("centre-handrail", "yes-no", "flight", rail_sides.centre_handrail, derived=True),
        Measure("handrail-reach", "length", "flight", rail_sides.handrail_reach),
        Measure("lost-handrail", "yes-no", "flight", steps.answer_of("lost_handrail")),
        Measure("handrail-spread", "spread", "handrail", rail_lines.spread, derived=True),
        Measure("handrail-breaks", "count", "handrail", rails.told_of("breaks")),
        Measure("handrail-start", "count", "handrail", rails.told_of("starts_at_riser")),
        Measure("handrail-extension-top", "length", "handrail", rails.lengths_of("extension_top")),
        Measure("handrail-extension-bottom", "length", "handrail", rails.lengths_of("extension_bottom")),
        Measure("handrail-extensions-straight", "yes-no", "handrail", rails.told_of("extensions_straight")),
        Measure("handrail-return-gap", "length", "handrail", rails.lengths_of("return_gap")),
        Measure("handrail-ends-safe", "yes-no", "handrail", rails.told_of("ends_safe")),
        Measure("handrail-post-overhang", "length", "handrail", rails.lengths_of("post_overhang")),
        Measure("handrail-recess-depth", "length", "handrail", rail_lines.recess_of("depth")),
        Measure("handrail-recess-above", "length", "handrail", rail_lines.recess_of("above")),
        Measure("handrail-bracket-gap", "length", "handrail", rails.lengths_of("bracket_gap")),
        Measure("handrail-underside-blocked", "slope", "handrail", rail_lines.underside_blocked),
        Measure("handrail-unobstructed", "yes-no", "handrail", rails.told_of("unobstructed")),
        Measure("handrail-graspable", "yes-no", "handrail", rails.told_of("graspable")),
        Measure("handrail-firm", "yes-no", "handrail", rails.told_of("firm")),
        Measure("handrail-smooth", "yes-no", "handrail", rails.told_of("smooth")),
        Measure("landing-handrail-height", "length", "landing", landings.handrail_heights),
        Measure("landing-handrail-count", "count", "landing", landings.handrail_count),
        Measure("side-gap", "length", "side", flight_sides.side_gap),
        Measure("triangle-open", "yes-no", "flight", steps.answer_of("triangle_open")),
        Measure("side-guarded", "yes-no", "side", guards.side_guarded),
        Measure("guard-height", "length", "guard", guards.flight_guards(guards.height)),
        Measure("guard-opening", "length", "guard", guards.flight_guards(guards.openings), sphere=True),
        Measure("guard-triangle", "length", "guard", guards.flight_guards(guards.triangle), sphere=True),
        Measure("guard-labelled", "yes-no", "guard", guards.every_guard(guard_details.answer_of("labelled"))),
        Measure("landing-side-guarded", "yes-no", "side", guards.landing_side_guarded),
        Measure("landing-guard-height", "length", "guard", guards.landing_guards(guards.height)),
        Measure("landing-guard-opening", "length", "guard", guards.landing_guards(guards.openings), sphere=True),
        Measure("guard-midrail", "yes-no", "guard", guards.flight_guards(guard_details.answer_of("midrail"))),
        Measure(
            "guard-infill-present", "yes-no", "guard", guards.flight_guards(guard_details.answer_of("infill_present"))
        ),
        Measure("guard-firm", "yes-no", "guard", guards.flight_guards(guard_details.answer_of("firm"))),
        Measure(
            "guard-not-climbable",
            "yes-no",
            "guard",
            guards.flight_guards(guard_details.answer_of("climbable", turned=True)),
        ),
        Measure(
            "guard-rail-spacing", "length", "guard", guards.flight_guards(guard_details.lengths_of("rail_spacing"))
        ),
        Measure("guard-post-notched", "yes-no", "guard", guards.every_guard(guard_details.answer_of("post_notched"))),
        Measure(
            "landing-guard-midrail", "yes-no", "guard", guards.landing_guards(guard_details.answer_of("midrail"))
        ),
        Measure(
            "landing-guard-infill-present",
            "yes-no",
            "guard",
            guards.landing_guards(guard_details.answer_of("infill_present")),
        ),
        Measure("landing-guard-firm", "yes-no", "guard", guards.landing_guards(guard_details.answer_of("firm"))),
        Measure(
            "landing-guard-not-climbable",
            "yes-no",
            "guard",
            guards.landing_guards(guard_details.answer_of("climbable", turned=True)),
        ),
        Measure(
            "landing-guard-rail-spacing",
            "length",
            "guard",
            guards.landing_guards(guard_details.lengths_of("rail_spacing")),
        ),
        Measure(
            "landing-guard-height-above-seat",
            "length",
            "guard",
            guards.landing_guards(guard_details.lengths_of("above_seat")),
        ),
        Measure("landing-present", "yes-no", "landing", landings.landing_present),
        Measure("landing-width", "length", "landing", landings.lengths_of("width")),
        Measure("landing-depth", "length", "landing", landings.lengths_of("depth")),
        Measure("landing-walkline-depth", "length", "landing", landings.lengths_of("walkline_depth")),
        Measure("landing-area", "area", "landing", landings.landing_area),
        Measure("landing-headroom", "length", "landing", landings.lengths_of("headroom")),
        Measure("landing-slope-along", "slope", "landing", landings.slope_of("along")),
        Measure("landing-slope-across", "slope", "landing", landings.slope_of("across")),
        Measure("landing-hole", "length", "landing", landings.landing_hole, sphere=True),
        Measure("landing-step", "length", "landing", landings.faults_of("steps")),
        Measure("landing-gap", "length", "landing", landings.faults_of("gap")),
        Measure("landing-clear", "yes-no", "landing", landings.answer_of("clear")),
        Measure("landing-firm", "yes-no", "landing", landings.answer_of("firm")),
        Measure("door-width", "length", "landing", landings.door_of("width")),
        Measure("threshold-drop", "length", "landing", landings.door_of("threshold_drop")),
        Measure("landing-door-clear", "length", "landing", landings.door_of("clear")),
        Measure("door-leaves-depth", "length", "landing", landings.door_of("leaves_depth")),
        Measure("door-leaves-width", "length", "landing", landings.door_of("leaves_width")),
        Measure("door-stands-in", "length", "landing", landings.door_of("stands_in")),
        Measure("treads-lit", "yes-no", "stair", surroundings.light_answer("treads_lit")),
        Measure("light-level", "light", "stair", surroundings.light_level),
        Measure("switch-each-level", "yes-no", "stair", surroundings.light_answer("switch_each_level")),
        Measure("top-landing-lit", "yes-no", "stair", surroundings.light_answer("top_landing")),
        Measure("bottom-landing-lit", "yes-no", "stair", surroundings.light_answer("bottom_landing")),
        Measure("light-near-landings", "yes-no", "stair", surroundings.light_answer("near_landings")),
        Measure("switch-indoors", "yes-no", "stair", surroundings.light_answer("switch_indoors")),
        Measure("glazing-safety", "yes-no", "glazing", surroundings.glazing_safety),
        Measure("under-stair-board", "length", "stair", surroundings.under_stair_board),
        Measure("under-stair-headroom", "length", "stair", surroundings.under_stair_headroom),
        Measure("under-stair-guarded", "yes-no", "stair", surroundings.under_stair_guarded),
        Measure("risers-in-row", "count", "stair", turning.risers_in_row),
    ]
    return {row.name: row for row in rows}


MEASURES: dict[str, Measure] = _table()
