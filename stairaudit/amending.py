"""A rule set and the sets it extends, put together: base, drop, replace, add, new clause numbers."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from stairaudit.documents import Document
from stairaudit.errors import Problem, RulesetError
from stairaudit.rulefile import NewNumber, RulePatch, RulesetText, RuleText
from stairaudit.rulereading import Resolved, Written, near
from stairaudit.validation import in_order, problem_at, validated

LONGEST_CHAIN = 20
# A new figure was not read where the old one was: it is known from memory until its own set says otherwise.
UNREAD = {"provenance": "memory", "read_in": (), "source": "", "known_limits": ""}


Open = Callable[[str, Document], Document]


def resolve(document: Document, open_base: Open, chain: tuple[str, ...] = ()) -> Resolved:
    """Return the resolved rule set; raises RulesetError with every problem of the file at fault."""
    head, problems = validated(RulesetText, document, {})
    if head is None:
        raise RulesetError(in_order(problems))
    base = _base(head, document, open_base, chain)
    rules = {item.text.id: item for item in base.rules} if base else {}
    problems += _drop(head, document, rules)
    problems += _replace(head, document, rules)
    problems += _renumber(head, document, rules)
    problems += _add(head, document, rules)
    if not rules and not problems:
        problems.append(problem_at(document, (), "this rule set has no rules", "add rules:"))
    if problems:
        raise RulesetError(in_order(problems))
    told = head.applies_to
    uses = told.use if told and told.use is not None else (base.uses if base else ())
    purposes = told.purpose if told and told.purpose is not None else (base.purposes if base else ())
    return Resolved(head, document, tuple(rules.values()), uses, purposes)


def _base(head: RulesetText, document: Document, open_base: Open, chain: tuple[str, ...]) -> Resolved | None:
    if head.extends is None:
        given = [key for key in ("drop", "replace", "clauses") if getattr(head, key)]
        if given:
            wanted = "name the set to amend with extends:"
            raise RulesetError([problem_at(document, (given[0],), f"{given[0]} changes another set", wanted)])
        return None
    if len(chain) >= LONGEST_CHAIN:
        found = f"this is the {LONGEST_CHAIN + 1}th set in a chain of extends"
        raise RulesetError([problem_at(document, ("extends",), found, f"at most {LONGEST_CHAIN} can be")])
    if document.file in chain:
        found = "these sets extend each other in a ring: " + " -> ".join((*chain, document.file))
        raise RulesetError([problem_at(document, ("extends",), found, "one of them must stand alone")])
    return resolve(open_base(head.extends, document), open_base, (*chain, document.file))


def _unknown(document: Document, path: Any, name: str, rules: dict[str, Written]) -> Problem:
    return problem_at(document, path, f"no inherited rule is called {name!r}", near(name, rules, "show"))


def _drop(head: RulesetText, document: Document, rules: dict[str, Written]) -> list[Problem]:
    problems = []
    for index, name in enumerate(head.drop):
        if rules.pop(name, None) is None:
            problems.append(_unknown(document, ("drop", index), name, rules))
    return problems


def _replace(head: RulesetText, document: Document, rules: dict[str, Written]) -> list[Problem]:
    problems = []
    done: set[str] = set()
    for index, patch in enumerate(head.replace):
        old = rules.get(patch.id)
        if patch.id in done:
            found = f"the rule {patch.id!r} is replaced twice"
            problems.append(problem_at(document, ("replace", index, "id"), found, "put both changes into one entry"))
        elif old is not None and patch.measure not in (None, old.text.measure):
            found = f"the rule {patch.id!r} measures {old.text.measure}"
            wanted = "a replaced rule keeps its measure; drop it and add another"
            problems.append(problem_at(document, ("replace", index, "measure"), found, wanted))
        elif old is None:
            problems.append(_unknown(document, ("replace", index, "id"), patch.id, rules))
        else:
            rules[patch.id] = _patched(old, patch, document, index, head)
        done.add(patch.id)
    return problems


def _patched(old: Written, patch: RulePatch, document: Document, index: int, head: RulesetText) -> Written:
    changed = patch.model_dump(exclude_unset=True)
    renewed = {**UNREAD, **changed} if changed.keys() & {"limit", "at"} else changed
    text = old.text.model_copy(update=renewed)
    own = bool(changed.get("clause"))
    name, edition = (head.document, head.edition) if own else (old.document, old.edition)
    return Written(text, document, ("replace", index), name, edition, _before(old, changed))


def _before(old: Written, changed: dict[str, Any]) -> str:
    """Return what a rule said before it was replaced."""
    where = f"{old.document} {old.edition} {old.text.clause}".strip()
    if "limit" in changed:
        limit = ", ".join(f"{relation.replace('-', ' ')} {figure}" for relation, figure in old.text.limit.items())
        return f"{where}: {limit}"
    other = [key for key in changed if key not in ("id", "clause", "provenance")]
    return f"{where}, other {', '.join(other)}" if other else where


def _renumber(head: RulesetText, document: Document, rules: dict[str, Written]) -> list[Problem]:
    if not head.clauses:
        return []
    problems = []
    for name, number in head.clauses.items():
        if name not in rules:
            problems.append(_unknown(document, ("clauses", name), name, rules))
            continue
        text = rules[name].text.model_copy(update=_numbered(rules[name].text, number))
        # Another edition is no amendment of the one that its text is told from.
        rules[name] = Written(text, rules[name].file, rules[name].path, head.document, head.edition)
    own = {patch.id for patch in head.replace if patch.clause is not None}
    for name in rules:
        if name not in head.clauses and name not in own:
            found = f"the inherited rule {name!r} has no number in this edition"
            problems.append(problem_at(document, ("clauses",), found, "give it one, or drop it"))
    return problems


def _numbered(old: RuleText, number: NewNumber) -> dict[str, Any]:
    """Return what a new number changes: a rule that is known in another way was not read where the old one was."""
    elsewhere = {} if number.provenance == old.provenance else {"read_in": (), "source": ""}
    return {"clause": number.clause, "provenance": number.provenance, **elsewhere}


def _add(head: RulesetText, document: Document, rules: dict[str, Written]) -> list[Problem]:
    problems = []
    keys: list[tuple[str, tuple[RuleText, ...]]] = [("rules", head.rules), ("add", head.add)]
    for key, texts in keys:
        for index, text in enumerate(texts):
            if text.id in rules:
                found = f"a rule called {text.id!r} is there already"
                problems.append(problem_at(document, (key, index, "id"), found, "give it another id, or use replace"))
                continue
            rules[text.id] = Written(text, document, (key, index), head.document, head.edition)
    return problems
