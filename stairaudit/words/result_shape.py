"""The shape of a result, for its JSON Schema."""

from __future__ import annotations

from typing import Any, Literal, NotRequired

from typing_extensions import TypedDict


class Quantity(TypedDict):
    """A length in millimetres, or another quantity as a value with its unit."""

    mm: NotRequired[float | None]
    value: NotRequired[float | int | bool | str | None]
    unit: NotRequired[str | None]
    shown: NotRequired[str | None]


class Tried(TypedDict):
    """A ball tried in an opening."""

    mm: float
    passes: bool


class ReadingData(Quantity):
    """What was read; `ball` for openings only."""

    ball: NotRequired[Tried | None]


class LimitData(Quantity):
    """The figure; `low` and `high` for between, `measure` where it is another reading."""

    relation: Literal["at-most", "at-least", "less-than", "more-than", "between", "equals"]
    low: NotRequired[Quantity]
    high: NotRequired[Quantity]
    measure: NotRequired[str]


class FindingData(TypedDict):
    """One rule on one part."""

    stair: str
    flight: str | None
    part: str
    rule: str
    clause: str
    title: str
    level: Literal["limit", "advice"]
    outcome: Literal["pass", "warn", "unmeasured", "not-applicable"]
    close: bool
    probability: float | None
    hazard: Literal["trip", "fall", "head", "grip", "entrapment", "visibility", "structure", "other"]
    provenance: Literal["seen", "secondary", "memory"]
    reading: ReadingData | None
    uncertainty: Quantity | None
    limit: LimitData
    margin: Quantity | None
    at: str | None
    readings: int
    outside: int
    missing: list[str]
    assumed: list[str]
    again: list[str]
    basis: str | None
    computed: bool
    note: str | None


class RulesetData(TypedDict):
    """The rule set that was used."""

    id: str
    title: str
    edition: str
    digest: str
    applies: bool
    reason: str | None
    status: Literal["published", "provisional"]
    shipped: bool


class ToldData(TypedDict):
    """A note of the person who measured."""

    about: str
    text: str


class SurveyData(TypedDict):
    """The survey that was checked."""

    file: str
    site: str | None
    date: str | None
    client: str | None
    access: str | None
    weather: str | None
    notes: list[ToldData]


class NoteData(TypedDict):
    """Something about the readings themselves."""

    stair: str
    flight: str | None
    part: str | None
    kind: str
    note: str


class ConditionData(TypedDict):
    """What was looked for on site."""

    stair: str
    item: str
    state: Literal["seen", "not-seen", "could-not-look"]


class SummaryData(TypedDict("_Counted", {"pass": int, "not-applicable": int})):
    """How many findings have each outcome."""

    warn: int
    unmeasured: int
    close: int
    advice: int


class AuditData(TypedDict):
    """One survey against one rule set."""

    survey: SurveyData
    decision: Literal["simple", "guarded"]
    data_notes: list[NoteData]
    diagnosis: list[dict[str, Any]]
    condition: list[ConditionData]
    ruleset: RulesetData
    provenance: list[str]
    method: list[str]
    office: list[str]
    cautions: list[str]
    summary: SummaryData
    findings: list[FindingData]


class ProblemData(TypedDict):
    """What must be put right in a file."""

    file: str
    line: int | None
    column: int | None
    place: str | None
    found: str
    wanted: str | None


class ToolData(TypedDict):
    """The tool that wrote the result."""

    name: str
    version: str


class ResultData(TypedDict):
    """A whole result."""

    format: Literal[1]
    tool: ToolData
    date: str | None
    statement: str
    problems: list[ProblemData]
    audits: list[AuditData]
