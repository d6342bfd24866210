"""Readings that look like a slip of the hand or the eye are told, with what was likely meant.

What counts as such a slip is common practice, no source; the sums are worked by hand in each test.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from noting import kinds, notes_of, sixteenths, told

from stairaudit.datanotes.meanings import spaced
from stairaudit.lengths import NM_PER_IN

AT = "Flight 'f' of stair 's'"


def test_a_lost_space_is_told_with_what_it_may_have_been() -> None:
    assert told({"risers": ["7 1/2", "7 7/16", "77", "7 1/2", "7 9/16"]}) == [
        f"{AT}, riser 3: '77' was typed, which is 77 in and far from the others; a space seems to be lost. 7 7/8 in "
        "or 7 7/16 in would be like them. Read it again."
    ]
    assert told({"treads": ["10", "10 1/4", "105", "10"]}) == [
        f"{AT}, tread 3: '105' was typed, which is 105 in and far from the others; a space seems to be lost. 10 5/8 "
        "in or 10 5/16 in would be like them. Read it again."
    ]


def test_the_total_rise_tells_which_of_two_meanings_it_was() -> None:
    """7 1/2 + 7 7/16 + 7 7/16 + 7 1/2 + 7 9/16 = 37 7/16."""
    assert told({"risers": ["7 1/2", "7 7/16", "77", "7 1/2", "7 9/16"], "total_rise": "37 7/16"}) == [
        f"{AT}, riser 3: '77' was typed, which is 77 in and far from the others; a space seems to be lost. 7 7/16 in "
        "would be like them. As read the risers do not add up to the total rise; with 7 7/16 in they do. Read it "
        "again."
    ]


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("7516", ["117/16"]),
        ("7116", ["113/16"]),
        ("734", ["31/4"]),
        ("1014", ["41/4"]),
        ("71516", ["127/16", "1141/16"]),
        ("77", ["63/8", "119/16"]),
        ("71", ["15/2", "29/4", "57/8", "113/16"]),
        ("7", []),
        ("70", []),
        ("7.5", []),
        ("7 1/2", []),
        ("190 mm", []),
    ],
)
def test_digits_run_together_are_taken_apart(typed: str, meant: list[str]) -> None:
    """On a tape with 1/16 in marks; 117/16 is 7 5/16, and 71516 may also be 71 5/16."""
    assert list(spaced(typed, NM_PER_IN // 16)) == [Fraction(text) * NM_PER_IN for text in meant]


def test_a_slip_by_a_whole_inch_is_told_where_the_others_are_even() -> None:
    assert told({"risers": ["7 1/16", "7 1/16", "8 1/16", "7 1/8", "7 1/16"]}) == [
        f"{AT}, riser 3: 8 1/16 in lies 1 in off the others, which are even; one slip of the eye looks just so. "
        "7 1/16 in would be like them. Read it again."
    ]
    assert kinds({"risers": ["7 1/16", "7 1/16", "8 1/4", "7 1/8", "7 1/16"]}) == []
    assert kinds({"risers": ["7 1/16", "7 7/16", "8 1/16", "6 7/8", "7 1/16"]}) == []
    assert kinds({"treads": ["10", "10", "10", "9", "10"]}) == ["inch-slip"]


def test_a_slip_by_a_block_is_told() -> None:
    assert told({"risers": ["7 1/16", "7 1/16", "11 1/16", "7 1/8", "7 1/16"]}) == [
        f"{AT}, riser 3: 11 1/16 in lies 4 in off the others, which are even; a block under the tape that was not "
        "taken off looks just so. 7 1/16 in would be like them. Read it again."
    ]


def test_the_total_rise_makes_a_slip_certain_or_clears_it() -> None:
    """7 1/16 three times, 7 3/8 and 8 1/16 make 36 5/8, with 7 1/16 in its place 35 5/8."""
    risers = ["7 1/16", "7 1/16", "8 1/16", "7 3/8", "7 1/16"]

    assert told({"risers": risers, "total_rise": "35 5/8"}) == [
        f"{AT}, riser 3: 8 1/16 in lies 1 in off the others; one slip of the eye looks just so. 7 1/16 in would be "
        "like them. As read the risers do not add up to the total rise; with 7 1/16 in they do. Read it again."
    ]
    assert kinds({"risers": risers, "total_rise": "36 5/8"}) == []


def test_a_slip_that_does_not_mend_the_sum_is_told_beside_it() -> None:
    risers = ["7 1/16", "7 1/16", "8 1/16", "7 1/8", "7 1/16"]

    assert kinds({"risers": risers, "total_rise": "43"}) == ["inch-slip", "risers-against-total-rise"]


def test_whole_inches_mean_nothing_on_a_metric_tape() -> None:
    metric = {"risers": ["180", "180", "205.4", "180", "180"]}

    assert kinds(metric, units="mm") == []
    assert kinds({"risers": [f"{x} mm" for x in metric["risers"]]}) == []


@pytest.mark.parametrize(
    ("unit", "risers", "words"),
    [
        ("mm", ["190", "19", "191", "190"], "19 mm and far from the others; as 19 cm it would be 190 mm"),
        ("mm", ["190", "7.5", "191", "190"], "7.5 mm and far from the others; as 7.5 in it would be 190.5 mm"),
        ("cm", ["19", "190", "19.1", "19"], "190 cm and far from the others; as 190 mm it would be 19 cm"),
        ("ft", ["7 in", "7", "7 in", "7 in"], "7 ft and far from the others; as 7 in it would be 7 in"),
        (
            "in",
            ["7", "0.6", "7 1/8", "7"],
            "~5/8 in (0.6 in, 15.24 mm) and far from the others; as 0.6 ft it would be",
        ),
    ],
)
def test_a_reading_in_another_unit_than_its_fellows_is_told(unit: str, risers: list[str], words: str) -> None:
    assert words in told({"risers": risers}, units=unit)[0]


def test_a_reading_in_centimetres_among_inches_is_told() -> None:
    assert told({"risers": ["7 1/2", "19.05", "7 1/2", "7 1/2"]}) == [
        f"{AT}, riser 2: '19.05' was typed, which is ~19 1/16 in (19.05 in, 483.87 mm) and far from the others; as "
        "19.05 cm it would be 7 1/2 in and like them. Read it again, and write its unit."
    ]


def test_a_short_stoop_has_too_few_fellows_for_a_slip() -> None:
    assert kinds({"risers": ["7", "8"]}) == []
    assert kinds({"risers": ["7", "77", "7"]}) == []
    assert kinds({"risers": ["7", "19", "7"]}) == []


def test_what_is_worked_out_from_a_slip_is_not_told_again() -> None:
    flight = {"risers": ["7 1/4", "7 1/4", "77", "7 1/4", "7 1/4"], "treads": ["10"] * 4, "pitch": "36 deg"}
    total = {"total_rise": "36 7/16", "handrails": [{"side": "left", "angle": "36 deg"}]}

    assert kinds({**flight, **total}) == ["lost-space"]


SIZES = st.integers(min_value=5 * 16 + 1, max_value=8 * 16)
FLIGHTS = st.tuples(SIZES, st.integers(min_value=4, max_value=14)).flatmap(
    lambda drawn: st.lists(
        st.integers(min_value=drawn[0], max_value=drawn[0] + 1), min_size=drawn[1], max_size=drawn[1]
    )
)


@settings(max_examples=40, deadline=None)
@given(risers=FLIGHTS, where=st.integers(min_value=0), inches=st.sampled_from([1, 4, -1]), honest=st.booleans())
def test_a_slip_put_into_an_even_flight_is_named(risers: list[int], where: int, inches: int, honest: bool) -> None:
    place = where % len(risers)
    read = [sixteenths(size + 16 * inches * (i == place)) for i, size in enumerate(risers)]
    total = {"total_rise": sixteenths(sum(risers))} if honest else {}

    (note,) = notes_of({"risers": read, **total})

    assert note.kind == ("four-inch-slip" if inches == 4 else "inch-slip")
    assert note.part == f"riser {place + 1}"
    assert note.sizes[1] * 16 == risers[place] * NM_PER_IN
    assert note.sure is honest


@settings(max_examples=40, deadline=None)
@given(risers=FLIGHTS, where=st.integers(min_value=0), unit=st.sampled_from(["cm", "ft"]))
def test_a_reading_in_another_unit_put_into_a_flight_is_named(risers: list[int], where: int, unit: str) -> None:
    place = where % len(risers)
    figure = float(Fraction(risers[place], 16)) * (2.54 if unit == "cm" else 1 / 12)
    read = [f"{figure:.2f}" if i == place else sixteenths(size) for i, size in enumerate(risers)]

    (note,) = notes_of({"risers": read})

    assert (note.kind, note.part, note.meant) == ("unit-slip", f"riser {place + 1}", f"{figure:.2f} {unit}")


@settings(max_examples=40, deadline=None)
@given(risers=FLIGHTS, where=st.integers(min_value=0))
def test_a_space_and_a_bottom_lost_in_a_flight_are_named(risers: list[int], where: int) -> None:
    place = where % len(risers)
    whole, rest = divmod(risers[place], 16)
    top = str(Fraction(rest, 16)).partition("/")[0]
    assume(rest > 0)
    typed = f"{whole}{top}"
    # What is wider than the bound of a survey is refused before.
    assume(int(typed) <= 120)
    read = [typed if i == place else sixteenths(size) for i, size in enumerate(risers)]

    (note,) = notes_of({"risers": read})

    assert (note.kind, note.part, note.typed) == ("lost-space", f"riser {place + 1}", typed)
    assert risers[place] * NM_PER_IN // 16 in note.sizes[1:]
