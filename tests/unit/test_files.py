"""Files are written whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from stairaudit.errors import InputError
from stairaudit.files import refuse_existing, write_whole


def test_a_text_is_written_with_its_line_ends(tmp_path: Path) -> None:
    write_whole(tmp_path / "a.csv", "é\r\n")

    assert (tmp_path / "a.csv").read_bytes() == "é\r\n".encode()
    assert [path.name for path in tmp_path.iterdir()] == ["a.csv"]


def test_a_write_that_breaks_leaves_the_earlier_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.html"
    path.write_text("before")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(InputError) as caught:
        write_whole(path, "after")

    assert str(caught.value) == "a.html: cannot be written: No space left on device"
    assert path.read_text() == "before"
    assert [item.name for item in tmp_path.iterdir()] == ["a.html"]


def test_every_path_that_cannot_be_written_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("here.md").touch()
    Path("folder").mkdir()
    with pytest.raises(InputError) as caught:
        refuse_existing([Path("here.md"), Path("folder"), Path("none/x.md")], force=False)

    assert str(caught.value) == (
        "here.md: is there already; use --force to write over it\n"
        "folder: is a folder; name a file\n"
        "none/x.md: its folder does not exist; make the folder first"
    )


def test_a_link_is_written_through(tmp_path: Path) -> None:
    (tmp_path / "real.md").write_text("before")
    (tmp_path / "link.md").symlink_to("real.md")
    write_whole(tmp_path / "link.md", "after")

    assert (tmp_path / "link.md").is_symlink()
    assert (tmp_path / "real.md").read_text() == "after"
