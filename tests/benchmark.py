"""Speed as ratios inside one interleaved run: `python tests/benchmark.py [--quick]`. No test asserts a time.

Every row sets one way beside another of the same run (A B C A B C, a warm-up round first, medians), since
ratios hold on a busy machine and milliseconds do not.

"The checks alone" are what comes after measuring. Every way gets what it judges ready-made, outside the clock:
this project and the version written by hand the same samples (readings in order with their errors, spreads, sums),
jsonschema numbers with the same spreads, steps and sums. This project and the hand-written version make equal rows,
compared before timing, as plain tuples; no Finding is made, as none is until a report asks. What rules apply to is
asked anew in every round; both remember verdicts near a limit from one round to the next. jsonschema only lists
what lies outside. The whole `check`, measuring and findings included, is a further row without a goal.
"""

from __future__ import annotations

import gc
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from statistics import median
from typing import Any, NamedTuple

HERE = Path(__file__).parent
ROOT = HERE.parent
sys.path[:0] = [str(ROOT), str(HERE)]

import jsonschema  # noqa: E402
from benchmark_by_hand import ByHand  # noqa: E402
from benchmark_stairs import plain, schema, surveys  # noqa: E402

from stairaudit import Ruleset, Survey, check, load_ruleset  # noqa: E402
from stairaudit.context import Context  # noqa: E402
from stairaudit.engine import prepared, rows_of  # noqa: E402
from stairaudit.shipped import shipped_ids  # noqa: E402

PORCH = str(ROOT / "stairaudit" / "demo" / "porch.yaml")
AUDIT_IMPORTS = "import typer, yaml; from pydantic import BaseModel"
COMMAND = "from stairaudit.cli import run; run()"
TYPER, IMPORTS, VERSION, HELP, SMALL, TEXT, HTML, EVERY = (
    "typer",
    "imports",
    "version",
    "help",
    "small",
    "text",
    "html",
    "every",
)
FIVE = "format: 1\nunits: in\nstairs: [{id: a, flights: [{id: b, risers: [7, 7, 7, 7, 7]}]}]\n"
CHECKS, BY_HAND, SCHEMA, WHOLE = "checks alone", "by hand", "schema", "whole check"

Job = Callable[[], object]


class Row(NamedTuple):
    """One ratio: `over` divided by `under`, with the figure to reach and the figure to keep."""

    name: str
    over: str
    under: str
    goal: float | None = None
    must: float | None = None
    faster: bool = False


ROWS = (
    Row("--version / import typer", VERSION, TYPER, 1.08, 1.15),
    Row("--help / import typer", HELP, TYPER, 1.10, 1.20),
    Row("text audit, five risers and advice / imports", SMALL, IMPORTS, 1.6, 2.0),
    Row("text audit, demo and us-irc-2021 / imports", TEXT, IMPORTS, 1.6, 2.0),
    Row("HTML audit / text audit", HTML, TEXT, 1.2, 1.35),
    Row("text audit, every shipped set / one set", EVERY, TEXT, 2.0, 2.0),
    Row("checks alone / written by hand", CHECKS, BY_HAND, 1.25, 1.6),
    Row("checks alone, times faster than jsonschema", SCHEMA, CHECKS, 28, 20, faster=True),
    Row("whole check with findings / checks alone", WHOLE, CHECKS),
)


def interleaved(jobs: dict[str, Job], rounds: int) -> dict[str, float]:
    """Run each job once to warm up, then all in turn; return the median of each [s]."""
    for job in jobs.values():
        job()
    times: dict[str, list[float]] = {name: [] for name in jobs}
    for _ in range(rounds):
        for name, job in jobs.items():
            gc.collect()
            gc.disable()
            start = time.perf_counter()
            job()
            times[name].append(time.perf_counter() - start)
            gc.enable()
    return {name: median(taken) for name, taken in times.items()}


def _settings(folder: str) -> dict[str, str]:
    """Return the environment in which every way keeps its compiled modules, in a folder of the run's own."""
    told = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return told | {"PYTHONPYCACHEPREFIX": folder}


def _python(settings: dict[str, str], code: str, *arguments: str) -> Job:
    def run() -> None:
        command = [sys.executable, "-c", code, *arguments]
        done = subprocess.run(command, cwd=ROOT, env=settings, capture_output=True, text=True, check=False)
        if done.returncode not in (0, 1) or "Traceback" in done.stderr:
            raise RuntimeError(done.stderr.strip().splitlines()[-1])

    return run


def start_up(rounds: int) -> dict[str, float]:
    """Return the time of each command in a fresh interpreter [s]; one that cannot run is left out."""
    with tempfile.TemporaryDirectory() as folder:
        report, settings = str(Path(folder) / "report.html"), _settings(folder)
        five = str(Path(folder) / "five.yaml")
        Path(five).write_text(FIVE, encoding="utf-8")
        jobs = {
            TYPER: _python(settings, "import typer"),
            VERSION: _python(settings, COMMAND, "--version"),
            HELP: _python(settings, COMMAND, "--help"),
            IMPORTS: _python(settings, AUDIT_IMPORTS),
            SMALL: _python(settings, COMMAND, "check", five),
            TEXT: _python(settings, COMMAND, "check", PORCH, "-r", "us-irc-2021"),
            HTML: _python(settings, COMMAND, "check", PORCH, "-r", "us-irc-2021", "--report", report, "--force"),
            EVERY: _python(
                settings, COMMAND, "check", PORCH, *(part for one in shipped_ids() for part in ("-r", one))
            ),
        }
        return interleaved({name: job for name, job in jobs.items() if _runs(name, job)}, rounds)


def _runs(name: str, job: Job) -> bool:
    try:
        job()
    except RuntimeError as error:
        print(f"left out, {name}: {error}")
        return False
    return True


def prove_equal(listed: Sequence[Survey], ruleset: Ruleset, by_hand: ByHand) -> int:
    """Return how many rows there are; raises AssertionError where two ways do not find the same."""
    validator = jsonschema.Draft202012Validator(schema())
    total = 0
    for number, survey in enumerate(listed):
        contexts = prepared(survey)
        ours = rows_of(contexts, ruleset)
        for one, other in zip(ours, by_hand.check(contexts), strict=True):
            if one != other:
                raise AssertionError(f"stair {number}:\n  {one}\n  {other}")
        found = check(survey, ruleset).findings
        outside = sum(finding.outside for finding in found)
        errors = sum(1 for _ in validator.iter_errors(plain(survey)))
        if outside != errors:
            raise AssertionError(f"stair {number}: {outside} readings outside, {errors} by the schema")
        total += len(found)
    return total


def _each(way: Callable[[Any], object], listed: Sequence[Any]) -> None:
    """Check one stair after another and keep nothing, as a batch does."""
    for item in listed:
        way(item)


def _afresh(contexts: tuple[Context, ...], ruleset: Ruleset) -> object:
    """Judge what was measured before; what the rules apply to is asked again."""
    for context in contexts:
        context.answers.clear()
    return rows_of(contexts, ruleset)


def checks(count: int, rounds: int) -> dict[str, float]:
    """Return the time of each way to check the same generated stairs [s]."""
    ruleset, listed = load_ruleset(HERE / "benchmark_rules.yaml"), surveys(count)
    by_hand, dicts = ByHand(ruleset), [plain(survey) for survey in listed]
    validator = jsonschema.Draft202012Validator(schema())
    rows = prove_equal(listed, ruleset, by_hand)
    print(f"{count} stairs, {rows} rows: the same by hand, and as many outside by the schema")
    print("the checks alone: from samples already measured to plain rows, here and by hand; the schema from numbers")
    measured = [prepared(survey) for survey in listed]
    for contexts in measured:
        rows_of(contexts, ruleset)
    times = interleaved(
        {
            CHECKS: lambda: _each(lambda contexts: _afresh(contexts, ruleset), measured),
            BY_HAND: lambda: _each(by_hand.check, measured),
            SCHEMA: lambda: _each(lambda data: list(validator.iter_errors(data)), dicts),
            WHOLE: lambda: _each(lambda survey: check(survey, ruleset).findings, listed),
        },
        rounds,
    )
    print("  ".join(f"{name} {taken / count * 1e6:.0f} us a stair" for name, taken in times.items()))
    return times


def _told(row: Row, ratio: float) -> str:
    def within(figure: float) -> bool:
        return ratio >= figure if row.faster else ratio <= figure

    if row.goal is None or row.must is None:
        return ""
    return "goal" if within(row.goal) else "must" if within(row.must) else "MISSED"


def table(times: dict[str, float]) -> str:
    """Return the ratios beside their goals."""
    lines = [f"{'measure':<44}{'ratio':>8}{'goal':>8}{'must':>8}  reached"]
    for row in ROWS:
        name, goal, must = f"{row.name:<44}", row.goal or "-", row.must or "-"
        if row.over not in times or row.under not in times:
            lines.append(f"{name}{'-':>8}{goal:>8}{must:>8}  not run")
            continue
        ratio = times[row.over] / times[row.under]
        lines.append(f"{name}{ratio:>8.2f}{goal:>8}{must:>8}  {_told(row, ratio)}".rstrip())
    return "\n".join(lines)


def main() -> None:
    """Measure everything and print the table; --quick takes fewer stairs and rounds."""
    quick = "--quick" in sys.argv[1:]
    times = checks(100 if quick else 300, 7 if quick else 11)
    times |= start_up(7 if quick else 15)
    print(table(times))


if __name__ == "__main__":
    main()
