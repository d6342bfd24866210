"""The sentences that go with one finding."""

from __future__ import annotations

from collections.abc import Iterator

from stairaudit.decision import Outcome
from stairaudit.findings import Finding
from stairaudit.lengths import Unit, show_length
from stairaudit.words.figures import at_of, at_words, reading_of
from stairaudit.words.missing_names import missing_of, plainly

WORDS = {
    (Outcome.PASS, False): "within",
    (Outcome.PASS, True): "within, close",
    (Outcome.WARN, False): "outside",
    (Outcome.WARN, True): "outside, close",
    (Outcome.UNMEASURED, False): "not measured",
    (Outcome.NOT_APPLICABLE, False): "does not apply",
}
ADVICE_WORDS = {
    (Outcome.PASS, False): "in line",
    (Outcome.PASS, True): "in line, close",
    (Outcome.WARN, False): "worth a look",
    (Outcome.WARN, True): "worth a look, close",
}
SIGNS = {Outcome.PASS: "+", Outcome.WARN: "!", Outcome.UNMEASURED: "?", Outcome.NOT_APPLICABLE: "-"}


def word_of(finding: Finding) -> str:
    """Return the outcome in words."""
    key = (finding.outcome, finding.close)
    if finding.rule.level == "advice" and key in ADVICE_WORDS:
        return ADVICE_WORDS[key]
    return WORDS[key]


def listed(names: tuple[str, ...]) -> str:
    """Return names as people list them: a, b and c."""
    if len(names) < 2:
        return "".join(names)
    return ", ".join(names[:-1]) + " and " + names[-1]


def _missing(finding: Finding, unit: Unit) -> Iterator[str]:
    if finding.outcome is not Outcome.UNMEASURED:
        if finding.missing and finding.outcome is Outcome.WARN:
            yield f"Not measured besides: {listed(plainly(missing_of(finding)))}."
        return
    if finding.ball is not None and finding.limit.low is not None and not finding.readings:
        size = show_length(finding.limit.low, unit)
        yield f"The ball that was tried settles nothing here: it needs a {size} ball."
    if finding.missing:
        yield f"Missing: {listed(plainly(missing_of(finding)))}."


def _close(finding: Finding) -> Iterator[str]:
    if not finding.close:
        return
    where = f" {listed(finding.again)}" if finding.again != (finding.part,) else ""
    if finding.rule.measure.sphere and finding.ball is None:
        yield "Too close to call by tape: try the ball."
    elif finding.rule.measure.kind == "spread":
        yield f"Too close to call: take a fresh reading of{where or ' each of them'}."
    else:
        yield f"Too close to call with this instrument: measure{where} again."


def _excused(finding: Finding) -> Iterator[str]:
    if finding.outcome is Outcome.NOT_APPLICABLE:
        yield "The conditions of this clause do not hold here." if finding.excused else "It is not there."


SURFACES = {
    "over carpet": "Read over carpet.",
    "bare, worked out": "Read over carpet and brought to the hard surface by the thickness told.",
}


def origin_of(finding: Finding) -> Iterator[str]:
    """Say where a value comes from that no tape showed as it stands."""
    if finding.value is None:
        return
    if finding.basis in SURFACES:
        yield SURFACES[finding.basis]
    elif finding.computed:
        yield "Worked out from other readings."


def notes_of(finding: Finding, unit: Unit) -> list[str]:
    """Return every sentence that goes with a finding."""
    notes = [*_missing(finding, unit), *_close(finding), *_excused(finding), *origin_of(finding)]
    place = at_of(finding.at)
    if place is not None and finding.outcome is Outcome.WARN:
        notes.append(f"Worst at: {place}.")
    if finding.opposite is not None:
        other = finding._replace(value=finding.opposite.x, at=finding.opposite.at)
        notes.append(f"Outside at the other end too: {reading_of(other, unit)}{at_words(other.at)}.")
    if finding.rule.provenance == "memory":
        notes.append("This figure is known from memory only: look it up in the document.")
    if finding.rule.replaced:
        notes.append(f"Amended; before: {finding.rule.replaced}.")
    return notes
