"""Blocks of a terminal report that stand by themselves: what to look at, what was not measured, sizes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from stairaudit.output.terminal_lines import headed, wrap
from stairaudit.words.entries import Entry
from stairaudit.words.headings import HEADS, NOTHING, OPEN, sizes_of
from stairaudit.words.view import SurveyView


def _more(view: SurveyView) -> Iterator[str]:
    if view.more:
        yield from wrap(view.more, "    ", "    ")


def _older(view: SurveyView) -> Iterator[str]:
    for line in view.older:
        yield from wrap(line, "    ", "    ")


def first(view: SurveyView) -> Iterator[str]:
    """Yield the short list of what to look at first; nothing when there is nothing."""
    if not view.first:
        return
    yield from headed(view.first_head)
    for number, entry in enumerate(view.first, 1):
        yield from wrap(f"{entry.what}, {entry.where}: {entry.figures}", f" {number}. ", "    ")
    yield from _more(view)
    yield from _older(view)


def _card(number: int, entry: Entry) -> Iterator[str]:
    lead = f"{number:2}. "
    yield from wrap(f"{entry.what}, {entry.where}", lead, "    ")
    told = {
        "Read": entry.figures,
        "What may happen": entry.advised.may_happen,
        "Recommended": f"{entry.advised.told}.",
        "Whom to call": f"{entry.advised.call}.",
    }
    for label, text in told.items():
        yield from wrap(f"{label}: {text}", "      ", "        ")
    for photo in entry.photos:
        yield from wrap(f"Photo: {photo.file}", "      ", "        ")


def _cards(entries: Iterable[Entry], start: int) -> Iterator[str]:
    for number, entry in enumerate(entries, start):
        yield from _card(number, entry)


def cards(view: SurveyView) -> Iterator[str]:
    """Yield what to look at first with what may happen and whom to call."""
    if not view.first:
        yield from headed(view.first_head)
        yield from wrap(NOTHING, "    ")
        return
    yield from headed(view.first_head)
    yield from _cards(view.first, 1)
    yield from _more(view)
    yield from _older(view)


def later(view: SurveyView) -> Iterator[str]:
    """Yield the rest of what to look at."""
    if view.later:
        yield from headed(view.later_head)
        yield from _cards(view.later, len(view.first) + 1)


def watched(view: SurveyView) -> Iterator[str]:
    """Yield what lies within, but too close to call."""
    if not view.watch:
        return
    yield from headed(view.watch_head)
    for entry in view.watch:
        yield from wrap(f"{entry.what}, {entry.where}: {entry.figures}", " + ", "    ")
        yield from wrap(f"{entry.advised.told}.", "      ", "      ")


def opened(view: SurveyView) -> Iterator[str]:
    """Yield what was not measured, in plain words."""
    if view.open:
        yield from headed(view.open_head)
        yield from wrap(OPEN, "    ", "    ")
    for item in view.open:
        where = f" ({item.where})" if item.where else ""
        yield from wrap(
            f"{item.topic}{where}, missing: {item.missing}. For: {'; '.join(item.titles)}", " ? ", "     "
        )
    for line in view.doubts:
        yield from wrap(line, "    ", "    ")


def side_by_side(view: SurveyView) -> Iterator[str]:
    """Yield several rule sets side by side: each reading once, with what every set says of it."""
    matrix = view.matrix
    if matrix is None:
        return
    yield from headed(HEADS["matrix"])
    yield from wrap(matrix.intro)
    for row in matrix.rows:
        yield from wrap(f"{row.what}, {row.where}: {row.reading}", " ", "   ")
        for cell, names in row.same:
            told = f"{cell.limit}: {cell.word}" if cell.limit else cell.word
            yield from wrap(f"{told} [{names}]", f"   {cell.sign} ", "     ")


def sizes(view: SurveyView) -> Iterator[str]:
    """Yield the risers and treads of each flight, bottom to top."""
    for picture in view.pictures:
        yield from headed(f"{HEADS['sizes']}: {picture.title}")
        yield f"    {'step':<6}{'riser':<26}tread"
        for number, riser, tread in sizes_of(picture):
            yield f"    {number:<6}{riser:<26}{tread}".rstrip()
