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
    LongPlaces,
    Name,
    NoneOr,
    OpenOr,
    Part,
    Slope,
    Small,
    Text,
)
from stairaudit.railings import Guard
from stairaudit.readings import is_reading


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


class Sides(Part):
    """Left and right as seen going up."""

    left: OneSide | None = None
    right: OneSide | None = None


class LandingSides(Sides):
    """Left and right as seen going up, and the far side of the landing."""

    end: OneSide | None = None


class Slopes(Part):
    """How much a floor is out of level, along the way of travel and across it."""

    along: Slope | None = None
    across: Slope | None = None


def _slopes(raw: object) -> object:
    return {"along": raw, "across": raw} if is_reading(raw) else raw


class Door(Part):
    """A door that opens on a landing."""

    kind: Literal["required-egress", "exterior", "interior"] | None = None
    """required-egress is the one door the code asks for as the way out."""
    swings_over_stair: Answer | None = None
    """Does the leaf swing over the steps? Screen and storm doors do not count."""
    width: Long | None = None
    threshold_drop: Small | None = None
    """From the top of the threshold down to the landing or floor."""


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
    door: NoneOr[Door] | None = None
    """The door that opens here, or none."""
    small_balcony: Answer | None = None
    """An outside balcony under 60 sq ft reached only from one door."""


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
