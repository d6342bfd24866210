"""The rules of tests/benchmark_rules.yaml written out by hand: the anchor of tests/benchmark.py.

It judges the samples that the measures of the project have taken, into the rows that the project makes of them, and
like the project remembers verdicts near a limit, since tape readings repeat.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Any

from stairaudit import Ruleset
from stairaudit.context import Context
from stairaudit.decision import CLEARLY_INSIDE, CLEARLY_OUTSIDE, Outcome, Settled
from stairaudit.findings import Batch, Row
from stairaudit.uncertainty import normal_cdf, q95

INCH = 25_400_000
PASS, WARN = Outcome.PASS, Outcome.WARN
UNMEASURED: Settled = (Outcome.UNMEASURED, False, None, 0)
NOT_APPLICABLE: Settled = (Outcome.NOT_APPLICABLE, False, None, 0)
YES: Settled = (PASS, False, None, 0)
NO: Settled = (WARN, False, None, 1)


@lru_cache(maxsize=4096)
def near(margin: int, u: float) -> Settled:
    """Return the verdict on a reading that is not clear of one limit."""
    outcome = PASS if margin >= 0 else WARN
    if not u:
        return outcome, False, None, int(margin < 0)
    probability = min(max(round(normal_cdf(margin / u), 2), 0.01), 0.99)
    return outcome, abs(margin) * 1000 < 1645 * u, probability, int(margin < 0)


@lru_cache(maxsize=4096)
def near_either(below: int, above: int, u: float) -> Settled:
    """Return the verdict on a reading that is not clear of two limits."""
    margin = min(below, above)
    probability = min(max(round(normal_cdf(above / u) - normal_cdf(-below / u), 2), 0.01), 0.99)
    return PASS if margin >= 0 else WARN, abs(margin) * 1000 < 1645 * u, probability, int(margin < 0)


def gap(sample: Any, limit: Any, assumed: tuple[str, ...] = ()) -> Row:
    """Return the row of a part that is not there or was not measured."""
    if sample.absent:
        return (sample, None), None, NOT_APPLICABLE, (limit, 0, (), assumed)
    return (sample, None), None, UNMEASURED, (limit, 0, sample.missing or (sample.part,), assumed)


def excused(samples: Any, limit: Any) -> list[Row]:
    """Return the rows of parts that the rule is not for."""
    return [((ready[2][0], None), None, NOT_APPLICABLE, (limit, 0, (), ())) for ready in samples]


def most(samples: Any, limit: Any, figure: int, assumed: tuple[str, ...] = ()) -> list[Row]:
    """Return the rows of readings against a greatest figure."""
    rows: list[Row] = []
    told = (limit, 1, (), assumed)
    for x, u, source in samples:
        if x is None:
            rows.append(gap(source[0], limit))
            continue
        reach = 3 * u
        margin = figure - x
        if margin >= reach > 0:
            rows.append((source, margin, CLEARLY_INSIDE, told))
        elif -margin >= reach > 0:
            rows.append((source, margin, CLEARLY_OUTSIDE, told))
        else:
            rows.append((source, margin, near(margin, u), told))
    return rows


def least(samples: Any, limit: Any, figure: int, assumed: tuple[str, ...] = ()) -> list[Row]:
    """Return the rows of readings against a least figure; the smallest of several decides."""
    rows: list[Row] = []
    told = (limit, 1, (), assumed)
    for x, u, source in samples:
        if x is None:
            rows.append(least_of_several(source[0], limit, figure, assumed))
            continue
        reach = 3 * u
        margin = x - figure
        if margin >= reach > 0:
            rows.append((source, margin, CLEARLY_INSIDE, told))
        elif -margin >= reach > 0:
            rows.append((source, margin, CLEARLY_OUTSIDE, told))
        else:
            rows.append((source, margin, near(margin, u), told))
    return rows


def least_of_several(sample: Any, limit: Any, figure: int, assumed: tuple[str, ...]) -> Row:
    """Return the row of a part with several readings or none."""
    values = sample.values
    if not values or values[0].x is None:
        return gap(sample, limit, assumed)
    margins = [value.x - figure for value in values]
    margin = min(margins)
    value = values[margins.index(margin)]
    return several(sample, value, margin, clear_or(margin, value.u, near), margins, limit, assumed)


def clear_or(margin: int, u: float, otherwise: Callable[[int, float], Settled]) -> Settled:
    """Return the verdict on one margin."""
    if margin >= 3 * u:
        return CLEARLY_INSIDE
    return CLEARLY_OUTSIDE if -margin >= 3 * u else otherwise(margin, u)


def several(
    sample: Any, value: Any, margin: int, settled: Settled, margins: list[int], limit: Any,
    assumed: tuple[str, ...] = (),
) -> Row:  # fmt: skip
    """Return the row of the deciding one of several readings."""
    if margin < 0:
        settled = (*settled[:3], sum([other < 0 for other in margins]))
    return (sample, value), margin, settled, (limit, len(margins), (), assumed)


def band(samples: Any, limit: Any, low: int, high: int) -> list[Row]:
    """Return the rows of readings between two figures; the one nearest to, or farthest outside, either decides."""
    rows: list[Row] = []
    told = (limit, 1, (), ())
    for x, u, source in samples:
        if x is None:
            rows.append(band_of_several(source[0], limit, low, high))
            continue
        reach = 3 * u
        below, above = x - low, high - x
        margin = below if below < above else above
        if margin >= reach:
            rows.append((source, margin, CLEARLY_INSIDE, told))
        elif -margin >= reach:
            rows.append((source, margin, CLEARLY_OUTSIDE, told))
        else:
            rows.append((source, margin, near_either(below, above, u), told))
    return rows


def band_of_several(sample: Any, limit: Any, low: int, high: int) -> Row:
    """Return the row of a part with several readings or none."""
    values = sample.values
    if not values or values[0].x is None:
        return gap(sample, limit)
    margins = [min(value.x - low, high - value.x) for value in values]
    margin = min(margins)
    value = values[margins.index(margin)]
    settled = clear_or(margin, value.u, lambda _, u: near_either(value.x - low, high - value.x, u))
    return several(sample, value, margin, settled, margins, limit)


def spread(samples: Any, limit: Any, figure: int, inclusive: bool) -> list[Row]:
    """Return the row of the largest minus the smallest of a list that may have gaps."""
    sample = samples[0][2][0]
    if not sample.values:
        return [gap(sample, limit)]
    value = sample.values[0]
    margin = figure - value.x
    inside = margin > 0 or (inclusive and margin == 0)
    if inside and not sample.whole:
        return [((sample, value), None, UNMEASURED, (limit, sample.n, sample.missing, ()))]
    if inside:
        settled = (PASS, margin * 1000 < 2326 * value.u, None, 0)
    else:
        settled = (WARN, -margin * 1000 < round(q95(sample.n) * 1000) * value.u, None, 1)
    return [((sample, value), margin, settled, (limit, sample.n, sample.missing, ()))]


def rise(samples: Any, limit: Any, figure: int) -> list[Row]:
    """Return the row of the sum of the risers."""
    sample = samples[0][2][0]
    if sample.whole:
        return most(samples, limit, figure)
    value = sample.values[0]
    margin = figure - value.x
    if margin >= 0:
        return [((sample, value), None, UNMEASURED, (limit, 1, sample.missing, ()))]
    return [((sample, value), margin, clear_or(margin, value.u, near), (limit, 1, sample.missing, ()))]


def answers(samples: Any, limit: Any) -> list[Row]:
    """Return the rows of what has to be answered with yes."""
    told = (limit, 1, (), ())
    return [
        (source, None, YES if x else NO, told) if x is not None else gap(source[0], limit) for x, _, source in samples
    ]


def openings(samples: Any, limit: Any, figure: int) -> list[Row]:
    """Return the row of a guard, whose largest opening decides and has to be smaller than the figure."""
    sample = samples[0][2][0]
    if sample.absent:
        return [gap(sample, limit)]
    margins = [figure - value.x for value in sample.values]
    margin = min(margins)
    value = sample.values[margins.index(margin)]
    if margin > 0:
        return [((sample, value), margin, clear_or(margin, value.u, near), (limit, len(margins), (), ()))]
    _, close, probability, _ = clear_or(margin, value.u, near)
    outside = sum([other <= 0 for other in margins])
    return [((sample, value), margin, (WARN, close, probability, outside), (limit, len(margins), (), ()))]


class ByHand:
    """The rules of one rule set by name, and one method for each part of a stair."""

    def __init__(self, ruleset: Ruleset) -> None:
        self.rules = {rule.id: (rule, rule.limit) for rule in ruleset.rules}

    def check(self, contexts: tuple[Context, ...]) -> tuple[Batch, ...]:
        """Return the rows of every flight."""
        batches: list[Batch] = []
        for context in contexts:
            if context.flight is not None:
                made = self.steps(context.cache) + self.sizes(context) + self.edges(context)
                stair, flight = context.stair.id, context.flight.id
                batches += [(stair, flight, self.rules[name][0], rows) for name, rows in made]
        return tuple(batches)

    def steps(self, read: Any) -> list[tuple[str, list[Row]]]:
        """Risers, treads and nosings."""
        rules, risers = self.rules, read["riser-height"]
        return [
            ("riser-most", most(risers, rules["riser-most"][1], 8 * INCH)),
            ("riser-least", least(risers, rules["riser-least"][1], 6 * INCH)),
            ("riser-steady", most(read["riser-neighbour-difference"], rules["riser-steady"][1], INCH // 4)),
            ("riser-spread", spread(read["riser-spread"], rules["riser-spread"][1], INCH // 2, True)),
            ("riser-count", most(read["riser-count"], rules["riser-count"][1], 14)),
            ("rise", rise(read["flight-rise"], rules["rise"][1], 100 * INCH)),
            ("tread", least(read["tread-depth"], rules["tread"][1], 10 * INCH)),
            ("tread-spread", spread(read["tread-spread"], rules["tread-spread"][1], INCH // 2, True)),
            ("nosing", band(read["nosing-projection"], rules["nosing"][1], INCH // 2, 3 * INCH // 2)),
            ("nosing-spread", spread(read["nosing-spread"], rules["nosing-spread"][1], INCH // 2, False)),
        ]

    def sizes(self, context: Context) -> list[tuple[str, list[Row]]]:
        """What is read of the flight as a whole."""
        rules, read, serves = self.rules, context.cache, context.stair.serves
        width, rails = rules["width"][1], rules["rail-count"][1]
        assumed = () if serves else ("serves: building",)
        return [
            (
                "width",
                excused(read["flight-width"], width)
                if serves == "garden"
                else least(read["flight-width"], width, 36 * INCH, assumed),
            ),
            ("width-at-rail", least(read["flight-width-at-rail"], rules["width-at-rail"][1], 32 * INCH)),
            ("headroom", least(read["headroom"], rules["headroom"][1], 80 * INCH)),
            (
                "rail-count",
                least(read["handrail-count"], rails, 1)
                if len(context.risers or ()) >= 4
                else excused(read["handrail-count"], rails),
            ),
        ]

    def edges(self, context: Context) -> list[tuple[str, list[Row]]]:
        """Handrails, the guard beside a drop, and landings."""
        rules, read = self.rules, context.cache
        return [
            ("rail-height", band(read["handrail-height"], rules["rail-height"][1], 34 * INCH, 38 * INCH)),
            ("rail-clearance", least(read["handrail-clearance"], rules["rail-clearance"][1], 3 * INCH // 2)),
            ("rail-projection", most(read["handrail-projection"], rules["rail-projection"][1], 4 * INCH)),
            ("rail-continuous", answers(read["handrail-continuous"], rules["rail-continuous"][1])),
            *self.guards(context),
            ("landing", answers(read["landing-present"], rules["landing"][1])),
            ("landing-depth", least(read["landing-depth"], rules["landing-depth"][1], 36 * INCH)),
            ("landing-width", least(read["landing-width"], rules["landing-width"][1], 36 * INCH)),
            ("landing-headroom", least(read["landing-headroom"], rules["landing-headroom"][1], 80 * INCH)),
        ]

    def guards(self, context: Context) -> list[tuple[str, list[Row]]]:
        """Each guard beside a drop of more than 30 in; the generated flights have one on the right or none."""
        heights, gaps = context.cache["guard-height"], context.cache["guard-opening"]
        height, opening = self.rules["guard-height"][1], self.rules["guard-opening"][1]
        flight: Any = context.flight
        drop = max([reading.value for reading in flight.sides.right.drop])
        if drop <= 30 * INCH and not heights[0][2][0].absent:
            return [("guard-height", excused(heights, height)), ("guard-opening", excused(gaps, opening))]
        return [
            ("guard-height", least(heights, height, 36 * INCH)),
            ("guard-opening", openings(gaps, opening, 4 * INCH)),
        ]
