"""A report as one self-contained page without script, for the screen and for paper."""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple
from urllib.parse import quote

from stairaudit.output.bars import bars_caption_of, draw_bars
from stairaudit.output.drawing import caption_of, draw, needs_table
from stairaudit.output.inert import inert
from stairaudit.output.plan import draw_plan
from stairaudit.output.plan_caption import Row, needs_sizes, plan_caption_of, plan_sizes
from stairaudit.output.svg import SIGNS
from stairaudit.words import headings
from stairaudit.words.marks import Step
from stairaudit.words.pictures import Picture
from stairaudit.words.readers import blocks_of
from stairaudit.words.view import ReportView

if TYPE_CHECKING:
    from jinja2 import Template

TEMPLATES = Path(__file__).parent / "templates"
PAPERS = ("A4", "Letter")


class Drawing(NamedTuple):
    """The drawings of one flight and its sizes; `crowded` where the drawing has no room for them."""

    title: str
    side: str
    caption: str
    bars: str
    bars_caption: str
    sizes: tuple[tuple[str, str, str], ...]
    crowded: bool
    plan: str
    plan_caption: str
    plan_sizes: tuple[Row, ...]


def tight(text: str) -> str:
    r"""Return a text with its figures held together: no line ends between a number, its fraction and its unit.

    >>> tight("at most 7 3/4 in").split(" ")
    ['at', 'most', '7\xa03/4\xa0in']
    """
    return re.sub(r"(?<=\d) (?=\d+/\d|%|(?:in|ft|mm|cm|m|deg|sq|cu|lb|lbs|lbf|kN|N|percent)\b)", "\u00a0", text)


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
    environment.filters["tight"] = tight
    environment.filters["link"] = quote
    return environment.get_template("report.html.j2")


def _told(step: Step | None) -> str:
    if step is None:
        return ""
    return "? not measured" if step.mm is None else f"{SIGNS[step.flag]}{step.label}"


def _sizes(picture: Picture) -> tuple[tuple[str, str, str], ...]:
    treads = [*picture.treads, *[None] * len(picture.risers)]
    return tuple(
        (str(index), _told(riser), _told(tread))
        for index, (riser, tread) in enumerate(zip(picture.risers, treads, strict=False), 1)
    )


def _drawing(picture: Picture, prefix: str) -> Drawing:
    return Drawing(
        picture.title, draw(picture, prefix), caption_of(picture),
        draw_bars(picture, prefix), bars_caption_of(picture), _sizes(picture),
        needs_table(picture) or needs_sizes(picture.plan),
        draw_plan(picture.plan, prefix), plan_caption_of(picture.plan), plan_sizes(picture.plan),
    )  # fmt: skip


def _style(paper: str | None) -> str:
    css = (TEMPLATES / "report.css").read_text(encoding="utf-8")
    if paper is None:
        return css
    if paper not in PAPERS:
        raise ValueError(f"paper is {paper!r}; write {' or '.join(PAPERS)}")
    return f"{css}@page{{size:{paper}}}"


def render_html(view: ReportView, paper: str | None = None) -> str:
    """Return the page; `paper` fixes its size in print.

    Parameters
    ----------
    view
        What the page says.
    paper
        A4 or Letter; the reader's own paper when left out.

    Raises
    ------
    ValueError
        For any other paper.
    """
    style = _style(paper)
    drawings = [
        [_drawing(picture, f"s{i}f{j}") for j, picture in enumerate(survey.pictures, 1)]
        for i, survey in enumerate(view.surveys, 1)
    ]
    blocks = blocks_of(view.reader, "page")
    return inert(_template().render(view=view, blocks=blocks, drawings=drawings, style=style, words=headings))
