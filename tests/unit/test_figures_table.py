"""The shape of tests/figures.csv, the figures typed by hand from the fact tables, apart from the rule sets."""

from __future__ import annotations

import csv
import re
from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest

from stairaudit.shipped import shipped_ids

TABLE = Path(__file__).parents[1] / "figures.csv"
COLUMNS = ["set", "entry", "clause", "role", "relation", "figure", "unit", "provenance", "read_in", "note"]
WORDS = {
    "set": set(shipped_ids()),
    "role": {"limit", "trigger", "yes-no", "place"},
    "relation": {"at-most", "at-least", "less-than", "more-than", "between", "equals"},
    "provenance": {"seen", "secondary", "memory"},
}
NUMBER = r"(?:\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+)"
NUMERIC_UNITS = {
    "in", "mm", "deg", "count", "footcandle", "sq ft", "sq in", "psf", "lb", "lb/ft", "years", "percent", "persons",
    "W", "ft", "per month",
}  # fmt: skip
ANSWERS = {"yes", "no"}
# Another reading, a word that decides, or a figure that depends on another one, as the document has it.
WORD = re.compile(r"[A-Za-z0-9][A-Za-z0-9 .,/+-]*")
DATE = r"\d{4}-\d\d-\d\d"
CLAUSE = re.compile(r"R\d{3}(?:\.\d+)*(?: exc\.(?: \d)?| item \d)?(?: / R\d{3}(?:\.\d+)*)?")
ENTRY = {
    "us-irc-2021": re.compile(r"IRC21-[A-Z]+\d+|IRC-C\d+"),
    "good-practice": re.compile(r"[a-z]+(?:-[a-z0-9]+)+"),
}
# In R311.7.6 and R303.8 of the 2021 text these three are not to be found; L8 is new in 2024.
LEFT_OUT = {"IRC21-L6", "IRC21-L8", "IRC21-LT6"}
# Entries per group of the fact table: W width, H headroom, and so on.
GROUP_SIZES = {
    "W": 3, "H": 3, "F": 1, "WL": 1, "R": 6, "T": 5, "N": 5, "L": 12, "S": 3, "X": 2, "HR": 12,
    "SP": 11, "RP": 2, "G": 8, "LD": 1, "GL": 2, "LT": 6,
}  # fmt: skip


def read_table() -> tuple[list[str], list[dict[str, str]]]:
    """The header and the rows, each keyed by column."""
    with TABLE.open(encoding="utf-8", newline="") as handle:
        reader = csv.DictReader(handle, strict=True)
        rows = list(reader)
    return list(reader.fieldnames or []), rows


HEADER, ROWS = read_table()


def name_of(row: dict[str, str]) -> str:
    """Entry, relation and figure, for messages."""
    return f"{row['entry']} {row['relation']} {row['figure']}"


def amount(text: str) -> Fraction:
    """A figure as an exact number, `7 3/4` being 31/4."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def readable(figure: str, unit: str) -> bool:
    """Whether a figure reads as one number, range, slope, answer or other reading of its unit."""
    if unit == "slope":
        return re.fullmatch(r"[1-9]\d*:[1-9]\d*(?:\.\.[1-9]\d*:[1-9]\d*)?", figure) is not None
    if unit == "date":
        return re.fullmatch(rf"{DATE}(?:\.\.{DATE})?", figure) is not None
    if " x " in figure:
        return all(readable(side, unit) for side in figure.split(" x "))
    if unit in NUMERIC_UNITS:
        return re.fullmatch(rf"{NUMBER}(?:\.\.{NUMBER})?", figure) is not None
    return unit in ("", "slip class") and WORD.fullmatch(figure) is not None


def test_the_columns_are_the_agreed_ones_and_every_row_fills_them() -> None:
    assert HEADER == COLUMNS
    assert [name_of(row) for row in ROWS if set(row) != set(COLUMNS) or None in row.values()] == []


@pytest.mark.parametrize("column", sorted(WORDS))
def test_only_the_allowed_words_are_used(column: str) -> None:
    assert {row[column] for row in ROWS} == WORDS[column]


def test_no_cell_carries_stray_blanks() -> None:
    assert [name_of(row) for row in ROWS if any(cell != cell.strip() for cell in row.values())] == []


def test_every_row_says_where_its_figure_comes_from() -> None:
    sourced = [row for row in ROWS if row["provenance"] != "memory"]
    recalled = [row for row in ROWS if row["provenance"] == "memory"]

    assert [name_of(row) for row in sourced if not row["read_in"]] == []
    assert [name_of(row) for row in recalled if row["read_in"]] == []
    assert [name_of(row) for row in ROWS if not row["note"]] == []


def test_every_figure_reads_as_a_number_range_slope_answer_or_other_reading() -> None:
    assert [name_of(row) for row in ROWS if not readable(row["figure"], row["unit"])] == []


@pytest.mark.parametrize(
    ("figure", "unit"),
    [("7 3/4 in", "in"), ("34-38", "in"), ("1 in 48", "slope"), ("yes", "in"), ("7,75", "in"), ("", "")],
)
def test_a_figure_written_another_way_is_not_readable(figure: str, unit: str) -> None:
    assert not readable(figure, unit)


def test_a_range_goes_with_between_and_runs_upwards() -> None:
    ranges = [row for row in ROWS if ".." in row["figure"] and row["unit"] not in ("date", "slope")]
    bounds = [[amount(part) for part in row["figure"].split("..")] for row in ranges]

    assert [name_of(row) for row in ROWS if (row["relation"] == "between") != (".." in row["figure"])] == []
    assert [name_of(row) for row, (low, high) in zip(ranges, bounds, strict=True) if low > high] == []


def test_fractions_are_proper_and_in_lowest_terms() -> None:
    numbers = [row for row in ROWS if row["unit"] in NUMERIC_UNITS]
    fractions = [(row, found) for row in numbers for found in re.findall(r"(\d+)/(\d+)", row["figure"])]

    assert fractions
    assert [
        name_of(row)
        for row, (above, below) in fractions
        if Fraction(int(above), int(below)).denominator != int(below) or int(above) >= int(below)
    ] == []


def test_an_answer_is_compared_with_equals_only_and_a_yes_no_row_has_nothing_but_an_answer() -> None:
    answers = [row for row in ROWS if row["figure"] in ANSWERS]

    assert [name_of(row) for row in answers if row["relation"] != "equals"] == []
    assert [name_of(row) for row in ROWS if row["role"] == "yes-no" and row["figure"] not in ANSWERS] == []


def test_no_row_is_there_twice() -> None:
    keys = Counter(tuple(row.values()) for row in ROWS)

    assert [key for key, times in keys.items() if times > 1] == []


def test_entries_are_named_as_in_the_fact_tables() -> None:
    named = [row for row in ROWS if row["set"] in ENTRY]

    assert [name_of(row) for row in named if not ENTRY[row["set"]].fullmatch(row["entry"])] == []
    assert [name_of(row) for row in ROWS if not row["entry"]] == []


def test_clauses_are_printed_section_numbers_and_rules_of_thumb_have_none() -> None:
    code = [row for row in ROWS if row["set"] == "us-irc-2021"]
    thumb = [row for row in ROWS if row["set"] == "good-practice"]

    assert [f"{name_of(row)}: {row['clause']}" for row in code if not CLAUSE.fullmatch(row["clause"])] == []
    assert [name_of(row) for row in thumb if row["clause"]] == []


def test_every_2021_entry_is_covered_and_the_absent_ones_are_left_out() -> None:
    wanted = {f"IRC21-{group}{n}" for group, size in GROUP_SIZES.items() for n in range(1, size + 1)}

    there = {row["entry"] for row in ROWS if row["set"] == "us-irc-2021" and row["entry"].startswith("IRC21-")}
    assert there == wanted - LEFT_OUT


def test_good_practice_holds_advice_figures_only() -> None:
    assert {row["role"] for row in ROWS if row["set"] == "good-practice"} <= {"limit", "trigger"}


def test_a_sphere_that_must_not_pass_is_a_strict_limit() -> None:
    """2021 text, R311.7.5.1 and R312.1.3: the opening does not let the sphere through."""
    rows = [row for row in ROWS if row["set"] == "us-irc-2021" and "must not pass" in row["note"]]
    spheres = {row["entry"]: (row["relation"], row["figure"]) for row in rows}

    assert spheres == {
        "IRC21-R4": ("less-than", "4"),
        "IRC21-G5": ("less-than", "4"),
        "IRC21-G6": ("less-than", "6"),
        "IRC21-G7": ("less-than", "4 3/8"),
    }
