"""Worked stairs and tables from published texts, audited as if they had been found so; sources beside each."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
from cases import audit_of, finding, survey_of

from stairaudit.context import Context, instruments_of
from stairaudit.lengths import NM_PER_IN, parse_length
from stairaudit.measures import MEASURES

# Former 29 CFR 1910.24 Table D-1 (fixed industrial stairs), as adopted in WAC 296-24-76511 (read there): rise, run,
# printed angle in degrees and minutes. The row 8 / 9 1/2 is printed two minutes high, hence the 0.05 deg.
TABLE_D1 = [
    ("6 1/2", "11", 30, 35), ("6 3/4", "10 3/4", 32, 8), ("7", "10 1/2", 33, 41), ("7 1/4", "10 1/4", 35, 16),
    ("7 1/2", "10", 36, 52), ("7 3/4", "9 3/4", 38, 29), ("8", "9 1/2", 40, 8), ("8 1/4", "9 1/4", 41, 44),
    ("8 1/2", "9", 43, 22), ("8 3/4", "8 3/4", 45, 0), ("9", "8 1/2", 46, 38), ("9 1/4", "8 1/4", 48, 16),
    ("9 1/2", "8", 49, 54),
]  # fmt: skip


def measured(name: str, flight: dict[str, Any]) -> Any:
    survey = survey_of(flight)
    stair = survey.stairs[0]
    context = Context(survey, stair, stair.flights[0], instruments_of(survey))
    return MEASURES[name].read(context)[0].values[0].x


@pytest.mark.parametrize(("rise", "run", "degrees", "minutes"), TABLE_D1)
def test_the_pitch_of_table_d1(rise: str, run: str, degrees: int, minutes: int) -> None:
    pitch = measured("pitch", {"risers": [rise] * 4, "treads": [run] * 3})

    assert float(pitch) == pytest.approx(degrees + minutes / 60, abs=0.05)


@pytest.mark.parametrize(("rise", "run", "_degrees", "_minutes"), TABLE_D1)
def test_rise_and_run_of_table_d1_add_to_17_and_a_half(rise: str, run: str, _degrees: int, _minutes: int) -> None:
    assert measured("rise-plus-run", {"risers": [rise] * 4, "treads": [run] * 3}) == parse_length("17 1/2 in")


def flight_of(total: str, risers: int, run: str) -> dict[str, Any]:
    """Return a flight of equal risers, each the nearest sixteenth below or above, that climbs the total exactly."""
    marks = [round(Fraction(parse_length(total, "in") * k, risers * NM_PER_IN) * 16) for k in range(risers + 1)]
    steps = [f"{b - a}/16" if b - a < 16 else f"{(b - a) // 16} {(b - a) % 16}/16" for a, b in pairwise(marks)]
    return {"risers": [s.replace(" 0/16", "") for s in steps], "treads": [run] * (risers - 1), "total_rise": total}


# US Army Engineer School subcourse EN5156, para 2-20 (read in a reproduction): 94 in, 13 risers, 12 treads of
# 10 1/2, run 126 in; US Navy Builder 3 & 2 vol. 2 (NAVEDTRA 14044, 1994), ch. 6: 107 in, 15 risers (10 3/8: from
# memory); Carpenter's Guide, "Stairs" (read): 112 in, 16 risers of 7, run 10.
@pytest.mark.parametrize(
    ("total", "risers", "run", "total_run"),
    [("94", 13, "10 1/2", "126 in"), ("107", 15, "10 3/8", "145 1/4 in"), ("112", 16, "10", "150 in")],
)
def test_a_handbook_stair_built_to_the_mark_lies_within(total: str, risers: int, run: str, total_run: str) -> None:
    flight = flight_of(total, risers, run)
    audit = audit_of(survey_of(flight))

    assert sum(parse_length(f"{x} in") for x in flight["treads"]) == parse_length(total_run)
    assert {f.outcome.value for f in audit.findings if f.rule.id in ("riser-height-max", "tread-depth-min")} == {
        "pass"
    }
    assert finding(audit, "riser-spread-max", "flight").value <= parse_length("1/16 in")


def test_the_army_stair_as_printed_leaves_a_top_riser_of_7() -> None:
    """EN5156 prints 7 1/4 for 94/13; twelve of them leave 7 in, a spread of 1/4 (arithmetic on what is printed)."""
    audit = audit_of(survey_of({"risers": ["7 1/4"] * 12 + ["7"], "treads": ["10 1/2"] * 12}))
    spread = finding(audit, "riser-spread-max", "flight")

    assert (spread.outcome.value, spread.value) == ("pass", parse_length("1/4 in"))
    assert measured("step-sum", {"risers": ["7 1/4"] * 13, "treads": ["10 1/2"] * 12}) == parse_length("25 in")


def test_the_published_rules_of_the_army_pairs() -> None:
    """EN5156: two risers and a tread make 25 for 7 1/2 and 10; riser times tread about 75."""
    pair = {"risers": ["7 1/2"] * 3, "treads": ["10"] * 2}

    assert measured("step-sum", pair) == parse_length("25 in")
    assert measured("rise-times-run", pair) == 75 * NM_PER_IN**2


def test_the_vocational_metric_stair_and_its_landing() -> None:
    """Institut fuer Berufliche Entwicklung, Timberwork techniques: Stairmaking, example 8.2 (read).

    8 x 171, going 290, step size 632 within 615 to 645; the landing as found is 26 mm out.
    """
    flight = {"risers": ["171 mm"] * 8, "treads": ["290 mm"] * 7}
    as_found = {**flight, "risers": ["171 mm"] * 7 + ["197 mm"]}

    assert measured("step-sum", flight) == parse_length("632 mm")
    assert measured("flight-rise", flight) == parse_length("1368 mm")
    assert finding(audit_of(survey_of(as_found)), "riser-spread-max", "flight").value == parse_length("26 mm")
    assert finding(audit_of(survey_of(as_found)), "riser-spread-max", "flight").outcome.value == "warn"


def test_tread_depth_is_the_run_and_not_the_board() -> None:
    """OSHA interpretation, 17 June 2025, 29 CFR 1910.25(c)(3) (read): riser 9 1/2, run 8, board 9 1/2: 8 counts."""
    flight = {"risers": ["9 1/2"] * 3, "treads": ["8", "8"], "nosings": ["1 1/2"] * 3}
    audit = audit_of(survey_of(flight))

    assert finding(audit, "tread-depth-min", "tread 1").value == parse_length("8 in")
    assert 49 < float(measured("pitch", flight)) < 50


def test_a_padded_flight_of_a_magazine_answer_is_even_to_an_eighth() -> None:
    """A trade magazine's question and answer on rough-framed stairs (quoted; the last pad is read as 1/8)."""
    risers = ["7 1/2", *["7 3/8"] * 6, *["7 1/2"] * 3]

    assert finding(audit_of(survey_of({"risers": risers})), "riser-spread-max", "flight").value == parse_length(
        "1/8 in"
    )


def test_a_settled_walk_of_ten_inches_is_outside() -> None:
    """A home-inspection association's article, June 2022 (quoted): a first rise of about 10 in at a settled walk."""
    audit = audit_of(survey_of({"risers": ["10", "7 1/4", "7 1/4"]}))

    assert finding(audit, "riser-height-max", "riser 1").margin == parse_length("7 3/4 in") - parse_length("10 in")


def test_seven_inches_cut_into_a_rise_of_35_5_16_leaves_the_end_riser_close() -> None:
    """Common practice, no source: 35 5/16 over five risers is 7 1/16 in each; cut 7 in, the end riser is 7 5/16."""
    assert parse_length("35 5/16 in") == 5 * parse_length("7 1/16 in")
    assert parse_length("35 5/16 in") - 4 * parse_length("7 in") == parse_length("7 5/16 in")
    spread = finding(audit_of(survey_of({"risers": ["7"] * 4 + ["7 5/16"]})), "riser-spread-max", "flight")

    assert (spread.outcome.value, spread.close, spread.value) == ("pass", True, parse_length("5/16 in"))


def test_eight_inches_is_a_quarter_over_the_dwelling_figure() -> None:
    """Common practice, no source: 8 in is about the most people put up with."""
    survey = survey_of({"risers": ["8"] * 4, "treads": ["10"] * 3})

    assert finding(audit_of(survey), "riser-height-max", "riser 1").margin == -parse_length("1/4 in")
    assert finding(audit_of(survey, "good-practice"), "riser-height-max", "riser 1").outcome.value == "pass"


def test_a_block_of_4_in_between_balusters_is_a_close_call_on_a_landing() -> None:
    """Common practice, no source: balusters are set with a 4 in block."""
    landing = {"sides": {"left": "wall", "right": {"drop": "40"}}, "guards": [{"side": "right", "openings": ["4"]}]}
    flight = {"landings": {"top": landing}, "sides": {"left": "wall", "right": {"drop": "40"}},
              "guards": [{"side": "right", "openings": ["4"]}]}  # fmt: skip
    audit = audit_of(survey_of(flight))

    assert finding(audit, "guard-opening-level", "landing top guard right")[4:6] == ("warn", True)
    assert finding(audit, "guard-opening-stair", "guard right")[4:6] == ("pass", False)


def test_the_nosing_line_of_7_1_16_on_11_1_2() -> None:
    """Common practice, no source: 31.56 degrees; R + T 18 9/16, 2R + T 25 5/8, R x T 81 7/32."""
    flight = {"risers": ["7 1/16"] * 5, "treads": ["11 1/2"] * 4}

    assert round(float(measured("pitch", flight)), 2) == 31.56
    assert measured("rise-plus-run", flight) == parse_length("18 9/16 in")
    assert measured("step-sum", flight) == parse_length("25 5/8 in")
    assert measured("rise-times-run", flight) * 32 == (81 * 32 + 7) * NM_PER_IN**2


def test_advice_never_asks_for_a_steeper_stair() -> None:
    """A lower riser or a deeper tread may be told to go on deepening the tread, never to do the reverse."""
    for rise, run in [("7 1/16", "11 1/2"), ("6", "14"), ("5", "16"), ("7", "11")]:
        audit = audit_of(
            survey_of({"risers": [rise] * 5, "treads": [run] * 4}, {"setting": "indoor"}), "good-practice"
        )

        assert [f.rule.id for f in audit.findings if f.outcome.value == "warn"] == []
