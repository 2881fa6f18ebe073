"""Single figures of random questions, held against scipy, statsmodels, uncertainties and numpy's draws.

The program `figures` of the package `suite` answers them; draws are compared within their sampling error.
"""

from __future__ import annotations

import json
import math
import os
import subprocess
import warnings
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
import pandas as pd
import statsmodels.api as sm
import uncertainties
from scipy import optimize, stats
from statsmodels.formula.api import ols
from statsmodels.stats.anova import anova_lm

from dice import Dice
from forecasts import near

Json = dict[str, Any]

# Of a quantity without uncertainty, which is meant here.
warnings.filterwarnings("ignore", message="Using UFloat objects with std_dev==0")

#: Draws on the command's side and on numpy's.
DRAWS = 100_000
#: Standard errors that two sets of draws may be apart: one comparison in two million is further.
SIGMAS = 5.0


def answers(questions: list[Json]) -> list[Json]:
    """What the program says to each question."""
    done = subprocess.run(
        [os.environ["RINGLAND_FIGURES"]],
        input="".join(json.dumps(question) + "\n" for question in questions),
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=300,
        check=True,
    )
    return [json.loads(line) for line in done.stdout.splitlines()]


# --------------------------------------------------------------------------- distributions, curves


def distribution(dice: Dice) -> Json:
    """A value, a probability and degrees of freedom."""
    return {
        "kind": "distribution",
        "x": dice.rng.normal() * 2,
        "p": dice.pick([dice.rng.uniform(0.001, 0.999), 0.975, 1e-5]),
        "dof": dice.pick([dice.whole(1, 30), dice.rng.uniform(0.5, 2000), 1e5, None]),
        "upper": dice.whole(1, 20),
        "lower": dice.whole(1, 60),
    }


def check_distribution(asked: Json, got: Json) -> Iterator[str]:
    """Against scipy."""
    dof = math.inf if asked["dof"] is None else asked["dof"]
    x, p = asked["x"], asked["p"]
    yield from near("normal", got["normal_cdf"], stats.norm.cdf(x), 1e-12)
    yield from near("normal quantile", got["normal_quantile"], stats.norm.ppf(p), 1e-10, 1e-3)
    # With many degrees of freedom the incomplete beta function loses digits.
    yield from near("t", got["t_cdf"], stats.t.cdf(x, dof), 1e-11 if dof < 1e4 else 1e-8)
    yield from near("t quantile", got["t_quantile"], stats.t.ppf(p, dof), 1e-10, 1e-3)
    f = stats.f.sf(abs(x), asked["upper"], asked["lower"])
    yield from near("F", got["f_above"], f, 1e-10)


def polynomial(dice: Dice) -> Json:
    """A polynomial seen with some scatter, far from 0 at times."""
    degree = dice.whole(1, 4)
    n = degree + dice.whole(2, 20)
    x = dice.pick([0.0, 5.0]) + dice.rng.uniform(-1, 2, n)
    y = np.polyval(dice.rng.normal(size=degree + 1), x) + 0.1 * dice.rng.normal(size=n)
    scale = 10.0 ** dice.whole(-3, 6)
    return {
        "kind": "polynomial",
        "degree": degree,
        "x": (x * scale).tolist(),
        "y": y.tolist(),
        "scale": scale,
    }


def check_polynomial(asked: Json, got: Json) -> Iterator[str]:
    """Against statsmodels by its own QR, on x of ordinary size."""
    scale, terms = asked["scale"], asked["degree"] + 1
    x = np.array(asked["x"]) / scale
    columns = np.vander(x, terms, increasing=True)
    fit = sm.OLS(np.array(asked["y"]), columns).fit(method="qr")
    # Its standard errors come from RᵀR, which loses twice as many digits as R.
    loose = 1e-15 * float(np.linalg.cond(columns)) ** 2
    unit = scale ** np.arange(terms)
    for power, (value, se) in enumerate(zip(fit.params, fit.bse, strict=True)):
        size = float(np.abs(fit.params).max())
        yield from near(f"b{power}", got["values"][power] * unit[power], value, 1e-7, size)
        yield from near(f"se of b{power}", got["ses"][power] * unit[power], se, 1e-9 + loose)
    yield from near("s", got["residual_sd"], math.sqrt(fit.scale), 1e-8)
    yield from near("R²", got["r_squared"], fit.rsquared, 1e-9, 1.0)


# --------------------------------------------------------------------------- gauge study


def gauge_study(dice: Dice) -> Json:
    """Readings by appraiser, part and trial, with and without appraisers who differ by part."""
    a, n, r = dice.whole(2, 4), dice.whole(2, 10), dice.whole(2, 3)
    rng = dice.rng
    readings = (
        rng.normal(size=(1, n, 1)) * dice.pick([0.0, 1.0, 20.0])
        + rng.normal(size=(a, 1, 1)) * dice.pick([0.0, 0.3])
        + rng.normal(size=(a, n, 1)) * dice.pick([0.0, 0.5])
        + rng.normal(size=(a, n, r)) * 0.2
        + dice.pick([0.0, 130.0])
    )
    return {"kind": "gauge_study", "readings": readings.tolist()}


def check_gauge_study(asked: Json, got: Json) -> Iterator[str]:
    """The table of statsmodels' two-way analysis, and the components that its mean squares make."""
    readings = np.array(asked["readings"])
    a, n, r = readings.shape
    places = np.indices(readings.shape)
    table = pd.DataFrame(
        {"y": readings.ravel(), "who": places[0].ravel(), "part": places[1].ravel()}
    )
    found = anova_lm(ols("y ~ C(who) * C(part)", table).fit())
    rows = ["C(who)", "C(part)", "C(who):C(part)", "Residual"]
    total = float(found["sum_sq"].sum())
    for place, row in enumerate(rows):
        yield from near(row, got["sums"][place], found["sum_sq"][row], 1e-8, total)
        yield from near(f"{row}, dof", got["dofs"][place], found["df"][row], 0.0)
    yield from near("F", got["f"], found["F"][rows[2]], 1e-7, 1e-3)
    yield from near("p", got["p"], found["PR(>F)"][rows[2]], 1e-7, 1e-3)
    mean = [float(found["mean_sq"][row]) for row in rows]
    pooled = got["p"] > 0.25
    if pooled != got["pooled"]:
        yield f"pooled {got['pooled']} at p {got['p']}"
    if pooled:
        dof = found["df"][rows[2]] + found["df"][rows[3]]
        own = float(found["sum_sq"][rows[2]] + found["sum_sq"][rows[3]]) / dof
        against, apart = own, 0.0
    else:
        own, against = mean[3], mean[2]
        apart = max(0.0, (mean[2] - mean[3]) / r)
    size = math.sqrt(total / readings.size)
    who = math.sqrt(max(0.0, (mean[0] - against) / (n * r)) + apart)
    part = math.sqrt(max(0.0, (mean[1] - against) / (a * r)))
    yield from near("EV", got["equipment"], math.sqrt(own), 1e-7, size)
    # A root takes a rounding near 0 to the half of its digits.
    yield from near("AV", got["appraisers"], who, 1e-6, size)
    yield from near("PV", got["parts"], part, 1e-6, size)


# --------------------------------------------------------------------------- uncertainty


def budget(dice: Dice) -> Json:
    """Components, some of them correlated as a sound matrix has it."""
    n = dice.whole(1, 6)
    components = [
        {
            "u": dice.pick([0.0, 10 ** dice.rng.uniform(-4, 3), dice.rng.uniform(0.1, 5)]),
            "dof": dice.pick([None, dice.whole(1, 30), dice.rng.uniform(1, 50)]),
            "c": dice.rng.normal() * 3,
        }
        for _ in range(n)
    ]
    correlations = []
    if dice.chance(0.4):
        root = dice.rng.normal(size=(n, n + 1))
        cov = root @ root.T
        sd = np.sqrt(np.diag(cov))
        correlations = [
            [i, j, float(cov[i, j] / sd[i] / sd[j])] for i in range(n) for j in range(i)
        ]
    return {
        "kind": "budget",
        "components": components,
        "correlations": correlations,
        "confidence": dice.pick([0.9, 0.95, 0.99]),
    }


def check_budget(asked: Json, got: Json) -> Iterator[str]:
    """u from `uncertainties`, degrees of freedom after Welch and Satterthwaite."""
    rows = asked["components"]
    u = np.array([row["u"] for row in rows])
    c = np.array([row["c"] for row in rows])
    r = np.eye(len(rows))
    for i, j, value in asked["correlations"]:
        r[i, j] = r[j, i] = value
    if asked["correlations"]:
        # The package takes no component that is known exactly: those drop out.
        kept = u > 0
        cov = (r * np.outer(u, u))[np.ix_(kept, kept)]
        values = uncertainties.correlated_values(np.zeros(int(kept.sum())), cov) if kept.any() else ()
        total = sum((k * v for k, v in zip(c[kept], values, strict=True)), start=uncertainties.ufloat(0, 0))
    else:
        total = sum(
            (k * uncertainties.ufloat(0, s) for k, s in zip(c, u, strict=True)),
            start=uncertainties.ufloat(0, 0),
        )
    want = float(total.std_dev)
    yield from near("u", got["u"], want, 1e-7, 1e-6 * float(np.abs(c * u).max()))
    finite = [row["dof"] is not None and row["u"] > 0 for row in rows]
    if asked["correlations"] and any(finite) and len(rows) > 1:
        if got["has_dof"] or got["factor"] is not None:
            yield f"degrees of freedom of correlated components: {got['dof']}"
        return
    below = sum((k * s) ** 4 / row["dof"] for k, s, row in zip(c, u, rows, strict=True) if row["dof"])
    dof = want**4 / below if below > 0 else math.inf
    yield from near("dof", math.inf if got["dof"] is None else got["dof"], dof, 1e-9) if (
        math.isfinite(dof)
    ) else ([] if got["dof"] is None else [f"dof: command {got['dof']}"])
    if not math.isfinite(dof) or abs(dof - round(dof)) > 1e-9:
        whole = max(1, math.floor(dof)) if math.isfinite(dof) else math.inf
        k = float(stats.t.ppf((1 + asked["confidence"]) / 2, whole))
        yield from near("k", got["factor"], k, 1e-9)
        yield from near("U", got["expanded"], k * want, 1e-7, 1e-6 * float(np.abs(c * u).max()))
    if want > 0:
        yield from near("shares", got["shares"], (c * u) ** 2 / want**2, 1e-6, 1.0)


def conformity(dice: Dice) -> Json:
    """A value near its limits, or not."""
    limits = sorted(dice.rng.normal(size=2) * 3)
    which = dice.whole(0, 2)
    return {
        "kind": "conformity",
        "y": dice.rng.normal() * 3,
        "u": dice.rng.uniform(0.01, 2),
        "dof": dice.pick([None, dice.whole(2, 30)]),
        "low": limits[0] if which != 0 else None,
        "high": limits[1] if which != 1 else None,
        "confidence": dice.pick([0.9, 0.95, 0.99]),
    }


def check_conformity(asked: Json, got: Json) -> Iterator[str]:
    """The probability from scipy, the verdict from it, the sufficient u by root-finding."""
    low = -math.inf if asked["low"] is None else asked["low"]
    high = math.inf if asked["high"] is None else asked["high"]
    dof = math.inf if asked["dof"] is None else asked["dof"]
    y, asked_for = asked["y"], asked["confidence"]

    def probability(u: float) -> float:
        return float(stats.t.cdf((high - y) / u, dof) - stats.t.cdf((low - y) / u, dof))

    p = probability(asked["u"])
    yield from near("probability", got["probability"], p, 1e-8, 1.0)
    verdict = "within" if p >= asked_for else "beyond" if 1 - p >= asked_for else "cannot_say"
    if min(abs(p - asked_for), abs(1 - p - asked_for)) > 1e-7 and got["verdict"] != verdict:
        yield f"verdict: reference {verdict}, command {got['verdict']}"
    if low <= y <= high:
        nearest = min(y - low, high - y)
        want = optimize.brentq(lambda u: probability(u) - asked_for, nearest / 1e4, nearest * 20)
    else:
        want = max(low - y, y - high) / float(stats.t.ppf(asked_for, dof))
    yield from near("sufficient u", got["sufficient_u"], want, 1e-6)


# --------------------------------------------------------------------------- draws


def drawn(dice: Dice, row: list[Any], n: int = DRAWS) -> Any:
    """Draws of an input by numpy."""
    if row[0] == "normal":
        return dice.rng.normal(row[1], row[2], n)
    if row[0] == "rectangular":
        return dice.rng.uniform(row[1], row[2], n)
    return row[1] + row[2] * dice.rng.standard_t(row[3], n)


def share_near(what: str, draws: Any, end: float, p: float) -> Iterator[str]:
    """Whether a share p of the draws lies below an end, within the error of both sides' draws."""
    share = float(np.mean(draws <= end))
    allowed = SIGMAS * math.sqrt(p * (1 - p) * (1 / DRAWS + 1 / len(draws))) + 2 / DRAWS
    if abs(share - p) > allowed:
        yield f"{what}: {share} of numpy's draws lie below {end}, not {p}"


def monte_carlo(dice: Dice) -> Json:
    """Three inputs into a model."""

    def one() -> list[Any]:
        mean, width = dice.rng.normal() * 2, dice.rng.uniform(0.1, 2)
        return dice.pick(
            [
                ["normal", mean, width],
                ["rectangular", mean, mean + width],
                ["t", mean, width, dice.rng.uniform(9, 40)],
            ]
        )

    return {
        "kind": "monte_carlo",
        "inputs": [one() for _ in range(3)],
        "model": dice.pick(["sum", "product", "ratio"]),
        "draws": DRAWS,
        "seed": dice.whole(0, 10**9),
        "confidence": dice.pick([0.9, 0.95]),
        "numpy": dice.whole(0, 10**9),
    }


MODELS: dict[str, Callable[[Any, Any, Any], Any]] = {
    "sum": lambda a, b, c: a + b + c,
    "product": lambda a, b, c: a * b + c,
    "ratio": lambda a, b, c: a / (b * b + 1.0) + c,
}


def check_monte_carlo(asked: Json, got: Json) -> Iterator[str]:
    """Mean, u and both intervals."""
    dice = Dice(asked["numpy"])
    draws = MODELS[asked["model"]](*(drawn(dice, row) for row in asked["inputs"]))
    mean, u = float(draws.mean()), float(draws.std(ddof=1))
    fourth = float(np.mean(((draws - mean) / u) ** 4))
    both = math.sqrt(2 / DRAWS)
    if abs(got["mean"] - mean) > SIGMAS * u * both:
        yield f"mean: numpy {mean}, command {got['mean']}"
    if abs(got["u"] / u - 1) > SIGMAS * both * math.sqrt((fourth - 1) / 4) * 1.2:
        yield f"u: numpy {u}, command {got['u']}"
    tail = (1 - asked["confidence"]) / 2
    low, high = got["symmetric"]
    yield from share_near("lower end", draws, low, tail)
    yield from share_near("upper end", draws, high, 1 - tail)
    low, high = got["shortest"]
    inside = draws[draws >= low]
    share = len(inside[inside <= high]) / DRAWS
    if abs(share - asked["confidence"]) > 3 * SIGMAS * math.sqrt(tail * 2 * both):
        yield f"shortest: holds {share}"
    if high - low > got["symmetric"][1] - got["symmetric"][0]:
        yield "the shortest interval is longer than the symmetric one"


def position(dice: Dice) -> Json:
    """A part that grows or shrinks, worn little or much, in metres."""
    sign = dice.pick([1.0, -1.0])
    new, allowance = 0.13, dice.rng.uniform(50e-6, 300e-6)
    wear = dice.rng.uniform(0.02, 0.95) * allowance
    u = dice.pick([0.01, 0.05, 0.2]) * wear
    asked: Json = {
        "size": [new + sign * wear, u],
        "limit": new + sign * allowance,
        "run": dice.rng.uniform(1e8, 1e9),
        "as_new_range": None,
        "as_new": [new, dice.pick([0.0, 0.1 * wear])],
        "break_in": None,
        "until": 0.0,
    }
    if dice.chance(0.5):
        half = dice.rng.uniform(0.02, 0.3) * wear
        asked["as_new_range"] = [new - half, new + half]
    if dice.chance(0.3):
        asked["break_in"] = [0.1 * wear, 0.02 * wear]
        asked["until"] = 0.05 * asked["run"]
    return asked


def left_draws(dice: Dice, asked: Json, off: Any = 0.0) -> Any:
    """What is left, by numpy's draws."""
    x = dice.rng.normal(*asked["size"], DRAWS) - off
    if asked["as_new_range"] is not None:
        new = dice.rng.uniform(*asked["as_new_range"], DRAWS)
    else:
        new = dice.rng.normal(*asked["as_new"], DRAWS)
    grows = asked["limit"] > (np.mean(asked["as_new_range"] or asked["as_new"][:1]))
    sign = 1.0 if grows else -1.0
    at_first = dice.rng.normal(*asked["break_in"], DRAWS) if asked["break_in"] else 0.0
    counted = asked["run"] - asked["until"]
    room, wear = sign * (asked["limit"] - x), sign * (x - new) - at_first
    with np.errstate(divide="ignore", invalid="ignore"):
        ahead = np.where(wear > 0, room * counted / wear, np.inf)
    return np.where(room <= 0, 0.0, ahead)


def remaining(dice: Dice) -> Json:
    """A position by itself."""
    return {
        "kind": "remaining",
        **position(dice),
        "confidence": dice.pick([0.9, 0.95]),
        "draws": DRAWS,
        "numpy": dice.whole(0, 10**9),
    }


def check_remaining(asked: Json, got: Json) -> Iterator[str]:
    """The ends against numpy's draws."""
    dice = Dice(asked["numpy"])
    yield from check_left(left_draws(dice, asked), got["remaining"], asked["confidence"])


def check_left(draws: Any, got: Any, confidence: float) -> Iterator[str]:
    """The ends of what is left, or its lower bound."""
    tail = (1 - confidence) / 2
    endless = float(np.mean(np.isinf(draws)))
    near_edge = abs(endless - tail) < SIGMAS * math.sqrt(tail * 2 / DRAWS)
    if "between" in got:
        low, _, high = got["between"]
        if endless > tail and not near_edge:
            yield f"two ends, where {endless} of numpy's draws have none"
        # A lower end of 0 is past the limit in more draws than that.
        if low > 0:
            yield from share_near("at least", draws, low, tail)
        yield from share_near("at most", draws, high, 1 - tail)
    elif "at_least" in got:
        if endless < tail and not near_edge:
            yield f"one end, where {endless} of numpy's draws have none"
        if got["at_least"] > 0:
            yield from share_near("at least", draws, got["at_least"], 2 * tail)
    else:
        yield f"said {got}"


def first(dice: Dice) -> Json:
    """Some positions of an engine, read with one gauge."""
    return {
        "kind": "first",
        "positions": [position(dice) for _ in range(dice.whole(2, 6))],
        "calibration": dice.pick([0.0, 1e-6, 5e-6]),
        "confidence": dice.pick([0.9, 0.95]),
        "draws": DRAWS,
        "numpy": dice.whole(0, 10**9),
    }


def check_first(asked: Json, got: Json) -> Iterator[str]:
    """Who is first how often, and when."""
    dice = Dice(asked["numpy"])
    off = dice.rng.normal(0, asked["calibration"], DRAWS)
    draws = np.array([left_draws(dice, row, off) for row in asked["positions"]])
    ends = np.isfinite(draws.min(axis=0))
    winner = np.where(ends, draws.argmin(axis=0), -1)
    for place, probability in enumerate(got["probabilities"]):
        want = float(np.mean(winner == place))
        allowed = SIGMAS * math.sqrt(2 * max(want * (1 - want), 1e-4) / DRAWS)
        if abs(want - probability) > allowed:
            yield f"position {place}: numpy {want}, command {probability}"
    yield from check_left(draws.min(axis=0), got["engine"], asked["confidence"])


#: What is asked how often: name, question, check.
KINDS: list[
    tuple[str, int, Callable[[Dice], Json], Callable[[Json, Json], Iterator[str]]]
] = [
    ("distributions against scipy", 100, distribution, check_distribution),
    ("polynomials against statsmodels", 50, polynomial, check_polynomial),
    ("gauge studies against statsmodels", 50, gauge_study, check_gauge_study),
    ("budgets against uncertainties", 100, budget, check_budget),
    ("conformity against scipy", 100, conformity, check_conformity),
    ("Monte Carlo against numpy's draws", 25, monte_carlo, check_monte_carlo),
    ("what was left against numpy's draws", 25, remaining, check_remaining),
    ("first limits against numpy's draws", 15, first, check_first),
]


def asked(make: Callable[[Dice], Json], count: int) -> list[Json]:
    """Questions of one kind."""
    return [make(Dice(0x67, number)) for number in range(count)]
