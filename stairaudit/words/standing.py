"""What every document says beside its findings: how it was measured, what to ask, what it is not."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import Any

from stairaudit.angles import show_angle
from stairaudit.context import instruments_of
from stairaudit.documents import read_document
from stairaudit.findings import Audit
from stairaudit.lengths import Unit, show_error, show_length
from stairaudit.survey import Survey

STATEMENT = (
    "This report sets readings beside published figures. It approves nothing and condemns nothing: "
    "the local authority decides, and its own measurement is the one that counts."
)
STRENGTH = "strength not assessed"
HERE = Path(__file__).parent


def method_of(survey: Survey, decision: str, unit: Unit) -> list[str]:
    """Return how the readings were taken and judged, in plain words."""
    error = instruments_of(survey)
    named = survey.instruments
    tape = named.tape.typed if named and named.tape else show_length(error.tape, "in")
    level = show_angle(error.level)
    near, far = (show_error(error.length_u(reading), unit) for reading in (0, 10**10))
    told = "as told" if named and named.tape else "taken as usual, since none was told"
    level_told = "as told" if named and named.level else "taken as usual, since none was told"
    lines = [
        f"Smallest division read on the tape: {tape} ({told}); on the level: {level} ({level_told}).",
        f"One tape reading is taken to be uncertain by {near} (one standard uncertainty), and by {far} above "
        "one metre. Close means that the limit lies within what this tape can tell apart in 95 of 100 cases; "
        "measuring again could change the result.",
        "Measuring error is never used to excuse a reading that is outside a figure.",
    ]
    if decision == "guarded":
        lines.append("Guarded decision: a reading inside a figure but close to it is counted as outside.")
    else:
        lines.append("Each reading is compared with the figure as it was read.")
    return lines


def _years(text: str | None) -> int | None:
    match = re.match(r"\d{4}", text or "")
    return int(match[0]) if match else None


@lru_cache(maxsize=1)
def _cautions() -> tuple[dict[str, str], ...]:
    data: Any = read_document((HERE / "cautions.yaml").read_bytes(), "cautions.yaml").data
    return tuple(data["cautions"])


def cautions_of(survey: Survey) -> list[str]:
    """Return the cautions that apply to the stairs of this survey."""
    built = [_years(stair.built) for stair in survey.stairs]
    shown = []
    for caution in _cautions():
        before = caution.get("built_before")
        if before is None or any(year is None or year < int(before) for year in built):
            shown.append(caution["text"])
    return shown


def _edition(survey: Survey) -> str:
    told = survey.authority
    if told is None or not told.edition:
        return "Which code and edition is in force for this stair, and with which local changes?"
    by = f" ({told.told_by})" if told.told_by else ""
    return f"You were told {told.edition}{by}: is that what counts for this stair, with which local changes?"


def office_of(survey: Survey) -> Iterator[str]:
    """Yield what to ask the local office."""
    yield _edition(survey)
    if survey.purpose in (None, "as-found"):
        yield "Is an existing stair judged by today's figures, or by those of the year it was built?"
    else:
        yield "Does the office take this as a repair or as a new stair, and is a permit needed?"
    yield "At which point across the width is the bottom riser taken where the ground slopes?"
    if survey.tenure == "rented":
        yield "Does a rental or property maintenance rule apply as well?"


def provenance_of(audit: Audit) -> list[str]:
    """Return how far the figures of the rule set can be trusted."""
    rules = audit.ruleset.rules
    counts = {name: sum(rule.provenance == name for rule in rules) for name in ("seen", "secondary", "memory")}
    lines = [
        f"Of its {len(rules)} figures and duties {counts['seen']} were read in the text itself, "
        f"{counts['secondary']} were read where others quote it, {counts['memory']} from memory only."
    ]
    lines += [note for note in audit.ruleset.notes if note.startswith("How it is known")]
    used = {finding.rule.id for finding in audit.findings if finding.rule.provenance == "memory"}
    if used:
        lines.append(f"Used here and known from memory only, so look it up in the document: {len(used)}.")
    if audit.ruleset.status == "provisional":
        lines.append("This rule set is provisional: fewer than half of its figures were read or quoted.")
    if not audit.ruleset.shipped:
        lines.append("This rule set is your own file; it was not shipped with stairaudit.")
    return lines
