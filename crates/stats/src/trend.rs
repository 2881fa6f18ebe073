//! A straight trend through strays, and whether such an order could come about by chance.

use crate::{
    error::{StatsError, check_pairs, finite},
    robust::median,
};

/// A straight line y = intercept + slope·x.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Units of y for each unit of x.
    pub slope: f64,
    /// y at x = 0, in the unit of y.
    pub intercept: f64,
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
    check_pairs("Theil–Sen slope", x, y, 2)?;
    let mut slopes = Vec::with_capacity(x.len() * (x.len() - 1) / 2);
    for i in 0..x.len() {
        for j in 0..x.len() {
            if x[i] < x[j] {
                slopes.push(finite("Theil–Sen slope", (y[j] - y[i]) / (x[j] - x[i]))?);
            }
        }
    }
    if slopes.is_empty() {
        return Err(StatsError::NoSpread {
            what: "Theil–Sen slope",
            row: "x",
            n: x.len(),
        });
    }
    let slope = median(&slopes)?;
    let intercept = finite("Theil–Sen intercept", median(y)? - slope * median(x)?)?;
    Ok(Line { slope, intercept })
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

/// Kendall's rank correlation τ-b of paired samples.
///
/// # Formula
///
/// ```text
/// τ = (C − D) / √((N − Tx)(N − Ty))
///
/// C, D    pairs in which x and y go the same way, and opposite ways
/// N       n(n − 1)/2 pairs in all
/// Tx, Ty  pairs tied in x, in y
///
/// no ties and n ≤ 40:  p = min(1, 2·P(K ≤ min(C, D))),  K the inversions of a random order:
///                      Pₙ(K = k) = Σⱼ Pₙ₋₁(K = k − j)/n,  j = 0 … n − 1
///
/// else:                p = erfc(|C − D|/√(2v)),
///                      v = (n(n−1)(2n+5) − Σ t(t−1)(2t+5) − Σ u(u−1)(2u+5))/18
///                          + Σ t(t−1)(t−2)·Σ u(u−1)(u−2)/(9n(n−1)(n−2))
///                          + Σ t(t−1)·Σ u(u−1)/(2n(n−1))
///                      t, u the sizes of the groups tied in x, in y; no continuity correction
/// ```
///
/// With few samples and ties the second p is rough: at n = 5 it may be off by several hundredths.
/// Cost: quadratic in the number of samples.
///
/// # Errors
///
/// [`StatsError::Lengths`] when the rows do not pair, [`StatsError::TooFew`] under two pairs,
/// [`StatsError::NotFinite`], [`StatsError::NoSpread`] when all x or all y are equal.
///
/// # Source
///
/// M. G. Kendall, *Rank correlation methods*, 4th edition 1970 (from memory); held against scipy.
pub fn kendall(x: &[f64], y: &[f64]) -> Result<Kendall, StatsError> {
    check_pairs("rank correlation", x, y, 2)?;
    let (tied_x, tied_y) = (Ties::of(x), Ties::of(y));
    let n = x.len() as f64;
    let all = n * (n - 1.0) / 2.0;
    for (row, ties) in [("x", &tied_x), ("y", &tied_y)] {
        if ties.pairs >= all {
            return Err(StatsError::NoSpread {
                what: "rank correlation",
                row,
                n: x.len(),
            });
        }
    }
    let (same, opposite) = count_pairs(x, y);
    let difference = same as f64 - opposite as f64;
    let tau = difference / (all - tied_x.pairs).sqrt() / (all - tied_y.pairs).sqrt();
    let untied = tied_x.pairs + tied_y.pairs <= 0.0;
    let (p, p_value) = if untied && x.len() <= EXACT_UP_TO {
        (exact_p(x.len(), same.min(opposite)), PValue::Exact)
    } else {
        let v = variance(n, &tied_x, &tied_y);
        (
            libm::erfc(difference.abs() / (2.0 * v).sqrt()),
            PValue::Normal,
        )
    };
    Ok(Kendall {
        tau: tau.clamp(-1.0, 1.0),
        p,
        p_value,
    })
}

/// Pairs that go the same way in both rows, and opposite ways; pairs tied in either are neither.
fn count_pairs(x: &[f64], y: &[f64]) -> (usize, usize) {
    let (mut same, mut opposite) = (0, 0);
    for i in 0..x.len() {
        for j in 0..i {
            let (up_x, down_x) = (x[i] > x[j], x[i] < x[j]);
            let (up_y, down_y) = (y[i] > y[j], y[i] < y[j]);
            same += usize::from((up_x && up_y) || (down_x && down_y));
            opposite += usize::from((up_x && down_y) || (down_x && up_y));
        }
    }
    (same, opposite)
}

/// Twice the chance that a random order of n has at most `k` inversions, 1 at most.
fn exact_p(n: usize, k: usize) -> f64 {
    let mut chances = vec![1.0];
    for m in 2..=n {
        let most = m * (m - 1) / 2;
        let mut next = vec![0.0; most + 1];
        for (inversions, chance) in chances.iter().enumerate() {
            for more in 0..m {
                next[inversions + more] += chance / m as f64;
            }
        }
        chances = next;
    }
    let tail: f64 = chances.iter().take(k + 1).sum();
    (2.0 * tail).min(1.0)
}

/// What the normal approximation needs of the groups of equal samples in a row.
struct Ties {
    /// Tied pairs: Σ t(t−1)/2.
    pairs: f64,
    /// Σ t(t−1)(t−2).
    triples: f64,
    /// Σ t(t−1)(2t+5).
    spread: f64,
}

impl Ties {
    fn of(samples: &[f64]) -> Self {
        let sorted = crate::spread::sorted(samples);
        let mut ties = Self {
            pairs: 0.0,
            triples: 0.0,
            spread: 0.0,
        };
        for group in sorted.chunk_by(|a, b| a >= b) {
            let t = group.len() as f64;
            ties.pairs += t * (t - 1.0) / 2.0;
            ties.triples += t * (t - 1.0) * (t - 2.0);
            ties.spread += t * (t - 1.0) * (2.0 * t + 5.0);
        }
        ties
    }
}

/// The variance of C − D if the orders had nothing to do with each other.
fn variance(n: f64, x: &Ties, y: &Ties) -> f64 {
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
                close(exact_p(n, k), (2.0 * tail / orders).min(1.0), 1e-14);
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

    #[test]
    fn ties_and_many_samples_take_the_normal_approximation() {
        let tied = kendall(&[1.0, 2.0, 2.0, 3.0], &[1.0, 3.0, 2.0, 4.0]).unwrap();
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
        assert!(kendall(&[1.0, f64::NAN], &[1.0, 2.0]).is_err());
        assert!(theil_sen(&[1.0, 2.0], &[1.0]).is_err());
        assert!(theil_sen(&[0.0, f64::MIN_POSITIVE], &[0.0, f64::MAX]).is_err());
    }
}
