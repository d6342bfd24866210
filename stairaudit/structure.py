"""Checks over a whole survey that no single field can make: counts that fit and ids that differ."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from stairaudit.documents import Path


class Slip(NamedTuple):
    """One thing that does not fit, with the path of the key it stands at."""

    path: Path
    found: str
    wanted: str


def _items(data: Any, key: str) -> list[Any]:
    value = data.get(key) if isinstance(data, dict) else None
    return value if isinstance(value, list) else []


def _repeated_ids(items: list[Any], path: Path) -> Iterator[Slip]:
    first: dict[str, int] = {}
    for index, item in enumerate(items):
        name = item.get("id") if isinstance(item, dict) else None
        if not isinstance(name, str):
            continue
        if name in first:
            found = f"the id {name!r} is already that of number {first[name] + 1} in this list"
            yield Slip((*path, index, "id"), found, "give each its own id")
        first.setdefault(name, index)


def riser_total(flight: dict[str, Any]) -> int | None:
    """Return how many risers a flight is said to have, None when it is not said."""
    if _items(flight, "levels"):
        return max(len(flight["levels"]) - 1, 0) or None
    count = flight.get("riser_count")
    if isinstance(count, (str, int)) and str(count).isdigit():
        return int(count)
    return len(_items(flight, "risers")) or None


def _too_many(flight: dict[str, Any], path: Path) -> Iterator[Slip]:
    risers = riser_total(flight)
    if risers is None:
        return
    level = flight.get("top_tread") == "level-with-landing"
    most = {"risers": risers, "treads": risers if level else risers - 1, "nosings": risers}
    for key, allowed in most.items():
        given = len(_items(flight, key))
        if given > allowed:
            found = f"{given} {key} are given for a flight of {risers} {'riser' if risers == 1 else 'risers'}"
            yield Slip((*path, key), found, f"at most {allowed} can be")


def _two_ways(flight: dict[str, Any], path: Path) -> Iterator[Slip]:
    if flight.get("levels") is not None and flight.get("risers") is not None:
        yield Slip((*path, "levels"), "risers and levels are both given", "give one of them")
    for key in ("tallest", "shortest"):
        if flight.get(key) is not None and (flight.get("risers") or flight.get("levels")) is not None:
            found = f"{key} is given beside every riser"
            yield Slip((*path, key), found, "give the risers, or sampled: yes with tallest and shortest alone")
    if _items(flight, "levels") and len(flight["levels"]) < 2:
        yield Slip((*path, "levels"), "one level makes no riser", "start with 0 at the lower floor")


def slips(data: Any) -> list[Slip]:
    """Return what does not fit in a survey given as plain data."""
    found = list(_repeated_ids(_items(data, "stairs"), ("stairs",)))
    for number, stair in enumerate(_items(data, "stairs")):
        path: Path = ("stairs", number, "flights")
        found += _repeated_ids(_items(stair, "flights"), path)
        for index, flight in enumerate(_items(stair, "flights")):
            if isinstance(flight, dict):
                found += _too_many(flight, (*path, index))
                found += _two_ways(flight, (*path, index))
    return found
