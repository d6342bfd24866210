"""Pieces of SVG: fixed decimals, escaped text, and signs that do not rest on colour alone."""

from __future__ import annotations

from html import escape
from typing import NamedTuple

from stairaudit.output.inert import inert

# A page 900 px wide leaves 860 px, so a unit of the sheet is about a pixel there.
WIDTH, MARGIN = 860.0, 12.0
SIZE, LEADING = 11.5, 13.0
# Between the widest digit and the narrowest letter of common screen faces; only room is reckoned with it.
LETTER = 0.6

INK, MUTED, FILL = "#1a1a1a", "#4a4a4a", "#ece8df"
# Behind words of the colours in STROKES these keep a contrast above 4.5 to 1 (WCAG 2.2, 1.4.3; from memory).
TINTS = {"outside": "#f6d5d8", "close": "#f8ebc8"}
STROKES = {"": INK, "outside": "#a3001b", "close": "#7a4b00"}
SIGNS = {"": "", "outside": "! ", "close": "~ "}
THICK = {"": 1.3, "outside": 3.6, "close": 2.3}
DASHES = {"unmeasured": "4 4", "guard": "16 4", "headroom": "14 4 2 4", "nosings": "1 4", "walkline": "7 3"}


class Point(NamedTuple):
    """A point of the sheet, y downwards, or of the stair [mm], y upwards."""

    x: float
    y: float


def number(value: float) -> str:
    """Return a coordinate with at most one decimal.

    >>> number(12.0), number(-0.01), number(7.25)
    ('12', '0', '7.2')
    """
    text = f"{value:.1f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def path(points: list[Point], style: str) -> str:
    """Return a line through points, nothing where there are fewer than two places."""
    written = [f"{number(p.x)} {number(p.y)}" for p in points]
    if len(set(written)) < 2:
        return ""
    return f'<path d="M{"L".join(written)}" {style}/>'


def strokes(lines: list[list[Point]], style: str) -> str:
    """Return several lines as one path, nothing where there is none."""
    written = ["L".join(f"{number(p.x)} {number(p.y)}" for p in line) for line in lines]
    return f'<path d="M{"M".join(written)}" {style}/>' if written else ""


def stroke(flag: str = "", dash: str = "", width: float = 0.0, fill: str = "none") -> str:
    """Return how a line is drawn: its colour and weight by its flag, its dash by its name in DASHES."""
    dashes = f' stroke-dasharray="{DASHES[dash]}"' if dash else ""
    wide = number(width or THICK[flag])
    return f'fill="{fill}" stroke="{STROKES[flag]}" stroke-width="{wide}" stroke-linejoin="round"{dashes}'


def words(at: Point, text: str, flag: str = "", anchor: str = "start", turn: float = 0.0) -> str:
    """Return one line of text at a point, turned about it by some degrees."""
    weight = ' font-weight="bold"' if flag == "outside" else ""
    place = f"{number(at.x)} {number(at.y)}"
    turned = "" if number(turn) == "0" else f' transform="rotate({number(turn)} {place})"'
    return (
        f'<text x="{number(at.x)}" y="{number(at.y)}" font-size="{number(SIZE)}" text-anchor="{anchor}" '
        f'fill="{STROKES[flag]}"{weight}{turned}>{escape(text)}</text>'
    )


def width_of(text: str) -> float:
    """Return about how wide a line of text is."""
    return len(text) * SIZE * LETTER


def sheet(names: tuple[str, str], prefix: str, kind: str, box: tuple[float, float, float], body: list[str]) -> str:
    """Return a drawing with its title and description; `box` holds its left, its top and its height."""
    title, description = names
    view = " ".join(number(value) for value in (box[0], box[1], WIDTH, box[2]))
    return inert(
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{view}" class="{kind}" role="img" '
        f'aria-labelledby="{prefix}-{kind}-title {prefix}-{kind}-desc" '
        'font-family="system-ui, DejaVu Sans, Arial, sans-serif">'
        f'<title id="{prefix}-{kind}-title">{escape(title)}</title>'
        f'<desc id="{prefix}-{kind}-desc">{escape(description)}</desc>{"".join(body)}</svg>'
    )
