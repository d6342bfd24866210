"""Rule sets, measures and conditions in plain words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from stairaudit.conditions import CONDITIONS
from stairaudit.gates import Expected
from stairaudit.lengths import show_both
from stairaudit.packaged import packaged
from stairaudit.quantities import show
from stairaudit.ruleset import Limit, Rule, Ruleset
from stairaudit.words.figures import LENGTHS, RELATIONS, limit_of

PROVENANCE = {
    "seen": "read in the text itself",
    "secondary": "read where another text quotes it",
    "memory": "known from memory only",
}


def shares(ruleset: Ruleset) -> str:
    """Return how many rules there are and how far their figures were read."""
    counts = ((name, sum(rule.provenance == name for rule in ruleset.rules)) for name in PROVENANCE)
    rules = len(ruleset.rules)
    return f"{rules} {'rule' if rules == 1 else 'rules'}; " + ", ".join(f"{number} {name}" for name, number in counts)


def ruleset_lines(ruleset: Ruleset) -> Iterator[str]:
    """Yield the head of a rule set."""
    marked = " (provisional)" if ruleset.status == "provisional" else ""
    yield f"{ruleset.id}: {ruleset.title}{marked}"
    edition = ", ".join(filter(None, (ruleset.document, ruleset.edition, ruleset.publisher)))
    if edition:
        yield f"  {edition}"
    yield f"  Place: {ruleset.place or 'any'}. For: {', '.join(ruleset.uses) or 'any stair'}. {shares(ruleset)}."


def limit_line(rule: Rule) -> str:
    """Return the limit of a rule in both units."""
    limit, kind = rule.limit, rule.measure.kind
    if kind not in LENGTHS or limit.low is None:
        return limit_of(limit, kind, "in")
    unit: Any = "mm" if "mm" in limit.printed or "cm" in limit.printed else "in"
    if limit.relation == "between":
        return f"{show_both(limit.low, unit)} to {show_both(limit.high, unit)}"
    return f"{RELATIONS[limit.relation]} {show_both(limit.low, unit)}"


def expected_words(expected: Expected) -> str:
    """Return one condition of `when` or `unless` in words."""
    condition = CONDITIONS[expected.condition]
    if expected.relation:
        bound = Limit("at-most", expected.figure)
        figure = show(condition.kind, bound.low, "in")
        return f"{expected.condition} {RELATIONS.get(expected.relation, '')} {figure}".strip()
    words = [("yes" if word else "no") if isinstance(word, bool) else word for word in expected.words]
    return f"{expected.condition}: {' or '.join(words)}"


def rule_lines(rule: Rule) -> Iterator[str]:
    """Yield one rule in plain words."""
    yield f"{rule.id}: {rule.title}"
    document = " ".join(filter(None, (rule.document, rule.edition, rule.clause)))
    yield f"  Clause: {document or 'none'}"
    at = rule.measure.at
    yield f"  Measure: {rule.measure.name}" + ("" if at is None else f", taken at {show_both(at, 'in')}")
    yield f"  Limit: {limit_line(rule)}" + (" (advice)" if rule.level == "advice" else "")
    if rule.when:
        yield "  When: " + " and ".join(map(expected_words, rule.when))
    for excuse in rule.unless:
        yield "  Unless: " + " and ".join(map(expected_words, excuse))
    yield f"  Hazard: {rule.hazard}"
    told = {
        "Why": rule.why,
        "How to measure": rule.how_to_measure,
        "To put it right": rule.advice,
        "Known limits": rule.known_limits,
    }
    for label, text in told.items():
        if text:
            yield f"  {label}: {text}"
    read_in = f", in {', '.join(rule.read_in)}" if rule.read_in else ""
    yield f"  The figure was {PROVENANCE[rule.provenance]}{read_in}."
    if rule.source:
        yield f"  Source: {rule.source}"
    if rule.replaced:
        yield f"  Amended; before: {rule.replaced}"


def measure_lines() -> Iterator[str]:
    """Yield every measure with its unit, definition, source and example."""
    for name, told in packaged("measures/descriptions.yaml").items():
        yield f"{name}: {told['unit']}"
        yield f"  {told['definition']}"
        yield f"  Source: {told['source']}"
        example = told["example"]
        survey = "; ".join(f"{key}: {_flow(value)}" for key, value in example.get("survey", {}).items())
        stair = "; ".join(f"{key}: {_flow(value)}" for key, value in example.get("stair", {}).items())
        gives = "; ".join(f"{part}: {text}" for part, text in example["gives"].items())
        yield f"  Example: {'; '.join(filter(None, (survey, stair)))} -> {gives}"


def _flow(value: Any) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    return "~" if value is None else str(value)


def condition_lines() -> Iterator[str]:
    """Yield every condition with what it asks and how it is answered."""
    for name, told in packaged("condition_descriptions.yaml").items():
        yield f"{name}: {told['asks']}"
        answers = told["answers"]
        yield f"  Answers: {', '.join(answers) if isinstance(answers, list) else answers}"
        yield f"  Survey key: {told['survey_key']}"
        if CONDITIONS[name].default is not None:
            yield f"  When left out: {CONDITIONS[name].default}"
