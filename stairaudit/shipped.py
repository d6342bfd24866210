"""Where the shipped rule sets lie; light enough for shell completion."""

from __future__ import annotations

from pathlib import Path

HERE = Path(__file__).parent


def shipped_folder() -> Path:
    """Return the package's own folder of rule sets, else the one beside the checkout's pyproject.toml."""
    inside = HERE / "rulesets"
    return inside if inside.is_dir() else HERE.parent / "rulesets"


def shipped_ids() -> list[str]:
    """Return the ids of the shipped rule sets."""
    return sorted(path.stem for path in shipped_folder().glob("*.yaml"))
