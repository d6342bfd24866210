"""Tables that ship inside the package, each read once."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import Any

from stairaudit.documents import read_document

HERE = Path(__file__).parent


@lru_cache(maxsize=8)
def packaged(name: str) -> dict[str, Any]:
    """Return the table in a YAML file of this package, named by its path below it."""
    data: Any = read_document((HERE / name).read_bytes(), name).data
    table: dict[str, Any] = data
    return table
