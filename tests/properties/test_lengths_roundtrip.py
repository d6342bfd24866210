"""What is printed is read back as the same length, and differences on a tape stay exact."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stairaudit.lengths import Unit, parse_length, show_both, show_length

NM_PER_64TH = 396_875
NM_PER_TENTH_MM = 100_000
TAPE = range(1, 100 * 64)
UNITS: tuple[Unit, ...] = ("in", "ft", "mm", "cm")


@pytest.mark.parametrize("unit", ["in", "ft"])
def test_every_64th_up_to_100_inches_is_printed_and_read_back(unit: Unit) -> None:
    changed = [n for n in TAPE if parse_length(show_length(n * NM_PER_64TH, unit)) != n * NM_PER_64TH]

    assert changed == []


def test_every_64th_written_with_hyphen_and_mark_is_read_back() -> None:
    written = {n: show_length(n * NM_PER_64TH, "in").removesuffix(" in").replace(" ", "-") + '"' for n in TAPE}

    assert [n for n, text in written.items() if parse_length(text) != n * NM_PER_64TH] == []


@given(st.integers(0, 100_000), st.sampled_from(["mm", "cm"]))
def test_tenths_of_a_millimetre_are_printed_and_read_back(tenths: int, unit: Unit) -> None:
    nm = tenths * NM_PER_TENTH_MM

    assert parse_length(show_length(nm, unit)) == nm


@given(st.integers(0, 9_999_999), st.integers(0, 999_999))
def test_a_decimal_of_millimetres_is_read_to_the_last_nanometre(whole: int, millionths: int) -> None:
    assert parse_length(f"{whole}.{millionths:06d} mm") == whole * 1_000_000 + millionths


def test_each_pair_of_64ths_three_eighths_apart_differs_by_three_eighths() -> None:
    limit = parse_length("3/8 in")
    readings = [parse_length(show_length(n * NM_PER_64TH, "in")) for n in range(4 * 64, 12 * 64)]
    differences = {high - low for low, high in zip(readings, readings[24:], strict=False)}

    assert differences == {9_525_000} == {limit}


@given(st.integers(0, 10**10), st.sampled_from(UNITS))
def test_a_length_printed_without_a_mark_of_rounding_is_the_length(nm: int, unit: Unit) -> None:
    text = show_length(nm, unit)

    assert text.startswith("~") or parse_length(text) == nm


@given(st.integers(-(10**10), 10**10))
def test_rounded_inches_are_within_half_a_sixteenth(nm: int) -> None:
    text = show_length(nm, "in").split(" (")[0]
    mark = parse_length(text.removeprefix("~").removeprefix("-"))

    assert abs(Fraction(mark) - abs(nm)) <= Fraction(25_400_000, 32)


@given(st.integers(1, 10**10), st.sampled_from(UNITS))
def test_a_difference_is_printed_like_its_opposite(nm: int, unit: Unit) -> None:
    assert show_both(-nm, unit).replace("-", "") == show_both(nm, unit)


@given(st.text(max_size=30) | st.text("0123456789 ./'\"-½in ftm,:e_~+", max_size=15), st.sampled_from([None, *UNITS]))
def test_any_text_is_a_length_or_is_refused_with_a_sentence(text: str, unit: Unit | None) -> None:
    try:
        told: int | str = parse_length(text, unit)
    except ValueError as refusal:
        told = str(refusal)

    if isinstance(told, int):
        assert told >= 0
    else:
        assert told.isprintable()
        assert told[0] in "'“"
