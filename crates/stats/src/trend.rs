//! A straight trend through strays, and whether such an order could come about by chance.

use crate::{
    error::{StatsError, check_pairs, finite},
    robust::median,
    spread::sorted,
};

/// A straight line y = intercept + slope·x.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Units of y for each unit of x.
    pub slope: f64,
    /// y at x = 0, in the unit of y.
    pub intercept: f64,
}

/// Paired samples that may be compared with each other.
#[derive(Clone, Copy, Debug)]
pub struct Run<'a> {
    /// Where each sample was taken.
    pub x: &'a [f64],
    /// The samples.
    pub y: &'a [f64],
}

/// The Theil–Sen line through paired samples: nearly three tenths of them may stray without moving it far.
///
/// # Formula
///
/// ```text
/// slope     = median of (yⱼ − yᵢ)/(xⱼ − xᵢ) over all pairs with xᵢ < xⱼ
/// intercept = median y − slope·median x
/// ```
///
/// Cost: quadratic in the number of samples, in time and in memory.
///
/// # Errors
///
/// [`StatsError::Lengths`] when the rows do not pair, [`StatsError::TooFew`] under two pairs,
/// [`StatsError::NotFinite`], [`StatsError::NoSpread`] when all x are equal, [`StatsError::Overflow`].
///
/// # Source
///
/// H. Theil 1950; P. K. Sen, *Estimates of the regression coefficient based on Kendall's tau*, J. Am.
/// Stat. Assoc. 63 (1968). The intercept is that of W. J. Conover, *Practical nonparametric statistics*,
/// as in scipy.
pub fn theil_sen(x: &[f64], y: &[f64]) -> Result<Line, StatsError> {
    let slope = sen_slope(&[Run { x, y }])?;
    let intercept = finite("Theil–Sen intercept", median(y)? - slope * median(x)?)?;
    Ok(Line { slope, intercept })
}

/// The Theil–Sen slope common to several runs, in units of y for each unit of x: the runs may lie at
/// different heights, for only samples of one run are compared.
///
/// # Formula
///
/// ```text
/// slope = median of (yⱼ − yᵢ)/(xⱼ − xᵢ) over all pairs of one run with xᵢ < xⱼ
/// ```
///
/// Cost: quadratic in the number of samples, in time and in memory.
///
/// # Errors
///
/// As [`theil_sen`]; [`StatsError::TooFew`] when no run has two pairs.
///
/// # Source
///
/// R. M. Hirsch, J. R. Slack and R. A. Smith, *Techniques of trend analysis for monthly water quality
/// data*, Water Resources Research 18 (1982), with runs for seasons; held against scipy.
pub fn sen_slope(runs: &[Run<'_>]) -> Result<f64, StatsError> {
    let what = "Theil–Sen slope";
    let n = check_runs(what, runs)?;
    let mut slopes = Vec::new();
    for Run { x, y } in runs {
        for i in 0..x.len() {
            for j in 0..x.len() {
                if x[i] < x[j] {
                    slopes.push(finite(what, (y[j] - y[i]) / (x[j] - x[i]))?);
                }
            }
        }
    }
    if slopes.is_empty() {
        return Err(StatsError::NoSpread { what, row: "x", n });
    }
    median(&slopes)
}

/// How a p-value was worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PValue {
    /// By counting all orders.
    Exact,
    /// By the normal approximation with the variance corrected for ties.
    Normal,
}

/// Rank correlation with its two-sided p-value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kendall {
    /// Kendall's τ-b, −1 to 1: 1 when y rises wherever x does.
    pub tau: f64,
    /// The chance of a τ at least as far from 0 if the order of y had nothing to do with that of x.
    pub p: f64,
    /// How p was worked out.
    pub p_value: PValue,
}

/// Up to this many pairs p is exact where there are no ties.
pub const EXACT_UP_TO: usize = 40;

/// Kendall's rank correlation τ-b of paired samples: that of [`kendall_of_runs`] with a single run.
///
/// # Errors
///
/// [`StatsError::Lengths`] when the rows do not pair, [`StatsError::TooFew`] under two pairs,
/// [`StatsError::NotFinite`], [`StatsError::NoSpread`] when all x or all y are equal.
pub fn kendall(x: &[f64], y: &[f64]) -> Result<Kendall, StatsError> {
    kendall_of_runs(&[Run { x, y }])
}

/// Kendall's rank correlation τ-b common to several runs, of which only samples of one run are compared.
///
/// # Formula
///
/// ```text
/// τ = Σ (C − D) / √( Σ (N − Tx) · Σ (N − Ty) )        sums over the runs
///
/// C, D    pairs of a run in which x and y go the same way, and opposite ways
/// N       n(n − 1)/2 pairs of a run in all
/// Tx, Ty  pairs tied in x, in y
///
/// 40 samples or fewer, and in no run ties in both x and y:
///         p = min(1, 2·P(K ≤ min(ΣC, ΣD))),  K the inversions of random orders of the runs, summed.
///         K is a sum of independent parts, one for each group of t equal samples joining the m before:
///         P(m, t; k) = m/(m+t)·P(m−1, t; k−t) + t/(m+t)·P(m, t−1; k),  P(0, t; 0) = P(m, 0; 0) = 1
///
/// else:   p = erfc(|ΣC − ΣD|/√(2·Σv)),
///         v = (n(n−1)(2n+5) − Σ t(t−1)(2t+5) − Σ u(u−1)(2u+5))/18
///             + Σ t(t−1)(t−2)·Σ u(u−1)(u−2)/(9n(n−1)(n−2))
///             + Σ t(t−1)·Σ u(u−1)/(2n(n−1))
///         t, u the sizes of the groups tied in x, in y; no continuity correction
/// ```
///
/// For a group of one sample the recurrence is the count of inversions, 1/(m+1) for each of 0 … m; for a
/// larger one it is the distribution of the Mann–Whitney U. With few samples the second p is rough: without
/// ties it would be 0.33 instead of 0.48 for five samples and C − D = 4.
/// Cost: quadratic in the number of samples, and for the first p to the fourth power of at most 40.
///
/// # Errors
///
/// As [`kendall`]; [`StatsError::TooFew`] when no run has two pairs, [`StatsError::NoSpread`] when within
/// every run all x, or all y, are equal.
///
/// # Source
///
/// M. G. Kendall, *Rank correlation methods*, 4th edition 1970 (from memory), held against scipy; with ties
/// in one row, held against counting all orders. Several runs: Hirsch, Slack and Smith 1982, as in
/// [`sen_slope`], held against counting all orders.
pub fn kendall_of_runs(runs: &[Run<'_>]) -> Result<Kendall, StatsError> {
    let what = "rank correlation";
    let n = check_runs(what, runs)?;
    let mut sums = Sums::NONE;
    for run in runs {
        sums.add(*run);
    }
    for (row, untied) in [("x", sums.untied_x), ("y", sums.untied_y)] {
        if untied <= 0.0 {
            return Err(StatsError::NoSpread { what, row, n });
        }
    }
    let difference = sums.same as f64 - sums.opposite as f64;
    let tau = difference / sums.untied_x.sqrt() / sums.untied_y.sqrt();
    let (p, p_value) = if sums.countable && n <= EXACT_UP_TO {
        let p = exact_p(&sums.groups, sums.same.min(sums.opposite));
        (p, PValue::Exact)
    } else {
        let scaled = difference.abs() / (2.0 * sums.variance).sqrt();
        (libm::erfc(scaled), PValue::Normal)
    };
    Ok(Kendall {
        tau: tau.clamp(-1.0, 1.0),
        p,
        p_value,
    })
}

/// Refuses rows that do not pair, samples that are not finite, and runs without a pair of samples; gives
/// the number of samples in all.
fn check_runs(what: &'static str, runs: &[Run<'_>]) -> Result<usize, StatsError> {
    for run in runs {
        check_pairs(what, run.x, run.y, 0)?;
    }
    let longest = runs.iter().map(|run| run.x.len()).max().unwrap_or(0);
    if longest < 2 {
        return Err(StatsError::TooFew {
            what,
            got: longest,
            least: 2,
        });
    }
    Ok(runs.iter().map(|run| run.x.len()).sum())
}

/// What τ and its p-value are made of, summed over the runs.
struct Sums {
    /// Pairs that go the same way in both rows.
    same: usize,
    /// Pairs that go opposite ways.
    opposite: usize,
    /// Pairs not tied in x.
    untied_x: f64,
    /// Pairs not tied in y.
    untied_y: f64,
    /// Whether every run has ties in one row at most, so that its orders can be counted.
    countable: bool,
    /// By run: the sizes of the groups of equal samples in the row that has any.
    groups: Vec<Vec<usize>>,
    /// The variance of same − opposite if the orders had nothing to do with each other.
    variance: f64,
}

impl Sums {
    const NONE: Self = Self {
        same: 0,
        opposite: 0,
        untied_x: 0.0,
        untied_y: 0.0,
        countable: true,
        groups: Vec::new(),
        variance: 0.0,
    };

    fn add(&mut self, Run { x, y }: Run<'_>) {
        for i in 0..x.len() {
            for j in 0..i {
                let (up_x, down_x) = (x[i] > x[j], x[i] < x[j]);
                let (up_y, down_y) = (y[i] > y[j], y[i] < y[j]);
                self.same += usize::from((up_x && up_y) || (down_x && down_y));
                self.opposite += usize::from((up_x && down_y) || (down_x && up_y));
            }
        }
        let (tied_x, tied_y) = (Ties::of(x), Ties::of(y));
        let n = x.len() as f64;
        let all = n * (n - 1.0) / 2.0;
        self.untied_x += all - tied_x.pairs;
        self.untied_y += all - tied_y.pairs;
        self.variance += variance(n, &tied_x, &tied_y);
        self.countable &= tied_x.pairs <= 0.0 || tied_y.pairs <= 0.0;
        self.groups.push(if tied_x.pairs > 0.0 {
            tied_x.groups
        } else {
            tied_y.groups
        });
    }
}

/// Twice the chance that random orders of runs, made of groups of equal samples of these sizes, have at
/// most `k` inversions; 1 at most.
fn exact_p(runs: &[Vec<usize>], k: usize) -> f64 {
    let mut chances = vec![1.0];
    for groups in runs {
        let mut before = 0;
        for &group in groups {
            chances = convolve(&chances, &joining(before, group));
            before += group;
        }
    }
    let tail: f64 = chances.iter().take(k + 1).sum();
    (2.0 * tail).min(1.0)
}

/// The chance of each number of inversions between `m` samples and a group of `t` equal ones among them.
pub(crate) fn joining(m: usize, t: usize) -> Vec<f64> {
    if t == 1 {
        return vec![1.0 / (m + 1) as f64; m + 1];
    }
    // By group size up to t, for the samples taken so far.
    let mut chances = vec![vec![1.0]; t + 1];
    for a in 1..=m {
        for b in 1..=t {
            // The last in order is one of the a, and behind all of the group, or one of the group.
            let behind = a as f64 / (a + b) as f64;
            let mut next = vec![0.0; a * b + 1];
            for (k, chance) in chances[b].iter().enumerate() {
                next[k + b] += behind * chance;
            }
            for (k, chance) in chances[b - 1].iter().enumerate() {
                next[k] += (1.0 - behind) * chance;
            }
            chances[b] = next;
        }
    }
    chances.swap_remove(t)
}

fn convolve(one: &[f64], two: &[f64]) -> Vec<f64> {
    let mut sum = vec![0.0; one.len() + two.len() - 1];
    for (i, a) in one.iter().enumerate() {
        for (j, b) in two.iter().enumerate() {
            sum[i + j] += a * b;
        }
    }
    sum
}

/// The groups of equal samples in a row, and what the normal approximation needs of them.
#[derive(Default)]
struct Ties {
    /// Their sizes, from the least sample up.
    groups: Vec<usize>,
    /// Tied pairs: Σ t(t−1)/2.
    pairs: f64,
    /// Σ t(t−1)(t−2).
    triples: f64,
    /// Σ t(t−1)(2t+5).
    spread: f64,
}

impl Ties {
    fn of(samples: &[f64]) -> Self {
        let mut ties = Self::default();
        // In order, so a sample that is not below the next is equal to it.
        for group in sorted(samples).chunk_by(|a, b| a >= b) {
            ties.groups.push(group.len());
            let t = group.len() as f64;
            ties.pairs += t * (t - 1.0) / 2.0;
            ties.triples += t * (t - 1.0) * (t - 2.0);
            ties.spread += t * (t - 1.0) * (2.0 * t + 5.0);
        }
        ties
    }
}

/// The variance of C − D in one run of n if the orders had nothing to do with each other.
fn variance(n: f64, x: &Ties, y: &Ties) -> f64 {
    if n < 2.0 {
        return 0.0;
    }
    let ordered = n * (n - 1.0);
    let triples = if n > 2.0 {
        x.triples * y.triples / (9.0 * ordered * (n - 2.0))
    } else {
        0.0
    };
    (ordered * (2.0 * n + 5.0) - x.spread - y.spread) / 18.0
        + triples
        + 2.0 * x.pairs * y.pairs / ordered
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn close(got: f64, want: f64, within: f64) {
        assert!((got - want).abs() <= within, "got {got}, want {want}");
    }

    fn up_to(n: i32) -> Vec<f64> {
        (1..=n).map(f64::from).collect()
    }

    /// One stray among five points of y = 1 + 2x leaves the slope; by hand the ten pairwise slopes are
    /// 2 six times and −22, −10, −6, −4 (to the stray), of which the median is 2; median y is 5, median x 3.
    #[test]
    fn a_stray_does_not_move_the_line() {
        let line = theil_sen(&[1.0, 2.0, 3.0, 4.0, 5.0], &[3.0, 5.0, 7.0, 9.0, -13.0]).unwrap();
        close(line.slope, 2.0, 0.0);
        close(line.intercept, 5.0 - 2.0 * 3.0, 0.0);
    }

    /// The two-sided p of the extreme order is 2/n!, by counting.
    #[test]
    fn rising_throughout_has_the_smallest_p() {
        for (n, orders) in [(2, 2.0), (3, 6.0), (4, 24.0), (5, 120.0), (6, 720.0)] {
            let rising = up_to(n);
            let falling: Vec<f64> = rising.iter().map(|x| -x).collect();
            let up = kendall(&rising, &rising).unwrap();
            let down = kendall(&rising, &falling).unwrap();
            close(up.tau, 1.0, 1e-15);
            close(down.tau, -1.0, 1e-15);
            close(up.p, 2.0 / orders, 1e-15);
            close(down.p, 2.0 / orders, 1e-15);
            assert_eq!(up.p_value, PValue::Exact);
        }
    }

    /// How many orders of n have k inversions, k = 0, 1, 2 …: the triangle of Mahonian numbers
    /// (OEIS A008302, rows 4 to 6).
    #[test]
    fn inversions_are_counted() {
        let rows: [(usize, &[f64]); 3] = [
            (4, &[1.0, 3.0, 5.0, 6.0, 5.0, 3.0, 1.0]),
            (
                5,
                &[1.0, 4.0, 9.0, 15.0, 20.0, 22.0, 20.0, 15.0, 9.0, 4.0, 1.0],
            ),
            (
                6,
                &[
                    1.0, 5.0, 14.0, 29.0, 49.0, 71.0, 90.0, 101.0, 101.0, 90.0, 71.0, 49.0, 29.0,
                    14.0, 5.0, 1.0,
                ],
            ),
        ];
        for (n, row) in rows {
            let orders: f64 = row.iter().sum();
            for k in 0..row.len() {
                let tail: f64 = row.iter().take(k + 1).sum();
                close(
                    exact_p(&[vec![1; n]], k),
                    (2.0 * tail / orders).min(1.0),
                    1e-14,
                );
            }
        }
    }

    /// M. Hollander and D. A. Wolfe, *Nonparametric statistical methods*, 1973, p. 185: nine lots of
    /// tuna, Hunter L value against a panel's score; T = 26, p = 0.1194 (as R's `cor.test` prints it;
    /// from memory). τ = (26 − 10)/36.
    #[test]
    fn nine_lots_of_tuna() {
        let lightness = [44.4, 45.9, 41.9, 53.3, 44.7, 44.1, 50.7, 45.2, 60.1];
        let panel = [2.6, 3.1, 2.5, 5.0, 3.6, 4.0, 5.2, 2.8, 3.8];
        let found = kendall(&lightness, &panel).unwrap();
        close(found.tau, 16.0 / 36.0, 1e-15);
        close(found.p, 0.1194, 5e-5);
    }

    /// By counting: of the 10 ways to put two bad ones among five, one puts both at the rear and one both
    /// at the front.
    #[test]
    fn ties_in_one_row_are_counted() {
        let places = up_to(5);
        let found = kendall(&places, &[9.0, 9.0, 9.0, 7.5, 7.5]).unwrap();
        close(found.p, 2.0 / 10.0, 1e-15);
        assert_eq!(found.p_value, PValue::Exact);
        // Both ways round, as x and y play the same part.
        let turned = kendall(&[9.0, 9.0, 9.0, 7.5, 7.5], &places).unwrap();
        close(turned.p, 2.0 / 10.0, 1e-15);
    }

    /// By counting: two runs of two rise together in one of 2!·2! orders, and so do they fall.
    #[test]
    fn runs_are_counted_together() {
        let runs = [
            Run {
                x: &[1.0, 2.0],
                y: &[1.0, 2.0],
            },
            Run {
                x: &[1.0, 2.0],
                y: &[8.0, 9.0],
            },
        ];
        let found = kendall_of_runs(&runs).unwrap();
        close(found.tau, 1.0, 1e-15);
        close(found.p, 2.0 / 4.0, 1e-15);
        close(sen_slope(&runs).unwrap(), 1.0, 1e-15);
    }

    /// Two flat runs at different heights have no slope, though a line through all would.
    #[test]
    fn a_step_between_runs_is_no_trend() {
        let runs = [
            Run {
                x: &[1.0, 2.0, 3.0],
                y: &[9.0, 9.0, 9.0],
            },
            Run {
                x: &[3.0, 4.0],
                y: &[5.0, 5.0],
            },
            Run {
                x: &[5.0],
                y: &[1.0],
            },
        ];
        close(sen_slope(&runs).unwrap(), 0.0, 0.0);
        assert!(kendall_of_runs(&runs).is_err());
    }

    #[test]
    fn ties_in_both_rows_and_many_samples_take_the_normal_approximation() {
        let tied = kendall(&[1.0, 2.0, 2.0, 3.0], &[1.0, 3.0, 3.0, 4.0]).unwrap();
        assert_eq!(tied.p_value, PValue::Normal);
        let many = up_to(41);
        assert_eq!(kendall(&many, &many).unwrap().p_value, PValue::Normal);
    }

    #[test]
    fn refusals_name_what_was_wrong() {
        let flat = kendall(&[1.0, 2.0, 3.0], &[4.0; 3]).unwrap_err();
        assert_eq!(
            flat.to_string(),
            "all 3 samples of y are equal, so the rank correlation is not defined"
        );
        let upright = theil_sen(&[1.0; 3], &[1.0, 2.0, 3.0]).unwrap_err();
        assert_eq!(
            upright.to_string(),
            "all 3 samples of x are equal, so the Theil–Sen slope is not defined"
        );
        assert!(kendall(&[], &[]).is_err());
        assert!(kendall_of_runs(&[]).is_err());
        let lone = Run {
            x: &[1.0],
            y: &[1.0],
        };
        assert_eq!(
            sen_slope(&[lone, lone]).unwrap_err().to_string(),
            "the Theil–Sen slope takes at least 2 samples, got 1"
        );
        assert!(kendall(&[1.0, f64::NAN], &[1.0, 2.0]).is_err());
        assert!(theil_sen(&[1.0, 2.0], &[1.0]).is_err());
        assert!(theil_sen(&[0.0, f64::MIN_POSITIVE], &[0.0, f64::MAX]).is_err());
    }
}
