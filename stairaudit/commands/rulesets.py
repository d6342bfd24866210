"""List, show and check rule sets; list measures and conditions."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path

from stairaudit.catalog import load_ruleset, overlapping
from stairaudit.commands.status import FAULT, NOTHING_TO_WARN
from stairaudit.errors import InputError, Problem
from stairaudit.output.inert import inert, one_line
from stairaudit.output.terminal_lines import wrap
from stairaudit.rulereading import near
from stairaudit.shipped import own_sets, shipped_ids
from stairaudit.words.rulebook import condition_lines, measure_lines, rule_lines, ruleset_lines, shares


def _print(lines: Iterable[str]) -> None:
    for line in lines:
        indent = line[: len(line) - len(line.lstrip())]
        for part in wrap(line.lstrip(), indent, indent + "  "):
            sys.stdout.write(inert(part) + "\n")


def run_list(folders: tuple[str, ...] = ()) -> int:
    """Print every shipped rule set, and the user's own ones."""
    for name in shipped_ids():
        _print(ruleset_lines(load_ruleset(name)))
    own = own_sets(tuple(map(Path, folders)))
    if own:
        _print(["", "Your own:"])
    for path in own.values():
        _print(_own_lines(path))
    _print(["", "One set: stairaudit rulesets show ID. Your own file: stairaudit check ... -r ./my-county.yaml"])
    return NOTHING_TO_WARN


def _own_lines(path: Path) -> Iterable[str]:
    try:
        return [*ruleset_lines(load_ruleset(path))]
    except InputError as error:
        told = f"stairaudit rulesets validate {path} tells why"
        return [f"{path.stem}: cannot be read ({len(error.problems)} problems); {told}"]


def run_show(name: str, rule_id: str | None, folders: tuple[str, ...] = ()) -> int:
    """Print a rule set or one of its rules; raises InputError for an unknown rule."""
    ruleset = load_ruleset(name, tuple(map(Path, folders)))
    if rule_id is None:
        _print(ruleset_lines(ruleset))
        _print([f"  Note: {note}" for note in ruleset.notes])
        for rule in ruleset.rules:
            _print(["", *rule_lines(rule)])
        return NOTHING_TO_WARN
    found = ruleset.rule(rule_id)
    if found is None:
        wanted = near(rule_id, [rule.id for rule in ruleset.rules], f"show {name}")
        raise InputError([Problem(name, f"no rule is called {rule_id!r}", wanted)])
    _print(rule_lines(found))
    return NOTHING_TO_WARN


def run_validate(names: Iterable[str]) -> int:
    """Print for each file that it is sound, or raise InputError with every problem of all of them."""
    problems: list[Problem] = []
    for name in names:
        try:
            ruleset = load_ruleset(Path(name))
            overlaps = overlapping(Path(name))
        except InputError as error:
            problems += error.problems
            continue
        problems += overlaps
        if not overlaps:
            _print([f"{name}: no problems; {shares(ruleset)}"])
    for problem in problems:
        sys.stderr.write(one_line(problem) + "\n")
    return FAULT if problems else NOTHING_TO_WARN


def run_diff(one: str, other: str, survey: str | None, folders: tuple[str, ...] = ()) -> int:
    """Print what two rule sets ask differently, or what that changes for one survey."""
    from stairaudit.commands.reading import read_survey
    from stairaudit.engine import check_several
    from stairaudit.words.differences import change_lines, difference_lines
    from stairaudit.words.figures import unit_of

    places = tuple(map(Path, folders))
    sets = load_ruleset(one, places), load_ruleset(other, places)
    if survey is None:
        _print(difference_lines(*sets))
        return NOTHING_TO_WARN
    read = read_survey(survey)
    first, second = check_several(read, sets)
    _print(change_lines((first, second), unit_of(read)))
    return NOTHING_TO_WARN


WHY = {
    "local": "an amendment or rule of that place",
    "of-its-day": "the newest edition here that is not younger than the stair",
    "newest": "the newest edition here, as for new work",
    "existing": "for stairs that are there already",
}


def run_suggest(place: str, use: str | None, built: int | None, purpose: str | None) -> int:
    """Print which shipped sets may be meant for a stair."""
    from stairaudit.choosing import Stair, suggested
    from stairaudit.commands.reading import FALLBACK

    sets = [load_ruleset(name) for name in shipped_ids()]
    found = suggested(sets, Stair(place, use, built, purpose))
    for one in found:
        _print([f"{one.ruleset.id}: {one.ruleset.title}", f"  {WHY[one.why]}; place: {one.ruleset.place}"])
    if not found:
        countries = sorted({one.place.partition(",")[0].strip() for one in sets if one.id != FALLBACK})
        _print([f"No shipped set is for {place!r}. Name the country too, as in 'Ohio, United States'."])
        _print([f"Countries here: {', '.join(countries)}."])
    _print(["", "This is a proposal: the local authority knows which edition was adopted, and with which changes."])
    return NOTHING_TO_WARN


def run_measures() -> int:
    """Print every measure."""
    _print(measure_lines())
    return NOTHING_TO_WARN


def run_conditions() -> int:
    """Print every condition."""
    _print(condition_lines())
    return NOTHING_TO_WARN
