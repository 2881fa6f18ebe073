"""Holds a scored card against the reference's, node by node."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import compare_measured
import outlook

Json = dict[str, Any]

#: Largest difference allowed between two figures.
TOLERANCE = 1e-9
#: What each node carries twice.
VIEWS = ("all", "in_service")


def close(a: float | None, b: float | None) -> bool:
    """Whether two figures agree; none agrees with none only."""
    if a is None or b is None:
        return a is b
    return abs(a - b) <= TOLERANCE


def differences(expected: Json, got: Json) -> Iterator[str]:
    """Every difference between the reference's result and the command's, each in a line."""
    for what in ("card", "plan", "digest_matches", "exclusions"):
        if expected[what] != got.get(what):
            yield f"{what}: reference {expected[what]!r}, command {got.get(what)!r}"
    if sorted(expected["outside"]) != sorted(got["outside"]):
        yield f"outside: reference {expected['outside']}, command {got['outside']}"
    paths = [node["path"] for node in expected["nodes"]]
    if paths != [node["path"] for node in got["nodes"]]:
        yield f"the nodes are not the same: {set(paths) ^ {n['path'] for n in got['nodes']}}"
        return
    leaf_scores = {
        view: {
            node["path"]: node[view]["score"]
            for node in expected["nodes"]
            if node["kind"] == "characteristic"
        }
        for view in VIEWS
    }
    for ours, theirs in zip(expected["nodes"], got["nodes"], strict=True):
        for what in ("kind", "weight"):
            if ours[what] != theirs[what]:
                yield f"{ours['path']}: {what}: reference {ours[what]}, command {theirs[what]}"
        for view in VIEWS:
            for line in node_differences(ours[view], theirs[view], leaf_scores[view]):
                yield f"{ours['path']} ({view}): {line}"
    yield from trade_differences(expected["trade"], got["trade"])
    yield from compare_measured.differences(expected["measurements"], got["measurements"])
    yield from compare_measured.second_looks_differ(expected["second_looks"], got["second_looks"])
    yield from outlook.differences(expected["outlook"], got["outlook"])


def node_differences(ours: Json, theirs: Json, leaf_scores: dict[str, float]) -> Iterator[str]:
    """The differences at one node."""
    for what in ("score", "u", "coverage"):
        if not close(ours[what], theirs[what]):
            yield f"{what}: reference {ours[what]}, command {theirs[what]}"
    for side, a, b in zip(("lower", "upper"), ours["bounds"], theirs["bounds"], strict=True):
        if not close(a, b):
            yield f"{side} bound: reference {a}, command {b}"
    if not same_worst(ours["worst"], theirs["worst"], leaf_scores):
        yield f"worst: reference {ours['worst']}, command {theirs['worst']}"
    if not same_cap(ours, theirs):
        yield f"cap: reference {ours['cap']}, command {theirs['cap']}"


def same_worst(ours: Json | None, theirs: Json | None, leaf_scores: dict[str, float]) -> bool:
    """Whether two worst leaves agree.

    Two leaves whose scores differ by rounding alone, and not by nothing, may change places.
    """
    if ours is None or theirs is None:
        return ours is theirs
    if not close(ours["score"], theirs["score"]):
        return False
    mine, yours = ours["path"], theirs["path"]
    if mine == yours:
        return True
    score = leaf_scores.get(yours)
    return score is not None and 0 < abs(leaf_scores[mine] - score) <= TOLERANCE


def same_cap(ours: Json, theirs: Json) -> bool:
    """Whether the same rule bit, set off by a leaf that does set it off.

    A cap within rounding of the score before it may bite on one side only.
    """
    a, b = ours["cap"], theirs["cap"]
    if a is None or b is None:
        return a is b or close((a or b)["cap"], ours["score"])
    return (
        a["rule"] == b["rule"]
        and close(a["cap"], b["cap"])
        and b["set_off_by"] in a["set_off_by_any"]
    )


def trade_differences(ours: Json, theirs: Json) -> Iterator[str]:
    """The differences in the trade figures."""
    if ours["unweighted"] != theirs["unweighted"]:
        yield f"trade: unweighted: reference {ours['unweighted']}, command {theirs['unweighted']}"
    for what, value in ours.items():
        if what not in ("unweighted", "pistons", "rings") and not close(value, theirs[what]):
            yield f"trade: {what}: reference {value}, command {theirs[what]}"
    for rows in ("pistons", "rings"):
        positions = [row["position"] for row in ours[rows]]
        if positions != [row["position"] for row in theirs[rows]]:
            yield f"trade: {rows}: reference {positions}, command {theirs[rows]}"
            continue
        for a, b in zip(ours[rows], theirs[rows], strict=True):
            for what, value in a.items():
                if what != "position" and not close(value, b[what]):
                    yield f"trade: {a['position']}: {what}: reference {value}, command {b[what]}"
