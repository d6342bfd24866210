"""The head of a document: where, when, by whom and for whom, and what was seen besides the readings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from stairaudit.findings import Audit
from stairaudit.lengths import Unit
from stairaudit.survey import Survey
from stairaudit.words.photos import photos_of_the_whole

UNITS: dict[Unit, str] = {"in": "inches", "ft": "feet and inches", "mm": "millimetres", "cm": "centimetres"}
CONDITION = {"seen": "", "could-not-look": ": could not be looked at", "not-seen": ": looked for, not seen"}


class Fact(NamedTuple):
    """One line of the head of a document."""

    label: str
    value: str


def notes_told(survey: Survey) -> Iterator[Fact]:
    """Yield the person's own notes, with what they are about."""
    if survey.notes:
        yield Fact("Note", survey.notes)
    for stair in survey.stairs:
        if stair.notes:
            yield Fact(f"Note on stair {stair.id}", stair.notes)
        for flight in stair.flights:
            if flight.notes:
                yield Fact(f"Note on flight {stair.id}/{flight.id}", flight.notes)


def _told_by_the_authority(survey: Survey) -> str:
    told = survey.authority
    if told is None:
        return ""
    date = told.date.isoformat() if told.date else None
    return ", ".join(filter(None, (told.place, told.edition, told.told_by, date)))


def facts_of(survey: Survey, unit: Unit) -> Iterator[Fact]:
    """Yield the head of a document about a survey; what was not told is left out."""
    told = {
        "Site": survey.site,
        "Client": survey.client,
        "Measured on": survey.date.isoformat() if survey.date else "",
        "Measured by": survey.surveyor,
        "Weather and light": survey.weather,
        "Could not be reached": survey.access,
        "Purpose": (survey.purpose or "").replace("-", " "),
        "Told by the authority": _told_by_the_authority(survey),
    }
    yield from (Fact(label, value) for label, value in told.items() if value)
    for name, photo in photos_of_the_whole(survey):
        yield Fact(f"Photo of {name}", photo.told)
    yield from notes_told(survey)
    yield Fact("Shown in", UNITS[unit])


def condition_of(audits: Sequence[Audit], seen: bool) -> tuple[str, ...]:
    """Return the items of the condition list that were seen, or those that were not."""
    return tuple(
        f"{item.item.replace('_', ' ')} (stair {item.stair}){CONDITION[item.state]}"
        for item in (audits[0].seen if audits else ())
        if (item.state == "seen") == seen
    )
