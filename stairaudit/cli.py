"""The command line: options -> one call -> exit status. Every command imports what it needs inside."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from enum import StrEnum
from typing import Annotated

import typer

from stairaudit.commands.status import DEFECT, FAULT, INTERRUPTED, NOTHING_TO_WARN
from stairaudit.version import __version__

app = typer.Typer(
    name="stairaudit",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    help="Set the readings of an existing stair beside published figures. The local authority decides.",
    epilog="Start with: stairaudit demo",
)
rulesets_app = typer.Typer(rich_markup_mode=None)
app.add_typer(rulesets_app, name="rulesets")

REPORT_IT = (
    "stairaudit met a defect of its own ({kind}). Please report it, with the file if you can; "
    "stairaudit --debug shows details."
)


class Decision(StrEnum):
    """How a close reading counts."""

    simple = "simple"
    guarded = "guarded"


class Reader(StrEnum):
    """Who reads a document."""

    buyer = "buyer"
    builder = "builder"
    official = "official"


class Paper(StrEnum):
    """What a document is printed on."""

    a4 = "A4"
    letter = "Letter"


class Shape(StrEnum):
    """What a schema describes."""

    survey = "survey"
    ruleset = "ruleset"
    result = "result"


def _end(job: Callable[[], int]) -> None:
    """Run a command and leave with its exit status; what goes wrong is told in plain lines."""
    from stairaudit.errors import InputError

    try:
        if sys.stdout is None:
            raise OSError(0, "standard output is closed")
        status = job()
        sys.stdout.flush()
    except InputError as error:
        from stairaudit.output.inert import one_line

        for problem in error.problems:
            typer.echo(one_line(problem), err=True)
        status = FAULT
    except KeyboardInterrupt:
        status = INTERRUPTED
    except BrokenPipeError:
        _drop_output()
        status = NOTHING_TO_WARN
    except OSError as error:
        typer.echo(f"The result cannot be written: {error.strerror or error}.", err=True)
        _drop_output()
        status = FAULT
    except Exception as error:
        if os.environ.get("STAIRAUDIT_DEBUG"):
            raise
        typer.echo(REPORT_IT.format(kind=type(error).__name__), err=True)
        status = DEFECT
    raise typer.Exit(status)


def _drop_output() -> None:
    """Send what is still buffered nowhere: its reader has gone, or its disk is full."""
    if sys.stdout is not None:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"stairaudit {__version__}")
        raise typer.Exit


def _ids(incomplete: str) -> list[str]:
    from stairaudit.shipped import shipped_ids

    return [name for name in shipped_ids() if name.startswith(incomplete)]


@app.callback()
def main(
    version: Annotated[  # noqa: ARG001 - answered by its callback
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
    debug: Annotated[bool, typer.Option("--debug", help="Show the details of a defect.")] = False,
) -> None:
    """Set the readings of an existing stair beside published figures. The local authority decides."""
    if debug:
        os.environ["STAIRAUDIT_DEBUG"] = "1"
    for stream in (sys.stdout, sys.stderr):
        # A name with a letter that the terminal lacks must not end the run.
        getattr(stream, "reconfigure", lambda **_: None)(errors="replace")


@app.command()
def demo(
    report: Annotated[str, typer.Option(help="Where to write the HTML report.")] = "stairaudit-demo.html",
    survey: Annotated[bool, typer.Option("--survey", help="Print the demo survey itself, to start from.")] = False,
) -> None:
    """Audit the demo survey, print the findings and write an HTML report.

    \b
    Examples:
      stairaudit demo
      stairaudit demo --survey > my-stair.yaml
    """
    from stairaudit.commands.demo import run_demo

    _end(lambda: run_demo(report, survey))


@app.command()
def check(
    surveys: Annotated[list[str], typer.Argument(help="Survey files (YAML or JSON); - reads standard input.")],
    ruleset: Annotated[
        list[str] | None,
        typer.Option("--ruleset", "-r", help="A rule set: an id or a file. May be repeated.", autocompletion=_ids),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print the result as JSON.")] = False,
    report: Annotated[
        list[str] | None,
        typer.Option("--report", help="Write a document: .html .md .csv .json or .pdf. May be repeated."),
    ] = None,
    reader: Annotated[
        Reader | None,
        typer.Option("--for", help="Who reads it. Else a document holds everything; .json and .csv always do."),
    ] = None,
    decision: Annotated[
        Decision, typer.Option(help="simple: as read. guarded: a close reading counts as outside.")
    ] = Decision.simple,
    strict: Annotated[
        bool, typer.Option("--strict", help="Exit with 1 also when something was not measured.")
    ] = False,
    force: Annotated[bool, typer.Option("--force", help="Write over documents that exist.")] = False,
    date: Annotated[
        str | None, typer.Option(help="Issue date of the documents, such as 2026-04-18; else the survey's.")
    ] = None,
    paper: Annotated[
        Paper | None,
        typer.Option(
            case_sensitive=False,
            help="Paper of .html and .pdf. Else the reader's own; for .pdf Letter when shown in inches, else A4.",
        ),
    ] = None,
) -> None:
    """Check surveys against rule sets.

    Exit status: 0 nothing to warn about, 1 at least one warn, 2 the files or options need a change or
    nothing could be checked, 3 a defect of the tool.

    \b
    Examples:
      stairaudit check steps.yaml
      stairaudit check steps.yaml -r us-irc-2021 --report a.html --report a.md
      stairaudit check steps.yaml --for buyer --report for-the-buyer.html
      stairaudit check porch.yaml cellar.yaml -r us-irc-2021 --json > result.json
      cat steps.yaml | stairaudit check - --strict
    """
    from stairaudit.commands.check import Options, run_check

    options = Options(
        tuple(surveys),
        tuple(ruleset or ()),
        as_json,
        tuple(report or ()),
        decision.value,
        strict,
        force,
        date,
        paper.value if paper else None,
        reader.value if reader else None,
    )
    _end(lambda: run_check(options))


@app.command()
def schema(
    what: Annotated[Shape, typer.Argument(help="survey, ruleset or result")] = Shape.survey,
) -> None:
    """Print a JSON Schema, for editors that complete and explain while you type.

    \b
    Examples:
      stairaudit schema survey > survey.schema.json
      then make this the first line of the survey:
      # yaml-language-server: $schema=survey.schema.json
    """
    from stairaudit.commands.schema import run_schema

    _end(lambda: run_schema(what.value))


@rulesets_app.callback(invoke_without_command=True)
def rulesets(context: typer.Context) -> None:
    """List rule sets, show their rules, check your own file.

    \b
    Examples:
      stairaudit rulesets
      stairaudit rulesets show us-irc-2021 riser-height-max
      stairaudit rulesets validate my-county.yaml
    """
    if context.invoked_subcommand is None:
        rulesets_list()


@rulesets_app.command("list")
def rulesets_list() -> None:
    """List the shipped rule sets: place, edition, rules, and how far their figures were read.

    \b
    Example:
      stairaudit rulesets list
    """
    from stairaudit.commands.rulesets import run_list

    _end(run_list)


@rulesets_app.command("show")
def rulesets_show(
    ruleset: Annotated[str, typer.Argument(help="An id or a file.", autocompletion=_ids)],
    rule: Annotated[str | None, typer.Argument(help="The id of one rule.")] = None,
) -> None:
    """Show a rule set, or one of its rules in plain words.

    \b
    Examples:
      stairaudit rulesets show us-irc-2021
      stairaudit rulesets show us-irc-2021 riser-height-max
    """
    from stairaudit.commands.rulesets import run_show

    _end(lambda: run_show(ruleset, rule))


@rulesets_app.command("validate")
def rulesets_validate(
    files: Annotated[list[str], typer.Argument(help="Rule set files.")],
) -> None:
    """Check rule set files and tell every problem with line and column.

    \b
    Example:
      stairaudit rulesets validate my-county.yaml
    """
    from stairaudit.commands.rulesets import run_validate

    _end(lambda: run_validate(files))


@rulesets_app.command("diff")
def rulesets_diff(
    one: Annotated[str, typer.Argument(help="An id or a file.", autocompletion=_ids)],
    other: Annotated[str, typer.Argument(help="An id or a file.", autocompletion=_ids)],
    survey: Annotated[str | None, typer.Argument(help="A survey: what differs for this stair.")] = None,
) -> None:
    """Show what two rule sets or editions ask differently, or what that changes for one stair.

    \b
    Examples:
      stairaudit rulesets diff us-irc-2021 my-county.yaml
      stairaudit rulesets diff us-irc-2021 my-county.yaml steps.yaml
    """
    from stairaudit.commands.rulesets import run_diff

    _end(lambda: run_diff(one, other, survey))


@rulesets_app.command("measures")
def rulesets_measures() -> None:
    """List what a rule can measure: unit, definition, source, example.

    \b
    Example:
      stairaudit rulesets measures
    """
    from stairaudit.commands.rulesets import run_measures

    _end(run_measures)


@rulesets_app.command("conditions")
def rulesets_conditions() -> None:
    """List what `when` and `unless` can ask.

    \b
    Example:
      stairaudit rulesets conditions
    """
    from stairaudit.commands.rulesets import run_conditions

    _end(run_conditions)


def run() -> None:
    """Start the command line."""
    app()
