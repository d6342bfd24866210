"""Every reading of a survey is told as it was typed, whatever field it stands in."""

from __future__ import annotations

import typing
from collections.abc import Iterator
from typing import Any

import pytest
from cases import survey_of
from pydantic import BaseModel

from stairaudit import load_survey
from stairaudit.readings import Reading
from stairaudit.survey import Survey
from stairaudit.words.raw_readings import Raw, kind_of, raw_readings


def models(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in typing.get_args(annotation):
        yield from models(part)


def all_models(
    model: type[BaseModel], known: dict[type[BaseModel], None] | None = None
) -> dict[type[BaseModel], None]:
    known = {} if known is None else known
    if model not in known:
        known[model] = None
        for field in model.model_fields.values():
            for inner in models(field.annotation):
                all_models(inner, known)
    return known


MODELS = all_models(Survey)


def holds_readings(annotation: Any) -> bool:
    if annotation is Reading:
        return True
    return any(holds_readings(part) for part in typing.get_args(annotation))


FIELDS = [
    (model, name)
    for model in MODELS
    for name, field in model.model_fields.items()
    if holds_readings(field.annotation)
]


@pytest.mark.parametrize(("model", "name"), FIELDS, ids=lambda item: getattr(item, "__name__", item))
def test_the_quantity_of_every_field_with_readings_is_known(model: type[BaseModel], name: str) -> None:
    assert kind_of(model, name) in ("length", "angle", "slope", "light", "area")


class Teller:
    """Tells a value for every field that holds readings, each with a number of its own."""

    def __init__(self) -> None:
        self.typed: list[str] = []

    def reading(self, model: type[BaseModel], name: str) -> Reading:
        number = 30 + len(self.typed)
        self.typed.append(f"{number} of {model.__name__}.{name}")
        return Reading(number, self.typed[-1])

    def told(self, annotation: Any, model: type[BaseModel], name: str, step: int = 1) -> Any:
        """Tell a value; of several shapes the first for the first place of a list, the last for the second."""
        if annotation is Reading:
            return self.reading(model, name)
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            return self.build(annotation)
        parts = typing.get_args(annotation)
        if typing.get_origin(annotation) is tuple:
            return (self.told(parts[0], model, name), self.told(parts[0], model, name, -1))
        for part in parts[::step]:
            value = self.told(part, model, name, step)
            if value is not None:
                return value
        return None

    def build(self, model: type[BaseModel]) -> BaseModel:
        values = {name: self.told(field.annotation, model, name) for name, field in model.model_fields.items()}
        return model.model_construct(**values)


def test_no_reading_of_a_fully_told_survey_is_forgotten() -> None:
    teller = Teller()
    survey = teller.build(Survey)
    assert isinstance(survey, Survey)
    found = [row.typed for group in raw_readings(survey) for row in group.rows]

    assert len(teller.typed) > 300
    assert sorted(typed.partition(" (")[0] for typed in found) == sorted(teller.typed)
    assert {name for _, name in FIELDS} <= {typed.rpartition(".")[2] for typed in teller.typed}


def rows(flight: dict[str, Any], **top: Any) -> dict[str, Raw]:
    return {row.place: row for group in raw_readings(survey_of(flight, **top)) for row in group.rows}


def test_a_reading_stands_as_typed_and_in_both_systems() -> None:
    found = rows({"risers": ["7 3/4", "197 mm"], "tread_slopes": "1/4 in per ft"})

    assert found["riser 1"] == Raw("riser 1", "7 3/4", "7 3/4 in", "196.85 mm")
    assert found["riser 2"] == Raw("riser 2", "197 mm", "~7 3/4 in (7.756 in, 197 mm)", "197 mm")
    assert found["tread slopes"] == Raw("tread slopes", "1/4 in per ft", "1:48 (2.1 %)", "1:48 (2.1 %)")


def test_repeats_are_shown_beside_their_mean() -> None:
    found = rows({"risers": [{"again": ["7", "7 1/8", "7"]}]})

    assert found["riser 1"].typed == "7; 7 1/8; 7 (mean of 3)"


def test_a_place_is_named_in_the_words_of_the_survey() -> None:
    guard = {"side": "right", "openings": ["4", {"ball": "4 3/8", "passes": "no"}]}
    found = rows({"risers": [["6", "6 1/8"]], "guards": [guard], "landings": {"top": {"depth": "40"}}, "width": "36"})

    assert list(found) == [
        "riser 1, place 1",
        "riser 1, place 2",
        "width",
        "guard right, opening 1, gap",
        "guard right, opening 2, ball",
        "landing top, depth",
    ]
    assert found["guard right, opening 2, ball"].typed == "4 3/8 (does not pass)"


def test_each_flight_and_the_rest_of_each_stair_stand_apart() -> None:
    survey = load_survey(
        {
            "format": 1, "units": "in", "instruments": {"tape": "1/16 in"},
            "stairs": [
                {"id": "a", "flights": [{"id": "x", "risers": ["7"]}, {"id": "y", "risers": ["7"]}],
                 "glazing": [{"height": "20"}]},
            ],
        }
    )  # fmt: skip

    assert [group.title for group in raw_readings(survey)] == [
        "the visit", "stair 'a', flight 'x'", "stair 'a', flight 'y'", "stair 'a'",
    ]  # fmt: skip
