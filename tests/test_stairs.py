"""Invented stairs, mixed and half measured, with findings worked out by hand; drop a file into stairs/ to add one.

A file has `about`, `survey`, and what has to come of it against `us-irc-2021`: `warns` and `close` are complete,
`passes`, `unmeasured` and `not-applicable` name the findings that matter, `notes` every kind of data note.
An expectation names flight (`~` for the whole stair), part and rule, and the stair where the survey has several.
`reading` and `margin` (`~` for none) are compared as shown; `near` is the reading [in] where it is worked out and
lies on no mark of a tape; `missing` names some of what has to be named as missing.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from cases import audit_of

from stairaudit import load_ruleset, load_survey
from stairaudit.documents import read_document
from stairaudit.words.figures import unit_of
from stairaudit.words.results import finding_data

RULESET = "us-irc-2021"
FILES = sorted((Path(__file__).parent / "stairs").glob("*.yaml"))
KEYS = ["about", "survey", "warns", "close", "passes", "unmeasured", "not-applicable", "notes"]
OUTCOMES = {"passes": "pass", "unmeasured": "unmeasured", "not-applicable": "not-applicable"}
NAMED = {"stair", "flight", "part", "rule"}
NEAR = 0.0001
MM_PER_IN = 25.4
ALLOWED = {
    "warns": NAMED | {"reading", "margin", "near", "close"},
    "close": NAMED,
    "passes": NAMED | {"near"},
    "unmeasured": NAMED | {"missing"},
    "not-applicable": NAMED,
}

each_stair = pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)


class Place(NamedTuple):
    """Where a finding stands; `flight` is None for the whole stair."""

    stair: str
    flight: str | None
    part: str
    rule: str

    def __str__(self) -> str:
        return f"{self.stair}, {self.flight or 'whole stair'}, {self.part}: {self.rule}"


class Case(NamedTuple):
    """One file: what it says, and the findings and data notes that the survey in it gives."""

    told: dict[str, Any]
    found: list[tuple[Place, dict[str, Any]]]
    kinds: list[str]


@cache
def told_by(path: Path) -> Any:
    return read_document(path.read_bytes(), path.name).data


@cache
def case_of(path: Path) -> Case:
    told = told_by(path)
    survey = load_survey(told["survey"])
    audit, unit = audit_of(survey, RULESET), unit_of(survey)
    rows = [finding_data(finding, unit) for finding in audit.findings]
    found = [(Place(row["stair"], row["flight"], row["part"], row["rule"]), row) for row in rows]
    return Case(told, found, sorted(note.kind for note in audit.notes))


def place_of(case: Case, entry: dict[str, Any]) -> Place:
    stairs = [stair["id"] for stair in case.told["survey"]["stairs"]]
    stair = entry.get("stair") or (stairs[0] if len(stairs) == 1 else "stair not told")
    return Place(stair, entry["flight"], entry["part"], entry["rule"])


def shown(row: dict[str, Any], key: str) -> str | None:
    """Return the reading or the margin of a finding in words, None where there is none."""
    return (row[key] or {}).get("shown")


def difference(wanted: Iterable[str], found: Iterable[str]) -> str:
    """Return the lines on one side only, empty where both sides are alike."""
    wanted, found = sorted(wanted), sorted(found)
    short = [f"  expected, not found: {line}" for line in wanted if line not in found]
    extra = [f"  found, not expected: {line}" for line in found if line not in wanted]
    return "\n".join(short + extra)


def differences(entry: dict[str, Any], row: dict[str, Any]) -> list[str]:
    """Return in what a finding differs from all that an expectation says of it."""
    wrong = [
        f"{key} is {shown(row, key)}, expected {entry[key]}"
        for key in ("reading", "margin")
        if key in entry and shown(row, key) != entry[key]
    ]
    if "close" in entry and row["close"] != (entry["close"] == "yes"):
        wrong.append(f"close is {row['close']}, expected {entry['close']}")
    if "near" in entry:
        value = (row["reading"] or {}).get("mm")
        if value is None or abs(value / MM_PER_IN - float(entry["near"])) > NEAR:
            wrong.append(f"reading is {shown(row, 'reading')}, expected about {entry['near']} in")
    lacking = [name for name in entry.get("missing") or () if name not in row["missing"]]
    return [*wrong, f"missing is {row['missing']}, expected {lacking} in it"] if lacking else wrong


def wrong_at(case: Case, entry: dict[str, Any], outcome: str) -> str | None:
    """Return how the finding of an expectation differs from it, None where it holds."""
    place = place_of(case, entry)
    rows = [row for at, row in case.found if at == place]
    if not rows:
        alike = [(at, row) for at, row in case.found if (at.stair, at.flight, at.rule) == place[:2] + place[3:]]
        parts = sorted(f"{at.part} ({row['outcome']})" for at, row in alike)
        return f"{place}: no such finding; that rule has {', '.join(parts) or 'none there'}"
    row = rows[0]
    if row["outcome"] != outcome:
        said = f"reading {shown(row, 'reading')}, margin {shown(row, 'margin')}, missing {row['missing']}"
        return f"{place}: {row['outcome']} instead of {outcome} ({said})"
    wrong = differences(entry, row)
    return f"{place}: {'; '.join(wrong)}" if wrong else None


def report(path: Path, wrong: Iterable[str | None]) -> str:
    """Return the differences of a file as a message, empty where there are none."""
    lines = [f"  {line}" for line in wrong if line]
    return "\n".join([path.stem, *lines]) if lines else ""


def test_there_are_stairs() -> None:
    assert FILES


@each_stair
def test_a_file_has_its_keys_and_no_others(path: Path) -> None:
    told = told_by(path)
    keys = [f"{key}: {name}" for key in ALLOWED for entry in told[key] for name in set(entry) - ALLOWED[key]]

    assert list(told) == KEYS
    assert not keys


@each_stair
def test_every_rule_and_flight_named_exists(path: Path) -> None:
    case = case_of(path)
    rules = {rule.id for rule in load_ruleset(RULESET).rules}
    flights = {flight["id"] for stair in case.told["survey"]["stairs"] for flight in stair["flights"]}
    entries = [(key, entry) for key in ALLOWED for entry in case.told[key]]
    unknown = [f"{key}: {entry['rule']}" for key, entry in entries if entry["rule"] not in rules]
    unknown += [f"{key}: {entry['flight']}" for key, entry in entries if entry["flight"] not in {None, *flights}]

    assert not unknown


@each_stair
def test_one_finding_for_each_rule_and_part(path: Path) -> None:
    places = [str(place) for place, _ in case_of(path).found]

    assert sorted(places) == sorted(set(places))


@each_stair
def test_exactly_the_expected_findings_lie_outside(path: Path) -> None:
    case = case_of(path)
    wanted = [str(place_of(case, entry)) for entry in case.told["warns"]]
    found = [str(place) for place, row in case.found if row["outcome"] == "warn" and row["level"] == "limit"]

    assert sorted(wanted) == sorted(found), f"{path.stem}\n{difference(wanted, found)}"


@each_stair
def test_what_lies_outside_reads_as_told(path: Path) -> None:
    case = case_of(path)
    message = report(path, [wrong_at(case, entry, "warn") for entry in case.told["warns"]])

    assert not message, message


@each_stair
def test_exactly_the_expected_findings_are_close_and_inside(path: Path) -> None:
    case = case_of(path)
    wanted = [str(place_of(case, entry)) for entry in case.told["close"]]
    found = [str(place) for place, row in case.found if row["outcome"] == "pass" and row["close"]]

    assert sorted(wanted) == sorted(found), f"{path.stem}\n{difference(wanted, found)}"


@each_stair
@pytest.mark.parametrize("key", OUTCOMES)
def test_the_findings_that_matter_come_out_as_told(path: Path, key: str) -> None:
    case = case_of(path)
    message = report(path, [wrong_at(case, entry, OUTCOMES[key]) for entry in case.told[key]])

    assert not message, message


@each_stair
def test_exactly_the_expected_data_notes(path: Path) -> None:
    case = case_of(path)

    assert sorted(case.told["notes"]) == case.kinds, path.stem
