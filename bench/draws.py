"""What was left of many positions by draws, in numpy: prints the shortest time of two ways, then what they come to.

Two ways of writing it, as nobody can say which is quicker on a machine: all positions as one array, and one
position after the other in arrays that stay in the cache. The quicker counts.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Callable
from typing import Any

import numpy as np

Answer = tuple[Any, Any, Any]


def whole(rng: Any, asked: dict[str, Any]) -> Answer:
    """All positions at once."""
    column = {name: np.array(row)[:, None] for name, row in asked["positions"].items()}
    shape = (len(column["size"]), asked["draws"])
    off = rng.normal(0.0, asked["calibration"], asked["draws"])
    x = column["size"] + column["u"] * rng.standard_normal(shape) - off
    new = column["low"] + (column["high"] - column["low"]) * rng.random(shape)
    room, wear = column["limit"] - x, x - new
    with np.errstate(divide="ignore", invalid="ignore"):
        left = np.where(wear > 0, room * asked["run"] / wear, np.inf)
    left = np.where(room <= 0, 0.0, left)
    ends = np.quantile(left, [0.025, 0.975], axis=1, method="inverted_cdf")
    return ends, left.min(axis=0), left.argmin(axis=0)


def one_by_one(rng: Any, asked: dict[str, Any]) -> Answer:
    """One position after the other."""
    n, run = asked["draws"], asked["run"]
    off = rng.normal(0.0, asked["calibration"], n)
    least, first = np.full(n, np.inf), np.full(n, -1, dtype=np.int32)
    ends = []
    rows = asked["positions"]
    for number, (size, u, low, high, limit) in enumerate(
        zip(rows["size"], rows["u"], rows["low"], rows["high"], rows["limit"], strict=True)
    ):
        x = rng.standard_normal(n)
        x *= u
        x += size
        x -= off
        wear = rng.random(n)
        wear *= low - high
        wear -= low
        wear += x
        room = limit - x
        with np.errstate(divide="ignore", invalid="ignore"):
            left = room * run
            left /= wear
        left[wear <= 0] = np.inf
        left[room <= 0] = 0.0
        sooner = left < least
        np.copyto(least, left, where=sooner)
        first[sooner] = number
        ends.append(np.quantile(left, [0.025, 0.975], method="inverted_cdf"))
    return np.array(ends).T, least, first


def shortest(way: Callable[[Any, dict[str, Any]], Answer], asked: dict[str, Any]) -> tuple[float, Answer]:
    """The shortest of so many runs, and what the last came to."""
    best = float("inf")
    for seed in range(asked["runs"]):
        rng = np.random.default_rng(seed)
        begun = time.perf_counter()
        answer = way(rng, asked)
        best = min(best, time.perf_counter() - begun)
    return best, answer


def plain(numbers: Any) -> list[float | None]:
    """As JSON has them: no end is none."""
    return [float(number) if np.isfinite(number) else None for number in numbers]


def main() -> None:
    """Both ways; the answer of one, as the other's differs by the order of its draws alone."""
    asked = json.load(sys.stdin)
    of_whole, _ = shortest(whole, asked)
    of_one, (ends, least, first) = shortest(one_by_one, asked)
    counts = np.bincount(first[first >= 0], minlength=ends.shape[1])
    print(
        json.dumps(
            {
                "whole": of_whole,
                "one_by_one": of_one,
                "ends": [plain(row) for row in ends.T],
                "engine": plain(np.quantile(least, [0.025, 0.975], method="inverted_cdf")),
                "first": (counts / asked["draws"]).tolist(),
            }
        )
    )


main()
