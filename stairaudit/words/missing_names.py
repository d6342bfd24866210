"""What a finding misses, in plain words; the table of names and topics stands in missing_names.yaml."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Any, NamedTuple

from stairaudit.findings import Finding
from stairaudit.packaged import packaged
from stairaudit.words.figures import at_words

_END = r"(?: (?:left|right|centre|end))?(?: \d+)?(?: level)?"
_PART = re.compile(
    rf"(landing (?:top|bottom|middle \d+)(?: guard{_END}| side \w+)?|(?:handrail|guard){_END}|side (?:left|right)"
    r"|(?:riser|tread|nosing|glazing) \d+) (?!side \w+$)(.+)"
)


class Topic(NamedTuple):
    """What some measures look at: its name, and what its missing names begin with, and are when nothing was told.

    `told_by` is what of a stair tells all of it.
    """

    name: str
    own: str
    bare: str
    told_by: str


def _book() -> dict[str, Any]:
    return packaged("words/missing_names.yaml")


@lru_cache(maxsize=512)
def topic_of(measure: str) -> Topic:
    """Return the topic that a measure belongs to."""
    told = next(topic for topic in _book()["topics"] if measure.startswith(tuple(map(_text, topic["measures"]))))
    return Topic(told["name"], told.get("own", ""), told.get("bare", ""), told.get("told_by", ""))


def _text(told: str | None) -> str:
    return told or ""


@lru_cache(maxsize=2048)
def _split(name: str) -> tuple[str, str]:
    """Return the part that a missing name is about, empty for none, and what of it is missing, in plain words."""
    book = _book()
    if name in book["names"]:
        return "", book["names"][name]
    if name.startswith("guard on "):
        return "", f"whether a {name.replace(' on ', ' stands on ')}"
    found = _PART.fullmatch(name)
    return (found[1], book["of_parts"].get(found[2], found[2])) if found else ("", name)


def missing_of(finding: Finding) -> tuple[str, ...]:
    """Return the names of what a finding misses; of a part that was read at some places, the places that are open."""
    names: dict[str, None] = {}
    for name in finding.missing:
        places = finding.gaps if name == finding.part else ()
        what = finding.rule.measure.name.replace("-", " ") if name in ("flight", "stair") else name
        names.update(dict.fromkeys(f"{what}{at_words(at)}" for at in places) if places else {name: None})
    return tuple(names)


def plainly(names: Iterable[str]) -> tuple[str, ...]:
    """Return missing names in plain words, those of one part together.

    >>> plainly(["flight risers", "handrail left clearance", "handrail left grip recess depth at", "riser 3"])[1:]
    ('handrail left: clearance to the wall, how low the finger recess is deepest', 'riser 3')
    """
    parts: dict[tuple[str, str], dict[str, None]] = {}
    for part, words in map(_split, names):
        parts.setdefault((part, "" if part else words), {})[words] = None
    return tuple(f"{part}: {', '.join(told)}" if part else words for (part, words), told in parts.items())
