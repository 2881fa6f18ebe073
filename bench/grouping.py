"""The weighted grouping of the roll-up, in polars: prints the shortest time, then each engine's score."""

from __future__ import annotations

import sys
import time
from pathlib import Path

import numpy as np
import polars as pl

LEVELS = ["leaf", "position", "part", "section"]


def table(folder: Path) -> pl.DataFrame:
    """The observations, one row each, with the nodes and weights above them."""
    columns: dict[str, np.ndarray] = {
        "card": np.fromfile(folder / "card", "<u4"),
        "score": np.fromfile(folder / "score", "<f8"),
    }
    for level in LEVELS:
        columns[level] = np.fromfile(folder / level, "<u4")
        columns[f"{level}_weight"] = np.fromfile(folder / f"{level}_weight", "<f8")
    return pl.DataFrame(columns)


def roll_up(rows: pl.DataFrame) -> pl.DataFrame:
    """The weighted mean of the mean below, from the characteristics up to the engine."""
    frame = rows.lazy()
    for n, level in enumerate(LEVELS):
        above = LEVELS[n + 1 :]
        weight = pl.col(f"{level}_weight")
        # A node stands in one place: its number says all that is above it.
        keys = ["card", above[0]] if above else ["card"]
        carried = [pl.col(name).first() for name in above[1:]]
        carried += [pl.col(f"{name}_weight").first() for name in above]
        mean = (pl.col("score") * weight).sum() / weight.sum()
        frame = frame.group_by(keys).agg(mean.alias("score"), *carried)
    return frame.collect()


def main() -> None:
    """Times the grouping so many times."""
    rows = table(Path(sys.argv[1]))
    best = float("inf")
    for _ in range(int(sys.argv[2])):
        begun = time.perf_counter()
        engines = roll_up(rows)
        best = min(best, time.perf_counter() - begun)
    print(best)
    print(*engines.sort("card")["score"].to_list())


main()
