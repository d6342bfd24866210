"""A report as Markdown."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from stairaudit.output.inert import inert
from stairaudit.output.markdown_blocks import (
    cards,
    first,
    later,
    opened,
    photos,
    side_by_side,
    sizes,
    unmeasured,
    watched,
)
from stairaudit.output.markdown_table import headed, safe, table
from stairaudit.words.headings import HEADS, SIGNATURE
from stairaudit.words.readers import Block, blocks_of
from stairaudit.words.rows import Row
from stairaudit.words.sections import Section
from stairaudit.words.view import AuditView, ReportView, SurveyView


def _list(title: str, lines: Iterable[str]) -> Iterator[str]:
    yield from headed(title)
    for line in lines:
        yield f"- {safe(line)}"
    yield ""


def _place(row: Row) -> str:
    return "/".join(filter(None, (row.stair, row.flight)))


def _check(row: Row) -> str:
    return f"{row.title} ({row.clause})" if row.clause else row.title


def _cells(row: Row, key: str) -> tuple[str, ...]:
    notes = [*row.notes, row.advice] if key in ("outside", "advice") else list(row.notes)
    reading = f"{row.reading} ({row.margin})" if row.margin else row.reading
    return _place(row), row.part, _check(row), reading, row.limit, row.word, " ".join(filter(None, notes))


def _section(section: Section, audit: AuditView) -> Iterator[str]:
    yield from headed(f"{section.title} ({section.held})", 3)
    if section.intro:
        yield from (section.intro, "")
    if section.key == "unmeasured":
        yield from unmeasured(audit)
        return
    names = ("Flight", "Part", "Check", "Reading", "Figure", "Result", "Notes")
    yield from table(names, (_cells(row, section.key) for row in section.rows))


def _head(view: AuditView) -> Iterator[str]:
    yield from headed(safe(view.title))
    if view.reason:
        yield from (f"Not for every stair: {safe(view.reason)}.", "")
    if view.applies:
        yield from (f"**{safe(view.headline)}**", "")
        for remark in view.remarks:
            yield from (safe(remark), "")


def _audits(view: SurveyView) -> Iterator[str]:
    for audit in view.audits:
        yield from _head(audit)
        for section in audit.sections if audit.applies else ():
            yield from _section(section, audit)


def _headlines(view: SurveyView) -> Iterator[str]:
    for audit in view.audits:
        yield from _head(audit)


def _to_build(view: SurveyView) -> Iterator[str]:
    names = ("Flight", "Part", "Check", "Reading", "Build to", "By how much", "Advice")
    for audit in view.audits:
        for section in audit.to_build if audit.applies else ():
            yield from headed(f"{section.title} ({section.held}): {safe(audit.title)}", 3)
            yield from table(names, (_to_build_cells(row, section.key) for row in section.rows))


def _to_build_cells(row: Row, key: str) -> tuple[str, ...]:
    advice = " ".join((*row.notes, "" if key == "close" else row.advice))
    return _place(row), row.part, _check(row), row.reading, row.build_to, row.margin or row.word, advice


def _clauses(view: SurveyView) -> Iterator[str]:
    for audit in view.audits:
        if audit.applies and audit.clauses:
            yield from headed(f"{HEADS['clauses']}: {safe(audit.title)}")
            names = ("Clause", "Check", "Flight", "Part", "Reading", "Figure", "Margin", "Result")
            yield from table(names, map(_clause_cells, audit.clauses))


def _clause_cells(row: Row) -> tuple[str, ...]:
    needs = f"needs {'; '.join(row.needs)}"
    reading = (
        needs if row.outcome == "unmeasured" else " ".join(filter(None, (row.reading, *map(_aside, row.origin))))
    )
    return row.clause, row.title, _place(row), row.part, reading, row.limit, row.margin, row.word


def _aside(sentence: str) -> str:
    return f"({sentence.removesuffix('.').lower()})"


def _facts(view: SurveyView) -> Iterator[str]:
    for fact in view.facts:
        yield f"- {fact.label}: {safe(fact.value)}"
    yield f"- Survey file: {safe(view.file)}"
    yield ""


def _condition(view: SurveyView) -> Iterator[str]:
    for line in view.seen:
        yield f"- **Seen on site: {safe(line)}**"
    for line in view.looked:
        yield f"- {safe(line)}"
    if view.seen or view.looked:
        yield ""


def _raw(view: SurveyView) -> Iterator[str]:
    yield from headed(HEADS["raw"])
    for group in view.raw:
        yield from headed(safe(group.title), 3)
        yield from table(("Where", "As typed", "In inches", "In millimetres"), group.rows)


def _provenance(view: SurveyView) -> Iterator[str]:
    yield from headed(HEADS["provenance"])
    for audit, lines in view.provenance:
        for line in (*lines, f"Rule set {audit.ruleset}, {audit.edition}, digest {audit.digest}."):
            yield f"- {safe(line)}"
    yield ""


def _not_drawn(_: SurveyView) -> Iterator[str]:
    yield from ()


PLACES: dict[Block, Callable[[SurveyView], Iterable[str]]] = {
    "facts": _facts,
    "adopted": lambda view: _list(HEADS["adopted"], view.adopted),
    "condition": _condition,
    "first": first,
    "cards": cards,
    "more-cards": later,
    "watch": watched,
    "open": opened,
    "headlines": _headlines,
    "audits": _audits,
    "matrix": side_by_side,
    "to-build": _to_build,
    "clauses": _clauses,
    "side": _not_drawn,
    "plan": _not_drawn,
    "sizes": sizes,
    "bars": _not_drawn,
    "raw": _raw,
    "method": lambda view: _list(HEADS["method"], view.method),
    "provenance": _provenance,
    "scope": lambda view: (*headed(HEADS["scope"]), safe(view.scope), ""),
    "office": lambda view: _list(HEADS["office"], view.office),
    "cautions": lambda view: _list(HEADS["cautions"], view.cautions),
    "photos": photos,
    "signature": lambda _: (SIGNATURE, ""),
}


def _survey(view: SurveyView, report: ReportView) -> Iterator[str]:
    yield from headed(f"Stair check: {safe(view.title)}", 1)
    if report.for_whom:
        yield from (f"*{report.for_whom}*", "")
    yield from (f"> {safe(report.statement)}", "")
    for block in blocks_of(report.reader, "page"):
        yield from PLACES[block](view)


def render_markdown(view: ReportView) -> str:
    """Return the report as Markdown that ends with a line feed."""
    lines = [line for survey in view.surveys for line in _survey(survey, view)]
    issued = f"Issued {view.date}, " if view.date else ""
    lines.append(f"{issued}stairaudit {view.version}. Rule sets: {'; '.join(view.sets)}.")
    return inert("\n".join(lines)) + "\n"
