"""Read and print angles in degrees and slopes as rise over run."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from stairaudit.lengths import NUMBER, objection, parse_length, plain, quoted, trimmed

_AN_ANGLE = "an angle such as 30 deg"
_A_SLOPE = "a slope such as 1:48, 2 %, 1/4 in per ft or 0.5 deg"
_DEGREES = re.compile(rf"({NUMBER})\s*(deg\.?|degrees?|[°º])?")
_RATIO = re.compile(rf"({NUMBER})\s*(?::|in)\s*({NUMBER})")
_PERCENT = re.compile(rf"({NUMBER})\s*(?:%|percent|per cent)")
_LENGTH_PER_LENGTH = re.compile(r"(.+)(?:\bper\b|/)([^/]+)")
_FULL_TURN = 360


def _degrees(typed: str, bare: bool) -> Fraction:
    match = _DEGREES.fullmatch(typed)
    if match is None:
        raise ValueError(objection(typed, _AN_ANGLE))
    if match[2] is None and not bare:
        raise ValueError(f"has no unit; write {match[1]} deg")
    value = Fraction(match[1])
    if value > _FULL_TURN:
        raise ValueError("is more than a full turn; write an angle of at most 360 deg")
    return value


def parse_angle(text: str, *, bare: bool = False) -> Fraction:
    """Read an angle [deg] such as `30 deg`, `30°` or `0.5 degrees`; with `bare` also `30`.

    Raises ValueError: a sentence for the person, with what to write in its place.

    >>> parse_angle("0.5 deg")
    Fraction(1, 2)
    """
    try:
        return _degrees(plain(text), bare)
    except ValueError as slip:
        raise ValueError(f"{quoted(text)} {slip}") from None


def show_angle(value: int | Fraction) -> str:
    """Print an angle [deg] with two decimals at most.

    >>> show_angle(Fraction("31.5594"))
    '31.56 deg'
    """
    return f"{trimmed(value, 2)} deg"


def slope_of_degrees(degrees: int | Fraction) -> Fraction:
    """Return rise over run for an angle [deg] below 90, as exact as a float is."""
    return Fraction(math.tan(math.radians(degrees)))


def _length_per_length(typed: str) -> Fraction | None:
    match = _LENGTH_PER_LENGTH.fullmatch(typed)
    if match is None:
        return None
    run_text = match[2] if any(c.isdigit() for c in match[2]) else f"1 {match[2]}"
    try:
        rise, run = parse_length(match[1]), parse_length(run_text)
    except ValueError:
        return None
    return _over(Fraction(rise), Fraction(run))


def _over(rise: Fraction, run: Fraction) -> Fraction:
    if run == 0:
        raise ValueError(f"has no run to rise over; write {_A_SLOPE}")
    return rise / run


def _rise_over_run(typed: str) -> Fraction:
    if typed == "level":
        return Fraction(0)
    if match := _RATIO.fullmatch(typed):
        return _over(Fraction(match[1]), Fraction(match[2]))
    if match := _PERCENT.fullmatch(typed):
        return Fraction(match[1]) / 100
    # Above 45 deg the caller refuses; 89 keeps the tangent finite on the way there.
    if (match := _DEGREES.fullmatch(typed)) and match[2]:
        return slope_of_degrees(min(Fraction(match[1]), Fraction(89)))
    if re.fullmatch(NUMBER, typed):
        raise ValueError(f"has no unit; write {_A_SLOPE}")
    slope = _length_per_length(typed)
    if slope is None:
        raise ValueError(objection(typed, _A_SLOPE))
    return slope


def parse_slope(text: str) -> Fraction:
    """Read a slope [rise/run] such as `1:48`, `2 %`, `1/4 in per ft`, `0.5 deg` or `level`.

    Raises ValueError: a sentence for the person, with what to write in its place.

    >>> parse_slope("1/4 in per ft") == parse_slope("1:48") == Fraction(1, 48)
    True
    """
    try:
        slope = _rise_over_run(plain(text))
        if slope > 1:
            raise ValueError("is steeper than 1:1; write the rise first, as in 1:48")
    except ValueError as slip:
        raise ValueError(f"{quoted(text)} {slip}") from None
    return slope


def show_slope(value: int | Fraction) -> str:
    """Print a slope [rise/run] or a signed difference of slopes as a ratio and in per cent.

    >>> show_slope(Fraction(1, 48)), show_slope(0)
    ('1:48 (2.1 %)', 'level')
    """
    if value == 0:
        return "level"
    sign = "-" if value < 0 else ""
    return f"{sign}1:{trimmed(1 / abs(Fraction(value)), 1)} ({trimmed(value * 100, 1)} %)"
