"""Models of what the foot stands on where it is no plain tread: tapered treads and coverings."""

# No postponed annotations here: pydantic would have to compile each of them again at every start.

from typing import Annotated, Literal

from pydantic import Discriminator, Tag

from stairaudit.fields import NoneOr, Part, Short, ShortPlaces, Small


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


def _way(raw: object) -> str:
    tapered = isinstance(raw, TaperedTread) or (isinstance(raw, dict) and "again" not in raw)
    return "=tapered" if tapered else "=plain"


OneTread = Annotated[
    Annotated[ShortPlaces, Tag("=plain")] | Annotated[TaperedTread, Tag("=tapered")], Discriminator(_way)
]

SOFT = ("carpet", "runner", "rug", "mat")


class Covering(Part):
    """One covering."""

    kind: Literal["carpet", "runner", "rug", "mat", "tile", "boards", "sheet"] | None = None
    """carpet, runner, rug and mat are soft and left out of a reading; tile, boards and sheet count as the floor."""
    thickness: Small | None = None
    """Pressed down, as under the tape."""


class Coverings(Part):
    """What lies on the treads and on the floors at both ends: a covering, or none."""

    treads: NoneOr[Covering] | None = None
    bottom: NoneOr[Covering] | None = None
    top: NoneOr[Covering] | None = None
