"""Lines of a terminal of 80 columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

WIDTH = 80


def wrap(text: str, indent: str = "", hang: str | None = None, width: int = WIDTH) -> Iterator[str]:
    """Yield a text in lines of a width, the first and the later ones indented."""
    later = indent if hang is None else hang
    lines = textwrap.wrap(text, width, initial_indent=indent, subsequent_indent=later, break_on_hyphens=False)
    yield from lines or [indent.rstrip()]


def headed(title: str) -> Iterator[str]:
    """Yield an empty line and a heading."""
    yield ""
    yield from wrap(title.upper())
