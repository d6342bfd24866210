"""Models of what the foot stands on: tapered treads, coverings, holes, steps and damage, and the room to walk."""

# No postponed annotations here: pydantic would have to compile each of them again at every start.

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Discriminator, Tag, model_validator

from stairaudit.fields import (
    Answer,
    Long,
    LongPlaces,
    NoneOr,
    OpenOr,
    Part,
    Short,
    ShortPlaces,
    Small,
    SmallPlaces,
    Thickness,
)
from stairaudit.lengths import NM_PER_IN
from stairaudit.railings import Openings

# What the reading of one end may be off before the order of the three cannot be right. Common practice, no source.
SLACK = NM_PER_IN // 4


class TaperedTread(Part):
    """One winder, spiral or curved tread: its depth from nosing to nosing, level, at places across it."""

    narrow: Small | None = None
    """At the inner edge of the clear width; 0 where it runs to a point."""
    walkline: Short | None = None
    """On the walkline, straight from nosing to nosing; how far out stands in `walkline_out` of the flight."""
    wide: Short | None = None
    """At the outer edge of the clear width; leave it out on a kite winder in a square corner."""
    width: Short | None = None
    """From the narrow edge to the wide one; the width of the flight when left out."""

    @model_validator(mode="after")
    def _widens(self) -> "TaperedTread":
        told = [item.value for item in (self.narrow, self.walkline, self.wide) if item is not None]
        if any(outer + SLACK < inner for inner, outer in pairwise(told)):
            raise ValueError(
                "a tapered tread grows from narrow over walkline to wide; exchange or measure them again"
            )
        return self


def _way(raw: object) -> str:
    tapered = isinstance(raw, TaperedTread) or (isinstance(raw, dict) and "again" not in raw)
    return "=tapered" if tapered else "=plain"


OneTread = Annotated[
    Annotated[ShortPlaces, Tag("=plain")] | Annotated[TaperedTread, Tag("=tapered")], Discriminator(_way)
]

SOFT = ("carpet", "runner", "rug", "mat")


CoveringKind = Literal["carpet", "runner", "rug", "mat", "tile", "boards", "sheet"]


class Covering(Part):
    """One covering."""

    kind: CoveringKind | None = None
    """carpet, runner, rug and mat are soft and left out of a reading; tile, boards and sheet count as the floor."""
    thickness: Thickness | None = None
    """Pressed down, as under the tape."""


class Coverings(Part):
    """What lies on the treads and on the floors at both ends: a covering, or none."""

    treads: NoneOr[Covering] | None = None
    bottom: NoneOr[Covering] | None = None
    top: NoneOr[Covering] | None = None


class Strips(Part):
    """Strips that mark the nosings, alike on all of them."""

    tread: Small | None = None
    """Level, from the tip of the nosing back over the tread."""
    riser: Small | None = None
    """Plumb, from the tip of the nosing down the riser."""


class Damage(Part):
    """What is broken out of one nosing."""

    depth: Small | None = None
    """At its deepest, from where the surface was."""
    width: Small | None = None
    """Along the nosing, at its widest."""


class HeadroomAcross(Part):
    """Headroom where the ceiling slopes across the flight; open where nothing is above."""

    middle: OpenOr[LongPlaces] | None = None
    """Plumb above the nosing line at half the width."""
    edge: OpenOr[LongPlaces] | None = None
    """Plumb above the nosing line at the side where the ceiling is lowest."""


class WalkedOn(Part):
    """What was looked at on the steps of a flight and in the room over them."""

    treads_solid: Answer | None = None
    """Are the treads whole boards or slabs, without mesh, slots or holes?"""
    tread_holes: NoneOr[Openings] | None = None
    """Holes in the treads, bottom to top, by tape or by ball; one reading for all of them, or none."""
    tread_steps: NoneOr[SmallPlaces] | None = None
    """Sudden steps within one tread, at their highest: one reading, or a list bottom to top, or none."""
    nosing_damage: NoneOr[tuple[NoneOr[Damage] | None, ...]] | None = None
    """What is broken out of each nosing, bottom to top, or none where nothing is."""
    strips: NoneOr[Strips] | None = None
    """Marking strips on the nosings, or none."""
    nosings_seen: Answer | None = None
    """Do the leading edges of the treads stand out to the eye?"""
    nosing_underside_shaped: Answer | None = None
    """Is the underside of the nosings without an abrupt edge that a toe can catch?"""
    treads_sound: Answer | None = None
    """Are all treads there, firm and level?"""
    stringers_sound: Answer | None = None
    slip_resistant: Answer | None = None
    """Does a sole hold on the treads when they are wet?"""
    drains_water: Answer | None = None
    """Does water run off, so that none stands on the treads?"""
    unobstructed: Answer | None = None
    """Is the flight free of things that stand in the way?"""
    curve_radius: Long | None = None
    """Curved: level, from the axis of the curve to the narrow edge of the treads."""
    turns_one_way: Answer | None = None
    """Do all tapered treads turn the same way?"""
    headroom_across: HeadroomAcross | None = None
    """Where the ceiling slopes across the flight."""
    headroom_beam: NoneOr[LongPlaces] | None = None
    """Plumb above the nosing line to a beam or duct below the ceiling, or none."""
    width_between_rails: LongPlaces | None = None
    """Clear between neighbouring handrails, left to right, for each part of a flight that rails divide."""
    width_beside_lift: LongPlaces | None = None
    """Clear width beside a stairlift, its seat folded."""
