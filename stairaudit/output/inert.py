"""Control characters in names and notes are shown as text, never sent."""

from __future__ import annotations

import re

# C0 and C1 controls except tab and line feed, and the marks that turn the direction of writing.
_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069]")


def one_line(text: object) -> str:
    r"""Return a message as one line, whatever the names in it hold.

    >>> print(one_line("a\nb"))
    a\nb
    """
    return inert(str(text).replace("\n", "\\n"))


def inert(text: str) -> str:
    r"""Return the text with each control character written out.

    >>> print(inert("bell\x07"))
    bell\u0007
    """
    return _CONTROL.sub(lambda match: f"\\u{ord(match[0]):04x}", text)
