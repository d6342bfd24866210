"""Surveys that cannot be read, each with the messages that stand beside it; drop in a file to add a test."""

from __future__ import annotations

from pathlib import Path

import pytest

from stairaudit.errors import InputError
from stairaudit.loading import read_survey_file, survey_of

MALFORMED = sorted((Path(__file__).parent / "surveys" / "malformed").glob("*.yaml"))


@pytest.mark.parametrize("path", MALFORMED, ids=lambda path: path.stem)
def test_every_problem_is_told_with_its_place(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(path.parent)
    with pytest.raises(InputError) as caught:
        survey_of(read_survey_file(Path(path.name)))

    assert str(caught.value) + "\n" == path.with_suffix(".txt").read_text(encoding="utf-8")
