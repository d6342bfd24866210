"""Two rule sets against each other, and several beside one survey."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from cases import survey_of

from stairaudit import Ruleset, check, load_ruleset
from stairaudit.output.html import render_html
from stairaudit.output.markdown import render_markdown
from stairaudit.output.terminal import render_text
from stairaudit.words.differences import change_lines, difference_lines
from stairaudit.words.matrix import Cell, matrix_of
from stairaudit.words.readers import Reader
from stairaudit.words.view import Audited, report_view

HEAD = "format: 1\nid: county\ntitle: A county\n"
AMENDED = (
    HEAD + "extends: us-irc-2021\nreplace:\n"
    "  - {id: riser-height-max, clause: 12-4.1, limit: {at-most: 8 1/4 in}, provenance: seen}\n"
    "drop: [guard-triangle]\n"
)
FLIGHT: dict[str, Any] = {"risers": ["8", "7 3/4", "8", "8 3/8"], "treads": ["9", "10", "10"]}
STAIR = {"use": "one-dwelling"}


def amended(tmp_path: Path, text: str = AMENDED) -> Ruleset:
    path = tmp_path / "county.yaml"
    path.write_text(text, encoding="utf-8")
    return load_ruleset(path)


def test_only_what_differs_is_listed(tmp_path: Path) -> None:
    assert list(difference_lines(load_ruleset("us-irc-2021"), amended(tmp_path))) == [
        "us-irc-2021: One dwelling, United States model code, 2021",
        "county: A county",
        "",
        "riser-height",
        "  us-irc-2021: at most 7 3/4 in (196.85 mm) [R311.7.5.1]",
        "  county: at most 8 1/4 in (209.55 mm) [12-4.1]",
        "",
        "guard-triangle",
        "  us-irc-2021: less than 6 in (152.4 mm) [R312.1.3 exc. 1] when drop more than 30 in",
        "  county: no rule",
        "",
        f"{asked_alike()} measures are asked alike. Numbers of clauses and words are not compared.",
    ]


def asked_alike() -> int:
    return len({rule.measure.name for rule in load_ruleset("us-irc-2021").rules}) - 2


def test_a_set_is_alike_to_itself() -> None:
    lines = list(difference_lines(load_ruleset("good-practice"), load_ruleset("good-practice")))

    assert lines[2:3] == [""]
    assert len(lines) == 4


def test_a_condition_that_differs_is_told(tmp_path: Path) -> None:
    own = amended(
        tmp_path,
        HEAD + "extends: us-irc-2021\nreplace:\n  - {id: guard-triangle, when: {drop: {more-than: 24 in}}}\n",
    )

    assert "  county: less than 6 in (152.4 mm) [R312.1.3 exc. 1] when drop more than 24 in" in list(
        difference_lines(load_ruleset("us-irc-2021"), own)
    )


def test_what_changes_for_one_stair_is_told(tmp_path: Path) -> None:
    survey = survey_of(FLIGHT, STAIR)
    audits = check(survey, load_ruleset("us-irc-2021")), check(survey, amended(tmp_path))

    assert list(change_lines(audits, "in")) == [
        "Riser height, risers 1 and 3: 8 in",
        "  ! us-irc-2021: at most 7 3/4 in: outside",
        "  + county: at most 8 1/4 in: within",
    ]


def test_every_reading_outside_a_figure_stands_beside_every_set(tmp_path: Path) -> None:
    survey = survey_of(FLIGHT, STAIR)
    matrix = matrix_of([check(survey, load_ruleset("us-irc-2021")), check(survey, amended(tmp_path))], "in")

    assert matrix is not None
    assert matrix.sets == ("us-irc-2021", "county")
    assert [(row.where, row.what, row.reading, row.differs) for row in matrix.rows] == [
        ("risers 1 and 3", "Riser height", "8 in", True),
        ("riser 4", "Riser height", "8 3/8 in", False),
        ("tread 1", "Tread depth", "9 in", False),
        ("flight", "Riser spread in a flight", "5/8 in", False),
        ("flight", "Tread spread in a flight", "1 in", False),
    ]
    assert matrix.rows[0].cells == (
        Cell("!", "outside", "at most 7 3/4 in"),
        Cell("+", "within", "at most 8 1/4 in"),
    )


def test_one_set_alone_or_one_that_does_not_apply_makes_no_matrix() -> None:
    survey = survey_of(FLIGHT, {"use": "workplace"})
    audits = [check(survey, load_ruleset(name)) for name in ("us-irc-2021", "good-practice")]

    assert matrix_of(audits, "in") is None
    assert list(change_lines((audits[0], audits[1]), "in")) == [
        "One of the two is not for this survey; each report says why."
    ]


@pytest.mark.parametrize("reader", [None, "builder", "official"])
def test_sets_stand_side_by_side_in_every_document(reader: Reader | None, tmp_path: Path) -> None:
    survey = survey_of(FLIGHT, STAIR)
    audits = check(survey, load_ruleset("us-irc-2021")), check(survey, amended(tmp_path))
    view = report_view([Audited("s.yaml", survey, audits)], "", "1", reader)

    assert "   ! at most 7 3/4 in: outside [us-irc-2021]\n   + at most 8 1/4 in: within [county]\n" in render_text(
        view
    )
    assert "   ! at least 10 in: outside [us-irc-2021, county]\n" in render_text(view)
    assert "| Riser height, risers 1 and 3 | 8 in | at most 8 1/4 in | within | county |" in render_markdown(view)
    assert '<table class="matrix">' in render_html(view)


def test_rules_of_thumb_are_no_set_to_stand_beside() -> None:
    survey = survey_of(FLIGHT, STAIR)

    assert matrix_of([check(survey, load_ruleset(name)) for name in ("us-irc-2021", "good-practice")], "in") is None
