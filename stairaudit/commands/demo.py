"""The demo: the shipped survey, its findings, and an HTML report."""

from __future__ import annotations

import sys
from pathlib import Path

from stairaudit.catalog import load_ruleset
from stairaudit.commands.status import NOTHING_TO_WARN
from stairaudit.engine import check_several
from stairaudit.errors import InputError
from stairaudit.files import refuse_existing, write_whole
from stairaudit.loading import read_survey_file, survey_of
from stairaudit.output.html import render_html
from stairaudit.output.terminal import render_text
from stairaudit.version import __version__
from stairaudit.words.view import Audited, report_view

SURVEY = Path(__file__).parent.parent / "demo" / "porch.yaml"


def run_demo(report: str, survey_only: bool) -> int:
    """Audit the demo survey and return 0; it may write over its own report."""
    if survey_only:
        sys.stdout.write(SURVEY.read_text(encoding="utf-8"))
        return NOTHING_TO_WARN
    path = Path(report)
    problems = refuse_existing([path], force=True)
    if problems:
        raise InputError(problems)
    survey = survey_of(read_survey_file(SURVEY))
    audits = check_several(survey, [load_ruleset(name) for name in survey.rulesets or ()])
    date = survey.date.isoformat() if survey.date else ""
    view = report_view([Audited(SURVEY.name, survey, audits)], date, __version__)
    write_whole([(path, render_html(view))])
    sys.stdout.write(render_text(view))
    sys.stdout.write(f"\nThe same as a page with a drawing: {path}\n")
    return NOTHING_TO_WARN
