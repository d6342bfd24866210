"""The texts about measures and conditions against the tables and the survey model that they describe."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from cases import survey_of
from pydantic import BaseModel

import stairaudit
from stairaudit import parts, railings, surfaces, survey
from stairaudit.conditions import CONDITIONS
from stairaudit.documents import read_document
from stairaudit.engine import prepared
from stairaudit.gates import COMPARE
from stairaudit.measures import MEASURES
from stairaudit.quantities import Kind, read, show
from stairaudit.samples import Sample, Value

PACKAGE = Path(stairaudit.__file__).parent
UNITS: dict[Kind, str] = {
    "length": "length [nm]",
    "spread": "length [nm]",
    "angle": "angle [deg]",
    "slope": "slope [ratio]",
    "area": "area [nm2]",
    "count": "count",
    "yes-no": "yes or no",
    "light": "light [lux]",
}
SURVEY_WORDS = {"none", "open"}


def described(name: str) -> dict[str, Any]:
    data: Any = read_document((PACKAGE / name).read_bytes(), name).data
    assert isinstance(data, dict)
    return data


MEASURE_TEXTS = described("measures/descriptions.yaml")
CONDITION_TEXTS = described("condition_descriptions.yaml")


def survey_keys() -> set[str]:
    models = [model for module in (survey, parts, railings, surfaces) for model in vars(module).values()]
    return {
        field
        for model in models
        if isinstance(model, type) and issubclass(model, BaseModel)
        for field in model.model_fields
    }


def texts(value: Any) -> Iterator[Any]:
    """Yield every leaf."""
    if isinstance(value, (dict, list)):
        for item in value.values() if isinstance(value, dict) else value:
            yield from texts(item)
    else:
        yield value


def place_shown(kind: Kind, value: Value) -> str:
    told = [] if value.x is None else [show(kind, value.x, "in")]
    if value.ball:
        passes = "passes" if value.ball.passes else "does not pass"
        told.append(f"a ball of {show('length', value.ball.diameter, 'in')} {passes}")
    return " while ".join(told) or "not measured"


def sample_shown(kind: Kind, sample: Sample) -> str:
    if sample.absent:
        return "not there"
    return " and ".join(place_shown(kind, value) for value in sample.values) or "not measured"


def taken(name: str, example: dict[str, Any]) -> dict[str, str]:
    """Return what a measure takes of a survey in inches, by part."""
    measure = MEASURES[name]
    if measure.placed:
        measure = measure.taken_at(int(read("length", example["at"])))
    flight, stair = prepared(survey_of(example.get("survey", {}), example.get("stair", {})))
    context = stair if measure.of_stair else flight
    samples = measure.read(context)
    shown = {sample.part: sample_shown(measure.kind, sample) for sample in samples}
    assert len(shown) == len(samples)
    return shown


def test_measure_texts_name_every_measure_in_the_order_of_the_table() -> None:
    assert list(MEASURE_TEXTS) == list(MEASURES)


def test_condition_texts_name_every_condition_in_the_order_of_the_table() -> None:
    assert list(CONDITION_TEXTS) == list(CONDITIONS)


@pytest.mark.parametrize("name", MEASURE_TEXTS)
def test_a_measure_text_has_every_key_and_nothing_empty(name: str) -> None:
    told = MEASURE_TEXTS[name]

    assert list(told) == ["unit", "definition", "source", "example"]
    assert set(told["example"]) <= {"survey", "stair", "at", "gives"}
    assert ("at" in told["example"]) == MEASURES[name].placed
    assert told["example"]["gives"]
    assert all(told[key] for key in ("unit", "definition", "source"))
    assert all(texts(told["example"]["gives"]))


@pytest.mark.parametrize("name", CONDITION_TEXTS)
def test_a_condition_text_has_every_key_and_nothing_empty(name: str) -> None:
    told = CONDITION_TEXTS[name]
    default = ["default"] if CONDITIONS[name].default is not None else []

    assert list(told) == ["asks", "answers", "survey_key", *default]
    assert all(texts(told))


@pytest.mark.parametrize("name", MEASURE_TEXTS)
def test_a_measure_text_has_the_unit_of_its_kind(name: str) -> None:
    assert MEASURE_TEXTS[name]["unit"] == UNITS[MEASURES[name].kind]


@pytest.mark.parametrize("name", MEASURE_TEXTS)
def test_a_definition_names_only_keys_and_words_of_the_survey(name: str) -> None:
    named = set(re.findall(r"`([^`]*)`", MEASURE_TEXTS[name]["definition"]))

    assert named
    assert named <= survey_keys() | SURVEY_WORDS


@pytest.mark.parametrize("name", MEASURE_TEXTS)
def test_an_example_gives_what_it_says(name: str) -> None:
    example = MEASURE_TEXTS[name]["example"]

    assert taken(name, example) == example["gives"]


@pytest.mark.parametrize("name", CONDITION_TEXTS)
def test_a_condition_text_has_the_default_of_the_table(name: str) -> None:
    assert CONDITION_TEXTS[name].get("default") == CONDITIONS[name].default


@pytest.mark.parametrize("name", [name for name in CONDITION_TEXTS if CONDITIONS[name].kind in ("word", "yes-no")])
def test_a_condition_text_offers_every_answer_and_no_other(name: str) -> None:
    condition = CONDITIONS[name]
    assert CONDITION_TEXTS[name]["answers"] == list(condition.words or ("yes", "no"))


@pytest.mark.parametrize(
    "name", [name for name in CONDITION_TEXTS if CONDITIONS[name].kind not in ("word", "yes-no")]
)
def test_a_figure_is_answered_by_a_relation_that_can_be_read(name: str) -> None:
    match = re.fullmatch(r"a relation, as in \{([a-z-]+): (.+)\}", CONDITION_TEXTS[name]["answers"])

    assert match
    assert match[1] in COMPARE
    assert show(CONDITIONS[name].kind, read(CONDITIONS[name].kind, match[2]), "in")


@pytest.mark.parametrize("name", CONDITION_TEXTS)
def test_a_survey_key_is_a_path_of_keys_that_a_survey_has(name: str) -> None:
    paths = re.findall(r"[a-z_]+(?:\[\])?(?:\.[a-z_]+(?:\[\])?)+", CONDITION_TEXTS[name]["survey_key"])
    steps = {step.removesuffix("[]") for path in paths for step in path.split(".")}

    assert steps
    assert steps <= survey_keys()
