"""What must hold for any flight: units, reversal, missing readings, stricter limits, greater uncertainty."""

from __future__ import annotations

import copy
from typing import Any

from cases import survey_of
from hypothesis import given, settings
from hypothesis import strategies as st

from stairaudit import check, load_ruleset, load_survey
from stairaudit.amending import resolve
from stairaudit.decision import Outcome
from stairaudit.documents import Document
from stairaudit.rulereading import read_rules
from stairaudit.ruleset import Ruleset

IRC = load_ruleset("us-irc-2021")
SIXTEENTHS = st.integers(min_value=4 * 16, max_value=9 * 16)
RUNS = st.integers(min_value=8 * 16, max_value=13 * 16)


def inches(sixteenths: int) -> str:
    whole, part = divmod(sixteenths, 16)
    return f"{whole} {part}/16" if part else str(whole)


def millimetres(sixteenths: int) -> str:
    return f"{sixteenths * 15875 // 10000}.{sixteenths * 15875 % 10000:04d} mm"


@st.composite
def flights(draw: st.DrawFn) -> dict[str, Any]:
    risers = draw(st.lists(SIXTEENTHS, min_size=2, max_size=10))
    treads = draw(st.lists(RUNS, min_size=len(risers) - 1, max_size=len(risers) - 1))
    nosings = draw(st.lists(st.integers(0, 32), min_size=len(risers), max_size=len(risers)))
    return {"risers": risers, "treads": treads, "nosings": nosings, "width": draw(st.integers(400, 700))}


def written(flight: dict[str, Any], how: Any) -> dict[str, Any]:
    return {key: [how(x) for x in value] if isinstance(value, list) else how(value) for key, value in flight.items()}


def results(flight: dict[str, Any], ruleset: Ruleset = IRC, **top: Any) -> dict[tuple[str, str], Any]:
    audit = check(survey_of(flight, **top), ruleset)
    return {(f.rule.id, f.part): f for f in audit.findings}


@settings(max_examples=40, deadline=None)
@given(flights())
def test_inches_and_millimetres_give_the_same_outcomes(flight: dict[str, Any]) -> None:
    one, other = results(written(flight, inches)), results(written(flight, millimetres))

    assert {k: (f.outcome, f.close) for k, f in one.items()} == {k: (f.outcome, f.close) for k, f in other.items()}


@settings(max_examples=40, deadline=None)
@given(flights())
def test_reversing_a_flight_changes_no_spread(flight: dict[str, Any]) -> None:
    reversed_flight = {k: v[::-1] if isinstance(v, list) else v for k, v in flight.items()}
    one, other = results(written(flight, inches)), results(written(reversed_flight, inches))

    for rule, part in (
        ("riser-spread-max", "flight"),
        ("tread-spread-max", "flight"),
        ("nosing-spread-max", "stair"),
    ):
        assert one[rule, part].value == other[rule, part].value


@settings(max_examples=60, deadline=None)
@given(flights(), st.data())
def test_removing_a_reading_never_creates_a_pass(flight: dict[str, Any], data: st.DataObject) -> None:
    whole = written(flight, inches)
    less = copy.deepcopy(whole)
    key = data.draw(st.sampled_from(sorted(less)))
    if isinstance(less[key], list) and data.draw(st.booleans()):
        less[key][data.draw(st.integers(0, len(less[key]) - 1))] = None
    elif key != "risers":
        del less[key]
    before, after = results(whole), results(less)

    for place, found in after.items():
        if found.outcome is Outcome.PASS and place in before:
            assert before[place].outcome is Outcome.PASS


def stricter(by: int) -> Ruleset:
    """Return the dwelling set with its riser and tread limits drawn in by some sixteenths."""
    limits = {"riser-height-max": {"at-most": inches(7 * 16 + 12 - by) + " in"},
              "riser-spread-max": {"at-most": f"{12 - by}/32 in"},
              "tread-depth-min": {"at-least": inches(160 + by) + " in"}}  # fmt: skip
    text = {"format": "1", "id": "strict", "title": "t", "extends": "us-irc-2021",
            "replace": [{"id": rule, "limit": limit} for rule, limit in limits.items()]}  # fmt: skip
    from stairaudit.catalog import _read
    from stairaudit.shipped import shipped_folder

    base = _read(shipped_folder() / "us-irc-2021.yaml", "us-irc-2021")
    resolved = resolve(Document("strict", text, {}, {}), lambda _name, _document: base)
    rules, problems = read_rules(resolved.rules)
    assert not problems
    return Ruleset("strict", "t", "", "", "", "", (), (), "", None, "published", (), tuple(rules), "", False)


STRICT = {by: stricter(by) for by in (1, 3)}


@settings(max_examples=40, deadline=None)
@given(flights(), st.sampled_from([1, 3]))
def test_a_stricter_limit_never_removes_a_warn(flight: dict[str, Any], by: int) -> None:
    before, after = results(written(flight, inches)), results(written(flight, inches), STRICT[by])

    for place, found in before.items():
        if found.outcome is Outcome.WARN:
            assert after[place].outcome is Outcome.WARN


@settings(max_examples=40, deadline=None)
@given(flights(), st.sampled_from(["1/32 in", "1/8 in", "1/4 in", "5 mm"]))
def test_the_fineness_of_the_tape_changes_no_outcome(flight: dict[str, Any], division: str) -> None:
    before = results(written(flight, inches))
    after = results(written(flight, inches), instruments={"tape": division})

    assert {k: f.outcome for k, f in before.items()} == {k: f.outcome for k, f in after.items()}


@settings(max_examples=40, deadline=None)
@given(flights())
def test_every_rule_yields_a_finding(flight: dict[str, Any]) -> None:
    assert {rule for rule, _ in results(written(flight, inches))} == {rule.id for rule in IRC.rules}


@settings(max_examples=30, deadline=None)
@given(flights())
def test_a_survey_as_json_or_as_yaml_text_is_the_same_survey(flight: dict[str, Any]) -> None:
    data = {"format": 1, "units": "in", "stairs": [{"id": "s", "flights": [{"id": "f", **written(flight, inches)}]}]}

    assert load_survey(data) == load_survey(copy.deepcopy(data))
