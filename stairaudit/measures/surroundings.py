"""Measures of light, glass and the space under the stair."""

from __future__ import annotations

from collections.abc import Callable

from stairaudit.context import Context
from stairaudit.measures.steps import answer
from stairaudit.readings import Absent
from stairaudit.samples import Sample, Samples, Value, absent, unmeasured

Measure = Callable[[Context], Samples]


def light_answer(key: str) -> Measure:
    """Return the measure of a yes or no about the light on the stair."""

    def measure(context: Context) -> Samples:
        light = context.stair.lighting
        return answer("stair", getattr(light, key) if light else None, f"lighting {key.replace('_', ' ')}")

    return measure


def light_level(context: Context) -> Samples:
    """Light on the darkest tread [lux]."""
    light = context.stair.lighting
    if light is None or light.level is None:
        return (unmeasured("stair", "lighting level"),)
    return (Sample("stair", (Value(light.level.value),)),)


def glazing_safety(context: Context) -> Samples:
    """Is each pane near the stair marked as safety glazing?"""
    panes = context.stair.glazing
    if isinstance(panes, Absent):
        return (absent("glazing"),)
    if not panes:
        return (unmeasured("glazing"),)
    return tuple(
        sample
        for i, pane in enumerate(panes, 1)
        for sample in answer(f"glazing {i}", pane.safety_mark, f"glazing {i} safety mark", pane)
    )


def under_stair_board(context: Context) -> Samples:
    """Thickness of the board on the underside of the stair [nm]; nothing where there is none."""
    under = context.stair.under_stair
    board = under.board if under else None
    if board is None:
        return (unmeasured("stair", "under stair board"),)
    if isinstance(board, Absent):
        return (Sample("stair", (Value(0),)),)
    return (Sample("stair", (context.length(board),)),)


def under_stair_headroom(context: Context) -> Samples:
    """From the floor to the underside of the flight where one can walk under it [nm]."""
    under = context.stair.under_stair
    told = under.headroom if under else None
    return (Sample("stair", context.lengths(told)),) if told else (unmeasured("stair", "under stair headroom"),)


def under_stair_guarded(context: Context) -> Samples:
    """Is there a barrier where the headroom under the flight is too little?"""
    under = context.stair.under_stair
    return answer("stair", under.guarded if under else None, "under stair guarded")
