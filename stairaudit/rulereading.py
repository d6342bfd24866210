"""From a rule as written to a rule ready for use: its figures, measure and conditions are read and checked."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any, NamedTuple

from stairaudit.conditions import CONDITIONS, Condition
from stairaudit.documents import Document, Path
from stairaudit.errors import Problem
from stairaudit.gates import COMPARE, Expected
from stairaudit.measures import MEASURES, Measure
from stairaudit.quantities import read
from stairaudit.ruleset import RELATIONS, Limit, Rule
from stairaudit.validation import problem_at

ANSWERED = ("count", "yes-no", "word")
# Which parts a measure looks at, and which conditions can be asked of such a part.
ASKED_OF = {
    "handrail": ("handrail",),
    "side": ("side",),
    "guard": ("side", "guard"),
    "landing": ("landing",),
    "glazing": ("glazing",),
}


if TYPE_CHECKING:
    from stairaudit.rulefile import RulesetText, RuleText


class Written(NamedTuple):
    """A rule as written with the file and place that it stands in."""

    text: RuleText
    file: Document
    path: Path
    document: str
    edition: str
    replaced: str = ""


class Resolved(NamedTuple):
    """A rule set with everything that it inherits."""

    head: RulesetText
    file: Document
    rules: tuple[Written, ...]
    uses: tuple[str, ...]
    purposes: tuple[str, ...]


class RefusedError(ValueError):
    """A figure or name that cannot be read; `at` is the key below the rule."""

    def __init__(self, at: tuple[str | int, ...], found: str, wanted: str) -> None:
        self.at, self.found, self.wanted = at, found, wanted
        super().__init__(found)


def near(name: str, names: Iterable[str], where: str) -> str:
    """Return a did-you-mean, or where the list of names can be seen."""
    close = difflib.get_close_matches(name, list(names), 1)
    return f"did you mean {close[0]!r}?" if close else f"see stairaudit rulesets {where}."


def _measure(name: str, at: tuple[str | int, ...]) -> Measure:
    if name not in MEASURES:
        raise RefusedError(at, f"no measure is called {name!r}", near(name, MEASURES, "measures"))
    return MEASURES[name]


def _placed(text: RuleText) -> Measure:
    """Return the measure of a rule, taken at the place that the rule names where it needs one."""
    measure = _measure(text.measure, ("measure",))
    if measure.placed and text.at is None:
        raise RefusedError(("measure",), f"{measure.name} is taken at a place", "add at:, such as at: 12 in")
    if text.at is None:
        return measure
    if not measure.placed:
        raise RefusedError(("at",), f"{measure.name} is taken at no place of its own", "leave at: out")
    return measure.taken_at(_figure("length", text.at, ("at",)))


def _figure(kind: Any, raw: Any, at: tuple[str | int, ...]) -> Any:
    try:
        if isinstance(raw, (dict, list)) or raw is None:
            raise ValueError("one figure is needed here")
        return read(kind, str(raw))
    except ValueError as error:
        raise RefusedError(at, str(error), "") from None


def _limit(text: RuleText, measure: Measure) -> Limit:
    if len(text.limit) != 1 or next(iter(text.limit)) not in RELATIONS:
        found = "a limit has exactly one relation; " + (", ".join(text.limit) or "none") + " stands here"
        raise RefusedError(("limit",), found, "accepted: " + ", ".join(RELATIONS))
    relation: Any
    relation, raw = next(iter(text.limit.items()))
    at: tuple[str | int, ...] = ("limit", relation)
    if measure.kind == "yes-no" and relation != "equals":
        raise RefusedError(at, f"{measure.name} is answered yes or no", "use equals: yes or equals: no")
    if measure.kind != "yes-no" and relation == "equals" and measure.kind not in ANSWERED:
        raise RefusedError(at, f"{measure.name} is a reading, which never equals a figure", "use between")
    if isinstance(raw, dict):
        return _other_reading(relation, raw, measure, at)
    if relation == "between":
        return _between(raw, measure, at)
    return Limit(relation, _figure(measure.kind, raw, at), printed=str(raw))


def _other_reading(relation: Any, raw: dict[str, Any], measure: Measure, at: tuple[str | int, ...]) -> Limit:
    if set(raw) != {"measure"} or relation in ("between", "equals"):
        raise RefusedError(at, "another reading is named {measure: flight-width}", "with a relation of one figure")
    other = _measure(str(raw["measure"]), (*at, "measure"))
    if other.placed:
        raise RefusedError((*at, "measure"), f"{other.name} is taken at a place", "name a measure that is not")
    if other.name == measure.name:
        raise RefusedError((*at, "measure"), f"{other.name} would be its own limit", "name another measure")
    if other.kind != measure.kind:
        raise RefusedError((*at, "measure"), f"{other.name} is a {other.kind}", f"{measure.name} is a {measure.kind}")
    return Limit(relation, measure=other.name)


def _between(raw: Any, measure: Measure, at: tuple[str | int, ...]) -> Limit:
    if not isinstance(raw, (list, tuple)) or len(raw) != 2:
        raise RefusedError(at, "between takes two figures", "such as [34 in, 38 in]")
    low, high = (_figure(measure.kind, item, (*at, i)) for i, item in enumerate(raw))
    if low > high:
        raise RefusedError(at, "the first figure is larger than the second", "write the smaller one first")
    return Limit("between", low, high, printed=f"{raw[0]} to {raw[1]}")


def _asked(name: str, raw: Any, measure: Measure, at: tuple[str | int, ...]) -> Expected:
    condition = CONDITIONS.get(name)
    if condition is None:
        raise RefusedError(at, f"no condition is called {name!r}", near(name, CONDITIONS, "conditions"))
    _fits(condition, measure, at)
    if isinstance(raw, dict):
        return _relation(condition, raw, at)
    items = raw if isinstance(raw, (list, tuple)) else [raw]
    return Expected(name, tuple(_word(condition, item, at) for item in items))


def _fits(condition: Condition, measure: Measure, at: tuple[str | int, ...]) -> None:
    allowed = ("any", *ASKED_OF.get(measure.over, ()))
    if measure.name == "riser-opening":
        allowed += ("opening",)
    if measure.name.startswith("landing-"):
        allowed += ("landing",)
    if condition.of not in allowed:
        found = f"{condition.name} is asked of a {condition.of}, and {measure.name} is measured on a {measure.over}"
        raise RefusedError(at, found, "ask a condition of that part or of the stair")


def _word(condition: Condition, raw: Any, at: tuple[str | int, ...]) -> Any:
    if condition.kind == "yes-no":
        return _figure("yes-no", raw, at)
    if condition.kind != "word":
        wanted = "such as {at-least: 4}" if condition.kind == "count" else "such as {more-than: 30 in}"
        raise RefusedError(at, f"{condition.name} is a figure, so a relation is needed", wanted)
    if raw not in condition.words:
        raise RefusedError(at, f"{raw!r} stands here", "accepted: " + ", ".join(condition.words))
    return raw


def _relation(condition: Condition, raw: dict[str, Any], at: tuple[str | int, ...]) -> Expected:
    if condition.kind in ("word", "yes-no"):
        raise RefusedError(
            at, f"{condition.name} is no figure", "accepted: " + ", ".join(condition.words or ("yes", "no"))
        )
    if len(raw) != 1 or next(iter(raw)) not in COMPARE:
        raise RefusedError(at, "one relation is needed here", "accepted: " + ", ".join(COMPARE))
    relation, figure = next(iter(raw.items()))
    return Expected(condition.name, (), relation, _figure(condition.kind, figure, (*at, relation)))


def _conditions(told: dict[str, Any], measure: Measure, at: tuple[str | int, ...]) -> Iterator[Expected]:
    for name, raw in told.items():
        yield _asked(name, raw, measure, (*at, name))


def _rule(written: Written) -> Rule:
    text = written.text
    measure = _placed(text)
    when = tuple(_conditions(text.when or {}, measure, ("when",)))
    unless = tuple(tuple(_conditions(group, measure, ("unless", i))) for i, group in enumerate(text.unless or ()))
    if not text.clause and text.level != "advice":
        raise RefusedError(("clause",), "a limit has no clause", "write the document's own number")
    return Rule(
        text.id, text.clause, text.title, measure, _limit(text, measure), when, unless, text.level,
        text.hazard, text.why, text.how_to_measure, text.advice, text.known_limits, text.provenance,
        text.read_in, text.source, written.document, written.edition, written.replaced,
    )  # fmt: skip


def read_rules(written: Iterable[Written]) -> tuple[list[Rule], list[Problem]]:
    """Return the rules that can be used, and a problem for each that cannot."""
    rules: list[Rule] = []
    problems: list[Problem] = []
    for item in written:
        try:
            rules.append(_rule(item))
        except RefusedError as refused:
            path = (*item.path, *refused.at)
            problems.append(problem_at(item.file, path, refused.found, refused.wanted))
    return rules, problems
