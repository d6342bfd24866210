"""What is worked out from several readings, set beside the same thing found another way.

The program uses closed forms; here the nosing lines are laid out in coordinates, cut with circles and searched for
the largest ball. No check repeats a formula of the program. Figures in inches unless said.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from typing import Any

import pytest
from cases import audit_of, finding, survey_of

NM = 25_400_000
ALIKE = 1e-6  # relative

Point = tuple[float, float]


def found(flight: dict[str, Any], rule: str, part: str) -> Any:
    return finding(audit_of(survey_of(flight, {"setting": "indoor", "use": "one-dwelling"})), rule, part)


def inches(flight: dict[str, Any], rule: str, part: str) -> float:
    return float(found(flight, rule, part).value) / NM


def crossing(a: Point, b: Point, c: Point, d: Point) -> Point:
    """Where the line through a and b meets that through c and d, by Cramer's rule."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = a, b, c, d
    under = (ax - bx) * (cy - dy) - (ay - by) * (cx - dx)
    first, second = ax * by - ay * bx, cx * dy - cy * dx
    return (first * (cx - dx) - (ax - bx) * second) / under, (first * (cy - dy) - (ay - by) * second) / under


def on_circle(centre: Point, radius: float, towards: Point) -> Point:
    """Where the ray from the centre of a circle through a point cuts the circle, by bisection."""
    near, far = 0.0, 1000.0
    for _ in range(80):
        middle = (near + far) / 2
        at = (centre[0] + middle * (towards[0] - centre[0]), centre[1] + middle * (towards[1] - centre[1]))
        near, far = (middle, far) if math.dist(centre, at) < radius else (near, middle)
    return at


def across_walkline(narrow: float, wide: float, width: float, out: float) -> float:
    """Depth of a winder between its two nosing lines, on a circle `out` from its narrow edge.

    The nosings run `width` long from the narrow edge to the wide one; they meet at the centre of the circle.
    """
    lean = (wide - narrow) / 2
    high = math.sqrt(width**2 - lean**2)
    left, right = ((-narrow / 2, 0.0), (-wide / 2, high)), ((narrow / 2, 0.0), (wide / 2, high))
    centre = crossing(*left, *right)
    radius = math.dist(centre, left[0]) + out
    return math.dist(on_circle(centre, radius, left[1]), on_circle(centre, radius, right[1]))


WINDERS = [
    ("5", "25", "36", 5, 25, 36),
    ("6", "26 1/4", "40 1/2", 6, 26.25, 40.5),
    ("1", "14 1/8", "26 1/4", 1, 14.125, 26.25),
    ("3 3/8", "30", "42", 3.375, 30, 42),
]


# The walkline of 12 in: IRC 2021 R311.7.4. How a depth follows from the two ends: geometry, no source.
@pytest.mark.parametrize(("narrow", "wide", "width", "n", "w", "long"), WINDERS)
def test_a_winder_between_two_straight_nosings_is_as_deep_on_a_circle_as_worked_out_from_its_ends(
    narrow: str, wide: str, width: str, n: float, w: float, long: float
) -> None:
    flight = {"form": "winder", "treads": [{"narrow": narrow, "wide": wide, "width": width}], "risers": ["7", "7"]}
    told = found(flight, "winder-walkline-depth-min", "tread 1")
    assert float(told.value) / NM == pytest.approx(across_walkline(n, w, long, 12), rel=ALIKE)
    assert told.computed


@pytest.mark.parametrize(("out", "walkline"), [("18", "15"), ("9", "10"), ("27", "20")])
def test_a_depth_read_elsewhere_on_the_same_winder_gives_the_depth_at_the_walkline(out: str, walkline: str) -> None:
    tread = {"narrow": "5", "walkline": walkline, "wide": "25", "width": "36"}
    flight = {"form": "winder", "treads": [tread], "walkline_out": out, "risers": ["7", "7"]}
    # 15, 10 and 20 are what the circle itself gives 18, 9 and 27 out.
    assert across_walkline(5, 25, 36, float(out)) == pytest.approx(float(walkline), rel=ALIKE)
    found_here = inches(flight, "winder-walkline-depth-min", "tread 1")
    assert found_here == pytest.approx(across_walkline(5, 25, 36, 12), rel=ALIKE)


def test_a_depth_read_at_the_walkline_is_taken_as_it_is() -> None:
    tread = {"narrow": "5", "walkline": "11", "wide": "25", "width": "36"}
    told = found(
        {"form": "winder", "treads": [tread], "walkline_out": "12", "risers": ["7", "7"]},
        "winder-walkline-depth-min",
        "tread 1",
    )
    assert (told.value, told.computed) == (11 * NM, False)


def test_the_spread_of_winders_is_that_of_their_depths_on_the_circle() -> None:
    ends = [(5, 25, 36), (6, 24, 36), (5, 28, 36)]
    treads = [{"narrow": str(n), "wide": str(w), "width": str(long)} for n, w, long in ends]
    depths = [across_walkline(n, w, long, 12) for n, w, long in ends]
    spread = inches({"form": "winder", "treads": treads, "risers": ["7"] * 4}, "winder-walkline-spread-max", "flight")
    assert spread == pytest.approx(max(depths) - min(depths), rel=ALIKE)


def around(points: list[Point]) -> float:
    """Radius of the circle through three points: where the perpendiculars at the middles of two chords meet."""
    rays = []
    for (ax, ay), (bx, by) in (points[:2], points[1:]):
        middle = ((ax + bx) / 2, (ay + by) / 2)
        rays += [middle, (middle[0] - (by - ay), middle[1] + (bx - ax))]
    return math.dist(crossing(*rays), points[0])


# IRC 2021 R311.7.10.1 (radius at the walkline) and R311.7.4 (12 in out from the narrow edge).
@pytest.mark.parametrize(("pole", "across"), [("4", 4), ("3 1/2", 3.5), ("6 5/8", 6.625), ("25", 25)])
def test_the_walkline_of_a_spiral_stair_is_the_circle_through_three_points_12_in_out_from_its_pole(
    pole: str, across: float
) -> None:
    edge = [cmath.rect(across / 2, angle) for angle in (0.1, 1.4, 3.9)]
    out = [point + 12 * point / abs(point) for point in edge]
    flight = {"form": "spiral", "pole_diameter": pole, "risers": ["9", "9"]}
    radius = inches(flight, "spiral-walkline-radius-max", "flight")
    assert radius == pytest.approx(around([(point.real, point.imag) for point in out]), rel=ALIKE)


def highest(curve: Callable[[float], float], low: float, high: float) -> float:
    """Greatest value of a curve that rises and then falls, by cutting off a third at a time."""
    for _ in range(90):
        third = (high - low) / 3
        low, high = (low + third, high) if curve(low + third) < curve(high - third) else (low, high - third)
    return curve((low + high) / 2)


def largest_ball(rise: float, run: float, gap: float, nosing: float) -> float:
    """Diameter of the largest ball over a tread, before the riser face and under the rail, by search.

    The nosing of the tread lies at (0, 0) and the one above at (run, rise). The riser face stands `nosing` behind
    that one, and the underside of the rail runs along the nosing line, `gap` plumb above it.
    """
    slope = math.hypot(rise, run)

    def room(x: float, y: float) -> float:
        under_rail = ((gap - y) * run + rise * x) / slope
        return min(y, run + nosing - x, under_rail)

    top = gap + rise * (run + nosing) / run
    return 2 * highest(lambda x: highest(lambda y: room(x, y), 0, top), -gap * run / rise, run + nosing)


def guarded(rise: str, run: str, gap: str, nosing: str) -> dict[str, Any]:
    return {
        "risers": [rise] * 3,
        "treads": [run] * 2,
        "nosings": [nosing] * 3,
        "riser_form": "closed",
        "sides": {"left": "wall", "right": {"drop": "40"}},
        "guards": [{"side": "right", "rail_gap": gap}],
    }


STEPS = [("7 1/4", "10", 7.25, 10), ("7 3/4", "10", 7.75, 10), ("7", "11", 7, 11), ("8 1/4", "9", 8.25, 9)]
# The largest ball with the rail on the nosing line, and the gap at which a 6 in ball just goes in; without a nosing
# and with one of 1 in. Worked by hand to three decimals, no published source; the search below agrees.
BALLS = [(4.898, 5.388), (5.098, 5.608), (4.962, 5.413), (5.041, 5.601)]
GAPS = [("1.630", "0.905"), ("1.370", "0.595"), ("1.465", "0.829"), ("1.570", "0.653")]

# The triangle itself, less than 6 in: IRC 2021 R312.1.3 exc. 1.
TABLE = [
    (*step, gap, nosing, ball)
    for step, balls, gaps in zip(STEPS, BALLS, GAPS, strict=True)
    for nosing, at_nosings, with_six in (("0", balls[0], gaps[0]), ("1", balls[1], gaps[1]))
    for gap, ball in (("0", at_nosings), (with_six, 6.0))
]


@pytest.mark.parametrize(("rise", "run", "r", "t", "gap", "nosing", "ball"), TABLE)
def test_the_triangle_under_a_rail_takes_the_ball_that_a_search_between_its_three_lines_finds(
    rise: str, run: str, r: float, t: float, gap: str, nosing: str, ball: float
) -> None:
    told = found(guarded(rise, run, gap, nosing), "guard-triangle", "guard right")
    searched = largest_ball(r, t, float(gap), float(nosing))
    assert float(told.value) / NM == pytest.approx(searched, rel=ALIKE)
    assert searched == pytest.approx(ball, abs=0.0006)
    assert told.computed


def test_a_rail_2_in_above_the_nosings_of_a_common_step_lets_a_ball_of_6_and_a_quarter_in() -> None:
    ball = inches(guarded("7 1/4", "10", "2", "0"), "guard-triangle", "guard right")
    assert ball == pytest.approx(largest_ball(7.25, 10, 2, 0), rel=ALIKE)
    assert ball == pytest.approx(6.25, abs=0.0006)  # worked by hand, no published source


def test_the_largest_of_the_balls_of_all_steps_is_the_one_that_counts() -> None:
    flight = guarded("7", "10", "1", "1") | {
        "risers": ["7", "7", "7 3/4", "7 1/4"],
        "treads": ["10", "10", "11"],
        "nosings": ["1", "1", "1/2", "1 1/4"],
    }
    # Each tread goes with the riser and the nosing above it.
    steps = [(7, 10, 1), (7.75, 10, 0.5), (7.25, 11, 1.25)]
    balls = [largest_ball(rise, run, 1, nosing) for rise, run, nosing in steps]
    assert inches(flight, "guard-triangle", "guard right") == pytest.approx(max(balls), rel=ALIKE)


def plumb_above(square: float, along: complex) -> float:
    """How far plumb above a line of a direction the parallel lies that is `square` off, by vectors."""
    normal = along * 1j / abs(along)
    return square / normal.imag


RAIL = {"risers": ["7 1/4"] * 4, "treads": ["10"] * 3}


# Worked by hand, no published source: at 7 1/4 to 10, 36 square is 44.47 plumb and 29.146 square is 36 plumb.
@pytest.mark.parametrize(
    ("square", "plumb", "off"), [("36", 44.47, 0.006), ("29.146", 36, 0.0006), ("30", 37.05, 0.006)]
)
def test_a_rail_read_square_to_the_slope_lies_as_high_as_vectors_say(square: str, plumb: float, off: float) -> None:
    flight = RAIL | {"handrails": [{"side": "left", "heights": [square], "heights_taken": "square"}]}
    high = inches(flight, "handrail-height", "handrail left")
    assert high == pytest.approx(plumb_above(float(square), 10 + 7.25j), rel=ALIKE)
    assert high == pytest.approx(plumb, abs=off)


def test_a_guard_read_square_to_a_measured_pitch_lies_as_high_as_vectors_say() -> None:
    flight = {
        "risers": ["7 1/4"] * 4,
        "pitch": "36 deg",
        "sides": {"right": {"drop": "40"}},
        "guards": [{"side": "right", "heights": ["30"], "heights_taken": "square"}],
    }
    along = cmath.rect(1, math.radians(36))
    assert inches(flight, "guard-height-stair", "guard right") == pytest.approx(plumb_above(30, along), rel=ALIKE)


def test_a_rail_read_plumb_is_taken_as_it_is() -> None:
    flight = RAIL | {"handrails": [{"side": "left", "heights": ["36"], "heights_taken": "plumb"}]}
    assert found(flight, "handrail-height", "handrail left").value == 36 * NM


# The angle of alternating treads: IRC 2021 R311.7.11.1. Its size from rise and run: geometry, no source.
@pytest.mark.parametrize(("rise", "run", "step"), [("9", "5", 5 + 9j), ("8 1/2", "6 1/4", 6.25 + 8.5j)])
def test_the_pitch_of_a_flight_is_the_angle_between_the_step_and_the_level(
    rise: str, run: str, step: complex
) -> None:
    flight = {"form": "alternating-tread", "risers": [rise] * 3, "treads": [run] * 2}
    angle = math.degrees(math.acos(step.real / abs(step)))
    assert float(found(flight, "alternating-tread-pitch", "flight").value) == pytest.approx(angle, rel=ALIKE)


# A slope is rise over run (IRC 2021 R311.7.7 prints 1:48 and 2 percent side by side).
@pytest.mark.parametrize(
    ("told", "fall"),
    [
        ("1 deg", cmath.exp(1j * math.pi / 180)),
        ("0.5 deg", cmath.exp(1j * math.pi / 360)),
        ("1/4 in per ft", 12 + 0.25j),
        ("1:48", 48 + 1j),
        ("2 %", 100 + 2j),
    ],
)
def test_a_slope_is_the_same_however_it_was_told(told: str, fall: complex) -> None:
    value = found({"risers": ["7", "7"], "tread_slopes": told}, "tread-slope-max", "flight").value
    assert float(value) == pytest.approx(fall.imag / fall.real, rel=ALIKE)
