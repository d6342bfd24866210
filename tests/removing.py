"""Surveys with one thing less: what is no longer told must never make a pass."""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator
from typing import Any

from stairaudit.errors import InputError

# What a part is called is no reading of it.
KEPT = {"format", "units", "id", "stairs", "flights", "side"}
Passes = set[tuple[Any, ...]]


def without_one(data: Any) -> Iterator[Any]:
    """Yield the data with one key or one place after the other taken out, at every depth."""
    items = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in list(items):
        if key not in KEPT:
            less = copy.copy(data)
            if isinstance(less, dict):
                del less[key]
            else:
                less[key] = None
            yield less
        for inner in without_one(value):
            less = copy.copy(data)
            less[key] = inner
            yield less


def new_passes(data: dict[str, Any], passes: Callable[[dict[str, Any]], Passes]) -> Iterator[tuple[Passes, Any]]:
    """Yield, for each survey with one thing less that can still be read, the passes that are new, and the survey."""
    before = passes(data)
    for less in without_one(data):
        try:
            after = passes(less)
        except InputError:
            continue
        yield after - before, less
