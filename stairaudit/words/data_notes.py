"""Readings that do not add up, in words: what was seen, and what to measure again."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from stairaudit.angles import show_angle
from stairaudit.findings import DataNote
from stairaudit.lengths import NM_PER_64TH, NM_PER_MM, Unit, show_length
from stairaudit.samples import Number

AS_SEEN = "Left and right are as seen going up: look again which side it stands on."


def _sizes(note: DataNote, unit: Unit) -> list[str]:
    return [show_length(size, unit) for size in note.sizes]


def _near(nm: Number, unit: Unit) -> str:
    """Return a length that was worked out to the nearest mark that a tape has."""
    mark = 4 * NM_PER_64TH if unit in ("in", "ft") else NM_PER_MM
    return show_length(round(Fraction(nm) / mark) * mark, unit)


def _either(texts: list[str]) -> str:
    return " or ".join(filter(None, [", ".join(texts[:-1]), texts[-1]]))


def _rise(note: DataNote, unit: Unit) -> str:
    added, total = _sizes(note, unit)
    return (
        f": the risers add up to {added}, but the total rise was read as {total}; the tape does not explain it. Look "
        "for a riser left out or misread, and measure both again."
    )


def _ball(_: DataNote, __: Unit) -> str:
    return (
        ": what the ball shows and what the tape shows cannot both be right. The ball was believed; try it and "
        "measure again."
    )


def _pitch(note: DataNote, _: Unit) -> str:
    level, tape = (show_angle(Fraction(angle)) for angle in note.angles)
    return (
        f": the nosing line was read as {level}, but the risers and treads make it {tape}; level and tape do not "
        "explain it. Lay the level on the nosings again at several places, and measure the treads again from nosing "
        "to nosing, without the overhang."
    )


def _rail(note: DataNote, unit: Unit) -> str:
    rail, line = (show_angle(Fraction(angle)) for angle in note.angles)
    words = f": the rail was read as {rail}, but the nosing line rises at {line}"
    if note.sizes:
        gain, run = note.sizes
        does = f"gain about {_near(gain, unit)} on" if gain > 0 else f"lose about {_near(-gain, unit)} to"
        words += f": over {_near(run, unit)} of run the rail would {does} it"
    return f"{words}. Read its angle again, and its height plumb above the nosings at the bottom and at the top."


def _count(note: DataNote, _: Unit) -> str:
    told, given, fitting = note.counts
    are = f"{given} {'is' if given == 1 else 'are'} given"
    if note.part == "levels":
        return f": {told} risers are told, but the levels given make {given}. Count the risers again."
    if note.part == "risers":
        return (
            f": {told} risers are told, but {are}; those left out are taken to lie at the top. Count them "
            "again, and write ~ for one that was not measured."
        )
    return (
        f": {told} risers are told, which go with {fitting} treads, but {are}; those left out are taken to "
        "lie at the top. Count both again, and write ~ for a tread that was not measured."
    )


def _sum_right(note: DataNote, likely: str) -> str:
    return f" As read the risers do not add up to the total rise; with {likely} they do." if note.sure else ""


def _space(note: DataNote, unit: Unit) -> str:
    read, *likely = _sizes(note, unit)
    meant = _either(likely)
    return (
        f": '{note.typed}' was typed, which is {read} and far from the others; a space seems to be lost. {meant} "
        f"would be like them.{_sum_right(note, meant)} Read it again."
    )


def _inches(note: DataNote, unit: Unit) -> str:
    read, likely = _sizes(note, unit)
    off = show_length(abs(Fraction(note.sizes[0] - note.sizes[1])), unit)
    block = note.kind == "four-inch-slip"
    cause = "a block under the tape that was not taken off" if block else "one slip of the eye"
    others = "the others" if note.sure else "the others, which are even"
    return (
        f": {read} lies {off} off {others}; {cause} looks just so. {likely} would be like them."
        f"{_sum_right(note, likely)} Read it again."
    )


def _file_unit(note: DataNote, unit: Unit) -> str:
    return (
        f": the risers are about {show_length(note.sizes[0], unit)}, which is no riser; {note.typed!r} as "
        f"{note.meant} would be one. Look at the unit of this file."
    )


def _widths(note: DataNote, unit: Unit) -> str:
    at_rail, above = _sizes(note, unit)
    return (
        f": it was read as {at_rail} wide at the rail and {above} above it, but a rail takes width away. Look "
        "which is which, and measure both again."
    )


def _walkline(note: DataNote, unit: Unit) -> str:
    read, worked = _sizes(note, unit)
    return (
        f": its depth at the walkline was read as {read}, but its ends and the width make {worked} there. Measure "
        "all three again, level and from nosing to nosing."
    )


def _at_wall(_: DataNote, __: Unit) -> str:
    return f": it stands on a side that is told as a wall. {AS_SEEN}"


def _denied(_: DataNote, __: Unit) -> str:
    return ": guards are told as none, and a guard of the stair runs along it. Look again which holds."


def _trigger(note: DataNote, unit: Unit) -> str:
    value, figure = _sizes(note, unit)
    return (
        f": whether clauses apply hangs on the {note.meant} of {value} against {figure}, which is too close to call. "
        "Measure it again."
    )


def _unit(note: DataNote, unit: Unit) -> str:
    read, likely = _sizes(note, unit)
    return (
        f": '{note.typed}' was typed, which is {read} and far from the others; as {note.meant} it would be {likely} "
        f"and like them.{_sum_right(note, likely)} Read it again, and write its unit."
    )


def _sides(note: DataNote, _: Unit) -> str:
    if "handrail" in (note.part or ""):
        return f": the rail is told to be beside a wall, but that side is open and the other one is a wall. {AS_SEEN}"
    return f": a guard is told on a side that is a wall, while the other side is open and has none. {AS_SEEN}"


def _mixed(_: DataNote, __: Unit) -> str:
    return (
        ": some readings were taken over carpet and some not, so that they do not go together. Measure all of them "
        "again on one surface, best on the bare one."
    )


def _more_or_less(size: Number, unit: Unit) -> str:
    if size == 0:
        return "as read"
    return f"{show_length(abs(Fraction(size)), unit)} {'more' if size > 0 else 'less'} than read"


def _ends(note: DataNote, unit: Unit) -> str:
    sizes = [_more_or_less(size, unit) for size in note.sizes]
    if len(sizes) == 1:
        return f": the coverings of the floors differ; without them the riser is {sizes[0]}. Measure it again bare."
    if sizes:
        return (
            f": the coverings of treads and floors differ; without them the bottom riser is {sizes[0]}, the top "
            f"riser {sizes[1]}, and those between as read. Measure both ends again on the bare surface."
        )
    return (
        ": the readings were taken over carpet, and what lies on the treads and on both floors is not told in full. "
        "Equal carpet cancels between two treads; what differs lands in the bottom and the top riser. Measure both "
        "again on the bare surface, or tell each covering with its thickness."
    )


def _edge(note: DataNote, unit: Unit) -> str:
    if not note.sizes:
        return (
            ": the total rise was read at the edge of the upper floor, and the first riser shows that the ground is "
            "not level. Measure the total rise again, plumb at the last step."
        )
    size, run = (_near(size, unit) for size in note.sizes)
    return (
        ": the total rise was read at the edge of the upper floor, and the landing at the foot is out of level "
        f"along the flight; over {run} of run that makes about {size}. Measure the total rise again, plumb at "
        "the last step."
    )


def _across(note: DataNote, unit: Unit) -> str:
    size, width = (_near(size, unit) for size in note.sizes)
    return (
        ": it was read at one place, and the landing at the foot is out of level across the flight; over "
        f"{width} of width that makes about {size} from left to right. Read it at both sides."
    )


WORDS: dict[str, Callable[[DataNote, Unit], str]] = {
    "risers-against-total-rise": _rise,
    "ball-against-tape": _ball,
    "pitch-against-readings": _pitch,
    "rail-angle-against-nosings": _rail,
    "riser-count": _count,
    "lost-space": _space,
    "inch-slip": _inches,
    "four-inch-slip": _inches,
    "unit-slip": _unit,
    "unit-of-file": _file_unit,
    "widths-exchanged": _widths,
    "walkline-against-ends": _walkline,
    "guard-at-wall": _at_wall,
    "guards-denied": _denied,
    "close-trigger": _trigger,
    "sides-exchanged": _sides,
    "covering-mixed": _mixed,
    "covering-at-ends": _ends,
    "total-rise-at-edge": _edge,
    "cross-slope-at-foot": _across,
}


# Kinds that say that two readings, or a reading and a word, cannot both be right. The others ask for a reading more,
# or for one taken in another way.
DISAGREE = frozenset((
    "risers-against-total-rise", "ball-against-tape", "pitch-against-readings", "rail-angle-against-nosings",
    "lost-space", "inch-slip", "four-inch-slip", "unit-slip", "unit-of-file", "widths-exchanged", "guard-at-wall",
    "guards-denied", "sides-exchanged", "walkline-against-ends",
))  # fmt: skip


def note_words(note: DataNote, unit: Unit) -> str:
    """Return a note about the readings themselves in words, lengths in the given unit."""
    where = f"Stair '{note.stair}'" if note.flight is None else f"Flight '{note.flight}' of stair '{note.stair}'"
    # A count is of the whole flight, and its words name what was counted.
    part = f", {note.part}" if note.part and note.kind != "riser-count" else ""
    return f"{where}{part}{WORDS[note.kind](note, unit)}"
