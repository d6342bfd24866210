"""Things to look at, each in plain words: what, where, what was read, what may happen, whom to call."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from functools import cached_property
from typing import Any

from stairaudit.decision import Outcome
from stairaudit.findings import Audit, Finding, Seen
from stairaudit.lengths import Unit
from stairaudit.survey import Survey
from stairaudit.words.figures import in_one_unit
from stairaudit.words.photos import Picked, photos_of
from stairaudit.words.ranking import WAYS_OF_READING, grouped, order_of, ranked
from stairaudit.words.recommendations import Recommendation, for_condition, for_finding
from stairaudit.words.rows import row_of

MOST_FIRST = 5
OVER_COVERING = "Have them read again on the hard surface, which may be less even."


class Entry:
    """One thing to look at; its recommendation is looked up when it is asked for."""

    def __init__(
        self, what: str, where: str, read: tuple[str, str, str], photos: tuple[Picked, ...],
        advised: Callable[[], Recommendation],
    ) -> None:  # fmt: skip
        self.what = what
        self.where = where
        self.reading, self.limit, self.margin = read
        self.photos = photos
        self._advised = advised

    @property
    def figures(self) -> str:
        """What was read, the figure, and by how much it is missed."""
        return "; ".join(filter(None, (self.reading, self.limit, self.margin)))

    @cached_property
    def advised(self) -> Recommendation:
        """What is recommended, what may happen, and whom to call."""
        return self._advised()


class Entries:
    """What to look at of one survey."""

    def __init__(self, survey: Survey, audits: Sequence[Audit], unit: Unit, one_unit: bool = False) -> None:
        self.survey = survey
        self.audits = audits
        self.unit = unit
        self.one_unit = one_unit
        self.findings = [finding for audit in audits for finding in audit.findings]
        self.totals = Counter((f.stair, f.flight, f.rule) for f in self.findings)

    @cached_property
    def _places(self) -> dict[int, int]:
        return {id(finding): number for number, finding in enumerate(self.findings)}

    @cached_property
    def ranked(self) -> list[Finding]:
        """The findings outside, what to look at first in front."""
        return ranked(self.findings, order_of(self.survey, self.audits))

    @cached_property
    def outside(self) -> tuple[Entry, ...]:
        """What was seen of the condition, then what lies outside, ranked."""
        seen = self.audits[0].seen if self.audits else ()
        conditions = [self._condition(item) for item in seen if item.state == "seen"]
        return (*conditions, *map(self._entry, grouped(self.ranked)))

    @cached_property
    def watch(self) -> tuple[Entry, ...]:
        """What lies within but too close to call, unless it is outside by another rule."""
        told = {_thing(finding) for finding in self.ranked}
        kept: dict[Any, Finding] = {}
        for finding in self.findings:
            close = finding.close and finding.outcome is Outcome.PASS and finding.rule.level == "limit"
            if close and _thing(finding) not in told:
                kept.setdefault(_thing(finding), finding)
        return tuple(map(self._entry, grouped(list(kept.values()))))

    @cached_property
    def over_covering(self) -> tuple[str, ...]:
        """Which flights have to be read again, since the readings were not taken on the hard surface."""
        told: dict[str, None] = {}
        for finding in self.findings:
            if finding.outcome is Outcome.WARN and finding.rule.measure.name in WAYS_OF_READING:
                where = ", ".join(self._where(finding.stair, finding.flight, ""))
                told[f"{f'{where}: the' if where else 'The'} steps were read over carpet. {OVER_COVERING}"] = None
        return tuple(told)

    def _entry(self, group: list[Finding]) -> Entry:
        first = group[0]
        ordered = sorted(group, key=lambda finding: self._places[id(finding)])
        row = row_of(ordered, self.totals[first.stair, first.flight, first.rule], self.unit)
        photos = photos_of(self.survey, first.stair, first.flight, [finding.part for finding in group])
        where = ", ".join(self._where(first.stair, first.flight, row.part))
        read = (row.reading, row.limit, row.margin)
        if self.one_unit:
            read = in_one_unit(*read)
        return Entry(row.title, where, read, photos, lambda: for_finding(first))

    def _condition(self, seen: Seen) -> Entry:
        item = seen.item.replace("_", " ")
        stair = next(stair for stair in self.survey.stairs if stair.id == seen.stair)
        photos = photos_of(self.survey, seen.stair, None, [seen.item])
        return Entry(
            item.capitalize(),
            stair.name or stair.id,
            ("seen on site", "", ""),
            photos,
            lambda: for_condition(seen.item),
        )

    def _where(self, stair_id: str, flight_id: str | None, part: str) -> Iterator[str]:
        stair = next(stair for stair in self.survey.stairs if stair.id == stair_id)
        if len(self.survey.stairs) > 1:
            yield stair.name or stair.id
        if len(stair.flights) > 1 and flight_id is not None:
            yield f"flight {flight_id}"
            part = "" if part == "flight" else part
        if part:
            yield part


def _thing(finding: Finding) -> tuple[Any, ...]:
    return finding.stair, finding.flight, finding.part, finding.rule.measure.name
