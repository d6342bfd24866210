"""One command run to its exit status: what goes wrong is told in plain lines; loads nothing of the project early."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable

import typer

from stairaudit.commands.status import DEFECT, FAULT, INTERRUPTED, NOTHING_TO_WARN

REPORT_IT = (
    "stairaudit met a defect of its own ({kind}). Please report it, with the file if you can; "
    "stairaudit --debug shows details."
)


def end(job: Callable[[], int]) -> None:
    """Run a command and leave with its exit status; what goes wrong is told in plain lines."""
    from stairaudit.errors import InputError

    # Looking for plug-ins of pydantic takes a tenth of an audit, and a survey has no use for any.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
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
