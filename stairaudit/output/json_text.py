"""A result as JSON text."""

from __future__ import annotations

import json
from typing import Any

from stairaudit.output.inert import inert


def render_json(data: dict[str, Any]) -> str:
    """Return the data as indented JSON that ends with a line feed."""
    return inert(json.dumps(data, indent=1, ensure_ascii=False)) + "\n"
