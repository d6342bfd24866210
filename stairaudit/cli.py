"""The command line: options -> one call -> exit status. Every command imports what it needs inside."""

from __future__ import annotations

import os
import sys
from enum import StrEnum
from typing import Annotated

import typer

from stairaudit.cli_rulesets import Folders, ids, rulesets_app
from stairaudit.running import end
from stairaudit.version import __version__

app = typer.Typer(
    name="stairaudit",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    help="Set the readings of an existing stair beside published figures. The local authority decides.",
    epilog="Start with: stairaudit demo",
)
app.add_typer(rulesets_app, name="rulesets")


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


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"stairaudit {__version__}")
        raise typer.Exit


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

    end(lambda: run_demo(report, survey))


@app.command()
def check(
    surveys: Annotated[list[str], typer.Argument(help="Survey files (YAML or JSON); - reads standard input.")],
    ruleset: Annotated[
        list[str] | None,
        typer.Option("--ruleset", "-r", help="A rule set: an id or a file. May be repeated.", autocompletion=ids),
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
    folder: Folders = None,
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
        tuple(folder or ()),
    )
    end(lambda: run_check(options))


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

    end(lambda: run_schema(what.value))


def run() -> None:
    """Start the command line."""
    app()
