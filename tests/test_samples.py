"""The sample documents in reports/ are what the program writes today, and what the README shows is true."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from samples import REPORTS, samples
from typer.testing import CliRunner

from stairaudit.cli import app

README = (Path(__file__).parent.parent / "README.md").read_text(encoding="utf-8")
SAMPLES = samples()


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_a_sample_is_up_to_date(name: str) -> None:
    assert SAMPLES[name] == (REPORTS / name).read_bytes()


def test_no_sample_is_left_behind() -> None:
    assert {path.name for path in REPORTS.iterdir()} == set(SAMPLES)


def blocks(kind: str) -> list[str]:
    return re.findall(rf"```{kind}\n(.*?)```", README, re.S)


def test_the_survey_of_the_readme_gives_what_it_shows(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("steps.yaml").write_text(blocks("yaml")[0], encoding="utf-8")
    done = CliRunner().invoke(app, ["check", "steps.yaml", "-r", "us-irc-2021"])

    assert done.exit_code == 1
    assert blocks("text")[0] in done.stdout


def test_the_mistake_of_the_readme_is_told_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("steps.yaml").write_text(blocks("yaml")[0].replace("7 1/2, 7 1/2", "7 3/5, 7 1/2"), encoding="utf-8")
    done = CliRunner().invoke(app, ["check", "steps.yaml"])

    assert done.stderr.startswith(blocks("text")[1].strip())


def test_the_county_of_the_readme_can_be_used(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("steps.yaml").write_text(blocks("yaml")[0].replace("7 13/16", "8 1/8"), encoding="utf-8")
    Path("marl-county.yaml").write_text(blocks("yaml")[1], encoding="utf-8")
    done = CliRunner().invoke(app, ["check", "steps.yaml", "-r", "./marl-county.yaml"])

    assert "8 1/8 in; at most 8 1/4 in" in done.stdout
    assert "This rule set is your own file; it was not shipped with stairaudit." in " ".join(done.stdout.split())
    assert "Light at the top landing" not in done.stdout


def test_the_library_example_of_the_readme_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("steps.yaml").write_text(blocks("yaml")[0], encoding="utf-8")
    printed: list[tuple[object, ...]] = []
    exec(blocks("python")[0], {"print": lambda *words: printed.append(words)})

    assert printed == [
        ("riser 5", "R311.7.5.1", "Riser height"),
        ("flight", "R311.7.5.1", "Riser spread in a flight"),
    ]
