"""The drawings: to scale, flagged by more than colour, dashed where nothing was measured."""

from __future__ import annotations

import re
from typing import Any
from xml.etree import ElementTree

import pytest
from cases import audit_of, survey_of

from stairaudit.output.drawing import draw, draw_bars, lay_out, needs_table
from stairaudit.words.pictures import Picture, picture_of


def picture(flight: dict[str, Any]) -> Picture:
    survey = survey_of(flight)
    stair = survey.stairs[0]
    drawn = picture_of(audit_of(survey), stair, stair.flights[0], "in")
    assert drawn is not None
    return drawn


def test_steps_are_laid_out_to_scale() -> None:
    laid = lay_out(picture({"risers": ["7", "7 1/2"], "treads": ["10"], "nosings": ["1", "1"]}))

    assert [(step.foot, step.head, step.nose) for step in laid] == [
        ((0, 0), (0, 177.8), (-25.4, 177.8)),
        ((254.0, 177.8), (254.0, 368.3), (228.6, 368.3)),
    ]


def test_what_was_not_measured_takes_the_mean_and_is_dashed_with_a_question_mark() -> None:
    drawn = picture({"risers": ["7", None, "8"]})
    text = draw(drawn, "a")

    assert lay_out(drawn)[1].head.y == pytest.approx(177.8 + 190.5)
    assert ">R2 ?</text>" in text
    assert ">T1 ?</text>" in text
    assert text.count('stroke-dasharray="14 10"') == 3


def test_a_part_outside_its_figure_has_a_sign_and_a_heavier_line() -> None:
    text = draw(picture({"risers": ["7", "8"], "treads": ["10 1/2"]}), "a")

    assert ">! R2 8 in</text>" in text
    assert ">R1 7 in</text>" in text
    assert 'stroke-width="19.2"' in text


def test_a_close_part_has_its_own_sign() -> None:
    assert ">~ R1 7 3/4 in</text>" in draw(picture({"risers": ["7 3/4"]}), "a")


@pytest.mark.parametrize("count", [1, 2, 12, 13, 18])
def test_a_drawing_is_whole_xml_with_title_and_description(count: int) -> None:
    drawn = picture(
        {"risers": ["7"] * count, "handrails": [{"side": "left", "heights": ["36", "36"]}], "headroom": "84"}
    )
    for text in (draw(drawn, "a"), draw_bars(drawn, "a")):
        if text:
            root = ElementTree.fromstring(text)
            assert [child.tag.rpartition("}")[2] for child in root][:2] == ["title", "desc"]
    assert needs_table(drawn) == (count > 12)


@pytest.mark.parametrize("count", [3, 12])
def test_labels_of_steps_do_not_lie_on_each_other(count: int) -> None:
    text = draw(picture({"risers": ["7 15/16"] * count, "treads": ["9 15/16"] * (count - 1)}), "a")
    labels = re.findall(r'<text x="([-\d.]+)" y="([-\d.]+)" font-size="([\d.]+)"', text)
    places = [(float(x), float(y), float(size)) for x, y, size in labels]

    for i, (x, y, size) in enumerate(places):
        for other_x, other_y, _ in places[i + 1 :]:
            assert abs(y - other_y) >= size or abs(x - other_x) > size * 8


def test_labels_of_lines_do_not_lie_on_each_other() -> None:
    rails = [{"side": side, "heights": ["36", "36"]} for side in ("left", "right", "centre")]
    text = draw(picture({"risers": ["7"] * 4, "handrails": rails}), "a")
    heights = [
        float(y)
        for y in re.findall(r'y="([-\d.]+)" font-size="[\d.]+" text-anchor="start" fill="[^"]+"[^>]*>handrail', text)
    ]

    assert len(heights) == 3
    assert min(abs(a - b) for i, a in enumerate(heights) for b in heights[i + 1 :]) > 60


def test_bars_need_two_risers() -> None:
    assert draw_bars(picture({"risers": ["7"]}), "a") == ""
    assert draw_bars(picture({"risers": ["7", "8"]}), "a").count("<rect") == 2


def test_a_flight_of_unknown_risers_is_not_drawn() -> None:
    survey = survey_of({"width": "40"})
    stair = survey.stairs[0]

    assert picture_of(audit_of(survey), stair, stair.flights[0], "in") is None
