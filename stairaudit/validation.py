"""From what pydantic found to problems in the person's own words; for surveys and rule sets alike."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError

from stairaudit.documents import Document, Path
from stairaudit.errors import Mark, Problem
from stairaudit.places import place_of

if TYPE_CHECKING:
    from pydantic_core import ErrorDetails

Model = TypeVar("Model", bound=BaseModel)

SHORT = 60
SHAPES = {
    "model_type": "a group of keys is needed here",
    "tuple_type": "a list is needed here",
    "string_type": "text is needed here",
    "dict_type": "a group of keys is needed here",
}


def _real_path(document: Document, loc: tuple[str | int, ...], keep_last: bool) -> Path:
    path: list[str | int] = []
    for index, step in enumerate(loc):
        known = (*path, step) in document.marks
        if known or (keep_last and index == len(loc) - 1):
            path.append(step)
    return tuple(path)


def _models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _models_in(inner)


def _model_at(model: type[BaseModel], path: Path) -> type[BaseModel] | None:
    for step in path:
        field = model.model_fields.get(str(step))
        if isinstance(step, int):
            continue
        inside = (
            list(_models_in(field.annotation)) + [m for x in field.metadata for m in _models_in(x)] if field else []
        )
        if not inside:
            return None
        model = inside[0]
    return model


def _unknown_key(model: type[BaseModel], path: Path) -> tuple[str, str]:
    owner = _model_at(model, path[:-1])
    names = list(owner.model_fields) if owner else []
    key = str(path[-1])
    near = difflib.get_close_matches(key, names, 1)
    wanted = f"did you mean {near[0]!r}?" if near else "known here: " + ", ".join(names)
    return f"unknown key {key!r}", wanted


def _shown(raw: object) -> str:
    if isinstance(raw, str):
        return repr(raw if len(raw) <= SHORT else raw[:SHORT] + "...")
    return "nothing" if raw is None else "a list" if isinstance(raw, (list, tuple)) else "a group of keys"


def _words(model: type[BaseModel], error: ErrorDetails, path: Path) -> tuple[str, str]:
    kind, raw = error["type"], error.get("input")
    if kind == "extra_forbidden":
        return _unknown_key(model, path)
    if kind == "missing":
        return f"the key {path[-1]!r} is missing", "it is required"
    if kind in ("literal_error", "enum"):
        shown = _shown(raw)
        return f"{shown} stands here", f"accepted: {error['ctx']['expected']}"
    if kind == "string_pattern_mismatch":
        return f"{_shown(raw)} stands here", "use a to z, 0 to 9, dash, dot and underscore, without spaces"
    if kind == "string_too_long":
        return f"{_shown(raw)} stands here", f"at most {error['ctx']['max_length']} characters"
    if kind == "string_too_short":
        return "nothing stands here", "text is needed here"
    if kind == "too_short":
        return "an empty list stands here", "at least one entry is needed"
    if kind in SHAPES:
        shown = _shown(raw)
        or_none = ", or none where there is none" if "=some" in error["loc"] else ""
        return f"{shown} stands here", SHAPES[kind] + or_none
    return error["msg"].removeprefix("Value error, "), ""


def problem_at(document: Document, path: Path, found: str, wanted: str, key: bool = False) -> Problem:
    """Return a problem with the position and breadcrumb of `path`."""
    mark: Mark | None = document.mark(path, key=key)
    return Problem(document.file, found, wanted, place_of(document.data, path), mark)


def _problems(document: Document, model: type[BaseModel], error: ValidationError) -> Iterable[Problem]:
    for detail in error.errors(include_url=False):
        if detail["type"] == "too_short" and detail["input"]:
            continue  # the list has entries, and what is wrong with them is told
        named = detail["type"] in ("missing", "extra_forbidden")
        path = _real_path(document, detail["loc"], keep_last=named)
        found, wanted = _words(model, detail, path)
        at = path[:-1] if named else path
        if detail["type"] == "extra_forbidden":
            mark = document.mark(path, key=True)
            yield Problem(document.file, found, wanted, place_of(document.data, at), mark)
        else:
            yield problem_at(document, at, found, wanted)


def validated(model: type[Model], document: Document, context: dict[str, Any]) -> tuple[Model | None, list[Problem]]:
    """Return the model, or None with every problem that was found."""
    try:
        return model.model_validate(document.data, context=context), []
    except ValidationError as error:
        return None, list(_problems(document, model, error))


def in_order(problems: Iterable[Problem]) -> list[Problem]:
    """Return the problems from the top of the file to its end."""
    return sorted(problems, key=lambda problem: (problem.file, problem.mark or Mark(0, 0)))
