"""A report as Markdown."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import zip_longest
from urllib.parse import quote

from stairaudit.output.inert import inert
from stairaudit.output.markdown_table import columns, safe, table
from stairaudit.words.entries import Entry
from stairaudit.words.marks import Step
from stairaudit.words.readers import Block, blocks_of
from stairaudit.words.rows import Row
from stairaudit.words.sections import Section
from stairaudit.words.view import AuditView, ReportView, SurveyView


def _headed(title: str, level: int = 2) -> Iterator[str]:
    yield f"{'#' * level} {title}"
    yield ""


def _list(title: str, lines: Iterable[str]) -> Iterator[str]:
    yield from _headed(title)
    for line in lines:
        yield f"- {safe(line)}"
    yield ""


def _place(row: Row) -> str:
    return "/".join(filter(None, (row.stair, row.flight)))


def _check(row: Row) -> str:
    return f"{row.title} ({row.clause})" if row.clause else row.title


def _cells(row: Row, key: str) -> tuple[str, ...]:
    notes = [*row.notes, row.advice] if key in ("outside", "advice") else list(row.notes)
    if key == "unmeasured":
        notes = [f"needs {', '.join(row.missing)}"]
    reading = f"{row.reading} ({row.margin})" if row.margin else row.reading
    return _place(row), row.part, _check(row), reading, row.limit, row.word, " ".join(filter(None, notes))


def _section(section: Section) -> Iterator[str]:
    yield from _headed(f"{section.title} ({section.held})", 3)
    if section.intro:
        yield from (section.intro, "")
    names = ("Flight", "Part", "Check", "Reading", "Figure", "Result", "Notes")
    yield from table(names, (_cells(row, section.key) for row in section.rows))


def _head(view: AuditView) -> Iterator[str]:
    yield from _headed(safe(view.title))
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
            yield from _section(section)


def _headlines(view: SurveyView) -> Iterator[str]:
    for audit in view.audits:
        yield from _head(audit)


def _to_build(view: SurveyView) -> Iterator[str]:
    names = ("Flight", "Part", "Check", "Reading", "Build to", "By how much", "Advice")
    for audit in view.audits:
        for section in audit.to_build if audit.applies else ():
            yield from _headed(f"{section.title} ({section.held}): {safe(audit.title)}", 3)
            yield from table(names, (_to_build_cells(row, section.key) for row in section.rows))


def _to_build_cells(row: Row, key: str) -> tuple[str, ...]:
    advice = " ".join((*row.notes, "" if key == "close" else row.advice))
    return _place(row), row.part, _check(row), row.reading, row.limit, row.margin or row.word, advice


def _clauses(view: SurveyView) -> Iterator[str]:
    for audit in view.audits:
        if audit.applies and audit.clauses:
            yield from _headed(f"Clause by clause: {safe(audit.title)}")
            names = ("Clause", "Check", "Flight", "Part", "Reading", "Figure", "Margin", "Result")
            yield from table(names, map(_clause_cells, audit.clauses))


def _clause_cells(row: Row) -> tuple[str, ...]:
    reading = f"needs {', '.join(row.missing)}" if row.outcome == "unmeasured" else row.reading
    return row.clause, row.title, _place(row), row.part, reading, row.limit, row.margin, row.word


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


def _photos(entry: Entry) -> str:
    return ", ".join(f"[Photo: {safe(photo.text)}]({quote(photo.file)})" for photo in entry.photos)


def _rest(view: SurveyView) -> Iterator[str]:
    if view.later:
        yield from (f"{len(view.later)} more {'stands' if len(view.later) == 1 else 'stand'} below.", "")
    for line in view.older:
        yield from (safe(line), "")


def _title(view: SurveyView) -> str:
    return f"Look at first ({len(view.first)} of {len(view.entries)})"


def _first(view: SurveyView) -> Iterator[str]:
    if not view.first:
        return
    yield from _headed(_title(view))
    for number, entry in enumerate(view.first, 1):
        photos = f" ({_photos(entry)})" if entry.photos else ""
        yield f"{number}. **{safe(entry.what)}**, {safe(entry.where)}: {safe(entry.figures)}{photos}"
    yield ""
    yield from _rest(view)


ENTRY = ("No.", "What", "Where", "Read", "What may happen", "Recommended", "Whom to call")


def _entries(entries: Iterable[Entry], start: int) -> Iterator[str]:
    yield from columns(ENTRY)
    for number, entry in enumerate(entries, start):
        advised = entry.advised
        cells = (entry.figures, advised.may_happen, advised.told, advised.call)
        what = f"{safe(entry.what)} {_photos(entry)}".strip()
        yield f"| {number} | {what} | {safe(entry.where)} | {' | '.join(map(safe, cells))} |"
    yield ""


def _cards(view: SurveyView) -> Iterator[str]:
    if not view.first:
        yield from (*_headed("Look at first"), "Nothing that was measured lies outside its figure.", "")
        return
    yield from _headed(_title(view))
    yield from _entries(view.first, 1)
    yield from _rest(view)


def _more_cards(view: SurveyView) -> Iterator[str]:
    if view.later:
        yield from _headed(f"Then look at ({len(view.later)})")
        yield from _entries(view.later, len(view.first) + 1)


def _watch(view: SurveyView) -> Iterator[str]:
    if view.watch:
        yield from _headed(f"Within, but too close to call ({len(view.watch)})")
        rows = ((entry.what, entry.where, entry.figures, entry.advised.told) for entry in view.watch)
        yield from table(("What", "Where", "Read", "Recommended"), rows)


def _open(view: SurveyView) -> Iterator[str]:
    if view.open:
        yield from _headed(f"Not measured ({len(view.open)})")
        yield from ("Nothing can be said about these; a missing reading is never a pass.", "")
        rows = ((item.where, "; ".join(item.checks), ", ".join(item.needs)) for item in view.open)
        yield from table(("Flight", "What cannot be said", "Because this was not measured"), rows)
    if view.doubt:
        yield from (view.doubt, "")


def _told(step: Step | None) -> str:
    if step is None:
        return ""
    return "not measured" if step.mm is None else step.label


def _sizes(view: SurveyView) -> Iterator[str]:
    for picture in view.pictures:
        yield from _headed(f"Sizes, bottom to top: {safe(picture.title)}")
        steps = enumerate(zip_longest(picture.risers, picture.treads), 1)
        yield from table(("Step", "Riser", "Tread"), ((str(n), _told(r), _told(t)) for n, (r, t) in steps))


def _raw(view: SurveyView) -> Iterator[str]:
    yield from _headed("Readings as typed")
    for group in view.raw:
        yield from _headed(safe(group.title), 3)
        yield from table(("Where", "As typed", "In inches", "In millimetres"), group.rows)


def _provenance(view: SurveyView) -> Iterator[str]:
    yield from _headed("Where the figures come from")
    for audit in view.audits:
        for line in (*audit.provenance, f"Rule set {audit.ruleset}, {audit.edition}, digest {audit.digest}."):
            yield f"- {safe(line)}"
    yield ""


def _not_drawn(_: SurveyView) -> Iterator[str]:
    yield from ()


PLACES: dict[Block, Callable[[SurveyView], Iterable[str]]] = {
    "facts": _facts,
    "adopted": lambda view: _list("Adopted edition", view.adopted),
    "condition": _condition,
    "first": _first,
    "cards": _cards,
    "more-cards": _more_cards,
    "watch": _watch,
    "open": _open,
    "headlines": _headlines,
    "audits": _audits,
    "to-build": _to_build,
    "clauses": _clauses,
    "side": _not_drawn,
    "plan": _not_drawn,
    "sizes": _sizes,
    "bars": _not_drawn,
    "raw": _raw,
    "method": lambda view: _list("How it was judged", view.method),
    "provenance": _provenance,
    "scope": lambda view: (*_headed("What this is and what it is not"), safe(view.scope), ""),
    "office": lambda view: _list("Ask your office", view.office),
    "cautions": lambda view: _list("Cautions", view.cautions),
    "signature": lambda _: ("Signed: ________________ Date: ________", ""),
}


def _survey(view: SurveyView, report: ReportView) -> Iterator[str]:
    yield from _headed(f"Stair check: {safe(view.title)}", 1)
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
