"""Where a key stands, in the words of the person who wrote the file."""

from __future__ import annotations

from stairaudit.documents import Path

NAMED = {"stairs": "stair", "flights": "flight"}
SIDED = {"handrails": "handrail", "guards": "guard"}
COUNTED = {
    "risers": "riser",
    "treads": "tread",
    "nosings": "nosing",
    "levels": "level",
    "heights": "height",
    "openings": "opening",
    "riser_openings": "riser opening",
    "glazing": "glazing",
    "middle": "middle landing",
    "rules": "rule",
    "rulesets": "rule set",
    "again": "repeat",
    "photos": "photo",
    "along": "stretch",
}


def _child(data: object, step: str | int) -> object:
    if isinstance(data, dict):
        return data.get(step)
    if isinstance(data, list) and isinstance(step, int) and step < len(data):
        return data[step]
    return None


def _item(key: str, index: int, child: object) -> str:
    told = child if isinstance(child, dict) else {}
    if key in NAMED:
        word = NAMED[key]
        return f"{word} {told['id']!r}" if isinstance(told.get("id"), str) else f"{word} {index + 1}"
    if key in SIDED:
        side = told.get("side")
        return f"{SIDED[key]} {repr(side)[1:-1] if isinstance(side, str) else index + 1}"
    if key in ("rules", "add", "replace") and isinstance(told.get("id"), str):
        return f"rule {told['id']!r}"
    return f"{COUNTED[key]} {index + 1}" if key in COUNTED else f"{key.replace('_', ' ')} {index + 1}"


def place_of(data: object, path: Path) -> str:
    """Return the breadcrumb of a path, such as "stair 'porch', flight 'main', riser 4"."""
    words: list[str] = []
    key = ""
    for index, step in enumerate(path):
        data = _child(data, step)
        if isinstance(step, int):
            words.append(_item(key, step, data) if key else f"place {step + 1}")
            key = ""
            continue
        key = step
        follows = path[index + 1] if index + 1 < len(path) else None
        if not isinstance(follows, int):
            words.append("landing" if step == "landings" else step.replace("_", " "))
    return ", ".join(words).replace("landing, top", "landing top").replace("landing, bottom", "landing bottom")
