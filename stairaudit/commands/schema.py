"""JSON Schemas of surveys, rule sets and results, made from the models that read and write them."""

from __future__ import annotations

import json
import sys
from typing import Any

from stairaudit.commands.status import NOTHING_TO_WARN


def _survey() -> dict[str, Any]:
    from stairaudit.survey import Survey

    return Survey.model_json_schema()


def _ruleset() -> dict[str, Any]:
    from stairaudit.rulefile import RulesetText

    return RulesetText.model_json_schema()


def _result() -> dict[str, Any]:
    from pydantic import TypeAdapter

    from stairaudit.words.result_shape import ResultData

    return TypeAdapter(ResultData).json_schema()


SCHEMAS = {"survey": _survey, "ruleset": _ruleset, "result": _result}
DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema_of(what: str) -> dict[str, Any]:
    """Return the schema of a survey, a rule set or a result."""
    return {"$schema": DIALECT, **SCHEMAS[what]()}


def run_schema(what: str) -> int:
    """Print a schema."""
    sys.stdout.write(json.dumps(schema_of(what), indent=1, ensure_ascii=False) + "\n")
    return NOTHING_TO_WARN
