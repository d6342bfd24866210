"""How many findings came out in which way, as numbers and as one line."""

from __future__ import annotations

from collections.abc import Iterable

from stairaudit.decision import Outcome
from stairaudit.findings import Audit, Finding
from stairaudit.words.notes import listed
from stairaudit.words.standing import STRENGTH

COUNTED = {
    "pass": "findings within",
    "warn": "findings outside",
    "unmeasured": "findings not measured",
    "not-applicable": "findings that do not apply",
    "close": "findings too close to call",
    "advice": "advice worth a look",
}


def readings_within(findings: Iterable[Finding]) -> int:
    """Return how many readings lie within every figure that they were set beside."""
    within: dict[tuple[object, ...], int] = {}
    for finding in findings:
        measure = finding.rule.measure
        if measure.derived or measure.kind == "yes-no" or finding.outcome not in (Outcome.PASS, Outcome.WARN):
            continue
        key = (finding.stair, finding.flight, finding.part, measure.name)
        out = max(1, finding.outside) if finding.outcome is Outcome.WARN else 0
        within[key] = min(within.get(key, finding.readings), finding.readings - out)
    return sum(within.values())


def _plural(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def _unmeasured(findings: Iterable[Finding]) -> int:
    open_findings = (f for f in findings if f.outcome is Outcome.UNMEASURED)
    return len({(f.stair, f.flight, f.rule.id) for f in open_findings})


def headline_of(audit: Audit) -> str:
    """Return the result of an audit in one line."""
    warns = audit.warns
    advised = sum(f.outcome is Outcome.WARN for f in audit.findings) - warns
    close = sum(finding.close for finding in audit.findings)
    parts = [f"{_plural(readings_within(audit.findings), 'reading')} within"]
    if warns:
        parts.append(f"{_plural(warns, 'finding')} outside")
    if advised:
        parts.append(f"{advised} worth a look")
    if close:
        parts.append(f"{close} too close to call")
    open_checks = _unmeasured(audit.findings)
    parts.append(f"{_plural(open_checks, 'check')} not measured")
    parts.append(STRENGTH)
    return ", ".join(parts)


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
