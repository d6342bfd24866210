"""YAML and JSON text to plain data, with the position of every key and value.

Every leaf is text as it was typed, or None: nothing is guessed to be a number, a date or a yes.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from stairaudit.errors import InputError, Mark, Problem

Path = tuple[str | int, ...]

MAX_BYTES = 2_000_000
MAX_DEPTH = 40
MAX_ENTRIES = 200_000

_BOMS = ((b"\xff\xfe", "UTF-16"), (b"\xfe\xff", "UTF-16"))
_SAVE = "save the file as UTF-8 (in the save dialog of the editor)"
_LINE_END = re.compile(r"\r\n|\r|\n")
# Control characters, and what the formats disagree on: YAML 1.1 breaks lines at U+0085, U+2028 and U+2029,
# JSON does not; halves of a surrogate pair, a byte order mark inside the text and U+FFFE, U+FFFF are no text.
_ODD = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]")


@dataclass(frozen=True, slots=True)
class Document:
    """Plain data (dict, list, str, None) with the marks of values and of keys by path."""

    file: str
    data: object
    marks: Mapping[Path, Mark]
    key_marks: Mapping[Path, Mark]

    def mark(self, path: Path, *, key: bool = False) -> Mark | None:
        """Return where the value (or the key) of a path stands, else where its nearest parent does."""
        if key and path in self.key_marks:
            return self.key_marks[path]
        for end in range(len(path), -1, -1):
            if path[:end] in self.marks:
                return self.marks[path[:end]]
        return None


class Builder:
    """Data in the making: puts keys and values in place, and refuses what goes beyond the limits."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.root: object = None
        self.marks: dict[Path, Mark] = {}
        self.key_marks: dict[Path, Mark] = {}
        self.problems: list[Problem] = []
        self._entries = 0
        self._open: list[tuple[dict[str, object] | list[object], Path]] = []
        self._key: list[str | None] = []
        self._seen: list[dict[str, Mark]] = []

    def refuse(self, mark: Mark | None, found: str, wanted: str = "") -> InputError:
        """Return the error that ends reading, with the problems found before."""
        return InputError([*self.problems, Problem(self.file, found, wanted, "", mark)])

    @property
    def in_mapping(self) -> bool:
        """Is a mapping open?"""
        return bool(self._open) and isinstance(self._open[-1][0], dict)

    @property
    def wants_key(self) -> bool:
        """Is a mapping open whose next text is a key?"""
        return self.in_mapping and self._key[-1] is None

    def key(self, name: str, mark: Mark) -> None:
        """Take a key of the open mapping; one that was there before is a problem."""
        if not name:
            raise self.refuse(mark, "a key without a name stands here", "a key is plain text")
        self._check(name, mark)
        seen = self._seen[-1]
        if name in seen:
            first = seen[name]
            found = f"the key {name!r} stands here again (first at line {first.line}, column {first.column})"
            self.problems.append(Problem(self.file, found, "keep one of them", "", mark))
        else:
            seen[name] = mark
        _, path = self._open[-1]
        self.key_marks.setdefault((*path, name), mark)
        self._key[-1] = name

    def value(self, value: object, mark: Mark) -> Path:
        """Put a value in its place and return its path."""
        self._entries += 1
        if self._entries > MAX_ENTRIES:
            raise self.refuse(mark, f"more than {MAX_ENTRIES:,} entries", "split the file")
        if isinstance(value, str):
            self._check(value, mark)
        path: Path = ()
        if self._open:
            box, parent = self._open[-1]
            if isinstance(box, list):
                path = (*parent, len(box))
                box.append(value)
            else:
                name = self._key[-1] or ""
                path = (*parent, name)
                box.setdefault(name, value)
                self._key[-1] = None
        else:
            self.root = value
        self.marks.setdefault(path, mark)
        return path

    def open(self, box: dict[str, object] | list[object], mark: Mark) -> None:
        """Begin a mapping or a list."""
        if len(self._open) >= MAX_DEPTH:
            raise self.refuse(mark, f"nested more than {MAX_DEPTH} deep", "a survey needs far less")
        path = self.value(box, mark)
        self._open.append((box, path))
        self._key.append(None)
        self._seen.append({})

    def close(self) -> None:
        """End the mapping or list that was begun last."""
        self._open.pop()
        self._key.pop()
        self._seen.pop()

    def _check(self, value: str, mark: Mark) -> None:
        """Refuse a NUL brought by an escape; other control characters are kept, and shown when written out."""
        if "\0" in value:
            raise self.refuse(mark, _odd_words("\0"), "delete it")

    def document(self) -> Document:
        """Return what was built; raises InputError when a key stood twice."""
        if self.problems:
            raise InputError(self.problems)
        return Document(self.file, self.root, self.marks, self.key_marks)


def _odd_words(char: str) -> str:
    return f"the character U+{ord(char):04X} has no place in a text"


def _end(text: str) -> Mark:
    """Return the position just after a text."""
    starts = [0, *(match.end() for match in _LINE_END.finditer(text))]
    return Mark(len(starts), len(text) - starts[-1] + 1)


def _decoded(text: bytes, file: str) -> str:
    for bom, name in _BOMS:
        if text.startswith(bom):
            raise InputError([Problem(file, f"the text is {name}", _SAVE, "", Mark(1, 1))])
    try:
        return text.decode("utf-8")
    except UnicodeDecodeError as error:
        found = f"the byte 0x{text[error.start]:02x} is not UTF-8 text"
        before = text[: error.start].decode("utf-8").removeprefix("\ufeff")
        raise InputError([Problem(file, found, _SAVE, "", _end(before))]) from None


def _refuse_odd(text: str, file: str) -> None:
    odd = _ODD.search(text)
    if odd:
        mark = _end(text[: odd.start()])
        raise InputError([Problem(file, _odd_words(odd[0]), "delete it", "", mark)])


def _is_json(text: str, file: str) -> bool:
    """Say which reader a text is for: by the name's ending, else JSON where it begins like JSON."""
    name = file.lower()
    if name.endswith((".json", ".yaml", ".yml")):
        return name.endswith(".json")
    start = text.lstrip(" \t\r\n\ufeff")[:80]
    return start.startswith("{") and start[1:].lstrip(" \t\r\n")[:1] in ('"', "}")


def read_document(text: bytes | str, file: str) -> Document:
    """Read YAML or JSON text.

    Parameters
    ----------
    text
        At most 2 MB of UTF-8, with or without a byte order mark, with any line ends.
    file
        The name to use in messages; its ending picks the reader. Other names: JSON when the text begins
        with `{"` or `{}`, else YAML.

    Returns
    -------
    Document
        Data of dict, list, str and None. A missing value, `~` and `null` are None; JSON true and false are yes
        and no; every other scalar is the text as typed.

    Raises
    ------
    InputError
        Duplicate keys (all of them), or the first thing that cannot be read, with line and column.

    Examples
    --------
    >>> read_document("door: 6:8\\nstep: 010", "a.yaml").data
    {'door': '6:8', 'step': '010'}
    """
    size = len(text) if isinstance(text, bytes) else len(text.encode("utf-8", "surrogatepass"))
    if size > MAX_BYTES:
        raise InputError([Problem(file, f"the file is larger than {MAX_BYTES:,} bytes", "split it")])
    plain = (_decoded(text, file) if isinstance(text, bytes) else text).removeprefix("\ufeff")
    _refuse_odd(plain, file)
    if _is_json(plain, file):
        from stairaudit.json_source import read_json

        return read_json(plain, file)
    from stairaudit.yaml_source import read_yaml

    return read_yaml(plain, file)
