"""What must hold of any scoring after the method, tried on random cards.

These do not compare two implementations; they hold the reference, and with it the method, against
its own meaning: a coefficient is a derivative, a bound bounds, an order does not matter.
"""

from __future__ import annotations

import copy
import math
from collections.abc import Iterator
from typing import Any

import numpy as np

import make_random
import random_sizes
import reference
from dice import Dice

Json = dict[str, Any]
TOLERANCE = 1e-9
#: Kinds of entry that score.
LOOKS = ("rating", "measurement", "reading")


def derivative(seed: int, card: Json) -> Iterator[str]:
    """u from coefficients found by moving each look, and from a full covariance matrix.

    GUM 5.2.2, u² = Σᵢ Σⱼ cᵢ·cⱼ·u(xᵢ, xⱼ). The mean before caps is linear in the looks, so that a
    step of any size gives the derivative; the caps are taken off the plan for it.
    """
    account = reference.in_account(card["entries"])
    plan = {**reference.plan_in_force(card, account), "caps": []}
    tree = reference.grow(plan, account)
    leaves = reference.leaves_of(tree)
    looks = [(leaf, i) for leaf in leaves for i in range(len(leaf.scores))]
    base = reference.RollUp(tree, plan, in_service=False).results
    gradient: dict[str, list[float]] = {path: [] for path in base}
    for leaf, i in looks:
        leaf.scores[i] += 1.0
        moved = reference.RollUp(tree, plan, in_service=False).results
        leaf.scores[i] -= 1.0
        for path, result in moved.items():
            before, after = base[path].score, result.score
            moves = before is not None and after is not None
            gradient[path].append(after - before if moves else 0.0)  # type: ignore[operator]
    n = len(looks)
    covariance = np.zeros((n, n))
    for i, (leaf, k) in enumerate(looks):
        for j, (other, m) in enumerate(looks):
            if i == j:
                covariance[i, j] += leaf.u_reps[k] ** 2
            a, b = leaf.raters[k], other.raters[m]
            if a is not None and a == b:
                covariance[i, j] += plan["u_bias"] ** 2
    for path, result in base.items():
        if result.u is not None:
            c = np.array(gradient[path])
            u = math.sqrt(max(0.0, float(c @ covariance @ c)))
            if abs(u - result.u) > TOLERANCE:
                yield f"seed {seed}, {path}: u {result.u} but {u} by derivatives"


def hopeless(leaf: reference.Leaf, after: Json) -> bool:
    """Whether a size that takes part has no score whatever is read: it went in past its limit."""
    scores = {node["path"]: node["all"]["score"] for node in after["nodes"]}
    return leaf.measured is not None and leaf.takes_part and scores[leaf.path] is None


def filling(seed: int, card: Json) -> Iterator[str]:
    """Whatever is seen where nothing was, no score leaves its bounds, and coverage becomes 1."""
    before = reference.score(card)
    dice = Dice(0x46, seed)
    for _ in range(3):
        filled = copy.deepcopy(card)
        account = reference.in_account(card["entries"])
        plan = reference.plan_in_force(card, account)
        lamport = max((entry["lamport"] for entry in card["entries"]), default=0)
        scores = {n["path"]: n["all"]["score"] for n in before["nodes"]}
        tree = reference.grow(plan, account)
        for leaf in reference.leaves_of(tree):
            if scores[leaf.path] is not None or not leaf.takes_part:
                continue
            for body in whatever(dice, leaf):
                lamport += 1
                filled["entries"].append(
                    {
                        "id": dice.uuid(),
                        "device": dice.uuid(),
                        "lamport": lamport,
                        "rater": "the one who comes last",
                        "body": body,
                    }
                )
        after = reference.score(filled)
        if any(hopeless(leaf, after) for leaf in reference.leaves_of(tree)):
            continue
        counted = {node.path for node in tree.walk() if node.takes_part}
        for old, new in zip(before["nodes"], after["nodes"], strict=True):
            if old["path"] not in counted:
                continue
            low, high = old["all"]["bounds"]
            score = new["all"]["score"]
            if abs(new["all"]["coverage"] - 1.0) > TOLERANCE:
                yield f"seed {seed}, {old['path']}: full coverage is {new['all']['coverage']}"
            if score is None or not low - TOLERANCE <= score <= high + TOLERANCE:
                yield f"seed {seed}, {old['path']}: {score} outside {low} to {high}"


def whatever(dice: Dice, leaf: reference.Leaf) -> Iterator[Json]:
    """Something seen or read at a leaf that scores."""
    if leaf.measured is not None:
        yield from random_sizes.fill(dice, *leaf.at, leaf.scale)
        return
    body: Json = {"look": {"not_inspected": "no_time"}}
    while "not_inspected" in body.get("look", {}):
        body = make_random.random_body(dice, *leaf.at, leaf.scale)
    yield body


def shuffling(seed: int, card: Json) -> Iterator[str]:
    """The order in which a file holds its entries does not matter."""
    dice = Dice(0x4F, seed)
    entries = card["entries"]
    shuffled = {**card, "entries": [entries[i] for i in dice.rng.permutation(len(entries))]}
    before, after = reference.score(card), reference.score(shuffled)
    for what in ("nodes", "exclusions", "trade", "outside", "measurements", "second_looks"):
        if before[what] != after[what]:
            yield f"seed {seed}: {what} change with the order of the entries"


def small_cards(first: int, count: int) -> Iterator[tuple[int, Json]]:
    """Random cards with a tree small enough to be worked over and over, and something rated."""
    seed = first
    while count > 0:
        card = make_random.random_card(seed)
        result = reference.score(card)
        looks = sum(1 for e in card["entries"] if e["body"]["kind"] in LOOKS)
        if 3 <= looks <= 80 and result["nodes"][0]["all"]["score"] is not None:
            count -= 1
            yield seed, card
        seed += 1
