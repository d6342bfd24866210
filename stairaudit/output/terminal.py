"""A report as plain text for a terminal of 80 columns."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from stairaudit.output.inert import inert
from stairaudit.output.terminal_blocks import (
    cards,
    first,
    later,
    opened,
    side_by_side,
    sizes,
    watched,
)
from stairaudit.output.terminal_lines import WIDTH, headed, wrap
from stairaudit.words.headings import HEADS, SIGNATURE
from stairaudit.words.readers import Block, blocks_of
from stairaudit.words.rows import Row
from stairaudit.words.sections import Section
from stairaudit.words.view import AuditView, ReportView, SurveyView


def _where(row: Row, several: bool) -> str:
    place = "/".join(filter(None, (row.stair, row.flight)))
    return f"{place}: {row.part}" if several else row.part


def _figures(row: Row) -> str:
    told = f"{row.reading}; {row.limit}" if row.reading else row.limit
    return f"{told}; {row.margin}" if row.margin else told


def _full(row: Row, several: bool) -> Iterator[str]:
    clause = f" [{row.clause}]" if row.clause else ""
    yield from wrap(f"{row.title}, {_where(row, several)}{clause}: {row.word}", f" {row.sign} ", "   ")
    yield from wrap(_figures(row), "     ")
    for note in row.notes:
        yield from wrap(note, "     ")


def _advised(row: Row, several: bool) -> Iterator[str]:
    yield from _full(row, several)
    if row.advice:
        yield from wrap(row.advice, "     ")


def _short(row: Row, several: bool) -> Iterator[str]:
    close = " (close)" if row.close else ""
    clause = f" [{row.clause}]" if row.clause else ""
    told = f"{row.title}, {_where(row, several)}{clause}: {_figures(row)}{close}"
    yield from wrap(". ".join((told, *row.origin)), f" {row.sign} ", "     ")


def _missing(audit: AuditView) -> Iterator[str]:
    for item in audit.open:
        where = f" ({item.where})" if item.where else ""
        checks = "; ".join(dict.fromkeys(check.named for check in item.checks))
        yield from wrap(f"{item.topic}{where}, missing: {item.missing}. For: {checks}", " ? ", "     ")


SHAPES = {"outside": _advised, "close": _full, "advice": _advised, "within": _short, "in-line": _short}


def _section(section: Section, several: bool, audit: AuditView) -> Iterator[str]:
    yield ""
    count = section.held
    if section.key == "not-applicable":
        noun = "check does" if count == 1 else "checks do"
        yield f"{count} further {noun} not apply here (a report lists them)."
        return
    yield f"{section.title.upper()} ({count} {'finding' if count == 1 else 'findings'})"
    if section.key == "unmeasured":
        yield from _missing(audit)
        return
    for row in section.rows:
        yield from SHAPES[section.key](row, several)


def _head(view: AuditView) -> Iterator[str]:
    yield ""
    yield "=" * WIDTH
    yield from wrap(f"{view.title} ({view.ruleset})")
    if view.reason:
        yield from wrap(f"Not for every stair: {view.reason}.")
    if view.applies:
        yield from wrap(view.headline[:1].upper() + view.headline[1:] + ".")
        for remark in view.remarks:
            yield from wrap(remark)


def _audit(view: AuditView, several: bool) -> Iterator[str]:
    yield from _head(view)
    if not view.applies:
        return
    for section in view.sections:
        yield from _section(section, several, view)
    yield ""
    yield from wrap(f"{view.edition}; digest of the rule set: {view.digest[:16]}")


def _audits(view: SurveyView) -> Iterator[str]:
    for audit in view.audits:
        yield from _audit(audit, view.several)


def _headlines(view: SurveyView) -> Iterator[str]:
    for audit in view.audits:
        yield from _head(audit)


def _to_build(view: SurveyView) -> Iterator[str]:
    for audit in view.audits:
        for section in audit.to_build if audit.applies else ():
            yield from _section(section, view.several, audit)


def _clauses(view: SurveyView) -> Iterator[str]:
    for audit in view.audits:
        if audit.applies and audit.clauses:
            yield from headed(f"{HEADS['clauses']}: {audit.edition}")
        for row in audit.clauses if audit.applies else ():
            figures = f"needs {'; '.join(row.needs)}" if row.outcome == "unmeasured" else _figures(row)
            clause = f"{row.clause} " if row.clause else ""
            told = f"{clause}{row.title}, {_where(row, view.several)}: {row.word}; {figures}"
            yield from wrap(". ".join((told, *row.origin)), f" {row.sign} ", "     ")


def _provenance(view: SurveyView) -> Iterator[str]:
    yield from headed(HEADS["provenance"])
    for audit, lines in view.provenance:
        for line in (*lines, f"Rule set {audit.ruleset}, {audit.edition}, digest {audit.digest}"):
            yield from wrap(line, "  ", "  ")


def _facts(view: SurveyView) -> Iterator[str]:
    yield from wrap(f"Stair check: {view.title}")
    for fact in view.facts:
        yield from wrap(f"{fact.label}: {fact.value}", "  ", "    ")
    yield from wrap(f"Survey file: {view.file}", "  ", "    ")


def _condition(view: SurveyView) -> Iterator[str]:
    for line in view.seen:
        yield from wrap(f"SEEN ON SITE: {line}", " ! ", "   ")
    for line in view.looked:
        yield from wrap(line, "   ", "   ")


def _lines(head: Block, lines: Iterable[str], lead: str = "  ") -> Iterator[str]:
    yield from headed(HEADS[head])
    for line in lines:
        yield from wrap(line, lead, " " * len(lead))


def _adopted(view: SurveyView) -> Iterator[str]:
    return _lines("adopted", view.adopted)


def _method(view: SurveyView) -> Iterator[str]:
    return _lines("method", view.method)


def _office(view: SurveyView) -> Iterator[str]:
    return _lines("office", view.office, "  - ")


def _cautions(view: SurveyView) -> Iterator[str]:
    return _lines("cautions", view.cautions, "  - ")


def _photos(view: SurveyView) -> Iterator[str]:
    if view.photos:
        yield from _lines("photos", (f"{name}: {photo.told}" for name, photo in view.photos), "  - ")


def _scope(view: SurveyView) -> Iterator[str]:
    return _lines("scope", (view.scope,))


def _signature(_: SurveyView) -> Iterator[str]:
    yield from ("", SIGNATURE)


PLACES: dict[Block, Callable[[SurveyView], Iterator[str]]] = {
    "facts": _facts, "adopted": _adopted, "condition": _condition, "first": first, "cards": cards,
    "more-cards": later, "watch": watched, "open": opened, "headlines": _headlines, "audits": _audits,
    "matrix": side_by_side, "to-build": _to_build, "clauses": _clauses, "sizes": sizes, "method": _method,
    "provenance": _provenance, "scope": _scope, "office": _office, "cautions": _cautions, "photos": _photos,
    "signature": _signature,
}  # fmt: skip


def render_text(view: ReportView) -> str:
    """Return the report as text that ends with a line feed."""
    lines = list(wrap(view.for_whom)) if view.for_whom else []
    for survey in view.surveys:
        for block in blocks_of(view.reader, "text"):
            lines += PLACES[block](survey)
        lines.append("")
    lines += wrap(view.statement)
    return inert("\n".join(lines)) + "\n"
