"""A document to a survey, or every reason why not."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from stairaudit.documents import Document, read_document
from stairaudit.errors import Problem, SurveyError
from stairaudit.structure import slips
from stairaudit.survey import Survey
from stairaudit.validation import in_order, problem_at, validated

UNITS = ("in", "mm", "cm", "ft")


def _measured(data: Any) -> Any:
    """Return the data with the word unmeasured as None, as if the reading had been left out."""
    if isinstance(data, dict):
        return {key: _measured(value) for key, value in data.items()}
    if isinstance(data, list):
        return [_measured(value) for value in data]
    return None if data == "unmeasured" else data


def _plain(data: Any) -> Any:
    if isinstance(data, Mapping):
        return {str(key): _plain(value) for key, value in data.items()}
    if isinstance(data, (list, tuple)):
        return [_plain(value) for value in data]
    if isinstance(data, bool):
        return "yes" if data else "no"
    return data if data is None else str(data)


def survey_of(document: Document) -> Survey:
    """Return the survey in a document; raises SurveyError with every problem found."""
    if not isinstance(document.data, dict):
        wanted = "a survey starts with format: 1, units: in and stairs:"
        raise SurveyError([Problem(document.file, "this is no survey", wanted, "", document.mark(()))])
    units = document.data.get("units")
    plain = Document(document.file, _measured(document.data), document.marks, document.key_marks)
    context = {"units": units if units in UNITS else None}
    survey, problems = validated(Survey, plain, context)
    problems += [problem_at(plain, slip.path, slip.found, slip.wanted) for slip in slips(plain.data)]
    if survey is None or problems:
        raise SurveyError(in_order(problems))
    return survey


def load_survey(source: str | Path | Mapping[str, Any]) -> Survey:
    """Read a survey.

    Parameters
    ----------
    source
        A path to a YAML or JSON file, or the same content as plain data.

    Returns
    -------
    Survey
        The validated survey; lengths in nanometres.

    Raises
    ------
    SurveyError
        Every problem of the file at once, each with its place and what is accepted.
    """
    if isinstance(source, Mapping):
        return survey_of(Document("survey", _plain(source), {}, {}))
    return survey_of(read_survey_file(Path(source)))


def read_survey_file(path: Path) -> Document:
    """Return the document in a file; raises SurveyError when it cannot be read."""
    try:
        text = path.read_bytes()
    except OSError as error:
        raise SurveyError([Problem(str(path), f"cannot be read: {error.strerror}")]) from None
    return read_document(text, path.name)
