"""Frozen models of a survey: what was measured and how finely it was read. No limits, no arithmetic."""

# No postponed annotations here: pydantic would have to compile each of them again at every start.

import re
from itertools import pairwise
from typing import Annotated, Literal

from annotated_types import MinLen
from pydantic import BeforeValidator, model_validator

from stairaudit.fields import (
    Angle,
    AnglePlaces,
    Answer,
    Area,
    Date,
    FormatNumber,
    Id,
    LongOrZero,
    LongPlaces,
    Material,
    Name,
    NoneOr,
    OpenOr,
    Part,
    Pitch,
    Risers,
    Short,
    ShortPlaces,
    SlopePlaces,
    Small,
    SmallPlaces,
    Text,
)
from stairaudit.parts import (
    Condition,
    Glazing,
    Landings,
    Lighting,
    Photo,
    Sides,
    UnderStair,
)
from stairaudit.railings import Guard, Handrail, LongGuard, Openings
from stairaudit.readings import Count
from stairaudit.surfaces import Coverings, OneTread, TaperedTread, WalkedOn

Form = Literal[
    "straight", "winder", "mixed", "spiral", "curved", "ship-ladder", "alternating-tread", "loft", "loft-ladder",
]  # fmt: skip
Setting = Literal["indoor", "outdoor", "garage"]
TAPERED_FORMS: tuple[Form, ...] = ("winder", "spiral", "curved")
Use = Literal["one-dwelling", "shared-dwelling", "workplace", "public"]
Serves = Literal[
    "building", "porch", "deck", "garden", "attic-storage", "crawl-space", "patio", "basement", "loft",
]  # fmt: skip


def _years(raw: object) -> str:
    text = str(raw)
    match = re.fullmatch(r"(\d{4})(?:-(\d{4}))?", text)
    if text != "unknown" and not match:
        raise ValueError(f"{text!r} is no year; write 1994, 1990-1996 or unknown")
    if match and match[2] and match[2] < match[1]:
        raise ValueError(f"{text!r} runs backwards; write the earlier year first")
    return text


Route = Literal[
    "everyday", "secondary", "bedrooms-only", "one-room", "rarely-used-room", "service", "escape-only", "accessible",
    "not-required",
]  # fmt: skip
Building = Literal[
    "house", "flats", "office", "shop", "factory-warehouse", "school", "institution", "assembly", "other"
]
Occupancy = Literal[
    "A", "B", "E", "F", "H", "I-1", "I-2", "I-3", "I-4", "M", "R-1", "R-2", "R-3", "R-4", "S", "U",
]  # fmt: skip
Work = Literal["none", "loft-conversion", "conversion"]
Accepted = Literal["historic", "meets-1991", "meets-earlier-code", "pitch-cannot-change"]
Many = Annotated[int, Count(100_000)]


Years = Annotated[str, BeforeValidator(_years)]


class TotalRise(Part):
    """From the lower floor to the upper floor, measured in one go."""

    value: LongOrZero
    at: Literal["last-step", "edge", "other"] | None = None
    """Where it was taken: plumb at the last step, at the edge of the upper floor, or elsewhere."""


def _total(raw: object) -> object:
    return raw if isinstance(raw, dict) and "again" not in raw else {"value": raw}


class Flight(WalkedOn):
    """One flight of steps between two floors or landings."""

    id: Id
    form: Form | None = None
    """straight when left out."""
    turns: Literal["left", "right"] | None = None
    """Which way winders, a spiral or a curve turn, going up."""
    total_rise: (
        Annotated[TotalRise, BeforeValidator(_total, json_schema_input_type=LongOrZero | TotalRise)] | None
    ) = None
    risers: tuple[ShortPlaces, ...] | None = None
    """Bottom to top: floor to tread, tread to tread, tread to floor. A list inside is places across."""
    levels: tuple[LongOrZero | None, ...] | None = None
    """In place of risers: heights of floor, treads and floor above one datum, bottom to top."""
    riser_count: Risers | None = None
    sampled: Answer | None = None
    """yes when only the tallest and the shortest riser were read."""
    tallest: Short | None = None
    shortest: Short | None = None
    treads: tuple[OneTread, ...] | None = None
    """Bottom to top, nosing to nosing, horizontal; a winder, spiral or curved tread as {narrow, walkline, wide}."""
    walkline_out: Short | None = None
    """How far out from the narrow side the walkline readings were taken."""
    pole_diameter: Short | None = None
    """Spiral: across the pole, or twice the way from the axis to the narrow edge of the treads."""
    treads_alike: Answer | None = None
    """Spiral: are all treads of one size and shape?"""
    projected_treads: ShortPlaces | None = None
    """Alternating treads: depth of each tread board seen from above; one reading, or a list bottom to top."""
    tread_widths: ShortPlaces | None = None
    """Alternating treads: width of each tread; one reading, or a list bottom to top."""
    first_tread_at_floor: Answer | None = None
    """Alternating treads: is the first tread level with the floor that it starts from?"""
    pitch: Pitch | None = None
    """Angle of the nosing line from level, by a level laid along the nosings."""
    top_tread: Literal["level-with-landing", "one-rise-below"] | None = None
    """one-rise-below when left out."""
    nosings: NoneOr[tuple[SmallPlaces, ...]] | None = None
    """Projection, bottom to top, the last at the upper landing's edge; none when there are none."""
    nosing_edge: Literal["round", "bevelled", "square"] | None = None
    nosing_radius: SmallPlaces | None = None
    """One reading, or a list bottom to top."""
    nosing_bevel: SmallPlaces | None = None
    """One reading, or a list bottom to top."""
    riser_form: Literal["closed", "open"] | None = None
    riser_openings: Openings | None = None
    """Open risers, bottom to top: the gap or a ball, and how high the opening is above what lies below."""
    riser_slopes: AnglePlaces | None = None
    """Angle of the riser face from plumb: one reading, or a list bottom to top."""
    tread_slopes: SlopePlaces | None = None
    """How much each tread is out of level, in its steepest direction: one reading, or a list."""
    tread_material: Material | None = None
    tread_labelled: Answer | None = None
    """Is a maker's label or listing to be seen on the treads (plastic composite)?"""
    measured_over: Literal["bare", "carpet", "mixed"] | None = None
    """What the tape stood on; mixed where some readings were taken over carpet and some not."""
    coverings: Coverings | None = None
    """What lies on the treads and on the floors at both ends, with its thickness."""
    width: LongPlaces | None = None
    """Clear width above the handrail, at its least."""
    width_at_rail: LongPlaces | None = None
    """Clear width at and below the handrail, at its least."""
    headroom: OpenOr[LongPlaces] | None = None
    """Plumb above the nosing line; open when nothing is above."""
    opening_edge: NoneOr[Small] | None = None
    """How far the edge of the floor opening stands in over the side of the flight, or none."""
    sides: Sides | None = None
    handrails: NoneOr[tuple[Handrail, ...]] | None = None
    """The handrails, or none."""
    handrail_reach: LongPlaces | None = None
    """Level, from any part of the width in use to the nearest handrail, at its greatest."""
    lost_handrail: Answer | None = None
    """Are there traces of a handrail that is gone?"""
    guards: NoneOr[tuple[Guard, ...]] | None = None
    """The guards along the flight, or none."""
    triangle_open: Answer | None = None
    """Cut string: is the triangle of tread and riser left open to see through?"""
    landings: Landings | None = None
    photos: tuple[Photo, ...] | None = None
    notes: Text | None = None

    @model_validator(mode="after")
    def _walkline_inside(self) -> "Flight":
        tapers = [tread for tread in self.treads or () if isinstance(tread, TaperedTread)]
        if self.walkline_out is None or not tapers:
            return self
        widths = [tread.width.value for tread in tapers if tread.width] + [w.value for w in self.width or () if w]
        if widths and self.walkline_out.value >= max(widths):
            raise ValueError("walkline_out lies outside the flight, which is no wider; count it from the narrow side")
        if self.pole_diameter is not None:
            across = self.pole_diameter.value + 2 * self.walkline_out.value
            if any(tread.walkline and tread.walkline.value > across for tread in tapers):
                raise ValueError("a tread is deeper at the walkline than the circle of the walkline is wide")
        return self

    @model_validator(mode="after")
    def _in_order(self) -> "Flight":
        known = [level.value for level in self.levels or () if level is not None]
        if any(upper <= lower for lower, upper in pairwise(known)):
            raise ValueError("the levels do not rise from each to the next; give them bottom to top, above one datum")
        if self.tallest is not None and self.shortest is not None and self.tallest.value < self.shortest.value:
            raise ValueError("the tallest riser is less than the shortest; exchange them")
        return self


class Stair(Part):
    """One stair: its flights, what it serves, and what was seen of its condition."""

    id: Id
    name: Name | None = None
    setting: Setting | None = None
    use: Use | None = None
    built: Years | None = None
    """Year, range 1990-1996, or unknown."""
    altered: Years | None = None
    installed: Date | None = None
    """The day on which it was put in, where a day is known."""
    serves: Serves | None = None
    """What the stair is part of or leads to; building when left out."""
    bulkhead: Answer | None = None
    """Is it a stair under a bulkhead door, from a basement to the ground? no when left out."""
    bulkhead_height: LongPlaces | None = None
    """From the basement floor to the ground beside a bulkhead stair."""
    required_egress: Answer | None = None
    """Is it part of the required way out?"""
    leads_to_basement: Answer | None = None
    """Does an outside stair lead from the ground down to a basement?"""
    route: Route | None = None
    """What the stair is for."""
    building: Building | None = None
    """What kind of building it stands in."""
    occupancy: Occupancy | None = None
    """The group that the authority has put the building in."""
    work: Work | None = None
    """The work that the stair came with."""
    inside_dwelling: Answer | None = None
    """Does it lie within one dwelling?"""
    open_to_public: Answer | None = None
    young_children: Answer | None = None
    """May young children use the building?"""
    permanent: Answer | None = None
    """Will it stay, or does it serve the time of the work only?"""
    lift_beside: Answer | None = None
    """Does a lift, ramp or other accessible way join the same levels?"""
    accessible: Answer | None = None
    """Is it part of an accessible way or dwelling?"""
    factory_built: Answer | None = None
    """Does it belong to a factory-built (manufactured) home?"""
    pitch_fixed: Answer | None = None
    """Can its pitch not be reduced in the space there is?"""
    secondary_suite: Answer | None = None
    """Does the house have a second, smaller dwelling in it?"""
    alpine: Answer | None = None
    """Does it stand outside in an alpine area?"""
    people_served: Many | None = None
    storeys: Many | None = None
    """Storeys that it joins."""
    homes_served: Many | None = None
    served_area: Area | None = None
    """Ship ladder or alternating treads: area of the space that they serve, such as 150 sq ft."""
    only_kitchen_or_bath: Answer | None = None
    """Does that space hold the only kitchen or bathroom of the dwelling?"""
    risers_in_row: Risers | None = None
    """Most risers one after another, over as many flights, with no landing between that turns."""
    flights: Annotated[tuple[Flight, ...], MinLen(1)]
    lighting: Lighting | None = None
    glazing: NoneOr[tuple[Glazing, ...]] | None = None
    """Glass near the stair, or none."""
    under_stair: UnderStair | None = None
    guards: tuple[LongGuard, ...] | None = None
    """Guards that run along several flights and landings in one piece."""
    condition: Condition | None = None
    photos: tuple[Photo, ...] | None = None
    notes: Text | None = None


class Authority(Part):
    """What the local authority was asked, and who answered."""

    place: Name | None = None
    edition: Name | None = None
    told_by: Name | None = None
    accepted: tuple[Accepted, ...] | None = None
    """What the authority has accepted for this stair; told by it, never inferred."""
    date: Date | None = None


class InstrumentsUsed(Part):
    """Smallest division read on each instrument."""

    tape: Small | None = None
    level: Angle | None = None


class Survey(Part):
    """One visit: who measured what, where, when and with what."""

    format: FormatNumber
    """1, the only format so far."""
    site: Name | None = None
    date: Date | None = None
    surveyor: Name | None = None
    client: Name | None = None
    """For whom the report is; it is for nobody else."""
    access: Text | None = None
    """What could not be reached or looked at, and why."""
    weather: Text | None = None
    """Weather and light on the day, as far as they bear on what could be seen."""
    units: Literal["in", "mm", "cm", "ft"] | None = None
    """The unit of every bare number in this file."""
    purpose: Literal["as-found", "repair", "replace", "new"] | None = None
    tenure: Literal["owner", "rented"] | None = None
    authority: Authority | None = None
    rulesets: tuple[Name, ...] | None = None
    """Rule sets to check against; the command line may name others."""
    instruments: InstrumentsUsed | None = None
    stairs: Annotated[tuple[Stair, ...], MinLen(1)]
    notes: Text | None = None
