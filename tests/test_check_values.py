"""Runs every entry of check_values.yaml, and holds its entries to naming where they come from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import yaml

from stairaudit.decision import Verdict, compile_relation, compile_spread
from stairaudit.lengths import parse_length
from stairaudit.uncertainty import (
    Instruments,
    combined_u,
    expected_range,
    normal_cdf,
    pitch_u,
    q95,
    step_sum_u,
    sum_u,
)

ENTRIES: list[dict[str, Any]] = yaml.safe_load(
    Path(__file__).with_name("check_values.yaml").read_text(encoding="utf-8")
)
KEYS = {"id", "about", "given", "expected", "digits", "kind", "source", "provenance"}


def exact(text: str) -> Fraction:
    """Read "7 3/4", "1/32" or "-5.40"."""
    return sum((Fraction(word) for word in text.split()), Fraction())


def judged(relation: Any, limit: str | list[str], value: str, u: str) -> dict[str, Any]:
    limits = [limit] if isinstance(limit, str) else limit
    return told(compile_relation(relation, *map(exact, limits))(exact(value), float(exact(u))))


def judged_difference(relation: Any, limit: str, a: str, b: str, u: str) -> dict[str, Any]:
    both = combined_u(float(exact(u)), float(exact(u)))
    return told(compile_relation(relation, exact(limit))(abs(exact(a) - exact(b)), both))


def judged_spread(limit: str, spread: str, u: str, n: int) -> dict[str, Any]:
    return told(compile_spread("at-most", exact(limit))(exact(spread), float(exact(u)), n))


def told(verdict: Verdict) -> dict[str, Any]:
    return verdict._asdict() | {"outcome": str(verdict.outcome)}


def sum_of_equal_readings_u(readings: int, random: str, common: str) -> float:
    whole = float(exact(random) ** 2 + exact(common) ** 2) ** 0.5
    return sum_u([whole] * readings, float(exact(common)))


def tape_u_mm(division_mm: str, reading_mm: str) -> float:
    tape = Instruments(tape=int(exact(division_mm) * 1_000_000))
    return tape.length_u(exact(reading_mm) * 1_000_000) / 1_000_000


def chance_beyond_guard(guard: str) -> float:
    """Chance of a wrong pass at the edge of a guard band given in expanded uncertainties U = 2 u."""
    return normal_cdf(-2 * float(guard))


ABOUT: dict[str, Callable[..., Any]] = {
    "combined_u": lambda us: combined_u(*(float(exact(u)) for u in us)),
    "expected_range": expected_range,
    "false_pass_at": chance_beyond_guard,
    "false_pass_below": lambda guard, bound: chance_beyond_guard(guard) < float(bound),
    "judged": judged,
    "judged_difference": judged_difference,
    "judged_spread": judged_spread,
    "length_mm": lambda text: Fraction(parse_length(text), 1_000_000),
    "normal_cdf": lambda z: normal_cdf(float(z)),
    "pitch_u": lambda rise, run, u: pitch_u(exact(rise), exact(run), float(exact(u)), float(exact(u))),
    "q95": q95,
    "step_sum_u": lambda u: step_sum_u(float(exact(u)), float(exact(u))),
    "sum_u": sum_of_equal_readings_u,
    "tape_u_mm": tape_u_mm,
}


def as_printed(value: Any, digits: int) -> Any:
    """Round every figure in a value to the digits that its source prints."""
    if isinstance(value, dict):
        return {key: as_printed(item, digits) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [as_printed(item, digits) for item in value]
    if isinstance(value, bool | str) or value is None:
        return value
    number = Decimal(value.numerator) / value.denominator if isinstance(value, Fraction) else Decimal(str(value))
    return number.quantize(Decimal(1).scaleb(-digits), ROUND_HALF_EVEN)


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry["id"])
def test_the_program_gives_the_value_as_printed(entry):
    expected, digits = entry["expected"], entry["digits"]
    found = ABOUT[entry["about"]](**entry["given"])
    if isinstance(expected, dict):
        found = {key: found[key] for key in expected}

    assert as_printed(found, digits) == as_printed(expected, digits)


def faults(entry: dict[str, Any]) -> list[str]:
    """Say what keeps an entry from being believed."""
    source = entry["source"]
    found = [f"no {key}" for key in ("document", "edition", "place") if not source.get(key)]
    if entry["kind"] not in ("published", "hand-worked", "regression"):
        found.append(f"kind {entry['kind']}")
    if entry["provenance"] not in ("seen", "secondary", "memory", "worked"):
        found.append(f"provenance {entry['provenance']}")
    if entry["kind"] == "published" and entry["provenance"] not in ("seen", "secondary"):
        found.append("published, yet nobody read it")
    if entry["kind"] == "published" and source["edition"] in ("any", "none", "not stated"):
        found.append("published without an edition")
    if entry["provenance"] == "memory" and "from memory" not in source["document"]:
        found.append("does not say that its source is remembered")
    return found


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry["id"])
def test_every_entry_is_complete_and_says_where_it_comes_from(entry):
    assert entry.keys() - {"note", "read_on"} == KEYS
    assert faults(entry) == []


def test_no_id_is_used_twice():
    assert [id_ for id_, uses in Counter(entry["id"] for entry in ENTRIES).items() if uses > 1] == []


def test_every_function_of_the_table_is_checked_by_an_entry():
    assert ABOUT.keys() == {entry["about"] for entry in ENTRIES}


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"kind": "published", "provenance": "memory"}, "published, yet nobody read it"),
        ({"kind": "published", "provenance": "worked"}, "published, yet nobody read it"),
        (
            {"kind": "published", "source": {"document": "D", "edition": "any", "place": "1"}},
            "published without an edition",
        ),
        ({"source": {"document": "D", "edition": "2020", "place": ""}}, "no place"),
        ({"provenance": "memory"}, "does not say that its source is remembered"),
        ({"kind": "guess"}, "kind guess"),
        ({"provenance": "hearsay"}, "provenance hearsay"),
    ],
)
def test_an_entry_that_claims_too_much_is_found(change, fault):
    sound = {
        "kind": "hand-worked",
        "provenance": "secondary",
        "source": {"document": "D", "edition": "2020", "place": "1"},
    }

    assert faults(sound) == []
    assert fault in faults(sound | change)
