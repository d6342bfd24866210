"""The page: self-contained, escaped, readable, with its drawing."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from typing import Any

import pytest
from cases import audit_of, survey_of

from stairaudit import Survey
from stairaudit.output.drawing import FILL, INK, MUTED, STROKES
from stairaudit.output.html import TEMPLATES, render_html
from stairaudit.words.view import Audited, report_view

CSS = (TEMPLATES / "report.css").read_text(encoding="utf-8")
COLOURS = dict(re.findall(r"--(\w+):(#[0-9a-f]{6})", CSS))
ODD = "<b>&\"'|`=x"


def page(*surveys: Survey) -> str:
    return render_html(report_view([Audited("a.yaml", s, (audit_of(s),)) for s in surveys], "2026-01-02", "0"))


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


def test_the_page_needs_nothing_from_outside() -> None:
    found = tags(page(PORCH))
    names = {tag for tag, _ in found}
    policy = next(a["content"] for tag, a in found if a.get("http-equiv") == "Content-Security-Policy")

    assert policy == "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
    assert not names & {"script", "link", "iframe", "object", "img"}
    assert not [a for _, a in found for key in a if key == "src" or key.startswith("on")]
    assert not re.search(r"url\(|@import", page(PORCH))


def test_the_page_has_one_head_and_tables_that_can_be_read_out() -> None:
    found = tags(page(PORCH, PORCH))
    names = [tag for tag, _ in found]

    assert names.count("h1") == 1
    assert names.count("caption") == names.count("table")
    assert all(a.get("scope") in ("col", "row") for tag, a in found if tag == "th")
    assert ("html", {"lang": "en"}) in found
    assert all(a.get("role") == "img" and a.get("aria-labelledby") for tag, a in found if tag == "svg")


def test_no_id_stands_twice_on_a_page_of_two_surveys() -> None:
    ids = [a["id"] for _, a in tags(page(PORCH, PORCH)) if "id" in a]

    assert len(ids) == len(set(ids))


def test_what_was_seen_what_is_outside_and_what_is_missing_are_all_there() -> None:
    text = page(PORCH)

    for words in ("! Seen on site", "rot (stair s)", "! outside", "Not measured (", "The local authority decides",
                  "Ask your office", "digest ", "one standard uncertainty"):  # fmt: skip
        assert words in text


def test_a_paper_size_can_be_fixed() -> None:
    view = report_view([Audited("a.yaml", PORCH, (audit_of(PORCH),))], "", "0")

    assert "@page{size:A4}" in render_html(view, "A4")
    assert "@page{size" not in render_html(view)
