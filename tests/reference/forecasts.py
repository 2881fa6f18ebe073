"""Forecasts of random readings, held against statsmodels and scipy.

Lines come from statsmodels' OLS, power laws from scipy's ``curve_fit``, the scatter between units from
statsmodels' ``combine_effects``. What is read off them stands here a second time, from the method page.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
import statsmodels.api as sm
from scipy import optimize, stats
from statsmodels.stats.meta_analysis import combine_effects

from dice import Dice

Json = dict[str, Any]
Floats = np.ndarray[Any, np.dtype[np.float64]]

#: Relative differences allowed: lines are exact to rounding, power laws to the search of either side.
LINE, POWER = 1e-8, 2e-5
#: Exponents that the method searches.
EXPONENTS = (0.05, 20.0)


@dataclass
class Case:
    """Readings by unit and what is asked about them."""

    units: dict[str, tuple[Floats, Floats]]
    zero: bool
    confidence: float
    limit: float | None

    def table(self) -> str:
        """The readings as the command takes them, the units' lines mixed."""
        lines = ["unit,distance,wear"]
        longest = max(len(x) for x, _ in self.units.values())
        for n in range(longest):
            for name, (x, y) in self.units.items():
                if n < len(x):
                    lines.append(f"{name},{float(x[n])!r},{float(y[n])!r}")
        return "\n".join(lines) + "\n"

    def arguments(self) -> list[str]:
        """What the command is given beside the table."""
        more = ["--json", f"--confidence={self.confidence * 100!r}"]
        more += ["--through-zero"] if self.zero else []
        return more + ([] if self.limit is None else [f"--limit={self.limit!r}"])

    @property
    def t_share(self) -> float:
        """The probability below the upper end of a two-sided interval."""
        return (1 + self.confidence) / 2


def random_case(seed: int) -> Case:
    """Units that wear alike or not, along a line or a power law, seen well or badly."""
    dice = Dice(0x66, seed)
    scale = 10.0 ** dice.whole(0, 6)
    level = 10.0 ** dice.whole(-3, 2)
    exponent = dice.pick([1.0, 1.0, 0.5, 0.7, 1.6])
    scatter = dice.pick([0.001, 0.02, 0.1, 0.6])
    apart = dice.pick([0.0, 0.1, 0.5])
    rise = dice.pick([1.0, 1.0, 1.0, 0.0])
    units = {}
    for number in range(dice.whole(1, 4)):
        n = dice.whole(1, 10)
        x = np.array([round(dice.rng.uniform(0, 1), 3) for _ in range(n)]) * scale
        factor = level * (1 + apart * dice.rng.normal())
        y = rise * factor * (x / scale) ** exponent + level * scatter * dice.rng.normal(size=n)
        units[f"unit {number}"] = (x, y)
    limit = level * dice.rng.uniform(0.5, 3) if dice.chance(0.8) else None
    return Case(units, dice.chance(0.4), dice.pick([0.9, 0.95, 0.99]), limit)


def differences(case: Case, got: Json) -> Iterator[str]:
    """Every difference between a forecast and what comes out here."""
    for unit, (name, (x, y)) in zip(got["units"], case.units.items(), strict=True):
        if unit["unit"] != name:
            yield f"{name} is called {unit['unit']}"
        last = float(x.max())
        yield from prefixed(name, curves(case, unit, x, y, last, last))
        yield from prefixed(name, last_reading(case, unit, x, y))
    if (got["pooled"] is not None) != (len(case.units) > 1):
        yield "pooled is there or not where it should not be so"
    if got["pooled"] is not None:
        x = np.concatenate([x for x, _ in case.units.values()])
        y = np.concatenate([y for _, y in case.units.values()])
        yield from prefixed("pooled", curves(case, got["pooled"], x, y, 0.0, 0.0))
        yield from prefixed("slopes", slopes(case, got["pooled"]["slopes"]))


def prefixed(name: str, lines: Iterator[str]) -> Iterator[str]:
    """The lines, each with what it is about."""
    return (f"{name}: {line}" for line in lines)


def near(what: str, got: Any, want: Any, within: float, scale: float = 0.0) -> Iterator[str]:
    """A difference of more than so much of the larger of the number and a scale."""
    if got is None or want is None:
        if got is not want:
            yield f"{what}: reference {want}, command {got}"
        return
    got, want = np.atleast_1d(got).astype(float), np.atleast_1d(want).astype(float)
    if got.shape != want.shape or np.any(
        np.abs(got - want) > within * np.maximum(np.abs(want).max(), scale) + 1e-300
    ):
        yield f"{what}: reference {want.tolist()}, command {got.tolist()}"


# --------------------------------------------------------------------------- curves


def design(x: Floats, zero: bool) -> Floats:
    """The columns of a straight line."""
    return x[:, None] if zero else np.column_stack([np.ones_like(x), x])


def line_of(x: Floats, y: Floats, zero: bool) -> Any:
    """A line by least squares; none where there is too little to fit."""
    k = 1 if zero else 2
    spread = np.any(x != 0) if zero else np.ptp(x) > 0
    return sm.OLS(y, design(x, zero)).fit() if len(x) > k and spread else None


@dataclass
class Power:
    """A power law in z = x/top, where its numbers are of ordinary size."""

    top: float
    a: float
    b: float
    cov: Floats
    rss: float
    dof: int

    def at(self, x: float) -> float:
        """y on the curve."""
        return float(self.a * (x / self.top) ** self.b)

    def variance(self, x: float) -> float:
        """That of the curve."""
        z = x / self.top
        rise = np.array([z**self.b, self.a * z**self.b * math.log(z) if z > 0 else 0.0])
        return float(rise @ self.cov @ rise)

    def log_at(self, level: float) -> tuple[float, float] | None:
        """ln z at a level and its standard uncertainty."""
        if level / self.a <= 0:
            return None
        w = math.log(level / self.a) / self.b
        rise = np.array([-1 / (self.a * self.b), -w / self.b])
        return w, math.sqrt(float(rise @ self.cov @ rise))


def power_of(x: Floats, y: Floats) -> Power | None:
    """A power law by least squares on y; none where the best exponent is at an end."""
    if len(x) < 3 or len(set(x[x > 0])) < 2:
        return None
    top = float(x.max())
    z = x / top

    def factor(b: float) -> float:
        return float((y @ z**b) / (z**b @ z**b))

    def rss(b: float) -> float:
        return float(np.sum((y - factor(b) * z**b) ** 2))

    grid = np.geomspace(*EXPONENTS, 121)
    best = int(np.argmin([rss(b) for b in grid]))
    if best in (0, len(grid) - 1):
        return None

    def law(z: Floats, a: float, b: float) -> Floats:
        return a * z**b

    def slope(z: Floats, a: float, b: float) -> Floats:
        logs = np.log(np.where(z > 0, z, 1.0))
        return np.column_stack([z**b, a * z**b * logs])

    size = float(np.abs(y).max())
    start = (factor(grid[best]) / size, grid[best])
    (a, b), cov = optimize.curve_fit(
        law, z, y / size, p0=start, jac=slope, method="lm", xtol=1e-15, ftol=1e-15, gtol=1e-15
    )
    unit = np.diag([size, 1.0])
    a *= size
    return Power(top, a, b, unit @ cov @ unit, float(np.sum((y - a * z**b) ** 2)), len(x) - 2)


def curves(
    case: Case, got: Json, x: Floats, y: Floats, at: float, start: float
) -> Iterator[str]:
    """A line, a power law, the choice between them, and what was left from ``start`` on."""
    line, power = line_of(x, y, case.zero), power_of(x, y)
    if got["readings"] != len(x):
        yield f"{got['readings']} readings, not {len(x)}"
    if line is None:
        if "error" not in got["line"]:
            yield "a line where there is none"
        return
    yield from line_differences(case, got["line"], line, x, y, at)
    if power is None or "error" in got["power_law"]:
        if power is not None or "error" not in got["power_law"]:
            yield f"power law: reference {power}, command {got['power_law']}"
        power = None
    else:
        yield from power_differences(case, got["power_law"], power, y, at)
    yield from choice_differences(case, got["choice"], line, power, len(x))
    if case.limit is not None:
        want = left(case, got["choice"]["curve"], line, power, start)
        yield from left_differences(got["remaining"], want, POWER)


def line_differences(
    case: Case, got: Json, line: Any, x: Floats, y: Floats, at: float
) -> Iterator[str]:
    """Every figure of a line."""
    size = float(np.abs(y).max())
    params = [0.0, *line.params] if case.zero else list(line.params)
    errors = [0.0, *line.bse] if case.zero else list(line.bse)
    cov = 0.0 if case.zero else float(line.cov_params()[0, 1])
    slope_scale = size / float(np.abs(x).max())
    yield from near("intercept", got["intercept"], params[0], LINE, size)
    yield from near("slope", got["slope"], params[1], LINE, slope_scale)
    yield from near("se of intercept", got["se_intercept"], errors[0], LINE, 1e-6 * size)
    yield from near("se of slope", got["se_slope"], errors[1], LINE, 1e-6 * slope_scale)
    yield from near("covariance", got["covariance"], cov, 1e-7, 1e-9 * size * slope_scale)
    yield from near("s", got["residual_sd"], math.sqrt(line.scale), LINE, 1e-6 * size)
    yield from near("R²", got["r_squared"], float(line.rsquared), 1e-8, 1.0)
    alpha = 1 - case.confidence
    ends = line.conf_int(alpha)[-1]
    yield from near("slope's interval", got["slope_interval"], ends, LINE, slope_scale)
    said = line.get_prediction(design(np.array([at]), case.zero)).summary_frame(alpha)
    yield from near("y", got["at"]["wear"], said["mean"].iloc[0], LINE, size)
    band = said[["mean_ci_lower", "mean_ci_upper"]].iloc[0]
    yield from near("band", got["at"]["band"], band, LINE, size)
    next_one = said[["obs_ci_lower", "obs_ci_upper"]].iloc[0]
    yield from near("prediction", got["at"]["prediction"], next_one, LINE, size)
    yield from near("where", [got["at"]["distance"], got["dof"]], [at, line.df_resid], 0.0)
    if case.limit is not None:
        t = float(stats.t.ppf(case.t_share, line.df_resid))
        x = (case.limit - params[0]) / params[1]
        yield from near("at the limit", got["reaches_limit"]["at"], x, 1e-6)
        yield from possible_differences(got["reaches_limit"]["possible"], reach(case, line, t))


def power_differences(case: Case, got: Json, power: Power, y: Floats, at: float) -> Iterator[str]:
    """Every figure of a power law."""
    size = float(np.abs(y).max())
    s = math.sqrt(power.rss / power.dof)
    # Where hardly anything rises the exponent is hardly there, and either search ends near by.
    loose = max(POWER, 1e-6 * math.sqrt(power.cov[1, 1]))
    yield from near("exponent", got["exponent"], power.b, loose, 1.0)
    a = power.a * power.top**-power.b
    yield from near("factor", got["factor"], a, loose * max(1, 5 * math.log(power.top + 2)))
    yield from near("se of exponent", got["se_exponent"], math.sqrt(power.cov[1, 1]), 100 * loose)
    yield from near("power law's s", got["residual_sd"], s, POWER, 1e-6 * size)
    t = float(stats.t.ppf(case.t_share, power.dof))
    se = math.sqrt(power.variance(at))
    half = np.array([-1, 1]) * t
    yield from near("power law's y", got["at"]["wear"], power.at(at), loose, size)
    band = power.at(at) + half * se
    yield from near("power law's band", got["at"]["band"], band, 100 * loose, size)
    wide = power.at(at) + half * math.hypot(s, se)
    yield from near("power law's prediction", got["at"]["prediction"], wide, 100 * loose, size)
    yield from near("where", [got["at"]["distance"], got["dof"]], [at, power.dof], 0.0)
    ends = power.b + half * math.sqrt(power.cov[1, 1])
    yield from near("exponent's interval", got["exponent_interval"], ends, 100 * loose)
    # a = A·topᵇ⁻, so da = top⁻ᵇ·(dA − A·ln top·db).
    rise = np.array([1.0, -power.a * math.log(power.top)]) * power.top**-power.b
    se_factor = math.sqrt(max(0.0, float(rise @ power.cov @ rise)))
    yield from near("se of factor", got["se_factor"], se_factor, 1e-2, 1e-3 * abs(a))
    if case.limit is not None:
        yield from law_at_limit(case.limit, got["reaches_limit"], power, t, loose)


def law_at_limit(
    limit: float, got: Json, power: Power, t: float, loose: float
) -> Iterator[str]:
    """Where a power law is at the limit."""
    at = power.log_at(limit)
    if at is None or got["possible"] is None:
        if at is not None and at[0] + t * at[1] < 700 - math.log(power.top):
            yield f"power law at the limit: command {got}"
        return
    w, u = at
    want = [power.top * math.exp(w + side * u) for side in (-t, 0.0, t)]
    said = [got["possible"][0], got["at"], got["possible"][1]]
    for what, a, b in zip(("low", "at", "high"), said, want, strict=True):
        yield from near(f"power law at the limit, {what}", a, b, 200 * loose * max(1.0, t * u))


def choice_differences(
    case: Case, got: Json, line: Any, power: Power | None, n: int
) -> Iterator[str]:
    """Which curve is taken, and the criteria."""
    if power is None or n < 5:
        kind = "no_power_law" if power is None else "too_few_to_tell"
        said = (got["why"].get("got"), got["why"].get("least"))
        wrong = power is not None and said != (n, 5)
        if (got["curve"], got["why"]["kind"]) != ("line", kind) or wrong:
            yield f"choice: reference line, {kind}, command {got}"
        return

    def aicc(rss: float, k: int) -> float:
        return n * math.log(rss / n) + 2 * k + 2 * k * (k + 1) / (n - k - 1)

    of_line = aicc(float(line.ssr), 2 if case.zero else 3)
    of_power = aicc(power.rss, 3)
    yield from near("AICc of the line", got["aicc"]["line"], of_line, 1e-6, 10.0)
    yield from near("AICc of the power law", got["aicc"]["power_law"], of_power, 1e-5, 10.0)
    apart = of_line - of_power
    by = got["why"].get("by", got["why"].get("apart"))
    yield from near("how clear", abs(by), abs(apart), 2e-5, 10.0)
    kind = "better" if abs(apart) > 2 else "as_good_and_simpler"
    curve = "power_law" if apart > 2 else "line"
    if abs(abs(apart) - 2) > 1e-3 and (got["curve"], got["why"]["kind"]) != (curve, kind):
        yield f"choice: reference {curve}, {kind}, command {got}"


# --------------------------------------------------------------------------- where a limit is


def reach(case: Case, line: Any, t: float) -> tuple[str, list[float]]:
    """All x at which the line may be at the limit: the x whose band holds it.

    (a + b·x − L)² ≤ t²·(u²(a) + 2x·u(a, b) + x²·u²(b)), not centred.
    """
    assert case.limit is not None
    cov = np.zeros((2, 2))
    if case.zero:
        a, b, cov[1, 1] = 0.0, float(line.params[0]), float(line.cov_params()[0, 0])
    else:
        a, b = map(float, line.params)
        cov = np.asarray(line.cov_params())
    rise = a - case.limit
    two = b * b - t * t * cov[1, 1]
    one = 2 * (rise * b - t * t * cov[0, 1])
    none = rise * rise - t * t * cov[0, 0]
    under = one * one - 4 * two * none
    if two < 0 and under < 0:
        return "everywhere", []
    ends = sorted((-one + sign * math.sqrt(max(under, 0))) / (2 * two) for sign in (-1, 1))
    return ("between" if two > 0 else "outside"), ends


def possible_differences(got: Json, want: tuple[str, list[float]]) -> Iterator[str]:
    """Whether two sets of x agree."""
    kind, ends = want
    if got["kind"] != kind:
        yield f"reaches the limit: reference {want}, command {got}"
        return
    keys = {"between": ("low", "high"), "outside": ("below", "above")}.get(kind, ())
    yield from near("reaches the limit", [got[key] for key in keys], ends, 1e-5) if keys else ()


def left(case: Case, curve: str, line: Any, power: Power | None, start: float) -> list[Any]:
    """What was left, after the method page."""
    assert case.limit is not None
    if curve == "line":
        return left_on_line(case, line, start)
    assert power is not None
    now = power.at(start)
    if now >= case.limit:
        return beyond(now - case.limit, math.sqrt(power.variance(start)), power.dof)
    at = power.log_at(case.limit)
    if at is None:
        return ["not_reached"]
    w, u = at
    t = float(stats.t.ppf(case.t_share, power.dof))

    def x(log: float) -> float:
        return power.top * math.exp(log) - start

    if power.b > t * math.sqrt(power.cov[1, 1]):
        return ["between", x(w), max(x(w - t * u), 0.0), x(w + t * u)]
    one_sided = float(stats.t.ppf(case.confidence, power.dof))
    return ["at_least", max(x(w - one_sided * u), 0.0)]


def left_on_line(case: Case, line: Any, start: float) -> list[Any]:
    """The same on a line."""
    assert case.limit is not None
    said = line.get_prediction(design(np.array([start]), case.zero))
    now = float(said.predicted_mean[0])
    if now >= case.limit:
        return beyond(now - case.limit, float(said.se_mean[0]), line.df_resid)
    t = float(stats.t.ppf(case.t_share, line.df_resid))
    kind, ends = reach(case, line, t)
    a, b = (0.0, line.params[0]) if case.zero else line.params
    if kind == "between" and b > 0:
        return ["between", (case.limit - a) / b - start, max(ends[0] - start, 0), ends[1] - start]
    # One-sided: where the upper edge of the band is at the limit for the first time from here on.
    kind, ends = reach(case, line, float(stats.t.ppf(case.confidence, line.df_resid)))
    inside = {
        "everywhere": lambda x: True,
        "between": lambda x: ends[0] <= x <= ends[1],
        "outside": lambda x: x <= ends[0] or x >= ends[1],
    }[kind]
    ahead = [end for end in ends if end >= start]
    if inside(start):
        return ["at_least", 0.0]
    return ["at_least", min(ahead) - start] if ahead else ["not_reached"]


def beyond(by: float, u: float, dof: float) -> list[Any]:
    """Past the limit, with its probability."""
    p = float(stats.t.cdf(by / u, dof)) if u > 0 else 1.0
    return ["already_beyond", max(p, 0.5)]


def left_differences(got: Json, want: list[Any], within: float) -> Iterator[str]:
    """Whether two say the same of what was left."""
    keys = {
        "already_beyond": ("probability",),
        "between": ("estimate", "low", "high"),
        "at_least": ("low",),
    }.get(want[0], ())
    if got["kind"] != want[0]:
        yield f"left: reference {want}, command {got}"
        return
    for key, value in zip(keys, want[1:], strict=True):
        yield from near(f"left, {key}", got[key], value, 200 * within, max(map(abs, want[1:])))


def last_reading(case: Case, got: Json, x: Floats, y: Floats) -> Iterator[str]:
    """Whether the others foretell the furthest reading."""
    said = got["last_reading"]
    furthest = len(x) - 1 - int(np.argmax(x[::-1]))
    others = np.arange(len(x)) != furthest
    at, wear = float(x[furthest]), float(y[furthest])
    expected: float | None = None
    if got["choice"] is not None and got["choice"]["curve"] == "line":
        line = line_of(x[others], y[others], case.zero)
        if line is not None:
            frame = line.get_prediction(design(np.array([at]), case.zero)).summary_frame(
                1 - case.confidence
            )
            expected = float(frame["mean"].iloc[0])
            ends = frame[["obs_ci_lower", "obs_ci_upper"]].iloc[0].to_numpy()
            loose = LINE
    elif got["choice"] is not None:
        power = power_of(x[others], y[others])
        if power is not None:
            expected = power.at(at)
            wide = math.hypot(math.sqrt(power.rss / power.dof), math.sqrt(power.variance(at)))
            t = float(stats.t.ppf(case.t_share, power.dof))
            ends = expected + np.array([-t, t]) * wide
            loose = 100 * max(POWER, 1e-6 * math.sqrt(power.cov[1, 1]))
    if expected is None or said is None:
        if (expected is None) != (said is None):
            yield f"last reading: reference {expected}, command {said}"
        return
    size = float(np.abs(y).max())
    yield from near("last reading's place", [said["distance"], said["wear"]], [at, wear], 0.0)
    yield from near("last reading expected", said["expected"], expected, loose, size)
    yield from near("last reading's interval", said["interval"], ends, loose, size)
    margin = min(abs(wear - end) for end in ends)
    if margin > loose * size and said["agrees"] != bool(ends[0] <= wear <= ends[1]):
        yield f"last reading: command says {said['agrees']}"


# --------------------------------------------------------------------------- several units


def slopes(case: Case, got: Json) -> Iterator[str]:
    """The units' slopes, one by one, common, and as draws from one population."""
    units = list(case.units.values())
    spread = [bool(np.any(x != 0) if case.zero else np.ptp(x) > 0) for x, _ in units]
    own: list[float | None] = []
    sxx = []
    for (x, y), sloped in zip(units, spread, strict=True):
        centre = 0.0 if case.zero else x.mean()
        size = float(np.sum((x - centre) ** 2))
        own.append(float(np.linalg.lstsq(design(x, case.zero), y)[0][-1]) if sloped else None)
        sxx += [size] if sloped else []
    known = [b for b in own if b is not None]
    scale = max((abs(b) for b in known), default=0.0)
    for b, c in zip(own, got["own"], strict=True):
        yield from near("own slope", c, b, LINE, scale)
    common, separate = pooled_fits(case, units, spread)
    if common is None:
        if got["common"] is not None:
            yield "a common slope where there is none"
    else:
        alpha = 1 - case.confidence
        figures = [got["common"]["slope"], got["common"]["se"], *got["common"]["interval"]]
        want = [common.params[-1], common.bse[-1], *common.conf_int(alpha)[-1]]
        yield from near("common slope", figures, want, 1e-7, scale)
        yield from near("its dof", got["common"]["dof"], common.df_resid, 0.0)
    several, left_over = len(known) > 1, separate is not None
    p = None
    if several and left_over:
        p = float(separate.compare_f_test(common)[1])
    yield from near("one slope?", got["p_one_slope"], p, 1e-6, 1e-3)
    if got["differ"] != (None if p is None else p < 1 - case.confidence):
        yield f"differ: p is {p}, command {got['differ']}"
    if not several:
        if got["between"] is not None:
            yield "scatter between fewer than two units"
        return
    variance = float(separate.scale) if separate is not None else None
    yield from between(case, got["between"], np.array(known), np.array(sxx), variance)


def pooled_fits(
    case: Case, units: list[tuple[Floats, Floats]], spread: list[bool]
) -> tuple[Any, Any]:
    """One slope for all, and a slope for each, with each unit's own height."""
    x = np.concatenate([x for x, _ in units])
    y = np.concatenate([y for _, y in units])
    which = np.concatenate([np.full(len(x), n) for n, (x, _) in enumerate(units)])
    heights = [] if case.zero else [(which == n) * 1.0 for n in range(len(units))]
    own = [(which == n) * x for n in range(len(units)) if spread[n]]

    def fit(columns: list[Floats]) -> Any:
        if len(y) <= len(columns):
            return None
        return sm.OLS(y, np.column_stack(columns), hasconst=False).fit()

    return (fit([*heights, x]) if any(spread) else None), (fit([*heights, *own]) if own else None)


def between(
    case: Case, got: Json, own: Floats, sxx: Floats, variance: float | None
) -> Iterator[str]:
    """DerSimonian and Laird, with the interval of Knapp and Hartung, never narrower."""
    m = len(own)
    if variance is None:
        tau, mean, weighting = float(own.std(ddof=1)), float(own.mean()), "equal"
        se = tau / math.sqrt(m)
    else:
        # A τ² below 0 makes some of its figures roots of less than nothing: they are not taken.
        with np.errstate(invalid="ignore"):
            said = combine_effects(own, variance / sxx, method_re="chi2")
        tau, mean, weighting = math.sqrt(max(0.0, said.tau2)), said.mean_effect_re, "precision"
        se = said.sd_eff_w_re * math.sqrt(max(1.0, said.scale_hksj_re))
        if said.tau2 <= 0:
            # Its weights may take a τ² below 0; with none they are those of fixed effects.
            mean = said.mean_effect_fe
            se = said.sd_eff_w_fe * math.sqrt(max(1.0, said.scale_hksj_fe))
    scale = float(np.abs(own).max())
    if (got["weighting"], got["units"]) != (weighting, m):
        yield f"between: reference {weighting} of {m}, command {got}"
    # Near no scatter at all τ is the root of a rounding.
    yield from near("scatter between units", got["sd"], tau, 1e-6, 1e-2 * scale)
    yield from near("mean slope", got["mean"]["slope"], mean, 1e-7, scale)
    yield from near("its se", got["mean"]["se"], se, 1e-6, 1e-3 * scale)
    half = float(stats.t.ppf(case.t_share, m - 1)) * se
    yield from near("its interval", got["mean"]["interval"], [mean - half, mean + half], 1e-6)
    if m > 2:
        half = float(stats.t.ppf(case.t_share, m - 2)) * math.hypot(tau, se)
        want = [mean - half, mean + half]
        yield from near("next unit", got["next_unit"], want, 1e-6)
    elif got["next_unit"] is not None:
        yield "a next unit after two"
