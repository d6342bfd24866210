"""Files are written whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

from stairaudit.errors import InputError, Problem


def refuse_existing(paths: list[Path], force: bool) -> None:
    """Raise InputError for every path that exists, unless `force`, or whose folder is missing."""
    problems = []
    for path in paths:
        if not path.parent.is_dir():
            problems.append(Problem(str(path), "its folder does not exist", "make the folder first"))
        elif path.is_dir():
            problems.append(Problem(str(path), "is a folder", "name a file"))
        elif path.exists() and not force:
            problems.append(Problem(str(path), "is there already", "use --force to write over it"))
    if problems:
        raise InputError(problems)


def write_whole(path: Path, text: str) -> None:
    """Write a text as UTF-8: beside the file first, then put in its place; raises InputError when it cannot be."""
    path = path.resolve()
    part = path.with_name(f".{path.name}.part")
    try:
        with part.open("w", encoding="utf-8", newline="") as out:
            out.write(text)
            out.flush()
            os.fsync(out.fileno())
        part.replace(path)
    except OSError as error:
        raise InputError([Problem(path.name, f"cannot be written: {error.strerror}")]) from None
    finally:
        part.unlink(missing_ok=True)
