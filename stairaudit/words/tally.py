"""How many findings came out in which way, as numbers and as one line."""

from __future__ import annotations

from collections import Counter

from stairaudit.decision import Outcome
from stairaudit.findings import Audit, Finding
from stairaudit.words.notes import listed
from stairaudit.words.standing import STRENGTH

# How each section is told in one line, in this order; what was not measured is always told.
TOLD = {
    "within": "within",
    "close": "within but too close to call",
    "outside": "outside",
    "in-line": "in line with the advice",
    "advice": "worth a look",
    "unmeasured": "not measured",
}


def section_of(finding: Finding) -> str:
    """Return the section that a finding stands in."""
    outcome = finding.outcome
    if outcome not in (Outcome.WARN, Outcome.PASS):
        return outcome.value
    if finding.rule.level == "advice":
        return "advice" if outcome is Outcome.WARN else "in-line"
    if outcome is Outcome.WARN:
        return "outside"
    return "close" if finding.close else "within"


def counts_of(audit: Audit) -> Counter[str]:
    """Return how many findings stand in each section."""
    return Counter(map(section_of, audit.findings))


def headline_of(audit: Audit) -> str:
    """Return the result of an audit in one line: as many findings as stand in each section."""
    counts = counts_of(audit)
    always = {"unmeasured"} if counts["in-line"] else {"within", "unmeasured"}
    told = [(counts[key], words) for key, words in TOLD.items() if counts[key] or key in always]
    first, *others = (f"{count} {words}" for count, words in told)
    noun = "finding" if told[0][0] == 1 else "findings"
    return ", ".join((first.replace(" ", f" {noun} ", 1), *others, STRENGTH))


def summary_of(audit: Audit) -> dict[str, int]:
    """Return how many findings have each outcome; advice is counted apart."""
    limits = [finding for finding in audit.findings if finding.rule.level == "limit"]
    summary = {outcome.value: sum(f.outcome is outcome for f in limits) for outcome in Outcome}
    summary["close"] = sum(finding.close for finding in limits)
    summary["advice"] = sum(f.rule.level == "advice" and f.outcome is Outcome.WARN for f in audit.findings)
    return summary


def reason_of(audit: Audit) -> str | None:
    """Return which stairs the rule set is not for, None when it is for all."""
    if not audit.skipped:
        return None
    by_use = tuple(f"'{refusal.stair}' ({refusal.value})" for refusal in audit.skipped if refusal.by == "use")
    purposes = {refusal.value for refusal in audit.skipped if refusal.by == "purpose"}
    reasons = [f"this rule set is for {listed(audit.ruleset.uses)}; not for stair {listed(by_use)}"] if by_use else []
    if purposes:
        meant = listed(tuple(purpose.replace("-", " ") for purpose in audit.ruleset.purposes))
        told = purposes.pop().replace("-", " ")
        reasons.append(
            f"this rule set is for existing stairs (purpose {meant}); the purpose of this survey is {told}"
        )
    return "; ".join(reasons)
