"""What was not measured, put together by what is missing: one line for each topic and place."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from stairaudit.survey import Flight, Stair, Survey
from stairaudit.words.missing_names import Topic, plainly, topic_of
from stairaudit.words.notes import listed
from stairaudit.words.rows import Row


class Waiting(NamedTuple):
    """A check that waits: its title, its clause, its figure, and what was read and is known of it so far."""

    title: str
    clause: str
    limit: str
    known: str

    @property
    def told(self) -> str:
        """The check with its clause and its figure, and what is known so far."""
        aside = "; ".join(filter(None, (self.clause, self.limit)))
        return f"{self.title}{f' ({aside})' if aside else ''}{self.aside}"

    @property
    def named(self) -> str:
        """The check with its clause."""
        told = f"{self.title} [{self.clause}]" if self.clause else self.title
        return f"{told}{self.aside}"

    @property
    def aside(self) -> str:
        """What was read and is known so far, in brackets; empty where nothing is."""
        return f" ({self.known})" if self.known else ""


class Open(NamedTuple):
    """Readings of one topic that are missing, where, and the checks that wait for them."""

    topic: str
    places: tuple[str, ...]
    needs: tuple[str, ...]
    checks: tuple[Waiting, ...]

    @property
    def where(self) -> str:
        """The flights; empty where there is only one."""
        return ", ".join(filter(None, self.places))

    @property
    def missing(self) -> str:
        """What is missing, as one text."""
        return "; ".join(self.needs)

    @property
    def titles(self) -> tuple[str, ...]:
        """The checks without clauses, with what is known of them."""
        return tuple(dict.fromkeys(f"{check.title}{check.aside}" for check in self.checks))


def _flights(stair: Stair, flight_id: str | None) -> list[Flight]:
    return [flight for flight in stair.flights if flight_id in (None, flight.id)]


def _no_grip(flight: Flight) -> bool:
    rails = flight.handrails
    return rails is None or (isinstance(rails, tuple) and all(rail.grip is None for rail in rails))


def _nothing_told(survey: Survey, topic: Topic, stair_id: str, flight_id: str | None) -> bool:
    """Say whether a survey is silent about all of a topic that can be told in one piece."""
    stair = next(stair for stair in survey.stairs if stair.id == stair_id)
    if topic.told_by == "grip":
        return all(map(_no_grip, _flights(stair, flight_id)))
    return getattr(stair, topic.told_by) is None


def _needs(survey: Survey, topic: Topic, stair: str, flight: str | None, rows: list[Row]) -> tuple[str, ...]:
    names = dict.fromkeys(name for row in rows for name in row.missing)
    if not topic.own or not _nothing_told(survey, topic, stair, flight):
        return plainly(names)
    others = [name for name in names if not re.match(topic.own, f"{name} ")]
    return (*((f"{topic.bare}: not told",) if len(others) < len(names) else ()), *plainly(others))


def _waiting(rows: Iterable[Row]) -> Iterator[Waiting]:
    for row in rows:
        known = [f"read: {row.reading}" if row.reading else ""]
        known += [note for note in row.notes if not note.startswith("Missing:")] if row.reading else []
        limit = "" if row.limit.startswith("expected:") else row.limit
        yield Waiting(row.title, row.clause, limit, ". ".join(filter(None, known)))


def open_of(survey: Survey, rows: Iterable[Row], several: bool) -> tuple[Open, ...]:
    """Put together what waits for readings of one topic; places that lack the same for the same checks are one.

    The places are named where there are several flights. Nothing is left out.
    """
    merged: dict[tuple[str, tuple[str, ...], tuple[Waiting, ...]], list[str]] = {}
    for stair, flight, needs, topics in _by_topic(survey, rows):
        place = "/".join(filter(None, (stair, flight))) if several else ""
        checks = tuple(dict.fromkeys(_waiting(row for mine in topics.values() for row in mine)))
        merged.setdefault((listed(tuple(topics)), needs, checks), []).append(place)
    return tuple(Open(topic, tuple(places), needs, checks) for (topic, needs, checks), places in merged.items())


Topics = dict[str, list[Row]]


def _by_topic(survey: Survey, rows: Iterable[Row]) -> Iterator[tuple[str, str | None, tuple[str, ...], Topics]]:
    """Yield what is missing at one place, with the rows that wait for just that by their topics."""
    groups: dict[tuple[str, str | None, Topic], list[Row]] = {}
    for row in rows:
        groups.setdefault((row.stair, row.flight, topic_of(row.measure)), []).append(row)
    alike: dict[tuple[str, str | None, tuple[str, ...]], Topics] = {}
    for (stair, flight, topic), mine in groups.items():
        needs = _needs(survey, topic, stair, flight, mine)
        alike.setdefault((stair, flight, needs), {})[topic.name] = mine
    yield from ((*place, topics) for place, topics in alike.items())


def of_limits(rows: Iterable[Row]) -> list[Row]:
    """Return the rows of limits; advice counts only where there is nothing else."""
    listed = list(rows)
    return [row for row in listed if row.level == "limit"] or listed


def how_to(rows: Iterable[Row]) -> tuple[tuple[str, str], ...]:
    """Return how to measure what is missing, each once, with the checks that it is for."""
    told: dict[str, dict[str, None]] = {}
    for row in rows:
        if row.how_to_measure:
            told.setdefault(row.how_to_measure, {})[row.title] = None
    return tuple(("; ".join(titles), how) for how, titles in told.items())
