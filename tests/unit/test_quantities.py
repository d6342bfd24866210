"""The table of kinds: each kind is read, printed and put into a machine format by its own rules."""

from __future__ import annotations

import datetime
from fractions import Fraction
from typing import Any, get_args

import pytest

from stairaudit.lengths import Unit
from stairaudit.quantities import Kind, Value, json_value, read, show, show_difference

AN_AREA = "an area such as 75 sq in, 5.7 sq ft, 48387 sq mm or 0.65 m2"
A_LIGHT_LEVEL = "a light level such as 1 footcandle or 11 lux"
SQ_IN = 645_160_000_000_000
SQ_MM = 1_000_000_000_000
EXAMPLES: dict[Kind, str] = {
    "length": "7 3/4 in",
    "spread": "3/8 in",
    "angle": "30 deg",
    "slope": "1:48",
    "area": "75 sq in",
    "count": "14",
    "yes-no": "yes",
    "light": "11 lux",
    "word": "round",
    "day": "2017-01-17",
}


def test_every_kind_is_read_and_printed_again_as_it_was() -> None:
    texts = {kind: show(kind, read(kind, text), "in") for kind, text in EXAMPLES.items()}

    assert set(EXAMPLES) == set(get_args(Kind))
    assert texts == EXAMPLES | {"slope": "1:48 (2.1 %)", "light": "1.02 footcandles (11 lux)"}


@pytest.mark.parametrize("kind", ["length", "spread"])
def test_a_bare_length_takes_the_unit_it_is_given(kind: Kind) -> None:
    assert read(kind, "3/8", "in") == 9_525_000
    assert read(kind, "9.5", "mm") == 9_500_000


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # NIST SP 811 (2008), appendix B.8: 1 in² = 6.4516 cm² exactly, 1 ft² = 9.290 304 dm² exactly. From memory.
        ("1 sq in", 645_160_000_000_000),
        ("1 sq ft", 92_903_040_000_000_000),
        ("70 sq in", 70 * SQ_IN),
        ("70 sq. in.", 70 * SQ_IN),
        ("70 square inches", 70 * SQ_IN),
        ("70 in2", 70 * SQ_IN),
        ("70 in²", 70 * SQ_IN),
        ("70 in^2", 70 * SQ_IN),
        ("5 square feet", 720 * SQ_IN),
        ("1 square foot", 144 * SQ_IN),
        ("5 ft2", 720 * SQ_IN),
        ("45161.2 sq mm", 70 * SQ_IN),
        ("451.612 cm2", 70 * SQ_IN),
        ("0.65 m2", 650_000 * SQ_MM),
        ("0.65 sq m", 650_000 * SQ_MM),
    ],
)
def test_areas_are_read_exactly(text: str, expected: int) -> None:
    assert read("area", text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # One footcandle is 1 lm/ft²: NIST SP 811 (2008), appendix B.8 gives 10.763 91 lx. From memory.
        ("1 footcandle", Fraction(1_562_500, 145_161)),
        ("1 fc", Fraction(1_562_500, 145_161)),
        ("2 footcandles", Fraction(3_125_000, 145_161)),
        ("2 foot-candles", Fraction(3_125_000, 145_161)),
        ("2 foot candles", Fraction(3_125_000, 145_161)),
        ("11 lux", Fraction(11)),
        ("11 lx", Fraction(11)),
        ("10.8 lux", Fraction(54, 5)),
    ],
)
def test_light_levels_are_read_as_lux(text: str, expected: Fraction) -> None:
    assert read("light", text) == expected


def test_a_footcandle_is_ten_point_seven_six_lux_at_the_digits_printed() -> None:
    # NIST SP 811 (2008), appendix B.8, footcandle: 1.076 391 E+01 lx. From memory.
    footcandle = read("light", "1 footcandle")

    assert isinstance(footcandle, Fraction)
    assert f"{float(footcandle):.5f}" == "10.76391"


@pytest.mark.parametrize(("text", "expected"), [("yes", True), ("True", True), ("no", False), ("FALSE", False)])
def test_answers_are_yes_and_no_in_the_words_of_a_file(text: str, expected: bool) -> None:
    assert read("yes-no", text) is expected


@pytest.mark.parametrize(("text", "expected"), [("0", 0), ("14", 14), ("010", 10), ("10000", 10_000)])
def test_counts_are_whole_numbers(text: str, expected: int) -> None:
    assert read("count", text) == expected


def test_a_word_is_freed_of_the_spaces_around_it() -> None:
    assert read("word", " round ") == "round"


@pytest.mark.parametrize(
    ("kind", "text", "message"),
    [
        ("length", "6:8", "'6:8' looks like a clock time; write feet and inches as 6' 8\""),
        ("angle", "30", "'30' has no unit; write 30 deg"),
        ("slope", "48:1", "'48:1' is steeper than 1:1; write the rise first, as in 1:48"),
        ("area", "75", f"'75' cannot be read; write {AN_AREA}"),
        ("area", "75 in", f"'75 in' cannot be read; write {AN_AREA}"),
        ("area", "75 sq yd", f"'75 sq yd' cannot be read; write {AN_AREA}"),
        ("area", "0,65 m²", "'0,65 m²' has a decimal comma; write 0.65 m²"),
        ("area", "-1 m2", "'-1 m2' starts with a sign; a reading is zero or more, so leave the sign off"),
        (
            "area",
            "0.0000000000001 mm2",
            f"'0.0000000000001 mm2' has more digits than can be measured; write {AN_AREA}",
        ),
        ("count", "-1", "'-1' is not a count; write a whole number from 0 to 10000"),
        ("count", "10001", "'10001' is not a count; write a whole number from 0 to 10000"),
        ("count", "3.0", "'3.0' is not a count; write a whole number from 0 to 10000"),
        ("count", "٣", "'٣' is not a count; write a whole number from 0 to 10000"),
        ("count", "", "'' is not a count; write a whole number from 0 to 10000"),
        ("yes-no", "maybe", "'maybe' is not an answer; write yes or no"),
        ("yes-no", "1", "'1' is not an answer; write yes or no"),
        ("light", "11", f"'11' cannot be read; write {A_LIGHT_LEVEL}"),
        ("light", "no", f"'no' is not a measurement; write {A_LIGHT_LEVEL}"),
        ("word", " ", "'' is empty; write a word"),
        ("day", "17 January", "'17 January' is no day; write it as 2017-01-17"),
    ],
)
def test_what_is_refused_is_refused_with_its_remedy(kind: Kind, text: str, message: str) -> None:
    with pytest.raises(ValueError) as refusal:  # noqa: PT011 - the whole message is compared below
        read(kind, text)

    assert str(refusal.value) == message


@pytest.mark.parametrize(
    ("kind", "value", "unit", "expected"),
    [
        ("length", 197_000_000, "in", "~7 3/4 in (7.756 in, 197 mm)"),
        ("spread", 9_525_000, "mm", "~9.53 mm"),
        ("area", 75 * SQ_IN, "ft", "75 sq in"),
        ("area", 75 * SQ_IN, "mm", "48387 mm²"),
        ("area", 70 * SQ_IN, "cm", "45161.2 mm²"),
        ("area", 48_000 * SQ_MM, "in", "~74.4 sq in"),
        ("area", -SQ_IN, "in", "-1 sq in"),
        ("count", 14, "mm", "14"),
        ("yes-no", True, "in", "yes"),
        ("yes-no", False, "in", "no"),
        ("light", Fraction(1_562_500, 145_161), "in", "1 footcandle (10.8 lux)"),
        ("light", Fraction(1_562_500, 145_161), "mm", "10.8 lux"),
        ("word", "round", "in", "round"),
        ("day", datetime.date(2017, 1, 17).toordinal(), "in", "2017-01-17"),
    ],
)
def test_values_are_printed_in_the_unit_of_the_survey(kind: Kind, value: Value, unit: Unit, expected: str) -> None:
    assert show(kind, value, unit) == expected


@pytest.mark.parametrize(
    ("kind", "value", "expected"),
    [
        ("slope", Fraction(1, 200), "0.5 %"),
        ("slope", Fraction(-1, 200), "-0.5 %"),
        ("slope", Fraction(0), "0 %"),
        ("length", -4_762_500, "-3/16 in"),
        ("angle", Fraction(-1, 2), "-0.5 deg"),
    ],
)
def test_a_difference_of_slopes_is_printed_in_per_cent(kind: Kind, value: Value, expected: str) -> None:
    assert show_difference(kind, value, "in") == expected


@pytest.mark.parametrize(
    ("kind", "value", "expected"),
    [
        ("length", 201_612_500, {"mm": 201.6125}),
        ("spread", Fraction(9_525_000), {"mm": 9.525}),
        ("angle", Fraction(63, 2), {"value": 31.5, "unit": "deg"}),
        ("slope", Fraction(1, 50), {"value": 0.02, "unit": "ratio"}),
        ("area", 75 * SQ_IN, {"value": 48387.0, "unit": "mm2"}),
        ("count", 14, {"value": 14, "unit": "count"}),
        ("yes-no", False, {"value": False, "unit": None}),
        ("light", Fraction(11), {"value": 11.0, "unit": "lux"}),
        ("word", "round", {"value": "round", "unit": None}),
    ],
)
def test_machine_formats_name_the_unit(kind: Kind, value: Value, expected: dict[str, Any]) -> None:
    assert json_value(kind, value) == expected


@pytest.mark.parametrize("value", [True, "7 in"])
def test_a_value_of_another_kind_is_not_printed_as_a_number(value: Value) -> None:
    with pytest.raises(TypeError, match=rf"^{value!r} is not a number$"):
        show("length", value, "in")
