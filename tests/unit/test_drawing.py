"""The drawings: to scale, flagged by more than colour, dashed where nothing was measured."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any
from xml.etree import ElementTree

import pytest
from cases import audit_of, survey_of

from stairaudit.lengths import Unit
from stairaudit.output.bars import bars_caption_of, draw_bars
from stairaudit.output.drawing import caption_of, draw, needs_table, view_of
from stairaudit.output.profile import lay_out
from stairaudit.output.svg import DASHES, SIZE, WIDTH
from stairaudit.words.marks import Step
from stairaudit.words.pictures import Picture, picture_of


def picture(flight: dict[str, Any], unit: Unit = "in") -> Picture:
    survey = survey_of(flight)
    stair = survey.stairs[0]
    drawn = picture_of(audit_of(survey), stair, stair.flights[0], unit)
    assert drawn is not None
    return drawn


UNMEASURED = f'stroke-dasharray="{DASHES["unmeasured"]}"'
SOLID = re.compile(
    r'<path d="M[^"]+" fill="none" stroke="[^"]+" stroke-width="(?:1.3|2.3|3.6)" stroke-linejoin="round"/>'
)


def test_treads_run_from_nosing_to_nosing_whatever_the_projections() -> None:
    laid = lay_out(picture({"risers": ["7", "7 1/2"], "treads": ["10"], "nosings": ["1", "2"]}))

    assert [(step.foot, step.head, step.nose) for step in laid] == [
        ((25.4, 0), (25.4, 177.8), (0, 177.8)),
        ((254 + 50.8, 177.8), (254 + 50.8, 368.3), (254, 368.3)),
    ]
    assert laid[0].end == laid[1].foot


def test_a_nosing_that_was_not_measured_is_drawn_flush() -> None:
    laid = lay_out(picture({"risers": ["7", "7"], "treads": ["10"], "nosings": ["1", None]}))

    assert laid[1].head == laid[1].nose == (254, 355.6)


def test_a_tread_level_with_the_landing_is_laid_out_too() -> None:
    flight = {"risers": ["7", "7"], "treads": ["10", "12"], "top_tread": "level-with-landing"}

    assert lay_out(picture(flight))[1].end == (254 + 304.8, 355.6)


def test_what_was_not_measured_takes_the_mean_and_is_dashed_with_a_question_mark() -> None:
    landings = {"top": {"depth": "40"}, "bottom": {"depth": "40"}}
    drawn = picture({"risers": ["7", None, "8"], "treads": [None, "10"], "landings": landings})
    text = draw(drawn, "a")

    assert lay_out(drawn)[1].head.y == pytest.approx(177.8 + 190.5)
    assert lay_out(drawn)[1].nose.x == pytest.approx(254)
    assert ">R2 ?</text>" in text
    assert ">T1 ?</text>" in text
    assert text.count(UNMEASURED) == 2
    assert "? and short dashes: not measured" in caption_of(drawn)


def test_a_step_that_was_not_measured_has_no_solid_line_beneath_its_dashes() -> None:
    flight = {"risers": ["7", "7", "7"], "treads": ["10", "10"], "landings": {"top": {"depth": "40"}}}
    without = {**flight, "risers": ["7", None, "7"]}

    assert len(SOLID.findall(draw(picture(flight), "a"))) - len(SOLID.findall(draw(picture(without), "a"))) == 1


def test_a_flight_measured_throughout_has_no_dash_of_the_unmeasured() -> None:
    landings = {"top": {"depth": "40"}, "bottom": {"depth": "40"}}
    drawn = picture({"risers": ["7", "7"], "treads": ["10"], "landings": landings})

    assert UNMEASURED not in draw(drawn, "a")
    assert "not measured" not in caption_of(drawn)


@pytest.mark.parametrize(
    ("landing", "label"),
    [(None, "landing ?"), ({"depth": "40"}, "landing 40 in"),
     ({"depth": "30"}, "! landing 30 in"), ("none", "landing none"),
     ({"depth": ["40", "42"]}, "landing 40 to 42 in")],
)  # fmt: skip
def test_a_landing_bears_its_depth_and_its_sign(landing: Any, label: str) -> None:
    text = draw(picture({"risers": ["7", "7"], "landings": {"top": landing} if landing else {}}), "a")

    assert f">{label}</text>" in text


def test_a_depth_of_nought_is_no_stub() -> None:
    bare = picture({"risers": ["7", "7"]})
    nought = bare._replace(landing_bottom=Step(0.0, "0 in", ""))

    assert view_of(bare).floors[0].length == -420
    assert view_of(nought).floors[0].length == 0
    assert draw(bare, "a").count(UNMEASURED) == draw(nought, "a").count(UNMEASURED) + 1


@pytest.mark.parametrize(("depth", "broken"), [("47", False), ("48", True)])
def test_a_landing_that_is_not_drawn_in_full_is_broken_off_and_told(depth: str, broken: bool) -> None:
    drawn = picture({"risers": ["7", "7"], "landings": {"top": {"depth": depth}}})

    assert view_of(drawn).floors[1].broken is broken
    assert ("A landing that ends in a zigzag is longer than it is drawn." in caption_of(drawn)) is broken


def test_a_part_outside_its_figure_has_a_sign_and_a_heavier_line() -> None:
    text = draw(picture({"risers": ["7", "8"], "treads": ["10 1/2"]}), "a")

    assert ">! R2 8 in</text>" in text
    assert ">R1 7 in</text>" in text
    assert 'stroke-width="3.6"' in text


def test_a_long_flight_bears_the_signs_of_risers_and_treads() -> None:
    risers = ["7"] * 12 + ["8 1/2", "7 3/4", None]
    text = draw(picture({"risers": risers, "treads": ["11"] * 11 + ["9", "11", "10", "11"][:3]}), "a")

    assert ">11</text>" in text
    assert ">12 T!</text>" in text
    assert ">13 R!</text>" in text
    assert ">14 R~ T~</text>" in text
    assert ">15 R?</text>" in text


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


def labels_of(text: str) -> list[tuple[float, float, str]]:
    found = re.findall(r'<text x="([-\d.]+)" y="([-\d.]+)" font-size="([\d.]+)"[^>]*>([^<]*)<', text)
    assert {float(size) for _, _, size, _ in found} == {SIZE}
    return [(float(x), float(y), words) for x, y, _, words in found]


def box_of(text: str) -> tuple[float, ...]:
    found = re.search(r'viewBox="([^"]+)"', text)
    assert found
    return tuple(map(float, found[1].split()))


RAILS = [{"side": side, "heights": ["36", "36"]} for side in ("left", "right", "centre")]
FULL: dict[str, Any] = {"handrails": RAILS, "headroom": "110", "landings": {"top": {"depth": "36"}}}


@pytest.mark.parametrize("count", [1, 3, 5, 12, 13, 18, 40])
@pytest.mark.parametrize("more", [{}, FULL])
def test_labels_lie_on_the_sheet_and_not_on_each_other(count: int, more: dict[str, Any]) -> None:
    drawn = picture({"risers": ["7 15/16"] * count, "treads": ["9 15/16"] * (count - 1), **more})
    text = draw(drawn, "a")
    left, top, wide, tall = box_of(text)
    labels = labels_of(text)

    assert wide == WIDTH
    for i, (x, y, words) in enumerate(labels):
        # DejaVu Sans, a wide face, is about 0.64 em a digit (from memory); a page of 900 px shows 1 unit as 1 px.
        end = x + len(words) * SIZE * 0.6
        assert left <= x
        assert end <= left + wide
        assert top + SIZE <= y <= top + tall
        for other_x, other_y, other in labels[i + 1 :]:
            apart = other_x >= end or x >= other_x + len(other) * SIZE * 0.6
            assert abs(y - other_y) >= SIZE or apart, (words, other)


def test_text_is_readable_at_a_page_of_900_px() -> None:
    padding, page = 2 * 20, 900

    assert SIZE * (page - padding) / WIDTH >= 10


def test_a_tall_headroom_leaves_numbers_only() -> None:
    steps = {"risers": ["7"] * 12, "treads": ["10"] * 11}

    assert not needs_table(picture(steps))
    assert needs_table(picture({**steps, "headroom": "200"}))


def test_lines_over_a_single_riser_have_a_length() -> None:
    text = draw(picture({"risers": ["7"], **FULL}), "a")
    ends = re.findall(r'<path d="M([-\d.]+) [-\d.]+L([-\d.]+) [-\d.]+" [^>]*stroke-width="1.8"', text)

    assert len(ends) == 4
    assert all(float(end) - float(start) > 50 for start, end in ends)


def test_a_guard_is_told_from_a_handrail_and_from_what_was_not_measured() -> None:
    heights = {"side": "left", "heights": ["36", "36"]}
    text = draw(picture({"risers": ["7"] * 4, "handrails": [heights], "guards": [heights]}), "a")

    assert text.count(f'stroke-dasharray="{DASHES["guard"]}"') == 1
    assert len(set(DASHES.values())) == len(DASHES)


def test_bars_need_two_risers() -> None:
    assert draw_bars(picture({"risers": ["7"]}), "a") == ""
    assert bars_caption_of(picture({"risers": ["7"]})) == ""
    assert draw_bars(picture({"risers": ["7", "8"]}), "a").count("<rect") == 2


@pytest.mark.parametrize(
    ("unit", "mean"), [("in", "mean 7 1/2 in"), ("mm", "mean 190.5 mm"), ("cm", "mean 19.05 cm")]
)
def test_bars_name_the_mean(unit: Unit, mean: str) -> None:
    assert f">{mean}</text>" in draw_bars(picture({"risers": ["7", "8", None]}, unit), "a")


def test_a_mean_between_the_marks_of_a_tape_is_said_to_be_rounded() -> None:
    sevenths = picture({"risers": ["7", "7", "7 1/16"]})

    assert ">mean ~7 in</text>" in draw_bars(sevenths, "a")
    assert bars_caption_of(sevenths).endswith(" ~ before a figure: rounded.")


def test_bars_tell_how_much_they_enlarge() -> None:
    drawn = picture({"risers": ["7", "8"]})
    widths = [float(w) for w in re.findall(r'<rect [^>]* width="([\d.]+)"', draw_bars(drawn, "a"))]
    times = widths[0] / (12.7 * view_of(drawn).scale)

    assert f"are drawn {round(times)} times as large as in the side view" in bars_caption_of(drawn)


def test_bars_of_wide_differences_are_not_said_to_be_enlarged() -> None:
    caption = bars_caption_of(picture({"risers": ["1/4", "90"]}))

    assert caption.endswith("The differences are drawn about as large as in the side view.")


def test_a_caption_says_what_no_reading_stands_behind() -> None:
    nothing = caption_of(picture({"riser_count": 3}))
    risers = caption_of(picture({"risers": ["7", "180 mm"]}))

    assert "No riser was measured: their height here is a proportion of the drawing." in nothing
    assert "No riser was measured" not in risers
    assert "No tread was measured: they are drawn 1.4 times as deep as the mean riser is high." in risers
    assert "~ before a figure: rounded." in risers
    assert "~ before a figure" not in nothing


def test_bars_of_an_even_flight_show_no_difference() -> None:
    assert re.findall(r'<rect [^>]* width="([\d.]+)"', draw_bars(picture({"risers": ["7"] * 3}), "a")) == [
        "1",
        "1",
        "1",
    ]


def test_labels_of_eighteen_bars_do_not_touch() -> None:
    text = draw_bars(picture({"risers": [["7 13/16", "7 15/16"]] * 17 + [None]}), "a")
    heights = sorted({y for _, y, _ in labels_of(text)})

    assert min(after - before for before, after in pairwise(heights)) >= SIZE
    assert max(x + len(words) * SIZE * 0.6 for x, _, words in labels_of(text)) < WIDTH


@pytest.mark.parametrize(
    ("unit", "label"),
    [("in", "7 1/4 to 7 1/2 in"), ("mm", "184.15 to 190.5 mm"), ("cm", "18.415 to 19.05 cm")],
)
def test_a_range_names_its_unit_once(unit: Unit, label: str) -> None:
    assert picture({"risers": [["7 1/4", "7 1/2"]]}, unit).risers[0].label == label


def test_a_size_beside_the_marks_of_a_tape_has_no_brackets_in_a_drawing() -> None:
    assert picture({"risers": ["180 mm"]}).risers[0].label == "~7 1/16 in"


def test_a_second_guard_on_a_side_has_its_own_line() -> None:
    guard = {"side": "left", "heights": ["36", "36"]}

    assert [line.name for line in picture({"risers": ["7"], "guards": [guard, guard]}).lines] == [
        "guard left", "guard left 2",
    ]  # fmt: skip


def test_a_flight_of_unknown_risers_is_not_drawn() -> None:
    survey = survey_of({"width": "40"})
    stair = survey.stairs[0]

    assert picture_of(audit_of(survey), stair, stair.flights[0], "in") is None


def test_a_height_taken_square_to_the_slope_is_drawn_plumb() -> None:
    rail = {"side": "left", "heights": ["30", "30"], "heights_taken": "square"}
    flight = {"risers": ["7"] * 3, "handrails": [rail]}
    known, unknown = picture({**flight, "pitch": "60 deg"}), picture(flight)

    # cos 60 deg is 1/2.
    assert [line.low for line in known.lines] == pytest.approx([2 * 30 * 25.4])
    assert [line.low for line in unknown.lines] == pytest.approx([30 * 25.4])
    assert known.lines[0].label == "30 in square"
    assert "square: taken square to the slope" in caption_of(known)
    assert "square: taken" not in caption_of(picture({"risers": ["7"]}))


@pytest.mark.parametrize("count", [3, 60, 400])
def test_no_number_lies_on_the_label_of_the_bottom_landing(count: int) -> None:
    text = draw(picture({"riser_count": count, "width": "36"}), "a")
    found = re.findall(r'<text x="([-\d.]+)" y="([-\d.]+)"[^>]*>([^<]*)<', text)
    labels = [(float(x), float(y), words) for x, y, words in found]
    left, down, words = next(label for label in labels if label[2].startswith("landing"))
    box = re.search(r'viewBox="([-\d.]+)', text)

    assert box
    assert float(box[1]) <= left
    for x, y, other in labels:
        if other != words and abs(y - down) < SIZE:
            assert x >= left + len(words) * SIZE * 0.6, other
