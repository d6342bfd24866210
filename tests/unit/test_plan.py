"""The plan: treads where their readings put them, sides and landings as told, every label in a place of its own."""

from __future__ import annotations

import math
import re
from itertools import combinations, pairwise
from typing import Any, NamedTuple
from xml.etree import ElementTree

import pytest
from cases import audit_of, survey_of

from stairaudit.lengths import Unit
from stairaudit.output.drawing import caption_of, draw
from stairaudit.output.html import render_html
from stairaudit.output.plan import draw_plan
from stairaudit.output.plan_caption import needs_sizes, plan_caption_of, plan_sizes
from stairaudit.output.plan_labels import Anchor, Line, Table, overlap, pointer_of, rectangle
from stairaudit.output.plan_layout import Tile, lay_out_plan
from stairaudit.output.plan_view import plan_view_of
from stairaudit.output.profile import lay_out
from stairaudit.output.svg import DASHES, FILL, SIZE, TINTS, WIDTH, Point
from stairaudit.words.pictures import Picture, picture_of
from stairaudit.words.plans import Plan
from stairaudit.words.view import Audited, report_view

MM = 25.4
FILLS = "|".join((FILL, *TINTS.values()))
UNMEASURED = f'stroke-dasharray="{DASHES["unmeasured"]}"'


def picture(flight: dict[str, Any], stair: dict[str, Any] | None = None, unit: Unit = "in") -> Picture:
    survey = survey_of(flight, stair)
    told = survey.stairs[0]
    drawn = picture_of(audit_of(survey), told, told.flights[0], unit)
    assert drawn is not None
    return drawn


def plan(flight: dict[str, Any], stair: dict[str, Any] | None = None) -> Plan:
    return picture(flight, stair).plan


def winder(degrees: float, narrow_radius: float = 6, width: float = 36, **left_out: None) -> dict[str, Any]:
    """Return the readings of a tread between two circles: the chords of its angle, for which no more is needed."""
    half = 2 * math.sin(math.radians(degrees / 2))
    read = {"narrow": 0, "walkline": 12, "wide": width}
    chords = {
        name: f"{(narrow_radius + out) * half * MM:.5f} mm" for name, out in read.items() if name not in left_out
    }
    return {**chords, "width": f"{width}"}


QUARTER = {
    "form": "winder", "risers": ["7 1/2"] * 4, "treads": [winder(30)] * 3, "walkline_out": "12", "width": "36",
}  # fmt: skip
MIXED = {
    "form": "mixed", "risers": ["7 1/2"] * 8, "walkline_out": "12", "width": "36",
    "treads": ["10", "10 1/2", winder(20), winder(40), winder(30), "10", "9"],
    "sides": {"left": {"drop": ["20", "60"]}, "right": "wall"},
    "handrails": [{"side": "right", "heights": ["35", "35"]}],
    "guards": [{"side": "left", "heights": ["35", "33"]}],
    "landings": {"top": {"depth": "40", "width": "40"}, "bottom": {"depth": "36", "width": "60"}},
}  # fmt: skip
SPIRAL = {
    "form": "spiral", "risers": ["9"] * 13, "treads": [winder(30, 2.25, 26)] * 12, "walkline_out": "12",
    "pole_diameter": "4 1/2", "width": "26", "sides": {"right": {"drop": ["9", "110"]}},
    "handrails": [{"side": "right", "heights": ["35"]}],
}  # fmt: skip


def ends(tile: Tile) -> tuple[float, float]:
    return math.dist(tile.left[0], tile.left[-1]), math.dist(tile.right[0], tile.right[-1])


def heading(tile: Tile) -> float:
    """Return the direction in which the nosing at the far end of a tread faces, from the x axis [deg]."""
    (x, y), (far_x, far_y) = tile.left[-1], tile.right[-1]
    return math.degrees(math.atan2(far_y - y, far_x - x)) + 90


@pytest.mark.parametrize("flight", [MIXED, QUARTER, SPIRAL])
def test_a_turn_to_the_right_is_the_mirror_of_one_to_the_left(flight: dict[str, Any]) -> None:
    left, right = (lay_out_plan(plan({**flight, "turns": way})) for way in ("left", "right"))

    for one, other in zip(left.tiles, right.tiles, strict=True):
        assert [(-x, y) for x, y in one.left] == list(other.right)
        assert [(-x, y) for x, y in one.right] == list(other.left)
    assert {(-x, y) for x, y in left.top.corners} == set(right.top.corners)
    assert left.tiles[-1].left[-1].x < 0 < right.tiles[-1].right[-1].x or flight is SPIRAL


def test_treads_whose_angles_add_up_to_a_quarter_turn_end_square_to_the_start() -> None:
    tiles = lay_out_plan(plan(MIXED)).tiles

    # By the sum of the angles that the readings were made from, not by walking.
    assert heading(tiles[-1]) == pytest.approx(90 + 20 + 40 + 30, abs=1e-3)
    assert heading(lay_out_plan(plan(QUARTER)).tiles[-1]) == pytest.approx(180, abs=1e-3)


def test_winders_of_two_circles_lie_between_these_circles() -> None:
    laid = lay_out_plan(plan(QUARTER))
    centre = Point(-36 * MM / 2 - 6 * MM, 0)

    for tile in laid.tiles:
        assert [math.dist(centre, point) for point in tile.left] == pytest.approx([6 * MM] * len(tile.left), abs=0.01)
        assert [math.dist(centre, point) for point in tile.right] == pytest.approx(
            [42 * MM] * len(tile.right), abs=0.01
        )
        assert [math.dist(centre, point) for point in tile.walk] == pytest.approx(
            [18 * MM] * len(tile.walk), abs=0.01
        )


UNEVEN = [
    {"narrow": "5", "wide": "14", "width": "30"},
    {"narrow": "0", "wide": "20", "width": "40"},
    {"narrow": "9", "wide": "9"},
]


def test_the_ends_of_a_drawn_tread_are_as_far_from_nosing_to_nosing_as_they_were_read() -> None:
    flight = {"form": "mixed", "risers": ["7"] * 6, "treads": ["10", *UNEVEN, "11"], "width": "36"}
    tiles = lay_out_plan(plan(flight)).tiles

    wanted = [(10, 10), (5, 14), (0, 20), (9, 9), (11, 11)]
    assert [ends(tile) for tile in tiles] == [pytest.approx((a * MM, b * MM), abs=0.1) for a, b in wanted]
    assert [math.dist(t.left[0], t.right[0]) for t in tiles] == pytest.approx([x * MM for x in (36, 30, 40, 36, 36)])


def test_the_walkline_is_as_deep_as_it_was_read() -> None:
    for tile in lay_out_plan(plan(QUARTER)).tiles:
        assert math.dist(tile.walk[0], tile.walk[-1]) == pytest.approx(
            2 * 18 * MM * math.sin(math.radians(15)), abs=0.1
        )


def test_one_tread_follows_on_the_other() -> None:
    for before, after in pairwise(lay_out_plan(plan(MIXED)).tiles):
        assert before.left[-1] == after.left[0]
        assert before.right[-1] == pytest.approx(after.right[0], abs=0.01)


def test_a_kite_winder_turns_by_its_narrow_end_and_its_walkline() -> None:
    kite = {"narrow": "0", "walkline": f"{24 * math.sin(math.radians(15)) * MM:.5f} mm"}
    flight = {**QUARTER, "treads": [kite] * 3}

    assert heading(lay_out_plan(plan(flight)).tiles[-1]) == pytest.approx(180, abs=1e-3)
    assert all(tile.told for tile in lay_out_plan(plan(flight)).tiles)


def test_treads_of_which_only_the_walkline_was_read_share_a_quarter_turn_and_are_said_to() -> None:
    drawn = plan({**QUARTER, "treads": [{"walkline": "12"}] * 3})
    tiles = lay_out_plan(drawn).tiles

    assert heading(tiles[-1]) == pytest.approx(180)
    assert [math.dist(t.walk[0], t.walk[-1]) for t in tiles] == pytest.approx([12 * MM] * 3, abs=0.1)
    assert "How far 3 of 3 tapered treads turn was not read: a quarter turn together is assumed." in plan_caption_of(
        drawn
    )
    assert draw_plan(drawn, "a").count(UNMEASURED) > draw_plan(plan(QUARTER), "a").count(UNMEASURED)


def test_a_tread_that_was_not_read_turns_like_the_others() -> None:
    drawn = plan({**QUARTER, "treads": [winder(20), None, winder(40)]})

    assert heading(lay_out_plan(drawn).tiles[-1]) == pytest.approx(90 + 20 + 30 + 40, abs=1e-3)
    assert "How far 1 of 3 tapered treads turn was not read: the mean of the others is assumed." in plan_caption_of(
        drawn
    )


def test_a_walkline_at_an_untold_place_is_not_drawn() -> None:
    drawn = plan({**QUARTER, "walkline_out": None, "treads": [{"walkline": "12"}] * 3})

    assert DASHES["walkline"] not in draw_plan(drawn, "a")
    assert "How far out the walkline runs was not told: it is not drawn" in plan_caption_of(drawn)


def test_a_spiral_is_made_of_sectors_round_its_pole() -> None:
    laid = lay_out_plan(plan(SPIRAL))
    assert laid.axis is not None

    for tile in laid.tiles:
        for side, radius in ((tile.left, 2.25), (tile.right, 28.25)):
            assert [math.dist(laid.axis, point) for point in side] == pytest.approx(
                [radius * MM] * len(side), abs=0.01
            )
    # Twelve times 30 degrees: the last nosing lies over the first.
    assert laid.tiles[-1].right[-1] == pytest.approx(laid.tiles[0].right[0], abs=0.1)
    assert laid.tiles[-1].left[-1] == pytest.approx(laid.tiles[0].left[0], abs=0.1)


def test_a_spiral_turns_by_its_walkline_where_only_that_was_read() -> None:
    one = {"walkline": f"{2 * 14.25 * math.sin(math.radians(15)) * MM:.5f} mm"}
    drawn = lay_out_plan(plan({**SPIRAL, "treads": [one] * 12}))

    assert math.degrees(drawn.turn) == pytest.approx(360, abs=1e-2)


def test_the_pole_of_a_spiral_is_found_from_the_ends_where_it_was_not_read() -> None:
    laid = lay_out_plan(plan({**SPIRAL, "pole_diameter": None}))
    assert laid.axis is not None

    assert math.dist(laid.axis, laid.tiles[0].left[0]) == pytest.approx(2.25 * MM, abs=0.1)


@pytest.mark.parametrize("way", ["left", "right"])
def test_a_caption_says_which_way_only_where_nobody_told(way: str) -> None:
    words = "The survey does not say which way it turns: drawn to the left, going up."

    assert words in plan_caption_of(plan(MIXED))
    assert words not in plan_caption_of(plan({**MIXED, "turns": way}))
    assert words not in plan_caption_of(plan({"risers": ["7"] * 3}))


@pytest.mark.parametrize(
    ("count", "words"),
    [(12, None), (13, "T1 lies a full turn below others, hidden here; the sizes stand in the table."),
     (15, "T1 to T3 lie a full turn below others, hidden here; the sizes stand in the table.")],
)  # fmt: skip
def test_treads_a_full_turn_below_others_are_named(count: int, words: str | None) -> None:
    flight = {**SPIRAL, "risers": ["9"] * (count + 1), "treads": [winder(30, 2.25, 26)] * count}
    caption = plan_caption_of(plan(flight))

    assert (words is None) == ("a full turn below" not in caption)
    assert words is None or words in caption


def test_treads_a_full_turn_below_others_bear_no_number() -> None:
    drawn = plan({**SPIRAL, "risers": ["9"] * 16, "treads": [winder(30, 2.25, 26)] * 15})
    shown = plan_view_of(drawn).texts

    assert [text is None for text in shown] == [True] * 3 + [False] * 12


def test_alternating_treads_fill_half_of_the_width_in_turn() -> None:
    flight = {"form": "alternating-tread", "risers": ["8"] * 4, "treads": ["5"] * 3, "width": "22"}
    text = draw_plan(plan(flight), "a")
    scale = plan_view_of(plan(flight)).scale
    fills = re.findall(rf'<path d="M([-\d.]+) [-\d.]+L[^"]*" fill="(?:{FILLS})"', text)

    assert [float(x) for x in fills] == pytest.approx([-11 * MM * scale, 0, -11 * MM * scale], abs=0.06)
    assert "Which foot goes first was not told" in plan_caption_of(plan(flight))


@pytest.mark.parametrize(
    ("side", "label", "hatched", "dashed"),
    [("wall", "wall", True, False), ({"drop": ["20", "60"]}, "open, drop 20 to 60 in", False, False),
     ({"drop": "40", "guard": "none"}, "! open, drop 40 in, no guard", False, False),
     ({}, "open, drop ?", False, False), (None, "not told", False, True)],
)  # fmt: skip
def test_a_side_is_a_wall_or_open_or_not_told(side: Any, label: str, hatched: bool, dashed: bool) -> None:
    landings = {"top": "none", "bottom": "none"}
    base = {"risers": ["7"] * 3, "treads": ["10", "10"], "width": "36", "landings": landings}
    text = draw_plan(plan({**base, "sides": {"left": "wall", **({} if side is None else {"right": side})}}), "a")

    assert f">{label}</text>" in text
    assert len(re.findall(r'<path d="(?:M[^"]*){8,}" [^>]*stroke-width="0.7"', text)) == 1 + hatched
    assert (UNMEASURED in text) is dashed


@pytest.mark.parametrize(("side", "sign"), [("left", -1), ("right", 1)])
def test_walls_and_guards_lie_outside_the_flight_and_handrails_inside(side: str, sign: int) -> None:
    one = {"side": side, "heights": ["36", "36"]}
    flight = {
        "risers": ["7"] * 3,
        "treads": ["10", "10"],
        "width": "37",
        "landings": {"top": "none", "bottom": "none"},
    }
    drawn = plan({**flight, "sides": {side: "wall"}, "handrails": [one], "guards": [one]})
    text, edge = draw_plan(drawn, "a"), 37 * MM / 2 * plan_view_of(drawn).scale

    def out(style: str) -> list[float]:
        """Return how far outside the side the upright lines of a style lie."""
        found = re.findall(rf'<path d="M([-\d.]+) [-\d.]+L\1 [^"]*" [^>]*{style}', text)
        return [round(float(x) * sign - edge) for x in found]

    assert 6 in out('stroke-width="0.7"')
    assert out(f'stroke-dasharray="{DASHES["guard"]}"') == [5]
    assert out('stroke-width="1.8" stroke-linejoin="round"/')[:1] == [-5]


def test_rails_and_guards_run_along_their_sides_with_their_names() -> None:
    text = draw_plan(plan(MIXED), "a")

    assert ">handrail right</text>" in text
    assert ">! guard left</text>" in text
    assert f'stroke-width="3.6" stroke-linejoin="round" stroke-dasharray="{DASHES["guard"]}"' in text


def test_what_was_looked_for_in_vain_is_told_from_what_nobody_told() -> None:
    none = draw_plan(plan({"risers": ["7"] * 3, "handrails": "none"}), "a")

    assert ">handrails: none</text>" in none
    assert ">guards: not told</text>" in none


def test_a_long_guard_runs_along_the_flight_and_the_landing_it_names() -> None:
    long = {"side": "left", "along": ["f", "f landing top"], "rake": {"heights": ["36", "36"]}}
    both = {"risers": ["7"] * 4, "treads": ["10"] * 3, "landings": {"top": {"depth": "36", "width": "36"}}}
    drawn = picture(both, {"guards": [long]})

    assert [run.name for run in drawn.plan.runs] == ["guard left"]
    assert [run.name for run in drawn.plan.top.runs] == ["guard left"]
    assert drawn.plan.bottom.runs == ()
    assert [line.name for line in drawn.lines] == ["guard left"]


def test_a_flight_of_which_only_the_risers_are_told_is_dashed_and_said_to_be() -> None:
    drawn = plan({"riser_count": 5})
    caption = plan_caption_of(drawn)

    assert draw_plan(drawn, "a").count(">T1 ?</text>") == 1
    assert draw_plan(drawn, "a").count(UNMEASURED) >= 10
    assert "? and short dashes: not measured" in caption
    assert "No plain tread was measured: their depth here is a proportion of the drawing." in caption
    assert "The clear width was not measured: the width here is a proportion of the drawing." in caption


def test_the_nosing_beyond_an_unmeasured_tread_is_dashed_and_no_other() -> None:
    known = {"risers": ["7"] * 4, "width": "36", "sides": {"left": "wall", "right": "wall"},
             "landings": {"top": "none", "bottom": "none"}}  # fmt: skip

    assert UNMEASURED not in draw_plan(plan({**known, "treads": ["10", "10", "10"]}), "a")
    text = draw_plan(plan({**known, "treads": ["10", None, "10"]}), "a")
    dashed = set(re.findall(rf'<path d="([^"]+)" [^>]*{UNMEASURED}', text))
    assert len(dashed) == 1
    assert all(text.count(f'd="{line}"') == text.count(UNMEASURED) for line in dashed)


def test_a_tread_outside_its_figure_has_a_sign_and_a_tint_that_the_caption_names() -> None:
    base = {"risers": ["7"] * 4, "width": "37", "treads": ["11", "9", "11"]}
    text = draw_plan(plan(base), "a")

    assert ">! T2 9 in</text>" in text
    assert ">T1 11 in</text>" in text
    assert text.count(f'fill="{TINTS["outside"]}"') == 1
    # No line that could be taken for a rail or a nosing.
    assert 'stroke-width="3.6"' not in text
    assert "A tread or landing tinted red bears the sign" in plan_caption_of(plan(base))
    assert "tinted" not in plan_caption_of(plan({**base, "treads": ["11"] * 3}))


@pytest.mark.parametrize("size", ["depth", "width"])
def test_a_landing_outside_its_figure_is_tinted_without_another_line(size: str) -> None:
    sizes = {"depth": "40", "width": "40"}
    good, bad = (
        draw_plan(plan({"risers": ["7"] * 4, "treads": ["11"] * 3, "width": "37", "landings": {"top": told}}), "a")
        for told in (sizes, {**sizes, size: "30"})
    )

    assert bad.count(f'fill="{TINTS["outside"]}"') == 1
    assert TINTS["outside"] not in good
    assert bad.count("<path") == good.count("<path")


def test_the_line_at_the_bottom_nosing_is_told_to_be_for_the_width() -> None:
    base = {"risers": ["7"] * 4, "treads": ["11"] * 3}
    words = "A coloured line at the bottom nosing is for the clear width."

    assert words in plan_caption_of(plan({**base, "width": "34"}))
    assert words not in plan_caption_of(plan({**base, "width": "38"}))


@pytest.mark.parametrize(
    ("landing", "labels"),
    [(None, ["landing top", "depth ?", "width ?"]), ("none", ["landing top: none"]),
     ({"depth": "40", "width": ["40", "42"]}, ["landing top", "depth 40 in", "width 40 to 42 in"]),
     ({"depth": "30"}, ["landing top", "! depth 30 in", "width ?"])],
)  # fmt: skip
def test_a_landing_bears_its_sizes(landing: Any, labels: list[str]) -> None:
    text = draw_plan(plan({"risers": ["7"] * 3, "landings": {"top": landing} if landing else {}}), "a")

    for label in labels:
        assert f">{label}</text>" in text


def test_a_landing_is_drawn_to_scale_and_a_large_one_broken_off() -> None:
    small, large = (
        lay_out_plan(plan({"risers": ["7"] * 3, "width": "36", "landings": {"top": {"depth": d, "width": w}}}))
        for d, w in (("40", "50"), ("90", "300"))
    )
    left, right, far_right, _ = small.top.corners

    assert (math.dist(left, right), math.dist(right, far_right)) == pytest.approx((50 * MM, 40 * MM))
    assert (small.top.broken, large.top.broken) == ((False, False), (True, True))


def test_a_landing_lies_square_to_the_last_nosing() -> None:
    corners = lay_out_plan(plan(MIXED)).top.corners
    last = lay_out_plan(plan(MIXED)).tiles[-1]

    assert corners[0].x == pytest.approx(last.left[-1].x, abs=0.1)
    assert corners[3].x == pytest.approx(last.left[-1].x - 40 * MM, abs=0.1)


def test_a_table_gives_the_ends_of_tapered_treads() -> None:
    flight = {"form": "mixed", "risers": ["7"] * 4, "treads": ["10", {"narrow": "6", "wide": "14"}, None]}

    assert plan_sizes(plan(flight)) == (
        ("Tread", "Plain", "Narrow end", "At the walkline", "Wide end", "Width"),
        ("1", "~ 10 in", "", "", "", ""),
        ("2", "", "~ 6 in", "? not measured", "14 in", "as the flight"),
        ("3", "? not measured", "", "", "", ""),
    )
    assert plan_sizes(plan({"risers": ["7"] * 4})) == ()


def test_more_than_twelve_treads_are_numbered_only() -> None:
    twelve, thirteen = (plan({"risers": ["7"] * (n + 1), "treads": ["10 1/2"] * n, "width": "37"}) for n in (12, 13))

    assert not needs_sizes(twelve)
    assert needs_sizes(thirteen)
    assert ">13</text>" in draw_plan(thirteen, "a")
    assert "The sizes of the treads stand in the table." in plan_caption_of(thirteen)


class Label(NamedTuple):
    words: str
    corners: list[Point]


def labels_of(text: str) -> list[Label]:
    """Return the labels with their boxes as a wide face fills them: 0.6 em a letter, 0.75 em tall."""
    pattern = (
        r'<text x="([-\d.]+)" y="([-\d.]+)" font-size="[\d.]+" text-anchor="(\w+)" [^>]*?'
        r'(?: transform="rotate\(([-\d.]+) [^)]*\)")?>([^<]*)<'
    )
    found = []
    for x, y, anchor, turn, words in re.findall(pattern, text):
        wide = len(words) * SIZE * 0.6
        start = -wide / 2 if anchor == "middle" else 0.0
        angle = math.radians(float(turn or 0))
        box = [(start, 0), (start + wide, 0), (start + wide, -0.75 * SIZE), (start, -0.75 * SIZE)]
        corners = [
            Point(
                float(x) + a * math.cos(angle) - b * math.sin(angle),
                float(y) + a * math.sin(angle) + b * math.cos(angle),
            )
            for a, b in box
        ]
        found.append(Label(words, corners))
    return found


def points_in(corners: list[Point]) -> list[Point]:
    """Return a net of points over a rectangle, about a unit apart."""
    (x, y), right, _, up = corners
    across, tall = math.ceil(math.dist(corners[0], right)), math.ceil(math.dist(corners[0], up))
    return [
        Point(
            x + (right.x - x) * i / across + (up.x - x) * j / tall,
            y + (right.y - y) * i / across + (up.y - y) * j / tall,
        )
        for i in range(across + 1)
        for j in range(tall + 1)
    ]


def holds(corners: list[Point], point: Point) -> bool:
    """Say whether a rectangle holds a point, by its two sides as axes."""
    origin, right, _, up = corners
    shares = []
    for end in (right, up):
        along = Point(end.x - origin.x, end.y - origin.y)
        inner = (point.x - origin.x) * along.x + (point.y - origin.y) * along.y
        shares.append(inner / (along.x**2 + along.y**2))
    return all(0 < share < 1 for share in shares)


def landings(depth: str, width: str) -> dict[str, Any]:
    return {place: {"depth": depth, "width": width} for place in ("top", "bottom")}


FLOORS = {"bottom": {"depth": "30", "width": "30"}, "top": {"depth": "40", "width": "40"}}
GAPS = ["10", None, {"walkline": "10"}, {"narrow": None}, None, "9"]
LADDER = {"form": "ship-ladder", "risers": ["9"] * 9, "treads": ["5"] * 8, "width": "20", "handrails": "none"}
FLIGHTS: dict[str, dict[str, Any]] = {
    "one riser": {"risers": ["7"]},
    "nothing told": {"riser_count": 7},
    "straight": {**MIXED, "form": "straight", "treads": ["10 15/16"] * 7},
    "mixed": MIXED,
    "mixed to the right": {**MIXED, "turns": "right"},
    "all winders": QUARTER,
    "half turn": {**QUARTER, "risers": ["7"] * 7, "treads": [winder(30)] * 6},
    "gaps": {"form": "mixed", "risers": ["7"] * 7, "treads": GAPS},
    "one riser between walls": {"risers": ["7"], "width": "36", "sides": {"left": "wall", "right": "wall"}},
    "two turns of winders": {**QUARTER, "risers": ["7"] * 14, "treads": [winder(21)] * 13},
    "spiral with a gap": {**SPIRAL, "risers": ["9"] * 12, "treads": [winder(30, 2.25, 26)] * 11},
    "spiral of twenty": {**SPIRAL, "risers": ["9"] * 20, "treads": [winder(30, 2.25, 26)] * 19, "landings": FLOORS},
    "spiral": SPIRAL,
    "spiral of more than a turn": {**SPIRAL, "risers": ["9"] * 17, "treads": [None], "turns": "right"},
    "curved": {"form": "curved", "riser_count": 19, "treads": [{"narrow": "8", "wide": "12"}], "width": "44"},
    "eighteen": {**MIXED, "form": "straight", "risers": ["7"] * 18, "treads": ["11"] * 17},
    "forty": {"riser_count": 40, "width": "36"},
    "a hundred": {"riser_count": 100, "width": "140"},
    "alternating": {"form": "alternating-tread", "risers": ["8"] * 9, "treads": ["5 1/2"] * 8, "width": "20"},
    "ship ladder": LADDER,
    "large landings": {"risers": ["7"] * 4, "landings": landings("200", "300")},
    "small landings": {"risers": ["7"] * 4, "landings": landings("10", "12")},
}  # fmt: skip


@pytest.mark.parametrize("name", FLIGHTS)
def test_no_label_lies_on_another_or_beyond_the_sheet(name: str) -> None:
    text = draw_plan(plan(FLIGHTS[name]), "a")
    found = re.search(r'viewBox="([^"]+)"', text)
    assert found
    left, top, wide, tall = map(float, found[1].split())
    labels = labels_of(text)

    assert wide == WIDTH
    assert len(labels) == text.count("<text")
    for label in labels:
        assert all(left <= p.x <= left + wide and top <= p.y <= top + tall for p in label.corners), label.words
    for one, other in combinations(labels, 2):
        assert not any(holds(other.corners, point) for point in points_in(one.corners)), (one.words, other.words)


@pytest.mark.parametrize("name", FLIGHTS)
def test_a_plan_is_whole_xml_of_the_same_bytes_each_time(name: str) -> None:
    drawn = plan(FLIGHTS[name])
    text = draw_plan(drawn, "a")
    plan_view_of.cache_clear()

    assert [child.tag.rpartition("}")[2] for child in ElementTree.fromstring(text)][:2] == ["title", "desc"]
    assert draw_plan(drawn, "a") == text
    assert re.findall(r'id="([^"]+)"', text) == ["a-plan-title", "a-plan-desc"]
    assert not re.search(r"\d\.\d\d|nan|inf", re.sub(r"<(title|desc|text)[^>]*>[^<]*<", "<", text))


def test_a_plan_is_no_taller_than_a_page_of_its_width() -> None:
    # A4 with the margins of the page in print: 182 mm by 263 mm (ISO 216 less 28 mm and 34 mm).
    for name, flight in FLIGHTS.items():
        box = re.search(r'viewBox="[-\d.]+ [-\d.]+ ([\d.]+) ([\d.]+)"', draw_plan(plan(flight), "a"))
        assert box
        assert float(box[2]) / float(box[1]) < 263 / 182, name


def test_boxes_that_only_touch_do_not_overlap() -> None:
    assert not overlap(rectangle(0, 0, 10, 10), rectangle(10, 0, 10, 10))
    assert overlap(rectangle(0, 0, 10, 10), rectangle(9, 9, 10, 10))
    assert overlap(rectangle(0, 0, 10, 10), [Point(-5, 5), Point(5, -5), Point(12, 2), Point(2, 12)])
    assert not overlap(rectangle(0, 0, 10, 10), [Point(12, 0), Point(24, 12), Point(36, 0), Point(24, -12)])
    assert not overlap(rectangle(0, 0, 10, 10), [Point(15, 9), Point(9, 15)])


def test_the_side_view_of_tapered_treads_is_developed_along_the_walkline() -> None:
    flight = {"form": "mixed", "risers": ["7"] * 4, "walkline_out": "12", "width": "36",
              "treads": ["10", {"narrow": "6", "walkline": "9"}, {"narrow": "6", "wide": "14"}]}  # fmt: skip
    drawn = picture(flight)

    assert [step.nose.x for step in lay_out(drawn)] == pytest.approx([0, 10 * MM, 19 * MM, 29 * MM])
    assert "T2 9 in</text>" in draw(drawn, "a")
    assert "T3 6 to 14 in</text>" in draw(drawn, "a")
    assert "The view is developed along the walkline" in caption_of(drawn)
    assert "developed" not in caption_of(picture({"risers": ["7"] * 3}))


@pytest.mark.parametrize(("flight", "tables"), [(MIXED, 1), ({"risers": ["7"] * 3}, 0)])
def test_the_page_shows_the_plan_of_each_flight_with_its_caption(flight: dict[str, Any], tables: int) -> None:
    survey = survey_of(flight)
    text = render_html(report_view([Audited("a.yaml", survey, (audit_of(survey),))], "2026-01-02", "0"))

    assert text.count('class="plan"') == 1
    assert "<figcaption>Seen from above, to scale; the figures govern." in text
    assert text.count("<caption>Treads, bottom to top</caption>") == tables


THIN_LINE = re.compile(r'<path d="M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)" fill="none" [^>]*stroke-width="0.7"')


@pytest.mark.parametrize("name", FLIGHTS)
def test_no_pointer_runs_through_a_label(name: str) -> None:
    text = draw_plan(plan(FLIGHTS[name]), "a")

    for found in THIN_LINE.findall(text):
        x, y, far_x, far_y = map(float, found)
        line = [Point(x + (far_x - x) * k / 100, y + (far_y - y) * k / 100) for k in range(101)]
        for label in labels_of(text):
            assert not any(holds(label.corners, point) for point in line), label.words


def test_a_label_laid_later_keeps_off_the_pointers_of_earlier_ones() -> None:
    table = Table([])
    table.put((Line("first", ""),), Point(200, -6), Point(0, 0))
    assert table.beside((Line("second", ""),), [Anchor(Point(100, 30), Point(0, -1))])

    first, second = table.placed
    assert pointer_of(first) == (Point(0, 0), Point(197, 0))
    assert not overlap(pointer_of(first), rectangle(second.at.x, second.at.y, 40, 13))
    # Twenty up from its anchor it would have lain on the line of the first.
    assert second.at.y < -13


def test_landings_that_would_cross_treads_or_each_other_are_told_instead_of_drawn() -> None:
    drawn = plan(FLIGHTS["spiral of twenty"])
    view, text = plan_view_of(drawn), draw_plan(drawn, "a")

    assert (view.laid.bottom.drawn, view.laid.top.drawn) == (False, False)
    for label in ("landing bottom: depth 30 in", "landing top: depth 40 in", "landing top: width 40 in"):
        assert f">{label}</text>" in text
    assert ">landing top</text>" not in text
    assert "A landing that would cross treads or the other landing is not drawn" in plan_caption_of(drawn)
    assert "not drawn; it is told" not in plan_caption_of(plan(MIXED))


def test_the_way_up_lies_beside_a_spiral_whose_treads_cover_its_start() -> None:
    left, right, gap = (
        plan_view_of(plan(flight)) for flight in (SPIRAL, {**SPIRAL, "turns": "right"}, FLIGHTS["spiral with a gap"])
    )

    assert left.arrow > 13 * MM * left.scale
    assert right.arrow < -13 * MM * right.scale
    assert gap.arrow == 0


@pytest.mark.parametrize(
    ("count", "walkline", "label"),
    [(11, "6 3/4", "~ T3 6 3/4 in"), (11, "6", "! T3 6 in"), (11, "7 1/2", "T11 7 1/2 in")],
)
def test_a_flagged_tread_of_a_spiral_keeps_its_size(count: int, walkline: str, label: str) -> None:
    treads = [{"narrow": "1", "walkline": "7 1/2", "wide": "14"} for _ in range(count)]
    treads[2]["walkline"] = walkline
    flight = {**SPIRAL, "risers": ["9"] * (count + 1), "treads": treads, "pole_diameter": "4"}

    assert f">{label}</text>" in draw_plan(plan(flight), "a")
    assert "stand in the table" not in plan_caption_of(plan(flight))


def test_more_than_twelve_tapered_treads_bear_their_sizes_where_there_is_room() -> None:
    treads = [{"narrow": "6", "walkline": "10 1/2", "wide": "19"}] * 13
    text = draw_plan(plan({**QUARTER, "risers": ["7 1/2"] * 14, "treads": treads}), "a")

    assert [text.count(f">T{index} 10 1/2 in</text>") for index in range(1, 14)] == [1] * 13


def test_a_flight_of_one_riser_has_its_walls_and_their_names_on_their_own_sides() -> None:
    drawn = plan(FLIGHTS["one riser between walls"])
    text, placed = draw_plan(drawn, "a"), plan_view_of(drawn).table.placed
    sides = {label.lines[0].text: label for label in placed if label.lines[0].text.endswith(" side")}

    assert sides["left side"].at.x < 0 < sides["right side"].at.x
    assert all(label.target is not None for label in sides.values())
    # The hatching of a wall is one path of many strokes.
    assert len(re.findall(r'<path d="(?:M[^"M]*){3,}" [^>]*stroke-width="0.7"', text)) == 2
    assert "A flight without a tread has no length" in plan_caption_of(drawn)
