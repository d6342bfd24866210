"""The command line of rule sets: list, show, check, compare and propose them."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer

from stairaudit.running import end

rulesets_app = typer.Typer(rich_markup_mode=None)

Folders = Annotated[
    list[str] | None,
    typer.Option("--folder", help="A folder with rule sets of your own. May be repeated; else STAIRAUDIT_RULESETS."),
]


class Use(StrEnum):
    """What a stair is used for."""

    one_dwelling = "one-dwelling"
    shared_dwelling = "shared-dwelling"
    workplace = "workplace"
    public = "public"


class Purpose(StrEnum):
    """What is to be done with a stair."""

    as_found = "as-found"
    to_repair = "repair"
    to_replace = "replace"
    to_build = "new"


def ids(incomplete: str) -> list[str]:
    """Return the ids of rule sets that begin so, for completion in the shell."""
    from stairaudit.shipped import own_sets, shipped_ids

    return [name for name in (*shipped_ids(), *own_sets()) if name.startswith(incomplete)]


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
def rulesets_list(folder: Folders = None) -> None:
    """List the shipped rule sets and your own: place, edition, rules, and how far their figures were read.

    Your own lie in folders named by --folder or STAIRAUDIT_RULESETS, or in your configuration folder (on Linux
    ~/.config/stairaudit/rulesets).

    \b
    Example:
      stairaudit rulesets list
    """
    from stairaudit.commands.rulesets import run_list

    end(lambda: run_list(tuple(folder or ())))


@rulesets_app.command("show")
def rulesets_show(
    ruleset: Annotated[str, typer.Argument(help="An id or a file.", autocompletion=ids)],
    rule: Annotated[str | None, typer.Argument(help="The id of one rule.")] = None,
    folder: Folders = None,
) -> None:
    """Show a rule set, or one of its rules in plain words.

    \b
    Examples:
      stairaudit rulesets show us-irc-2021
      stairaudit rulesets show us-irc-2021 riser-height-max
    """
    from stairaudit.commands.rulesets import run_show

    end(lambda: run_show(ruleset, rule, tuple(folder or ())))


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

    end(lambda: run_validate(files))


@rulesets_app.command("diff")
def rulesets_diff(
    one: Annotated[str, typer.Argument(help="An id or a file.", autocompletion=ids)],
    other: Annotated[str, typer.Argument(help="An id or a file.", autocompletion=ids)],
    survey: Annotated[str | None, typer.Argument(help="A survey: what differs for this stair.")] = None,
    folder: Folders = None,
) -> None:
    """Show what two rule sets or editions ask differently, or what that changes for one stair.

    \b
    Examples:
      stairaudit rulesets diff us-irc-2021 my-county.yaml
      stairaudit rulesets diff us-irc-2021 my-county.yaml steps.yaml
    """
    from stairaudit.commands.rulesets import run_diff

    end(lambda: run_diff(one, other, survey, tuple(folder or ())))


@rulesets_app.command("suggest")
def rulesets_suggest(
    place: Annotated[str, typer.Option(help="Town, state, country, such as 'Ohio, United States'.")],
    use: Annotated[Use | None, typer.Option(help="What the stair is used for.", case_sensitive=False)] = None,
    built: Annotated[int | None, typer.Option(min=1000, max=3000, help="The year it was built.")] = None,
    purpose: Annotated[Purpose | None, typer.Option(help="What is to be done with it.")] = None,
) -> None:
    """Propose rule sets for a stair; the local authority knows which edition was adopted.

    \b
    Examples:
      stairaudit rulesets suggest --place "Ohio, United States" --use one-dwelling --built 1994
      stairaudit rulesets suggest --place England --purpose as-found
    """
    from stairaudit.commands.rulesets import run_suggest

    told = use.value if use else None
    end(lambda: run_suggest(place, told, built, purpose.value if purpose else None))


@rulesets_app.command("measures")
def rulesets_measures() -> None:
    """List what a rule can measure: unit, definition, source, example.

    \b
    Example:
      stairaudit rulesets measures
    """
    from stairaudit.commands.rulesets import run_measures

    end(run_measures)


@rulesets_app.command("conditions")
def rulesets_conditions() -> None:
    """List what `when` and `unless` can ask.

    \b
    Example:
      stairaudit rulesets conditions
    """
    from stairaudit.commands.rulesets import run_conditions

    end(run_conditions)
