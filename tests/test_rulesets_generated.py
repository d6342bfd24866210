"""What is made of the rule sets is up to date, and a compiled set is the same as the one read from its text."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from rulesets_generated import FOLDER, generated

from stairaudit import Ruleset, load_ruleset
from stairaudit.catalog import content_of
from stairaudit.compiled import stored
from stairaudit.shipped import shipped_ids

FILES = sorted([f"compiled/{name}.json" for name in shipped_ids()] + ["README.md"])


def test_every_file_is_generated_and_no_other_lies_there() -> None:
    there = [path.name for path in (FOLDER / "compiled").iterdir()]

    assert sorted(generated()) == FILES
    assert sorted([*(f"compiled/{name}" for name in there), "README.md"]) == FILES


@pytest.mark.parametrize("name", FILES)
def test_a_generated_file_is_up_to_date(name: str) -> None:
    assert (FOLDER / name).read_text(encoding="utf-8") == generated_files()[name]


_KEPT: dict[str, str] = {}


def generated_files() -> dict[str, str]:
    if not _KEPT:
        _KEPT.update(generated())
    return _KEPT


def plain(ruleset: Ruleset) -> list[object]:
    """Return everything of a rule set that can be compared."""
    rules = [
        {key: value for key, value in vars(rule).items() if key != "measure"}
        | {"measure": (rule.measure.name, rule.measure.at)}
        for rule in ruleset.rules
    ]
    return [rules, *(value for key, value in vars(ruleset).items() if key not in ("rules", "shipped"))]


@pytest.mark.parametrize("name", shipped_ids())
def test_a_compiled_set_is_the_one_in_its_text(name: str, tmp_path: Path) -> None:
    copied = tmp_path / "copy"
    shutil.copytree(FOLDER, copied)
    text = (copied / f"{name}.yaml").read_text(encoding="utf-8").replace(f"\nid: {name}\n", "\nid: the-copy\n", 1)
    (copied / "copy.yaml").write_text(text, encoding="utf-8")
    one, other = plain(load_ruleset(name)), plain(load_ruleset(copied / "copy.yaml"))

    def told(data: list[object]) -> list[object]:
        return [item for item in data if item not in (name, "the-copy") and not _is_digest(item)]

    assert told(one) == told(other)


def _is_digest(item: object) -> bool:
    return isinstance(item, str) and len(item) == 64 and set(item) <= set("0123456789abcdef")


def test_a_set_that_was_edited_is_read_from_its_own_text(tmp_path: Path) -> None:
    folder = tmp_path / "sets"
    shutil.copytree(FOLDER, folder)
    assert stored(folder, "good-practice") is not None

    (folder / "good-practice.yaml").write_text("format: 1\n", encoding="utf-8")
    assert stored(folder, "good-practice") is None
    (folder / "compiled" / "us-irc-2021.json").write_text("{", encoding="utf-8")
    assert stored(folder, "us-irc-2021") is None
    (folder / "compiled" / "us-irc-2021.json").unlink()
    assert stored(folder, "us-irc-2021") is None


def test_a_compiled_set_names_the_sum_of_every_file_it_was_made_of() -> None:
    assert list(json.loads(content_of("us-irc-2021"))["sources"]) == ["us-irc-2021.yaml"]
