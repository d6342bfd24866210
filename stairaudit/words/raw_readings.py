"""Every reading of a survey as it was typed, found by walking the models, so that no field can be forgotten."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Any, NamedTuple, get_args

from pydantic import BaseModel

from stairaudit.documents import Path
from stairaudit.places import place_of
from stairaudit.quantities import Kind, show
from stairaudit.readings import Field, Reading
from stairaudit.survey import Survey


class Raw(NamedTuple):
    """One reading: where, as typed, and what that is in both systems; repeats stand beside their mean."""

    place: str
    typed: str
    customary: str
    metric: str


class RawGroup(NamedTuple):
    """The readings of one flight, of the rest of one stair, or of the visit."""

    title: str
    rows: tuple[Raw, ...]


class _Leaf(NamedTuple):
    path: Path
    reading: Reading
    kind: Kind
    aside: str


def _fields_in(annotation: Any) -> Iterator[Field]:
    if isinstance(annotation, Field):
        yield annotation
    for part in get_args(annotation):
        yield from _fields_in(part)


@lru_cache(maxsize=512)
def kind_of(model: type[BaseModel], name: str) -> Kind | None:
    """Return what sort of quantity a field of a model is, None for a field without readings of its own."""
    told = model.model_fields[name]
    kinds = [field.kind for part in (*told.metadata, told.annotation) for field in _fields_in(part)]
    return kinds[0] if kinds else None


def _plain(value: Any) -> Any:
    """Return models as mappings and tuples as lists, as a file would hold them; readings stay."""
    if isinstance(value, Reading):
        return value
    if isinstance(value, BaseModel):
        return {name: _plain(getattr(value, name)) for name in type(value).model_fields}
    return [_plain(item) for item in value] if isinstance(value, tuple) else value


def _aside(model: BaseModel, name: str) -> str:
    passes = getattr(model, "passes", None) if name == "ball" else None
    return "" if passes is None else " (passes)" if passes else " (does not pass)"


def _leaves(value: Any, path: Path, kind: Kind | None, aside: str = "") -> Iterator[_Leaf]:
    if isinstance(value, Reading):
        if kind is None:
            raise TypeError(f"{path} holds a reading of no known kind")
        yield _Leaf(path, value, kind, aside)
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            inner = getattr(value, name)
            yield from _leaves(inner, (*path, name), kind_of(type(value), name), _aside(value, name))
    elif isinstance(value, tuple):
        alone = len(value) == 1 and isinstance(value[0], Reading)
        for index, item in enumerate(value):
            yield from _leaves(item, path if alone else (*path, index), kind)


def _group_of(path: Path) -> Path:
    ends = [index + 2 for index, step in enumerate(path) if step in ("stairs", "flights")]
    return path[: max(ends)] if ends else ()


def _typed(leaf: _Leaf) -> str:
    repeats = leaf.reading.repeats
    mean = f" (mean of {len(repeats)})" if len(repeats) > 1 else ""
    return f"{leaf.reading.typed}{mean}{leaf.aside}"


def _row(leaf: _Leaf, data: Any, head: str) -> Raw:
    place = place_of(data, leaf.path).removeprefix(head).removeprefix(", ")
    value = leaf.reading.value
    return Raw(place, _typed(leaf), show(leaf.kind, value, "in"), show(leaf.kind, value, "mm"))


def raw_readings(survey: Survey) -> tuple[RawGroup, ...]:
    """Return every reading of a survey, each flight and stair by itself."""
    data = _plain(survey)
    groups: dict[Path, list[Raw]] = {}
    for leaf in _leaves(survey, (), None):
        key = _group_of(leaf.path)
        groups.setdefault(key, []).append(_row(leaf, data, place_of(data, key)))
    return tuple(RawGroup(place_of(data, key) or "the visit", tuple(rows)) for key, rows in groups.items())
