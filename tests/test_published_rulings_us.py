"""Published rulings on stairs in the United States, audited as surveys; the cases and sources: rulings_us.yaml."""

from __future__ import annotations

from fnmatch import fnmatch
from pathlib import Path
from typing import Any

import pytest
from cases import audit_of, survey_of

from stairaudit import Audit, Finding, load_ruleset
from stairaudit.angles import parse_angle
from stairaudit.documents import read_document
from stairaudit.lengths import parse_length
from stairaudit.shipped import shipped_ids

FILE = Path(__file__).parent / "rulings_us.yaml"
DATA: Any = read_document(FILE.read_bytes(), FILE.name).data
RULINGS: list[dict[str, Any]] = [ruling for ruling in DATA["rulings"] if ruling["set"] in shipped_ids()]
# Printed angles are rounded to a minute, and one of Table D-1 is printed two minutes high.
CLOSE = 0.05


def audited(flight: dict[str, Any], stair: dict[str, Any], ruleset: str, **survey: Any) -> Audit:
    return audit_of(survey_of(flight, stair, **survey), ruleset)


def findings(audit: Audit, rule: str, part: str | None = None) -> list[Finding]:
    """Return the findings of the rules of a name or pattern, of one part or of all; never none."""
    found = [f for f in audit.findings if fnmatch(f.rule.id, rule) and part in (None, f.part)]
    assert found, f"no finding of {rule} on {part or 'any part'}"
    return found


def case(ruling: dict[str, Any]) -> Any:
    return pytest.param(ruling, id=ruling["id"])


@pytest.mark.parametrize("ruling", [case(ruling) for ruling in RULINGS if "expect" in ruling])
def test_the_audit_finds_what_was_ruled(ruling: dict[str, Any]) -> None:
    audit = audited(ruling["flight"], ruling["stair"], ruling["set"], **ruling.get("survey", {}))

    for one in ruling["expect"]:
        found = findings(audit, one["rule"], one.get("part"))
        assert {f.outcome.value for f in found} == {one["outcome"]}, one["rule"]
        assert all(one.get("mentions", "") in f.rule.known_limits for f in found), one["rule"]
        if "value" in one:
            assert float(found[0].value) == pytest.approx(float(parse_angle(one["value"])), abs=CLOSE)


@pytest.mark.parametrize("ruling", [case(ruling) for ruling in RULINGS if "noted" in ruling])
def test_what_no_condition_asks_for_stands_in_a_note(ruling: dict[str, Any]) -> None:
    notes = [" ".join(note.split()) for note in load_ruleset(ruling["set"]).notes]

    assert any(ruling["noted"] in note for note in notes)


ASKED_OF_NO_RULE = [(r["set"], measure) for r in RULINGS for measure in r.get("no_measure", [])]


@pytest.mark.parametrize(("ruleset", "measure"), ASKED_OF_NO_RULE)
def test_no_rule_asks_for_what_is_only_advised(ruleset: str, measure: str) -> None:
    assert measure not in {rule.measure.name for rule in load_ruleset(ruleset).rules}


def test_every_ruling_names_its_source_and_can_be_told_apart() -> None:
    rulings = DATA["rulings"]

    assert len({ruling["id"] for ruling in rulings}) == len(rulings)
    for ruling in rulings:
        assert all(ruling[key] for key in ("set", "source", "says")), ruling["id"]
        assert ruling.get("ours") or "noted" in ruling, ruling["id"]
        assert any(ruling.get(key) for key in ("expect", "no_measure", "noted")), ruling["id"]
        assert ruling["provenance"] in ("seen", "secondary"), ruling["id"]


@pytest.mark.parametrize(("rise", "run", "degrees", "minutes"), DATA["table_d1"])
def test_an_older_stair_of_a_pair_of_table_d1_lies_within(rise: str, run: str, degrees: str, minutes: str) -> None:
    flight = {"risers": [rise] * 3, "treads": [run] * 2}
    audit = audited(flight, {"use": "workplace", "installed": "2010-05-01"}, "us-osha-1910")
    (pitch,) = findings(audit, "pitch-before-2017")
    unasked = findings(audit, "riser-height-max") + findings(audit, "tread-depth-min")

    assert pitch.outcome.value == "pass"
    assert float(pitch.value) == pytest.approx(int(degrees) + int(minutes) / 60, abs=CLOSE)
    assert {f.outcome.value for f in findings(audit, "table-d1-pair")} == {"pass"}
    assert {f.outcome.value for f in unasked} == {"not-applicable"}


@pytest.mark.parametrize(("rise", "run", "_degrees", "_minutes"), DATA["table_d1"])
def test_on_a_newer_stair_only_the_pairs_down_to_a_run_of_9_and_a_half_lie_within(
    rise: str, run: str, _degrees: str, _minutes: str
) -> None:
    """Worked out from 1910.25(c)(2), (c)(3) and (c)(5); the table itself says nothing of newer stairs."""
    flight = {"risers": [rise] * 3, "treads": [run] * 2}
    audit = audited(flight, {"use": "workplace", "installed": "2018-05-01"}, "us-osha-1910")
    enough = parse_length(f"{run} in") >= parse_length("9 1/2 in")

    assert {f.outcome.value for f in findings(audit, "riser-height-max")} == {"pass"}
    assert {f.outcome.value for f in findings(audit, "tread-depth-min")} == {"pass" if enough else "warn"}
    assert {f.outcome.value for f in findings(audit, "table-d1-pair")} == {"not-applicable"}
