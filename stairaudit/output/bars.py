"""Each riser of one flight against the mean of all, as SVG."""

from __future__ import annotations

from collections.abc import Iterator

from stairaudit.output.drawing import sign_of, view_of
from stairaudit.output.svg import INK, MUTED, SIZE, STROKES, Point, number, path, sheet, words
from stairaudit.words.marks import Step
from stairaudit.words.pictures import Picture

# Places on the sheet; a millimetre is never drawn longer than MOST, so that an even flight looks even.
ROW, HEAD, NAME, HALF, MOST = 18.0, 24.0, 70.0, 220.0, 8.0
CENTRE = NAME + 20 + HALF
SIZES = CENTRE + HALF + 16
FILLS = {"": "#5b6b7a", "close": "#5b6b7a", "outside": "none"}


def _known(picture: Picture) -> list[float]:
    return [step.mm for step in picture.risers if step.mm is not None]


def _scale(known: list[float]) -> float:
    mean = sum(known) / len(known)
    worst = max(abs(value - mean) for value in known)
    return min(HALF / worst, MOST) if worst > 0 else MOST


def _rect(left: float, top: float, wide: float, style: str) -> str:
    return f'<rect x="{number(left)}" y="{number(top)}" width="{number(wide)}" height="{number(ROW - 6)}" {style}/>'


def _bar(step: Step, mean: float, scale: float, top: float) -> str:
    if step.mm is None:
        dashes = f'fill="none" stroke="{MUTED}" stroke-width="1.3" stroke-dasharray="4 4"'
        return _rect(CENTRE - 40, top, 80, dashes)
    far = (step.mm - mean) * scale
    wide = "2.6" if step.flag == "outside" else "1.3"
    style = f'fill="{FILLS[step.flag]}" stroke="{STROKES[step.flag]}" stroke-width="{wide}"'
    return _rect(CENTRE + min(far, 0.0), top, max(abs(far), 1.0), style)


def _row(index: int, step: Step, mean: float, scale: float, top: float) -> Iterator[str]:
    line = top + SIZE - 1
    told = "not measured" if step.mm is None else step.label
    yield _bar(step, mean, scale, top)
    yield words(Point(NAME, line), f"{sign_of(step)} R{index}".strip(), step.flag, "end")
    yield words(Point(SIZES, line), told, step.flag)


def draw_bars(picture: Picture, prefix: str) -> str:
    """Return the risers as bars left and right of their mean, the top one first; empty without two readings."""
    known = _known(picture)
    if len(known) < 2:
        return ""
    mean, scale, count = sum(known) / len(known), _scale(known), len(picture.risers)
    bottom = HEAD + count * ROW
    body = [
        words(Point(CENTRE, 14), f"mean {picture.mean_riser}", "", "middle"),
        words(Point(CENTRE - HALF, 14), "lower"),
        words(Point(CENTRE + HALF, 14), "taller", "", "end"),
    ]
    for index, step in enumerate(picture.risers, 1):
        body += _row(index, step, mean, scale, HEAD + (count - index) * ROW)
    body.append(path([Point(CENTRE, HEAD - 5), Point(CENTRE, bottom)], f'stroke="{INK}" stroke-width="1.3"'))
    names = f"{picture.title}: risers against their mean", picture.description
    return sheet(names, prefix, "bars", (0.0, 0.0, bottom + 6), body)


def bars_caption_of(picture: Picture) -> str:
    """Return how much the bars enlarge what the side view shows; empty without bars."""
    known = _known(picture)
    if len(known) < 2:
        return ""
    times = round(_scale(known) / view_of(picture).scale)
    size = f"{times} times as large as" if times > 1 else "about as large as"
    return (
        "Each riser against the mean of those measured, the top one first. The differences are drawn "
        f"{size} in the side view.{' ~ before a figure: rounded.' if '~' in picture.mean_riser else ''}"
    )
