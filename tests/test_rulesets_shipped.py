"""What holds of every shipped rule set: its status, its words, its place, its ids, what it keeps out."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from stairaudit import load_ruleset
from stairaudit.shipped import shipped_ids

# Reserved names of rule sets.
RESERVED = {
    "us-irc-2009", "us-irc-2012", "us-irc-2015", "us-irc-2018", "us-irc-2021", "us-irc-2024", "us-older-dwelling",
    "us-ibc-2021", "us-ipmc-2021", "us-nspire-2023", "us-hud-3280", "us-nfpa101-existing-2021",
    "us-ifc-existing-2021", "us-ada-2010", "us-osha-1910", "us-osha-1926", "gb-eng-adk-2013", "gb-eng-adk-1998",
    "gb-sct-domestic-2022", "ie-tgdk-2014", "au-ncc-2022", "nz-d1-as1-2017", "ca-nbc-2020", "de-din18065-2020",
    "good-practice",
}  # fmt: skip
EXISTING = {
    "us-older-dwelling", "us-ipmc-2021", "us-nspire-2023", "us-nfpa101-existing-2021", "us-ifc-existing-2021",
    "gb-eng-adk-1998",
}  # fmt: skip
HERE = Path(__file__).parent
SETS = shipped_ids()


def test_every_reserved_set_is_shipped() -> None:
    assert set(SETS) >= RESERVED


@pytest.mark.parametrize("name", SETS)
def test_a_set_of_which_less_than_half_was_read_or_quoted_is_provisional(name: str) -> None:
    one = load_ruleset(name)
    known = sum(rule.provenance in ("seen", "secondary") for rule in one.rules)

    assert one.id == name
    assert (2 * known < len(one.rules)) <= (one.status == "provisional")


@pytest.mark.parametrize("name", sorted(EXISTING))
def test_a_set_for_existing_stairs_names_its_purposes(name: str) -> None:
    assert set(load_ruleset(name).purposes) == {"as-found", "repair"}


@pytest.mark.parametrize("name", SETS)
def test_a_set_says_how_it_is_known_where_it_is_for_and_what_it_may_copy(name: str) -> None:
    one = load_ruleset(name)

    assert one.place
    assert one.title
    assert one.licence
    assert one.reviewed is not None
    if name != "good-practice":
        assert any(note.startswith("How it is known") for note in one.notes)
        assert one.document


@pytest.mark.parametrize("name", SETS)
def test_every_rule_tells_why_how_to_measure_and_what_to_do(name: str) -> None:
    for rule in load_ruleset(name).rules:
        assert all((rule.why, rule.how_to_measure, rule.advice)), rule.id
        assert rule.provenance == "memory" or rule.source, rule.id
        assert len(rule.why) <= 240, rule.id


@pytest.mark.parametrize("name", SETS)
def test_no_sentence_of_a_set_claims_a_verdict(name: str) -> None:
    one = load_ruleset(name)
    texts = [*one.notes, *(text for rule in one.rules for text in (rule.why, rule.advice, rule.known_limits))]

    for text in texts:
        words = set(text.lower().replace(",", " ").replace(".", " ").split())
        assert not words & {"compliant", "compliance", "violation", "violates", "illegal"}, text


def test_rows_that_are_disputed_or_not_to_be_shipped_have_no_rule() -> None:
    rows = list(csv.DictReader((HERE / "figures.csv").read_text(encoding="utf-8").splitlines()))
    left_out = list(csv.DictReader((HERE / "figures_left_out.csv").read_text(encoding="utf-8").splitlines()))
    kept_out = {(row["set"], row["entry"]) for row in left_out}
    marked = {
        (row["set"], row["entry"])
        for row in rows
        if row["note"].startswith(("disputed:", "do-not-ship:")) and row["role"] in ("limit", "yes-no")
    }

    assert marked - kept_out == set()
