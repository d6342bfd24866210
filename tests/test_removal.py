"""Taking any single thing out of a survey never creates a pass, whatever it was."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from typing import Any

import pytest
from test_rules import CASES

from stairaudit import check, load_ruleset, load_survey
from stairaudit.commands.demo import SURVEY
from stairaudit.decision import Outcome
from stairaudit.documents import read_document
from stairaudit.errors import InputError

# What a part is called is no reading of it.
KEPT = {"format", "units", "id", "stairs", "flights", "side"}


def whole(ruleset: str) -> dict[str, Any]:
    base = CASES[ruleset]["base"]
    return {"format": 1, "units": "in", "stairs": [{**base["stair"], "flights": [base["flight"]]}]}


def demo() -> dict[str, Any]:
    data = read_document(SURVEY.read_bytes(), SURVEY.name).data
    assert isinstance(data, dict)
    return data


def without_one(data: Any) -> Iterator[Any]:
    """Yield the data with one key or one place after the other taken out, at every depth."""
    items = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in list(items):
        if key not in KEPT:
            less = copy.copy(data)
            if isinstance(less, dict):
                del less[key]
            else:
                less[key] = None
            yield less
        for inner in without_one(value):
            less = copy.copy(data)
            less[key] = inner
            yield less


def passes(data: dict[str, Any], ruleset: str) -> set[tuple[Any, ...]]:
    audit = check(load_survey(data), load_ruleset(ruleset))
    # Where nobody tells how many risers there are, the sixth nosing is not known to be the top one.
    names = {"nosing 6": "nosing top"}
    passed = [f for f in audit.findings if f.outcome is Outcome.PASS]
    return {(f.stair, f.flight, f.rule.id, names.get(f.part, f.part)) for f in passed}


@pytest.mark.parametrize(
    ("data", "ruleset"),
    [(demo(), "us-irc-2021"), (demo(), "good-practice"), (whole("us-irc-2021"), "us-irc-2021")],
    ids=["demo", "demo-advice", "everything-told"],
)
def test_less_is_never_a_new_pass(data: dict[str, Any], ruleset: str) -> None:
    before = passes(data, ruleset)
    tried = 0
    for less in without_one(data):
        try:
            after = passes(less, ruleset)
        except InputError:
            continue
        tried += 1
        new = after - before
        assert new == set(), (new, less)
    assert tried > 60
