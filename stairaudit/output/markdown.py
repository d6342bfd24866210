"""A report as Markdown."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stairaudit.output.inert import inert
from stairaudit.words.rows import Row
from stairaudit.words.view import AuditView, ReportView, Section, SurveyView


def safe(text: str) -> str:
    r"""Return a person's text so that nothing in it is taken for Markdown or HTML.

    >>> safe("a|b <i> *c*")
    'a\\|b &lt;i&gt; \\*c\\*'
    """
    escaped = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return " ".join(re.sub(r"([\\`*_\[\]|#~])", r"\\\1", escaped).split())


def _cells(row: Row, key: str) -> tuple[str, ...]:
    place = "/".join(filter(None, (row.stair, row.flight)))
    title = f"{row.title} ({row.clause})" if row.clause else row.title
    notes = [*row.notes, row.advice] if key in ("outside", "advice") else list(row.notes)
    if key == "unmeasured":
        notes = [f"needs {', '.join(row.missing)}"]
    reading = f"{row.reading} ({row.margin})" if row.margin else row.reading
    return place, row.part, title, reading, row.limit, row.word, " ".join(filter(None, notes))


def _section(section: Section) -> Iterator[str]:
    yield f"### {section.title} ({section.held})"
    yield ""
    if section.intro:
        yield section.intro
        yield ""
    yield "| Flight | Part | Check | Reading | Figure | Result | Notes |"
    yield "|---|---|---|---|---|---|---|"
    for row in section.rows:
        yield "| " + " | ".join(safe(cell) for cell in _cells(row, section.key)) + " |"
    yield ""


def _audit(view: AuditView) -> Iterator[str]:
    yield f"## {safe(view.title)}"
    yield ""
    if view.reason:
        yield f"Not for every stair: {safe(view.reason)}."
        yield ""
    if view.applies:
        yield f"**{safe(view.headline)}**"
        yield ""
        for remark in view.remarks:
            yield safe(remark)
            yield ""
        for section in view.sections:
            yield from _section(section)
    for line in (*view.provenance, f"Rule set {view.ruleset}, {view.edition}, digest {view.digest}."):
        yield f"- {safe(line)}"
    yield ""


def _list(title: str, lines: tuple[str, ...]) -> Iterator[str]:
    yield f"## {title}"
    yield ""
    for line in lines:
        yield f"- {safe(line)}"
    yield ""


def _survey(view: SurveyView, statement: str) -> Iterator[str]:
    yield f"# Stair check: {safe(view.title)}"
    yield ""
    yield f"> {safe(statement)}"
    yield ""
    for fact in view.facts:
        yield f"- {fact.label}: {safe(fact.value)}"
    yield f"- Survey file: {safe(view.file)}"
    for line in view.seen:
        yield f"- **Seen on site: {safe(line)}**"
    for line in view.looked:
        yield f"- {safe(line)}"
    yield ""
    for audit in view.audits:
        yield from _audit(audit)
    yield from _list("How it was judged", view.method)
    yield from _list("Ask your office", view.office)
    yield from _list("Cautions", view.cautions)


def render_markdown(view: ReportView) -> str:
    """Return the report as Markdown that ends with a line feed."""
    lines = [line for survey in view.surveys for line in _survey(survey, view.statement)]
    issued = f"Issued {view.date}, " if view.date else ""
    lines.append(f"{issued}stairaudit {view.version}.")
    return inert("\n".join(lines)) + "\n"
