"""Models of what stands beside a flight or landing to hold on to and to keep from falling: handrails and guards."""

# No postponed annotations here: pydantic would have to compile each of them again at every start.

from typing import Annotated, Literal

from pydantic import BeforeValidator, model_validator

from stairaudit.fields import (
    Angle,
    Answer,
    DropPlaces,
    Long,
    LongOrZero,
    LongPlaces,
    Material,
    Name,
    NoneOr,
    Part,
    Risers,
    Short,
    Slope,
    Small,
    SmallPlaces,
)
from stairaudit.readings import Count, is_reading


class Opening(Part):
    """One opening in a guard or between treads: the gap by tape, a ball tried in it, or both."""

    gap: Short | None = None
    """Clear opening by tape, at its widest."""
    ball: Short | None = None
    """Diameter of the ball or block that was tried."""
    passes: Answer | None = None
    """Did the ball pass right through?"""
    above: DropPlaces | None = None
    """For an open riser: height of the opening above the floor or grade below it."""

    @model_validator(mode="after")
    def _ball_and_answer(self) -> "Opening":
        if (self.ball is None) != (self.passes is None):
            raise ValueError("a ball test needs both, such as {ball: 4 in, passes: no}")
        return self


def _opening(raw: object) -> object:
    return {"gap": raw} if is_reading(raw) else raw


def _openings(raw: object) -> object:
    return raw if isinstance(raw, (list, tuple)) else [raw]


OneOpening = Annotated[Opening, BeforeValidator(_opening, json_schema_input_type=Short | Opening)]
Openings = Annotated[
    tuple[OneOpening | None, ...],
    BeforeValidator(_openings, json_schema_input_type=OneOpening | tuple[OneOpening | None, ...]),
]


Breaks = Annotated[int, Count(100, least=0)]
HeightsTaken = Literal["plumb", "square"]
Infill = Literal["balusters", "rails", "wires", "mesh", "panel"]


class Grip(Part):
    """The cross-section of a handrail."""

    shape: Literal["round", "not-round", "finger-recess"] | None = None
    """round, not-round (by perimeter), or finger-recess (a wide rail with a groove on both sides)."""
    diameter: Small | None = None
    """Outside diameter of a round rail."""
    perimeter: Small | None = None
    """Once round the rail, by a strip of paper."""
    cross_section: Small | None = None
    """Widest measure across the section."""
    edge_radius: Small | None = None
    """Radius of the edges."""
    recess_start: Small | None = None
    """From the tallest part of the profile down to where the recess begins."""
    recess_depth: Small | None = None
    """Depth of the recess."""
    recess_depth_at: Small | None = None
    """From the widest part of the profile down to where that depth is reached."""
    recess_height: Small | None = None
    """How far the recess goes on at that depth."""
    recess_end: Small | None = None
    """From the tallest part of the profile down to where the recess ends."""
    width: Small | None = None
    """Width of the rail above the recess."""
    depth: Small | None = None
    """Depth of the section of a rail that is not round, top to underside."""


class WallRecess(Part):
    """The recess of a wall in which a handrail runs."""

    depth: Small | None = None
    """From the face of the wall level in to the back of the recess."""
    above: Long | None = None
    """Plumb from the top of the rail up to the top of the recess."""


class Handrail(Part):
    """One handrail of a flight."""

    side: Literal["left", "right", "centre"] | None = None
    """left or right as seen going up, or centre."""
    role: Literal["main", "lower"] | None = None
    """lower where it is a second rail under the main one, as for children; main when left out."""
    heights: LongPlaces | None = None
    """Plumb from the nosing line to the top of the rail, bottom to top of the flight."""
    heights_taken: HeightsTaken | None = None
    """plumb when left out; square where the tape was held square to the slope."""
    angle: Angle | None = None
    """Angle of the rail from level, by a level laid on it."""
    uniform: Answer | None = None
    """Is the rail at one height over the whole flight?"""
    clearance: SmallPlaces | None = None
    """Clear gap between rail and wall, at its least."""
    projection: SmallPlaces | None = None
    """From the wall or stair side to the inner face of the rail."""
    beside_wall: Answer | None = None
    """Is there a wall beside the rail? Taken from `sides` when left out."""
    wall_rough: Answer | None = None
    """Is the surface behind the rail rough?"""
    wall_recess: NoneOr[WallRecess] | None = None
    """Where the rail runs in a recess of the wall: {depth, above}; none where it does not."""
    passing_nosings: Answer | None = None
    """Do the nosings of a landing or of a passing flight push the rail out?"""
    grip: Grip | None = None
    graspable: Answer | None = None
    """Does a hand close round it and hold firmly?"""
    bracket_gap: SmallPlaces | None = None
    """Plumb from the underside of the rail to the arm of a bracket, at its least."""
    underside_blocked: Slope | None = None
    """Length of underside that is blocked over the length of the rail, such as 20 %."""
    unobstructed: Answer | None = None
    """Are its top and sides free of anything that stops a hand?"""
    firm: Answer | None = None
    """Does it hold at every fixing when pushed and pulled, without turning in its fittings?"""
    smooth: Answer | None = None
    """Is it, with what stands beside it, free of what could cut, scratch or catch a sleeve?"""
    continuous: Answer | None = None
    """Can a hand slide over the whole flight, from above the top riser to above the lowest?"""
    breaks: Breaks | None = None
    """How often the rail is broken off between its two ends; posts at a turn are not counted."""
    starts_at_riser: Risers | None = None
    """Beside which riser it begins, counted from the bottom."""
    extension_top: LongOrZero | None = None
    """Level, from plumb above the top nosing to where the rail ends or turns; 0 where it stops short."""
    extension_bottom: LongOrZero | None = None
    """Level, from plumb above the bottom nosing to where the rail ends or turns; 0 where it stops short."""
    extensions_straight: Answer | None = None
    """Do both extensions run on in the line of the flight?"""
    ends_returned: Answer | None = None
    """Do both ends return to a wall, guard, floor or post?"""
    return_gap: SmallPlaces | None = None
    """Level, between the end of a return and the wall that it turns to, at its widest."""
    ends_safe: Answer | None = None
    """Are both ends shaped so that nobody is caught by them or runs into them?"""
    post_overhang: SmallPlaces | None = None
    """Level, from the last post to the end of the level part of the rail."""
    material: Material | None = None
    labelled: Answer | None = None
    """Is a maker's label or listing to be seen (plastic composite)?"""


class Stretch(Part):
    """A guard along one slope or one level."""

    heights: LongPlaces | None = None
    """Top of the guard: plumb above the nosing line on a flight, above the floor on a landing."""
    heights_taken: HeightsTaken | None = None
    """plumb when left out; square where the tape was held square to the slope."""
    openings: Openings | None = None
    """Widest openings, by tape or by ball."""
    triangle: Openings | None = None
    """The triangle of tread, riser and bottom rail: the largest ball that passes, or a ball tried."""
    rail_gap: SmallPlaces | None = None
    """Plumb from the nosing line up to the underside of the bottom rail; stands in for the triangle."""
    rail_spacing: SmallPlaces | None = None
    """Clear between rails that run along the guard, square to them, at its widest."""
    above_seat: NoneOr[LongPlaces] | None = None
    """Plumb from a fixed seat beside the guard up to its top; none where there is no such seat."""


class GuardMade(Part):
    """How a guard is made, whatever it runs along."""

    infill: Infill | None = None
    """What fills it between top and foot."""
    infill_present: Answer | None = None
    """Is there anything at all between the top rail and the steps or floor?"""
    midrail: Answer | None = None
    """Is there a rail midway between the top and the steps or floor?"""
    firm: Answer | None = None
    """Is it whole, and does it hold when pushed and pulled?"""
    climbable: Answer | None = None
    """yes where there is something to climb by, at the heights that the rule names."""
    post_notched: Answer | None = None
    """Is any post notched where it is fixed?"""


class Guard(GuardMade, Stretch):
    """One guard along a flight or a landing."""

    side: Literal["left", "right", "end"] | None = None
    """left or right as seen going up; end is the far side of a landing."""
    top_is_handrail: Answer | None = None
    """Does the top of the guard also serve as the handrail?"""
    material: Material | None = None
    labelled: Answer | None = None
    """Is a maker's label or listing to be seen (plastic composite)?"""


class LongGuard(GuardMade):
    """One guard that runs along several flights and landings in one piece."""

    side: Literal["left", "right"]
    """As seen going up."""
    along: tuple[Name, ...]
    """What it stands on: ids of flights, and landings such as `main landing top`."""
    drop: DropPlaces | None = None
    """Greatest fall beside it; that of the sides it stands on when left out."""
    rake: Stretch | None = None
    """Along the slope of the steps."""
    level: Stretch | None = None
    """Along landings."""
    top_is_handrail: Answer | None = None
    """Does its top also serve as the handrail of the flights?"""
    material: Material | None = None
    labelled: Answer | None = None
    """Is a maker's label or listing to be seen (plastic composite)?"""
    between_homes: Answer | None = None
    """Does it stand between two homes, so that both have a say?"""
