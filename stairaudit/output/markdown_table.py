"""Text, headings and tables of Markdown, with nothing in them that could be taken for Markdown or HTML."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence


def safe(text: str) -> str:
    r"""Return a person's text so that nothing in it is taken for Markdown or HTML.

    >>> safe("a|b <i> *c*")
    'a\\|b &lt;i&gt; \\*c\\*'
    """
    escaped = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return " ".join(re.sub(r"([\\`*_\[\]|#~])", r"\\\1", escaped).split())


def headed(title: str, level: int = 2) -> Iterator[str]:
    """Yield a heading and an empty line."""
    yield f"{'#' * level} {title}"
    yield ""


def columns(names: Sequence[str]) -> Iterator[str]:
    """Yield the head of a table."""
    yield f"| {' | '.join(names)} |"
    yield "|" + "---|" * len(names)


def table(names: Sequence[str], rows: Iterable[Sequence[str]]) -> Iterator[str]:
    """Yield a table and an empty line."""
    yield from columns(names)
    for row in rows:
        yield f"| {' | '.join(map(safe, row))} |"
    yield ""
