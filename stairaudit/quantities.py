"""The table of the kinds of quantity: how each is read, printed and put into a machine format."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any, Literal, NamedTuple, TypeAlias

from stairaudit.angles import parse_angle, parse_slope, show_angle, show_slope
from stairaudit.lengths import (
    NM_PER_IN,
    NM_PER_MM,
    NUMBER,
    Unit,
    marked,
    millimetres,
    objection,
    parse_length,
    plain,
    quoted,
    show_length,
    trimmed,
)

Kind = Literal["length", "spread", "angle", "slope", "area", "count", "yes-no", "light", "word", "day"]
Value: TypeAlias = int | Fraction | bool | str

_MOST_COUNTED = 10_000
_ANSWERS = {"yes": True, "true": True, "no": False, "false": False}
_SQ_NM = {
    "in": NM_PER_IN**2,
    "ft": (12 * NM_PER_IN) ** 2,
    "mm": NM_PER_MM**2,
    "cm": (10 * NM_PER_MM) ** 2,
    "m": (1000 * NM_PER_MM) ** 2,
}
_SHORT_UNITS = {"inch": "in", "inches": "in", "foot": "ft", "feet": "ft"}
_AREA = re.compile(rf"({NUMBER})\s*(?:(?:sq\.?|square)\s*([a-z]+)\.?|([a-z]+)\s*(?:2|²|\^2))")
# One footcandle is one lumen on a square foot, one lux one lumen on a square metre (from memory).
LUX_PER_FOOTCANDLE = 1 / Fraction("0.3048") ** 2
_LIGHT = re.compile(rf"({NUMBER})\s*(?:(fc|foot[ -]?candles?)|lux|lx)")


def _number(value: Value) -> int | Fraction:
    if isinstance(value, (bool, str)):
        raise TypeError(f"{value!r} is not a number")
    return value


def _read_area(typed: str) -> int:
    match = _AREA.fullmatch(typed)
    unit = (match[2] or match[3]) if match else ""
    per = _SQ_NM.get(_SHORT_UNITS.get(unit, unit))
    if match is None or per is None:
        raise ValueError(objection(typed, "an area such as 75 sq in, 5.7 sq ft, 48387 sq mm or 0.65 m2"))
    area = Fraction(match[1]) * per
    if area.denominator != 1:
        raise ValueError("is finer than can be stored, and no reading is rounded; write fewer decimals")
    return area.numerator


def _show_area(value: Value, unit: Unit) -> str:
    area = Fraction(_number(value))
    if unit in ("in", "ft"):
        return f"{marked(area / _SQ_NM['in'], 2)} sq in"
    return f"{marked(area / _SQ_NM['mm'], 2)} mm²"


def _read_count(typed: str) -> int:
    if not re.fullmatch(r"[0-9]{1,7}", typed) or int(typed) > _MOST_COUNTED:
        raise ValueError(f"is not a count; write a whole number from 0 to {_MOST_COUNTED}")
    return int(typed)


def _read_answer(typed: str) -> bool:
    if typed not in _ANSWERS:
        raise ValueError("is not an answer; write yes or no")
    return _ANSWERS[typed]


def _read_light(typed: str) -> Fraction:
    match = _LIGHT.fullmatch(typed)
    if match is None:
        raise ValueError(objection(typed, "a light level such as 1 footcandle or 11 lux"))
    return Fraction(match[1]) * (LUX_PER_FOOTCANDLE if match[2] else 1)


def _show_light(value: Value, unit: Unit) -> str:
    lux = Fraction(_number(value))
    if unit not in ("in", "ft"):
        return f"{trimmed(lux, 1)} lux"
    footcandles = trimmed(lux / LUX_PER_FOOTCANDLE, 2)
    noun = "footcandle" if footcandles == "1" else "footcandles"
    return f"{footcandles} {noun} ({trimmed(lux, 1)} lux)"


def _read_word(typed: str) -> str:
    if not typed:
        raise ValueError("is empty; write a word")
    return typed


def _read_day(typed: str) -> int:
    try:
        return datetime.date.fromisoformat(typed).toordinal()
    except ValueError:
        raise ValueError("is no day; write it as 2017-01-17") from None


def _plainly(reader: Callable[[str], Value]) -> Callable[[str, Unit | None], Value]:
    """Let a reader see keyboard characters only, and put what was typed before its objection."""

    def read_typed(text: str, _: Unit | None) -> Value:
        try:
            return reader(plain(text))
        except ValueError as slip:
            raise ValueError(f"{quoted(text)} {slip}") from None

    return read_typed


class _Manner(NamedTuple):
    """How one kind is read and printed; `scale` of its values make one `unit` of the machine format."""

    read: Callable[[str, Unit | None], Value]
    show: Callable[[Value, Unit], str]
    unit: str | None = None
    scale: int = 1


_LENGTH = _Manner(parse_length, lambda value, unit: show_length(_number(value), unit), "mm")
_MANNERS: dict[Kind, _Manner] = {
    "length": _LENGTH,
    "spread": _LENGTH,
    "angle": _Manner(lambda text, _: parse_angle(text), lambda value, _: show_angle(_number(value)), "deg"),
    "slope": _Manner(lambda text, _: parse_slope(text), lambda value, _: show_slope(_number(value)), "ratio"),
    "area": _Manner(_plainly(_read_area), _show_area, "mm2", NM_PER_MM**2),
    "count": _Manner(_plainly(_read_count), lambda value, _: str(_number(value)), "count"),
    "yes-no": _Manner(_plainly(_read_answer), lambda value, _: "yes" if value else "no"),
    "light": _Manner(_plainly(_read_light), _show_light, "lux"),
    "word": _Manner(_plainly(_read_word), lambda value, _: str(value)),
    "day": _Manner(
        _plainly(_read_day), lambda value, _: datetime.date.fromordinal(int(_number(value))).isoformat(), "day"
    ),
}


def read(kind: Kind, text: str, unit: Unit | None = None) -> Value:
    """Read a quantity exactly.

    Parameters
    ----------
    kind : what sort of quantity the text must be
    text : as typed
    unit : what a bare length is in; the other kinds pay no heed to it

    Returns
    -------
    length and spread [nm], angle [deg], slope [rise/run], area [nm²], count, bool, light [lux], a word or a day,
    counted from the first of the year 1

    Raises
    ------
    ValueError : a sentence for the person, with what to write in its place

    Examples
    --------
    >>> read("count", "14"), read("yes-no", "no"), read("length", "7 3/4", "in")
    (14, False, 196850000)
    """
    return _MANNERS[kind].read(text, unit)


def show(kind: Kind, value: Value, unit: Unit) -> str:
    """Print a quantity, or a signed difference of two, as a person on the job reads it.

    >>> show("area", 75 * NM_PER_IN**2, "in"), show("area", 75 * NM_PER_IN**2, "mm")
    ('75 sq in', '48387 mm²')
    """
    return _MANNERS[kind].show(value, unit)


def show_difference(kind: Kind, value: Value, unit: Unit) -> str:
    """Print a signed difference of two values of a kind; of two slopes it is per cent.

    >>> show_difference("slope", Fraction(1, 200), "in"), show_difference("length", -4_762_500, "in")
    ('0.5 %', '-3/16 in')
    """
    if kind == "slope":
        return f"{trimmed(Fraction(_number(value)) * 100, 1)} %"
    return show(kind, value, unit)


def json_value(kind: Kind, value: Value) -> dict[str, Any]:
    """Return a quantity for a machine format: `mm` for lengths, else `value` with its `unit`.

    >>> json_value("length", 201_612_500), json_value("yes-no", True)
    ({'mm': 201.6125}, {'value': True, 'unit': None})
    """
    manner = _MANNERS[kind]
    if manner is _LENGTH:
        return {"mm": millimetres(_number(value))}
    if isinstance(value, (bool, str)) or kind == "count":
        return {"value": value, "unit": manner.unit}
    return {"value": float(Fraction(value) / manner.scale), "unit": manner.unit}
