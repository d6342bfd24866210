"""A report as one self-contained page without script, for the screen and for paper."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from stairaudit.output.drawing import SIGNS, draw, draw_bars, needs_table
from stairaudit.output.inert import inert
from stairaudit.words.pictures import Picture
from stairaudit.words.view import ReportView

if TYPE_CHECKING:
    from jinja2 import Template

TEMPLATES = Path(__file__).parent / "templates"


class Drawing(NamedTuple):
    """The drawings of one flight, and its sizes where the drawing has no room for them."""

    title: str
    side: str
    bars: str
    sizes: tuple[tuple[str, str, str], ...]


@lru_cache(maxsize=1)
def _template() -> Template:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    environment = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    return environment.get_template("report.html.j2")


def _sizes(picture: Picture) -> tuple[tuple[str, str, str], ...]:
    if not needs_table(picture):
        return ()
    rows = []
    for index, riser in enumerate(picture.risers):
        tread = picture.treads[index] if index < len(picture.treads) else None
        told = f"{SIGNS[tread.flag]}{tread.label}" if tread else ""
        rows.append((str(index + 1), f"{SIGNS[riser.flag]}{riser.label}", told))
    return tuple(rows)


def _drawing(picture: Picture, prefix: str) -> Drawing:
    return Drawing(picture.title, draw(picture, prefix), draw_bars(picture, prefix), _sizes(picture))


def render_html(view: ReportView, paper: str | None = None) -> str:
    """Return the page; `paper` fixes its size in print, such as A4 or letter."""
    drawings = [
        [_drawing(picture, f"s{i}f{j}") for j, picture in enumerate(survey.pictures, 1)]
        for i, survey in enumerate(view.surveys, 1)
    ]
    css = (TEMPLATES / "report.css").read_text(encoding="utf-8")
    return inert(_template().render(view=view, drawings=drawings, css=css, paper=paper))
