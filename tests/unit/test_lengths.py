"""Lengths as a tape gives them: every notation that is read, every one that is refused, every print."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stairaudit.lengths import (
    NM_PER_IN,
    NM_PER_MM,
    Unit,
    inches,
    millimetres,
    parse_length,
    plain,
    quoted,
    show_both,
    show_exact,
    show_length,
    trimmed,
)

A_LENGTH = "a length such as 7 3/4 in, 6' 8\", 197 mm, 17.9 cm or 1.2 m"
ONE_MARK = (
    "is not one mark of the tape; record the nearest mark and give the tape's smallest division, "
    "as in instruments: {tape: 1/16 in}"
)
TAPE_PARTS = "which is not a fraction of a tape; use halves, 4ths, 8ths, 16ths, 32nds or 64ths"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # International yard and pound agreement (1959): 1 yd = 0.9144 m. NIST SP 811 (2008), appendix B.6 and
        # B.8: 1 in = 25.4 mm and 1 ft = 0.3048 m, both exact. From memory.
        ("36 in", 914_400_000),
        ("1 in", 25_400_000),
        ("1 ft", 304_800_000),
        # SI Brochure, 9th edition (2019), table 7: milli 10^-3, centi 10^-2, nano 10^-9. From memory.
        ("1 m", 1_000_000_000),
        ("1 cm", 10_000_000),
        ("1 mm", 1_000_000),
    ],
)
def test_units_have_their_defined_size(text: str, expected: int) -> None:
    assert parse_length(text) == expected


def test_a_64th_of_an_inch_is_a_whole_number_of_nanometres() -> None:
    assert parse_length("1/64 in") == 396_875


@pytest.mark.parametrize(
    "text",
    [
        "7 3/4 in",
        "7 3/4 in.",
        "7 3/4in",
        "7 3/4 inches",
        "7 3/4 Inch",
        "7-3/4 in",
        '7-3/4"',
        '7 3/4"',
        "7 3/4''",
        "7 6/8 in",
        "7 48/64 in",
        "7 3 / 4 in",
        "  7  3/4  in ",
        "7.75 in",
        '7.75"',
        "7.75in",
        "7.750000 in",
        "07.75 in",
        '7¾"',
        "7 ¾ in",
        "7-¾ in",
        "7 3/4″",
        "7 3/4”",
        "7 3/4“",
        "7 3/4’’",
        "7 3⁄4 in",
        "7–3/4 in",
        "7\u20113/4 in",
        "7\u00a03/4\u00a0in",
        "7\u202f3/4 in",
        "0' 7 3/4\"",
        "196.85 mm",
        "19.685 cm",
        "0.19685 m",
        ".19685 m",
    ],
)
def test_seven_and_three_quarter_inches_in_every_notation(text: str) -> None:
    assert parse_length(text) == 196_850_000


@pytest.mark.parametrize(
    ("text", "sixteenths"),
    [
        ("2' 11 5/16\"", 565),
        ("2'11-5/16\"", 565),
        ("2'-11 5/16\"", 565),
        ("2'-11-5/16\"", 565),
        ("2' - 11 5/16 in", 565),
        ("2′ 11 5⁄16″", 565),
        ("2’ 11 5/16”", 565),
        ("2 ft 11 5/16 in", 565),
        ("2ft 11 5/16in", 565),
        ("2 ft. 11 5/16 in.", 565),
        ("2 feet 11 5/16 inches", 565),
        ("2' 11 5/16", 565),
        ("35 5/16 in", 565),
        ("6'-8\"", 1280),
        ("6' 8", 1280),
        ("6 ft 8", 1280),
        ("6ft 8in", 1280),
        ("6ft.8in.", 1280),
        ("6' 8''", 1280),
        ("6 foot 8 inch", 1280),
        ("6'", 1152),
        ("6 ft", 1152),
        ("6.5 ft", 1248),
        ("6 1/2 ft", 1248),
        ("6' 0\"", 1152),
        ("6' ½\"", 1160),
        ("6' .5\"", 1160),
        ("6' 8.5\"", 1288),
        ("0 in", 0),
        (".5 in", 8),
        ('½"', 8),
        ('¼"', 4),
        ('⅛"', 2),
        ('⅜"', 6),
        ('⅝"', 10),
        ('⅞"', 14),
        ("1/16 in", 1),
    ],
)
def test_feet_and_inches_in_every_notation(text: str, sixteenths: int) -> None:
    assert parse_length(text) == sixteenths * 1_587_500


@pytest.mark.parametrize(
    ("text", "tenths_of_mm"),
    [
        ("179 mm", 1790),
        ("179mm", 1790),
        ("179 MM", 1790),
        ("179.0 mm", 1790),
        ("179. mm", 1790),
        ("179 millimetres", 1790),
        ("179 millimeters", 1790),
        ("17.9 cm", 1790),
        ("17.9 centimetres", 1790),
        ("17.9 centimeter", 1790),
        ("1.2 m", 12000),
        ("1.2 metres", 12000),
        ("1.2 meters", 12000),
        ("0.1 mm", 1),
    ],
)
def test_metric_notations(text: str, tenths_of_mm: int) -> None:
    assert parse_length(text) == tenths_of_mm * 100_000


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        ("7 3/4", "in", 196_850_000),
        ("7¾", "in", 196_850_000),
        ("7.75", "in", 196_850_000),
        ("197", "mm", 197_000_000),
        ("19.7", "cm", 197_000_000),
        ("6.5", "ft", 1_981_200_000),
        ("6 1/2", "ft", 1_981_200_000),
    ],
)
def test_a_bare_number_takes_the_unit_of_the_survey(text: str, unit: Unit, expected: int) -> None:
    assert parse_length(text, unit) == expected


@pytest.mark.parametrize("unit", ["in", "mm", "cm", "ft"])
def test_a_written_unit_beats_the_unit_of_the_survey(unit: Unit) -> None:
    assert parse_length("7 3/4 in", unit) == parse_length("196.85 mm", unit) == 196_850_000


@pytest.mark.parametrize("unit", ["in", "mm", "cm", "ft"])
def test_a_bare_number_after_feet_is_inches_whatever_the_unit(unit: Unit) -> None:
    assert parse_length("6' 8", unit) == 2_032_000_000


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("7.5", "'7.5' has no unit; write 7.5 in or 7.5 mm, or give the file one, as in units: in"),
        ("1/2", "'1/2' has no unit; write 1/2 in, or give the file one, as in units: in"),
        ("7¾", "'7¾' has no unit; write 7 3/4 in, or give the file one, as in units: in"),
        ("6:8", "'6:8' looks like a clock time; write feet and inches as 6' 8\""),
        ("17,9 cm", "'17,9 cm' has a decimal comma; write 17.9 cm"),
        (
            "1,200 mm",
            "'1,200 mm' has a comma; write thousands as 1200 and decimals with a point, as 1.2",
        ),
        ("7 3/5 in", f"'7 3/5 in' has 3/5, {TAPE_PARTS}"),
        ("7 4/3 in", f"'7 4/3 in' has 4/3, {TAPE_PARTS}"),
        ("7 3/0 in", f"'7 3/0 in' has 3/0, {TAPE_PARTS}"),
        ("7 0/1 in", f"'7 0/1 in' has 0/1, {TAPE_PARTS}"),
        ("1/3 in", f"'1/3 in' has 1/3, {TAPE_PARTS}"),
        ("7⅔ in", f"'7⅔ in' has 2/3, {TAPE_PARTS}"),
        ("1/128 in", f"'1/128 in' has 1/128, {TAPE_PARTS}"),
        (
            "7 9/8 in",
            "'7 9/8 in' has 9/8, which is not below one; write whole inches first, as in 1 1/8",
        ),
        ("8/8 in", "'8/8 in' has 8/8, which is not below one; write whole inches first, as in 1 1/8"),
        ("6' 14\"", "“6' 14\"” has 12 inches or more after the feet; keep them under 12, as in 6' 8\""),
        ("6 ft 12 in", "'6 ft 12 in' has 12 inches or more after the feet; keep them under 12, as in 6' 8\""),
        ("7.5 1/4 in", "'7.5 1/4 in' mixes a decimal with a fraction; write 7.75 or 7 3/4"),
        (
            "1/2 mm",
            "'1/2 mm' has a fraction, which goes with inches and not with mm; "
            "write inches, as in 7 3/4 in, or a decimal, as in 19.5 mm",
        ),
        ("NaN", f"'NaN' is not a measurement; write {A_LENGTH}"),
        (".nan", f"'.nan' is not a measurement; write {A_LENGTH}"),
        (".inf", f"'.inf' is not a measurement; write {A_LENGTH}"),
        ("-inf", f"'-inf' is not a measurement; write {A_LENGTH}"),
        ("1e3 mm", "'1e3 mm' has an exponent; write the digits out, as in 1000"),
        ("1.0e+3", "'1.0e+3' has an exponent; write the digits out, as in 1000"),
        ("-5 in", "'-5 in' starts with a sign; a reading is zero or more, so leave the sign off"),
        ("−5 in", "'−5 in' starts with a sign; a reading is zero or more, so leave the sign off"),
        ("+5 in", "'+5 in' starts with a sign; a reading is zero or more, so leave the sign off"),
        ("1_000", "'1_000' has an underscore; write the digits together, as in 1000"),
        ("1" * 50, f"'{'1' * 40}...' has more digits than can be measured; write {A_LENGTH}"),
        ("1.1234567890123 mm", f"'1.1234567890123 mm' has more digits than can be measured; write {A_LENGTH}"),
        ("yes", f"'yes' is not a measurement; write {A_LENGTH}"),
        ("no", f"'no' is not a measurement; write {A_LENGTH}"),
        ("True", f"'True' is not a measurement; write {A_LENGTH}"),
        ("null", f"'null' is not a measurement; write {A_LENGTH}"),
        ("none", f"'none' is not a measurement; write {A_LENGTH}"),
        ("~", f"'~' is not a measurement; write {A_LENGTH}"),
        ("", f"'' is not a measurement; write {A_LENGTH}"),
        ("7 3/4 strong", f"'7 3/4 strong' {ONE_MARK}"),
        ("7 3/4 in shy", f"'7 3/4 in shy' {ONE_MARK}"),
        ("7 3/4+", f"'7 3/4+' {ONE_MARK}"),
        ('7 3/4"-', f"'7 3/4\"-' {ONE_MARK}"),
        ("7 3/4 a hair over", f"'7 3/4 a hair over' {ONE_MARK}"),
        ("~7 3/4 in", f"'~7 3/4 in' {ONE_MARK}"),
        ("7 3/4 ± 1/16 in", f"'7 3/4 ± 1/16 in' {ONE_MARK}"),
        ("7 3/4 +/- 1/16", f"'7 3/4 +/- 1/16' {ONE_MARK}"),
        ("6.5' 3\"", "“6.5' 3\"” has a decimal in the feet; write whole feet, then the inches"),
        ("6' 200 mm", "“6' 200 mm” mixes feet with another unit; write 6' 8\" or 2032 mm"),
        ("5-7 in", "'5-7 in' looks like a range; write one reading for each place"),
        ("7 1/2 to 7 3/4", "'7 1/2 to 7 3/4' looks like a range; write one reading for each place"),
        ("7 7", "'7 7' has a space between two numbers; write 7 7/8, or 1000 in one piece"),
        ("1 000 mm", "'1 000 mm' has a space between two numbers; write 7 7/8, or 1000 in one piece"),
        ("7 3/4 yards", f"'7 3/4 yards' cannot be read; write {A_LENGTH}"),
        ("about right", f"'about right' {ONE_MARK}"),
        ("seven", f"'seven' cannot be read; write {A_LENGTH}"),
        ("٧ in", f"'٧ in' cannot be read; write {A_LENGTH}"),
        ("7\x1b[31m in", f"'7\\x1b[31m in' cannot be read; write {A_LENGTH}"),
        (
            "0.0000001 mm",
            "'0.0000001 mm' is finer than a nanometre, and no reading is rounded; write fewer decimals",
        ),
    ],
)
def test_what_is_refused_is_refused_with_its_remedy(text: str, message: str) -> None:
    with pytest.raises(ValueError) as refusal:  # noqa: PT011 - the whole message is compared below
        parse_length(text)

    assert str(refusal.value) == message


@pytest.mark.parametrize(
    ("text", "unit", "message"),
    [
        (
            "3/4",
            "mm",
            "'3/4' has a fraction, which goes with inches and not with mm; "
            "write inches, as in 7 3/4 in, or a decimal, as in 19.5 mm",
        ),
        (
            "17 1/2",
            "cm",
            "'17 1/2' has a fraction, which goes with inches and not with cm; "
            "write inches, as in 7 3/4 in, or a decimal, as in 19.5 cm",
        ),
        ("6:8", "in", "'6:8' looks like a clock time; write feet and inches as 6' 8\""),
        (
            "7.123456789",
            "in",
            "'7.123456789' is finer than a nanometre, and no reading is rounded; write fewer decimals",
        ),
    ],
)
def test_a_unit_of_the_survey_does_not_make_a_slip_readable(text: str, unit: Unit, message: str) -> None:
    with pytest.raises(ValueError) as refusal:  # noqa: PT011 - the whole message is compared below
        parse_length(text, unit)

    assert str(refusal.value) == message


def test_a_text_that_was_refused_once_is_refused_again_in_the_same_words() -> None:
    messages = []
    for _ in range(2):
        with pytest.raises(ValueError) as refusal:  # noqa: PT011 - the messages are compared below
            parse_length("7.5")
        messages.append(str(refusal.value))

    assert messages[0] == messages[1]


@pytest.mark.parametrize(
    ("nm", "unit", "expected"),
    [
        (0, "in", "0 in"),
        (201_612_500, "in", "7 15/16 in"),
        (254_000_000, "in", "10 in"),
        (19_050_000, "in", "3/4 in"),
        (896_937_500, "in", "35 5/16 in"),
        (-4_762_500, "in", "-3/16 in"),
        (-29_368_750, "in", "-1 5/32 in"),
        (193_675_000, "in", "7 5/8 in"),
        (197_643_750, "in", "7 25/32 in"),
        (197_246_875, "in", "7 49/64 in"),
        (0, "mm", "0 mm"),
        (197_000_000, "mm", "197 mm"),
        (196_850_000, "mm", "196.85 mm"),
        (196_800_000, "mm", "196.8 mm"),
        (201_612_500, "mm", "~201.61 mm"),
        (9_525_000, "mm", "~9.53 mm"),
        (9_515_000, "mm", "~9.52 mm"),
        (-9_525_000, "mm", "~-9.53 mm"),
        (-500_000, "mm", "-0.5 mm"),
        (179_000_000, "cm", "17.9 cm"),
        (179_250_000, "cm", "17.925 cm"),
        (180_000_000, "cm", "18 cm"),
        (896_937_500, "ft", "2 ft 11 5/16 in"),
        (609_600_000, "ft", "2 ft"),
        (2_032_000_000, "ft", "6 ft 8 in"),
        (292_100_000, "ft", "11 1/2 in"),
        (622_300_000, "ft", "2 ft 1/2 in"),
        (0, "ft", "0 in"),
        (-896_937_500, "ft", "-2 ft 11 5/16 in"),
    ],
)
def test_lengths_are_printed_in_the_unit_of_the_survey(nm: int, unit: Unit, expected: str) -> None:
    assert show_length(nm, unit) == expected


@pytest.mark.parametrize(
    ("nm", "unit", "expected"),
    [
        (179_000_000, "in", "~7 1/16 in (7.047 in, 179 mm)"),
        (197_000_000, "in", "~7 3/4 in (7.756 in, 197 mm)"),
        (500_000, "in", "~0 in (0.02 in, 0.5 mm)"),
        (-500_000, "in", "~0 in (-0.02 in, -0.5 mm)"),
        (-5_000_000, "in", "~-3/16 in (-0.197 in, -5 mm)"),
        (609_500_000, "ft", "~2 ft (23.996 in, 609.5 mm)"),
        (897_000_000, "ft", "~2 ft 11 5/16 in (35.315 in, 897 mm)"),
    ],
)
def test_inches_that_were_rounded_say_so_and_show_what_was_read(nm: int, unit: Unit, expected: str) -> None:
    assert show_length(nm, unit) == expected


def test_a_mean_that_is_no_whole_number_of_nanometres_is_printed_as_rounded() -> None:
    mean = Fraction(parse_length("20 1/8 in") + parse_length("1/16 in"), 3)

    assert show_length(mean, "in") == "~6 3/4 in (6.729 in, ~170.92 mm)"
    assert show_length(mean, "mm") == "~170.92 mm"


def test_197_mm_is_told_apart_from_seven_and_three_quarter_inches() -> None:
    # 197 / 25.4 = 7.75590..., by hand.
    reading, limit = parse_length("197 mm"), parse_length("7 3/4 in")

    assert reading > limit
    assert show_length(reading, "mm", exact=True) == "197 mm (7.756 in)"
    assert show_both(reading, "in") == "~7 3/4 in (7.756 in, 197 mm)"
    assert show_both(limit, "in") == "7 3/4 in (196.85 mm)"
    assert show_both(limit, "mm") == "196.85 mm (7 3/4 in)"


@pytest.mark.parametrize(
    ("nm", "unit", "expected"),
    [
        (201_612_500, "in", "7 15/16 in (7.938 in, ~201.61 mm)"),
        (196_850_000, "ft", "7 3/4 in (7.75 in, 196.85 mm)"),
        (196_850_000, "mm", "196.85 mm (7 3/4 in)"),
        (-4_762_500, "mm", "~-4.76 mm (-3/16 in)"),
        (179_000_000, "cm", "17.9 cm (7.047 in)"),
    ],
)
def test_exact_adds_decimals_and_the_other_system(nm: int, unit: Unit, expected: str) -> None:
    assert show_length(nm, unit, exact=True) == expected


@pytest.mark.parametrize(
    ("nm", "unit", "expected"),
    [
        (2_032_000_000, "ft", "6 ft 8 in (2032 mm)"),
        (-4_762_500, "in", "-3/16 in (~-4.76 mm)"),
        (179_000_000, "cm", "17.9 cm (7.047 in)"),
    ],
)
def test_both_systems_stand_side_by_side(nm: int, unit: Unit, expected: str) -> None:
    assert show_both(nm, unit) == expected


@pytest.mark.parametrize("sixteenths", [0, 1, 2, 3])
def test_a_length_beside_the_half_goes_to_the_nearer_sixteenth(sixteenths: int) -> None:
    # The half itself is a 32nd, which is a mark of its own and is printed as that.
    half = Fraction(2 * sixteenths + 1, 2) * 1_587_500
    just_under, just_over = half - Fraction(1, 3), half + Fraction(1, 3)

    assert show_length(just_under, "in").startswith(f"~{show_length(sixteenths * 1_587_500, 'in')} (")
    assert show_length(just_over, "in").startswith(f"~{show_length((sixteenths + 1) * 1_587_500, 'in')} (")


@pytest.mark.parametrize(
    ("value", "places", "expected"),
    [
        (Fraction(1, 2), 0, "1"),
        (Fraction(3, 2), 0, "2"),
        (Fraction(5, 2), 0, "3"),
        (Fraction(-5, 2), 0, "-3"),
        (Fraction("0.125"), 2, "0.13"),
        (Fraction("0.135"), 2, "0.14"),
        (Fraction("0.1249"), 2, "0.12"),
        (Fraction(-1, 1000), 2, "0"),
        (Fraction("9.999"), 2, "10"),
        (Fraction("1.05"), 3, "1.05"),
        (1200, 2, "1200"),
    ],
)
def test_halves_go_away_from_zero_and_closing_zeros_go(value: Fraction, places: int, expected: str) -> None:
    assert trimmed(value, places) == expected


def test_a_share_that_no_tape_shows_is_one_fraction_of_the_unit() -> None:
    assert show_exact(Fraction(107 * NM_PER_IN, 15), "in") == "107/15 in"
    assert show_exact(Fraction(2700 * NM_PER_MM, 14), "mm") == "1350/7 mm"
    assert show_exact(7 * NM_PER_IN, "in") == "7 in"


def test_machine_formats_get_the_nearest_float() -> None:
    assert repr(millimetres(201_612_500)) == "201.6125"
    assert repr(millimetres(-4_762_500)) == "-4.7625"
    assert repr(millimetres(Fraction(200_000_000, 3))) == "66.66666666666667"
    assert repr(inches(201_612_500)) == "7.9375"


def test_risers_three_eighths_apart_differ_by_exactly_three_eighths() -> None:
    # In float millimetres 196.85 - 187.325 comes out above 9.525.
    difference = parse_length("7 3/4 in") - parse_length("7 3/8 in")

    assert difference == parse_length("3/8 in") == 9_525_000


def test_typed_text_is_made_safe_and_short_for_a_message() -> None:
    assert quoted("7\u00a03/4\n in") == "'7 3/4 in'"
    assert quoted("a\x1b[31mb") == "'a\\x1b[31mb'"
    assert quoted("x" * 41) == f"'{'x' * 40}...'"
    assert quoted("6' 8\"") == "“6' 8\"”"


def test_a_remedy_that_repeats_the_text_is_as_safe_as_the_text() -> None:
    with pytest.raises(ValueError) as comma:  # noqa: PT011 - the whole message is compared below
        parse_length("1,5\x1b[31m mm")
    with pytest.raises(ValueError) as bare:  # noqa: PT011 - the whole message is compared below
        parse_length("7\n3/4")

    assert str(comma.value) == "'1,5\\x1b[31m mm' has a decimal comma; write 1.5\\x1b[31m mm"
    assert str(bare.value) == "'7 3/4' has no unit; write 7 3/4 in, or give the file one, as in units: in"


def test_typographic_marks_become_those_of_a_keyboard() -> None:
    assert plain(" 2′ 11½″ ") == "2' 11 1/2\""
