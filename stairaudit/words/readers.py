"""Who reads a document, and which blocks of it each reader gets, in order; the writers only place blocks."""

from __future__ import annotations

from typing import Literal, get_args

Reader = Literal["buyer", "builder", "official"]
READERS: tuple[Reader, ...] = get_args(Reader)
Medium = Literal["page", "text"]
Block = Literal[
    "facts", "adopted", "condition", "first", "cards", "more-cards", "watch", "open", "headlines", "audits",
    "matrix", "to-build", "clauses", "side", "plan", "sizes", "bars", "raw", "method", "provenance", "scope",
    "office", "cautions", "photos", "signature",
]  # fmt: skip

TITLES: dict[Reader | None, str] = {
    None: "",
    "buyer": "For a buyer or owner: what to look at, and whom to ask",
    "builder": "For a builder: what was read, and what to build to",
    "official": "For the office: every clause, every reading, and how it was taken",
}

_PAGE: dict[Reader | None, tuple[Block, ...]] = {
    None: (
        "facts", "condition", "first", "matrix", "audits", "side", "plan", "sizes", "bars", "raw", "method",
        "provenance", "scope", "office", "cautions", "photos", "signature",
    ),
    "buyer": (
        "facts", "condition", "cards", "more-cards", "watch", "open", "side", "office", "cautions", "photos", "scope",
    ),
    "builder": (
        "facts", "condition", "first", "headlines", "matrix", "to-build", "side", "plan", "sizes", "bars",
        "open", "office", "cautions", "photos", "scope",
    ),
    "official": (
        "facts", "condition", "adopted", "first", "headlines", "matrix", "clauses", "side", "plan", "sizes",
        "bars", "raw", "method", "provenance", "photos", "scope", "signature",
    ),
}  # fmt: skip

# A terminal draws nothing, tables of every reading are for paper, and the scope stands where the text is handed on.
_NOT_IN_TEXT: dict[Reader | None, tuple[Block, ...]] = {
    None: ("side", "plan", "sizes", "bars", "raw", "scope", "signature"),
    "buyer": ("side",),
    "builder": ("side", "plan", "bars", "scope"),
    "official": ("side", "plan", "sizes", "bars", "raw"),
}


def blocks_of(reader: Reader | None, medium: Medium) -> tuple[Block, ...]:
    """Return the blocks of a document in order; without a reader it holds everything.

    >>> "clauses" in blocks_of("buyer", "page"), "clauses" in blocks_of("official", "text")
    (False, True)
    """
    left_out = _NOT_IN_TEXT[reader] if medium == "text" else ()
    return tuple(block for block in _PAGE[reader] if block not in left_out)
