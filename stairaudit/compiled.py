"""Shipped rule sets as data that is ready to use: reading YAML takes longer than all else of an audit together.

Beside each shipped set lies its resolved content as JSON, with the length and the sum of every file that it was made
of. It is used only while these files are as they were; a set that was edited is read from its own text, at once.
"""

from __future__ import annotations

import datetime
import json
import zlib
from pathlib import Path
from types import SimpleNamespace
from typing import Any, NamedTuple

from stairaudit.documents import Document
from stairaudit.rulereading import Resolved, Written

FOLDER = "compiled"
HEAD = ("id", "title", "document", "edition", "publisher", "place", "licence", "status")


class Stored(NamedTuple):
    """A resolved rule set with its digest."""

    resolved: Resolved
    digest: str


def file_of(folder: Path, name: str) -> Path:
    """Return where the content of a shipped set lies."""
    return folder / FOLDER / f"{name}.json"


def sum_of(path: Path) -> list[int]:
    """Return the length and the CRC-32 of a file: they tell an edit, and load no library."""
    content = path.read_bytes()
    return [len(content), zlib.crc32(content)]


def text_of(stored: Stored, sources: list[Path]) -> str:
    """Return a resolved set as text, with the sums of the files that it was made of."""
    resolved, head = stored.resolved, stored.resolved.head
    data = {
        "sources": {path.name: sum_of(path) for path in sources},
        "digest": stored.digest,
        "head": {key: getattr(head, key) for key in HEAD}
        | {"reviewed": head.reviewed.isoformat() if head.reviewed else None, "notes": list(head.notes)},
        "uses": list(resolved.uses),
        "purposes": list(resolved.purposes),
        "rules": [
            [item.text.model_dump(mode="json"), item.document, item.edition, item.replaced] for item in resolved.rules
        ],
    }
    return json.dumps(data, ensure_ascii=False, separators=(",", ":")) + "\n"


def stored(folder: Path, name: str) -> Stored | None:
    """Return the content of a shipped set, None where it is missing or a file that it was made of has changed."""
    try:
        data = json.loads(file_of(folder, name).read_bytes())
        if any(sum_of(folder / file) != told for file, told in data["sources"].items()):
            return None
    except (OSError, ValueError):
        return None
    document = Document(name, {}, {}, {})
    rules = tuple(
        Written(_rule(text), document, (), of, edition, replaced) for text, of, edition, replaced in data["rules"]
    )
    resolved = Resolved(_head(data["head"]), document, rules, tuple(data["uses"]), tuple(data["purposes"]))
    return Stored(resolved, data["digest"])


def _rule(text: dict[str, Any]) -> Any:
    """Return a rule as written, without its model: it was checked when it was stored."""
    unless = None if text["unless"] is None else tuple(text["unless"])
    return SimpleNamespace(**{**text, "unless": unless, "read_in": tuple(text["read_in"])})


def _head(head: dict[str, Any]) -> Any:
    reviewed = datetime.date.fromisoformat(head["reviewed"]) if head["reviewed"] else None
    return SimpleNamespace(**{**head, "reviewed": reviewed, "notes": tuple(head["notes"])})
