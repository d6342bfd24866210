"""Rule sets that extend others, and every way in which a rule set file can be wrong, with the whole message."""

from __future__ import annotations

from pathlib import Path

import pytest

from stairaudit import RulesetError, load_ruleset
from stairaudit.lengths import parse_length

HEAD = "format: 1\nid: mine\ntitle: Mine\n"
RULE = "  - {id: low, clause: '1', title: Low, measure: headroom, limit: {at-least: 80 in}, provenance: seen}\n"


@pytest.fixture(autouse=True)
def _own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def written(text: str, name: str = "mine.yaml") -> str:
    Path(name).parent.mkdir(parents=True, exist_ok=True)
    Path(name).write_text(text, encoding="utf-8")
    return f"./{name}"


def refused(text: str) -> str:
    with pytest.raises(RulesetError) as caught:
        load_ruleset(written(text))
    return str(caught.value)


def test_a_rule_set_of_ones_own_is_read() -> None:
    ruleset = load_ruleset(written(HEAD + "rules:\n" + RULE))

    assert (ruleset.id, ruleset.shipped, [rule.id for rule in ruleset.rules]) == ("mine", False, ["low"])
    assert ruleset.rules[0].limit.low == parse_length("80 in")


def test_an_amendment_drops_replaces_and_adds() -> None:
    text = (
        HEAD + "document: County Code\nedition: '7'\nextends: us-irc-2021\ndrop: [exterior-light-top]\n"
        "replace:\n  - {id: riser-height-max, limit: {at-most: 8 1/4 in}}\nadd:\n" + RULE
    )
    base, ruleset = load_ruleset("us-irc-2021"), load_ruleset(written(text))
    riser, tread = ruleset.rule("riser-height-max"), ruleset.rule("tread-depth-min")
    assert riser is not None
    assert tread is not None

    assert len(ruleset.rules) == len(base.rules)
    assert ruleset.rule("exterior-light-top") is None
    assert (riser.limit.low, riser.clause, riser.document) == (
        parse_length("8 1/4 in"),
        "R311.7.5.1",
        "International Residential Code",
    )
    assert (riser.provenance, riser.source, riser.known_limits) == ("memory", "", "")
    assert riser.replaced == "International Residential Code 2021 R311.7.5.1: at most 7 3/4 in"
    assert (tread.document, tread.edition, tread.provenance) == ("International Residential Code", "2021", "seen")
    assert ruleset.rules[-1].id == "low"


def test_amendments_may_be_chained_and_lie_in_other_folders() -> None:
    written(HEAD + "extends: us-irc-2021\ndrop: [tread-depth-min]\n", "state/state.yaml")
    town = written(HEAD + "extends: ../state/state.yaml\ndrop: [riser-height-max]\n", "town/town.yaml")

    assert len(load_ruleset(town).rules) == len(load_ruleset("us-irc-2021").rules) - 2


def test_the_digest_is_that_of_the_resolved_set() -> None:
    same = HEAD + "extends: us-irc-2021\ndrop: [tread-depth-min]\n"
    one, other = load_ruleset(written(same, "a.yaml")), load_ruleset(written(same, "b.yaml"))
    third = load_ruleset(written(same + "replace: [{id: riser-height-max, limit: {at-most: 8 in}}]\n", "c.yaml"))

    assert one.digest == other.digest
    assert one.digest != third.digest


def test_an_edition_that_renumbers_must_number_every_rule() -> None:
    written(HEAD + "rules:\n" + RULE + RULE.replace("low", "high"), "base.yaml")
    text = HEAD + "edition: '2'\nextends: base.yaml\nclauses:\n  low: {clause: '9', provenance: memory}\n"

    assert refused(text) == (
        "./mine.yaml:7:3: clauses: the inherited rule 'high' has no number in this edition; give it one, or drop it"
    )
    ruleset = load_ruleset(written(text + "drop: [high]\n"))
    assert [(r.clause, r.provenance, r.edition) for r in ruleset.rules] == [("9", "memory", "2")]


def test_a_new_number_known_in_another_way_takes_no_reading_over() -> None:
    rule = RULE.replace("provenance: seen", "provenance: seen, read_in: [2015-2024], source: The text itself")
    written(HEAD + "rules:\n" + rule + rule.replace("low", "high"), "base.yaml")
    numbers = "  low: {clause: '8', provenance: memory}\n  high: {clause: '9', provenance: seen}\n"
    ruleset = load_ruleset(written(HEAD + "extends: base.yaml\nclauses:\n" + numbers))

    assert [(r.clause, r.provenance, r.read_in, r.source) for r in ruleset.rules] == [
        ("8", "memory", (), ""),
        ("9", "seen", ("2015-2024",), "The text itself"),
    ]


def test_a_later_edition_is_no_amendment_of_an_earlier_one() -> None:
    written(HEAD + "document: Code\nedition: '1'\nrules:\n" + RULE, "base.yaml")
    text = (
        HEAD + "document: Code\nedition: '2'\nextends: base.yaml\nreplace:\n"
        "  - {id: low, limit: {at-least: 78 in}, provenance: seen}\n"
        "clauses: {low: {clause: '2', provenance: seen}}\n"
    )

    rule = load_ruleset(written(text)).rules[0]
    assert (rule.edition, rule.clause, rule.replaced) == ("2", "2", "")


def test_unknown_ids_are_told_with_the_near_one() -> None:
    text = (
        HEAD
        + "extends: us-irc-2021\ndrop: [riser-hight-max]\nreplace: [{id: tread-dept-min}]\nadd:\n"
        + (RULE.replace("id: low", "id: headroom-flight"))
    )

    assert refused(text).splitlines() == [
        "./mine.yaml:5:8: drop 1: no inherited rule is called 'riser-hight-max'; did you mean 'riser-height-max'?",
        "./mine.yaml:6:16: rule 'tread-dept-min', id: no inherited rule is called 'tread-dept-min'; "
        "did you mean 'tread-depth-min'?",
        "./mine.yaml:8:10: rule 'headroom-flight', id: a rule called 'headroom-flight' is there already; "
        "give it another id, or use replace",
    ]


def test_sets_that_extend_each_other_are_refused() -> None:
    written(HEAD + "extends: mine.yaml\n", "other.yaml")

    assert "these sets extend each other in a ring: " in refused(HEAD + "extends: other.yaml\n")


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (("measure: headroom", "measure: head-room"),
         "rule 'low', measure: no measure is called 'head-room'; did you mean 'headroom'?"),
        (("{at-least: 80 in}", "{minimum: 80 in}"),
         "rule 'low', limit: a limit has exactly one relation; minimum stands here; "
         "accepted: at-most, at-least, less-than, more-than, between, equals"),
        (("{at-least: 80 in}", "{at-least: 80}"),
         "rule 'low', limit, at-least: '80' has no unit; write 80 in or 80 mm, or give the file one, "
         "as in units: in"),
        (("{at-least: 80 in}", "{between: [80 in, 70 in]}"),
         "rule 'low', limit, between: the first figure is larger than the second; write the smaller one first"),
        (("{at-least: 80 in}", "{equals: 80 in}"),
         "rule 'low', limit, equals: headroom is a reading, which never equals a figure; use between"),
        (("{at-least: 80 in}", "{at-least: {measure: riser-count}}"),
         "rule 'low', limit, at-least, measure: riser-count is a count; headroom is a length"),
        (("provenance: seen", "provenance: seen, when: {seting: indoor}"),
         "rule 'low', when, seting: no condition is called 'seting'; did you mean 'setting'?"),
        (("provenance: seen", "provenance: seen, when: {setting: garden}"),
         "rule 'low', when, setting: 'garden' stands here; accepted: indoor, outdoor, garage"),
        (("provenance: seen", "provenance: seen, when: {riser-count: 4}"),
         "rule 'low', when, riser-count: riser-count is a figure, so a relation is needed; such as {at-least: 4}"),
        (("provenance: seen", "provenance: seen, unless: {grip-shape: round}"),
         "rule 'low', unless 1, grip-shape: grip-shape is asked of a handrail, and headroom is measured on a flight; "
         "ask a condition of that part or of the stair"),
        (("provenance: seen", "provenance: heard"),
         "rule 'low', provenance: 'heard' stands here; accepted: 'seen', 'secondary' or 'memory'"),
        ((", clause: '1'", ", clause: ''"),
         "rule 'low', clause: a limit has no clause; write the document's own number"),
        ((", provenance: seen", ""), "rule 'low': the key 'provenance' is missing; it is required"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_a_rule_is_told_with_its_place(change: tuple[str, str], message: str) -> None:
    told = refused(HEAD + "rules:\n" + RULE.replace(*change))

    assert told.split(": ", 1)[1] == message


def test_every_problem_of_a_file_is_told_at_once() -> None:
    text = (
        HEAD
        + "rules:\n"
        + RULE.replace("headroom", "hedroom")
        + RULE.replace("low", "b").replace("80 in", "8 3/5 in")
    )

    assert len(refused(text).splitlines()) == 2


def test_a_set_without_rules_is_refused() -> None:
    assert refused(HEAD) == "./mine.yaml:1:1: this rule set has no rules; add rules:"


def test_a_file_that_is_no_rule_set_is_refused() -> None:
    assert refused("- 1\n") == "./mine.yaml:1:1: this is no rule set; it starts with format: 1, id: and rules:"


def test_a_missing_file_is_told() -> None:
    with pytest.raises(RulesetError) as caught:
        load_ruleset("./nowhere.yaml")

    assert str(caught.value) == "./nowhere.yaml: cannot be read: No such file or directory"


def test_shipped_rules_have_every_text_that_a_reader_needs() -> None:
    for name in ("us-irc-2021", "good-practice"):
        for rule in load_ruleset(name).rules:
            texts = (rule.title, rule.why, rule.how_to_measure, rule.source)
            assert all(texts), rule.id
            assert rule.read_in or rule.provenance == "memory", rule.id


def test_a_new_clause_is_that_of_the_amending_document() -> None:
    patch = "{id: riser-height-max, clause: 12-4.1, limit: {at-most: 8 in}, provenance: seen}"
    text = HEAD + f"document: County Code\nedition: '7'\nextends: us-irc-2021\nreplace: [{patch}]\n"
    riser = load_ruleset(written(text)).rule("riser-height-max")
    assert riser is not None

    assert (riser.document, riser.edition, riser.clause, riser.provenance) == ("County Code", "7", "12-4.1", "seen")


def test_a_rule_is_replaced_once_and_keeps_its_measure() -> None:
    text = HEAD + (
        "extends: us-irc-2021\nreplace:\n  - {id: riser-height-max, measure: tread-depth}\n"
        "  - {id: riser-height-max, limit: {at-most: 8 in}}\n"
    )

    assert [line.split(": ", 2)[2] for line in refused(text).splitlines()] == [
        "the rule 'riser-height-max' measures riser-height; "
        "a replaced rule keeps its measure; drop it and add another",
        "the rule 'riser-height-max' is replaced twice; put both changes into one entry",
    ]


def test_the_id_of_a_shipped_set_is_refused() -> None:
    assert refused(HEAD.replace("mine", "us-irc-2021") + "rules:\n" + RULE) == (
        "./mine.yaml:2:5: id: the id 'us-irc-2021' is that of a shipped set; give yours another"
    )


def test_a_rule_is_not_its_own_limit() -> None:
    text = HEAD + "rules:\n" + RULE.replace("{at-least: 80 in}", "{at-least: {measure: headroom}}")

    assert "headroom would be its own limit; name another measure" in refused(text)


def test_a_set_in_a_folder_of_ones_own_is_found_by_its_id(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    written(HEAD + "rules:\n" + RULE, "sets/mine.yaml")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "nowhere"))
    with pytest.raises(RulesetError, match="no rule set is called 'mine'"):
        load_ruleset("mine")

    named = load_ruleset("mine", [tmp_path / "sets"])
    monkeypatch.setenv("STAIRAUDIT_RULESETS", str(tmp_path / "sets"))
    told = load_ruleset("mine")
    monkeypatch.delenv("STAIRAUDIT_RULESETS")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    written(HEAD + "rules:\n" + RULE, "stairaudit/rulesets/mine.yaml")

    assert [one.shipped for one in (named, told, load_ruleset("mine"))] == [False, False, False]


def test_a_shipped_set_wins_over_one_of_the_same_name(tmp_path: Path) -> None:
    written(HEAD + "rules:\n" + RULE, "sets/us-irc-2021.yaml")

    assert load_ruleset("us-irc-2021", [tmp_path / "sets"]).shipped
