"""The field types a survey is made of, each with the widest value that can be true of a stair."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal, TypeVar

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Discriminator,
    StringConstraints,
    Tag,
    WithJsonSchema,
)

from stairaudit.lengths import NM_PER_IN
from stairaudit.readings import PLACES_SCHEMA, Absent, Count, Field, Reading, YesNo

# Surveys and rule sets have each had one format so far.
FORMAT = 1


class Part(BaseModel):
    """A frozen record that refuses unknown keys.

    Building is put off, so that a survey builds its validator once and not once more for each part of it.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


def _several(raw: object) -> object:
    return list(raw) if isinstance(raw, (list, tuple)) else [raw]


def _alone_or_several(raw: object) -> str:
    return "=none" if raw is Absent.NONE or raw == "none" else "=some"


def _open_or_several(raw: object) -> str:
    return "=none" if raw is Absent.NONE or raw == "open" else "=some"


def _date(raw: object) -> object:
    if isinstance(raw, datetime.date):
        return raw
    try:
        return datetime.date.fromisoformat(str(raw))
    except ValueError:
        raise ValueError(f"{str(raw)!r} is no date; write it as 2026-04-18") from None


def _format(raw: object) -> int:
    if str(raw) == str(FORMAT):
        return FORMAT
    if str(raw).isdigit() and int(str(raw)) > FORMAT:
        raise ValueError(
            f"format {raw} is newer than this stairaudit, which reads format {FORMAT}; a newer one is needed"
        )
    raise ValueError(f"{str(raw)!r} is no format; write format: {FORMAT}")


def _absent(_: object) -> Absent:
    return Absent.NONE


Date = Annotated[datetime.date, BeforeValidator(_date)]
FormatNumber = Annotated[int, BeforeValidator(_format), WithJsonSchema({"enum": [FORMAT, str(FORMAT)]})]
Text = Annotated[str, StringConstraints(max_length=2000)]
Name = Annotated[str, StringConstraints(min_length=1, max_length=200)]
Id = Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$")]
Answer = Annotated[bool, YesNo()]
Risers = Annotated[int, Count(400)]

T = TypeVar("T")
NotThere = Annotated[Literal[Absent.NONE], BeforeValidator(_absent), WithJsonSchema({"const": "none"})]
NothingAbove = Annotated[Literal[Absent.NONE], BeforeValidator(_absent), WithJsonSchema({"const": "open"})]
NoneOr = Annotated[Annotated[NotThere, Tag("=none")] | Annotated[T, Tag("=some")], Discriminator(_alone_or_several)]
OpenOr = Annotated[
    Annotated[NothingAbove, Tag("=none")] | Annotated[T, Tag("=some")], Discriminator(_open_or_several)
]

# Bounds that only a slip of the pen can pass: they are no limits of any document.
Short = Annotated[Reading, Field("length", most=120 * NM_PER_IN, most_shown="10 ft", zero=False)]
Small = Annotated[Reading, Field("length", most=48 * NM_PER_IN, most_shown="4 ft")]
Long = Annotated[Reading, Field("length", most=3600 * NM_PER_IN, most_shown="300 ft", zero=False)]
LongOrZero = Annotated[Reading, Field("length", most=3600 * NM_PER_IN, most_shown="300 ft")]
Angle = Annotated[Reading, Field("angle", most=90, most_shown="90 deg")]
Pitch = Annotated[Reading, Field("angle", most=80, most_shown="80 deg", zero=False)]
Thickness = Annotated[Reading, Field("length", most=4 * NM_PER_IN, most_shown="4 in")]
Turn = Annotated[Reading, Field("angle", most=180, most_shown="180 deg")]
Slope = Annotated[Reading, Field("slope", most=1, most_shown="1:1")]
Light = Annotated[Reading, Field("light")]
Area = Annotated[Reading, Field("area", zero=False)]

_LISTED = (BeforeValidator(_several), WithJsonSchema(PLACES_SCHEMA))
ShortPlaces = Annotated[tuple[Short | None, ...], *_LISTED]
SmallPlaces = Annotated[tuple[Small | None, ...], *_LISTED]
LongPlaces = Annotated[tuple[Long | None, ...], *_LISTED]
DropPlaces = Annotated[tuple[LongOrZero | None, ...], *_LISTED]
AnglePlaces = Annotated[tuple[Angle | None, ...], *_LISTED]
SlopePlaces = Annotated[tuple[Slope | None, ...], *_LISTED]

Material = Literal["wood", "concrete", "stone", "steel", "plastic-composite", "other"]
