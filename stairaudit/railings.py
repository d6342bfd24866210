"""Models of what stands beside a flight or landing to hold on to and to keep from falling: handrails and guards."""

# No postponed annotations here: pydantic would have to compile each of them again at every start.

from typing import Annotated, Literal

from pydantic import BeforeValidator, model_validator

from stairaudit.fields import (
    Angle,
    Answer,
    DropPlaces,
    LongPlaces,
    Material,
    Name,
    Part,
    Short,
    Small,
    SmallPlaces,
)
from stairaudit.readings import is_reading


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


HeightsTaken = Literal["plumb", "square"]


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


class Handrail(Part):
    """One handrail of a flight."""

    side: Literal["left", "right", "centre"] | None = None
    """left or right as seen going up, or centre."""
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
    passing_nosings: Answer | None = None
    """Do the nosings of a landing or of a passing flight push the rail out?"""
    grip: Grip | None = None
    continuous: Answer | None = None
    """Can a hand slide over the whole flight, from above the top riser to above the lowest?"""
    ends_returned: Answer | None = None
    """Do both ends return to a wall, guard, floor or post?"""
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


class Guard(Stretch):
    """One guard along a flight or a landing."""

    side: Literal["left", "right", "end"] | None = None
    """left or right as seen going up; end is the far side of a landing."""
    top_is_handrail: Answer | None = None
    """Does the top of the guard also serve as the handrail?"""
    material: Material | None = None
    labelled: Answer | None = None
    """Is a maker's label or listing to be seen (plastic composite)?"""


class LongGuard(Part):
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
