"""Surveys and rule sets as named on the command line, with what went wrong kept beside what went well."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from stairaudit.catalog import is_path, load_ruleset
from stairaudit.documents import read_document
from stairaudit.errors import InputError, Problem
from stairaudit.loading import read_survey_file, survey_of
from stairaudit.ruleset import Ruleset
from stairaudit.survey import Survey

FALLBACK = "good-practice"
STDIN = "-"


class Loaded(NamedTuple):
    """One survey by the name that documents give it, with its rule sets."""

    file: str
    survey: Survey
    rulesets: tuple[Ruleset, ...]
    fallback: bool


def shown_name(name: str) -> str:
    """Return a file name for documents: as typed, without the folders of an absolute path."""
    if name == STDIN:
        return "standard input"
    path = Path(name)
    return path.name if path.is_absolute() else path.as_posix()


def read_survey(name: str) -> Survey:
    """Return the survey in a file or on standard input; raises InputError."""
    if name == STDIN:
        if sys.stdin is None:
            raise InputError([Problem("standard input", "is closed", "name a file")])
        return survey_of(read_document(sys.stdin.buffer.read(), "standard input"))
    return survey_of(read_survey_file(Path(name)))


Folders = tuple[Path, ...]


def _own_rulesets(name: str, survey: Survey, folders: Folders) -> tuple[Ruleset, ...]:
    folder = Path() if name == STDIN else Path(name).parent
    return tuple(load_ruleset(folder / one if is_path(one) else one, folders) for one in survey.rulesets or ())


def _load(name: str, chosen: tuple[Ruleset, ...], folders: Folders) -> Loaded:
    survey = read_survey(name)
    rulesets = chosen or _own_rulesets(name, survey, folders)
    fallback = not rulesets
    return Loaded(shown_name(name), survey, rulesets or (load_ruleset(FALLBACK),), fallback)


def load_all(
    names: Sequence[str], ruleset_names: Sequence[str], folders: Folders = ()
) -> tuple[list[Loaded], list[Problem]]:
    """Return every survey that can be read, and the problems of the others; a bad rule set raises InputError."""
    chosen = tuple(load_ruleset(name, folders) for name in dict.fromkeys(ruleset_names))
    loaded: list[Loaded] = []
    problems: list[Problem] = []
    for name in names:
        try:
            loaded.append(_load(name, chosen, folders))
        except InputError as error:
            problems += error.problems
    return loaded, problems
