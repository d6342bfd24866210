"""Which rule sets are proposed for a stair: place, use, year, purpose."""

from __future__ import annotations

from pathlib import Path

import pytest

from stairaudit import Ruleset, load_ruleset
from stairaudit.choosing import Stair, suggested

RULE = "rules:\n  - {id: r, clause: '1', title: T, measure: headroom, limit: {at-least: 80 in}, provenance: memory}\n"
HEADS = {
    "old": "document: Code\nedition: '1990'\nplace: Freedonia, where adopted\napplies_to: {use: [one-dwelling]}\n",
    "mid": "document: Code\nedition: '2005'\nplace: Freedonia, where adopted\napplies_to: {use: [one-dwelling]}\n",
    "new": "document: Code\nedition: '2020'\nplace: Freedonia, where adopted\napplies_to: {use: [one-dwelling]}\n",
    "upkeep": "document: Upkeep\nedition: '2010'\nplace: Freedonia\napplies_to: {purpose: [as-found, repair]}\n",
    "town": "document: Town\nedition: '2015'\nplace: Freedonia, Marlshire, Fenwick\n",
    "work": "document: Work\nedition: '2012'\nplace: Freedonia\napplies_to: {use: [workplace]}\n",
    "other": "document: Other\nedition: '2012'\nplace: Sylvania; Marlshire follows an edition of its own\n",
    "thumb": "document: Thumb\n",
}


@pytest.fixture
def sets(tmp_path: Path) -> list[Ruleset]:
    for name, head in HEADS.items():
        (tmp_path / f"{name}.yaml").write_text(
            f"format: 1\nid: {name}\ntitle: {name}\n{head}{RULE}", encoding="utf-8"
        )
    return [load_ruleset(tmp_path / f"{name}.yaml") for name in HEADS]


@pytest.mark.parametrize(
    ("stair", "expected"),
    [
        (
            Stair("Freedonia"),
            [("new", "newest"), ("work", "newest"), ("upkeep", "existing")],
        ),
        (
            Stair("freedonia", "one-dwelling", 2007, "as-found"),
            [("mid", "of-its-day"), ("new", "newest"), ("upkeep", "existing")],
        ),
        (Stair("Freedonia", "one-dwelling", 2021, "new"), [("new", "newest")]),
        (Stair("Freedonia", "one-dwelling", 1950), [("new", "newest"), ("upkeep", "existing")]),
        (
            Stair("Fenwick, Freedonia", "one-dwelling"),
            [("town", "local"), ("new", "newest"), ("upkeep", "existing")],
        ),
        (Stair("Fenwick"), [("town", "local")]),
        (Stair("Sylvania"), [("other", "newest")]),
        (Stair("Ruritania"), []),
    ],
)
def test_what_is_proposed(stair: Stair, expected: list[tuple[str, str]], sets: list[Ruleset]) -> None:
    assert [(one.ruleset.id, one.why) for one in suggested(sets, stair)] == expected
