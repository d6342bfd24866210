"""Checks over a whole survey that no single field can make: counts that fit and ids that differ."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from stairaudit.documents import Path
from stairaudit.survey import TAPERED_FORMS


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


SEEN_FROM_HERE = {"same_as", "depth", "width"}


def _tapered(flight: dict[str, Any], path: Path) -> Iterator[Slip]:
    if flight.get("form") in ("mixed", *TAPERED_FORMS):
        return
    for index, tread in enumerate(_items(flight, "treads")):
        if isinstance(tread, dict) and "again" not in tread:
            found = f"a tapered tread stands in a flight of form {flight.get('form') or 'straight'}"
            yield Slip((*path, "treads", index), found, "write form: mixed, winder, spiral or curved")
            return


def _landings(flight: Any) -> Iterator[tuple[str, tuple[str | int, ...], Any]]:
    """Yield each landing of a flight by its name, with its path below the flight."""
    told = flight.get("landings") if isinstance(flight, dict) else None
    for place in ("top", "bottom"):
        if isinstance(told, dict) and told.get(place) is not None:
            yield f"landing {place}", ("landings", place), told[place]
    for index, landing in enumerate(_items(told, "middle")):
        yield f"landing middle {index + 1}", ("landings", "middle", index), landing


class _Named(NamedTuple):
    """The ids of the flights of a stair, the landings told there, and those told as the same as another."""

    flights: set[str]
    landings: set[str]
    same: dict[str, str]


def _names(stair: Any) -> _Named:
    flights = [flight for flight in _items(stair, "flights") if isinstance(flight, dict)]
    named = _Named({str(flight.get("id")) for flight in flights}, set(), {})
    for flight in flights:
        for name, _, landing in _landings(flight):
            other = landing.get("same_as") if isinstance(landing, dict) else None
            if other:
                named.same[f"{flight.get('id')} {name}"] = str(other)
            else:
                named.landings.add(f"{flight.get('id')} {name}")
    return named


def _told_in_full(named: _Named, name: str) -> str | None:
    """Return the landing that a chain of same_as ends at, None for a ring or a loose end."""
    passed: set[str] = set()
    while name in named.same and name not in passed:
        passed.add(name)
        name = named.same[name]
    return name if name in named.landings else None


def _unknown_landing(named: _Named, name: str, listed: str) -> tuple[str, str]:
    if name not in named.same:
        return f"no landing is told as {name!r}", f"accepted: {listed}"
    end = _told_in_full(named, name)
    wanted = f"name {end!r}" if end else f"name one that is told in full ({listed})"
    return f"{name!r} is itself told as the same as {named.same[name]!r}", wanted


def _references(stair: Any, path: Path) -> Iterator[Slip]:
    """Find what names a flight or a landing that is not there."""
    known = _names(stair)
    flights, landings, same = known
    listed = ", ".join(sorted(landings)) or "no landing is told yet"
    for index, flight in enumerate(_items(stair, "flights")):
        for _, below, landing in _landings(flight):
            named = landing.get("same_as") if isinstance(landing, dict) else None
            if not isinstance(named, str):
                continue
            at = (*path, "flights", index, *below)
            if named not in landings:
                yield Slip((*at, "same_as"), *_unknown_landing(known, named, listed))
            if set(landing) - SEEN_FROM_HERE:
                wanted = "only depth and width, as seen from this flight, are told here"
                yield Slip(at, "a landing that is same_as another is told there", wanted)
    for index, guard in enumerate(_items(stair, "guards")):
        for number, name in enumerate(_items(guard, "along")):
            at = (*path, "guards", index, "along", number)
            if not isinstance(name, str):
                continue
            if name in same:
                yield Slip(at, *_unknown_landing(known, name, listed))
            elif name not in flights | landings:
                wanted = f"accepted: {', '.join(sorted(flights))}, {listed}"
                yield Slip(at, f"{name!r} is no flight and no landing", wanted)


def slips(data: Any) -> list[Slip]:
    """Return what does not fit in a survey given as plain data."""
    found = list(_repeated_ids(_items(data, "stairs"), ("stairs",)))
    for number, stair in enumerate(_items(data, "stairs")):
        found += _references(stair, ("stairs", number))
        path: Path = ("stairs", number, "flights")
        found += _repeated_ids(_items(stair, "flights"), path)
        for index, flight in enumerate(_items(stair, "flights")):
            if isinstance(flight, dict):
                found += _too_many(flight, (*path, index))
                found += _two_ways(flight, (*path, index))
                found += _tapered(flight, (*path, index))
    return found
