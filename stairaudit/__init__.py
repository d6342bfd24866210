"""Set the readings of an existing stair beside published figures.

The public names are `load_survey`, `load_ruleset` and `check`, the types that they return, and the
errors that they raise. They are imported on first use, so that `import stairaudit` costs nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stairaudit.version import __version__

if TYPE_CHECKING:
    from stairaudit.catalog import load_ruleset
    from stairaudit.engine import check
    from stairaudit.errors import InputError, Problem, RulesetError, SurveyError
    from stairaudit.findings import Audit, Finding
    from stairaudit.loading import load_survey
    from stairaudit.ruleset import Ruleset
    from stairaudit.survey import Survey

_HOMES = {
    "load_ruleset": "catalog",
    "check": "engine",
    "InputError": "errors",
    "Problem": "errors",
    "RulesetError": "errors",
    "SurveyError": "errors",
    "Audit": "findings",
    "Finding": "findings",
    "load_survey": "loading",
    "Ruleset": "ruleset",
    "Survey": "survey",
}

__all__ = [
    "Audit",
    "Finding",
    "InputError",
    "Problem",
    "Ruleset",
    "RulesetError",
    "Survey",
    "SurveyError",
    "__version__",
    "check",
    "load_ruleset",
    "load_survey",
]


def __getattr__(name: str) -> Any:
    from importlib import import_module

    if name not in _HOMES:
        raise AttributeError(f"module 'stairaudit' has no attribute {name!r}")
    return getattr(import_module(f"stairaudit.{_HOMES[name]}"), name)
