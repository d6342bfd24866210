"""When a caution or a question has its place: a small closed list of things a survey tells."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from stairaudit.survey import Stair, Survey

Asked = Mapping[str, Any]
# An answer is the set of words that a survey gives; where it is silent, the word `unknown`.
Answer = Callable[[Any], Iterable[str | None]]


def first_year(text: str | None) -> int | None:
    """Return the first year of a text such as 1990-1996, None where there is none.

    >>> first_year("1990-1996"), first_year("unknown")
    (1990, None)
    """
    match = re.search(r"\d{4}", text or "")
    return int(match[0]) if match else None


def _materials(stair: Stair) -> Iterable[str | None]:
    for flight in stair.flights:
        yield flight.tread_material


# Seen on site, these say that a person may fall with the part; the others that a part may not hold when it is needed.
GRAVE = ("rot", "split_at_notch", "top_bearing_loose", "heel_on_soil", "loose_tread")


def _condition(stair: Stair) -> Iterable[str | None]:
    told = stair.condition
    seen = [name for name in type(told).model_fields if getattr(told, name) == "seen"] if told is not None else []
    yield "grave" if set(seen) & set(GRAVE) else "seen" if seen else "not-seen"


def _edition(survey: Survey) -> Iterable[str]:
    yield "told" if survey.authority is not None and survey.authority.edition else "not-told"


def _between_homes(stair: Stair) -> Iterable[str | None]:
    for guard in stair.guards or ():
        yield {True: "yes", False: "no", None: None}[guard.between_homes]


OF_SURVEY: dict[str, Answer] = {
    "purpose": lambda survey: (survey.purpose or "as-found",),
    "tenure": lambda survey: (survey.tenure,),
    "edition": _edition,
}
OF_STAIR: dict[str, Answer] = {
    "setting": lambda stair: (stair.setting,),
    "built": lambda stair: ("unknown" if first_year(stair.built) is None else "told",),
    "use": lambda stair: (stair.use,),
    "form": lambda stair: (flight.form or "straight" for flight in stair.flights),
    "material": _materials,
    "condition": _condition,
    "lighting": lambda stair: ("unknown" if stair.lighting is None else "told",),
    "between_homes": _between_homes,
}
BUILT_BEFORE = "built_before"


def _built_before(stair: Stair, year: str) -> bool:
    built = first_year(stair.built)
    return built is None or built < int(year)


def _of_stair(stair: Stair, asked: Asked) -> bool:
    for name, words in asked.items():
        if name == BUILT_BEFORE:
            if not _built_before(stair, words):
                return False
        elif name in OF_STAIR and not {word or "unknown" for word in OF_STAIR[name](stair)} & set(words):
            return False
    return True


def fits(asked: Asked | None, survey: Survey) -> bool:
    """Say whether everything asked for holds: of the survey, and of one stair of it at once.

    Each key takes a list of words, of which one must be told; `unknown` in it lets silence count.
    `built_before` takes a year, and an unknown age counts as older.
    """
    if not asked:
        return True
    for name, words in asked.items():
        if name in OF_SURVEY and not {word or "unknown" for word in OF_SURVEY[name](survey)} & set(words):
            return False
    return any(_of_stair(stair, asked) for stair in survey.stairs)
