"""What each reader gets, and what each does not, in every kind of document."""

from __future__ import annotations

import re
from html import unescape
from typing import Any, get_args

import pytest
from cases import survey_of

from stairaudit import Survey, check, load_ruleset
from stairaudit.measures import MEASURES
from stairaudit.output import markdown, terminal
from stairaudit.output.html import render_html
from stairaudit.output.markdown import render_markdown
from stairaudit.output.terminal import render_text
from stairaudit.parts import Condition
from stairaudit.rulefile import Hazard
from stairaudit.words.ranking import HAZARDS
from stairaudit.words.readers import READERS, Block, Reader, blocks_of
from stairaudit.words.recommendations import _book, class_of, for_condition, for_finding
from stairaudit.words.view import Audited, report_view

FLIGHT: dict[str, Any] = {
    "risers": ["7", "8 1/2", "7 3/4", "7", "7"], "treads": ["11", None, "11", "11"],
    "total_rise": "50", "width": "34", "headroom": "78",
    "sides": {"left": {"drop": "60", "guard": "none"}, "right": "wall"}, "handrails": "none",
    "photos": [{"file": "photos/riser 2.jpg", "shows": "Riser 2", "caption": "The tall one"}],
}  # fmt: skip
STAIR = {
    "name": "Back steps", "built": "1960", "setting": "outdoor", "condition": {"rot": "seen"},
    "photos": [{"file": "photos/rot.jpg", "shows": "rot"}, {"file": "photos/all.jpg"}],
}  # fmt: skip
SURVEY = survey_of(
    FLIGHT, STAIR, client="R. Alder", access="the space below", weather="dry, bright", date="2026-03-02",
    authority={"place": "Marl County", "edition": "IRC 2018", "told_by": "counter clerk", "date": "2026-03-01"},
)  # fmt: skip
WRITERS = {"html": render_html, "md": render_markdown, "text": render_text}


def written(kind: str, reader: Reader | None, survey: Survey = SURVEY) -> str:
    audits = tuple(check(survey, load_ruleset(name)) for name in ("us-irc-2021", "good-practice"))
    text: str = WRITERS[kind](report_view([Audited("a.yaml", survey, audits)], "2026-03-03", "0", reader))  # type: ignore[operator]
    if kind == "html":
        text = unescape(re.sub(r"<[^>]*>", " ", text.partition("<body>")[2]))
    return " ".join(text.replace("\\", "").split())


PAGES = ["html", "md"]
ALL = [*PAGES, "text"]
CLAUSE = re.compile(r"R3\d\d\.\d")


def advice() -> list[str]:
    rules = [rule for name in ("us-irc-2021", "good-practice") for rule in load_ruleset(name).rules]
    return [rule.advice for rule in rules if rule.advice]


@pytest.mark.parametrize("kind", ALL)
def test_a_buyer_reads_no_cause_no_advice_and_no_clause(kind: str) -> None:
    text = written(kind, "buyer")

    assert not CLAUSE.search(text)
    assert not [words for words in advice() if words in text]
    assert "the risers add up to" not in text
    assert "the readings do not agree with each other: have them taken again." in text


@pytest.mark.parametrize("kind", ALL)
def test_a_buyer_reads_what_may_happen_what_is_recommended_and_whom_to_call(kind: str) -> None:
    text = written(kind, "buyer")

    for words in (
        "Look at first (5 of 7)", "A guard on an open side of the flight", "Correct", "a stair builder or carpenter",
        "Somebody may step off the open side and fall to what lies below.", "Rot", "photos/rot.jpg",
        "A part may give way under a person without warning.", "Further evaluation, by a person on site",
        "Within, but too close to call (1)", "Measure again now, or have it measured",
        "Not measured (", "What this is and what it is not", "Cautions",
        "Back steps: built 1960, the figures are those of 2021. Ask the authority whether it is judged by the "
        "figures of its day.",
    ):  # fmt: skip
        assert words.lower() in text.lower(), words


@pytest.mark.parametrize("kind", ALL)
def test_what_was_not_measured_has_a_heading_as_large_as_what_lies_outside(kind: str) -> None:
    raw = WRITERS[kind](  # type: ignore[operator]
        report_view([Audited("a.yaml", SURVEY, (check(SURVEY, load_ruleset("us-irc-2021")),))], "", "0", "buyer")
    )
    pattern = {"html": r"<h2>. {}", "md": r"(?m)^## {}", "text": r"(?im)^{} \("}[kind]

    assert re.search(pattern.format("Look at first"), raw)
    assert re.search(pattern.format("Not measured"), raw)


@pytest.mark.parametrize("kind", ALL)
def test_a_builder_reads_figure_amount_and_advice(kind: str) -> None:
    text = written(kind, "builder")

    for words in (
        "8 1/2 in", "at most 7 3/4 in", "3/4 in over", "Even out the whole flight", "Not measured (",
        "Cautions", "Sizes, bottom to top", "the risers add up to",
    ):  # fmt: skip
        assert words.lower() in text.lower(), words
    assert "Somebody may step off" not in text


@pytest.mark.parametrize("kind", ALL)
def test_an_official_reads_every_clause_the_edition_told_the_method_and_the_digest(kind: str) -> None:
    text = written(kind, "official")
    ruleset = load_ruleset("us-irc-2021")

    assert "As told by the authority: Marl County: IRC 2018, told by counter clerk on 2026-03-01." in text
    assert "Set beside: International Residential Code 2021 (rule set us-irc-2021)." in text
    assert not [rule.clause for rule in ruleset.rules if rule.clause not in text]
    assert not [rule.title for rule in ruleset.rules if rule.title not in text]
    for words in ("does not apply", "one standard uncertainty", ruleset.digest, "Signed", "read in the text itself"):
        assert words in text


@pytest.mark.parametrize("kind", PAGES)
@pytest.mark.parametrize("reader", [None, "official"])
def test_readings_as_typed_stand_in_the_full_document_and_for_the_office(kind: str, reader: Reader | None) -> None:
    text = written(kind, reader)

    assert "Readings as typed" in text
    assert "riser 2 8 1/2 8 1/2 in 215.9 mm" in text.replace("|", " ").replace("  ", " ").replace("  ", " ")


@pytest.mark.parametrize("kind", ALL)
@pytest.mark.parametrize("reader", ["buyer", "builder", "official", None])
def test_what_to_look_at_first_stands_above_every_other_finding(kind: str, reader: Reader | None) -> None:
    text = written(kind, reader).lower()

    assert "look at first (5 of 7)" in text
    assert "2 more stand below." in text
    assert text.index("look at first") < min(
        found for words in ("not measured (", "within the published", "outside the published", "clause by clause")
        if (found := text.find(words)) >= 0
    )  # fmt: skip


@pytest.mark.parametrize("kind", PAGES)
@pytest.mark.parametrize("reader", [*READERS, None])
def test_every_page_says_what_it_is_and_for_whom(kind: str, reader: Reader | None) -> None:
    text = written(kind, reader)

    assert "This is a visual, non-invasive check of what could be seen and measured on 2026-03-02" in text
    assert "It was made for R. Alder only; nobody else should rely on it." in text
    for words in ("Client", "R. Alder", "the space below", "dry, bright"):
        assert words in text


@pytest.mark.parametrize("reader", ["buyer", "official"])
def test_the_scope_stands_in_the_text_of_those_who_hand_it_on(reader: Reader) -> None:
    assert "visual, non-invasive" in written("text", reader)
    assert "visual, non-invasive" not in written("text", None)


def test_without_a_client_the_scope_names_who_ordered_it() -> None:
    assert "It was made only for the person who ordered it;" in written("html", "buyer", survey_of(FLIGHT))


def test_a_photo_is_linked_where_its_part_is_named() -> None:
    audits = (check(SURVEY, load_ruleset("us-irc-2021")),)
    page = render_html(report_view([Audited("a", SURVEY, audits)], "", "0", "buyer"))

    assert '<a href="photos/riser%202.jpg">Photo: The tall one</a>' in page
    assert '<a href="photos/rot.jpg">Photo: photos/rot.jpg</a>' in page
    assert "[Photo: The tall one](photos/riser%202.jpg)" in render_markdown(
        report_view([Audited("a", SURVEY, audits)], "", "0", "buyer")
    )
    assert "Photo of Back steps" in page


def test_nothing_to_look_at_is_said() -> None:
    survey = survey_of({"risers": ["7"] * 3})

    assert "Nothing that was measured lies outside its figure." in written("html", "buyer", survey)
    assert "Look at first" not in written("text", None, survey)


@pytest.mark.parametrize("medium", ["page", "text"])
@pytest.mark.parametrize("reader", [*READERS, None])
def test_every_block_has_its_place_in_every_writer(reader: Reader | None, medium: Any) -> None:
    placed = markdown.PLACES if medium == "page" else terminal.PLACES

    assert set(blocks_of(reader, medium)) <= set(placed)
    assert set(blocks_of(reader, medium)) <= set(get_args(Block))


def test_a_buyer_sees_the_side_view_and_no_other_drawing() -> None:
    assert {"side", "plan", "sizes", "bars"} & set(blocks_of("buyer", "page")) == {"side"}


def test_a_figure_from_memory_is_for_the_authority() -> None:
    audit = check(survey_of({"risers": ["7"] * 4, "treads": ["9", "11", "9"]}), load_ruleset("good-practice"))
    found = next(f for f in audit.findings if f.rule.provenance == "memory")

    assert class_of(found) == "ask"
    assert for_finding(found).told == "Ask the authority, since this figure is known from memory only"


def test_every_hazard_kind_and_condition_has_its_recommendation() -> None:
    book = _book()

    assert set(book["hazards"]) == set(get_args(Hazard)) == set(HAZARDS)
    assert {name for kind in book["kinds"] for name in kind["measures"]} <= set(MEASURES)
    assert set(book["conditions"]) == set(Condition.model_fields)
    assert all(for_condition(item).call for item in Condition.model_fields)


def test_what_may_happen_is_one_plain_sentence_and_names_whom_to_call() -> None:
    book = _book()
    told = [*book["hazards"].values(), *book["kinds"], *book["conditions"].values()]

    assert all(re.fullmatch(r"[A-Z][^.]*\.", entry["may_happen"]) for entry in told)
    assert all(entry["call"] for entry in told)
