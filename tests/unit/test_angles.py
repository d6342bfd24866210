"""Angles and slopes: what is read, what is refused and how they are printed."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stairaudit.angles import parse_angle, parse_slope, show_angle, show_slope, slope_of_degrees

AN_ANGLE = "an angle such as 30 deg"
A_SLOPE = "a slope such as 1:48, 2 %, 1/4 in per ft or 0.5 deg"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("30 deg", Fraction(30)),
        ("30deg", Fraction(30)),
        ("30 Deg.", Fraction(30)),
        ("30°", Fraction(30)),
        ("30 º", Fraction(30)),
        ("30 degrees", Fraction(30)),
        ("1 degree", Fraction(1)),
        ("0.5 deg", Fraction(1, 2)),
        (".1 deg", Fraction(1, 10)),
        ("0 deg", Fraction(0)),
        ("360 deg", Fraction(360)),
    ],
)
def test_angles_are_read_exactly(text: str, expected: Fraction) -> None:
    assert parse_angle(text) == expected


def test_a_bare_number_is_an_angle_only_where_asked_for() -> None:
    assert parse_angle("31.5", bare=True) == Fraction(63, 2)
    with pytest.raises(ValueError, match=r"^'31\.5' has no unit; write 31\.5 deg$"):
        parse_angle("31.5")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("-5 deg", "'-5 deg' starts with a sign; a reading is zero or more, so leave the sign off"),
        ("361 deg", "'361 deg' is more than a full turn; write an angle of at most 360 deg"),
        ("0,5 deg", "'0,5 deg' has a decimal comma; write 0.5 deg"),
        ("1e1 deg", "'1e1 deg' has an exponent; write the digits out, as in 1000"),
        ("nan", f"'nan' is not a measurement; write {AN_ANGLE}"),
        ("yes", f"'yes' is not a measurement; write {AN_ANGLE}"),
        ("", f"'' is not a measurement; write {AN_ANGLE}"),
        ("5 %", f"'5 %' cannot be read; write {AN_ANGLE}"),
        ("30 rad", f"'30 rad' cannot be read; write {AN_ANGLE}"),
    ],
)
def test_what_is_no_angle_is_refused_with_its_remedy(text: str, message: str) -> None:
    with pytest.raises(ValueError) as refusal:  # noqa: PT011 - the whole message is compared below
        parse_angle(text)

    assert str(refusal.value) == message


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (Fraction("31.5594"), "31.56 deg"),
        (Fraction("31.565"), "31.57 deg"),
        (Fraction(63, 2), "31.5 deg"),
        (30, "30 deg"),
        (Fraction(-1, 2), "-0.5 deg"),
    ],
)
def test_angles_are_printed_with_two_decimals_at_most(value: Fraction, expected: str) -> None:
    assert show_angle(value) == expected


@pytest.mark.parametrize(
    "text",
    [
        "1:48",
        "1 : 48",
        "1 in 48",
        "2:96",
        "0.5:24",
        "1/4 in per ft",
        "1/4 in per 12 in",
        '1/4" per foot',
        '¼" per ft',
        "1/4 in / ft",
        "1/4 in/ft",
        '1/4"/12"',
        "0.25 in per 1 ft",
    ],
)
def test_a_quarter_inch_in_a_foot_in_every_notation(text: str) -> None:
    # 1/4 in over 12 in is 1 in 48, by hand.
    assert parse_slope(text) == Fraction(1, 48)


@pytest.mark.parametrize(
    "text", ["2%", "2 %", "2 per cent", "2 percent", "20 mm per m", "20mm/m", "2 cm per 1 m", "1:50"]
)
def test_two_per_cent_in_every_notation(text: str) -> None:
    assert parse_slope(text) == Fraction(1, 50)


@pytest.mark.parametrize("text", ["level", "Level", "0 %", "0:12", "0 deg", "0 in per ft"])
def test_no_rise_is_level_in_every_notation(text: str) -> None:
    assert parse_slope(text) == 0


@pytest.mark.parametrize(
    ("degrees", "tangent"),
    [
        # The tangents of these two angles have closed forms: tan 30 deg = 1/sqrt 3, tan 15 deg = 2 - sqrt 3.
        (30, 0.57735026918962576),
        (15, 0.26794919243112270),
    ],
)
def test_degrees_become_rise_over_run(degrees: int, tangent: float) -> None:
    assert float(slope_of_degrees(degrees)) == pytest.approx(tangent, abs=1e-15)
    assert parse_slope(f"{degrees} deg") == slope_of_degrees(degrees)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("2", f"'2' has no unit; write {A_SLOPE}"),
        ("48:1", "'48:1' is steeper than 1:1; write the rise first, as in 1:48"),
        ("101 %", "'101 %' is steeper than 1:1; write the rise first, as in 1:48"),
        ("90 deg", "'90 deg' is steeper than 1:1; write the rise first, as in 1:48"),
        ("1:0", f"'1:0' has no run to rise over; write {A_SLOPE}"),
        ("1/4 in per 0 ft", f"'1/4 in per 0 ft' has no run to rise over; write {A_SLOPE}"),
        ("-2 %", "'-2 %' starts with a sign; a reading is zero or more, so leave the sign off"),
        ("1,5 %", "'1,5 %' has a decimal comma; write 1.5 %"),
        ("nan", f"'nan' is not a measurement; write {A_SLOPE}"),
        ("no", f"'no' is not a measurement; write {A_SLOPE}"),
        ("1/48", f"'1/48' cannot be read; write {A_SLOPE}"),
        ("1/4 per ft", f"'1/4 per ft' cannot be read; write {A_SLOPE}"),
        ("steep", f"'steep' cannot be read; write {A_SLOPE}"),
    ],
)
def test_what_is_no_slope_is_refused_with_its_remedy(text: str, message: str) -> None:
    with pytest.raises(ValueError) as refusal:  # noqa: PT011 - the whole message is compared below
        parse_slope(text)

    assert str(refusal.value) == message


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (Fraction(1, 48), "1:48 (2.1 %)"),
        (Fraction(1, 50), "1:50 (2 %)"),
        (Fraction(2, 97), "1:48.5 (2.1 %)"),
        (Fraction(-1, 48), "-1:48 (-2.1 %)"),
        (1, "1:1 (100 %)"),
        (0, "level"),
    ],
)
def test_slopes_are_printed_as_a_ratio_and_in_per_cent(value: Fraction, expected: str) -> None:
    assert show_slope(value) == expected
