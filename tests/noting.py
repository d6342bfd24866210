"""Data notes on a survey of one flight, as facts and in words."""

from __future__ import annotations

from typing import Any

from cases import audit_of, survey_of

from stairaudit.datanotes import notes_on
from stairaudit.engine import prepared
from stairaudit.findings import DataNote
from stairaudit.words.data_notes import note_words


def told(flight: dict[str, Any], stair: dict[str, Any] | None = None, **top: Any) -> list[str]:
    """Return the data notes in words, as the person tells lengths."""
    unit = top.get("units", "in")
    return [note_words(note, unit) for note in audit_of(survey_of(flight, stair, **top)).notes]


def notes_of(flight: dict[str, Any], **top: Any) -> tuple[DataNote, ...]:
    """Return the data notes that need no rule set."""
    return notes_on(prepared(survey_of(flight, **top)))


def kinds(flight: dict[str, Any], **top: Any) -> list[str]:
    """Return the kinds of the data notes that need no rule set."""
    return [note.kind for note in notes_of(flight, **top)]


def sixteenths(count: int) -> str:
    """Return a count of sixteenths of an inch as it is typed."""
    whole, rest = divmod(count, 16)
    return f"{whole} {rest}/16" if rest else str(whole)
