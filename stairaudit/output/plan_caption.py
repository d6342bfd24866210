"""What is said under a plan, and the table of the sizes that the plan has no room for."""

from __future__ import annotations

from collections.abc import Iterator

from stairaudit.output.plan_texts import covered
from stairaudit.output.plan_view import PlanView, plan_view_of
from stairaudit.output.svg import SIGNS
from stairaudit.words.marks import Step
from stairaudit.words.plans import Deck, Plan
from stairaudit.words.step_flags import stretch_of

Row = tuple[str, ...]


def plan_caption_of(plan: Plan) -> str:
    """Return what the lines and signs of a plan mean, and what is not drawn as it was read."""
    view = plan_view_of(plan)
    parts = (_lines(plan), _tapers(view), _turns(view), _gaps(view), _landings(view), _signs(view))
    return " ".join(sentence for part in parts for sentence in part)


def _lines(plan: Plan) -> Iterator[str]:
    yield "Seen from above, to scale; the figures govern. T is a tread, from the bottom up; nosings lie across."
    told_here = [deck for deck in (plan.bottom, plan.top) if not deck.told_at]
    edges = [*plan.edges, *(edge for deck in told_here for edge in deck.edges[:2])]
    kinds = {edge.kind for edge in edges}
    sides = {"wall": "a hatched side is a wall", "open": "a plain side is open", "": "a dashed side was not told"}
    yield _sentence([words for kind, words in sides.items() if kind in kinds])
    if len(told_here) < 2:
        yield "The sides of a landing that is told at another flight are dashed too: see that flight."
    runs = {run.kind for run in (*plan.runs, *plan.bottom.runs, *plan.top.runs)}
    named = {
        "handrail": "the line inside a side is a handrail",
        "guard": "the long dashes outside a side are a guard",
    }
    if runs:
        yield _sentence([words for kind, words in named.items() if kind in runs])


def _sentence(parts: list[str]) -> str:
    text = ", ".join(parts)
    return f"{text[0].upper()}{text[1:]}."


def _tapers(view: PlanView) -> Iterator[str]:
    plan = view.plan
    tapers = [tread.taper for tread in plan.treads if tread.taper is not None]
    if not tapers:
        return
    if plan.form == "spiral":
        yield "The treads are drawn as sectors round the pole, each by the outermost depth that was read of it."
    else:
        yield (
            "Each tapered tread is drawn with round sides about a centre of its own; its ends, straight from nosing "
            "to nosing, settle how far it turns."
        )
    if any(taper.walkline.mm is not None for taper in tapers):
        yield from _walkline(plan)


def _walkline(plan: Plan) -> Iterator[str]:
    if plan.walkline_out.mm is not None:
        yield "The dashed line over tapered treads is the walkline; a figure in one of them is its depth there."
    else:
        laid = "" if plan.form == "spiral" else "; what was read on it is laid midway"
        yield f"How far out the walkline runs was not told: it is not drawn{laid}."


def _turns(view: PlanView) -> Iterator[str]:
    plan = view.plan
    if view.laid.turn and plan.turns is None:
        yield "The survey does not say which way it turns: drawn to the left, going up."
    pairs = [(tile, tile.tread.taper) for tile in view.laid.tiles if tile.tread.taper is not None]
    assumed = sum(not tile.told for tile, _ in pairs)
    if assumed:
        known = assumed < len(pairs)
        turn = (
            "the mean of the others"
            if known
            else "30 deg each"
            if plan.form == "spiral"
            else "a quarter turn together"
        )
        yield f"How far {assumed} of {len(pairs)} tapered treads turn was not read: {turn} is assumed."
    if plan.form == "alternating-tread":
        yield "Which foot goes first was not told: the left half is drawn first."
    hidden = [index for index, below in enumerate(covered(view.laid), 1) if below]
    if hidden:
        verb = "lies" if len(hidden) == 1 else "lie"
        stretch = stretch_of("T", hidden)
        yield f"{stretch} {verb} a full turn below others, hidden here; the sizes stand in the table."


def _gaps(view: PlanView) -> Iterator[str]:
    plan = view.plan
    plain = [tread.depth.mm for tread in plan.treads if tread.taper is None]
    decks = [deck for deck in (plan.bottom, plan.top) if deck.there]
    sizes = [tread.depth for tread in plan.treads] + [size for deck in decks for size in (deck.depth, deck.width)]
    if any(size.mm is None for size in sizes):
        treads = "a plain tread is drawn at the mean of the others, " if plain else ""
        yield f"? and short dashes: not measured; {treads}a landing anyhow."
    if plain and not any(plain):
        yield "No plain tread was measured: their depth here is a proportion of the drawing."
    if plan.form == "mixed" and not all(plain):
        yield "A tread of which nothing is known is drawn as a plain one."
    if not plan.treads:
        yield "A flight without a tread has no length: its sides are short pieces at the nosing."
    if plan.width.mm is None:
        yield "The clear width was not measured: the width here is a proportion of the drawing."
    elif plan.widths[0].mm is None:
        yield "It is drawn as wide as it is at the rail."


def _of_other_width(deck: Deck, width: float) -> bool:
    return deck.there and deck.width.mm is not None and abs(deck.width.mm - width) > 1


def _landings(view: PlanView) -> Iterator[str]:
    plan = view.plan
    drawn = [floor.deck for floor in (view.laid.bottom, view.laid.top) if floor.drawn]
    if any(_of_other_width(deck, view.laid.width) for deck in drawn):
        yield "Where on a landing of another width the flight stands is not told: it is drawn at the middle."
    if any(any(floor.broken) for floor in (view.laid.bottom, view.laid.top)):
        yield "A landing with a zigzag is larger than it is drawn."
    if not (view.laid.bottom.drawn and view.laid.top.drawn):
        yield "A landing that would cross treads or the other landing is not drawn; it is told at the top."
    if plan.between:
        yield "Landings between are not drawn: the survey does not say which treads they part."


def _steps(plan: Plan) -> list[Step]:
    decks = [size for deck in (plan.bottom, plan.top) for size in (deck.depth, deck.width)]
    return [*(tread.depth for tread in plan.treads), *decks, *plan.told]


def _marks(plan: Plan, flags: set[str]) -> Iterator[str]:
    """Yield what a tint and the heavy line at the bottom stand for."""
    if flags:
        colours = {"outside": "red", "close": "yellow"}
        tints = " or ".join(colours[flag] for flag in ("outside", "close") if flag in flags)
        yield f"A tread or landing tinted {tints} bears the sign, or what is signed is told at the top."
    if any(step.flag for step in plan.widths):
        yield "A coloured line at the bottom nosing is for the clear width."


def _signs(view: PlanView) -> Iterator[str]:
    plan = view.plan
    steps = _steps(plan)
    edges = (*plan.edges, *plan.bottom.edges, *plan.top.edges)
    runs = (*plan.runs, *plan.bottom.runs, *plan.top.runs)
    tinted = {*(tread.flag for tread in plan.treads), plan.bottom.flag, plan.top.flag} - {""}
    flags = tinted | {step.flag for step in steps} | {edge.flag for edge in edges} | {run.flag for run in runs}
    if "outside" in flags:
        yield "! and red: a reading there lies outside its figure."
    if "close" in flags:
        yield "~ at a name or letter: too close to call."
    yield from _marks(plan, tinted)
    if any("~" in label for label in (*(step.label for step in steps), *(edge.label for edge in edges))):
        yield "~ before a figure: rounded."
    if _short_of_room(view):
        yield "The sizes of the treads stand in the table."


def _short_of_room(view: PlanView) -> bool:
    seen = [text for text, below in zip(view.texts, covered(view.laid), strict=True) if not below]
    return any(text is None or not text.full for text in seen)


def needs_sizes(plan: Plan) -> bool:
    """Say whether sizes of plain treads would not fit into the plan, so that it bears numbers there."""
    return not _is_tapered(plan) and _short_of_room(plan_view_of(plan))


def _is_tapered(plan: Plan) -> bool:
    return any(tread.taper is not None for tread in plan.treads)


def plan_sizes(plan: Plan) -> tuple[Row, ...]:
    """Return the table of the treads of a flight with tapered ones, its head first; empty for any other flight."""
    if not _is_tapered(plan):
        return ()
    rows = (("Tread", "Plain", "Narrow end", "At the walkline", "Wide end", "Width"), *_tapered_rows(plan))
    if any(tread.taper is None for tread in plan.treads):
        return rows
    return tuple((name, *cells) for name, _, *cells in rows)


def _shown(step: Step) -> str:
    return "? not measured" if step.mm is None else SIGNS[step.flag] + step.label


def _tapered_rows(plan: Plan) -> Iterator[Row]:
    for index, tread in enumerate(plan.treads, 1):
        name = str(index)
        if tread.taper is None:
            yield name, _shown(tread.depth), "", "", "", ""
        else:
            width = "as the flight" if tread.taper.width.mm is None else tread.taper.width.label
            yield name, "", *(_shown(step) for step in tread.taper[:3]), width
