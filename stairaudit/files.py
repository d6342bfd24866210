"""Files are written whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from pathlib import Path

from stairaudit.errors import InputError, Problem


def _same(one: Path, other: Path) -> bool:
    return os.path.realpath(one) == os.path.realpath(other)


def _refusal(path: Path, force: bool, inputs: Iterable[Path]) -> tuple[str, str] | None:
    try:
        if not path.parent.is_dir():
            return "its folder does not exist", "make the folder first"
        if path.is_dir():
            return "is a folder", "name a file"
        if any(_same(path, one) for one in inputs):
            return "is read in this run", "name another file for the document"
        if path.exists() and not force:
            return "is there already", "use --force to write over it"
    except OSError as error:
        return f"cannot be written: {error.strerror}", ""
    return None


def refuse_existing(paths: Sequence[Path], force: bool, inputs: Sequence[Path] = ()) -> list[Problem]:
    """Return a problem for every path that must not or cannot be written, or that is named twice."""
    problems = []
    for index, path in enumerate(paths):
        refusal = _refusal(path, force, inputs)
        if refusal is None and any(_same(path, earlier) for earlier in paths[:index]):
            refusal = "is named twice", "name each document once"
        if refusal is not None:
            problems.append(Problem(str(path), *refusal))
    return problems


def _part_of(path: Path) -> Path:
    """Return the name to write to first: one fixed and short name for each file, so that no strays pile up."""
    import hashlib

    return path.with_name(f".part-{hashlib.sha256(path.name.encode()).hexdigest()[:16]}")


def _write_part(path: Path, content: str | bytes) -> None:
    with path.open("wb") as out:
        out.write(content.encode() if isinstance(content, str) else content)
        out.flush()
        os.fsync(out.fileno())


def write_whole(contents: Sequence[tuple[Path, str | bytes]]) -> None:
    """Write bytes, and texts as UTF-8: all beside their files first, then each put in its place.

    Raises InputError when one cannot be written; then none is.
    """
    real = [(path, Path(os.path.realpath(path)), content) for path, content in contents]
    at = real[0][0] if real else Path()
    try:
        for path, target, content in real:
            at = path
            _write_part(_part_of(target), content)
        for path, target, _ in real:
            at = path
            _part_of(target).replace(target)
    except OSError as error:
        raise InputError([Problem(str(at), f"cannot be written: {error.strerror}")]) from None
    finally:
        for _, target, _ in real:
            _part_of(target).unlink(missing_ok=True)
