"""What one reading is: the value, the text as typed, and how a field of a survey reads it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import TYPE_CHECKING, Any, NamedTuple

from pydantic_core import core_schema

from stairaudit.lengths import parse_length
from stairaudit.quantities import Kind, read

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
    from pydantic.json_schema import JsonSchemaValue
    from pydantic_core.core_schema import CoreSchema, ValidationInfo

LONGEST_TEXT = 200


class Absent(Enum):
    """Looked, and it is not there."""

    NONE = "none"


ONE_SCHEMA: dict[str, Any] = {"type": ["string", "number"], "not": {"enum": [Absent.NONE.value, "open"]}}
AGAIN_SCHEMA: dict[str, Any] = {
    "type": "object",
    "properties": {"again": {"type": "array", "items": ONE_SCHEMA, "minItems": 1}},
    "required": ["again"],
    "additionalProperties": False,
}
READING_SCHEMA: dict[str, Any] = {"anyOf": [ONE_SCHEMA, AGAIN_SCHEMA]}
GAP_SCHEMA: dict[str, Any] = {"anyOf": [ONE_SCHEMA, AGAIN_SCHEMA, {"type": "null"}]}
PLACES_SCHEMA: dict[str, Any] = {"anyOf": [ONE_SCHEMA, AGAIN_SCHEMA, {"type": "array", "items": GAP_SCHEMA}]}


class Reading(NamedTuple):
    """One reading at one place: its value [nm, deg, ratio or lux], as typed, and its repeats."""

    value: int | Fraction
    typed: str
    repeats: tuple[int | Fraction, ...] = ()


def mean_of(values: tuple[int | Fraction, ...]) -> int | Fraction:
    """Return the exact mean, an int when it is a whole number.

    >>> mean_of((6, 9, 6))
    7
    """
    mean = Fraction(sum(values)) / len(values)
    return mean.numerator if mean.denominator == 1 else mean


def _repeats(raw: dict[str, Any]) -> list[Any]:
    if set(raw) != {"again"} or not isinstance(raw["again"], list) or not raw["again"]:
        raise ValueError("repeats at one place are written {again: [6, 6 1/16, 6]}")
    return raw["again"]


def is_reading(raw: object) -> bool:
    """Say whether one reading stands in a file, and not a group of keys or a list."""
    return isinstance(raw, (str, int, float, Reading)) or (isinstance(raw, dict) and "again" in raw)


def as_text(raw: object) -> str:
    """Return a scalar as text, refusing lists and mappings in plain words."""
    if isinstance(raw, (list, tuple)):
        raise ValueError("a list stands here; one reading is needed")
    if isinstance(raw, dict):
        raise ValueError(f"a group of keys ({', '.join(map(str, raw))}) stands here; one reading is needed")
    if raw is None:
        raise ValueError("nothing stands here; one reading is needed")
    text = str(raw)
    if len(text) > LONGEST_TEXT:
        raise ValueError(f"the text is longer than {LONGEST_TEXT} characters")
    return text


@dataclass(frozen=True, slots=True)
class Field:
    """How a pydantic field reads one reading of a kind, between `least` and `most` [same unit]."""

    kind: Kind
    least: int | Fraction | None = None
    most: int | Fraction | None = None
    most_shown: str = ""
    zero: bool = True

    def read(self, raw: object, info: ValidationInfo) -> Reading:
        """Return the reading for what stands in the file; raises ValueError with the remedy."""
        if isinstance(raw, Reading):
            return raw
        unit = (info.context or {}).get("units")
        if isinstance(raw, dict):
            typed = [as_text(item) for item in _repeats(raw)]
            values = tuple(self._one(text, unit) for text in typed)
            return Reading(mean_of(values), "; ".join(typed), values)
        text = as_text(raw)
        return Reading(self._one(text, unit), text)

    def _one(self, text: str, unit: Any) -> int | Fraction:
        value = parse_length(text, unit) if self.kind == "length" else read(self.kind, text, unit)
        assert isinstance(value, (int, Fraction))
        if not self.zero and value == 0:
            raise ValueError(f"{text!r} is nothing; leave it out when it was not measured")
        if self.most is not None and value > self.most:
            raise ValueError(f"{text!r} is more than {self.most_shown}, which cannot be right here")
        return value

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return READING_SCHEMA


@dataclass(frozen=True, slots=True)
class YesNo:
    """How a field reads yes or no."""

    def read(self, raw: object) -> bool:
        """Return the answer; raises ValueError for anything else."""
        if isinstance(raw, bool):
            return raw
        if isinstance(raw, str) and raw.lower() in ("yes", "true"):
            return True
        if isinstance(raw, str) and raw.lower() in ("no", "false"):
            return False
        raise ValueError(f"{raw!r} stands here; yes or no is needed")

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {"enum": ["yes", "no", True, False]}


@dataclass(frozen=True, slots=True)
class Count:
    """How a field reads a whole number of things."""

    most: int
    least: int = 1

    def read(self, raw: object) -> int:
        """Return the number; raises ValueError for anything else."""
        text = as_text(raw)
        if isinstance(raw, bool) or not (text.isascii() and text.isdigit()) or len(text) > 6:
            raise ValueError(f"{text!r} stands here; a whole number is needed")
        if not self.least <= int(text) <= self.most:
            raise ValueError(f"{text!r} stands here; a whole number from {self.least} to {self.most} is needed")
        return int(text)

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {"type": ["integer", "string"], "minimum": self.least, "maximum": self.most}
