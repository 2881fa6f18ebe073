//! Trends common to several runs: the slope against scipy's seasonal slope, p against all orders counted out.

#![allow(
    clippy::unwrap_used,
    reason = "a figure that cannot be worked out fails the test"
)]
#![allow(
    clippy::unreadable_literal,
    clippy::excessive_precision,
    reason = "figures stand as the script printed them"
)]

use ringland_stats::trend::{Run, kendall_of_runs, sen_slope};

struct Runs {
    /// Samples at x = 1, 2, 3 … of each run.
    y: &'static [&'static [f64]],
    /// Slope, τ-b, p.
    figures: [f64; 3],
}

#[test]
fn agrees_with_scipy_and_with_counting() {
    let x: Vec<f64> = (1..=6).map(f64::from).collect();
    for (number, case) in CASES.iter().enumerate() {
        let runs: Vec<Run<'_>> = case
            .y
            .iter()
            .map(|y| Run {
                x: &x[..y.len()],
                y,
            })
            .collect();
        let rank = kendall_of_runs(&runs).unwrap();
        let got = [sen_slope(&runs).unwrap(), rank.tau, rank.p];
        for (got, want) in got.into_iter().zip(case.figures) {
            assert!(
                (got - want).abs() < 1e-12,
                "case {number}: got {got}, want {want}"
            );
        }
    }
}

// Written by this script, with scipy 1.17.1 and numpy 2.4.6:
//
// ```python
// from itertools import permutations
// from math import sqrt
//
// import numpy as np
// from scipy.stats import mstats
//
// rng = np.random.default_rng(4)
//
// def s_of(x, y):
//     """Concordant less discordant pairs."""
//     return sum(np.sign(x[j] - x[i]) * np.sign(y[j] - y[i]) for i in range(len(x)) for j in range(i))
//
// def case(sizes, decimals):
//     runs = [(np.arange(1.0, n + 1), np.round(rng.normal(5, 2, n) + 0.4 * np.arange(n), decimals)) for n in sizes]
//     # The slope: scipy takes seasons as columns of one table, with gaps masked.
//     table = np.ma.masked_all((max(sizes), len(sizes)))
//     for k, (x, y) in enumerate(runs):
//         table[: len(y), k] = y
//     slope = mstats.sen_seasonal_slopes(table)[1]
//     # S over all orders of each run, counted out.
//     s = sum(s_of(x, y) for x, y in runs)
//     orders = [[s_of(x, np.array(p)) for p in permutations(y)] for x, y in runs]
//     pairs_y = sum(abs(np.sign(y[j] - y[i])) for _, y in runs for i in range(len(y)) for j in range(i))
//     pairs_x = sum(n * (n - 1) / 2 for n in sizes)
//     all_s = orders[0]
//     for one in orders[1:]:
//         all_s = np.add.outer(all_s, one).ravel()
//     p = np.mean(np.abs(all_s) >= abs(s))
//     row = lambda values: "&[" + ", ".join(repr(float(v)) for v in values) + "]"
//     print("    Runs { y: &[" + ", ".join(row(y) for _, y in runs) + "], "
//           f"figures: [{float(slope)!r}, {float(s / sqrt(pairs_x * pairs_y))!r}, {float(p)!r}] }},")
//
// for sizes in [(4, 4), (5, 3), (2, 4), (3, 3, 2), (5, 5)]:
//     case(sizes, 2)
// for sizes in [(4, 4), (5, 4), (2, 6), (3, 5)]:
//     case(sizes, 0)
// ```
#[rustfmt::skip]
const CASES: [Runs; 9] = [
    Runs { y: &[&[3.7, 5.05, 9.13, 7.52], &[1.72, 5.39, 4.55, 6.5]], figures: [1.3824999999999998, 0.6666666666666666, 0.09027777777777778] },
    Runs { y: &[&[1.78, 5.88, 6.27, 9.35, 7.23], &[6.02, 2.41, 10.31]], figures: [1.7349999999999999, 0.6923076923076923, 0.07222222222222222] },
    Runs { y: &[&[1.17, 7.6], &[4.34, 3.64, 4.49, 4.86]], figures: [0.3700000000000001, 0.7142857142857143, 0.20833333333333334] },
    Runs { y: &[&[5.76, 5.18, 8.77], &[1.34, 5.39, 4.02], &[6.55, 1.16]], figures: [1.3399999999999999, 0.14285714285714285, 1.0] },
    Runs { y: &[&[4.31, 5.82, 2.83, 8.17, 6.96], &[7.01, 7.32, 3.84, 4.6, 6.19]], figures: [0.3450000000000002, 0.1, 0.8659722222222223] },
    Runs { y: &[&[6.0, 7.0, 4.0, 5.0], &[3.0, 4.0, 5.0, 6.0]], figures: [1.0, 0.3333333333333333, 0.4826388888888889] },
    Runs { y: &[&[9.0, 4.0, 5.0, 7.0, 5.0], &[4.0, 5.0, 7.0, 4.0]], figures: [0.0, 0.0, 1.0] },
    Runs { y: &[&[8.0, 5.0], &[5.0, 7.0, 7.0, 8.0, 7.0, 7.0]], figures: [0.0, 0.31622776601683794, 0.5333333333333333] },
    Runs { y: &[&[6.0, 3.0, 8.0], &[3.0, 3.0, 10.0, 6.0, 4.0]], figures: [0.3333333333333333, 0.32025630761017426, 0.5111111111111111] },
];
