"""JSON Schemas of surveys, rule sets and results, made from the models that read and write them.

The text below a field of a model is its description. It is read from the source here, and not by the
models themselves, since that would cost every audit more than a tenth of its start-up.
"""

from __future__ import annotations

import ast
import inspect
import json
import sys
from collections.abc import Iterator
from itertools import pairwise
from types import ModuleType
from typing import Any

from stairaudit.commands.status import NOTHING_TO_WARN

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def _texts(body: list[ast.stmt]) -> Iterator[tuple[str, str]]:
    for field, text in pairwise(body):
        if (
            isinstance(field, ast.AnnAssign)
            and isinstance(field.target, ast.Name)
            and isinstance(text, ast.Expr)
            and isinstance(text.value, ast.Constant)
        ):
            yield field.target.id, str(text.value.value)


def _described(module: ModuleType) -> dict[str, dict[str, str]]:
    """Return the texts of the fields of each class, with those that it inherits from a class before it."""
    found: dict[str, dict[str, str]] = {}
    for node in ast.parse(inspect.getsource(module)).body:
        if isinstance(node, ast.ClassDef):
            bases = [found.get(base.id, {}) for base in node.bases if isinstance(base, ast.Name)]
            inherited = {field: text for base in bases for field, text in base.items()}
            found[node.name] = {**inherited, **dict(_texts(node.body))}
    return found


def _explained(schema: dict[str, Any], *modules: ModuleType) -> dict[str, Any]:
    """Put the text below each field into a schema as its description."""
    texts = {name: fields for module in modules for name, fields in _described(module).items()}
    for name, part in [(schema["title"], schema), *schema.get("$defs", {}).items()]:
        for field, text in texts.get(name, {}).items():
            part["properties"][field]["description"] = text
    return schema


def _survey() -> dict[str, Any]:
    from stairaudit import parts, railings, surfaces, survey

    return _explained(survey.Survey.model_json_schema(), survey, parts, railings, surfaces)


def _ruleset() -> dict[str, Any]:
    from stairaudit import rulefile

    return _explained(rulefile.RulesetText.model_json_schema(), rulefile)


def _result() -> dict[str, Any]:
    from pydantic import TypeAdapter

    from stairaudit.words.result_shape import ResultData

    return TypeAdapter(ResultData).json_schema()


SCHEMAS = {"survey": _survey, "ruleset": _ruleset, "result": _result}


def schema_of(what: str) -> dict[str, Any]:
    """Return the schema of a survey, a rule set or a result."""
    return {"$schema": DIALECT, **SCHEMAS[what]()}


def run_schema(what: str) -> int:
    """Print a schema."""
    sys.stdout.write(json.dumps(schema_of(what), indent=1, ensure_ascii=False) + "\n")
    return NOTHING_TO_WARN
