"""The photos of a survey, each with the part that it shows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from stairaudit.parts import Photo
from stairaudit.survey import Stair, Survey


class Picked(NamedTuple):
    """A photo: its path below the folder of the survey, and what to call it."""

    file: str
    text: str

    @property
    def told(self) -> str:
        """The path, and what to call it where that is something else."""
        return self.file if self.text == self.file else f"{self.file} ({self.text})"


def _same(told: str) -> str:
    return " ".join(told.replace("_", " ").casefold().split())


def _picked(photo: Photo) -> Picked:
    return Picked(photo.file, photo.caption or photo.file)


def _of_flight(stair: Stair, flight_id: str | None) -> Iterator[Photo]:
    for flight in stair.flights:
        if flight_id in (None, flight.id):
            yield from flight.photos or ()


def photos_of(survey: Survey, stair_id: str, flight_id: str | None, parts: Iterable[str]) -> tuple[Picked, ...]:
    """Return the photos that are told to show one of some parts, those of the stair included."""
    wanted = {_same(part) for part in parts}
    found = []
    for stair in survey.stairs:
        if stair.id == stair_id:
            photos = (*_of_flight(stair, flight_id), *(stair.photos or ()))
            found += [_picked(photo) for photo in photos if photo.shows is not None and _same(photo.shows) in wanted]
    return tuple(found)


def _named(survey: Survey) -> Iterator[tuple[str, Photo]]:
    for stair in survey.stairs:
        name = stair.name or stair.id
        yield from ((name, photo) for photo in stair.photos or ())
        for flight in stair.flights:
            yield from ((f"{name}, flight {flight.id}", photo) for photo in flight.photos or ())


def photos_of_the_whole(survey: Survey) -> Iterator[tuple[str, Picked]]:
    """Yield the photos that show no part alone, each with the stair or flight that it shows."""
    yield from ((name, _picked(photo)) for name, photo in _named(survey) if photo.shows is None)


def photos_of_parts(survey: Survey) -> Iterator[tuple[str, Picked]]:
    """Yield the photos that are told to show a part, whether it stands in a document or not, with stair and part."""
    yield from ((f"{name}, {photo.shows}", _picked(photo)) for name, photo in _named(survey) if photo.shows)
