"""Questions for the office and cautions: only those that fit what the survey tells."""

from __future__ import annotations

from typing import Any

import pytest
from cases import survey_of

from stairaudit.packaged import packaged
from stairaudit.words.occasions import BUILT_BEFORE, OF_STAIR, OF_SURVEY, fits
from stairaudit.words.office import cautions_of, office_of

PORCH: dict[str, Any] = {"setting": "outdoor", "use": "one-dwelling", "built": "1972"}
BOOKS = [("office.yaml", "questions"), ("cautions.yaml", "cautions")]


def asked(stair: dict[str, Any], flight: dict[str, Any] | None = None, **top: Any) -> str:
    return "\n".join(office_of(survey_of(flight or {"risers": ["7"]}, stair, **top)))


def warned(stair: dict[str, Any], flight: dict[str, Any] | None = None, **top: Any) -> list[str]:
    return cautions_of(survey_of(flight or {"risers": ["7"]}, stair, **top))


@pytest.mark.parametrize(("name", "key"), BOOKS)
def test_every_occasion_is_one_that_can_be_asked(name: str, key: str) -> None:
    for entry in packaged(f"words/{name}")[key]:
        assert entry["text"].endswith((".", "?"))
        assert set(entry.get("when") or {}) <= {*OF_SURVEY, *OF_STAIR, BUILT_BEFORE}
        for occasion, words in entry.get("when", {}).items():
            assert isinstance(words, str if occasion == BUILT_BEFORE else list)


def test_every_caution_says_where_it_comes_from() -> None:
    assert all(entry["source"] for entry in packaged("words/cautions.yaml")["cautions"])


def test_the_edition_that_was_told_is_asked_back() -> None:
    told = {"edition": "IRC 2018 as amended", "told_by": "counter clerk"}

    assert "You were told IRC 2018 as amended (counter clerk): is that what counts" in asked(PORCH, authority=told)
    assert "You were told IRC 2018: is that" in asked(PORCH, authority={"edition": "IRC 2018"})
    assert asked(PORCH).startswith("Which code and edition is in force")
    assert asked(PORCH, authority={"place": "Marl County"}).startswith("Which code and edition is in force")


def test_only_fitting_questions_are_asked() -> None:
    inside = {"setting": "indoor", "use": "one-dwelling", "built": "2004"}

    assert "bottom riser" in asked(PORCH)
    assert "bottom riser" not in asked(inside)
    assert "In which year" in asked({"setting": "indoor"})
    assert "In which year" not in asked(inside)
    assert "rental" in asked(inside, tenure="rented")
    assert "rental" not in asked(inside)
    assert "serve the rooms" in asked(inside, {"form": "spiral", "risers": ["9"]})
    assert "serve the rooms" not in asked(inside)


def test_repair_or_replacement_permit_and_frost_are_asked_before_work() -> None:
    before = asked(PORCH, purpose="replace")

    for words in ("as a repair or as a new stair", "a permit needed", "for frost"):
        assert words in before
        assert words not in asked(PORCH, purpose="as-found")
    assert "for frost" not in asked({"setting": "indoor"}, purpose="replace")
    assert "judged by today's figures" in asked(PORCH)
    assert "judged by today's figures" not in before


def test_36_or_42_in_is_asked_where_a_guard_serves_more_than_one_home() -> None:
    between = {"guards": [{"side": "left", "along": ["f"], "between_homes": "yes"}]}

    assert "between two homes" in asked({**PORCH, **between})
    assert "between two homes" not in asked({**PORCH, "guards": [{"side": "left", "along": ["f"]}]})
    assert "36 in enough" in asked({**PORCH, "use": "shared-dwelling"})
    assert "36 in enough" not in asked(PORCH)


@pytest.mark.parametrize(
    ("built", "lead", "asbestos"),
    [("1977", True, True), ("1978", False, True), ("1990", False, False), ("unknown", True, True), (None, True, True),
     ("1975-1995", True, True)],
)  # fmt: skip
def test_an_old_or_unknown_age_brings_lead_and_asbestos(built: str | None, lead: bool, asbestos: bool) -> None:
    # 1978: United States Environmental Protection Agency, Steps to Lead Safe Renovation (seen in a copy).
    stair = {"setting": "indoor"} | ({"built": built} if built else {})
    told = "\n".join(warned(stair))

    assert ("may hold lead" in told, "may hold asbestos" in told) == (lead, asbestos)


def test_two_things_asked_of_a_stair_must_hold_of_one_stair() -> None:
    when = {BUILT_BEFORE: "1990", "setting": ["indoor"]}
    old, new = {"built": "1950", "setting": "outdoor"}, {"built": "2010", "setting": "indoor"}
    flights = [{"id": "f", "risers": ["7"]}]
    survey = survey_of({"risers": ["7"]}).model_validate(
        {"format": 1, "stairs": [{"id": "a", **old, "flights": flights}, {"id": "b", **new, "flights": flights}]},
        context={"units": "in"},
    )

    assert not fits(when, survey)
    assert fits({BUILT_BEFORE: "1990"}, survey)
    assert fits({"setting": ["indoor"]}, survey)


def test_what_was_seen_brings_the_strongest_caution() -> None:
    seen = "\n".join(warned({**PORCH, "condition": {"rot": "seen"}}))

    assert "do not stand on or under it" in seen
    assert "do not stand on or under it" not in "\n".join(warned({**PORCH, "condition": {"rot": "not-seen"}}))


@pytest.mark.parametrize("setting", ["indoor", "outdoor", "garage", None])
@pytest.mark.parametrize("purpose", ["as-found", None])
def test_an_existing_stair_has_few_cautions_and_work_on_it_more(purpose: str | None, setting: str | None) -> None:
    flight = {"risers": ["7"], "tread_material": "wood"}
    told = {"setting": setting} if setting else {}
    stair = {"lighting": {"treads_lit": "yes"}, "condition": {"rot": "seen"}, **told}
    top = {"purpose": purpose} if purpose else {}

    assert 4 <= len(warned(stair, flight, **top)) <= 7
    assert len(warned(stair, flight, purpose="repair")) > len(warned(stair, flight, **top)) + 3


def test_treated_wood_utilities_shoring_and_a_temporary_rail_go_with_work_outdoors() -> None:
    told = "\n".join(warned(PORCH, {"risers": ["7"], "tread_material": "wood"}, purpose="replace"))

    for words in ("galvanized", "before you dig", "Shoring", "temporary rail", "Close the stair", "permit"):
        assert words in told
