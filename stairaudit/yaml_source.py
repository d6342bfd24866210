"""YAML text to plain data with marks, by one pass over parser events: nothing is built by tag or expanded."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from stairaudit.documents import MAX_DEPTH, Builder, Document
from stairaudit.errors import InputError, Mark

_NOTHING = ("", "~", "null", "Null", "NULL")
_PAIR = re.compile("[\ud800-\udbff][\udc00-\udfff]")
_SURROGATE = re.compile("[\ud800-\udfff]")
_PAIR_ESCAPE = re.compile(r"\\u[dD][89a-fA-F]")
_INCH_IN_QUOTES = re.compile(r"""(?:^|[:\-\[{,])\s*("[^"]*[0-9]"(?!\s*(?:$|[,\]}:]|\s#)))""")
_START = re.compile(r"(?:[:\-\[,{]\s+|[\[,{])([@%`&*!|>])")


def loader(text: str = "") -> Any:
    """Return the parser built on libyaml where there is one, else the plain one."""
    import yaml

    # libyaml refuses the escaped surrogate pairs that JSON text may hold
    return yaml.SafeLoader if _PAIR_ESCAPE.search(text) else getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def _mark(event: Any) -> Mark:
    start = event.start_mark
    return Mark(start.line + 1, start.column + 1)


def _slip(line: str) -> tuple[str, str]:
    """Return what is usually wrong with a line that the parser refuses."""
    if "\t" in line[: len(line) - len(line.lstrip())]:
        return "a tab stands at the start of this line", "indent with spaces"
    if _INCH_IN_QUOTES.search(line):
        return (
            "a value in double quotes contains an inch mark",
            "leave the quotes off, or write in for the inch mark",
        )
    start = _START.search(line)
    if start:
        return f"a value starts with {start[1]}", "put the value in single quotes"
    if re.search(r":\s+-\s", line):
        return "a dash follows a colon on one line", "put each list entry on a line of its own, or use [ ]"
    if line.count(": ") > 1 or re.search(r": .*:\s*$", line):
        return "a second colon stands in this line", "put the value in single quotes"
    if line.count('"') % 2:
        return "a double quote is not closed", "close it, or write in for the inch mark"
    return "this line cannot be read as YAML", "look at the indentation, the colons and the brackets here and above"


def _opened(build: Builder, lines: list[str], error: Any) -> InputError | None:
    """Return the error for a quote that is open until the end of the text, or for far too many brackets."""
    at, since = error.problem_mark, error.context_mark
    opener = lines[since.line][since.column :][:1] if since and since.line < len(lines) else ""
    rest = [line[at.column :] for line in lines[at.line : at.line + 1]] + lines[at.line + 1 :] if at else ["?"]
    if opener in ("'", '"') and not "".join(rest).strip():
        mark = Mark(since.line + 1, since.column + 1)
        return build.refuse(mark, "a quote is opened here and not closed", "close it, or leave the quotes off")
    # libyaml gives up on deep nesting before it hands over the first bracket
    before = lines[at.line][: at.column] if at and at.line < len(lines) else ""
    if max(before.count("["), before.count("{")) > MAX_DEPTH:
        mark = Mark(at.line + 1, at.column + 1)
        return build.refuse(mark, f"nested more than {MAX_DEPTH} deep", "a survey needs far less")
    return None


def _refused(build: Builder, text: str, error: Any) -> InputError:
    """Return the error for what the parser refuses, in words of our own and at the line that is at fault."""
    lines = text.splitlines() or [""]
    mark, context = error.problem_mark or error.context_mark, error.context_mark
    number = min(mark.line, len(lines) - 1) if mark else 0
    candidates = [number] + ([context.line] if context and context.line < len(lines) else []) + [number - 1]
    for index in (i for i in candidates if i >= 0):
        inch = _INCH_IN_QUOTES.search(lines[index])
        if inch:
            return build.refuse(Mark(index + 1, inch.start(1) + 1), *_slip(lines[index]))
    opened = _opened(build, lines, error)
    if opened:
        return opened
    for index in (i for i in candidates if i >= 0):
        found, wanted = _slip(lines[index])
        if not found.startswith("this line"):
            column = mark.column + 1 if mark and index == mark.line else 1
            return build.refuse(Mark(index + 1, column), found, wanted)
    return build.refuse(Mark(number + 1, (mark.column + 1) if mark else 1), *_slip(""))


def _whole(value: str, build: Builder, mark: Mark) -> str:
    """Join \\u pairs, as JSON text in a YAML file has them; a half is refused."""
    if not _SURROGATE.search(value):
        return value
    joined = _PAIR.sub(lambda pair: pair[0].encode("utf-16", "surrogatepass").decode("utf-16"), value)
    if _SURROGATE.search(joined):
        found = "half of a \\u pair stands in this text"
        raise build.refuse(mark, found, "write both halves, or the character itself")
    return joined


def _scalar(build: Builder, event: Any, mark: Mark) -> None:
    plain, text = not event.style, event.value
    if not plain:
        text = _whole(text, build, mark)
    if not build.wants_key:
        build.value(None if plain and text in _NOTHING else text, mark)
        return
    if plain and text == "<<":
        raise build.refuse(mark, "<< merges are not read here", "write the keys out")
    build.key(text, mark)


def _group(build: Builder, box: dict[str, object] | list[object], mark: Mark) -> None:
    if build.wants_key:
        raise build.refuse(mark, "a list or group stands where a key is needed", "a key is plain text")
    build.open(box, mark)


def _plain_only(build: Builder, event: Any, mark: Mark) -> None:
    if event.anchor:
        found = "& and * (anchors and aliases) are not read here"
        raise build.refuse(mark, found, "put the text in single quotes if it is meant as text")
    if getattr(event, "tag", None):
        found = f"tags ({event.tag}) are not read here"
        raise build.refuse(mark, found, "put the text in single quotes if it is meant as text")


def _no_tab(build: Builder, mark: Mark, lines: list[str]) -> None:
    """Refuse a tab that indents inside brackets, which libyaml takes and the plain parser does not."""
    before = lines[mark.line - 1][: mark.column - 1] if mark.line <= len(lines) else ""
    if "\t" in before and before.isspace():
        raise build.refuse(Mark(mark.line, 1), *_slip(before + "x"))


def _read(build: Builder, next_event: Callable[[], Any], tabbed: list[str]) -> None:
    """Take every event; `tabbed` holds the lines of a text in which a tab stands, else nothing."""
    import yaml

    documents = 0
    nodes = (yaml.ScalarEvent, yaml.MappingStartEvent, yaml.SequenceStartEvent, yaml.AliasEvent)
    for event in iter(next_event, None):
        kind = type(event)
        if kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
            build.close()
            continue
        if kind is yaml.DocumentStartEvent:
            documents += 1
            if documents > 1:
                raise build.refuse(_mark(event), "a second document begins here", "keep one in a file")
        if kind not in nodes:
            continue
        start = event.start_mark
        mark = Mark(start.line + 1, start.column + 1)
        if tabbed:
            _no_tab(build, mark, tabbed)
        if event.anchor or kind is yaml.AliasEvent or event.tag:
            _plain_only(build, event, mark)
        if kind is yaml.ScalarEvent:
            _scalar(build, event, mark)
        else:
            _group(build, {} if kind is yaml.MappingStartEvent else [], mark)


def read_yaml(text: str, file: str) -> Document:
    """Return the document in a YAML text; raises InputError with line and column."""
    import yaml

    build, parser = Builder(file), loader(text)
    try:
        _read(build, parser(text).get_event, text.splitlines() if "\t" in text else [])
    except yaml.MarkedYAMLError as error:
        raise _refused(build, text, error) from None
    except (yaml.YAMLError, ValueError, OverflowError, RecursionError, UnicodeError):
        raise build.refuse(Mark(1, 1), "this text cannot be read as YAML") from None
    return build.document()
