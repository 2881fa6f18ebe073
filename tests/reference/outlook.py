"""How much further an engine could have run, by numpy's draws of the same model.

Source: "How much further" and "What was left" of the method page (``crates/assess/METHOD.md``).
Draws on the two sides are held together within their sampling error.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy import stats

from compare_measured import PROBABILITY_OF_MANY
from figures import DRAWS, SIGMAS, share_near
from measurements import Figure, Measured, New

Json = dict[str, Any]
Draws = NDArray[np.float64]

#: What is left out of account at each end.
TAIL = 0.025
#: Largest difference allowed between two figures that come of no draws, of the figure.
TOLERANCE = 1e-9
#: How close to a share of draws that decides between two answers either will do.
UNDECIDED = SIGMAS * math.sqrt(2 * 2 * TAIL / DRAWS)
#: What the command draws with.
SEED = 1


@dataclass(frozen=True)
class Part:
    """A part that wears one way towards a limit, and what is drawn of it."""

    path: str
    size: Figure
    new: New
    limit: float
    #: The run that counts, and the wear before it.
    run: float
    before: float
    side: float

    def left(self, x: Any, new: Any) -> Any:
        """R = (limit − x)/r: 0 past the limit, without an end where there is no wear."""
        room = self.side * (self.limit - x)
        wear = self.side * (x - new) - self.before
        with np.errstate(divide="ignore", invalid="ignore"):
            ahead = np.where(wear > 0, room * self.run / wear, np.inf)
        return np.where(room <= 0, 0.0, ahead)

    def beyond(self) -> float:
        """The probability that it is past its limit."""
        past = self.side * (self.size.value - self.limit)
        return float(stats.t.cdf(past / self.size.u, self.size.dof))

    def best(self) -> float:
        """What is left at the best values."""
        return float(self.left(np.float64(self.size.value), np.float64(self.new.value)))

    def draws(self, rng: np.random.Generator) -> Draws:
        """What is left, draw by draw; a size that is known to lie in a range lies anywhere in it."""
        x = scattered(rng, self.size.value, self.size.u, self.size.dof)
        if self.new.source == "range":
            half = self.new.u * math.sqrt(3.0)
            new = rng.uniform(self.new.value - half, self.new.value + half, DRAWS)
        else:
            new = scattered(rng, self.new.value, self.new.u, self.new.dof)
        drawn: Draws = self.left(x, new)
        return drawn


def scattered(rng: np.random.Generator, value: float, u: float, dof: float) -> Draws:
    """Draws of a figure: normal, or Student's t where its ν is finite (JCGM 101, 6.4.9)."""
    scatter = rng.normal(size=DRAWS) if math.isinf(dof) else rng.standard_t(dof, DRAWS)
    drawn: Draws = value + u * scatter
    return drawn


def part_of(path: str, measured: Measured) -> tuple[str, Part] | None:
    """What the card's first run is counted per, and the part; none where it has no part in it."""
    limit = measured.limit
    if measured.share is None or not measured.rates or limit is None:
        return None
    if measured.worn is None or measured.new is None:
        return None
    figure, rate = measured.worn.figure, measured.rates[0]
    side = 1.0 if measured.scale["wears"] == "larger" else -1.0
    run = rate.run - rate.until
    return rate.per, Part(path, figure, measured.new, limit, run, rate.break_in, side)


def differences(ours: Json | None, theirs: Json | None) -> Iterator[str]:
    """Every difference between the outlook of the parts given and the command's."""
    if ours is None or theirs is None:
        if ours is not theirs:
            yield f"outlook: reference {ours}, command {theirs}"
        return
    for what, value in (("per", ours["per"]), ("seed", SEED), ("draws", DRAWS)):
        if theirs[what] != value:
            yield f"outlook: {what}: reference {value}, command {theirs[what]}"
    parts: list[Part] = ours["parts"]
    paths = [part.path for part in parts]
    if paths != [row["path"] for row in theirs["parts"]]:
        both = set(paths) ^ {row["path"] for row in theirs["parts"]}
        yield f"outlook: not the same parts: {sorted(both)[:5]}"
        return
    rng = np.random.default_rng(len(parts))
    least, first = np.full(DRAWS, np.inf), np.full(DRAWS, -1)
    for number, (part, row) in enumerate(zip(parts, theirs["parts"], strict=True)):
        draws = part.draws(rng)
        for line in part_differs(part, draws, row["left"]):
            yield f"outlook: {part.path}: {line}"
        sooner = draws < least
        least[sooner], first[sooner] = draws[sooner], number
    for line in engine_differs(parts, least, theirs["engine"]):
        yield f"outlook: engine: {line}"
    yield from first_differs(paths, first, theirs["first"])


def part_differs(part: Part, draws: Draws, got: Any) -> Iterator[str]:
    """The differences in what is left of one part."""
    best = part.best()
    if (best == 0.0) != ("already_beyond" in got):
        yield f"{best} at the best values, command {got}"
    elif best == 0.0:
        yield from beyond_differs(part.beyond(), got["already_beyond"])
    else:
        yield from left_differs(draws, got)
        # The estimate of a part is that at the best values.
        if "estimate" in got and abs(got["estimate"] / best - 1) > TOLERANCE:
            yield f"estimate: reference {best}, command {got['estimate']}"


def engine_differs(parts: list[Part], least: Draws, got: Any) -> Iterator[str]:
    """The differences in what is left of the engine, by the least of each draw."""
    past = float(np.mean(least == 0.0))
    beyond = past >= 0.5 or any(part.best() == 0.0 for part in parts)
    # Where about half of the draws are past a limit, chance decides which is said.
    if beyond != ("already_beyond" in got):
        if abs(past - 0.5) > SIGMAS * math.sqrt(0.5 / DRAWS):
            yield f"{past} of the draws past a limit, command {got}"
    elif beyond:
        yield from chance_near("already beyond", past, got["already_beyond"])
    else:
        yield from left_differs(least, got)
        # The engine's estimate is the middle of its draws.
        if "estimate" in got:
            yield from end_near("estimate", least, got["estimate"], 0.5)


def beyond_differs(ours: float, theirs: float) -> Iterator[str]:
    """Whether the probability of being beyond agrees."""
    if abs(ours - theirs) > PROBABILITY_OF_MANY:
        yield f"already beyond: reference {ours}, command {theirs}"


def left_differs(draws: Draws, got: Any) -> Iterator[str]:
    """Whether what is said to be left fits the draws."""
    endless = float(np.mean(np.isinf(draws)))
    kinds = [
        kind
        for kind, low, high in (
            ("low", 0.0, TAIL),
            ("at_least", TAIL, 1 - 2 * TAIL),
            ("not_reached", 1 - 2 * TAIL, 1.0),
        )
        if low - UNDECIDED <= endless <= high + UNDECIDED
    ]
    if not any(kind in got for kind in kinds):
        yield f"{endless} of numpy's draws have no end, command {got}"
    elif "at_least" in got:
        yield from end_near("at least", draws, got["at_least"], 2 * TAIL)
    elif "low" in got:
        yield from end_near("from", draws, got["low"], TAIL)
        yield from end_near("to", draws, got["high"], 1 - TAIL)


def end_near(what: str, draws: Draws, end: float, p: float) -> Iterator[str]:
    """Whether an end lies where it should; at 0 more draws than that may be past the limit."""
    if end > 0:
        yield from share_near(what, draws, end, p)
    elif float(np.mean(draws == 0.0)) < p - SIGMAS * math.sqrt(2 * p / DRAWS):
        yield f"{what}: 0, but {float(np.mean(draws == 0.0))} of numpy's draws are past the limit"


def chance_near(what: str, ours: float, theirs: float) -> Iterator[str]:
    """Whether two shares of draws agree within the error of both."""
    allowed = SIGMAS * math.sqrt(2 * max(ours * (1 - ours), 1e-4) / DRAWS)
    if abs(ours - theirs) > allowed:
        yield f"{what}: numpy {ours}, command {theirs}"


def first_differs(paths: list[str], first: NDArray[np.int_], got: list[Json]) -> Iterator[str]:
    """How often each part is the first at its limit."""
    said = {row["path"]: row["probability"] for row in got}
    if not set(said) <= set(paths):
        yield f"outlook: first: no such part: {sorted(set(said) - set(paths))}"
    if sorted(said.values(), reverse=True) != [row["probability"] for row in got]:
        yield "outlook: first: not by probability"
    for number, path in enumerate(paths):
        share = float(np.mean(first == number))
        yield from chance_near(f"outlook: first: {path}", share, said.get(path, 0.0))
