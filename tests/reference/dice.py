"""A seeded source of what random cards and questions are made of."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from typing import TypeVar

import numpy as np

T = TypeVar("T")


class Dice:
    """A seeded source with the few kinds of draw that are needed."""

    def __init__(self, *seed: int) -> None:
        self.rng = np.random.default_rng(list(seed))

    def chance(self, p: float) -> bool:
        """True with probability p."""
        return bool(self.rng.random() < p)

    def whole(self, low: int, high: int) -> int:
        """A whole number from low to high, both among them."""
        return int(self.rng.integers(low, high + 1))

    def between(self, low: float, high: float) -> float:
        """A number between two, with many digits or with few."""
        x = float(self.rng.uniform(low, high))
        return min(high, max(low, round(x, self.whole(0, 4)))) if self.chance(0.7) else x

    def pick(self, items: Sequence[T]) -> T:
        """One of them."""
        return items[self.whole(0, len(items) - 1)]

    def some(self, items: Sequence[T], low: int, high: int) -> list[T]:
        """Between low and high different ones, in a random order."""
        n = min(len(items), self.whole(low, high))
        return [items[i] for i in self.rng.permutation(len(items))[:n]]

    def uuid(self, moment: datetime | None = None) -> str:
        """A UUID of version 7 (RFC 9562, section 5.7)."""
        moment = moment or datetime(2026, 3, 1, tzinfo=UTC) + timedelta(hours=self.whole(0, 5000))
        milliseconds = int(moment.timestamp() * 1000)
        bits = (milliseconds << 80) | int.from_bytes(self.rng.bytes(10), "big")
        bits = bits & ~(0xF << 76) | 0x7 << 76
        bits = bits & ~(0x3 << 62) | 0x2 << 62
        text = f"{bits:032x}"
        return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))

    def weight(self) -> float:
        """A weight: mostly plain, now and then zero, tiny or huge."""
        draw = self.rng.random()
        if draw < 0.12:
            return 0.0
        if draw < 0.60:
            return float(self.whole(1, 6))
        if draw < 0.95:
            return self.between(0.05, 8.0) or 1.0
        return float(10.0 ** self.rng.uniform(-4, 3))

    def weights(self, n: int) -> list[float]:
        """Weights of n siblings, not all zero."""
        drawn = [self.weight() for _ in range(n)]
        if not any(drawn):
            drawn[self.whole(0, n - 1)] = 1.0
        return drawn
