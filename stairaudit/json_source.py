"""JSON text to plain data with marks; numbers keep their text."""

from __future__ import annotations

import re
from bisect import bisect_right
from json.decoder import JSONDecodeError, scanstring  # type: ignore[attr-defined]

from stairaudit.documents import Builder, Document
from stairaudit.errors import InputError, Mark

_SPACE = re.compile(r"[ \t\n\r]*")
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?")
_WORD = re.compile(r"-?[A-Za-z]+")
_NO_NUMBER = ("NaN", "Infinity", "-Infinity")
_WORDS: dict[str, str | None] = {"true": "yes", "false": "no", "null": None}
_SURROGATE = re.compile("[\ud800-\udfff]")


class _Reader:
    def __init__(self, text: str, file: str) -> None:
        self.text = text
        self.at = 0
        self.build = Builder(file)
        self._starts = [0, *(match.end() for match in re.finditer(r"\r\n|\r|\n", text))]

    def mark(self, at: int | None = None) -> Mark:
        """Return the position of an offset, by bisection in the starts of lines."""
        offset = self.at if at is None else at
        line = bisect_right(self._starts, offset)
        return Mark(line, offset - self._starts[line - 1] + 1)

    def refuse(self, found: str, wanted: str = "", at: int | None = None) -> InputError:
        return self.build.refuse(self.mark(at), found, wanted)

    def space(self) -> str:
        """Skip white space and return the character that follows, or nothing at the end."""
        match = _SPACE.match(self.text, self.at)
        assert match is not None
        self.at = match.end()
        return self.text[self.at : self.at + 1]

    def string(self) -> str:
        start = self.at
        try:
            value, self.at = scanstring(self.text, start + 1, True)
        except JSONDecodeError as error:
            at = min(error.pos, len(self.text))
            raise self.refuse("this text in quotes cannot be read", _told(error.msg), at) from None
        if _SURROGATE.search(value):
            raise self.refuse(
                "half of a \\u pair stands in this text", "write both halves, or the character itself", start
            )
        return str(value)

    def scalar(self, char: str) -> None:
        start = self.at
        if char == '"':
            self.build.value(self.string(), self.mark(start))
            return
        number = _NUMBER.match(self.text, start)
        if number:
            self.at = number.end()
            self.build.value(number[0], self.mark(start))
            return
        word = _WORD.match(self.text, start)
        if word and word[0] in _WORDS:
            self.at = word.end()
            self.build.value(_WORDS[word[0]], self.mark(start))
            return
        shown = word[0] if word else char
        if not shown:
            raise self.refuse("the text ends too early", "close every { and [")
        if shown in _NO_NUMBER:
            raise self.refuse(f"{shown} is no reading", "write null where nothing was measured")
        if shown == "]":
            raise self.refuse("']' stands where a value is needed", "no comma follows the last entry")
        raise self.refuse(
            f"{shown!r} stands where a value is needed", 'JSON text stands in double quotes, such as "7 3/4 in"'
        )

    def key(self) -> None:
        char = self.space()
        if char != '"':
            wanted = 'a key stands in double quotes, such as "units"; no comma follows the last entry'
            raise self.refuse(f"{char!r} stands where a key is needed" if char else "the text ends too early", wanted)
        start = self.at
        self.build.key(self.string(), self.mark(start))
        if self.space() != ":":
            raise self.refuse("a colon is missing after this key")
        self.at += 1

    def value(self, closers: list[str]) -> bool:
        """Read one value; True when it opened a group that is not empty."""
        char = self.space()
        if char not in ("{", "["):
            self.scalar(char)
            return False
        self.build.open({} if char == "{" else [], self.mark())
        self.at += 1
        closers.append("}" if char == "{" else "]")
        if self.space() == closers[-1]:
            self.at += 1
            self.build.close()
            closers.pop()
            return False
        return True

    def follows(self, closers: list[str]) -> bool:
        """Read what follows a value; True when another value is to come."""
        while closers:
            char = self.space()
            self.at += 1
            if char == ",":
                return True
            if char != closers[-1]:
                self.at -= 1
                shown = f"{char!r} stands here" if char else "the text ends too early"
                raise self.refuse(shown, f"a comma or {closers[-1]} is needed")
            self.build.close()
            closers.pop()
        return False

    def read(self) -> Document:
        closers: list[str] = []
        more = True
        while more:
            if closers and closers[-1] == "}":
                self.key()
            more = self.value(closers) or self.follows(closers)
        if self.space():
            raise self.refuse("more text follows the end of the JSON value", "keep one value in a file")
        return self.build.document()


def _told(message: str) -> str:
    if "Unterminated" in message:
        return 'a closing " is missing'
    if "escape" in message:
        return 'after a backslash only " \\ / b f n r t or uXXXX can stand'
    return "line ends and tabs inside quotes are written \\n and \\t"


def read_json(text: str, file: str) -> Document:
    """Return the document in a JSON text; raises InputError with line and column."""
    if not text.strip():
        build = Builder(file)
        return build.document()
    return _Reader(text, file).read()
