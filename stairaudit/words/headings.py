"""The headings of the blocks of a document, and the sentences that stand right under them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest
from typing import TYPE_CHECKING

from stairaudit.words.readers import Block

if TYPE_CHECKING:
    from stairaudit.words.marks import Step
    from stairaudit.words.pictures import Picture

HEADS: dict[Block, str] = {
    "adopted": "Adopted edition",
    "matrix": "Side by side",
    "clauses": "Clause by clause",
    "to-build": "What to build to",
    "sizes": "Sizes, bottom to top",
    "raw": "Readings as typed",
    "method": "How it was judged",
    "provenance": "Where the figures come from",
    "scope": "What this is and what it is not",
    "office": "Ask your office",
    "cautions": "Cautions",
    "photos": "Photos",
}
NOTHING = "Nothing that was measured lies outside its figure."
OPEN = "Nothing can be said about these; a missing reading is never a pass."
ROUNDED = (
    "Angles, slopes and light levels stand in both columns as they are. ~ before a figure: rounded for print, not "
    "for judging."
)
SIGNATURE = "Signed ______________________________ Date ______________"


def first_head(shown: int, total: int) -> str:
    """Return the heading of what to look at first.

    >>> first_head(5, 14), first_head(0, 0)
    ('Look at first (5 of 14)', 'Look at first')
    """
    return f"Look at first ({shown} of {total})" if total else "Look at first"


def more_below(count: int) -> str:
    """Return how many more there are; empty when there are none.

    >>> more_below(1), more_below(0)
    ('1 more stands below.', '')
    """
    return f"{count} more {'stands' if count == 1 else 'stand'} below." if count else ""


def _told(step: Step | None) -> str:
    if step is None:
        return ""
    return "not measured" if step.mm is None else step.label


def sizes_of(picture: Picture) -> Iterator[tuple[str, str, str]]:
    """Yield the number, the riser and the tread of each step, bottom to top."""
    for number, (riser, tread) in enumerate(zip_longest(picture.risers, picture.treads), 1):
        yield str(number), _told(riser), _told(tread)
