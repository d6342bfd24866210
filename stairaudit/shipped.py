"""Where rule sets lie: the shipped ones, then folders of the user's own; light enough for shell completion."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path

HERE = Path(__file__).parent
SUFFIXES = (".yaml", ".yml", ".json")
# Folders of rule sets, separated as in PATH.
FOLDERS = "STAIRAUDIT_RULESETS"


def shipped_folder() -> Path:
    """Return the package's own folder of rule sets, else the one beside the checkout's pyproject.toml."""
    inside = HERE / "rulesets"
    return inside if inside.is_dir() else HERE.parent / "rulesets"


def shipped_ids() -> list[str]:
    """Return the ids of the shipped rule sets."""
    return sorted(path.stem for path in shipped_folder().glob("*.yaml"))


def configuration_folder() -> Path:
    """Return the user's configuration folder of stairaudit, where it is usual for the system."""
    if os.name == "nt":
        return Path(os.environ.get("APPDATA") or Path.home()) / "stairaudit"
    return Path(os.environ.get("XDG_CONFIG_HOME") or Path.home() / ".config") / "stairaudit"


def user_folders(named: Sequence[Path] = ()) -> Iterator[Path]:
    """Yield the folders in which own sets are looked for: named ones, those of the environment, the usual one."""
    yield from named
    yield from (Path(folder) for folder in os.environ.get(FOLDERS, "").split(os.pathsep) if folder)
    yield configuration_folder() / "rulesets"


def own_sets(named: Sequence[Path] = ()) -> dict[str, Path]:
    """Return the user's own rule sets by the names of their files; the first folder that has one wins."""
    found: dict[str, Path] = {}
    for folder in user_folders(named):
        for path in sorted(folder.glob("*")) if folder.is_dir() else ():
            if path.suffix.lower() in SUFFIXES:
                found.setdefault(path.stem, path)
    return found
