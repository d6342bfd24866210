"""Models of the parts beside and around a flight: sides, landings, doors, glass, light."""

# No postponed annotations here: pydantic would have to compile each of them again at every start.

from typing import Annotated, Literal

from pydantic import BeforeValidator, model_validator

from stairaudit.fields import (
    Answer,
    Area,
    DropPlaces,
    Light,
    Long,
    LongOrZero,
    LongPlaces,
    Name,
    NoneOr,
    OpenOr,
    Part,
    Slope,
    Small,
    SmallPlaces,
    Text,
    Turn,
)
from stairaudit.railings import Guard, Openings
from stairaudit.readings import Count, is_reading


class OpenSide(Part):
    """A side that is no wall."""

    drop: DropPlaces | None = None
    """Greatest fall to the floor or ground within 36 in out from the edge; 0 where it is flush."""
    guard: Literal["none"] | None = None
    """none where this side was looked at and has no guard."""


def _side(raw: object) -> object:
    if isinstance(raw, str) and raw != "wall":
        raise ValueError(f"{raw!r} stands here; a side is the word wall, or {{drop: 37 1/2}}")
    return {"wall": "yes"} if raw == "wall" else raw


class Side(OpenSide):
    """One side of a flight or landing: the word wall, or {drop: ...}."""

    wall: Answer = False

    @model_validator(mode="after")
    def _wall_has_no_drop(self) -> "Side":
        if self.wall and (self.drop is not None or self.guard is not None):
            raise ValueError("a side is a wall or has a drop, not both")
        return self


OneSide = Annotated[Side, BeforeValidator(_side, json_schema_input_type=Literal["wall"] | Side)]


class FlightSide(Side):
    """One side of a flight: the word wall, {wall: yes, gap: ...}, or {drop: ..., gap: ...}."""

    gap: SmallPlaces | None = None
    """Level, from the edge of the treads to the inner face of the wall or guard beside it, at its widest."""

    @model_validator(mode="after")
    def _gap_to_something(self) -> "FlightSide":
        if self.gap is not None and not (self.wall or self.drop is not None or self.guard is not None):
            raise ValueError("a gap does not tell what side it is on; add wall: yes, or drop: and the fall beside it")
        return self


OneFlightSide = Annotated[FlightSide, BeforeValidator(_side, json_schema_input_type=Literal["wall"] | FlightSide)]


class Sides(Part):
    """Left and right as seen going up."""

    left: OneFlightSide | None = None
    right: OneFlightSide | None = None


class LandingSides(Part):
    """Left and right as seen going up, and the far side of the landing."""

    left: OneSide | None = None
    right: OneSide | None = None
    end: OneSide | None = None


class Slopes(Part):
    """How much a floor is out of level, along the way of travel and across it."""

    along: Slope | None = None
    across: Slope | None = None


def _slopes(raw: object) -> object:
    return {"along": raw, "across": raw} if is_reading(raw) else raw


DoorKind = Literal["required-egress", "exterior", "interior", "cupboard", "secondary-entrance", "gate"]
DoorOpens = Literal["away", "over-landing", "over-stair", "slides"]
LandingKind = Literal["landing", "balcony", "deck", "roof", "floor-edge"]


class Door(Part):
    """A door that opens on a landing."""

    kind: DoorKind | None = None
    """required-egress is the one door the code asks for as the way out."""
    opens: DoorOpens | None = None
    """How the leaf moves; screen and storm doors do not count."""
    swings_over_stair: Answer | None = None
    """Does the leaf swing over the steps? Screen and storm doors do not count. Taken from `opens` when left out."""
    width: Long | None = None
    threshold_drop: Small | None = None
    """From the top of the threshold down to the landing or floor."""
    clear: LongOrZero | None = None
    """Level, from the flight to the leaf at the nearest that it comes while it swings."""
    leaves_depth: LongOrZero | None = None
    """Least depth of landing, in the direction of travel, that the leaf leaves while it swings."""
    leaves_width: LongOrZero | None = None
    """Least width of landing, square to travel, that the leaf leaves while it swings."""
    stands_in: Small | None = None
    """How far the leaf, fully open, stands into the width of the landing."""

    @model_validator(mode="after")
    def _one_way(self) -> "Door":
        if self.opens and self.swings_over_stair is not None and self.swings_over_stair != self.opens_over_stair:
            raise ValueError(f"the door opens {self.opens}, and swings_over_stair says otherwise; give one of them")
        return self

    @property
    def opens_over_stair(self) -> bool | None:
        """Does the leaf swing over the steps, None when nobody told."""
        return self.swings_over_stair if self.opens is None else self.opens == "over-stair"


RailCount = Annotated[int, Count(20, least=0)]


class Landing(Part):
    """A landing or floor at the top, at the bottom or between flights."""

    same_as: Name | None = None
    """A landing of another flight that is this one, as `lower landing top`; only depth and width are told here."""
    present: Answer = True
    depth: LongPlaces | None = None
    """In the direction of travel."""
    width: LongPlaces | None = None
    """Square to travel."""
    shape: Literal["rectangular", "other"] | None = None
    """rectangular when left out."""
    walkline_depth: Long | None = None
    """For another shape: depth along the walkline."""
    area: Area | None = None
    """For another shape: area, such as 1018 sq in."""
    surface: str | None = None
    slope: Annotated[Slopes, BeforeValidator(_slopes, json_schema_input_type=Slope | Slopes)] | None = None
    """{along: 1/4 in per ft, across: 0.5 deg}, or one figure, the steepest in any direction."""
    must_drain: Answer | None = None
    """Is drainage asked for here?"""
    headroom: OpenOr[LongPlaces] | None = None
    """Plumb above the floor; open when nothing is above."""
    sides: LandingSides | None = None
    guards: NoneOr[tuple[Guard, ...]] | None = None
    """The guards of this landing, or none."""
    handrails: NoneOr[RailCount] | None = None
    """How many handrails run along this landing; none and 0 are the same."""
    handrail_heights: LongPlaces | None = None
    """Plumb from the floor of the landing to the top of its handrails."""
    door: NoneOr[Door] | None = None
    """The door that opens here, or none."""
    small_balcony: Answer | None = None
    """An outside balcony under 60 sq ft reached only from one door."""
    kind: LandingKind | None = None
    """What the level part is."""
    turn: Turn | None = None
    """Change of direction between the flights that meet here; 0 deg is straight on, 180 deg is back."""
    ground: Answer | None = None
    """Is it formed by the ground?"""
    sloping_ground: Answer | None = None
    """Does the end riser of the flight run out into ground, or a walk, that slopes across it?"""
    clear: Answer | None = None
    """Is it free of permanent obstructions?"""
    firm: Answer | None = None
    """Is the surface paved or firm for good?"""
    holes: NoneOr[Openings] | None = None
    """Holes in the floor, by tape or by ball, or none."""
    steps: NoneOr[SmallPlaces] | None = None
    """Sudden steps in the floor, each at its highest, or none."""
    gap: NoneOr[SmallPlaces] | None = None
    """Level gaps in the floor, each at its widest, or none."""


def _landing(raw: object) -> object:
    return {"present": "no"} if raw == "none" else raw


OneLanding = Annotated[Landing, BeforeValidator(_landing, json_schema_input_type=Literal["none"] | Landing)]


class Landings(Part):
    """The landings of one flight."""

    top: OneLanding | None = None
    bottom: OneLanding | None = None
    middle: tuple[OneLanding, ...] | None = None
    """Landings between, bottom to top."""


class Lighting(Part):
    """Light on the stair."""

    treads_lit: Answer | None = None
    """Is there electric light on every tread and landing?"""
    level: Light | None = None
    """On the darkest tread, such as 1 footcandle or 11 lux."""
    switch_each_level: Answer | None = None
    automatic: Answer | None = None
    """Is the light remote, central or automatic?"""
    top_landing: Answer | None = None
    """Is there a light at the top landing?"""
    bottom_landing: Answer | None = None
    """Is there a light at the bottom landing?"""
    near_landings: Answer | None = None
    """Is there a light near each landing?"""
    switch_indoors: Answer | None = None
    """Outside: can the light be switched from inside?"""


class Glazing(Part):
    """One pane of glass beside a flight or near its foot."""

    place: Literal["flight", "bottom-landing"] | None = None
    height: LongPlaces | None = None
    """From the walking surface up to the bottom edge of the exposed glass."""
    distance: DropPlaces | None = None
    """Level distance from the walking surface, or from the bottom nosing, to the glass."""
    safety_mark: Answer | None = None
    """Is the mark of safety glazing etched in a corner?"""
    protected: Answer | None = None
    """Is there a rail or guard in front?"""


class UnderStair(Part):
    """The space under the stair."""

    enclosed: Answer | None = None
    """Is the space enclosed and reached by a door or panel?"""
    board: NoneOr[Small] | None = None
    """Thickness of the gypsum board on the underside, or none."""
    headroom: LongPlaces | None = None
    """Plumb from the floor to the underside of the flight where one can walk under it."""
    guarded: Answer | None = None
    """Is there a barrier where the headroom under the flight is less than a person needs?"""


def _beside(raw: object) -> object:
    text = str(raw)
    if text.startswith(("/", "\\", "~")) or ":" in text or ".." in text.replace("\\", "/").split("/"):
        raise ValueError(f"{text!r} is no file below the folder of the survey")
    return text


class Photo(Part):
    """One photo."""

    file: Annotated[Name, BeforeValidator(_beside)]
    """Its path below the folder of the survey, such as photos/riser-4.jpg."""
    shows: Name | None = None
    """The part it shows, such as riser 4; the whole when left out."""
    caption: Text | None = None


SEEN = Literal["seen", "not-seen", "could-not-look"]


class Condition(Part):
    """What was looked for: seen, not-seen or could-not-look. Left out means nobody was asked."""

    rot: SEEN | None = None
    split_at_notch: SEEN | None = None
    loose_tread: SEEN | None = None
    loose_handrail: SEEN | None = None
    nails_withdrawing: SEEN | None = None
    top_bearing_loose: SEEN | None = None
    heel_on_soil: SEEN | None = None
    foot_not_anchored: SEEN | None = None
    post_fixing_loose: SEEN | None = None
    unsealed_cuts: SEEN | None = None
    temporary_fixings: SEEN | None = None
