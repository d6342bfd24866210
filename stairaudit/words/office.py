"""What to ask the local office, and which cautions to give: only what fits the survey."""

from __future__ import annotations

from collections.abc import Iterator

from stairaudit.packaged import packaged
from stairaudit.survey import Survey
from stairaudit.words.occasions import fits


def _filled(text: str, survey: Survey) -> str:
    told = survey.authority
    if told is None or not told.edition:
        return text
    by = f" ({told.told_by})" if told.told_by else ""
    return text.replace("{edition}", told.edition).replace("{by}", by)


def office_of(survey: Survey) -> Iterator[str]:
    """Yield what to ask the local office about the stairs of this survey."""
    for entry in packaged("words/office.yaml")["questions"]:
        if fits(entry.get("when"), survey):
            yield _filled(entry["text"], survey)


def cautions_of(survey: Survey) -> list[str]:
    """Return the cautions that apply to the stairs of this survey."""
    return [entry["text"] for entry in packaged("words/cautions.yaml")["cautions"] if fits(entry.get("when"), survey)]
