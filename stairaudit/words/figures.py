"""The figures of a finding as text, in the survey's unit."""

from __future__ import annotations

import re
from typing import Any

from stairaudit.decision import Outcome
from stairaudit.findings import Finding
from stairaudit.lengths import Unit, show_both, show_length
from stairaudit.quantities import Kind, show, show_difference
from stairaudit.ruleset import Limit
from stairaudit.samples import At
from stairaudit.survey import Survey

RELATIONS = {
    "at-most": "at most",
    "at-least": "at least",
    "less-than": "less than",
    "more-than": "more than",
    "between": "",
    "equals": "expected:",
}
LENGTHS = ("length", "spread")


def unit_of(survey: Survey) -> Unit:
    """Return the unit to show a survey in: its own, else that of its first riser, else inches."""
    if survey.units is not None:
        return survey.units
    typed = [
        place.typed
        for stair in survey.stairs
        for flight in stair.flights
        for row in flight.risers or ()
        for place in row
        if place is not None
    ]
    return "mm" if typed and re.search(r"\d\s*(mm|cm|m)\b", typed[0]) else "in"


def reading_of(finding: Finding, unit: Unit) -> str | None:
    """Return what was read, with the ball that was tried; None when nothing was."""
    words = []
    if finding.value is not None:
        words.append(_reading(finding, unit))
    if finding.ball is not None:
        ball = show_length(finding.ball.diameter, unit)
        words.append(f"a {ball} ball {'passes' if finding.ball.passes else 'does not pass'}")
    return ", ".join(words) or None


def _reading(finding: Finding, unit: Unit) -> str:
    kind, value = finding.rule.measure.kind, finding.value
    text = show(kind, value, unit)
    if kind in LENGTHS and _hidden(finding, text, unit):
        return show_length(value, unit, exact=True)
    return text


def reading_words(finding: Finding, unit: Unit) -> str:
    """Return what was read, in plain words; empty where nothing was.

    Of a part that lies outside at both ends both places are told; a count of nothing is none.
    """
    if finding.rule.measure.kind == "count" and finding.value == 0:
        return "none"
    if finding.opposite is not None:
        other = finding._replace(value=finding.opposite.x, at=finding.opposite.at)
        ends = sorted((finding, other), key=lambda end: (end.at.place if end.at else 0, end.value))
        return ", ".join(f"{_reading(end, unit)}{at_words(end.at)}" for end in ends)
    return reading_of(finding, unit) or ""


_ASIDE = re.compile(r" \((~?[\d./ ]+ (?:in|mm|cm|ft))(?:, ~?[\d.]+ mm)?\)")


def in_one_unit(reading: str, limit: str, margin: str) -> tuple[str, str, str]:
    """Return what was read, its limit and its margin without the other system; decimals stay where a mark would hide.

    >>> in_one_unit("~6 13/16 in (6.833 in, ~173.57 mm)", "at least 7 in", "~3/16 in (0.167 in, ~4.23 mm) under")
    ('~6 13/16 in', 'at least 7 in', '~3/16 in under')
    >>> in_one_unit("~7 3/4 in (7.756 in, 197 mm)", "at most 7 3/4 in (196.85 mm)", "~0 in (0.006 in, 0.15 mm) over")
    ('~7 3/4 in (7.756 in)', 'at most 7 3/4 in', '~0 in (0.006 in) over')
    """
    figure = _ASIDE.sub("", limit)
    hidden = f" {_ASIDE.sub('', reading).lstrip('~')}" in f" {figure}"
    kept = r" (\1)" if hidden else ""
    return _ASIDE.sub(kept, reading), figure, _ASIDE.sub(kept, margin)


def at_words(at: At | None) -> str:
    """Return where a place is, to be put after what was read there: at the top."""
    name = at_of(at)
    if at is None or name is None:
        return ""
    return f" at {name}" if name.startswith("place ") else f" at the {name}"


def _hidden(finding: Finding, text: str, unit: Unit) -> bool:
    """Say whether rounding makes a reading outside its limit look like the limit."""
    bounds = [bound for bound in (finding.limit.low, finding.limit.high) if bound is not None]
    return finding.outcome is Outcome.WARN and any(
        bound != finding.value and show("length", bound, unit).lstrip("~") == text.lstrip("~") for bound in bounds
    )


def bound_of(kind: Kind, bound: Any, unit: Unit, printed: str = "") -> str:
    """Return one figure of a limit; both units where the document prints the other system."""
    if kind not in LENGTHS:
        return show(kind, bound, unit)
    metric_print = bool(re.search(r"\d\s*(mm|cm|m)\b", printed))
    if printed and metric_print != (unit in ("mm", "cm")):
        return show_both(bound, unit)
    text = show_length(bound, unit)
    return printed if text.startswith("~") and " to " not in printed and printed else text


def limit_of(limit: Limit, kind: Kind, unit: Unit) -> str:
    """Return a limit in words: at most 7 3/4 in."""
    if limit.relation == "between":
        low, high = (bound_of(kind, bound, unit, limit.printed) for bound in (limit.low, limit.high))
        return f"{low} to {high}"
    if limit.low is None:
        return f"{RELATIONS[limit.relation]} the {(limit.measure or '').replace('-', ' ')}".strip()
    figure = bound_of(kind, limit.low, unit, limit.printed)
    told = f"{RELATIONS[limit.relation]} {figure}".strip()
    return f"{told} (the {limit.measure.replace('-', ' ')})" if limit.measure else told


def limit_shown(limit: Limit, kind: Kind, unit: Unit) -> str | None:
    """Return only the figure of a limit, without its relation."""
    if limit.low is None:
        return None
    if limit.relation == "between":
        return limit_of(limit, kind, unit)
    return bound_of(kind, limit.low, unit)


def margin_of(finding: Finding, unit: Unit) -> str | None:
    """Return the signed margin, positive inside; None where there is no distance."""
    if finding.margin is None:
        return None
    return show_difference(finding.rule.measure.kind, finding.margin, unit)


def margin_words(finding: Finding, unit: Unit) -> str:
    """Return the margin of a reading outside its limit in words: 3/16 in over."""
    margin = finding.margin
    kind, opposite = finding.rule.measure.kind, finding.opposite
    if margin is None or finding.outcome is not Outcome.WARN or margin > 0 or (kind == "count" and not finding.value):
        return ""
    if margin == 0:
        return "exactly at the limit"
    told = f"{show_difference(kind, -margin, unit)} {_side(finding)}"
    if opposite is None:
        return told
    far = finding._replace(value=opposite.x, opposite=None)
    size = opposite.x - finding.limit.high if opposite.x > finding.limit.high else finding.limit.low - opposite.x
    both = (told, f"{show_difference(kind, size, unit)} {_side(far)}")
    return " and ".join(both if finding.value < opposite.x else both[::-1])


def _side(finding: Finding) -> str:
    limit = finding.limit
    if limit.relation == "between":
        return "under" if finding.value < limit.low else "over"
    return "over" if limit.relation in ("at-most", "less-than") else "under"


ACROSS = {2: ("left", "right"), 3: ("left", "middle", "right")}
ALONG = {2: ("bottom", "top"), 3: ("bottom", "middle", "top")}


def at_of(at: At | None) -> str | None:
    """Return the name of the deciding place, with its flight where a part runs along several."""
    if at is None:
        return None
    return f"{_place(at)} of flight {at.flight}" if at.flight else _place(at)


def _place(at: At) -> str:
    if at.way == "extremes":
        return "tallest" if at.place == 0 else "shortest"
    names = ACROSS if at.way == "across" else ALONG
    if at.places in names:
        return names[at.places][at.place]
    return f"place {at.place + 1} of {at.places} from the {'left' if at.way == 'across' else 'bottom'}"
