"""What a typed reading may have meant: with a space put in, or in another unit."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stairaudit.lengths import NM_PER_64TH, Length, Unit, parse_length, plain

UNITS: tuple[Unit, ...] = ("in", "ft", "mm", "cm")
_DIGITS = re.compile(r'([0-9]{2,8})\s*(?:in|inch|inches|")?\.?')
_WITH_UNIT = re.compile(r"([0-9./ ]*[0-9./])\s*[^0-9./ ]*")
_TAPE_PARTS = (2, 4, 8, 16, 32, 64)


def _read(text: str, unit: Unit) -> Iterator[Length]:
    try:
        yield parse_length(text, unit)
    except ValueError:
        return


def _splits(digits: str, parts: tuple[int, ...]) -> Iterator[Length]:
    """Yield the readings of `parts` of an inch that digits run together may have been, the bottom there or lost."""
    for i in range(1, len(digits)):
        for j in range(i + 1, len(digits) + 1):
            whole, top, bottom = digits[:i], digits[i:j], digits[j:]
            if top.startswith("0") or bool(bottom) == bool(parts):
                continue
            for part in parts or (int(bottom),):
                yield from _read(f"{whole} {top}/{part}", "in")


def spaced(typed: str, mark: Length) -> tuple[Length, ...]:
    """Return the inches and fractions that digits run together may stand for [nm], on a tape with such marks [nm].

    Where none has a bottom of its own, the bottom of the fraction counts as lost.

    >>> from stairaudit.lengths import NM_PER_IN
    >>> [[nm / NM_PER_IN for nm in spaced(typed, NM_PER_IN // 16)] for typed in ("734", "7516", "77")]
    [[7.75], [7.3125], [7.875, 7.4375]]
    """
    match = _DIGITS.fullmatch(plain(typed))
    if match is None:
        return ()
    on_tape = tuple(part for part in _TAPE_PARTS if NM_PER_64TH * 64 // part >= mark)
    return tuple(_splits(match[1], ())) or tuple(_splits(match[1], on_tape))


def other_units(typed: str) -> Iterator[tuple[Length, str]]:
    """Yield what the same figure is in each unit in which it can be read [nm], with the text for it."""
    match = _WITH_UNIT.fullmatch(plain(typed))
    for unit in UNITS if match else ():
        text = f"{match[1].strip()} {unit}" if match else ""
        for value in _read(text, unit):
            yield value, text
