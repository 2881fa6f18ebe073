"""Writes random cards that are hard to score and nevertheless valid.

Every card follows from its seed. It may have any tree, any table, any weight (zero among them),
every kind of look and entry, several raters, tablets whose counters clash, corrections of
corrections, voids of corrections, changes of plan, and looks that the plan in force has no place
for. Run as ``python3 make_random.py FOLDER [COUNT [SEED]]``.
"""

from __future__ import annotations

import copy
import hashlib
import math
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta, timezone
from itertools import pairwise
from pathlib import Path
from typing import Any

import canonical
import random_sizes
import reference
from dice import Dice

Json = dict[str, Any]

SECTIONS = (
    "valve_deck",
    "rockers",
    "camshaft",
    "valves",
    "liners",
    "pistons",
    "rings",
    "rods",
    "bearings",
    "crankshaft",
    "gears",
    "turbocharger",
)
PARTS = ("upper", "lower", "lobes", "journals", "shells", "faces", "bodies", "backs")
PLACES = ("lobe/intake", "lobe/exhaust", "ring/top", "ring/oil", "piston", "shell/upper", "pin")

#: Ids to draw from for each scale method. The trade figures look for some of these by name.
TRAITS = {
    "grade": ("wear", "scuffing", "scoring", "fretting"),
    "area": ("land_1", "land_2", "land_3", "groove_1", "groove_2", "undercrown", "skirt"),
    "merit_area": ("sludge", "varnish", "cover_sludge", "sludge_inside", "skirt_varnish", "film"),
    "extent": ("pitted", "polished", "face_distress", "overlay_lost"),
    "count": ("chips", "tracks", "embedded"),
    "state": ("mobility", "whole", "gallery"),
    "measured": ("face_wear", "lift_loss", "step"),
    "gauged": ("bore", "diameter", "lift", "mass", "protrusion", "end_gap"),
}
DEPOSITS = ("heavy_carbon", "medium_carbon", "light_carbon", "black_lacquer", "amber_lacquer")
FILMS = ("thick", "heavy", "medium", "film", "trace_film")
STATES = ("free", "sluggish", "cold_stuck", "hot_stuck", "broken", "chipped")
REASONS = (
    "left_assembled",
    "out_of_reach",
    "cleaned",
    "missing",
    "sent_away",
    "damaged",
    "no_time",
)
CAUSES = (
    "in_service",
    "dirt",
    "coolant",
    "fuel",
    "overheating",
    "assembly",
    "mechanical",
    "unknown",
)
REGIMES = ("boundary", "mixed", "full_film", "none")
AXES = ("cylinder", "main", "cam_bearing", "each", "single")
FIGURES = (
    "weighted_demerits",
    "top_groove_fill",
    "top_land_heavy_carbon",
    "sludge_merit",
    "varnish_merit",
    "ring_distress",
)
TEXTS = (
    "Polished band, thrust side",
    "Riñón del balancín: picado leve",
    'Quote " and backslash \\ and slash /',
    "two\nlines\tand a tab",
    "№ 3 — “heavy” ½ step ≤ 10 °",
    "重いカーボン",
    "e\u0301 is not é",
    "grin \U0001f600 and gear \u2699\ufe0f",
    "\u2028 and \u2029 stay as they are",
    "",
)
#: Members that this version does not know; RFC 8785 sorts the last three against code point order.
UNKNOWN_MEMBERS = ("later", "Later", "x-note", "\u00f6", "\u20ac", "\U0001f600", "\ufb33")
SECTORS = 36
METHOD_OF_TRIGGER = {
    "grade_at_least": "grade",
    "percent_over": "extent",
    "count_over": "count",
    "state_in": "state",
}


# --------------------------------------------------------------------------- plans


def falling(dice: Dice, n: int, low: float, high: float) -> list[float]:
    """n figures from high to low, never rising, some of them equal."""
    drawn = sorted((dice.between(low, high) for _ in range(n)), reverse=True)
    if dice.chance(0.4):
        drawn[0], drawn[-1] = high, low
    if n > 2 and dice.chance(0.3):
        drawn[1] = drawn[0]
    return drawn


def breakpoints(dice: Dice, method: str) -> list[list[float]]:
    """A breakpoint table that starts at 0, mostly falling, now and then up and down."""
    n = dice.whole(2, 6)
    last = 100 if method == "extent" else dice.pick((5, 20, 300, reference.MOST_COUNTED))
    inner = {float(dice.whole(1, last - 1)) for _ in range(n - 2)}
    if method == "extent" and dice.chance(0.4):
        inner.add(round(float(dice.rng.uniform(0.01, 99)), 3))
    end = float(last) if dice.chance(0.6) else float(max([last // 2, 1, *inner]) + 0.5)
    xs = [0.0, *sorted(inner), end]
    if dice.chance(0.85):
        scores = falling(dice, len(xs), 0.0, 10.0)
    else:
        scores = [dice.between(0.0, 10.0) for _ in xs]
    return [[x, score] for x, score in zip(xs, scores, strict=True)]


def random_scale(dice: Dice, method: str) -> Json:
    """A scale of a method with tables of its own."""
    scale: Json = {"method": method}
    if method == "grade":
        scale["scores"] = falling(dice, 6, 0.0, 10.0)
        if dice.chance(0.3):
            scale["scores"] = [10, 9, 7.5, 5, 2.5, 0]
    elif method == "area":
        ids = dice.some(DEPOSITS, dice.pick((1, len(DEPOSITS))), len(DEPOSITS))
        factors = falling(dice, len(ids), 0.0, 1.0)
        scale["levels"] = [
            {"id": id, "factor": factor} for id, factor in zip(ids, factors, strict=True)
        ]
    elif method == "merit_area":
        ids = dice.some(FILMS, 1, len(FILMS))
        merits = falling(dice, len(ids), 0.0, 10.0)[::-1]
        scale["levels"] = [{"id": id, "merit": m} for id, m in zip(ids, merits, strict=True)]
    elif method in ("extent", "count"):
        scale["points"] = breakpoints(dice, method)
    elif method == "state":
        ids = dice.some(STATES, 1, len(STATES))
        if "broken" not in ids and dice.chance(0.5):
            ids.append("broken")
        scores = falling(dice, len(ids), 0.0, 10.0)
        scale["states"] = [{"id": id, "score": s} for id, s in zip(ids, scores, strict=True)]
    elif method == "gauged":
        scale |= random_sizes.random_scale(dice)
    else:
        new = dice.pick((0.0, 0.13, 0.012, 0.5, -0.001))
        allowance = dice.pick((1e-4, 5e-5, -8e-5, 0.02, 1e-6))
        scale["as_new"], scale["limit"] = new, new + allowance
    return scale


def random_repeatability(dice: Dice, method: str) -> Json:
    """A repeatability in a unit that the method can carry."""
    units = {"area": "percent", "merit_area": "percent", "extent": "percent", "count": "count"}
    if method in units and dice.chance(0.7):
        return {units[method]: dice.between(0.0, 8.0)}
    return {"score": dice.between(0.0, 1.2)}


def random_layout(dice: Dice) -> Json:
    """An engine that could be."""
    vee = dice.chance(0.3)
    return {
        "arrangement": "vee" if vee else "inline",
        "cylinders": 2 * dice.whole(2, 8) if vee else dice.whole(1, 12),
        "camshaft": dice.pick(("overhead", "double_overhead", "in_block")),
        "follower": dice.pick(("roller", "sliding")),
        "intake_valves": dice.whole(1, 3),
        "exhaust_valves": dice.whole(1, 3),
        "injector_lobes": dice.chance(0.5),
        "brake_lobes": dice.chance(0.2),
        "liner": dice.pick(("wet", "dry", "parent_bore")),
        "compression_rings": dice.whole(1, 4),
        "mains": dice.whole(2, 13),
        "single_cylinder_heads": dice.chance(0.5),
        "turbochargers": dice.whole(0, 2),
    }


@dataclass
class PlanMaker:
    """Draws a plan; keeps track of what must be unique in it."""

    dice: Dice
    #: The most sections, parts, places, positions and characteristics at each step down.
    size: tuple[int, int, int, int, int]
    scales: dict[str, Json] = field(default_factory=dict)
    method_scales: dict[str, list[str]] = field(default_factory=dict)
    used: set[str] = field(default_factory=set)

    def plan(self) -> Json:
        """The plan."""
        dice = self.dice
        for method in TRAITS:
            names = [f"{method}_{n}" for n in range(1, dice.whole(1, 3) + 1)]
            self.method_scales[method] = names
            self.scales |= {name: random_scale(dice, method) for name in names}
        ids = dice.some(SECTIONS, 1, self.size[0])
        if dice.chance(0.4):
            ids = list(dict.fromkeys(["pistons", *ids]))
        plan: Json = {
            "name": dice.pick(("Yard plan", "Bench plan", "Plan Ñ", "Trial 7")),
            "version": f"{dice.whole(1, 9)}.{dice.whole(0, 9)}",
            "depth": dice.pick(("full", "short")),
            "layout": random_layout(dice),
            "scales": self.scales,
            "sections": [
                {"id": id, "weight": weight, "parts": self.parts(id)}
                for id, weight in zip(ids, dice.weights(len(ids)), strict=True)
            ],
            "u_bias": dice.pick((0.0, 0.25, 0.4, dice.between(0.0, 0.8))),
        }
        self.name_some(plan)
        set_caps(dice, plan)
        traits = sorted({trait["id"] for _, _, place in places(plan) for trait in place["looks"]})
        surfaces = [t for t in traits if t.startswith(("land_", "groove_"))]
        if surfaces and dice.chance(0.5):
            kept = dice.some(surfaces, 1, len(surfaces))
            plan["location_factors"] = {id: dice.between(0.0, 5.0) for id in kept}
        if dice.chance(0.4):
            plan["criteria"] = [random_criterion(dice, f) for f in dice.some(FIGURES, 1, 3)]
        return plan

    def parts(self, section: str) -> list[Json]:
        """The parts of a section."""
        ids = self.dice.some(PARTS, 1, self.size[1])
        weights = self.dice.weights(len(ids))
        return [
            {"id": id, "weight": weight, "places": self.places(section)}
            for id, weight in zip(ids, weights, strict=True)
        ]

    def places(self, section: str) -> list[Json]:
        """The places of a part."""
        ids = [self.unique(self.dice.pick(PLACES)) for _ in range(self.dice.whole(1, self.size[2]))]
        weights = self.dice.weights(len(ids))
        return [self.place(section, id, w) for id, w in zip(ids, weights, strict=True)]

    def place(self, section: str, id: str, weight: float) -> Json:
        """A place with its positions and characteristics."""
        dice = self.dice
        n = dice.whole(1, self.size[3])
        traits = self.traits(section)
        weights = dice.weights(len(traits))
        return {
            "id": id,
            "axis": dice.pick(AXES),
            "weight": weight,
            "positions": [{"id": f"cyl{i}/{id}", "column": str(i)} for i in range(1, n + 1)],
            "looks": self.same_surfaces(
                [
                    self.trait(method, trait, weight)
                    for (method, trait), weight in zip(traits, weights, strict=True)
                ]
            ),
        }

    def same_surfaces(self, looks: list[Json]) -> list[Json]:
        """Says of some sizes what is rated by eye on the same surface."""
        seen = [look["id"] for look in looks if by_eye(self.scales, look)]
        for look in looks:
            gauged = self.scales[look["scale"]]["method"] == "gauged"
            if gauged and seen and self.dice.chance(0.7):
                look["same_surface"] = self.dice.pick(seen)
        return looks

    def traits(self, section: str) -> list[tuple[str, str]]:
        """Characteristics of a place as (method, id), with those that the trade figures use."""
        pool = [(method, id) for method, ids in TRAITS.items() for id in ids]
        if section == "pistons":
            pool += [("area", id) for id in (*TRAITS["area"], "land_1", "groove_1")] * 5
        if section == "rings":
            pool += [("extent", "face_distress"), ("state", "whole")] * 5
        pool += [("gauged", id) for id in TRAITS["gauged"]] * self.dice.pick((1, 4, 4))
        drawn = self.dice.some(pool, 1, self.size[4])
        return list({id: (method, id) for method, id in drawn}.values())

    def trait(self, method: str, id: str, weight: float) -> Json:
        """A characteristic on one of the plan's scales."""
        return {
            "id": id,
            "scale": self.dice.pick(self.method_scales[method]),
            "weight": weight,
            "regime": self.dice.pick(REGIMES),
            "u_rep": random_repeatability(self.dice, method),
        }

    def unique(self, id: str) -> str:
        """The id, with a number behind it if it is taken."""
        n = 1
        while (name := id if n == 1 else f"{id}_{n}") in self.used:
            n += 1
        self.used.add(name)
        return name

    def name_some(self, plan: Json) -> None:
        """Gives some nodes a label of the user's own."""
        for section, part, place in places(plan):
            for node in (section, part, place, *place["looks"]):
                if self.dice.chance(0.05):
                    node["label"] = self.dice.pick(TEXTS[:8])


def by_eye(scales: dict[str, Json], look: Json) -> bool:
    """Whether a characteristic is rated by eye."""
    return scales[look["scale"]]["method"] not in ("gauged", "measured")


def places(plan: Json) -> Iterator[tuple[Json, Json, Json]]:
    """Every place with its section and part, in plan order."""
    for section in plan["sections"]:
        for part in section["parts"]:
            for place in part["places"]:
                yield section, part, place


def random_criterion(dice: Dice, figure: str) -> Json:
    """A criterion with its three values in order, small or large being good."""
    low, middle, high = sorted(dice.rng.uniform(0, 100, 3).tolist())
    best, limit = (low, high) if dice.chance(0.5) else (high, low)
    weight = float(dice.whole(0, 400))
    return {"figure": figure, "weight": weight, "anchor": middle, "limit": limit, "best": best}


def random_trigger(dice: Dice, scale: Json) -> Json:
    """A trigger that reads a scale, at its edges too."""
    match scale["method"]:
        case "grade":
            return {"grade_at_least": dice.pick(reference.GRADES)}
        case "extent":
            bar = dice.pick((0.0, 5.0, dice.between(0.0, 100.0), scale["points"][-2][0], 100.0))
            return {"percent_over": bar}
        case "count":
            return {"count_over": dice.pick((0, 1, dice.whole(0, 30), reference.MOST_COUNTED))}
    ids = [state["id"] for state in scale["states"]]
    return {"state_in": dice.some(ids, 1, len(ids))}


def set_caps(dice: Dice, plan: Json) -> None:
    """Draws the cap rules of a plan, several on one node and with equal caps among them."""
    plan.pop("caps", None)
    nodes = [s["id"] for s in plan["sections"]]
    nodes += [f"{s['id']}/{p['id']}" for s in plan["sections"] for p in s["parts"]]
    rules: list[Json] = []
    for _ in range(dice.pick((0, 2, 5, 15))):
        section, part, place = dice.pick(list(places(plan)))
        methods = METHOD_OF_TRIGGER.values()
        looks = [t for t in place["looks"] if plan["scales"][t["scale"]]["method"] in methods]
        if not looks:
            continue
        trait = dice.pick(looks)
        trigger = random_trigger(dice, plan["scales"][trait["scale"]])
        path = f"{section['id']}/{part['id']}"
        node = dice.pick((path, section["id"], dice.pick(nodes)))
        cap = dice.pick((0.0, 2.5, 5.0, 5.0, 10.0, dice.between(0.0, 10.0)))
        rule = {
            "id": f"rule_{len(rules) + 1}",
            "node": node,
            "cap": cap,
            "within": dice.pick((path, section["id"])),
            "characteristic": trait["id"],
            "when": trigger,
        }
        if stands(plan, rule):
            rules.append(rule)
    if rules:
        plan["caps"] = rules


def changed(dice: Dice, plan: Json) -> Json:
    """Another plan made out of one: rows dropped, scales and weights altered; valid again."""
    plan = copy.deepcopy(plan)
    plan["version"] += "+" + str(dice.whole(1, 99))
    for _ in range(dice.whole(1, 4)):
        section, part, place = dice.pick(list(places(plan)))
        match dice.whole(0, 7):
            case 0 | 7:
                name = dice.pick(sorted(plan["scales"]))
                method = dice.pick((plan["scales"][name]["method"], dice.pick(list(TRAITS))))
                plan["scales"][name] = random_scale(dice, method)
            case 1:
                drop(dice, plan["sections"])
            case 2:
                drop(dice, section["parts"])
            case 3:
                drop(dice, place["positions"])
            case 4:
                drop(dice, place["looks"])
            case 5:
                reweigh(dice, plan)
            case 6:
                plan["u_bias"] = dice.between(0.0, 0.8)
                set_caps(dice, plan)
    repair(dice, plan)
    return plan


def drop(dice: Dice, rows: list[Json]) -> None:
    """Drops one of the rows if more than one is there."""
    if len(rows) > 1:
        rows.pop(dice.whole(0, len(rows) - 1))


def siblings(plan: Json) -> Iterator[list[Json]]:
    """Every group of rows whose weights are weighed against each other."""
    yield plan["sections"]
    for section in plan["sections"]:
        yield section["parts"]
    for section in plan["sections"]:
        for part in section["parts"]:
            yield part["places"]
    for _, _, place in places(plan):
        yield place["looks"]


def reweigh(dice: Dice, plan: Json) -> None:
    """Draws every weight anew."""
    for rows in siblings(plan):
        for row, weight in zip(rows, dice.weights(len(rows)), strict=True):
            row["weight"] = weight


def repair(dice: Dice, plan: Json) -> None:
    """Mends what a change broke: weights all zero, repeatabilities, caps on what is gone."""
    for rows in siblings(plan):
        if not any(row["weight"] for row in rows):
            rows[0]["weight"] = 1.0
    for _, _, place in places(plan):
        seen = {look["id"] for look in place["looks"] if by_eye(plan["scales"], look)}
        for trait in place["looks"]:
            method = plan["scales"][trait["scale"]]["method"]
            if "score" not in trait["u_rep"]:
                trait["u_rep"] = random_repeatability(dice, method)
            if method != "gauged" or trait.get("same_surface") not in seen:
                trait.pop("same_surface", None)
    kept = [rule for rule in plan.get("caps", []) if stands(plan, rule)]
    plan.pop("caps", None)
    if kept:
        plan["caps"] = kept


def stands(plan: Json, rule: Json) -> bool:
    """Whether a cap rule has its node, and characteristics whose scales its trigger reads."""
    ((trigger, bar),) = rule["when"].items()
    node = False
    read: list[bool] = []
    for section, part, place in places(plan):
        paths = (section["id"], f"{section['id']}/{part['id']}")
        node |= rule["node"] in paths
        for trait in place["looks"]:
            if rule["within"] in paths and trait["id"] == rule["characteristic"]:
                scale = plan["scales"][trait["scale"]]
                states = {state["id"] for state in scale.get("states", [])}
                known = trigger != "state_in" or states >= set(bar)
                read.append(scale["method"] == METHOD_OF_TRIGGER[trigger] and known)
    return node and bool(read) and all(read)


# --------------------------------------------------------------------------- looks


def random_shares(dice: Dice, levels: list[str]) -> Json:
    """An area look: percent by level, at times painted in 36 sectors, at times the whole area."""
    kept = dice.some(levels, 0, len(levels))
    if dice.chance(0.3) and kept:
        return painted(dice, kept)
    total = dice.pick((100.0, dice.between(0.0, 100.0)))
    cuts = sorted(dice.whole(0, 100) for _ in kept)
    shares = {}
    for level, low, high in zip(kept, [0, *cuts], cuts, strict=False):
        share = (high - low) * total / 100
        shares[level] = math.floor(share * 1e6) / 1e6
    # What another program writes though there is nothing in it.
    return {"shares": shares, **({"painted": []} if dice.chance(0.1) else {})}


def painted(dice: Dice, levels: list[str]) -> Json:
    """An area look painted round: stretches of sectors, and the shares they come to."""
    stretches: list[list[Any]] = []
    left = SECTORS
    while left > 0:
        run = min(left, dice.whole(1, 14))
        stretches.append([dice.pick([*levels, "clean"]), run])
        left -= run
    shares: dict[str, float] = {}
    for level, run in stretches:
        if level != "clean":
            shares[level] = shares.get(level, 0) + run
    return {
        "shares": {level: n * 100 / SECTORS for level, n in shares.items()},
        "painted": stretches,
    }


def read_off(dice: Dice, photo: str, at: tuple[str, str], scale: Json) -> Json:
    """A look by area that was read off a photo of 640 by 480, and perhaps changed by hand."""
    levels = [*(level["id"] for level in scale["levels"]), "clean"]
    parts = dice.some(range(0, 255), 1, 4)
    edges = [0, *sorted(dice.whole(0, 100) for _ in parts), 100]
    classes = [
        {"level": dice.pick(levels), "percent": high - low} for low, high in pairwise(edges)
    ]
    cuts = [
        {
            "at": part,
            "below": dice.between(0.0, below["percent"]),
            "above": dice.between(0.0, above["percent"]),
        }
        for part, (below, above) in zip(sorted(parts), pairwise(classes), strict=True)
    ]
    region: Json = {"corners": [[0, 0], [640, 0.5], [320.25, 480]]}
    if dice.chance(0.4):
        region["left_out"] = [
            {"shape": "outline", "corners": [[1, 1], [9, 1], [9, 9]]},
            {"shape": "brush", "way": [[5, 5], [7.5, 6]], "width": 12.5},
        ]
    if dice.chance(0.4):
        region["rectangle"] = [[0, 0], [640, 20], [600, 480], [10, 470]]
    shares: dict[str, float] = {}
    for one in classes:
        if one["level"] != "clean" and one["percent"] > 0:
            shares[one["level"]] = shares.get(one["level"], 0) + one["percent"]
    if shares and dice.chance(0.3):
        level = dice.pick(list(shares))
        shares[level] = shares[level] / 2
    read = {
        "photo": photo,
        "region": region,
        "shade": dice.pick(("lightness", "yellowness", "chroma")),
        "cuts": cuts,
        "classes": classes,
    }
    position, trait = at
    return {
        "kind": "rating",
        "at": {"position": position, "characteristic": trait},
        "look": {"areas": {"shares": shares, "read_off": read}},
    }


def random_body(dice: Dice, position: str, trait: str, scale: Json) -> Json:
    """A rating or measurement that fits a scale, at its edges too."""
    at = {"position": position, "characteristic": trait}
    look: Json
    match scale["method"]:
        case "grade":
            look = {"grade": dice.pick(reference.GRADES)}
        case "area" | "merit_area":
            look = {"areas": random_shares(dice, [level["id"] for level in scale["levels"]])}
        case "extent":
            xs = [x for x, _ in scale["points"]]
            look = {"percent": dice.pick((*xs, 0, 100, dice.between(0, 100), dice.whole(0, 100)))}
        case "count":
            xs = [int(x) for x, _ in scale["points"]]
            edge = min(xs[-1] + 1, reference.MOST_COUNTED)
            look = {"count": dice.pick((*xs, 0, edge, dice.whole(0, edge)))}
        case "state":
            look = {"state": dice.pick([state["id"] for state in scale["states"]])}
        case _:
            new, limit = scale["as_new"], scale["limit"]
            used = dice.pick((0.0, 1.0, float(dice.rng.uniform(-0.3, 1.4))))
            return {"kind": "measurement", "at": at, "value": new + used * (limit - new)}
    if dice.chance(0.04):
        look = {"not_inspected": dice.pick(REASONS)}
    return {"kind": "rating", "at": at, "look": look}


def random_fact(dice: Dice) -> Json:
    """A fact about the engine or the trial."""
    words = ("name", "fleet", "vehicle", "model", "serial", "site", "duty", "oil", "reason")
    figures = {
        "distance_m": 1e9,
        "running_time_s": 1e8,
        "fuel_m3": 500.0,
        "drain_distance_m": 1e8,
        "drain_time_s": 1e7,
        "sump_m3": 0.06,
    }
    match dice.whole(0, 3):
        case 0:
            field, highest = dice.pick(list(figures.items()))
            return {"field": field, "value": dice.between(0.0, highest)}
        case 1:
            return {"field": "oil_grade", "value": dice.pick(("10W-30", "5W-30", "15W-40"))}
        case 2:
            return {"field": "oil_category", "value": dice.pick(("CK-4", "FA-4"))}
    return {"field": dice.pick(words), "value": dice.pick(TEXTS[:8])}


def newer(dice: Dice) -> Any:
    """Something that a newer version might write."""
    return dice.pick(
        (
            None,
            True,
            1e-7,
            1.2345678901234568e20,
            [],
            {},
            {"b": [1, {"a": 0.1}], "a": "\u20ac"},
            dice.pick(TEXTS),
            dice.between(-1e6, 1e6),
        )
    )


# --------------------------------------------------------------------------- cards


@dataclass
class CardMaker:
    """Writes entries as several tablets would, each with a counter of its own."""

    dice: Dice
    plan: Json
    entries: list[Json] = field(default_factory=list)
    counters: dict[str, int] = field(default_factory=dict)
    raters: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.counters = {self.dice.uuid(): 0 for _ in range(self.dice.whole(1, 4))}
        names = ("Ana", "Bo", "Çelik", "Дима", "rater 5")
        self.raters = self.dice.some(names, 1, self.dice.pick((1, 2, 4)))

    def write(self, body: Json, corrected: Json | None = None, after: Json | None = None) -> Json:
        """Writes an entry after the one that it corrects or names, on any tablet."""
        dice = self.dice
        device = dice.pick(list(self.counters))
        known = [self.counters[device]]
        known += [entry["lamport"] for entry in (corrected, after) if entry]
        if dice.chance(0.1):
            known += self.counters.values()
        self.counters[device] = max(known) + 1
        moment = datetime(2026, 5, 1, tzinfo=UTC) + timedelta(seconds=dice.whole(0, 10_000_000))
        if dice.chance(0.2):
            moment += timedelta(microseconds=dice.pick((500_000, 123_000, 1)))
        entry: Json = {
            "id": dice.uuid(moment),
            "device": device,
            "lamport": self.counters[device],
            "time": self.spelt(moment),
            "rater": dice.pick(self.raters),
            "body": body,
        }
        if corrected:
            entry["supersedes"] = corrected["id"]
        if dice.chance(0.02):
            entry[dice.pick(UNKNOWN_MEMBERS)] = newer(dice)
        self.entries.append(entry)
        return entry

    def spelt(self, moment: datetime) -> str:
        """An instant, now and then as other programs write it."""
        text = rfc3339(moment)
        if not self.dice.chance(0.03):
            return text
        away = moment.astimezone(timezone(timedelta(hours=-3, minutes=-30)))
        return self.dice.pick((text[:-1] + "-00:00", away.isoformat(timespec="milliseconds")))

    def look(self, leaf: tuple[str, str, Json], corrected: Json | None = None) -> Json:
        """A look at a leaf that fits its scale."""
        return self.write(random_body(self.dice, *leaf), corrected)

    def rate(self, coverage: float) -> None:
        """Looks at a share of the plan's leaves, some of them more than once."""
        dice = self.dice
        leaves = [leaf for leaf in leaves_of(self.plan) if leaf[2]["method"] != "gauged"]
        for i in dice.rng.permutation(len(leaves)):
            if not dice.chance(coverage):
                continue
            entry = self.look(leaves[i])
            if dice.chance(0.25):
                for _ in range(dice.whole(1, 3)):
                    self.look(leaves[i])
            while dice.chance(0.08):
                entry = self.look(leaves[i], corrected=entry)
            if dice.chance(0.03):
                self.look(dice.pick(leaves), corrected=entry)
            if dice.chance(0.01):
                self.write(self.something_else(), corrected=entry)

    def something_else(self) -> Json:
        """A body that is no look: what corrects a look need not be one."""
        later = {"kind": "kind_of_2031", "about": "a look"}
        return self.dice.pick(({"kind": "remark", "text": "rated by mistake"}, later))

    def measure(self, coverage: float) -> None:
        """Gauges, size sheets, runs, and readings of a share of what the plan has gauged."""
        dice = self.dice
        bench = random_sizes.Bench(dice, self.plan)
        for body in bench.tools():
            self.write(body)
        for leaf in bench.leaves():
            if not dice.chance(coverage):
                continue
            for body in bench.readings(leaf):
                entry = self.write(body)
                if dice.chance(0.05):
                    self.write(bench.again(body), corrected=entry)
                if dice.chance(0.01):
                    self.write(self.something_else(), corrected=entry)
        if dice.chance(0.2):
            for body in bench.tools():
                self.write(body)

    def causes(self) -> None:
        """Says of some positions, or of one characteristic there, what is answerable."""
        dice = self.dice
        leaves = leaves_of(self.plan)
        for _ in range(dice.pick((0, 1, 4, max(1, len(leaves) // 8)))):
            position, trait, _ = dice.pick(leaves)
            about = {"position": position}
            if dice.chance(0.5):
                about["characteristic"] = trait
            body = {"kind": "cause", "about": about, "cause": dice.pick(CAUSES)}
            entry = self.write(body)
            if dice.chance(0.15):
                self.write({**body, "cause": dice.pick(CAUSES)}, corrected=entry)

    def talk(self) -> None:
        """Facts, remarks, and kinds of entry that this version does not know."""
        dice = self.dice
        leaves = leaves_of(self.plan)
        for _ in range(dice.whole(0, 6)):
            self.write({"kind": "fact", "fact": random_fact(dice)})
        for _ in range(dice.whole(0, 4)):
            remark: Json = {"kind": "remark", "text": dice.pick(TEXTS)}
            if dice.chance(0.6):
                position, trait, _ = dice.pick(leaves)
                remark["about"] = {"position": position}
                if dice.chance(0.5):
                    remark["about"]["characteristic"] = trait
            self.write(remark)
        for _ in range(dice.whole(0, 2)):
            self.photograph(dice.pick(leaves)[0])
        by_area = [leaf for leaf in leaves if "levels" in leaf[2]]
        for _ in range(dice.whole(0, 2) if by_area else 0):
            position, trait, scale = dice.pick(by_area)
            photo = self.photograph(position)
            self.write(read_off(dice, photo["id"], (position, trait), scale), after=photo)
        if dice.chance(0.4):
            kind = dice.pick(("oil_sample", "drain", "seal_of_2031", "kind_of_2031"))
            self.write({"kind": kind, dice.pick(UNKNOWN_MEMBERS): newer(dice), "n": newer(dice)})

    def photograph(self, position: str) -> Json:
        """A photo of a position, which no score hangs on by itself, and perhaps a mark on it."""
        dice = self.dice
        picture = {
            "kind": dice.pick(("jpeg", "png", "webp")),
            "width": 640,
            "height": 480,
            "bytes": dice.whole(1, 10_000_000),
        }
        digest = hashlib.sha256(str(dice.whole(0, 1_000_000_000)).encode()).hexdigest()
        photo = {"digest": digest, "picture": picture, "taken": dice.pick(("as_found", "cleaned"))}
        body = {"kind": "photo", "about": {"position": position}, "photo": photo}
        entry = self.write(body)
        if dice.chance(0.5):
            shape = dice.pick(
                (
                    {"shape": "note", "at": [1.5, 480], "text": "worn"},
                    {"shape": "arrow", "from": [0, 0], "to": [640, 2.25]},
                    {"shape": "outline", "corners": [[0, 0], [9, 0], [9, 9]], "text": "ñ"},
                    {"shape": "scale", "from": [0, 0], "to": [0, 99], "length": "25.0", "unit": "mm"},
                    {"shape": "length", "from": [0, 0], "to": [7, 99]},
                )
            )
            self.write({"kind": "mark", "on": entry["id"], "mark": shape}, after=entry)
        return entry

    def take_back(self) -> None:
        """Voids of looks, corrections, causes and plans; one entry by two tablets at once."""
        dice = self.dice
        for entry in list(self.entries):
            body = entry["body"]
            p = {"plan": 0.3, "void": 0.0}.get(body["kind"], 0.04)
            if "supersedes" in entry:
                p = 0.3
            while dice.chance(p):
                void = {"kind": "void", "entry": entry["id"], "reason": dice.pick(TEXTS[:8])}
                written = self.write(
                    void, corrected=entry if dice.chance(0.1) else None, after=entry
                )
                if dice.chance(0.1):
                    self.write(self.something_else(), corrected=written)
                p = 0.1

    def lose_some(self) -> None:
        """Leaves out a few entries that others name, as when one tablet's file is missing."""
        self.entries = [
            entry
            for entry in self.entries
            if entry["body"]["kind"] == "plan" or not self.dice.chance(0.02)
        ]


def leaves_of(plan: Json) -> list[tuple[str, str, Json]]:
    """Every leaf of a plan as (position, characteristic, scale)."""
    return [
        (position["id"], trait["id"], plan["scales"][trait["scale"]])
        for _, _, place in places(plan)
        for position in place["positions"]
        for trait in place["looks"]
    ]


def rfc3339(moment: datetime) -> str:
    """A time stamp in UTC with no more digits than it needs (RFC 3339)."""
    text = moment.strftime("%Y-%m-%dT%H:%M:%S")
    if moment.microsecond:
        text += f".{moment.microsecond:06d}".rstrip("0")
    return text + "Z"


#: Trees from one leaf to some thousands: sections, parts, places, positions, characteristics.
SIZES = (
    (1, 1, 1, 1, 2),
    (2, 2, 1, 3, 3),
    (4, 2, 2, 4, 4),
    (6, 3, 2, 6, 6),
    (9, 4, 3, 8, 8),
)


def random_card(seed: int, plans: Sequence[Json] = ()) -> Json:
    """The card of a seed. One card in ten takes one of the plans given, if any are."""
    dice = Dice(0x52, seed)
    if plans and seed % 10 == 7:
        plan = copy.deepcopy(dice.pick(plans))
    else:
        size = SIZES[-1] if seed % 20 == 13 else dice.pick(SIZES[:-1])
        plan = PlanMaker(dice, size).plan()
    if dice.chance(0.1):
        plan[dice.pick(UNKNOWN_MEMBERS)] = newer(dice)
    maker = CardMaker(dice, plan)
    maker.rate(dice.pick((0.0, 0.1, 0.4, 0.6, 0.8, 0.9, 1.0, 1.0)))
    maker.measure(dice.pick((0.5, 0.8, 1.0, 1.0)))
    maker.causes()
    maker.talk()
    if dice.chance(0.35):
        for _ in range(dice.whole(1, 3)):
            other = changed(dice, dice.pick((plan, maker.plan)))
            maker.write({"kind": "plan", "plan": other})
            if dice.chance(0.5):
                maker.plan = other
                maker.rate(dice.pick((0.1, 0.5)))
                maker.measure(dice.pick((0.0, 0.3)))
                maker.causes()
    maker.take_back()
    if dice.chance(0.2):
        maker.lose_some()
    card: Json = {
        "format": "ringland-card",
        "version": 2,
        "id": dice.uuid(),
        "plan": plan,
        "entries": reference.in_order(maker.entries),
    }
    if dice.chance(0.1):
        card[dice.pick(UNKNOWN_MEMBERS)] = newer(dice)
    return card


def main(arguments: list[str]) -> int:
    """Writes the cards of COUNT seeds to a folder."""
    folder = Path(arguments[0])
    count = int(arguments[1]) if len(arguments) > 1 else 200
    first = int(arguments[2]) if len(arguments) > 2 else 1
    folder.mkdir(parents=True, exist_ok=True)
    for seed in range(first, first + count):
        card = random_card(seed)
        (folder / f"random-{seed:04d}.card.json").write_bytes(canonical.card_bytes(card))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
