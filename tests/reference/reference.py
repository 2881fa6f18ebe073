"""A second scoring of a card, written from the method and not from the product's code.

Source: the method page (``crates/assess/METHOD.md``), whose section names stand in the docstrings;
the uncertainty is that of JCGM 100 (GUM), clause 5.2, for correlated inputs.

Run as ``python3 reference.py CARD`` it prints what ``ringland score CARD --json`` prints.
"""

from __future__ import annotations

import json
import math
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

import canonical
import measurements
import outlook

Json = dict[str, Any]
Vector = NDArray[np.float64]

WHOLE_GRADES = ("none", "trace", "light", "medium", "heavy", "severe")

#: The ladder with its half steps: none, none_to_trace, trace, …
GRADES = (
    tuple(
        grade
        for better, worse in pairwise(WHOLE_GRADES)
        for grade in (better, f"{better}_to_{worse}")
    )
    + WHOLE_GRADES[-1:]
)

#: Causes that the oil does not answer for. *In service* and *unknown* leave nothing out.
EXCLUDING = frozenset({"dirt", "coolant", "fuel", "overheating", "assembly", "mechanical"})

#: The most that may be counted in one place.
MOST_COUNTED = 10_000

#: Which kind of look each scale takes.
LOOK_OF_METHOD = {
    "grade": "grade",
    "area": "areas",
    "merit_area": "areas",
    "extent": "percent",
    "count": "count",
    "state": "state",
    "measured": "size",
    "gauged": "reading",
}

#: Fill of a groove for each percent at a carbon level (ASTM D6750, from memory).
GROOVE_FILL = {"heavy_carbon": 1.0, "medium_carbon": 0.5, "light_carbon": 0.25}


class OutOfRange(ValueError):
    """A look that no bench can give: names the field and the range."""


# --------------------------------------------------------------------------- one look


def interpolate(points: list[list[float]], x: float) -> float:
    """Straight between breakpoints; past the last, its score ("One look")."""
    xs, scores = zip(*points, strict=True)
    return float(np.interp(x, xs, scores))


def steepest_slope(points: list[list[float]], x: float) -> float:
    """Absolute slope of a breakpoint table at x; on a breakpoint that of the steeper segment."""
    slopes = [
        abs((s1 - s0) / (x1 - x0)) for (x0, s0), (x1, s1) in pairwise(points) if x0 <= x <= x1
    ]
    return max(slopes, default=0.0)


def demerit(shares: dict[str, float], scale: Json) -> float:
    """Demerit of a deposit area, D = Σ aₖ·fₖ, 0 to 100 ("One look")."""
    return sum(shares.get(level["id"], 0.0) * level["factor"] for level in scale["levels"])


def merit(shares: dict[str, float], scale: Json) -> float:
    """Area-weighted merit M = (Σ aₖ·mₖ + (100 − Σ aₖ)·10)/100, 0 to 10 ("One look")."""
    held = [(shares.get(level["id"], 0.0), level["merit"]) for level in scale["levels"]]
    clean = 100.0 - sum(area for area, _ in held)
    return (sum(area * value for area, value in held) + clean * 10.0) / 100.0


def fits(kind: str, value: Any, scale: Json) -> bool:
    """Whether a look can be read on a scale ("What counts"); *not inspected* always can."""
    if kind == "not_inspected":
        return True
    if LOOK_OF_METHOD[scale["method"]] != kind:
        return False
    if kind == "reading":
        return measurements.fits(value, scale)
    if kind == "areas":
        known = {level["id"] for level in scale["levels"]}
        read = {one["level"] for one in value.get("read_off", {}).get("classes", [])}
        return set(value["shares"]) <= known and read <= known | {"clean"}
    if kind == "state":
        return value in {state["id"] for state in scale["states"]}
    return True


def check_range(kind: str, value: Any) -> None:
    """Refuses out-of-range input by the name of the field and the range, never clamps."""
    if kind == "percent" and not 0 <= value <= 100:
        raise OutOfRange(f"percent is {value}: allowed is 0 to 100")
    if kind == "count" and not 0 <= value <= MOST_COUNTED:
        raise OutOfRange(f"count is {value}: allowed is 0 to {MOST_COUNTED}")
    if kind == "areas":
        if any(not 0 <= share <= 100 for share in value["shares"].values()):
            raise OutOfRange("a share of the area is outside 0 to 100")
        if sum(value["shares"].values()) > 100 + 1e-9:
            raise OutOfRange("the shares of the area come to more than 100")


def score_of(kind: str, value: Any, scale: Json) -> float:
    """Score of one look that fits its scale, 0 to 10 ("One look")."""
    check_range(kind, value)
    match scale["method"]:
        case "grade":
            steps = GRADES.index(value)
            table = scale["scores"]
            return (table[steps // 2] + table[(steps + 1) // 2]) / 2.0
        case "area":
            return 10.0 - demerit(value["shares"], scale) / 10.0
        case "merit_area":
            return merit(value["shares"], scale)
        case "extent" | "count":
            return interpolate(scale["points"], value)
        case "state":
            return float(next(s["score"] for s in scale["states"] if s["id"] == value))
        case "measured":
            used = (value - scale["as_new"]) / (scale["limit"] - scale["as_new"])
            return min(10.0, max(0.0, 10.0 * (1.0 - used)))
    raise ValueError(f"no scale method: {scale['method']}")


def losses_of(scale: Json) -> dict[str, float]:
    """What a percent of each level of a scale by area costs: factor, or 10 less the merit."""
    deposit = scale["method"] == "area"
    return {
        level["id"]: level["factor"] if deposit else 10.0 - level["merit"]
        for level in scale["levels"]
    }


def parting_scatter(read: Json, scale: Json) -> float:
    """u_cut of areas read off a photo, in score ("Photos"): each cut anywhere between its two ends."""
    losses = {**losses_of(scale), "clean": 0.0}
    cost = [losses.get(level["level"], 0.0) for level in read["classes"]]
    moves = [
        (cut["below"] + cut["above"]) / 2 * (after - before) / math.sqrt(3)
        for cut, before, after in zip(read["cuts"], cost, cost[1:], strict=False)
    ]
    return math.hypot(*moves) / (10.0 if scale["method"] == "area" else 100.0)


def repeatability_of(kind: str, value: Any, scale: Json, u_rep: Json) -> float:
    """Standard uncertainty u_rep of one look, in score ("One look", third column; "Photos")."""
    u = by_eye_repeatability(value, scale, u_rep)
    if kind == "areas" and "read_off" in value:
        return math.hypot(u, parting_scatter(value["read_off"], scale))
    return u


def by_eye_repeatability(value: Any, scale: Json, u_rep: Json) -> float:
    """The same of a look by eye."""
    ((unit, p),) = u_rep.items()
    if unit == "score":
        return float(p)
    match scale["method"]:
        case "area" | "merit_area":
            losses = losses_of(scale)
            present = [loss for id, loss in losses.items() if value["shares"].get(id, 0.0) > 0]
            root = math.sqrt(sum(loss**2 for loss in present)) if present else min(losses.values())
            return p * root / (10.0 if scale["method"] == "area" else 100.0)
        case "extent" | "count":
            return p * steepest_slope(scale["points"], value)
    raise ValueError(f"a repeatability in {unit} says nothing on a {scale['method']} scale")


# --------------------------------------------------------------------------- what counts


def in_order(entries: list[Json]) -> list[Json]:
    """Entries by (Lamport counter, device, id), the same on every tablet."""
    return sorted(entries, key=lambda e: (e["lamport"], e["device"].lower(), e["id"].lower()))


def in_account(entries: list[Json]) -> list[Json]:
    """The entries that no void names and no entry that no void names supersedes ("What counts")."""
    voided = {e["body"]["entry"] for e in entries if e["body"]["kind"] == "void"}
    corrected = {e["supersedes"] for e in entries if "supersedes" in e and e["id"] not in voided}
    return [e for e in in_order(entries) if e["id"] not in voided | corrected]


@dataclass(frozen=True)
class Seen:
    """One rater's current look at one characteristic in one position."""

    entry: str
    rater: str
    kind: str
    value: Any


At = tuple[str, str]


def looks_in(account: list[Json]) -> list[tuple[At, Seen]]:
    """Every rating and measurement in account, in order."""
    looks: list[tuple[At, Seen]] = []
    for entry in account:
        body = entry["body"]
        if body["kind"] == "rating":
            ((kind, value),) = body["look"].items()
        elif body["kind"] == "measurement":
            kind, value = "size", body["value"]
        else:
            continue
        at = measurements.place_of(body)
        looks.append((at, Seen(entry["id"], entry["rater"], kind, value)))
    return looks


def current_looks(looks: list[tuple[At, Seen]]) -> dict[At, list[Seen]]:
    """Each rater's last rating or measurement of each (position, characteristic).

    The last counts whether or not it can be scored: a rater's earlier look is not what they say
    now. Raters stand in the order of their names, so that the answer does not depend on who came
    first.
    """
    last = {(at, seen.rater): seen for at, seen in looks}
    current: dict[At, list[Seen]] = {}
    for (at, _), seen in sorted(last.items(), key=lambda item: item[0]):
        current.setdefault(at, []).append(seen)
    return current


def readings_in(account: list[Json]) -> list[tuple[At, Seen]]:
    """Every reading of a gauge in account, in order."""
    return [
        (
            measurements.place_of(entry["body"]["reading"]),
            Seen(entry["id"], entry["rater"], "reading", entry["body"]["reading"]),
        )
        for entry in account
        if entry["body"]["kind"] == "reading"
    ]


def outside(plan: Json, looks: list[tuple[At, Seen]]) -> list[str]:
    """Every look in account that the plan has no place for, or whose scale it does not fit."""
    scales = {
        (position["id"], trait["id"]): plan["scales"][trait["scale"]]
        for section in plan["sections"]
        for part in section["parts"]
        for place in part["places"]
        for position in place["positions"]
        for trait in place["looks"]
    }
    return [
        seen.entry
        for at, seen in looks
        if at not in scales or not fits(seen.kind, seen.value, scales[at])
    ]


def plan_in_force(card: Json, account: list[Json]) -> Json:
    """The last plan entry in account, else the card's first plan ("What counts")."""
    plans = [e["body"]["plan"] for e in account if e["body"]["kind"] == "plan"]
    return plans[-1] if plans else card["plan"]


def causes(account: list[Json]) -> dict[tuple[str, str | None], tuple[int, str]]:
    """The last cause named for each (position, characteristic or None), with its place in order."""
    last: dict[tuple[str, str | None], tuple[int, str]] = {}
    for place, entry in enumerate(account):
        body = entry["body"]
        if body["kind"] == "cause":
            about = body["about"]
            last[about["position"], about.get("characteristic")] = (place, body["cause"])
    return last


def cause_at(named: dict[tuple[str, str | None], tuple[int, str]], at: At) -> str:
    """Cause of a characteristic in a position: the last that names it or the whole position."""
    nobody = (-1, "in_service")
    return max(named.get((at[0], None), nobody), named.get(at, nobody))[1]


# --------------------------------------------------------------------------- the tree


@dataclass
class Leaf:
    """One characteristic in one position, with the looks that are scored."""

    path: str
    section: str
    part: str
    at: At
    scale: Json
    cause: str
    looks: list[Seen]
    scores: list[float]
    u_reps: list[float]
    #: For a size: what is rated by eye on the same surface.
    same_surface: str | None = None
    measured: measurements.Measured | None = None

    @property
    def takes_part(self) -> bool:
        """Whether it counts at all: what is measured may not ("Score" of "Measurements")."""
        return self.measured is None or self.measured.takes_part

    @property
    def raters(self) -> list[str | None]:
        """Whose bias is in each of its scores; nobody's in that of a size."""
        if self.measured is not None:
            return [None for _ in self.scores]
        return [seen.rater if seen.kind != "size" else None for seen in self.looks]

    def within(self, node: str) -> bool:
        """Whether the leaf lies in a section (``camshaft``) or a part (``camshaft/lobes``)."""
        return node in (self.section, f"{self.section}/{self.part}")


@dataclass
class Node:
    """A node of engine → section → part → position → characteristic."""

    path: str
    kind: str
    weight: float
    children: list[Node] = field(default_factory=list)
    leaf: Leaf | None = None

    @property
    def takes_part(self) -> bool:
        """Whether its parent counts it: not where nothing below it takes part."""
        if self.leaf is not None:
            return self.leaf.takes_part
        return any(child.takes_part and child.weight > 0 for child in self.children)

    def walk(self) -> Iterator[Node]:
        """The node and all below it, each before its children, in plan order."""
        yield self
        for child in self.children:
            yield from child.walk()


def grow(plan: Json, account: list[Json]) -> Node:
    """The tree of a plan with the current looks hung on it."""
    looks = current_looks(looks_in(account))
    bench = measurements.bench(account)
    named = causes(account)
    engine = Node("engine", "engine", 1.0)
    for section in plan["sections"]:
        section_node = Node(section["id"], "section", section["weight"])
        engine.children.append(section_node)
        for part in section["parts"]:
            part_node = Node(f"{section['id']}/{part['id']}", "part", part["weight"])
            section_node.children.append(part_node)
            for place in part["places"]:
                for position in place["positions"]:
                    path = f"{part_node.path}/{position['id']}"
                    position_node = Node(path, "position", place["weight"])
                    part_node.children.append(position_node)
                    for trait in place["looks"]:
                        at = (position["id"], trait["id"])
                        scale = plan["scales"][trait["scale"]]
                        leaf = Leaf(
                            f"{path}/{trait['id']}",
                            section["id"],
                            part["id"],
                            at,
                            scale,
                            cause_at(named, at),
                            [],
                            [],
                            [],
                            trait.get("same_surface"),
                        )
                        if scale["method"] == "gauged":
                            hang_size(leaf, measurements.measure(bench, scale, place["id"], at))
                        for seen in looks.get(at, []):
                            if seen.kind == "not_inspected":
                                continue
                            if not fits(seen.kind, seen.value, scale):
                                continue
                            leaf.looks.append(seen)
                            leaf.scores.append(score_of(seen.kind, seen.value, scale))
                            leaf.u_reps.append(
                                repeatability_of(seen.kind, seen.value, scale, trait["u_rep"])
                            )
                        position_node.children.append(
                            Node(leaf.path, "characteristic", trait["weight"], leaf=leaf)
                        )
    return engine


def hang_size(leaf: Leaf, measured: measurements.Measured) -> None:
    """Gives a leaf the score of what was measured there ("Score" of "Measurements")."""
    leaf.measured = measured
    if measured.takes_part and measured.share is not None:
        leaf.scores.append(min(10.0, max(0.0, 10.0 * (1.0 - measured.share.value))))
        leaf.u_reps.append(10.0 * measured.share.u)


def leaves_of(tree: Node) -> list[Leaf]:
    """Every leaf in plan order."""
    return [node.leaf for node in tree.walk() if node.leaf is not None]


# --------------------------------------------------------------------------- caps


def meets(trigger: Json, seen: Seen) -> bool:
    """Whether a scored look meets a trigger ("Caps")."""
    ((name, bar),) = trigger.items()
    match name, seen.kind:
        case "grade_at_least", "grade":
            return GRADES.index(seen.value) >= GRADES.index(bar)
        case ("percent_over", "percent") | ("count_over", "count"):
            return bool(seen.value > bar)
        case "state_in", "state":
            return seen.value in bar
    return False


def could_meet(trigger: Json, scale: Json) -> bool:
    """Whether some look that the scale takes would meet a trigger ("Caps", the lower bound)."""
    ((name, bar),) = trigger.items()
    match name, scale["method"]:
        case "grade_at_least", "grade":
            return True
        case "percent_over", "extent":
            return bool(bar < 100)
        case "count_over", "count":
            return bool(bar < MOST_COUNTED)
        case "state_in", "state":
            return any(state["id"] in bar for state in scale["states"])
    return False


# --------------------------------------------------------------------------- roll-up


@dataclass
class Result:
    """What one node comes to."""

    score: float | None
    u: float | None
    coverage: float
    bounds: tuple[float, float]
    worst: tuple[str, float] | None
    cap: tuple[Json, list[str]] | None
    before_caps: float | None
    #: ∂(mean before caps)/∂(score of a look), for every look below the node in plan order.
    coefficients: Vector


@dataclass
class View:
    """What one roll-up counts: all causes, or in service only ("Twice")."""

    plan: Json
    leaves: list[Leaf]
    in_service: bool

    def rated(self, leaf: Leaf) -> bool:
        """Whether the leaf has a score here."""
        return bool(leaf.scores) and not (self.in_service and leaf.cause in EXCLUDING)

    def rules_on(self, node: str) -> Iterator[tuple[Json, list[str], bool]]:
        """Each rule on a node: the rule, the leaves that set it off, whether others still could."""
        for rule in self.plan.get("caps", []):
            if rule["node"] != node:
                continue
            watched = [
                leaf
                for leaf in self.leaves
                if leaf.at[1] == rule["characteristic"] and leaf.within(rule["within"])
            ]
            set_off_by = [
                leaf.path
                for leaf in watched
                if self.rated(leaf) and any(meets(rule["when"], seen) for seen in leaf.looks)
            ]
            still = any(
                not self.rated(leaf) and could_meet(rule["when"], leaf.scale) for leaf in watched
            )
            yield rule, set_off_by, still


class RollUp:
    """The roll-up of one tree, once ("Roll-up")."""

    def __init__(self, tree: Node, plan: Json, in_service: bool) -> None:
        self.view = View(plan, leaves_of(tree), in_service)
        self.u_bias: float = plan["u_bias"]
        self.results: dict[str, Result] = {}
        self._roll(tree)

    def _roll(self, node: Node) -> tuple[Result, list[Leaf]]:
        """Result of a node and the rated leaves below it, children first."""
        result, rated = self._leaf(node.leaf) if node.leaf else self._inner(node)
        result.u = None if result.score is None else self._uncertainty(result.coefficients, rated)
        self.results[node.path] = result
        return result, rated

    def _leaf(self, leaf: Leaf) -> tuple[Result, list[Leaf]]:
        if not self.view.rated(leaf):
            return Result(None, None, 0.0, (0.0, 10.0), None, None, None, np.zeros(0)), []
        n = len(leaf.scores)
        score = sum(leaf.scores) / n
        share = np.full(n, 1.0 / n)
        worst = (leaf.path, score)
        return Result(score, None, 1.0, (score, score), worst, None, score, share), [leaf]

    def _inner(self, node: Node) -> tuple[Result, list[Leaf]]:
        rolled = [(child, self._roll(child)) for child in node.children]
        below = [result for child, result in rolled if child.takes_part]
        if not node.takes_part:
            return Result(None, None, 0.0, (0.0, 10.0), None, None, None, np.zeros(0)), []
        children = [result for result, _ in below]
        weights = np.array([child.weight for child in node.children if child.takes_part])

        has_score = np.array([child.score is not None for child in children])
        rated_weight = float(weights[has_score].sum())
        shares = np.where(has_score, weights, 0.0) / (rated_weight or 1.0)
        mean = None
        if rated_weight > 0:
            scores = np.array([0.0 if c.score is None else c.score for c in children])
            mean = float(np.dot(weights, np.where(has_score, scores, 0.0)) / rated_weight)

        total = float(weights.sum())
        coverage = float(np.dot(weights, [c.coverage for c in children]) / total)
        low = float(np.dot(weights, [c.bounds[0] for c in children]) / total)
        high = float(np.dot(weights, [c.bounds[1] for c in children]) / total)

        worst: tuple[str, float] | None = None
        for child in children:
            if child.worst and (worst is None or child.worst[1] < worst[1]):
                worst = child.worst

        score = mean
        bite: tuple[Json, list[str]] | None = None
        for rule, set_off_by, still in self.view.rules_on(node.path):
            if set_off_by or still:
                low = min(low, rule["cap"])
            if set_off_by:
                high = min(high, rule["cap"])
                if mean is not None and rule["cap"] < mean:
                    score = min(float(score), rule["cap"]) if score is not None else None
                    if bite is None or rule["cap"] < bite[0]["cap"]:
                        bite = (rule, set_off_by)

        coefficients = np.concatenate(
            [c.coefficients * s for c, s in zip(children, shares, strict=True)]
        )
        result = Result(score, None, coverage, (low, high), worst, bite, mean, coefficients)
        return result, [leaf for _, leaves in below for leaf in leaves]

    def _uncertainty(self, coefficients: Vector, leaves: list[Leaf]) -> float:
        """u of the mean before caps ("Uncertainty"; JCGM 100, 5.2: repeatability uncorrelated,
        a rater's bias fully correlated over all their ratings)."""
        u_reps = np.array([u for leaf in leaves for u in leaf.u_reps])
        raters = [rater for leaf in leaves for rater in leaf.raters]
        variance = float(np.sum((coefficients * u_reps) ** 2))
        for rater in sorted({rater for rater in raters if rater is not None}):
            of_rater = np.array([r == rater for r in raters])
            variance += float(coefficients[of_rater].sum() * self.u_bias) ** 2
        return math.sqrt(variance)


# --------------------------------------------------------------------------- trade figures


def mean_of(figures: list[float | None]) -> float | None:
    """Mean over the figures that are there; none if there is none."""
    held = [figure for figure in figures if figure is not None]
    return sum(held) / len(held) if held else None


def mean_shares(leaf: Leaf) -> dict[str, float]:
    """Mean of the raters' areas level by level; a level that a rater left out is 0."""
    levels = [level["id"] for level in leaf.scale["levels"]]
    n = len(leaf.looks)
    return {
        level: sum(seen.value["shares"].get(level, 0.0) for seen in leaf.looks) / n
        for level in levels
    }


def is_land_or_groove(leaf: Leaf) -> bool:
    """Whether the leaf is a land or groove of a piston, rated by deposit area."""
    return leaf.scale["method"] == "area" and leaf.at[1].startswith(("land_", "groove_"))


def is_ring_face(leaf: Leaf) -> bool:
    """Whether the leaf is the face of a ring, rated by the percent of it in distress."""
    return leaf.at[1] == "face_distress" and leaf.scale["method"] == "extent"


def piston_figures(position: str, areas: list[Leaf], factors: dict[str, float]) -> Json:
    """Weighted demerits, groove fill and heavy carbon of one piston ("Trade figures")."""
    shares = {leaf.at[1]: mean_shares(leaf) for leaf in areas if leaf.looks}
    weighted = None
    if shares:
        weighted = sum(
            (factors.get(leaf.at[1], 0.0) if factors else 1.0)
            * demerit(shares[leaf.at[1]], leaf.scale)
            for leaf in areas
            if leaf.looks
        )
    fill = land = None
    if "groove_1" in shares:
        fill = sum(shares["groove_1"].get(level, 0.0) * f for level, f in GROOVE_FILL.items())
    if "land_1" in shares:
        land = shares["land_1"].get("heavy_carbon", 0.0)
    return {
        "position": position,
        "weighted_demerits": weighted,
        "top_groove_fill": fill,
        "top_land_heavy_carbon": land,
    }


def ring_distress(leaves: list[Leaf]) -> float | None:
    """Face distress of one ring: area fraction; 1 if any rater found it broken.

    ASTM D5862, 14.2.5: a broken ring counts as the whole face.
    """
    for leaf in leaves:
        states = [seen.value for seen in leaf.looks if seen.kind == "state"]
        if leaf.at[1] == "whole" and "broken" in states:
            return 1.0
    for leaf in leaves:
        if is_ring_face(leaf) and leaf.looks:
            return sum(seen.value for seen in leaf.looks) / len(leaf.looks) / 100.0
    return None


def merit_leaves(leaves: list[Leaf], word: str) -> list[float | None]:
    """Merit of each rated place whose characteristic is sludge (or varnish) by its name."""
    return [
        merit(mean_shares(leaf), leaf.scale)
        for leaf in leaves
        if leaf.scale["method"] == "merit_area"
        and (leaf.at[1].startswith(word) or leaf.at[1].endswith("_" + word))
        and leaf.looks
    ]


def trade_figures(tree: Node, plan: Json) -> Json:
    """The trade's own figures of a card, all causes ("Trade figures")."""
    factors = plan.get("location_factors", {})
    pistons: list[Json] = []
    rings: list[Json] = []
    for section in tree.children:
        for node in section.walk():
            if node.kind != "position":
                continue
            leaves = leaves_of(node)
            position = leaves[0].at[0]
            areas = [leaf for leaf in leaves if is_land_or_groove(leaf)]
            if section.path == "pistons" and areas:
                pistons.append(piston_figures(position, areas, factors))
            if any(is_ring_face(leaf) for leaf in leaves):
                rings.append({"position": position, "distress": ring_distress(leaves)})
    leaves = leaves_of(tree)
    return {
        "unweighted": not factors,
        "pistons": pistons,
        **{
            figure: mean_of([piston[figure] for piston in pistons])
            for figure in ("weighted_demerits", "top_groove_fill", "top_land_heavy_carbon")
        },
        "sludge_merit": mean_of(merit_leaves(leaves, "sludge")),
        "varnish_merit": mean_of(merit_leaves(leaves, "varnish")),
        "rings": rings,
        "ring_distress": mean_of([ring["distress"] for ring in rings]),
    }


def merit_sum(criteria: list[Json], values: list[float]) -> tuple[float, bool]:
    """Merit sum of criteria and whether all pass their limits (ASTM D7468, from memory).

    0 at the limit, the weight at the anchor, twice the weight at the best credit and beyond.
    """
    total, passed = 0.0, True
    for criterion, x in zip(criteria, values, strict=True):
        anchor, limit, best = criterion["anchor"], criterion["limit"], criterion["best"]
        side = 1.0 if limit > anchor else -1.0
        if side * (x - limit) > 0:
            passed = False
            continue
        if side * (x - anchor) >= 0:
            share = (limit - x) / (limit - anchor)
        else:
            share = min(2.0, 1.0 + (anchor - x) / (anchor - best))
        total += criterion["weight"] * share
    return total, passed


# --------------------------------------------------------------------------- second looks

#: The eye finds a surface this good, and a gauge finds this share of the allowance gone.
GOOD, MUCH_WORN = 9.0, 0.5
#: The eye finds a surface this bad, and a gauge finds no more than this share gone.
BAD, HARDLY_WORN = 2.5, 0.1


def second_looks(tree: Node) -> list[Json]:
    """Sizes and surfaces that contradict each other ("Worth a second look")."""
    found = []
    for node in tree.walk():
        if node.kind != "position":
            continue
        leaves = {leaf.at[1]: leaf for leaf in leaves_of(node)}
        for leaf in leaves.values():
            seen = leaves.get(leaf.same_surface or "")
            if not (leaf.measured and leaf.measured.share and seen and seen.scores):
                continue
            score, share = sum(seen.scores) / len(seen.scores), leaf.measured.share.value
            if (score >= GOOD and share >= MUCH_WORN) or (score <= BAD and share <= HARDLY_WORN):
                found.append({"path": leaf.path, "seen": seen.path, "score": score, "share": share})
    return found


def parts_ahead(leaves: list[Leaf]) -> Json | None:
    """What the outlook is drawn from ("How much further"): what its run is, and each part."""
    found = [outlook.part_of(leaf.path, leaf.measured) for leaf in leaves if leaf.measured]
    ahead = [part for part in found if part is not None]
    if not ahead:
        return None
    return {"per": ahead[0][0], "parts": [part for _, part in ahead]}


# --------------------------------------------------------------------------- a whole card


def as_json(result: Result) -> Json:
    """One node's result in the shape of ``ringland score --json``, with one member of our own:
    ``set_off_by_any``, every leaf that set the biting rule off."""
    cap = None
    if result.cap:
        rule, set_off_by = result.cap
        cap = {
            "rule": rule["id"],
            "cap": rule["cap"],
            "set_off_by": set_off_by[0],
            "set_off_by_any": set_off_by,
        }
    worst = None
    if result.worst:
        worst = {"path": result.worst[0], "score": result.worst[1]}
    return {
        "score": result.score,
        "u": result.u,
        "coverage": result.coverage,
        "bounds": list(result.bounds),
        "worst": worst,
        "cap": cap,
    }


def score(card: Json) -> Json:
    """Scores a card: the shape of ``ringland score --json``."""
    account = in_account(card["entries"])
    plan = plan_in_force(card, account)
    tree = grow(plan, account)
    everything = RollUp(tree, plan, in_service=False).results
    in_service = RollUp(tree, plan, in_service=True).results
    return {
        "card": card["id"],
        "plan": {"name": plan["name"], "version": plan["version"]},
        "digest_matches": card.get("digest") == canonical.digest(card),
        "nodes": [
            {
                "path": node.path,
                "kind": node.kind,
                "weight": node.weight,
                "all": as_json(everything[node.path]),
                "in_service": as_json(in_service[node.path]),
            }
            for node in tree.walk()
        ],
        "exclusions": [
            {"path": leaf.path, "cause": leaf.cause}
            for leaf in leaves_of(tree)
            if leaf.scores and leaf.cause in EXCLUDING
        ],
        "trade": trade_figures(tree, plan),
        "outside": outside(plan, looks_in(account) + readings_in(account)),
        "measurements": [
            said
            for leaf in leaves_of(tree)
            if leaf.measured and (said := leaf.measured.as_json(leaf.path)) is not None
        ],
        "second_looks": second_looks(tree),
        "outlook": parts_ahead(leaves_of(tree)),
    }


def main(arguments: list[str]) -> int:
    """Scores each card named and prints the results."""
    for name in arguments:
        print(json.dumps(score(canonical.load(Path(name).read_bytes())), ensure_ascii=False))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
