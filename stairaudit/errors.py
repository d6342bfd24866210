"""What goes wrong for the person, told so that it can be put right."""

from __future__ import annotations

from typing import NamedTuple


class Mark(NamedTuple):
    """A position in a text, counted from 1 as people count."""

    line: int
    column: int


class Problem(NamedTuple):
    """One thing to put right: where it stands, what was found, what is accepted."""

    file: str
    found: str
    wanted: str = ""
    place: str = ""
    mark: Mark | None = None

    def __str__(self) -> str:
        where = self.file if self.mark is None else f"{self.file}:{self.mark.line}:{self.mark.column}"
        place = f" {self.place}:" if self.place else ""
        wanted = f"; {self.wanted}" if self.wanted else ""
        return f"{where}:{place} {self.found}{wanted}"


class InputError(Exception):
    """The person's file or options need a change; `problems` lists every one that was found."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = problems
        super().__init__("\n".join(str(problem) for problem in problems))


class SurveyError(InputError):
    """A survey file that cannot be read as a survey."""


class RulesetError(InputError):
    """A rule set that cannot be read, found or resolved."""
