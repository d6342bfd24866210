"""Rule sets on the command line: own folders, comparing, proposing, several beside one survey."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from stairaudit.cli import app

STEPS = "format: 1\nunits: in\nstairs: [{id: porch, flights: [{id: main, risers: [8, 7, 8, 7]}]}]\n"
COUNTY = (
    "format: 1\nid: marl\ntitle: Marl County\nextends: us-irc-2021\n"
    "replace:\n  - {id: riser-height-max, clause: 12-4.1, limit: {at-most: 8 1/4 in}, provenance: seen}\n"
)


@pytest.fixture(autouse=True)
def _own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "configuration"))
    monkeypatch.delenv("STAIRAUDIT_RULESETS", raising=False)
    Path("steps.yaml").write_text(STEPS, encoding="utf-8")
    Path("sets").mkdir()
    Path("sets/marl.yaml").write_text(COUNTY, encoding="utf-8")


def run(*args: str) -> Result:
    return CliRunner().invoke(app, list(args))


def test_a_set_of_ones_own_is_named_by_its_id_from_a_folder() -> None:
    assert run("check", "steps.yaml", "-r", "marl").exit_code == 2

    done = run("check", "steps.yaml", "-r", "marl", "--folder", "sets")
    assert done.exit_code == 1
    assert "This rule set is your own file; it was not shipped with stairaudit." in " ".join(done.stdout.split())


def test_ones_own_sets_are_listed_and_one_that_cannot_be_read_is_told() -> None:
    Path("sets/broken.yaml").write_text("format: 1\nid: broken\n", encoding="utf-8")

    done = run("rulesets", "list", "--folder", "sets")

    own = done.stdout.partition("Your own:\n")[2]
    assert "broken: cannot be read (1 problems); stairaudit rulesets validate" in own
    assert "marl: Marl County" in own


def test_two_sets_side_by_side_for_one_survey() -> None:
    done = run("check", "steps.yaml", "-r", "us-irc-2021", "-r", "sets/marl.yaml")

    assert "SIDE BY SIDE" in done.stdout
    assert " Riser height, risers 1 and 3: 8 in\n   ! at most 7 3/4 in: outside [us-irc-2021]\n" in done.stdout


def test_the_difference_of_two_sets_and_what_it_changes() -> None:
    done = run("rulesets", "diff", "us-irc-2021", "marl", "--folder", "sets")
    assert "riser-height\n  us-irc-2021: at most 7 3/4 in (196.85 mm) [R311.7.5.1]\n" in done.stdout

    changed = run("rulesets", "diff", "us-irc-2021", "sets/marl.yaml", "steps.yaml")
    assert changed.stdout.startswith("Riser height, risers 1 and 3: 8 in\n")
    assert run("rulesets", "diff", "us-irc-2021", "none-such").exit_code == 2


def test_sets_are_proposed_and_never_chosen() -> None:
    done = run("rulesets", "suggest", "--place", "Ohio, United States", "--use", "one-dwelling")
    told = " ".join(done.stdout.split())
    assert "us-irc-20" in told
    assert "the local authority knows which edition was adopted" in told

    nowhere = run("rulesets", "suggest", "--place", "Atlantis")
    assert nowhere.exit_code == 0
    assert "No shipped set is for 'Atlantis'." in nowhere.stdout


def test_rules_in_each_others_way_are_refused() -> None:
    two = (
        "format: 1\nid: two\ntitle: Two\nrules:\n"
        "  - {id: a, clause: '1', title: A, measure: headroom, limit: {at-least: 80 in}, provenance: memory}\n"
        "  - {id: b, clause: '2', title: B, measure: headroom, limit: {at-least: 78 in}, provenance: memory}\n"
    )
    Path("two.yaml").write_text(two, encoding="utf-8")

    done = run("rulesets", "validate", "two.yaml")

    assert done.exit_code == 2
    assert done.stderr == (
        "two.yaml:6:5: rule 'b': this rule and 'a' are about the same readings; keep the stricter, or tell them "
        "apart by `when`\n"
    )
