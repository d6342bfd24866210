"""A report as plain text for a terminal of 80 columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from stairaudit.output.inert import inert
from stairaudit.words.rows import Row
from stairaudit.words.view import AuditView, ReportView, Section, SurveyView

WIDTH = 80
MANY = 12


def _wrap(text: str, indent: str = "", hang: str | None = None, width: int = WIDTH) -> Iterator[str]:
    later = indent if hang is None else hang
    yield from textwrap.wrap(text, width, initial_indent=indent, subsequent_indent=later) or [indent.rstrip()]


def _where(row: Row, several: bool) -> str:
    place = "/".join(filter(None, (row.stair, row.flight)))
    return f"{place}: {row.part}" if several else row.part


def _figures(row: Row) -> str:
    told = f"{row.reading}; {row.limit}" if row.reading else row.limit
    return f"{told}; {row.margin}" if row.margin else told


def _full(row: Row, several: bool) -> Iterator[str]:
    clause = f" [{row.clause}]" if row.clause else ""
    yield from _wrap(f"{row.title}, {_where(row, several)}{clause}: {row.word}", f" {row.sign} ", "   ")
    yield from _wrap(_figures(row), "     ")
    for note in row.notes:
        yield from _wrap(note, "     ")


def _advised(row: Row, several: bool) -> Iterator[str]:
    yield from _full(row, several)
    if row.advice:
        yield from _wrap(row.advice, "     ")


def _short(row: Row, several: bool) -> Iterator[str]:
    close = " (close)" if row.close else ""
    clause = f" [{row.clause}]" if row.clause else ""
    yield from _wrap(f"{row.title}, {_where(row, several)}{clause}: {_figures(row)}{close}", f" {row.sign} ", "     ")


def _needs(row: Row) -> str:
    return ", ".join(row.missing[:MANY]) + (", ..." if len(row.missing) > MANY else "")


def _missing(rows: tuple[Row, ...], several: bool) -> Iterator[str]:
    """Put the checks that need the same readings together."""
    groups: dict[tuple[str, str], list[Row]] = {}
    for row in rows:
        place = "/".join(filter(None, (row.stair, row.flight))) + ": " if several else ""
        groups.setdefault((place, _needs(row)), []).append(row)
    for (place, needs), group in groups.items():
        checks = [f"{row.title} [{row.clause}]" if row.clause else row.title for row in group]
        yield from _wrap(f"{place}{needs}: for {'; '.join(dict.fromkeys(checks))}", " ? ", "     ")


SHAPES = {"outside": _advised, "close": _full, "advice": _advised, "within": _short, "in-line": _short}


def _section(section: Section, several: bool) -> Iterator[str]:
    yield ""
    count = section.held
    if section.key == "not-applicable":
        noun = "check does" if count == 1 else "checks do"
        yield f"{count} further {noun} not apply here (a report lists them)."
        return
    noun = "check" if section.key == "unmeasured" else "finding"
    yield f"{section.title.upper()} ({count} {noun if count == 1 else noun + 's'})"
    if section.key == "unmeasured":
        yield from _missing(section.rows, several)
        return
    for row in section.rows:
        yield from SHAPES[section.key](row, several)


def _audit(view: AuditView, several: bool) -> Iterator[str]:
    yield ""
    yield "=" * WIDTH
    yield from _wrap(f"{view.title} ({view.ruleset})")
    if view.reason:
        yield from _wrap(f"Not for every stair: {view.reason}.")
    if not view.applies:
        return
    yield from _wrap(view.headline[:1].upper() + view.headline[1:] + ".")
    for remark in view.remarks:
        yield from _wrap(remark)
    for section in view.sections:
        yield from _section(section, several)
    yield ""
    for line in (*view.provenance, f"{view.edition}; digest of the rule set: {view.digest[:16]}"):
        yield from _wrap(line)


def _survey(view: SurveyView) -> Iterator[str]:
    yield from _wrap(f"Stair check: {view.title}")
    for fact in view.facts:
        yield from _wrap(f"{fact.label}: {fact.value}", "  ", "    ")
    yield from _wrap(f"Survey file: {view.file}", "  ", "    ")
    for line in view.seen:
        yield from _wrap(f"SEEN ON SITE: {line}", " ! ", "   ")
    for line in view.looked:
        yield from _wrap(line, "   ", "   ")
    places = {(row.stair, row.flight) for audit in view.audits for s in audit.sections for row in s.rows}
    several = len({place for place in places if place[1] is not None}) > 1
    for audit in view.audits:
        yield from _audit(audit, several)
    yield ""
    yield "HOW IT WAS JUDGED"
    for line in view.method:
        yield from _wrap(line, "  ", "  ")
    yield "ASK YOUR OFFICE"
    for line in view.office:
        yield from _wrap(line, "  - ", "    ")
    yield "CAUTIONS"
    for line in view.cautions:
        yield from _wrap(line, "  - ", "    ")


def render_text(view: ReportView) -> str:
    """Return the report as text that ends with a line feed."""
    lines: list[str] = []
    for survey in view.surveys:
        lines += [*_survey(survey), ""]
    lines += _wrap(view.statement)
    return inert("\n".join(lines)) + "\n"
