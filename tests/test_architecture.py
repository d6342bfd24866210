"""The design, held by tests: layers, sizes, what start-up loads, lists that must agree."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "stairaudit"
MODULES = sorted(PACKAGE.rglob("*.py"))

# Lowest first; a module may import modules of its own line or of a line above it.
LAYERS = (
    ("version", "errors"),
    ("lengths", "angles", "quantities"),
    ("documents", "yaml_source", "json_source", "packaged"),
    ("readings", "fields", "railings", "parts", "surfaces", "survey"),
    ("places", "validation", "structure", "loading"),
    ("samples", "uncertainty", "decision"),
    ("basis", "context", "measures"),
    ("answers", "conditions", "gates"),
    ("rulefile", "ruleset", "rulereading", "overlaps", "amending", "shipped", "compiled", "catalog", "choosing"),
    ("findings", "datanotes", "judging", "triggers", "engine"),
    ("words",),
    ("output",),
    ("files", "commands"),
    ("running", "cli_rulesets", "cli", "__init__"),
)
RANK = {name: rank for rank, names in enumerate(LAYERS) for name in names}
MOST_LINES, MOST_BODY = 400, 60


def name_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imports_of(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("stairaudit."):
            yield node.module.split(".")[1]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_module_imports_only_what_lies_below_it(path: Path) -> None:
    upward = {name for name in imports_of(path) if RANK[name] > RANK[name_of(path)]}
    if path == PACKAGE / "__init__.py":
        upward = set()

    assert upward == set()


def test_every_module_has_a_layer() -> None:
    assert {name_of(path) for path in MODULES} <= set(RANK)


def test_the_guide_names_every_module() -> None:
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    missing = [name for name in RANK if name != "__init__" and f"`{name}" not in guide]

    assert missing == []


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_modules_and_functions_stay_small(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    long = [
        node.name
        for node in ast.walk(ast.parse(text))
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef))
        and node.end_lineno is not None
        and node.end_lineno - node.body[0].lineno > MOST_BODY
        and not (path.name == "__init__.py" and node.name == "_table")
    ]

    assert text.count("\n") <= MOST_LINES
    assert long == []


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_no_figure_of_a_document_and_no_length_format_outside_their_homes(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    code = re.sub(r'"""[\s\S]*?"""|#.*', "", text)

    if name_of(path) not in ("lengths", "angles", "quantities"):
        assert not re.search(r"\b25\.4\b|\b304\.8\b", code)
        assert not re.search(r'\} (?:in|mm|ft|cm)\b["\']', code)
    assert not re.search(r"\bR3\d\d\.\d|\b1910\.\d|\bIRC\b|\bOSHA\b|\bADA\b", code)


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_words_of_judgement_are_not_used(path: Path) -> None:
    for found in re.findall(
        r"\b(compliant|compliance|illegal|legal|violation|violates|fails?|failed)\b", path.read_text()
    ):
        pytest.fail(f"{found!r} stands in {path.name}")


def loaded_by(code: str) -> set[str]:
    """Return the modules that a fresh interpreter holds after some code."""
    script = f"import sys\n{code}\nprint(' '.join(sorted(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=ROOT)
    return set(done.stdout.splitlines()[-1].split())


RUN = "from stairaudit.cli import app\ntry:\n    app({args!r})\nexcept SystemExit:\n    pass"


def test_the_version_loads_no_heavy_library() -> None:
    loaded = loaded_by(RUN.format(args=["--version"]))

    assert not loaded & {"pydantic", "yaml", "jinja2", "rich"}


def test_the_help_loads_no_heavy_library() -> None:
    loaded = loaded_by(RUN.format(args=["--help"]))

    assert not loaded & {"pydantic", "yaml", "jinja2", "rich"}


def test_a_text_audit_loads_no_library_of_documents() -> None:
    loaded = loaded_by(RUN.format(args=["check", "stairaudit/demo/porch.yaml"]))

    assert "stairaudit.engine" in loaded
    assert not loaded & {"jinja2", "rich", "weasyprint", "fontTools"}


def test_importing_the_package_loads_nothing_else() -> None:
    assert not loaded_by("import stairaudit") & {"pydantic", "yaml", "typer", "jinja2"}
