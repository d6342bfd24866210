"""Measures of how tapered treads follow each other and of risers one after another."""

from __future__ import annotations

from itertools import groupby

from stairaudit.context import Context
from stairaudit.samples import Sample, Samples, Value, absent, unmeasured
from stairaudit.survey import TAPERED_FORMS


def _longest(numbers: list[int]) -> int:
    """Return how many numbers the longest run of neighbours has.

    >>> _longest([2, 3, 4, 7, 8])
    3
    """
    runs = groupby(enumerate(numbers), key=lambda item: item[1] - item[0])
    return max(len(list(run)) for _, run in runs)


def winders_in_turn(context: Context) -> Samples:
    """Most tapered treads one after another; one that may be one and is not told of is left out of the count."""
    every = context.this.form in TAPERED_FORMS
    if context.tread_count == 0 or not (every or context.this.form == "mixed"):
        return (absent("flight"),)
    sure = [number for number, tread in context.tapers if every or tread is not None]
    missing = tuple(f"tread {number}" for number, tread in context.tapers if number not in sure)
    missing += () if context.tread_count is not None else ("risers",)
    if not sure:
        return (unmeasured("flight", *(missing or ("treads",))),)
    return (Sample("flight", (Value(_longest(sure)),), None, not missing, missing),)


def risers_in_row(context: Context) -> Samples:
    """Most risers one after another, with no landing between that turns."""
    told = context.stair.risers_in_row
    return (unmeasured("stair", "risers in row") if told is None else Sample("stair", (Value(told),)),)
