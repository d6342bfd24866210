"""What every document says beside its findings: how it was measured, how its figures are known, what it is not."""

from __future__ import annotations

from collections.abc import Iterable

from stairaudit.angles import show_angle
from stairaudit.context import instruments_of
from stairaudit.decision import Outcome
from stairaudit.findings import Audit, Finding
from stairaudit.lengths import Unit, show_error, show_length
from stairaudit.survey import Survey

STATEMENT = (
    "This report sets readings beside published figures. It approves nothing and condemns nothing: "
    "the local authority decides, and its own measurement is the one that counts."
)
HOW_KNOWN = "How it is known"
STRENGTH = "strength not assessed"


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


def from_memory(audits: Iterable[Audit]) -> int:
    """Return how many rules were set beside the stair whose figure is known from memory only."""
    return sum(len({f.rule.id for f in a.findings if _recalled(f)}) for a in audits)


def _recalled(finding: Finding) -> bool:
    return finding.rule.provenance == "memory" and finding.outcome is not Outcome.NOT_APPLICABLE


def provenance_of(audit: Audit) -> list[str]:
    """Return how far the figures of the rule set can be trusted."""
    rules = audit.ruleset.rules
    counts = {name: sum(rule.provenance == name for rule in rules) for name in ("seen", "secondary", "memory")}
    lines = [
        f"Of its {len(rules)} figures and duties {counts['seen']} were read in the text itself, "
        f"{counts['secondary']} were read where others quote it, {counts['memory']} from memory only."
    ]
    lines += [note for note in audit.ruleset.notes if note.startswith(HOW_KNOWN)]
    used = from_memory([audit])
    if used:
        lines.append(f"Used here and known from memory only, so look it up in the document: {used}.")
    if audit.ruleset.status == "provisional":
        lines.append("This rule set is provisional: fewer than half of its figures were read or quoted.")
    if not audit.ruleset.shipped:
        lines.append("This rule set is your own file; it was not shipped with stairaudit.")
    return lines
