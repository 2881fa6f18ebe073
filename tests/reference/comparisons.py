"""Writes random cases for the tests of group comparisons and of agreement between raters, with their figures.

Run by hand where the packages are at hand: ``python3 tests/reference/comparisons.py > FILE``. Versions that wrote the
table: scipy 1.17.1, numpy 2.4.6, statsmodels 0.15.0, pingouin 0.7.0, krippendorff 0.9.0.

A line is ``what,rows,figures``: rows of samples part by ``;``, samples by blanks, figures by blanks. What no package
works out is counted out here from its definition.
"""

from __future__ import annotations

from itertools import combinations, product

import krippendorff
import numpy as np
import pandas as pd
import pingouin
import statsmodels.formula.api as smf
from scipy import stats
from statsmodels.stats import inter_rater, multitest, power, proportion
from statsmodels.stats.weightstats import ttost_ind, ttost_paired

RNG = np.random.default_rng(20_270)


def line(what: str, rows, figures) -> None:
    """One case."""
    shown = ";".join(" ".join(repr(float(x)) for x in row) for row in rows)
    print(what, shown, " ".join(repr(float(x)) for x in figures), sep=",")


def group(n: int, decimals: int = 1, mean: float = 10.0, sd: float = 2.0):
    """Few decimals bring ties."""
    return np.round(RNG.normal(mean, sd, n), decimals)


def means() -> None:
    """Difference, standard error, degrees, p two-sided, higher, lower, 95 % interval."""
    for n, m in [(2, 2), (3, 3), (2, 5), (6, 4), (8, 8), (20, 11), (40, 60)]:
        x, y = group(n, 3), group(m, 3, 11, 4)
        for what, equal in (("welch", False), ("pooled", True)):
            run = lambda a: stats.ttest_ind(x, y, equal_var=equal, alternative=a)  # noqa: E731, B023
            both = run("two-sided")
            d = x.mean() - y.mean()
            ends = both.confidence_interval(0.95)
            line(
                what,
                [x, y],
                [d, d / both.statistic, both.df, both.pvalue, run("greater").pvalue, run("less").pvalue, *ends],
            )
    for n in (2, 3, 6, 20):
        x = group(n, 3)
        y = np.round(x + RNG.normal(0.5, 1, n), 3)
        run = lambda a: stats.ttest_rel(x, y, alternative=a)  # noqa: E731, B023
        both = run("two-sided")
        d = (x - y).mean()
        ends = both.confidence_interval(0.95)
        line(
            "paired",
            [x, y],
            [d, d / both.statistic, both.df, both.pvalue, run("greater").pvalue, run("less").pvalue, *ends],
        )


def equivalence() -> None:
    """Margin, p of the two one-sided tests: unequal, pooled, paired."""
    for n, margin in [(3, 2.0), (6, 1.0), (9, 3.0), (15, 1.5)]:
        x, y = group(n, 2), group(n, 2, 10.4)
        unequal = ttost_ind(x, y, -margin, margin, usevar="unequal")[0]
        pooled = ttost_ind(x, y, -margin, margin, usevar="pooled")[0]
        paired = ttost_paired(x, y, -margin, margin)[0]
        line("tost", [x, y], [margin, unequal, pooled, paired])


def permutations() -> None:
    """p two-sided, higher, lower, counted over all ways: in whole tenths, so that nothing is rounded."""
    for n, m in [(2, 2), (3, 3), (1, 6), (4, 3), (5, 5), (7, 4), (6, 8)]:
        x, y = group(n), group(m, 1, 11)
        tenths = np.rint(np.concatenate([x, y]) * 10).astype(int)
        total = int(tenths.sum())
        sums = np.array([sum(tenths[list(c)]) for c in combinations(range(n + m), n)])
        # (n + m) * sum - n * total is the difference of means times n * m.
        apart = (n + m) * sums - n * total
        own = (n + m) * int(tenths[:n].sum()) - n * total
        line(
            "permutation",
            [x, y],
            [np.mean(np.abs(apart) >= abs(own)), np.mean(apart >= own), np.mean(apart <= own)],
        )


def ranks() -> None:
    """U, p two-sided, higher, lower."""

    def tests(x, y, **how):
        run = lambda a: stats.mannwhitneyu(x, y, alternative=a, **how)  # noqa: E731
        return [run("two-sided").statistic, *(run(a).pvalue for a in ("two-sided", "greater", "less"))]

    for n, m in [(2, 2), (3, 3), (4, 6), (8, 8), (1, 9), (12, 9), (25, 25)]:
        x, y = group(n, 4), group(m, 4, 11)
        assert len(set(x) | set(y)) == n + m
        line("mann_whitney", [x, y], tests(x, y, method="exact"))
    for n, m in [(30, 40), (51, 20)]:
        x, y = group(n, 0), group(m, 0, 11)
        line("mann_whitney", [x, y], tests(x, y, method="asymptotic", use_continuity=True))
    for n, m in [(3, 3), (4, 4), (6, 5), (7, 7)]:
        x, y = group(n, 0), group(m, 0, 11)
        doubled = np.rint(2 * stats.rankdata(np.concatenate([x, y]))).astype(int)
        sums = np.array([sum(doubled[list(c)]) for c in combinations(range(n + m), n)])
        own = int(doubled[:n].sum())
        above, below = np.mean(sums >= own), np.mean(sums <= own)
        u = (own - n * (n + 1)) / 2
        line("mann_whitney", [x, y], [u, min(1, 2 * min(above, below)), above, below])


def signed_ranks() -> None:
    """V, p two-sided, higher, lower."""
    for n, decimals in [(3, 3), (6, 3), (10, 3), (20, 3), (50, 4), (5, 0), (8, 0), (11, 0)]:
        x, y = group(n, decimals), group(n, decimals, 10.7)
        d = np.rint((x - y) * 10**decimals)
        d = d[d != 0]
        doubled = np.rint(2 * stats.rankdata(np.abs(d))).astype(int)
        own = int(doubled[d > 0].sum())
        if decimals:
            assert len(set(np.abs(d))) == len(d) == n
            run = lambda a: stats.wilcoxon(x, y, alternative=a, method="exact").pvalue  # noqa: E731, B023
            figures = [run("two-sided"), run("greater"), run("less")]
        else:
            sums = np.array([sum(doubled[list(c)]) for c in (np.flatnonzero(s) for s in product((0, 1), repeat=len(d)))])
            above, below = np.mean(sums >= own), np.mean(sums <= own)
            figures = [min(1, 2 * min(above, below)), above, below]
        line("signed_rank", [x, y], [own / 2, *figures])
    x, y = group(70, 1), group(70, 1, 10.7)
    d = np.round(x - y, 1)
    run = lambda a: stats.wilcoxon(d, alternative=a, method="asymptotic", correction=True).pvalue  # noqa: E731
    d = d[d != 0]
    v = stats.rankdata(np.abs(d))[d > 0].sum()
    line("signed_rank", [x, y], [v, run("two-sided"), run("greater"), run("less")])


def shifts() -> None:
    """Hodges-Lehmann shift, 90 % interval, how sure it is: of groups, with U counted out."""
    for n, m in [(3, 3), (4, 5), (6, 6), (7, 5)]:
        x, y = group(n, 3), group(m, 3, 11)
        apart = np.sort(np.subtract.outer(x, y).ravel())
        u = np.array([sum(c) - n * (n - 1) // 2 for c in combinations(range(n + m), n)])
        k = 0
        while np.mean(u <= k) <= 0.05:
            k += 1
        assert k > 0
        line("shift", [x, y], [np.median(apart), apart[k - 1], apart[-k], 1 - 2 * np.mean(u <= k - 1)])
    for n in (5, 8, 12):
        x, y = group(n, 3), group(n, 3, 11)
        d = x - y
        walsh = np.sort([(d[i] + d[j]) / 2 for i in range(n) for j in range(i, n)])
        v = np.array([sum(r for r, s in zip(range(1, n + 1), signs) if s) for signs in product((0, 1), repeat=n)])
        k = 0
        while np.mean(v <= k) <= 0.05:
            k += 1
        assert k > 0
        line("paired_shift", [x, y], [np.median(walsh), walsh[k - 1], walsh[-k], 1 - 2 * np.mean(v <= k - 1)])


def stochastic() -> None:
    """P(X < Y) + P(X = Y)/2 counted, the standard error by Brunner and Munzel's statistic, its p."""
    for n, m, decimals in [(4, 4, 0), (6, 9, 0), (10, 8, 2), (30, 20, 0)]:
        x, y = group(n, decimals), group(m, decimals, 11)
        p = np.mean((x[:, None] < y) + 0.5 * (x[:, None] == y))
        found = stats.brunnermunzel(x, y)
        line("stochastic", [x, y], [p, (p - 0.5) / found.statistic, found.pvalue])


def bootstraps() -> None:
    """90 % BCa interval of the difference of means and medians, by 400,000 resamples; the jackknife's acceleration."""
    for n, m in [(6, 6), (10, 15), (30, 25)]:
        x, y = np.round(RNG.exponential(3, n), 2), np.round(RNG.exponential(4, m), 2)
        figures = []
        for statistic in (np.mean, np.median):
            found = stats.bootstrap(
                (x, y),
                lambda a, b, axis=-1: statistic(a, axis=axis) - statistic(b, axis=axis),  # noqa: B023
                n_resamples=400_000,
                batch=20_000,
                confidence_level=0.9,
                method="BCa",
                random_state=np.random.default_rng(5),
            )
            figures += [statistic(x) - statistic(y), *found.confidence_interval]
        line("bootstrap", [x, y], figures)


def variances() -> None:
    """F, p; H, p; Holm's p of all pairs by Welch."""
    for sizes, decimals in [((3, 3, 3), 2), ((5, 4, 6, 3), 0), ((10, 12), 1), ((6, 6, 6, 6, 6), 1)]:
        groups = [group(n, decimals, 10 + 0.7 * k) for k, n in enumerate(sizes)]
        f, h = stats.f_oneway(*groups), stats.kruskal(*groups)
        p = [stats.ttest_ind(a, b, equal_var=False).pvalue for a, b in combinations(groups, 2)]
        holm = multitest.multipletests(p, method="holm")[1]
        line("anova", groups, [f.statistic, f.pvalue, h.statistic, h.pvalue, *holm])


def covariances() -> None:
    """Rows x, y by group. Slope, its error, adjusted difference of the groups 0 and 1 with its error, residual degrees,
    mean of group 0 at x = 60 with its 95 % interval; F and p of equal slopes; difference at 60 with slopes of their own
    and its error."""
    for sizes in [(4, 4), (6, 8), (5, 4, 7)]:
        rows, frames = [], []
        for k, n in enumerate(sizes):
            x = np.round(RNG.uniform(20 + 5 * k, 80, n), 1)
            y = np.round(3 + 0.5 * k + 0.08 * x + RNG.normal(0, 0.6, n), 2)
            rows += [x, y]
            frames.append(pd.DataFrame({"x": x - 60, "y": y, "g": str(k)}))
        table = pd.concat(frames)
        common = smf.ols("y ~ C(g) + x", table).fit()
        own = smf.ols("y ~ C(g) * x", table).fit()
        f, p, _ = own.compare_f_test(common)
        ends = common.conf_int().loc["Intercept"]
        line(
            "ancova",
            rows,
            [
                common.params["x"],
                common.bse["x"],
                -common.params["C(g)[T.1]"],
                common.bse["C(g)[T.1]"],
                common.df_resid,
                common.params["Intercept"],
                *ends,
                f,
                p,
                -own.params["C(g)[T.1]"],
                own.bse["C(g)[T.1]"],
            ],
        )


def noncentral() -> None:
    """Degrees, noncentrality; t; P(T <= t) and P(T > t)."""
    for dof in (1, 2, 3.5, 8, 30, 250):
        for delta in (-2.0, 0.0, 0.7, 3.0, 8.0, 20.0):
            for t in (-3.0, 0.0, 1.3, 4.0, 10.0, 25.0):
                line("nct", [[dof, delta], [t]], [stats.nct.cdf(t, dof, delta), stats.nct.sf(t, dof, delta)])


def quantiles() -> None:
    """Quantiles of F; chances above of chi squared."""
    for a, b in [(1, 1), (1, 10), (3, 20), (5, 15), (5, 18.3), (12, 5), (2, 200), (40, 25.5), (500, 900)]:
        for p in (1e-4, 0.025, 0.05, 0.5, 0.9, 0.95, 0.975, 0.9999):
            line("f_quantile", [[p, a, b]], [stats.f.ppf(p, a, b)])
    for dof in (1, 2, 3, 7.5, 20, 100):
        for x in (0.01, 0.5, 1, 4, 20, 90, 150):
            line("chi_squared", [[x, dof]], [stats.chi2.sf(x, dof)])


def powers() -> None:
    """Samples a group, difference over standard deviation, one-sided level; power two-sided at twice it, and one-sided."""
    solve = power.TTestIndPower()
    for n in (2, 3, 5, 8, 20, 100):
        for d in (0.0, 0.3, 1.0, 2.0, 3.5):
            for level in (0.05, 0.025):
                two = solve.power(d, n, 2 * level, alternative="two-sided")
                one = solve.power(d, n, level, alternative="larger")
                line("power", [[n, d, level]], [two, one])
    for d in (0.5, 0.8, 1.0, 1.7):
        for want in (0.8, 0.9):
            two = solve.solve_power(d, None, 0.05, want, alternative="two-sided")
            one = solve.solve_power(d, None, 0.05, want, alternative="larger")
            line("size", [[d, want]], [two, one])
    for n, d, level in [(5, 1.0, 0.05), (10, 0.8, 0.05), (3, 2.5, 0.025)]:
        solve_one = power.TTestPower()
        line(
            "paired_power",
            [[n, d, level]],
            [
                solve_one.power(d, n, 2 * level, alternative="two-sided"),
                solve_one.power(d, n, level, alternative="larger"),
            ],
        )


def kappas() -> None:
    """By row of the table. Unweighted, linear, quadratic: kappa, its error, its error without agreement."""
    for k, n in [(2, 40), (3, 60), (5, 90), (6, 30)]:
        one = RNG.integers(0, k, n)
        two = np.clip(one + RNG.choice([-1, 0, 0, 0, 1], n), 0, k - 1)
        table = np.zeros((k, k))
        np.add.at(table, (one, two), 1)
        figures = []
        for weights in (None, "linear", "quadratic"):
            found = inter_rater.cohens_kappa(table, wt=weights)
            figures += [found.kappa, np.sqrt(found.var_kappa), np.sqrt(found.var_kappa0)]
        line("kappa", table, figures)
    for subjects, raters, k in [(6, 3, 3), (12, 5, 4), (9, 2, 2)]:
        table = np.array([RNG.multinomial(raters, RNG.dirichlet(np.ones(k) * 0.7)) for _ in range(subjects)])
        line("fleiss", table, [inter_rater.fleiss_kappa(table)])


def intraclass() -> None:
    """By subject, a sample a rater: the six forms of Shrout and Fleiss with 95 % intervals, rounded as pingouin does."""
    for n, k in [(5, 2), (8, 3), (12, 4)]:
        table = np.round(RNG.normal(6, 2, (n, 1)) + RNG.normal(0, 0.8, (1, k)) + RNG.normal(0, 1, (n, k)), 1)
        frame = pd.DataFrame(
            [(i, j, table[i, j]) for i in range(n) for j in range(k)],
            columns=["subject", "rater", "rating"],
        )
        found = pingouin.intraclass_corr(frame, targets="subject", raters="rater", ratings="rating")
        ends = np.vstack(found["CI95" if "CI95" in found else "CI95%"])
        line("icc", table, [*found["ICC"], *found["pval"], *ends.ravel()])


def alphas() -> None:
    """By rater, gaps nan: nominal, ordinal, interval, ratio."""
    for raters, units, most in [(2, 8, 3), (3, 10, 5), (4, 15, 6)]:
        truth = RNG.integers(1, most + 1, units)
        table = np.clip(truth + RNG.choice([-1, 0, 0, 0, 1], (raters, units)), 1, most).astype(float)
        table[RNG.random((raters, units)) < 0.15] = np.nan
        levels = ("nominal", "ordinal", "interval", "ratio")
        line("alpha", table, [krippendorff.alpha(table, level_of_measurement=level) for level in levels])


def shares() -> None:
    """x, n: Wilson and Clopper-Pearson at 95 %; with a second pair, Newcombe's difference."""
    pairs = [(0, 3), (1, 3), (3, 3), (2, 9), (17, 40), (40, 40), (5, 1000)]
    for x, n in pairs:
        ends = [end for how in ("wilson", "beta") for end in proportion.proportion_confint(x, n, 0.05, how)]
        line("share", [[x, n]], ends)
    for (x, n), (y, m) in combinations(pairs, 2):
        ends = proportion.confint_proportions_2indep(x, n, y, m, method="newcomb", compare="diff")
        line("newcombe", [[x, n], [y, m]], ends)


def main() -> None:
    """All of them, in this order: a case more at the end leaves those before as they were."""
    for part in (
        means,
        equivalence,
        permutations,
        ranks,
        signed_ranks,
        shifts,
        stochastic,
        bootstraps,
        variances,
        covariances,
        noncentral,
        quantiles,
        powers,
        kappas,
        intraclass,
        alphas,
        shares,
    ):
        part()


if __name__ == "__main__":
    main()
