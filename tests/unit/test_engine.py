"""The result of one rule on one part: places, gaps, balls, conditions, defaults, guarded decisions."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from cases import audit_of, finding, survey_of

from stairaudit import Audit, check, load_ruleset
from stairaudit.decision import Outcome
from stairaudit.findings import Refusal
from stairaudit.words.tally import reason_of

PORCH: dict[str, Any] = {"sides": {"left": "wall", "right": {"drop": 40}}}


def told(rule: str, part: str, flight: dict[str, Any], stair: dict[str, Any] | None = None) -> tuple[Any, ...]:
    found = finding(audit_of(survey_of(flight, stair)), rule, part)
    return found.outcome.value, found.close, found.missing


def test_a_reading_at_the_limit_passes_and_is_close() -> None:
    assert told("riser-height-max", "riser 1", {"risers": ["7 3/4"]}) == ("pass", True, ())


def test_a_reading_one_mark_over_warns_and_is_clear() -> None:
    assert told("riser-height-max", "riser 1", {"risers": ["7 13/16"]}) == ("warn", False, ())


def test_the_worst_place_across_the_width_decides() -> None:
    found = finding(audit_of(survey_of({"risers": [["7", "8", "7 1/2"]]})), "riser-height-max", "riser 1")

    assert (found.outcome, found.readings, found.outside) == (Outcome.WARN, 3, 1)
    assert found.at is not None
    assert (found.at.place, found.at.places, found.at.way) == (1, 3, "across")


def test_repeats_at_one_place_are_judged_by_their_mean() -> None:
    flight = {"risers": [{"again": ["7 11/16", "7 3/4", "7 3/4"]}]}
    found = finding(audit_of(survey_of(flight)), "riser-height-max", "riser 1")

    assert found.outcome is Outcome.PASS
    assert found.value * 3 == 3 * 196_850_000 - 1_587_500


def test_a_gap_is_unmeasured_and_takes_the_pass_from_the_spread() -> None:
    flight = {"risers": ["7", None, "7"]}

    assert told("riser-height-max", "riser 2", flight) == ("unmeasured", False, ("riser 2",))
    assert told("riser-spread-max", "flight", flight) == ("unmeasured", False, ("riser 2",))


def test_a_spread_over_a_gap_may_still_warn() -> None:
    assert told("riser-spread-max", "flight", {"risers": ["7", "unmeasured", "8"]}) == ("warn", False, ("riser 2",))


def test_a_sample_may_warn_and_never_passes() -> None:
    sample = {"sampled": "yes", "riser_count": 9, "tallest": "8", "shortest": "7 3/4"}
    inside = {**sample, "tallest": "7 3/4"}

    assert told("riser-height-max", "risers", sample)[0] == "warn"
    assert told("riser-height-max", "risers", inside) == ("unmeasured", False, ("every riser",))
    assert told("riser-spread-max", "flight", inside)[0] == "unmeasured"


def test_levels_from_one_datum_give_risers() -> None:
    flight = {"levels": ["0", "6", "13 7/8", "21 5/8"]}
    audit = audit_of(survey_of(flight))

    assert [finding(audit, "riser-height-max", f"riser {i}").outcome.value for i in (1, 2, 3)] == [
        "pass",
        "warn",
        "pass",
    ]
    assert round(finding(audit, "riser-height-max", "riser 2").u) == round(793_750 * 2**0.5)


def test_nothing_of_a_kind_is_one_finding_with_the_bare_plural() -> None:
    parts = [f.part for f in audit_of(survey_of({"risers": ["7", "7"]})).findings if f.rule.id == "tread-depth-min"]

    assert parts == ["treads"]


def test_no_handrail_warns_once_and_leaves_its_heights_aside() -> None:
    flight = {"risers": ["7"] * 4, "handrails": "none"}

    assert told("handrail-required", "flight", flight)[0] == "warn"
    assert told("handrail-height", "handrails", flight)[0] == "not-applicable"


def test_an_undescribed_side_is_unmeasured_and_a_wall_needs_no_guard() -> None:
    audit = audit_of(survey_of({"risers": ["7"], "sides": {"left": "wall"}}))

    assert finding(audit, "guard-required-flight", "side right").outcome is Outcome.UNMEASURED
    assert [f.part for f in audit.findings if f.rule.id == "guard-required-flight"] == ["side right"]


def test_a_list_of_guards_does_not_deny_one_on_another_side() -> None:
    flight = {"sides": {"left": {"drop": "40"}, "right": {"drop": "40"}}, "guards": [{"side": "right"}]}

    assert told("guard-required-flight", "side left", flight) == ("unmeasured", False, ("guard on side left",))


def test_no_guard_on_one_side_is_said_at_that_side() -> None:
    flight = {"sides": {"left": {"drop": "40", "guard": "none"}, "right": "wall"}}

    assert told("guard-required-flight", "side left", flight)[0] == "warn"


@pytest.mark.parametrize(
    ("opening", "outcome", "missing"),
    [
        ({"ball": "4 3/8", "passes": "yes"}, "warn", ()),
        ({"ball": "4", "passes": "no"}, "pass", ()),
        ({"ball": "4", "passes": "yes"}, "unmeasured", ("guard right",)),
        ({"ball": "6", "passes": "no"}, "unmeasured", ("guard right",)),
        ({"gap": "4 1/2", "ball": "4 3/8", "passes": "no"}, "pass", ()),
        ({"gap": "4 1/4", "ball": "4", "passes": "yes"}, "pass", ()),
    ],
)
def test_a_ball_beats_the_tape_where_it_settles_anything(opening: Any, outcome: str, missing: Any) -> None:
    flight = {**PORCH, "guards": [{"side": "right", "openings": [opening]}]}

    assert (told("guard-opening-stair", "guard right", flight)[::2]) == (outcome, missing)


def test_a_ball_that_settles_nothing_leaves_the_tape_reading_close() -> None:
    flight = {**PORCH, "guards": [{"side": "right", "openings": [{"gap": "4 3/8", "ball": "4", "passes": "yes"}]}]}

    assert told("guard-opening-stair", "guard right", flight)[:2] == ("warn", True)


def test_an_unknown_condition_is_unmeasured_and_named() -> None:
    outcome, _, missing = told("exterior-light-top", "stair", {"risers": ["7"]}, {"lighting": {"top_landing": "yes"}})

    assert (outcome, missing) == ("unmeasured", ("setting",))


def test_what_is_taken_for_granted_is_listed() -> None:
    found = finding(audit_of(survey_of({"risers": ["7"]})), "riser-height-max", "riser 1")

    assert found.assumed == ("form: straight", "serves: building", "bulkhead: no")


def test_a_guarded_decision_turns_a_close_pass_into_a_close_warn() -> None:
    survey = survey_of({"risers": ["7 3/4", "7 1/2"]})
    found = finding(check(survey, load_ruleset("us-irc-2021"), "guarded"), "riser-height-max", "riser 1")

    assert (found.outcome, found.close, found.margin) == (Outcome.WARN, True, 0)


def test_a_close_spread_names_every_riser_that_error_could_make_an_extreme() -> None:
    survey = survey_of({"risers": ["7", "7 3/8", "7 3/16", "7 1/16", "7 1/4"]})
    found = finding(audit_of(survey), "riser-spread-max", "flight")

    assert (found.outcome, found.close) == (Outcome.PASS, True)
    assert found.again == ("riser 1", "riser 2", "riser 4")


def test_a_landing_is_held_against_the_width_of_its_flight() -> None:
    flight = {"width": "40", "landings": {"top": {"width": "39 15/16"}}}
    found = finding(audit_of(survey_of(flight)), "landing-width-min", "landing top")

    assert (found.outcome, found.close) == (Outcome.WARN, True)
    assert found.limit.low == 40 * 25_400_000


def test_the_same_guard_rules_hold_on_landings_with_their_own_figure() -> None:
    landing = {"sides": {"left": "wall", "right": {"drop": 31}}, "guards": [{"side": "right", "openings": ["4 1/8"]}]}
    audit = audit_of(survey_of({"landings": {"top": landing}}))

    assert finding(audit, "guard-opening-level", "landing top guard right").outcome is Outcome.WARN


def test_findings_stand_in_the_order_flight_part_rule() -> None:
    audit = audit_of(survey_of({"risers": ["7", "7"], "treads": ["10"], "handrails": [{"side": "left"}]}))
    parts = list(dict.fromkeys(f.part for f in audit.findings))

    assert [p for p in parts if p in ("riser 1", "riser 2", "tread 1", "flight", "handrail left", "stair")] == [
        "riser 1", "riser 2", "tread 1", "flight", "handrail left", "stair",
    ]  # fmt: skip


def test_a_rule_set_for_dwellings_is_not_used_on_a_workplace_stair() -> None:
    audit = audit_of(survey_of({"risers": ["9"]}, {"use": "workplace"}))

    assert (audit.applies, audit.findings, audit.skipped) == (False, (), (Refusal("s", "use", "workplace"),))


def test_every_rule_gives_at_least_one_finding() -> None:
    audit = audit_of(survey_of({}))

    assert {f.rule.id for f in audit.findings} == {rule.id for rule in audit.ruleset.rules}
    assert {f.outcome for f in audit.findings} <= {Outcome.UNMEASURED, Outcome.NOT_APPLICABLE}


def test_a_landing_is_never_judged_by_the_drop_of_its_flight() -> None:
    walls = {"left": "wall", "right": "wall"}
    high = {"sides": {"left": "wall", "right": {"drop": 60}}}
    audit = audit_of(survey_of({"sides": walls, "landings": {"top": high, "bottom": {"depth": 40}}}))

    assert finding(audit, "guard-height-level", "landing top guards").outcome is Outcome.UNMEASURED
    assert finding(audit, "guard-required-landing", "landing bottom sides").outcome is Outcome.UNMEASURED


def test_the_far_side_of_a_landing_counts_where_it_was_told() -> None:
    landing = {"sides": {"left": "wall", "right": "wall", "end": {"drop": 60, "guard": "none"}}}
    audit = audit_of(survey_of({"landings": {"top": landing}}))

    assert finding(audit, "guard-required-landing", "landing top side end").outcome is Outcome.WARN
    assert finding(audit, "guard-height-level", "landing top guards").outcome is Outcome.UNMEASURED


def test_the_rise_of_a_flight_of_levels_is_the_last_less_the_first() -> None:
    found = finding(audit_of(survey_of({"levels": ["0", None, "15"]})), "flight-rise-max", "flight")

    assert (found.outcome, found.value) == (Outcome.PASS, 15 * 25_400_000)


def test_two_guards_on_one_side_are_told_apart() -> None:
    flight = {"sides": {"right": {"drop": 40}}, "guards": [{"side": "right", "heights": ["36"]}] * 2}
    parts = [f.part for f in audit_of(survey_of(flight)).findings if f.rule.id == "guard-height-stair"]

    assert parts == ["guard right", "guard right 2"]


def test_lists_without_entries_are_not_measured() -> None:
    audit = audit_of(survey_of({"nosings": [], "riser_form": "open", "riser_openings": [], "risers": ["7", "7"]}))

    assert finding(audit, "nosing-projection-max", "nosings").outcome is Outcome.UNMEASURED
    assert finding(audit, "open-riser-opening", "risers").outcome is Outcome.UNMEASURED


def test_a_rule_set_for_existing_stairs_is_not_used_for_new_ones(tmp_path: Path) -> None:
    own = tmp_path / "old.yaml"
    own.write_text(
        "format: 1\nid: old\ntitle: Old\napplies_to: {purpose: [as-found, repair]}\nrules:\n"
        "  - {id: r, clause: '1', title: T, measure: riser-height, limit: {at-most: 9 in}, provenance: memory}\n",
        encoding="utf-8",
    )

    def audited(purpose: str | None) -> Audit:
        return check(survey_of({"risers": ["8"]}, purpose=purpose), load_ruleset(own))

    assert [audited(purpose).applies for purpose in (None, "as-found", "repair", "replace", "new")] == [
        True, True, True, False, False,
    ]  # fmt: skip
    assert reason_of(audited("new")) == (
        "this rule set is for existing stairs (purpose as found and repair); the purpose of this survey is new"
    )
