"""The rules of tests/benchmark_rules.yaml written out by hand: the anchor of tests/benchmark.py."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from stairaudit import Finding, Ruleset, Survey
from stairaudit.decision import Outcome
from stairaudit.readings import Absent
from stairaudit.ruleset import Rule
from stairaudit.samples import At
from stairaudit.uncertainty import Instruments, normal_cdf, q95

INCH = 25_400_000
PASS, WARN, UNMEASURED, NOT_APPLICABLE = Outcome.PASS, Outcome.WARN, Outcome.UNMEASURED, Outcome.NOT_APPLICABLE
AT_3 = tuple(At(i, 3, "along") for i in range(3))
AT_4 = tuple(At(i, 4, "along") for i in range(4))
PLACES: dict[int, tuple[At | None, ...]] = {1: (None,), 3: AT_3, 4: AT_4}
LONG = 1_000_000_000


def gap(stair: str, flight: str, part: str, rule: Rule, missing: tuple[str, ...]) -> Finding:
    """Return the row of a part that was not measured."""
    return Finding(
        stair, flight, part, rule, UNMEASURED, False, None, None, 0, rule.limit, None, None, None, 0, 0,
        missing, (), (), False,
    )  # fmt: skip


def skip(stair: str, flight: str, part: str, rule: Rule, excused: bool) -> Finding:
    """Return the row of a part that is not there, or that the rule is not for."""
    return Finding(
        stair, flight, part, rule, NOT_APPLICABLE, False, None, None, 0, rule.limit, None, None, None, 0, 0,
        (), (), (), excused,
    )  # fmt: skip


def row(
    stair: str, flight: str, part: str, rule: Rule, x: int, u: float, margin: int,
    inside: bool, at: At | None = None, readings: int = 1, outside: int | None = None,
    assumed: tuple[str, ...] = (),
) -> Finding:  # fmt: skip
    """Return the row of the deciding reading of one part against one limit."""
    size = margin if margin >= 0 else -margin
    close = False
    again: tuple[str, ...] = ()
    probability: float | None
    if not u:
        probability = None
    elif size >= 3 * u:
        probability = 0.99 if margin > 0 else 0.01
    else:
        probability = min(max(round(normal_cdf(margin / u), 2), 0.01), 0.99)
        if size * 1000 < 1645 * u:
            close, again = True, (part,)
    if outside is None:
        outside = 0 if inside else 1
    return Finding(
        stair, flight, part, rule, PASS if inside else WARN, close, probability, x, u, rule.limit, margin,
        at, None, readings, outside, (), assumed, again, False,
    )  # fmt: skip


def band(
    stair: str, flight: str, part: str, rule: Rule, x: int, u: float, low: int, high: int,
    at: At | None = None, readings: int = 1, outside: int | None = None,
) -> Finding:  # fmt: skip
    """Return the row of a reading against two limits."""
    above, below = x - low, high - x
    margin = min(above, below)
    size = margin if margin >= 0 else -margin
    close = False
    again: tuple[str, ...] = ()
    if size >= 3 * u:
        probability = 0.99 if margin > 0 else 0.01
    else:
        probability = min(max(round(normal_cdf(below / u) - normal_cdf(-above / u), 2), 0.01), 0.99)
        if size * 1000 < 1645 * u:
            close, again = True, (part,)
    if outside is None:
        outside = 0 if margin >= 0 else 1
    return Finding(
        stair, flight, part, rule, PASS if margin >= 0 else WARN, close, probability, x, u, rule.limit, margin,
        at, None, readings, outside, (), (), again, False,
    )  # fmt: skip


class ByHand:
    """The rules of one rule set by name, and one method for each part of a stair."""

    def __init__(self, ruleset: Ruleset) -> None:
        self.rules = {rule.id: rule for rule in ruleset.rules}
        self.near = Instruments().length_u(0)

    def check(self, survey: Survey) -> list[Finding]:
        """Return the rows of every flight."""
        rows: list[Finding] = []
        for stair in survey.stairs:
            for flight in stair.flights:
                s, f = stair.id, flight.id
                risers = [places[0] and places[0].value for places in flight.risers or ()]
                treads = [places[0] and places[0].value for places in flight.treads or ()]
                nosings: Any = flight.nosings
                overhangs = [places[0] and places[0].value for places in nosings]
                self.risers(rows, s, f, risers)
                self.treads(rows, s, f, treads)
                self.nosings(rows, s, f, overhangs)
                self.flight(rows, s, f, stair, flight, risers, treads, overhangs)
                self.handrails(rows, s, f, flight.handrails)
                self.guards(rows, s, f, flight)
                self.landings(rows, s, f, flight.landings)
        return rows

    def risers(self, rows: list[Finding], s: str, f: str, risers: Sequence[int | None]) -> None:
        """Each riser, and each two neighbours."""
        most, least, steady = self.rules["riser-most"], self.rules["riser-least"], self.rules["riser-steady"]
        u, last = self.near, len(risers)
        u_step = (u * u + u * u) ** 0.5
        for i, x in enumerate(risers, 1):
            part = f"riser {i}"
            if x is None:
                rows += gap(s, f, part, most, (part,)), gap(s, f, part, least, (part,))
            else:
                margin = 8 * INCH - x
                rows.append(row(s, f, part, most, x, u, margin, margin >= 0))
                margin = x - 6 * INCH
                rows.append(row(s, f, part, least, x, u, margin, margin >= 0))
            if i == last:
                continue
            pair, after = f"risers {i}-{i + 1}", risers[i]
            if x is None or after is None:
                rows.append(gap(s, f, pair, steady, (pair,)))
                continue
            step = abs(x - after)
            margin = INCH // 4 - step
            rows.append(row(s, f, pair, steady, step, u_step, margin, margin >= 0))

    def treads(self, rows: list[Finding], s: str, f: str, treads: Sequence[int | None]) -> None:
        """Each tread."""
        rule, u = self.rules["tread"], self.near
        for i, x in enumerate(treads, 1):
            part = f"tread {i}"
            if x is None:
                rows.append(gap(s, f, part, rule, (part,)))
                continue
            margin = x - 10 * INCH
            rows.append(row(s, f, part, rule, x, u, margin, margin >= 0))

    def nosings(self, rows: list[Finding], s: str, f: str, nosings: Sequence[int | None]) -> None:
        """Each nosing, that of the upper landing first."""
        rule, u = self.rules["nosing"], self.near
        parts = [("nosing top", nosings[-1]), *((f"nosing {i}", x) for i, x in enumerate(nosings[:-1], 1))]
        for part, x in parts:
            if x is None:
                rows.append(gap(s, f, part, rule, (part,)))
            else:
                rows.append(band(s, f, part, rule, x, u, INCH // 2, 3 * INCH // 2))

    def flight(
        self, rows: list[Finding], s: str, f: str, stair: Any, flight: Any, risers: Sequence[int | None],
        treads: Sequence[int | None], nosings: Sequence[int | None],
    ) -> None:  # fmt: skip
        """What is read once for the flight."""
        rules, count, garden = self.rules, len(risers), stair.serves == "garden"
        rows.append(self.spread(s, f, rules["riser-spread"], "riser", risers, True))
        rows.append(row(s, f, "flight", rules["riser-count"], count, 0, 14 - count, count <= 14))
        rows.append(self.rise(s, f, risers))
        rows.append(self.spread(s, f, rules["tread-spread"], "tread", treads, True))
        rows.append(self.spread(s, f, rules["nosing-spread"], "nosing", nosings, False))
        assumed = () if stair.serves else ("serves: building",)
        if garden:
            rows.append(skip(s, f, "flight", rules["width"], True))
        else:
            rows.append(self.lowest(s, f, "flight", rules["width"], flight.width, 36 * INCH, assumed))
        rows.append(self.lowest(s, f, "flight", rules["width-at-rail"], flight.width_at_rail, 32 * INCH))
        if flight.headroom is Absent.NONE:
            rows.append(skip(s, f, "flight", rules["headroom"], False))
        else:
            rows.append(self.lowest(s, f, "flight", rules["headroom"], flight.headroom, 80 * INCH))
        rails = 0 if flight.handrails is Absent.NONE else len(flight.handrails)
        if count >= 4:
            rows.append(row(s, f, "flight", rules["rail-count"], rails, 0, rails - 1, rails >= 1))
        else:
            rows.append(skip(s, f, "flight", rules["rail-count"], True))

    def spread(self, s: str, f: str, rule: Rule, noun: str, listed: Sequence[int | None], inclusive: bool) -> Finding:
        """Largest minus smallest of a list that may have gaps."""
        if len(listed) < 2:
            return skip(s, f, "flight", rule, False)
        known = [x for x in listed if x is not None]
        missing: tuple[str, ...] = ()
        if len(known) < len(listed):
            missing = tuple(f"{noun} {i}" for i, x in enumerate(listed, 1) if x is None)
        low, high, u, n = min(known), max(known), self.near, len(known)
        size = high - low
        margin = INCH // 2 - size
        inside = margin > 0 or (inclusive and margin == 0)
        if missing and inside:
            return Finding(
                s, f, "flight", rule, UNMEASURED, False, None, size, u, rule.limit, None, None, None, n, 0,
                missing, (), (), False,
            )  # fmt: skip
        close = margin * 1000 < 2326 * u if inside else -margin * 1000 < round(q95(n) * 1000) * u
        again: tuple[str, ...] = ()
        if close:
            reach = 2326 * u
            again = tuple(
                f"{noun} {i}"
                for i, x in enumerate(listed, 1)
                if x is not None and ((x - low) * 1000 <= reach or (high - x) * 1000 <= reach)
            )
        return Finding(
            s, f, "flight", rule, PASS if inside else WARN, close, None, size, u, rule.limit, margin, None, None,
            n, not inside, missing, (), again, False,
        )  # fmt: skip

    def rise(self, s: str, f: str, risers: Sequence[int | None]) -> Finding:
        """The sum of the risers."""
        rule, u = self.rules["rise"], self.near
        known = [x for x in risers if x is not None]
        total, n, shared = sum(known), len(known), min(u, 400_000)
        u_total = (n * (u * u - shared * shared) + (n * shared) ** 2) ** 0.5
        margin = 100 * INCH - total
        found = row(s, f, "flight", rule, total, u_total, margin, margin >= 0)
        if n == len(risers):
            return found
        missing = tuple(f"riser {i}" for i, x in enumerate(risers, 1) if x is None)
        if margin < 0:
            return found._replace(missing=missing)
        return Finding(
            s, f, "flight", rule, UNMEASURED, False, None, total, u_total, rule.limit, None, None, None, 1, 0,
            missing, (), (), False,
        )  # fmt: skip

    def lowest(
        self, s: str, f: str, part: str, rule: Rule, told: Any, limit: int, assumed: tuple[str, ...] = ()
    ) -> Finding:
        """The smallest of several readings against a least figure."""
        values = [reading.value for reading in told]
        x = min(values)
        u = 2 * self.near if x > LONG else self.near
        margin = x - limit
        if len(values) == 1:
            return row(s, f, part, rule, x, u, margin, margin >= 0, None, 1, None, assumed)
        outside = sum([value < limit for value in values]) if margin < 0 else 0
        at = PLACES[len(values)][values.index(x)]
        return row(s, f, part, rule, x, u, margin, margin >= 0, at, len(values), outside, assumed)

    def handrails(self, rows: list[Finding], s: str, f: str, rails: Any) -> None:
        """Each handrail; the generated flights have one or none."""
        height, clearance = self.rules["rail-height"], self.rules["rail-clearance"]
        projection, continuous = self.rules["rail-projection"], self.rules["rail-continuous"]
        if rails is Absent.NONE:
            rows += [skip(s, f, "handrails", rule, False) for rule in (height, clearance, projection, continuous)]
            return
        for rail in rails:
            part = f"handrail {rail.side}"
            rows.append(self.rail_height(s, f, part, height, rail.heights))
            if rail.clearance is None:
                rows.append(gap(s, f, part, clearance, (f"{part} clearance",)))
            else:
                rows.append(self.lowest(s, f, part, clearance, rail.clearance, 3 * INCH // 2))
            x = rail.projection[0].value
            margin = 4 * INCH - x
            rows.append(row(s, f, part, projection, x, self.near, margin, margin >= 0))
            rows.append(answer(s, f, part, continuous, rail.continuous))

    def rail_height(self, s: str, f: str, part: str, rule: Rule, told: Any) -> Finding:
        """The height of a rail that lies nearest to, or farthest outside, either limit."""
        low, high = 34 * INCH, 38 * INCH
        values = [reading.value for reading in told]
        margins = [min(x - low, high - x) for x in values]
        least = min(margins)
        place = margins.index(least)
        outside = sum([margin < 0 for margin in margins]) if least < 0 else 0
        x = values[place]
        u = 2 * self.near if x > LONG else self.near
        return band(s, f, part, rule, x, u, low, high, PLACES[len(values)][place], len(values), outside)

    def guards(self, rows: list[Finding], s: str, f: str, flight: Any) -> None:
        """Each guard beside a drop of more than 30 in; the generated flights have one or none."""
        height, opening = self.rules["guard-height"], self.rules["guard-opening"]
        if flight.guards is Absent.NONE:
            rows += skip(s, f, "guards", height, False), skip(s, f, "guards", opening, False)
            return
        for guard in flight.guards:
            part = f"guard {guard.side}"
            if max([reading.value for reading in flight.sides.right.drop]) <= 30 * INCH:
                rows += skip(s, f, part, height, True), skip(s, f, part, opening, True)
                continue
            rows.append(self.lowest(s, f, part, height, guard.heights, 36 * INCH))
            values = [item.gap.value for item in guard.openings]
            x = max(values)
            margin = 4 * INCH - x
            outside = sum([value >= 4 * INCH for value in values]) if margin <= 0 else 0
            at = PLACES[len(values)][values.index(x)]
            rows.append(row(s, f, part, opening, x, self.near, margin, margin > 0, at, len(values), outside))

    def landings(self, rows: list[Finding], s: str, f: str, landings: Any) -> None:
        """The two landings."""
        both = (("landing bottom", landings.bottom), ("landing top", landings.top))
        there = [(part, landing) for part, landing in both if landing.present]
        rows += [answer(s, f, part, self.rules["landing"], landing.present) for part, landing in both]
        for rule, limit, take in (
            (self.rules["landing-depth"], 36 * INCH, lambda landing: landing.depth),
            (self.rules["landing-width"], 36 * INCH, lambda landing: landing.width),
        ):
            rows += [self.lowest(s, f, part, rule, take(landing), limit) for part, landing in there]
        rule = self.rules["landing-headroom"]
        covered = [(part, landing.headroom) for part, landing in there if landing.headroom is not Absent.NONE]
        if covered:
            rows += [self.lowest(s, f, part, rule, told, 80 * INCH) for part, told in covered]
        else:
            rows.append(skip(s, f, "landings", rule, False))


def answer(stair: str, flight: str, part: str, rule: Rule, told: bool) -> Finding:
    """Return the row of a yes or no that has to be yes."""
    return Finding(
        stair, flight, part, rule, PASS if told else WARN, False, None, told, 0, rule.limit, None, None, None,
        1, not told, (), (), (), False,
    )  # fmt: skip
