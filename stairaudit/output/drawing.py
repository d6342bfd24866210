"""Scale drawings of one flight as measured, as SVG: the side view, and the risers against their mean."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from typing import NamedTuple

from stairaudit.output.inert import inert
from stairaudit.words.pictures import Line, Picture, Step

INK, MUTED, FILL = "#1a1a1a", "#4a4a4a", "#ece8df"
STROKES = {"": INK, "outside": "#a3001b", "close": "#7a4b00"}
SIGNS = {"": "", "outside": "! ", "close": "~ "}
MOST_LABELLED = 12
# Proportions of the drawing only, used where nothing was measured.
RUN_PER_RISE = 1.4
THICKNESS = 25.0
GROUND = 420.0


class Point(NamedTuple):
    """A point of the drawing [mm], y upwards."""

    x: float
    y: float


class Laid(NamedTuple):
    """One step laid out: where its riser starts and ends, where its tread ends, and its nosing."""

    foot: Point
    head: Point
    nose: Point
    end: Point
    riser: Step
    tread: Step | None


def _number(value: float) -> str:
    text = f"{value:.1f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _path(points: list[Point], closed: bool = False) -> str:
    return "M" + "L".join(f"{_number(p.x)} {_number(-p.y)}" for p in points) + ("Z" if closed else "")


def _mean(steps: tuple[Step, ...], otherwise: float) -> float:
    known = [step.mm for step in steps if step.mm is not None]
    return sum(known) / len(known) if known else otherwise


def lay_out(picture: Picture) -> list[Laid]:
    """Return the steps of a flight one after the other; what was not measured takes the mean of the others."""
    rise = _mean(picture.risers, 180.0)
    run = _mean(picture.treads, rise * RUN_PER_RISE)
    laid: list[Laid] = []
    at = Point(0.0, 0.0)
    for index, riser in enumerate(picture.risers):
        tread = picture.treads[index] if index < len(picture.treads) else None
        head = Point(at.x, at.y + (rise if riser.mm is None else riser.mm))
        nosing = picture.nosings[index] if index < len(picture.nosings) else 0.0
        depth = run if tread is None or tread.mm is None else tread.mm
        end = Point(head.x + depth, head.y)
        laid.append(Laid(at, head, Point(head.x - nosing, head.y), end, riser, tread))
        at = end
    return laid


def _outline(laid: list[Laid], before: float, after: float) -> list[Point]:
    points = [Point(-before, 0.0), Point(0.0, 0.0)]
    for index, step in enumerate(laid):
        if step.nose.x < step.head.x:
            under = Point(step.head.x, step.head.y - THICKNESS)
            points += [under, Point(step.nose.x, under.y), step.nose]
        else:
            points.append(step.head)
        last = index == len(laid) - 1
        points.append(Point(step.head.x + after, step.head.y) if last else step.end)
    return points


def _text(at: Point, words: str, size: float, anchor: str = "start", flag: str = "") -> str:
    weight = ' font-weight="bold"' if flag == "outside" else ""
    return (
        f'<text x="{_number(at.x)}" y="{_number(-at.y)}" font-size="{_number(size)}" text-anchor="{anchor}" '
        f'fill="{STROKES[flag]}"{weight}>{escape(words)}</text>'
    )


def _stroke(points: list[Point], flag: str, width: float, dash: str = "") -> str:
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    heavy = width * 2.4 if flag == "outside" else width * 1.6 if flag == "close" else width
    return f'<path d="{_path(points)}" fill="none" stroke="{STROKES[flag]}" stroke-width="{_number(heavy)}"{dashes}/>'


def _riser_marks(laid: list[Laid], size: float, short: bool) -> Iterator[str]:
    for number, step in enumerate(laid, 1):
        flag = step.riser.flag
        if flag or step.riser.mm is None:
            dash = "14 10" if step.riser.mm is None else ""
            yield _stroke([step.foot, step.head], flag, 8, dash)
        words = f"{SIGNS[flag]}{number}" if short else f"{SIGNS[flag]}R{number} {step.riser.label}"
        middle = step.foot.y + (step.head.y - step.foot.y) * 0.3
        yield _text(Point(step.head.x + size * 0.5, middle), words, size, flag=flag)


def _tread_marks(laid: list[Laid], size: float, short: bool) -> Iterator[str]:
    for number, step in enumerate(laid, 1):
        if step.tread is None:
            continue
        flag = step.tread.flag
        if flag or step.tread.mm is None:
            yield _stroke([step.head, step.end], flag, 8, "14 10" if step.tread.mm is None else "")
        if not short:
            words = f"{SIGNS[flag]}T{number} {step.tread.label}"
            yield _text(Point(step.head.x + size * 0.5, step.head.y - size * 1.25), words, size, flag=flag)


def _over(laid: list[Laid], line: Line) -> list[Point]:
    first, last = laid[0].nose, laid[-1].nose
    return [Point(first.x, first.y + line.low), Point(last.x, last.y + line.high)]


def _label_heights(laid: list[Laid], lines: list[Line], size: float) -> list[float]:
    """Return where the labels of lines stand, lowest first, moved up until none lies on another."""
    heights: list[float] = []
    for line in lines:
        height = _over(laid, line)[1].y
        heights.append(max(height, heights[-1] + size * 2.8) if heights else height)
    return heights


def _line_marks(laid: list[Laid], lines: list[Line], size: float) -> Iterator[str]:
    for line, height in zip(lines, _label_heights(laid, lines, size), strict=True):
        ends = _over(laid, line)
        dash = "40 14 6 14" if line.name == "headroom" else ""
        yield _stroke(ends, line.flag, 7, dash)
        start = Point(ends[1].x + size * 0.6, height)
        yield _text(start, f"{SIGNS[line.flag]}{line.name}", size, flag=line.flag)
        yield _text(Point(start.x, start.y - size * 1.2), line.label, size, flag=line.flag)


def _frame(picture: Picture, prefix: str, box: tuple[float, float, float, float], body: list[str], kind: str) -> str:
    view = " ".join(_number(value) for value in box)
    names = f"{prefix}-{kind}-title", f"{prefix}-{kind}-desc"
    return inert(
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{view}" class="{kind}" role="img" '
        f'aria-labelledby="{names[0]} {names[1]}" '
        'font-family="system-ui, DejaVu Sans, Arial, sans-serif">'
        f'<title id="{names[0]}">{escape(picture.title)}</title>'
        f'<desc id="{names[1]}">{escape(picture.description)}</desc>{"".join(body)}</svg>'
    )


def draw(picture: Picture, prefix: str) -> str:
    """Return the side view of a flight to scale; `prefix` keeps ids apart on one page."""
    laid = lay_out(picture)
    before = min(picture.landing_bottom or GROUND, 1200.0)
    after = min(picture.landing_top or GROUND, 1200.0)
    top, right = laid[-1].head.y, laid[-1].head.x + after
    wide = right + before
    size = max(30.0, min(36.0, wide * 0.0185)) if len(laid) <= MOST_LABELLED else wide * 0.016
    lines = sorted(picture.lines, key=lambda line: line.high)
    lines_top = max([top, *_label_heights(laid, lines, size)])
    outline = _outline(laid, before, after)
    ground = [*outline, Point(right, -90.0), Point(-before, -90.0)]
    body = [
        f'<path d="{_path(ground, closed=True)}" fill="{FILL}" stroke="none"/>',
        f'<path d="{_path(outline)}" fill="none" stroke="{INK}" stroke-width="6" stroke-linejoin="round"/>',
        _stroke([laid[0].nose, laid[-1].nose], "", 3, "16 12") if len(laid) > 1 else "",
        *_line_marks(laid, lines, size),
        *_riser_marks(laid, size, len(laid) > MOST_LABELLED),
        *_tread_marks(laid, size, len(laid) > MOST_LABELLED),
    ]
    room = size * 12 if picture.lines else size * 2
    width = max(right, laid[-1].nose.x + room) + before + 60
    box = (-before - 30, -lines_top - size * 2.2, width, lines_top + size * 2.2 + 100)
    return _frame(picture, prefix, box, body, "side")


def needs_table(picture: Picture) -> bool:
    """Say whether there are too many steps to write the sizes into the side view."""
    return len(picture.risers) > MOST_LABELLED


def _bar(index: int, step: Step, mean: float, scale: float) -> Iterator[str]:
    x, width = 80.0 + index * 96.0, 46.0
    flag = step.flag
    if step.mm is None:
        yield (
            f'<rect x="{_number(x)}" y="-60" width="46" height="120" fill="none" stroke="{MUTED}" '
            'stroke-width="3" stroke-dasharray="9 7"/>'
        )
        label_at = 74.0
    else:
        height = (step.mm - mean) * scale
        size = max(abs(height), 3.0)
        fill = "none" if flag == "outside" else "#5b6b7a"
        yield (
            f'<rect x="{_number(x)}" y="{_number(-max(height, 0.0))}" width="46" height="{_number(size)}" '
            f'fill="{fill}" stroke="{STROKES[flag]}" stroke-width="{"7" if flag == "outside" else "3"}"/>'
        )
        label_at = max(height, 0.0) + 14
    yield _text(Point(x + width / 2, label_at), f"{SIGNS[flag]}{step.label}".removesuffix(" in"), 17, "middle", flag)
    yield _text(Point(x + width / 2, -178.0), str(index + 1), 20, "middle")


def draw_bars(picture: Picture, prefix: str) -> str:
    """Return each riser against the mean of all, differences enlarged so that they can be seen."""
    known = [step.mm for step in picture.risers if step.mm is not None]
    if len(known) < 2:
        return ""
    mean = sum(known) / len(known)
    scale = 130.0 / max(max(abs(value - mean) for value in known), 6.0)
    width = 130.0 + 96.0 * len(picture.risers)
    body = [f'<path d="M50 0H{_number(width - 20)}" stroke="{INK}" stroke-width="3"/>']
    for index, step in enumerate(picture.risers):
        body += _bar(index, step, mean, scale)
    return _frame(picture, prefix, (0.0, -190.0, width, 385.0), body, "bars")
