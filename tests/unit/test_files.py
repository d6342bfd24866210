"""Files are written whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from stairaudit.errors import InputError
from stairaudit.files import refuse_existing, write_whole


def test_a_text_is_written_with_its_line_ends(tmp_path: Path) -> None:
    write_whole([(tmp_path / "a.csv", "é\r\n")])

    assert (tmp_path / "a.csv").read_bytes() == "é\r\n".encode()
    assert [path.name for path in tmp_path.iterdir()] == ["a.csv"]


def test_bytes_are_written_as_they_are(tmp_path: Path) -> None:
    write_whole([(tmp_path / "a.pdf", b"%PDF\r\n\xff\x00"), (tmp_path / "a.md", "é\n")])

    assert (tmp_path / "a.pdf").read_bytes() == b"%PDF\r\n\xff\x00"
    assert (tmp_path / "a.md").read_bytes() == "é\n".encode()


def test_a_write_that_breaks_leaves_the_earlier_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.html"
    path.write_text("before")

    calls: list[int] = []

    def full(handle: int) -> None:
        calls.append(handle)
        if len(calls) == 2:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(InputError) as caught:
        write_whole([(tmp_path / "b.md", "new"), (path, "after")])

    assert str(caught.value) == f"{path}: cannot be written: No space left on device"
    assert path.read_text() == "before"
    assert [item.name for item in tmp_path.iterdir()] == ["a.html"]


def test_every_path_that_cannot_be_written_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("here.md").touch()
    Path("folder").mkdir()
    paths = [Path("here.md"), Path("folder"), Path("none/x.md"), Path("new.md"), Path("./new.md"), Path("a" * 300)]
    problems = refuse_existing(paths, force=False)

    assert [str(problem) for problem in problems] == [
        "here.md: is there already; use --force to write over it",
        "folder: is a folder; name a file",
        "none/x.md: its folder does not exist; make the folder first",
        "new.md: is named twice; name each document once",
        f"{'a' * 300}: cannot be written: File name too long",
    ]


def test_what_is_read_is_never_written_over(tmp_path: Path) -> None:
    survey = tmp_path / "steps.json"
    survey.write_text("{}")
    (tmp_path / "link.json").symlink_to("steps.json")
    problems = refuse_existing([tmp_path / "link.json"], force=True, inputs=[survey])

    assert [problem.found for problem in problems] == ["is read in this run"]


def test_a_name_of_the_greatest_length_can_be_written(tmp_path: Path) -> None:
    path = tmp_path / ("n" * 250 + ".md")
    write_whole([(path, "x")])

    assert path.read_text() == "x"


def test_a_link_is_written_through(tmp_path: Path) -> None:
    (tmp_path / "real.md").write_text("before")
    (tmp_path / "link.md").symlink_to("real.md")
    write_whole([(tmp_path / "link.md", "after")])

    assert (tmp_path / "link.md").is_symlink()
    assert (tmp_path / "real.md").read_text() == "after"
