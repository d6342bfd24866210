"""Finds shipped and user rule sets and loads them."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import cache
from pathlib import Path

from stairaudit.compiled import Stored, stored, text_of
from stairaudit.documents import Document, read_document
from stairaudit.errors import InputError, Problem, RulesetError
from stairaudit.overlaps import overlaps
from stairaudit.rulereading import Resolved, near, read_rules
from stairaudit.ruleset import Rule, Ruleset
from stairaudit.shipped import SUFFIXES, own_sets, shipped_folder, shipped_ids
from stairaudit.validation import problem_at

SHORT = 80


def is_path(name: str) -> bool:
    """Say whether a name given for a rule set is a file: it has a path separator or a file's ending."""
    return "/" in name or "\\" in name or name.lower().endswith(SUFFIXES)


def _find(name: str, beside: Path | None = None, folders: Sequence[Path] = ()) -> Path:
    if is_path(name):
        return (beside / name) if beside else Path(name)
    if name in shipped_ids():
        return shipped_folder() / f"{name}.yaml"
    own = own_sets(folders)
    if name not in own:
        wanted = f"{near(name, [*shipped_ids(), *own], 'list')} Shipped: {', '.join(shipped_ids())}"
        raise RulesetError([Problem(name[:SHORT], f"no rule set is called {name[:SHORT]!r}", wanted)])
    return own[name]


def _read(path: Path, shown: str) -> Document:
    try:
        text = path.read_bytes()
    except OSError as error:
        raise RulesetError([Problem(shown, f"cannot be read: {error.strerror}")]) from None
    document = read_document(text, shown)
    if not isinstance(document.data, dict):
        wanted = "it starts with format: 1, id: and rules:"
        raise RulesetError([Problem(shown, "this is no rule set", wanted, "", document.mark(()))])
    return document


def _digest(resolved: Resolved) -> str:
    import hashlib

    head = resolved.head.model_dump(mode="json", exclude={"rules", "add", "replace", "drop", "clauses", "extends"})
    rules = [[item.document, item.edition, item.text.model_dump(mode="json")] for item in resolved.rules]
    text = json.dumps([head, rules], sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def load_ruleset(id_or_path: str | Path, folders: Sequence[Path] = ()) -> Ruleset:
    """Load a rule set.

    Parameters
    ----------
    id_or_path
        The id of a shipped set or of one of the user's own, or a file (a name with a path separator or ending in
        .yaml, .yml, .json).
    folders
        Folders of own sets, looked into before those of the environment and of the user's configuration.

    Returns
    -------
    Ruleset
        The resolved set, with the digest of its content.

    Raises
    ------
    RulesetError
        Every problem of the file at once, with line and column.
    """
    name = str(id_or_path)
    if isinstance(id_or_path, Path) or is_path(name):
        return _built(Path(name), name)
    if name in shipped_ids():
        return _shipped(name)
    found = _find(name, None, folders)
    return _built(found, found.name)


@cache
def _shipped(name: str) -> Ruleset:
    content = stored(shipped_folder(), name)
    if content is None:
        resolved, _ = _resolved(_find(name), name)
        content = Stored(resolved, _digest(resolved))
    rules, problems = read_rules(content.resolved.rules)
    if problems:
        raise RulesetError(problems)
    return _ruleset(content, rules, shipped=True)


def content_of(name: str) -> str:
    """Return the resolved content of a shipped set as text, read from its own file and those that it extends."""
    resolved, sources = _resolved(_find(name), name)
    return text_of(Stored(resolved, _digest(resolved)), sources)


def overlapping(path: Path) -> list[Problem]:
    """Return which rules of a file get in each other's way or can never apply; raises RulesetError."""
    resolved, _ = _resolved(path, str(path))
    rules, problems = read_rules(resolved.rules)
    for overlap in overlaps(rules) if not problems else ():
        written = resolved.rules[overlap.number]
        problems.append(problem_at(written.file, written.path, overlap.found, overlap.wanted))
    return problems


def _resolved(path: Path, shown: str) -> tuple[Resolved, list[Path]]:
    """Return a resolved set with every file that it was made of."""
    from stairaudit.amending import resolve

    opened: dict[str, Path] = {}

    def open_base(name: str, document: Document) -> Document:
        folder = opened[document.file].parent
        found = _find(name, folder)
        label = name if not is_path(name) else str(Path(document.file).parent / name)
        opened[label] = found
        return _read(found, label)

    opened[shown] = path
    return resolve(_as_ruleset_error(path, shown), open_base), list(opened.values())


def _built(path: Path, shown: str) -> Ruleset:
    resolved, _ = _resolved(path, shown)
    rules, problems = read_rules(resolved.rules)
    if problems:
        raise RulesetError(problems)
    head = resolved.head
    if head.id in shipped_ids():
        document = resolved.file
        found = f"the id {head.id!r} is that of a shipped set"
        raise RulesetError([Problem(shown, found, "give yours another", "id", document.mark(("id",)))])
    return _ruleset(Stored(resolved, _digest(resolved)), rules, shipped=False)


def _ruleset(content: Stored, rules: list[Rule], *, shipped: bool) -> Ruleset:
    resolved, head = content.resolved, content.resolved.head
    return Ruleset(
        head.id, head.title, head.document, head.edition, head.publisher, head.place, resolved.uses,
        resolved.purposes, head.licence, head.reviewed, head.status, head.notes, tuple(rules), content.digest,
        shipped,
    )  # fmt: skip


def _as_ruleset_error(path: Path, shown: str) -> Document:
    try:
        return _read(path, shown)
    except RulesetError:
        raise
    except InputError as error:
        raise RulesetError(error.problems) from None
