"""An audit as a document: titles, sections and rows, every word in place; each block is made when it is placed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from stairaudit.findings import Audit
from stairaudit.lengths import Unit
from stairaudit.survey import Survey
from stairaudit.words.data_notes import DISAGREE, note_words
from stairaudit.words.entries import MOST_FIRST, Entries, Entry
from stairaudit.words.facts import Fact, condition_of, facts_of
from stairaudit.words.figures import unit_of
from stairaudit.words.headings import first_head, more_below
from stairaudit.words.matrix import Matrix, matrix_of
from stairaudit.words.notes import listed
from stairaudit.words.office import cautions_of, office_of
from stairaudit.words.photos import Picked, photos_of_parts
from stairaudit.words.readers import TITLES, Reader
from stairaudit.words.recommendations import older_of
from stairaudit.words.rows import Row
from stairaudit.words.scope import adopted_of, scope_of
from stairaudit.words.sections import TO_BUILD, Section, clauses_of, sections_of, several_flights
from stairaudit.words.standing import HOW_KNOWN, STATEMENT, method_of, provenance_of
from stairaudit.words.tally import headline_of, reason_of
from stairaudit.words.untold import Open, how_to, of_limits, open_of

if TYPE_CHECKING:
    from stairaudit.words.pictures import Picture
    from stairaudit.words.raw_readings import RawGroup


class Audited(NamedTuple):
    """One survey by its file name, with its audits."""

    file: str
    survey: Survey
    audits: tuple[Audit, ...]


@dataclass(frozen=True)
class AuditView:
    """One survey against one rule set, in words."""

    audit: Audit
    unit: Unit

    @property
    def ruleset(self) -> str:
        """The id of the rule set."""
        return self.audit.ruleset.id

    @property
    def title(self) -> str:
        """The title of the rule set."""
        return self.audit.ruleset.title

    @property
    def edition(self) -> str:
        """The document with its edition."""
        return " ".join(filter(None, (self.audit.ruleset.document, self.audit.ruleset.edition)))

    @property
    def digest(self) -> str:
        """The digest of the resolved rule set."""
        return self.audit.ruleset.digest

    @property
    def applies(self) -> bool:
        """Is the rule set for any stair of the survey?"""
        return self.audit.applies

    @property
    def reason(self) -> str:
        """Which stairs the rule set is not for; empty when it is for all."""
        return reason_of(self.audit) or ""

    @cached_property
    def headline(self) -> str:
        """The result in one line."""
        return headline_of(self.audit)

    @cached_property
    def sections(self) -> tuple[Section, ...]:
        """The rows under their headings."""
        return tuple(sections_of(self.audit, self.unit))

    @cached_property
    def unmeasured(self) -> tuple[Row, ...]:
        """The rows of what was not measured."""
        return tuple(row for section in self.sections if section.key == "unmeasured" for row in section.rows)

    @cached_property
    def open(self) -> tuple[Open, ...]:
        """What was not measured, put together by what is missing."""
        return open_of(self.audit.survey, self.unmeasured, self.several)

    @cached_property
    def how_to(self) -> tuple[tuple[str, str], ...]:
        """How to measure what is missing, each once."""
        return how_to(self.unmeasured)

    @property
    def several(self) -> bool:
        """Do the rows come from several flights, so that each must name its own?"""
        return several_flights(self.audit.findings)

    @cached_property
    def to_build(self) -> tuple[Section, ...]:
        """The sections that somebody who builds has to know."""
        return tuple(section for section in self.sections if section.key in TO_BUILD)

    @cached_property
    def clauses(self) -> tuple[Row, ...]:
        """One row for every finding, clause by clause."""
        return clauses_of(self.audit, self.unit)

    @cached_property
    def provenance(self) -> tuple[str, ...]:
        """How far the figures can be trusted."""
        return tuple(provenance_of(self.audit))

    @cached_property
    def remarks(self) -> tuple[str, ...]:
        """Readings that do not agree with each other."""
        return tuple(note_words(note, self.unit) for note in self.audit.notes)


class SurveyView:
    """One survey with all its audits, block by block."""

    def __init__(self, audited: Audited, reader: Reader | None = None) -> None:
        self.file, self.survey, self._audits = audited
        self.unit = unit_of(self.survey)
        self.title = listed(tuple(stair.name or stair.id for stair in self.survey.stairs))
        self.audits = tuple(AuditView(audit, self.unit) for audit in self._audits)
        self._entries = Entries(self.survey, self._audits, self.unit, reader == "buyer")

    @cached_property
    def several(self) -> bool:
        """Do the rows come from several flights, so that each must name its own?"""
        return several_flights(finding for audit in self._audits for finding in audit.findings)

    @cached_property
    def facts(self) -> tuple[Fact, ...]:
        """Where, when, by whom and for whom."""
        return tuple(facts_of(self.survey, self.unit))

    @cached_property
    def photos(self) -> tuple[tuple[str, Picked], ...]:
        """The photos of parts, each with what it shows."""
        return tuple(photos_of_parts(self.survey))

    @cached_property
    def adopted(self) -> tuple[str, ...]:
        """The edition that the authority named, and what was set beside the readings."""
        return tuple(adopted_of(self.survey, self._audits))

    @cached_property
    def seen(self) -> tuple[str, ...]:
        """What was seen of the condition."""
        return condition_of(self._audits, seen=True)

    @cached_property
    def looked(self) -> tuple[str, ...]:
        """What was looked for and not seen, or could not be looked at."""
        return condition_of(self._audits, seen=False)

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        """Everything to look at, ranked."""
        return self._entries.outside

    @property
    def first(self) -> tuple[Entry, ...]:
        """What to look at first."""
        return self.entries[:MOST_FIRST]

    @property
    def later(self) -> tuple[Entry, ...]:
        """What to look at after that."""
        return self.entries[MOST_FIRST:]

    @property
    def first_head(self) -> str:
        """The heading of what to look at first."""
        return first_head(len(self.first), len(self.entries))

    @property
    def later_head(self) -> str:
        """The heading of what to look at after that."""
        return f"Then look at ({len(self.later)})"

    @property
    def more(self) -> str:
        """How many more there are than are told first; empty when there are none."""
        return more_below(len(self.later))

    @property
    def watch_head(self) -> str:
        """The heading of what lies within, but too close to call."""
        return f"Within, but too close to call ({len(self.watch)})"

    @property
    def open_head(self) -> str:
        """The heading of what was not measured, with how many findings wait."""
        count = sum(row.size for row in self._waiting)
        return f"Not measured ({count} {'finding waits' if count == 1 else 'findings wait'})"

    @property
    def watch(self) -> tuple[Entry, ...]:
        """What lies within, but too close to call."""
        return self._entries.watch

    @property
    def older(self) -> list[str]:
        """Which stairs are older than the figures that they were set beside."""
        return older_of(self.survey, self._audits)

    @cached_property
    def _waiting(self) -> list[Row]:
        return of_limits(row for audit in self.audits if audit.applies for row in audit.unmeasured)

    @cached_property
    def open(self) -> tuple[Open, ...]:
        """What was not measured, and which checks wait for it."""
        return open_of(self.survey, self._waiting, self.several)

    @cached_property
    def matrix(self) -> Matrix | None:
        """Several rule sets side by side; None with fewer than two that are for this survey."""
        return matrix_of(self._audits, self.unit)

    @cached_property
    def doubts(self) -> tuple[str, ...]:
        """What has to be read again, without the reason: readings that do not agree, and those over carpet."""
        notes = self._audits[0].notes if self._audits else ()
        count = sum(note.kind in DISAGREE for note in notes)
        places = "In one place" if count == 1 else f"In {count} places"
        told = f"{places} the readings do not agree with each other: have them taken again." if count else ""
        return (*filter(None, (told,)), *self._entries.over_covering)

    @cached_property
    def provenance(self) -> tuple[tuple[AuditView, tuple[str, ...]], ...]:
        """How far the figures of each rule set can be trusted; what is said of several is told once."""
        told: dict[str, str] = {}
        lines = []
        for audit in self.audits:
            mine = []
            for line in audit.provenance:
                known = told.setdefault(line, audit.ruleset) if line.startswith(HOW_KNOWN) else audit.ruleset
                mine.append(line if known == audit.ruleset else f"{HOW_KNOWN}: as for {known}.")
            lines.append((audit, tuple(mine)))
        return tuple(lines)

    @cached_property
    def pictures(self) -> tuple[Picture, ...]:
        """What to draw of each flight."""
        from stairaudit.words.pictures import picture_of

        if not self._audits:
            return ()
        pictures = (picture_of(self._audits[0], s, f, self.unit) for s in self.survey.stairs for f in s.flights)
        return tuple(picture for picture in pictures if picture is not None)

    @cached_property
    def raw(self) -> tuple[RawGroup, ...]:
        """Every reading as it was typed."""
        from stairaudit.words.raw_readings import raw_readings

        return raw_readings(self.survey)

    @cached_property
    def method(self) -> tuple[str, ...]:
        """How the readings were taken and judged."""
        return tuple(method_of(self.survey, self._audits[0].decision if self._audits else "simple", self.unit))

    @property
    def scope(self) -> str:
        """What was looked at and what was not."""
        return scope_of(self.survey)

    @cached_property
    def office(self) -> tuple[str, ...]:
        """What to ask the local office."""
        return tuple(office_of(self.survey))

    @cached_property
    def cautions(self) -> tuple[str, ...]:
        """Cautions that fit."""
        return tuple(cautions_of(self.survey))


class ReportView(NamedTuple):
    """Everything that a document holds, and who reads it."""

    title: str
    date: str
    version: str
    statement: str
    surveys: tuple[SurveyView, ...]
    reader: Reader | None

    @property
    def for_whom(self) -> str:
        """For whom the document is and what it holds; empty when it holds everything."""
        return TITLES[self.reader]

    @property
    def sets(self) -> tuple[str, ...]:
        """The rule sets that were used, each with its digest."""
        audits = (audit for survey in self.surveys for audit in survey.audits)
        return tuple(dict.fromkeys(f"{audit.ruleset} (digest {audit.digest})" for audit in audits))


def report_view(audited: Sequence[Audited], date: str, version: str, reader: Reader | None = None) -> ReportView:
    """Return what a document about some surveys holds for a reader, for everybody when none is named."""
    views = tuple(SurveyView(item, reader) for item in audited)
    title = views[0].title if len(views) == 1 else f"{len(views)} surveys"
    return ReportView(f"Stair check: {title}", date, version, STATEMENT, views, reader)
