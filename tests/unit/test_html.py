"""The page: self-contained, escaped, readable, with its drawing."""

from __future__ import annotations

import re
from html import unescape
from html.parser import HTMLParser
from itertools import pairwise
from typing import Any

import pytest
from cases import audit_of, survey_of

from stairaudit import Survey
from stairaudit.output.html import TEMPLATES, render_html, tight
from stairaudit.output.svg import FILL, INK, MUTED, STROKES, TINTS
from stairaudit.words import readers
from stairaudit.words.readers import READERS
from stairaudit.words.view import Audited, report_view

CSS = (TEMPLATES / "report.css").read_text(encoding="utf-8")
COLOURS = dict(re.findall(r"--(\w+):(#[0-9a-f]{6})", CSS))
ODD = "<b>&\"'|`=x"


def page(*surveys: Survey, reader: readers.Reader | None = None) -> str:
    audited = [Audited("a.yaml", s, (audit_of(s),)) for s in surveys]
    return render_html(report_view(audited, "2026-01-02", "0", reader))


def luminance(colour: str) -> float:
    """Return relative luminance as WCAG 2.2 defines it (from memory)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_black_on_white_is_21_to_1() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("ground", ["paper", "tint"])
@pytest.mark.parametrize("ink", ["ink", "muted", "outside", "close", "within", "link"])
def test_every_text_colour_can_be_read(ink: str, ground: str) -> None:
    assert contrast(COLOURS[ink], COLOURS[ground]) >= 4.5


def test_every_line_of_the_drawing_can_be_seen_and_its_text_read() -> None:
    for stroke in (INK, MUTED, *STROKES.values()):
        assert contrast(stroke, FILL) >= 4.5
        assert all(contrast(stroke, tint) >= 4.5 for tint in TINTS.values())
        assert contrast(stroke, "#ffffff") >= 4.5
    assert contrast(COLOURS["rule"], COLOURS["paper"]) >= 3


class Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, Any]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))


def tags(text: str) -> list[tuple[str, dict[str, Any]]]:
    reader = Reader()
    reader.feed(text)
    return reader.tags


PORCH = survey_of(
    {"risers": ["7", "8", None], "notes": ODD}, {"name": ODD, "condition": {"rot": "seen"}}, site=ODD, surveyor=ODD
)


def test_names_print_literally() -> None:
    text = page(PORCH)

    assert "<b>" not in text
    assert "&lt;b&gt;&amp;&#34;&#39;|`=x" in text


EVERYBODY = pytest.mark.parametrize("reader", [*READERS, None])


@EVERYBODY
def test_the_page_needs_nothing_from_outside(reader: readers.Reader | None) -> None:
    text = page(PORCH, reader=reader)
    found = tags(text)
    names = {tag for tag, _ in found}
    policy = next(a["content"] for tag, a in found if a.get("http-equiv") == "Content-Security-Policy")

    assert policy == "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
    assert not names & {"script", "link", "iframe", "object", "img"}
    assert not [a for _, a in found for key in a if key == "src" or key.startswith("on")]
    assert not re.search(r"url\(|@import", text)


@EVERYBODY
def test_the_page_has_one_head_and_tables_that_can_be_read_out(reader: readers.Reader | None) -> None:
    found = tags(page(PORCH, PORCH, reader=reader))
    names = [tag for tag, _ in found]

    assert names.count("h1") == 1
    assert names.count("caption") == names.count("table")
    assert all(a.get("scope") in ("col", "row") for tag, a in found if tag == "th")
    assert ("html", {"lang": "en"}) in found
    assert all(a.get("role") == "img" and a.get("aria-labelledby") for tag, a in found if tag == "svg")


@EVERYBODY
def test_no_id_stands_twice_on_a_page_of_two_surveys(reader: readers.Reader | None) -> None:
    ids = [a["id"] for _, a in tags(page(PORCH, PORCH, reader=reader)) if "id" in a]

    assert len(ids) == len(set(ids))


def test_what_was_seen_what_is_outside_and_what_is_missing_are_all_there() -> None:
    text = page(PORCH)

    for words in ("! Seen on site", "rot (stair s)", "! outside", "Not measured (", "The local authority decides",
                  "Ask your office", "digest ", "one standard uncertainty"):  # fmt: skip
        assert words in text


def test_a_paper_size_can_be_fixed() -> None:
    view = report_view([Audited("a.yaml", PORCH, (audit_of(PORCH),))], "", "0")

    assert "@page{size:A4}" in render_html(view, "A4")
    assert "@page{size:Letter}" in render_html(view, "Letter")
    assert "@page{size" not in render_html(view)


@pytest.mark.parametrize("paper", ["letter", "", "A4}body{display:none", "A3"])
def test_no_other_paper_is_taken(paper: str) -> None:
    view = report_view([Audited("a.yaml", PORCH, (audit_of(PORCH),))], "", "0")

    with pytest.raises(ValueError, match=re.escape(f"paper is {paper!r}; write A4 or Letter")):
        render_html(view, paper)


def text_of(html: str) -> str:
    """Return what a reader sees, with plain spaces."""
    body = html.partition("<body>")[2]
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", body)).split())


def test_an_open_row_says_what_was_read_and_what_is_known_of_its_figure() -> None:
    guard = {"side": "right", "openings": [{"ball": "5", "passes": "no"}]}
    text = text_of(page(survey_of({"risers": ["7"] * 5, "guards": [guard], "sides": {"right": {"drop": "40"}}})))

    assert "read: a 5 in ball does not pass" in text
    assert "The ball that was tried settles nothing here: it needs a 4 3/8 in ball." in text


def test_a_close_row_says_how_to_measure_it_again() -> None:
    survey = survey_of({"risers": ["7 3/4"]})
    row = next(
        row for row in report_view([Audited("a", survey, (audit_of(survey),))], "", "0").surveys[0].audits[0].sections
        if row.key == "close"
    ).rows[0]  # fmt: skip

    assert row.how_to_measure
    assert f"How to measure: {row.how_to_measure}" in text_of(page(survey))


def test_what_does_not_apply_is_printed_in_full() -> None:
    names = {tag for tag, _ in tags(page(PORCH))}

    assert "Does not apply here (" in page(PORCH)
    assert not names & {"details", "summary"}


def test_a_set_for_other_stairs_says_so() -> None:
    survey = survey_of({"risers": ["7"]}, {"use": "workplace"})
    text = page(survey)

    assert audit_of(survey).applies is False
    assert "<p>Not for this survey: this rule set is for " in text
    assert "Not for every stair" not in text


def headings(text: str) -> list[tuple[int, str]]:
    return [(int(level), words) for level, words in re.findall(r"<h(\d)[^>]*>(.*?)</h\1>", text)]


@EVERYBODY
@pytest.mark.parametrize("surveys", [1, 2])
def test_no_level_of_heading_is_left_out(surveys: int, reader: readers.Reader | None) -> None:
    levels = [level for level, _ in headings(page(*[PORCH] * surveys, reader=reader))]

    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))


def test_sets_stand_below_their_survey() -> None:
    one, two = ({words: level for level, words in headings(page(*[PORCH] * count))} for count in (1, 2))

    assert (one["! Seen on site"], one["How it was judged"], one["Ask your office"]) == (2, 2, 2)
    assert (two["! Seen on site"], two["How it was judged"], two["Ask your office"]) == (3, 3, 3)


def test_where_the_figures_come_from_follows_how_they_were_judged() -> None:
    order = [words for _, words in headings(page(PORCH))]

    assert order[order.index("How it was judged") + 1] == "Where the figures come from"


@EVERYBODY
def test_every_table_and_drawing_scrolls_in_a_box_that_the_keyboard_reaches(reader: readers.Reader | None) -> None:
    found = tags(page(PORCH, PORCH, reader=reader))
    boxes = [a for tag, a in found if tag == "div" and a.get("class") == "scroll"]
    inside = [after for (tag, a), (after, _) in pairwise(found) if a.get("class") == "scroll"]

    assert all(a["tabindex"] == "0" and a["role"] == "region" and a["aria-label"] for a in boxes)
    assert sorted(inside) == sorted(tag for tag, _ in found if tag in ("table", "svg"))


def tables_of(text: str) -> list[tuple[str, str]]:
    return re.findall(r'<table class="(\w+)">(.*?)</table>', text, re.S)


def test_a_row_spans_no_more_than_the_columns_of_its_table() -> None:
    for name, body in tables_of(page(PORCH)):
        spans = {a["colspan"] for _, a in tags(body) if "colspan" in a}

        assert spans <= ({"5"} if name == "checks" else set())
        assert name != "checks" or body.count('scope="col"') == 5


@EVERYBODY
def test_every_row_has_a_cell_for_every_column(reader: readers.Reader | None) -> None:
    tables = tables_of(page(PORCH, reader=reader))

    assert tables
    for _, body in tables:
        columns = body.count('scope="col"')
        rows = re.findall(r"<tr>(.*?)</tr>", body.partition("</thead>")[2], re.S)
        assert {len(re.findall(r"<t[hd][ >]", row)) for row in rows} == {columns}


@EVERYBODY
def test_names_of_a_person_print_literally_for_every_reader(reader: readers.Reader | None) -> None:
    photo = {"file": "a'b &.jpg", "shows": "riser 2", "caption": ODD}
    survey = survey_of({"risers": ["7", "9"], "photos": [photo]}, {"name": ODD}, client=ODD, access=ODD, weather=ODD)
    text = page(survey, reader=reader)

    assert "<b>" not in text
    assert 'href="a%27b%20%26.jpg"' in text


@EVERYBODY
def test_a_page_says_for_whom_it_is(reader: readers.Reader | None) -> None:
    assert ('<p class="reader">' in page(PORCH, reader=reader)) == (reader is not None)


@pytest.mark.parametrize(
    ("text", "held"),
    [
        ("at most 7 3/4 in", "at most 7_3/4_in"),
        ("1 ft 2 in, 180 mm", "1_ft 2_in, 180_mm"),
        ("1:48 (2.1 %)", "1:48 (2.1_%)"),
        ("2 of 6 risers", "2 of 6 risers"),
        ("5 minutes", "5 minutes"),
    ],
)
def test_a_figure_holds_together(text: str, held: str) -> None:
    assert tight(text) == held.replace("_", "\u00a0")
