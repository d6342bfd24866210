"""The shape of a rule set file: its head and its rules as they are written."""

# No postponed annotations here: pydantic would have to compile each of them again at every start.

from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, StringConstraints

from stairaudit.fields import Date, FormatNumber
from stairaudit.ruleset import Hazard, Level, Provenance


def _listed(raw: object) -> object:
    return raw if isinstance(raw, (list, tuple)) else [raw]


Words = str
RuleId = Annotated[str, StringConstraints(pattern=r"^[a-z0-9][a-z0-9.-]{0,79}$")]
Texts = Annotated[tuple[Words, ...], BeforeValidator(_listed, json_schema_input_type=Words | tuple[Words, ...])]
Conditions = dict[str, Any]
Unless = Annotated[
    tuple[Conditions, ...], BeforeValidator(_listed, json_schema_input_type=Conditions | tuple[Conditions, ...])
]


class _Written(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


class RuleText(_Written):
    """One rule as it is written."""

    id: RuleId
    """Never used again for another rule."""
    clause: Words
    """The document's own number as printed, without the document's name."""
    title: Words
    measure: Words
    """What is measured: a name from `stairaudit rulesets measures`."""
    at: Words | None = None
    """Where a placed measure is taken, such as 12 in out from the narrow side."""
    limit: dict[str, Any]
    """One of at-most, at-least, less-than, more-than, between, equals with its figure."""
    when: Conditions | None = None
    """Conditions that must all hold: names from `stairaudit rulesets conditions`."""
    unless: Unless | None = None
    """A group of conditions, or a list of groups: one that wholly holds excuses the rule."""
    level: Level = "limit"
    hazard: Hazard = "other"
    why: Words = ""
    how_to_measure: Words = ""
    advice: Words = ""
    known_limits: Words = ""
    provenance: Provenance
    """seen: read in the text itself; secondary: quoted elsewhere; memory: nothing read."""
    read_in: Texts = ()
    """The editions or texts in which it was read."""
    source: Words = ""


class RulePatch(_Written):
    """What a replaced rule changes: its id and any of a rule's keys."""

    id: RuleId
    clause: Words | None = None
    title: Words | None = None
    measure: Words | None = None
    at: Words | None = None
    limit: dict[str, Any] | None = None
    when: Conditions | None = None
    unless: Unless | None = None
    level: Level | None = None
    hazard: Hazard | None = None
    why: Words | None = None
    how_to_measure: Words | None = None
    advice: Words | None = None
    known_limits: Words | None = None
    provenance: Provenance | None = None
    read_in: Texts | None = None
    source: Words | None = None


class NewNumber(_Written):
    """The number of an inherited rule in this edition, and how it is known."""

    clause: Words
    provenance: Provenance


class AppliesTo(_Written):
    """Which stairs a rule set is for."""

    use: tuple[Literal["one-dwelling", "shared-dwelling", "workplace", "public"], ...] | None = None
    purpose: tuple[Literal["as-found", "repair", "replace", "new"], ...] | None = None
    """Left out: any. A set for existing stairs names as-found and repair."""


class RulesetText(_Written):
    """A rule set as it is written."""

    format: FormatNumber
    id: RuleId
    title: Words
    document: Words = ""
    edition: Words = ""
    publisher: Words = ""
    place: Words = ""
    applies_to: AppliesTo | None = None
    licence: Words = ""
    extends: Words | None = None
    """The id, or a path relative to this file, of the set that this one amends."""
    reviewed: Date | None = None
    status: Literal["published", "provisional"] = "published"
    notes: Texts = ()
    rules: tuple[RuleText, ...] = ()
    drop: tuple[RuleId, ...] = ()
    """Ids of inherited rules that this set leaves out."""
    replace: tuple[RulePatch, ...] = ()
    """Inherited rules with other keys; a limit is replaced as a whole."""
    add: tuple[RuleText, ...] = ()
    clauses: dict[str, NewNumber] = Field(default_factory=dict)
    """New numbers of inherited rules: {rule-id: {clause: R318.7.5.1, provenance: seen}}."""
