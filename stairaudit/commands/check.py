"""Surveys against rule sets: read, check, write the documents, print the result."""

from __future__ import annotations

import datetime
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from functools import cached_property
from pathlib import Path
from typing import Any, Literal, NamedTuple

from stairaudit.commands.reading import FALLBACK, STDIN, Loaded, load_all
from stairaudit.commands.status import FAULT, NOTHING_TO_WARN, WARNED
from stairaudit.conditions import CONDITIONS
from stairaudit.decision import Outcome
from stairaudit.engine import check_several
from stairaudit.errors import InputError, Problem
from stairaudit.files import refuse_existing, write_whole
from stairaudit.findings import Finding
from stairaudit.output.inert import one_line
from stairaudit.version import __version__
from stairaudit.words.readers import READERS, Reader
from stairaudit.words.results import result_data
from stairaudit.words.standing import from_memory
from stairaudit.words.view import Audited, report_view


class Options(NamedTuple):
    """What was asked for."""

    surveys: tuple[str, ...]
    rulesets: tuple[str, ...]
    as_json: bool
    reports: tuple[str, ...]
    decision: str
    strict: bool
    force: bool
    date: str | None
    paper: str | None = None
    reader: str | None = None
    folders: tuple[str, ...] = ()


class Result:
    """Everything that a document can be made of, the data of machine formats once one is asked for."""

    def __init__(self, audited: Sequence[Audited], problems: Sequence[Problem], date: str, options: Options) -> None:
        self._of = audited, problems, date, __version__
        self.view = report_view(audited, date, __version__, _reader(options))
        self.paper = options.paper

    @cached_property
    def data(self) -> dict[str, Any]:
        """The result as the data of `--json`."""
        return result_data(*self._of)


def _html(result: Result) -> str:
    from stairaudit.output.html import render_html

    return render_html(result.view, result.paper)


def _pdf(result: Result) -> bytes:
    from stairaudit.output.html import render_html
    from stairaudit.output.pdf import paper_of, render_pdf

    return render_pdf(render_html(result.view, result.paper or paper_of(result.view.surveys[0].unit)))


def _markdown(result: Result) -> str:
    from stairaudit.output.markdown import render_markdown

    return render_markdown(result.view)


def _csv(result: Result) -> str:
    from stairaudit.output.csv_text import render_csv

    return render_csv(result.data)


def _json(result: Result) -> str:
    from stairaudit.output.json_text import render_json

    return render_json(result.data)


def _text(result: Result) -> str:
    from stairaudit.output.terminal import render_text

    return render_text(result.view)


WRITERS: dict[str, Callable[[Result], str | bytes]] = {
    ".html": _html,
    ".md": _markdown,
    ".csv": _csv,
    ".json": _json,
    ".pdf": _pdf,
}


ACCEPTED = "accepted: " + " ".join(WRITERS)


def _say(text: str) -> None:
    sys.stderr.write(one_line(text) + "\n")


def _reader(options: Options) -> Reader | None:
    return next((name for name in READERS if name == options.reader), None)


def _issue_date(given: str | None, loaded: Sequence[Loaded]) -> str:
    """Return the issue date: the option, else SOURCE_DATE_EPOCH, else the latest date of the surveys."""
    if given is not None:
        try:
            return datetime.date.fromisoformat(given).isoformat()
        except ValueError:
            raise InputError([Problem("--date", f"{given!r} is no date", "write it as 2026-04-18")]) from None
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if epoch:
        return _of_epoch(epoch)
    return max((item.survey.date.isoformat() for item in loaded if item.survey.date), default="")


def _of_epoch(seconds: str) -> str:
    try:
        return datetime.datetime.fromtimestamp(int(seconds), datetime.UTC).date().isoformat()
    except (ValueError, OverflowError, OSError):
        found = f"{seconds[:40]!r} is no number of seconds since 1970"
        raise InputError([Problem("SOURCE_DATE_EPOCH", found, "set it right, or give --date")]) from None


def _named_twice(names: Sequence[str]) -> list[Problem]:
    twice = [name for name in dict.fromkeys(names) if names.count(name) > 1]
    told = "standard input is named twice; it can be read once"
    return [Problem(name, told if name == STDIN else "is named twice", "name each survey once") for name in twice]


def _pdf_problems(names: Sequence[str]) -> list[Problem]:
    first = next((name for name in names if Path(name).suffix.lower() == ".pdf"), None)
    if first is None:
        return []
    from stairaudit.output.pdf import why_no_pdf

    return why_no_pdf(first)


def _checked_options(options: Options) -> None:
    unknown = [name for name in options.reports if Path(name).suffix.lower() not in WRITERS]
    problems = [
        Problem(name, f"no document is written as {Path(name).suffix or 'a file without an ending'}", ACCEPTED)
        for name in unknown
    ]
    inputs = [Path(name) for name in (*options.surveys, *options.rulesets) if name != STDIN]
    paths = [Path(name) for name in options.reports if name not in unknown]
    problems += refuse_existing(paths, options.force, inputs)
    problems += _named_twice(options.surveys)
    problems += _pdf_problems(options.reports)
    if problems:
        raise InputError(problems)


def _audited(loaded: Sequence[Loaded], decision: Literal["simple", "guarded"]) -> list[Audited]:
    return [Audited(item.file, item.survey, check_several(item.survey, item.rulesets, decision)) for item in loaded]


SAMPLE = "A sample"
PARTLY = "Readings of which some are missing"
UNKNOWN = frozenset(condition.missing for condition in CONDITIONS.values())


def _findings(audited: Sequence[Audited]) -> Iterator[Finding]:
    return (finding for item in audited for audit in item.audits for finding in audit.findings)


def _set_beside(finding: Finding) -> bool:
    """Say whether a reading was set beside a figure, also where it lies inside and too little was read to pass."""
    if finding.outcome in (Outcome.PASS, Outcome.WARN):
        return True
    return bool(finding.outcome is Outcome.UNMEASURED and finding.readings and not UNKNOWN & set(finding.missing))


def _nothing_met(audited: Sequence[Audited]) -> bool:
    return not any(map(_set_beside, _findings(audited)))


def _status(audited: Sequence[Audited], problems: Sequence[Problem], strict: bool) -> int:
    audits = [audit for item in audited for audit in item.audits]
    if problems or _nothing_met(audited):
        return FAULT
    missing = any(f.outcome is Outcome.UNMEASURED and f.rule.level == "limit" for f in _findings(audited))
    return WARNED if any(audit.warns for audit in audits) or (strict and missing) else NOTHING_TO_WARN


def _write(result: Result, names: Sequence[str]) -> None:
    contents = [(Path(name), WRITERS[Path(name).suffix.lower()](result)) for name in names]
    write_whole(contents)
    for path, _ in contents:
        _say(f"Written: {path}")


def _remark(audited: Sequence[Audited], loaded: Sequence[Loaded]) -> None:
    if any(item.fallback for item in loaded):
        _say(f"No rule set was named: {FALLBACK} (advice only) was used. Others: stairaudit rulesets")
    if audited and _nothing_met(audited):
        _say("Nothing could be checked: no reading met a rule that applies.")
    elif audited and not any(f.outcome in (Outcome.PASS, Outcome.WARN) for f in _findings(audited)):
        sampled = any(flight.sampled for item in audited for stair in item.survey.stairs for flight in stair.flights)
        _say(f"{SAMPLE if sampled else PARTLY} may warn and never pass; nothing lies outside.")
    recalled = from_memory(audit for item in audited for audit in item.audits)
    if recalled:
        told = "figure used here is" if recalled == 1 else "figures used here are"
        _say(f"{recalled} {told} known from memory only; look in the document.")


def run_check(options: Options) -> int:
    """Check surveys and return the exit status; raises InputError before anything is written."""
    _checked_options(options)
    loaded, problems = load_all(options.surveys, options.rulesets, tuple(map(Path, options.folders)))
    for problem in problems:
        _say(str(problem))
    if not loaded:
        return FAULT
    decision: Literal["simple", "guarded"] = "guarded" if options.decision == "guarded" else "simple"
    audited = _audited(loaded, decision)
    date = _issue_date(options.date, loaded)
    result = Result(audited, problems, date, options)
    _write(result, options.reports)
    _remark(audited, loaded)
    sys.stdout.write(_json(result) if options.as_json else _text(result))
    return _status(audited, problems, options.strict)
