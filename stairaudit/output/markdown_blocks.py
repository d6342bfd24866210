"""Blocks of a Markdown report that stand by themselves: what to look at, what was not measured, sizes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from urllib.parse import quote

from stairaudit.output.markdown_table import columns, headed, safe, table
from stairaudit.words.entries import Entry
from stairaudit.words.headings import HEADS, NOTHING, OPEN, sizes_of
from stairaudit.words.view import AuditView, SurveyView


def _photos(entry: Entry) -> str:
    return ", ".join(f"[Photo: {safe(photo.text)}]({quote(photo.file)})" for photo in entry.photos)


def _rest(view: SurveyView) -> Iterator[str]:
    if view.more:
        yield from (view.more, "")
    for line in view.older:
        yield from (safe(line), "")


def first(view: SurveyView) -> Iterator[str]:
    """Yield the short list of what to look at first; nothing when there is nothing."""
    if not view.first:
        return
    yield from headed(view.first_head)
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


def cards(view: SurveyView) -> Iterator[str]:
    """Yield what to look at first with what may happen and whom to call."""
    if not view.first:
        yield from (*headed(view.first_head), NOTHING, "")
        return
    yield from headed(view.first_head)
    yield from _entries(view.first, 1)
    yield from _rest(view)


def later(view: SurveyView) -> Iterator[str]:
    """Yield the rest of what to look at."""
    if view.later:
        yield from headed(view.later_head)
        yield from _entries(view.later, len(view.first) + 1)


def watched(view: SurveyView) -> Iterator[str]:
    """Yield what lies within, but too close to call."""
    if view.watch:
        yield from headed(view.watch_head)
        rows = ((entry.what, entry.where, entry.figures, entry.advised.told) for entry in view.watch)
        yield from table(("What", "Where", "Read", "Recommended"), rows)


def opened(view: SurveyView) -> Iterator[str]:
    """Yield what was not measured, in plain words."""
    if view.open:
        yield from headed(view.open_head)
        yield from (OPEN, "")
        rows = ((item.topic, item.where, item.missing, "; ".join(item.titles)) for item in view.open)
        yield from table(("Topic", "Flight", "Missing", "What cannot be said without it"), rows)
    for line in view.doubts:
        yield from (line, "")


def unmeasured(audit: AuditView) -> Iterator[str]:
    """Yield what was not measured, put together by what is missing, and how to measure it."""
    rows = ((o.topic, o.where, o.missing, "; ".join(check.told for check in o.checks)) for o in audit.open)
    yield from table(("Topic", "Flight", "Missing", "Checks that wait for it"), rows)
    for titles, how in audit.how_to:
        yield f"- How to measure, for {safe(titles)}: {safe(how)}"
    yield ""


def photos(view: SurveyView) -> Iterator[str]:
    """Yield the photos of parts, each as a link."""
    if not view.photos:
        return
    yield from headed(HEADS["photos"])
    for name, photo in view.photos:
        yield f"- {safe(name)}: [{safe(photo.text)}]({quote(photo.file)})"
    yield ""


def side_by_side(view: SurveyView) -> Iterator[str]:
    """Yield several rule sets side by side: each reading once, with what every set says of it."""
    matrix = view.matrix
    if matrix is None:
        return
    yield from headed(HEADS["matrix"])
    yield from (safe(matrix.intro), "")
    rows = (
        (f"{row.what}, {row.where}", row.reading, cell.limit, cell.word, names)
        for row in matrix.rows
        for cell, names in row.same
    )
    yield from table(("Check", "Reading", "Figure", "Result", "Rule sets"), rows)


def sizes(view: SurveyView) -> Iterator[str]:
    """Yield the risers and treads of each flight, bottom to top."""
    for picture in view.pictures:
        yield from headed(f"{HEADS['sizes']}: {safe(picture.title)}")
        yield from table(("Step", "Riser", "Tread"), sizes_of(picture))
