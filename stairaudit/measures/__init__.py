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
    guards,
    landings,
    nosings,
    openings,
    rails,
    sizes,
    steps,
    surroundings,
    tapers,
)
from stairaudit.quantities import Kind
from stairaudit.samples import Samples

Over = Literal["riser", "tread", "nosing", "flight", "handrail", "side", "guard", "landing", "glazing", "stair"]


class Measure(NamedTuple):
    """One measure: its name, the kind of value, the part it looks at and how it is read.

    `sphere`: a ball can tell too. `derived`: worked out from other readings, so no reading of its own.
    `placed`: it is taken at a place that the rule names, `at` once it does. `spans`: also taken of what runs
    along several flights, for the stair as a whole.
    """

    name: str
    kind: Kind
    over: Over
    read: Callable[..., Samples]
    sphere: bool = False
    derived: bool = False
    placed: bool = False
    spans: bool = False
    at: int | None = None

    @property
    def of_stair(self) -> bool:
        """Is it taken once for the whole stair?"""
        return self.over in ("stair", "glazing")

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
        Measure("riser-count", "count", "flight", steps.riser_count, derived=True),
        Measure("riser-face-slope", "angle", "riser", steps.riser_face_slope),
        Measure("riser-opening", "length", "riser", openings.riser_opening, sphere=True),
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
        Measure("walkline-radius", "length", "flight", tapers.walkline_radius, placed=True),
        Measure("tapered-least-depth", "length", "tread", tapers.least_depth),
        Measure("tread-with-nosing", "length", "tread", devices.tread_with_nosing, derived=True),
        Measure("projected-tread-depth", "length", "tread", devices.projected_depth),
        Measure("tread-width", "length", "tread", devices.tread_width),
        Measure("treads-alike", "yes-no", "flight", devices.treads_alike),
        Measure("first-tread-at-floor", "yes-no", "flight", devices.first_tread_at_floor),
        Measure("served-area", "area", "flight", devices.served_area),
        Measure("holds-only-kitchen-or-bath", "yes-no", "flight", devices.only_kitchen_or_bath),
        Measure("tread-slope", "slope", "tread", steps.tread_slope),
        Measure("tread-labelled", "yes-no", "flight", steps.tread_labelled),
        Measure("measured-bare", "yes-no", "flight", steps.measured_bare),
        Measure("nosing-projection", "length", "nosing", nosings.nosing_projection),
        Measure("nosing-spread", "spread", "flight", nosings.nosing_spread, derived=True),
        Measure("stairway-nosing-spread", "spread", "stair", nosings.stairway_nosing_spread, derived=True),
        Measure("nosing-radius", "length", "nosing", nosings.nosing_radius),
        Measure("nosing-bevel", "length", "nosing", nosings.nosing_bevel),
        Measure("step-sum", "length", "flight", sizes.climbing(sizes.step_sum), derived=True),
        Measure("rise-plus-run", "length", "flight", sizes.climbing(sizes.rise_plus_run), derived=True),
        Measure("rise-times-run", "area", "flight", sizes.climbing(sizes.rise_times_run), derived=True),
        Measure("pitch", "angle", "flight", sizes.pitch, derived=True),
        Measure("flight-width", "length", "flight", sizes.lengths_of("width")),
        Measure("flight-width-at-rail", "length", "flight", sizes.lengths_of("width_at_rail")),
        Measure("headroom", "length", "flight", sizes.lengths_of("headroom")),
        Measure("opening-edge-intrusion", "length", "flight", sizes.lengths_of("opening_edge")),
        Measure("quarter-circle-of-width", "area", "flight", sizes.quarter_circle_of_width, derived=True),
        Measure("handrail-count", "count", "flight", rails.handrail_count, derived=True),
        Measure("handrail-height", "length", "handrail", rails.heights),
        Measure("handrail-clearance", "length", "handrail", rails.lengths_of("clearance")),
        Measure("handrail-projection", "length", "handrail", rails.lengths_of("projection")),
        Measure("handrail-continuous", "yes-no", "handrail", rails.answer_of("continuous")),
        Measure("handrail-ends-returned", "yes-no", "handrail", rails.answer_of("ends_returned")),
        Measure("handrail-uniform", "yes-no", "handrail", rails.answer_of("uniform")),
        Measure("handrail-labelled", "yes-no", "handrail", rails.answer_of("labelled")),
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
        Measure("side-guarded", "yes-no", "side", guards.side_guarded),
        Measure("guard-height", "length", "guard", guards.flight_guards(guards.height), spans=True),
        Measure("guard-opening", "length", "guard", guards.flight_guards(guards.openings), sphere=True, spans=True),
        Measure("guard-triangle", "length", "guard", guards.flight_guards(guards.triangle), sphere=True, spans=True),
        Measure("guard-labelled", "yes-no", "guard", guards.guard_labelled, spans=True),
        Measure("landing-side-guarded", "yes-no", "side", guards.landing_side_guarded),
        Measure("landing-guard-height", "length", "guard", guards.landing_guards(guards.height), spans=True),
        Measure(
            "landing-guard-opening",
            "length",
            "guard",
            guards.landing_guards(guards.openings),
            sphere=True,
            spans=True,
        ),
        Measure("landing-present", "yes-no", "landing", landings.landing_present),
        Measure("landing-width", "length", "landing", landings.lengths_of("width")),
        Measure("landing-depth", "length", "landing", landings.lengths_of("depth")),
        Measure("landing-walkline-depth", "length", "landing", landings.lengths_of("walkline_depth")),
        Measure("landing-area", "area", "landing", landings.landing_area),
        Measure("landing-headroom", "length", "landing", landings.lengths_of("headroom")),
        Measure("landing-slope-along", "slope", "landing", landings.slope_of("along")),
        Measure("landing-slope-across", "slope", "landing", landings.slope_of("across")),
        Measure("door-width", "length", "landing", landings.door_of("width")),
        Measure("threshold-drop", "length", "landing", landings.door_of("threshold_drop")),
        Measure("treads-lit", "yes-no", "stair", surroundings.light_answer("treads_lit")),
        Measure("light-level", "light", "stair", surroundings.light_level),
        Measure("switch-each-level", "yes-no", "stair", surroundings.light_answer("switch_each_level")),
        Measure("top-landing-lit", "yes-no", "stair", surroundings.light_answer("top_landing")),
        Measure("bottom-landing-lit", "yes-no", "stair", surroundings.light_answer("bottom_landing")),
        Measure("glazing-safety", "yes-no", "glazing", surroundings.glazing_safety),
        Measure("under-stair-board", "length", "stair", surroundings.under_stair_board),
    ]
    return {row.name: row for row in rows}


MEASURES: dict[str, Measure] = _table()
