"""Which rule sets may be meant for a stair, by place, use, year and purpose; only the local authority knows."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, NamedTuple

from stairaudit.ruleset import Ruleset

Why = Literal["local", "of-its-day", "newest", "existing"]
ORDER: tuple[Why, ...] = ("local", "of-its-day", "newest", "existing")


class Stair(NamedTuple):
    """What is known of a stair: the place in words, its use, the year it was built, what is to be done."""

    place: str
    use: str | None = None
    built: int | None = None
    purpose: str | None = None


class Suggestion(NamedTuple):
    """One rule set that may be meant, and why."""

    ruleset: Ruleset
    why: Why


def _parts(place: str) -> list[str]:
    return [part.strip() for part in re.split(r"[,;]", place) if part.strip()]


def _same(one: str, other: str) -> bool:
    return one.casefold() == other.casefold()


def _local(ruleset: Ruleset) -> list[str]:
    """Return the state and town of a set, nothing where it is for a whole country; remarks follow a semicolon."""
    return [part for part in _parts(ruleset.place.partition(";")[0])[1:] if part[0].isupper()]


def _for_place(ruleset: Ruleset, place: str) -> bool:
    """Say whether a set is for a place: its country is named, or its state or town, and no other state is meant."""
    told = _parts(place)
    local = _local(ruleset)
    named = [any(_same(part, one) for one in told) for part in local]
    country = any(_same(part, one) for part in _parts(ruleset.place)[:1] for one in told)
    return any(named) if local else country


def year_of(ruleset: Ruleset) -> int | None:
    """Return the year of the edition of a set, None where it has none."""
    match = re.search(r"\b(1[89]|20)\d\d\b", ruleset.edition)
    return int(match[0]) if match else None


def _fits(ruleset: Ruleset, stair: Stair) -> bool:
    return ruleset.refuses(stair.use, stair.purpose) is None and _for_place(ruleset, stair.place)


def _of_editions(sets: Sequence[Ruleset], built: int | None) -> Iterator[Suggestion]:
    """Yield the edition of a document that held when a stair was built, and its newest."""
    dated = sorted((year, index) for index, one in enumerate(sets) if (year := year_of(one)) is not None)
    if not dated:
        yield from (Suggestion(one, "newest") for one in sets)
        return
    newest = dated[-1]
    held = [item for item in dated if built is not None and item[0] <= built]
    if held and held[-1] != newest:
        yield Suggestion(sets[held[-1][1]], "of-its-day")
    yield Suggestion(sets[newest[1]], "newest")


def suggested(rulesets: Iterable[Ruleset], stair: Stair) -> list[Suggestion]:
    """Return the sets that may be meant: local, the edition of the stair's day, the newest, those for old stairs."""
    documents: dict[str, list[Ruleset]] = {}
    found: list[Suggestion] = []
    for ruleset in rulesets:
        if not ruleset.place or not _fits(ruleset, stair):
            continue
        if _local(ruleset):
            found.append(Suggestion(ruleset, "local"))
        elif ruleset.purposes:
            found.append(Suggestion(ruleset, "existing"))
        else:
            documents.setdefault(ruleset.document, []).append(ruleset)
    for sets in documents.values():
        found += _of_editions(sets, stair.built)
    return sorted(found, key=lambda one: (ORDER.index(one.why), one.ruleset.id))
