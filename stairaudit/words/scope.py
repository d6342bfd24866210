"""What was looked at and what was not, for whom, and against which edition."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stairaudit.findings import Audit
from stairaudit.survey import Survey


def scope_of(survey: Survey) -> str:
    """Return the scope of a report as one paragraph."""
    day = f"on {survey.date.isoformat()}" if survey.date else "on one day"
    client = f"for {survey.client} only" if survey.client else "only for the person who ordered it"
    return (
        f"This is a visual, non-invasive check of what could be seen and measured {day}, of the parts that could be "
        "reached. Nothing was taken apart and nothing was loaded: what is concealed was not looked at, and strength, "
        "decay, fixings and wiring were not assessed. Things change afterwards. It is not an engineer's work and not "
        "a code inspection; only the authority can say what a stair must be. It was made "
        f"{client}; nobody else should rely on it."
    )


def adopted_of(survey: Survey, audits: Sequence[Audit]) -> Iterator[str]:
    """Yield the edition that the authority named, and beside it what the readings were set against."""
    told = survey.authority
    if told is None or not told.edition:
        yield "No edition was told by the authority. What is in force here has to be asked."
    else:
        when = f" on {told.date.isoformat()}" if told.date else ""
        by = f", told by {told.told_by}{when}" if told.told_by else f", told{when}" if when else ""
        place = f"{told.place}: " if told.place else ""
        yield f"As told by the authority: {place}{told.edition}{by}."
    for audit in audits:
        ruleset = audit.ruleset
        document = " ".join(filter(None, (ruleset.document, ruleset.edition)))
        yield f"Set beside: {document} (rule set {ruleset.id})."
    yield "Whether the two agree, and with which local changes, is for the authority to say."
