"""Read a length as it is written on a job and print it again; no other module knows an inch."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import Literal, TypeAlias
from unicodedata import normalize

Length: TypeAlias = int
Unit = Literal["in", "mm", "cm", "ft"]

# International yard and pound agreement of 1959: 1 yd = 0.9144 m, so 1 in = 25.4 mm exactly (from memory).
NM_PER_MM = 1_000_000
NM_PER_IN = 25_400_000
NM_PER_64TH = NM_PER_IN // 64
_NM_PER_CM = 10 * NM_PER_MM
_NM_PER_M = 1000 * NM_PER_MM
_NM_PER_FT = 12 * NM_PER_IN
_MARKS_PER_IN = 64
_TAPE_PARTS = (2, 4, 8, 16, 32, 64)

_NM_PER_WORD = {
    **dict.fromkeys(("in", "inch", "inches", '"'), NM_PER_IN),
    **dict.fromkeys(("ft", "foot", "feet", "'"), _NM_PER_FT),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), NM_PER_MM),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), _NM_PER_CM),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), _NM_PER_M),
}
_METRIC = (NM_PER_MM, _NM_PER_CM, _NM_PER_M)

# What phones and word processors put in place of the plain marks of a keyboard.
_LOOKALIKES = {
    **dict.fromkeys("\u00a0\u2007\u2009\u202f", " "),
    **dict.fromkeys("″“”„‟", '"'),
    **dict.fromkeys("′‘’‛", "'"),
    **dict.fromkeys("⁄∕", "/"),
    **dict.fromkeys("\u2010\u2011\u2012–—−", "-"),
}
# NFKC writes ½ as 1⁄2 with a fraction slash; the space before it keeps 7½ from becoming 71/2.
_GLYPHS = {glyph: f" {normalize('NFKC', glyph)}".replace("⁄", "/") for glyph in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
_PLAIN = str.maketrans(_LOOKALIKES | _GLYPHS)

NUMBER = r"(?:[0-9]{1,7}(?:\.[0-9]{0,12})?|\.[0-9]{1,12})"
_SHAPE = re.compile(
    rf"""
    (?: (?P<feet>[0-9]{{1,7}}) \s* (?: ' | (?:ft|foot|feet)\.? ) \s* -? \s* (?=[0-9.]) )?
    (?: (?: (?P<whole>[0-9]{{1,7}}) (?: \s*-\s* | \s+ ) )?
        (?P<top>[0-9]{{1,7}}) \s*/\s* (?P<bottom>[0-9]{{1,7}})
      | (?P<decimal>{NUMBER}) )
    \s* (?: (?P<unit> ["'] | [a-z]+ ) \.? )?
    """,
    re.VERBOSE | re.ASCII,
)
_SLIPS = [
    (r"^(yes|no|y|n|on|off|true|false|null|none|unmeasured|~|)$", "is not a measurement; write {wanted}"),
    (r"(?<![a-z])(nan|inf|infinity)(?![a-z])", "is not a measurement; write {wanted}"),
    (r"[0-9]e[+-]?[0-9]", "has an exponent; write the digits out, as in 1000"),
    (r"_", "has an underscore; write the digits together, as in 1000"),
    (r"[0-9],[0-9]{3}(?![0-9])", "has a comma; write thousands as 1200 and decimals with a point, as 1.2"),
    (r"[0-9],[0-9]", "has a decimal comma; write {pointed}"),
    (r"^[+-]", "starts with a sign; a reading is zero or more, so leave the sign off"),
    (r"[0-9]{8}", "has more digits than can be measured; write {wanted}"),
]
_LENGTH_SLIPS = [
    *_SLIPS,
    (r"[0-9]:[0-9]", "looks like a clock time; write feet and inches as 6' 8\""),
    (
        r"(?<![a-z])(strong|shy|scant|full|heavy|light|bare|hair|over|under|plus|minus|about|approx|ca)(?![a-z])"
        r"|[+-]$|[~<>±]|\+/?-",
        "is not one mark of the tape; record the nearest mark and give the tape's smallest division, "
        "as in instruments: {{tape: 1/16 in}}",
    ),
    (r"\.[0-9]*[\s-]+[0-9]+\s*/", "mixes a decimal with a fraction; write 7.75 or 7 3/4"),
    (r"\.[0-9]*\s*('|ft|foot|feet).*[0-9]", "has a decimal in the feet; write whole feet, then the inches"),
    (r"[0-9\"a-z]\s*(-|to)\s*[0-9]+(?![0-9]|\s*/)", "looks like a range; write one reading for each place"),
    (r"[0-9]\s+[0-9]+(?![0-9]|\s*/)", "has a space between two numbers; write 7 7/8, or 1000 in one piece"),
]
_A_LENGTH = "a length such as 7 3/4 in, 6' 8\", 197 mm, 17.9 cm or 1.2 m"


def _safe(text: str) -> str:
    flat = " ".join(text.split())
    shown = "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in flat)
    return shown if len(shown) <= 40 else shown[:40] + "..."


def quoted(text: str) -> str:
    """Return what the person typed, made safe and short enough to stand inside a message."""
    cut = _safe(text)
    return f"“{cut}”" if "'" in cut else f"'{cut}'"


def plain(text: str) -> str:
    """Return the text in lower case with typographic marks, glyphs and spaces as a keyboard has them."""
    return text.translate(_PLAIN).replace("''", '"').strip().lower()


def objection(typed: str, wanted: str, slips: list[tuple[str, str]] = _SLIPS) -> str:
    """Return why `typed` (as `plain` gives it) is no quantity, with what to write in its place."""
    for pattern, reason in slips:
        if re.search(pattern, typed):
            return reason.format(wanted=wanted, pointed=_safe(typed.replace(",", ".")))
    return f"cannot be read; write {wanted}"


def _tape_fraction(whole: int, top: int, bottom: int) -> tuple[int, int]:
    if bottom not in _TAPE_PARTS:
        parts = "halves, 4ths, 8ths, 16ths, 32nds or 64ths"
        raise ValueError(f"has {top}/{bottom}, which is not a fraction of a tape; use {parts}")
    if top >= bottom:
        raise ValueError(f"has {top}/{bottom}, which is not below one; write whole inches first, as in 1 1/8")
    return whole * bottom + top, bottom


def _times(match: re.Match[str], nm_per_unit: int) -> int:
    if match["decimal"] is None:
        over, under = _tape_fraction(int(match["whole"] or 0), int(match["top"]), int(match["bottom"]))
    else:
        before, _, after = match["decimal"].partition(".")
        over, under = int(before + after), 10 ** len(after)
    nm, rest = divmod(over * nm_per_unit, under)
    if rest:
        raise ValueError("is finer than a nanometre, and no reading is rounded; write fewer decimals")
    return nm


def _nm_per_unit(match: re.Match[str], typed: str, unit: Unit | None) -> int:
    word = match["unit"] or unit
    if word is None:
        bare = _safe(typed)
        choice = f"{bare} in" if match["decimal"] is None else f"{bare} in or {bare} mm"
        raise ValueError(f"has no unit; write {choice}, or give the file one, as in units: in")
    if word not in _NM_PER_WORD:
        raise ValueError(objection(typed, _A_LENGTH, _LENGTH_SLIPS))
    if match["decimal"] is None and _NM_PER_WORD[word] in _METRIC:
        remedy = f"write inches, as in 7 3/4 in, or a decimal, as in 19.5 {word}"
        raise ValueError(f"has a fraction, which goes with inches and not with {word}; {remedy}")
    return _NM_PER_WORD[word]


# Tape readings repeat, and reading a text costs more than judging it.
@lru_cache(maxsize=4096)
def _nanometres(text: str, unit: Unit | None) -> int:
    typed = plain(text)
    match = _SHAPE.fullmatch(typed)
    if match is None:
        raise ValueError(objection(typed, _A_LENGTH, _LENGTH_SLIPS))
    if match["feet"] is None:
        return _times(match, _nm_per_unit(match, typed, unit))
    if _nm_per_unit(match, typed, "in") != NM_PER_IN:
        raise ValueError("mixes feet with another unit; write 6' 8\" or 2032 mm")
    rest = _times(match, NM_PER_IN)
    if rest >= _NM_PER_FT:
        raise ValueError("has 12 inches or more after the feet; keep them under 12, as in 6' 8\"")
    return int(match["feet"]) * _NM_PER_FT + rest


def parse_length(text: str, unit: Unit | None = None) -> Length:
    """Read a length exactly.

    Parameters
    ----------
    text : as typed: `7 3/4 in`, `7¾"`, `6'-8"`, `2 ft 11 5/16 in`, `179 mm`, `17.9 cm`, `1.2 m`
    unit : what a bare number is in; without it a bare number is refused

    Returns
    -------
    The length [nm], never rounded.

    Raises
    ------
    ValueError : a sentence for the person, with what to write in its place

    Examples
    --------
    >>> parse_length("7 3/4", "in")
    196850000
    >>> parse_length("6:8")
    Traceback (most recent call last):
    ValueError: '6:8' looks like a clock time; write feet and inches as 6' 8"
    """
    try:
        return _nanometres(text, unit)
    except ValueError as slip:
        raise ValueError(f"{quoted(text)} {slip}") from None


def _half_up(value: Fraction) -> int:
    # round() goes to the even neighbour, which sends two like halves different ways.
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)


def trimmed(value: int | Fraction, places: int) -> str:
    """Return a number with at most `places` decimals, halves away from zero, no closing zeros.

    >>> trimmed(Fraction(25, 2), 0), trimmed(Fraction(-1, 8), 2), trimmed(197, 2)
    ('13', '-0.13', '197')
    """
    steps = _half_up(abs(Fraction(value)) * 10**places)
    whole, rest = divmod(steps, 10**places)
    decimals = f"{rest:0{places}d}".rstrip("0") if rest else ""
    return ("-" if value < 0 and steps else "") + f"{whole}" + (f".{decimals}" if decimals else "")


def marked(value: Fraction, places: int) -> str:
    """Return a number as `trimmed` does, with a leading ~ when decimals were lost."""
    lost = (value * 10**places).denominator != 1
    return ("~" if lost else "") + trimmed(value, places)


def _nearest_mark(nm: int | Fraction) -> tuple[int, bool]:
    """Return whole 64ths of an inch without sign, and whether the length lies on that mark."""
    marks = abs(Fraction(nm)) * _MARKS_PER_IN / NM_PER_IN
    if marks.denominator == 1:
        return marks.numerator, True
    return 4 * _half_up(marks / 4), False


def _inches(marks: int) -> str:
    whole, rest = divmod(marks, _MARKS_PER_IN)
    part = str(Fraction(rest, _MARKS_PER_IN)) if rest else ""
    return " ".join(filter(None, [str(whole) if whole or not rest else "", part, "in"]))


def _feet(marks: int) -> str:
    feet, rest = divmod(marks, 12 * _MARKS_PER_IN)
    return " ".join(([f"{feet} ft"] if feet else []) + ([_inches(rest)] if rest or not feet else []))


def _decimal_inches(nm: int | Fraction) -> str:
    return trimmed(Fraction(nm) / NM_PER_IN, 3) + " in"


def _metric(nm: int | Fraction, unit: Unit = "mm") -> str:
    if unit == "cm":
        return marked(Fraction(nm) / _NM_PER_CM, 3) + " cm"
    return marked(Fraction(nm) / NM_PER_MM, 2) + " mm"


def show_length(nm: int | Fraction, unit: Unit, *, exact: bool = False) -> str:
    """Print a length in the unit of the survey, marked ~ when it was rounded.

    Parameters
    ----------
    nm : the length or a signed difference of lengths [nm]
    unit : inches go to the nearest 1/16, or to the 1/32 or 1/64 mark it lies on; mm to 0.01 mm
    exact : add decimals and the other system; inches that were rounded always have them

    Examples
    --------
    >>> show_length(201_612_500, "in"), show_length(-4_762_500, "in"), show_length(896_937_500, "ft")
    ('7 15/16 in', '-3/16 in', '2 ft 11 5/16 in')
    >>> show_length(197_000_000, "in"), show_length(197_000_000, "mm")
    ('~7 3/4 in (7.756 in, 197 mm)', '197 mm')
    """
    marks, on_mark = _nearest_mark(nm)
    sign = "-" if nm < 0 and marks else ""
    if unit in ("mm", "cm"):
        aside = sign + _inches(marks) if on_mark else _decimal_inches(nm)
        return _metric(nm, unit) + (f" ({aside})" if exact else "")
    text = ("" if on_mark else "~") + sign + (_feet(marks) if unit == "ft" else _inches(marks))
    return text if on_mark and not exact else f"{text} ({_decimal_inches(nm)}, {_metric(nm)})"


def show_error(nm: float, unit: Unit) -> str:
    """Print a measuring error in the given unit: a mark of the tape where it is one, else decimals.

    >>> show_error(793_750, "in"), show_error(600_000, "in"), show_error(600_000.0, "mm")
    ('1/32 in', '0.024 in', '0.6 mm')
    """
    whole = round(nm)
    if unit in ("in", "ft"):
        return (
            show_length(whole, unit) if whole % NM_PER_64TH == 0 else f"{trimmed(Fraction(whole, NM_PER_IN), 3)} in"
        )
    return f"{trimmed(Fraction(whole, NM_PER_MM), 2)} mm"


def show_both(nm: int | Fraction, unit: Unit) -> str:
    """Print a length [nm] in the unit of the survey, then in the other system.

    >>> show_both(196_850_000, "in"), show_both(197_000_000, "mm")
    ('7 3/4 in (196.85 mm)', '197 mm (7.756 in)')
    """
    if unit in ("in", "ft") and _nearest_mark(nm)[1]:
        return f"{show_length(nm, unit)} ({_metric(nm)})"
    return show_length(nm, unit, exact=True)


def show_exact(nm: int | Fraction, unit: Unit) -> str:
    """Print a length [nm] as one fraction in lowest terms, for a share that no tape shows.

    >>> show_exact(Fraction(107 * NM_PER_IN, 15), "in")
    '107/15 in'
    """
    return f"{Fraction(nm) / _NM_PER_WORD[unit]} {unit}"


def millimetres(nm: int | Fraction) -> float:
    """Return a length [nm] as the nearest float [mm], for machine formats; judge nothing by it.

    >>> millimetres(201_612_500)
    201.6125
    """
    return float(Fraction(nm) / NM_PER_MM)


def inches(nm: int | Fraction) -> float:
    """Return a length [nm] as the nearest float [in], for machine formats; judge nothing by it.

    >>> inches(201_612_500)
    7.9375
    """
    return float(Fraction(nm) / NM_PER_IN)
