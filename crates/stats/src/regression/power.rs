//! A power law y = a·xᵇ by least squares on y itself.
//!
//! Not by a line through the logarithms: the scatter of a gauge is of one size on y, not on ln y; a
//! reading at or below 0 has no logarithm; and only on one scale of y can the law be held against a
//! straight line. For a given exponent the best factor is known in closed form, so the search is along
//! the exponent alone.

use crate::{
    confidence::{Confidence, Dof, Interval},
    distribution::two_sided_factor,
    error::{StatsError, check_pairs, finite},
};

/// The exponents searched.
pub const EXPONENTS: Interval = Interval {
    low: 0.05,
    high: 20.0,
};

/// Steps of the first search, even in ln b.
const STEPS: usize = 120;
/// Halvings of the last bracket: more than an `f64` has digits.
const HALVINGS: usize = 80;

/// A power law y = a·xᵇ through paired samples.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PowerFit {
    /// Pairs of samples.
    pub n: usize,
    /// a: y at x = 1.
    pub factor: f64,
    /// Its standard error.
    pub se_factor: f64,
    /// b: 1 is a straight line through (0, 0), below 1 the curve flattens.
    pub exponent: f64,
    /// Its standard error.
    pub se_exponent: f64,
    /// s: the standard deviation of y about the curve, in the unit of y.
    pub residual_sd: f64,
    /// The degrees of freedom of s: n − 2.
    pub dof: Dof,
    /// The sum of squares left over, in the unit of y squared.
    pub residual_squares: f64,
    scaled: Scaled,
}

/// Fits a power law.
///
/// # Formula
///
/// ```text
/// z = x/x_max        A(b) = Σ yᵢzᵢᵇ/Σ zᵢ²ᵇ        a = A·x_max⁻ᵇ
/// b  the root of Σ rᵢ·zᵢᵇ·ln zᵢ, rᵢ = yᵢ − A(b)·zᵢᵇ, beside the best of 121 exponents
/// s² = Σ rᵢ²/(n − 2)
/// V  = s²·(JᵀJ)⁻¹ of (A, b), J the rows (zᵢᵇ, A·zᵢᵇ·ln zᵢ)
/// ```
///
/// Standard errors are those of the curve's tangent (the usual ones of nonlinear least squares).
///
/// # Errors
///
/// [`StatsError::Lengths`] when the rows do not pair, [`StatsError::TooFew`] under three pairs,
/// [`StatsError::NotFinite`], [`StatsError::OutOfRange`] for an x below 0, [`StatsError::NoSpread`] when
/// fewer than two x above 0 differ, [`StatsError::NoBestFit`] where no exponent in [`EXPONENTS`] fits better than
/// those at its ends, [`StatsError::Overflow`].
///
/// # Source
///
/// G. H. Golub and V. Pereyra, *The differentiation of pseudo-inverses and nonlinear least squares
/// problems whose variables separate*, SIAM J. Numer. Anal. 10 (1973); held against scipy `curve_fit`.
pub fn fit_power(x: &[f64], y: &[f64]) -> Result<PowerFit, StatsError> {
    let what = "power law";
    check_pairs(what, x, y, 3)?;
    if let Some(&given) = x.iter().find(|x| **x < 0.0) {
        return Err(StatsError::OutOfRange {
            what: "x of a power law",
            given,
            low: 0.0,
            high: f64::INFINITY,
        });
    }
    let x_max = x.iter().copied().fold(0.0, f64::max);
    let logs: Vec<Option<f64>> = x
        .iter()
        .map(|x| (*x > 0.0).then(|| libm::log(x / x_max)))
        .collect();
    let mut known = logs.iter().flatten();
    let differ = known
        .next()
        .is_some_and(|first| known.any(|other| (other - first).abs() > 0.0));
    if !differ {
        return Err(StatsError::NoSpread {
            what,
            row: "x",
            n: x.len(),
        });
    }
    let samples = Samples { logs: &logs, y };
    let exponent = best_exponent(&samples)?;
    let Sides { factor, left, .. } = samples.sides(exponent)?;
    let Some(dof) = Dof::left(x.len(), 2) else {
        return Err(StatsError::TooFew {
            what,
            got: x.len(),
            least: 3,
        });
    };
    let scaled = Scaled {
        x_max,
        factor,
        exponent,
        covariance: covariance(&samples, factor, exponent, left / dof.get())?,
    };
    let [[_, _], [_, of_exponent]] = scaled.covariance;
    let shrunk = libm::pow(x_max, -exponent);
    // a = A·x_max⁻ᵇ, so da = x_max⁻ᵇ·(dA − A·ln x_max·db).
    let of_factor = scaled.variance_along([1.0, -factor * libm::log(x_max)]);
    Ok(PowerFit {
        n: x.len(),
        factor: finite(what, factor * shrunk)?,
        se_factor: finite(what, of_factor.sqrt() * shrunk)?,
        exponent,
        se_exponent: of_exponent.sqrt(),
        residual_sd: (left / dof.get()).sqrt(),
        dof,
        residual_squares: left,
        scaled,
    })
}

impl PowerFit {
    /// y on the curve; x at or above 0.
    pub fn at(&self, x: f64) -> f64 {
        self.scaled.factor * self.scaled.power(x)
    }

    /// The standard error of the curve at x.
    pub fn se_at(&self, x: f64) -> f64 {
        let power = self.scaled.power(x);
        let log = if x > 0.0 {
            libm::log(x / self.scaled.x_max)
        } else {
            0.0
        };
        self.scaled
            .variance_along([power, self.scaled.factor * power * log])
            .sqrt()
    }

    /// Between which values the curve runs at x.
    ///
    /// # Errors
    ///
    /// [`StatsError::Overflow`].
    pub fn band(&self, x: f64, confidence: Confidence) -> Result<Interval, StatsError> {
        let k = two_sided_factor(confidence, self.dof)?;
        Interval::around("confidence band", self.at(x), k * self.se_at(x))
    }

    /// Between which values one more sample at x is to be expected.
    ///
    /// # Errors
    ///
    /// [`StatsError::Overflow`].
    pub fn prediction(&self, x: f64, confidence: Confidence) -> Result<Interval, StatsError> {
        let k = two_sided_factor(confidence, self.dof)?;
        let half = k * libm::hypot(self.residual_sd, self.se_at(x));
        Interval::around("prediction interval", self.at(x), half)
    }

    /// Between which values the exponent lies.
    ///
    /// # Errors
    ///
    /// [`StatsError::Overflow`].
    pub fn exponent_interval(&self, confidence: Confidence) -> Result<Interval, StatsError> {
        let k = two_sided_factor(confidence, self.dof)?;
        Interval::around("exponent", self.exponent, k * self.se_exponent)
    }

    /// The x at which the curve is at a level; none for a level that it never has.
    pub fn reaches(&self, level: f64) -> Option<f64> {
        let log = self.log_at(level)?;
        let x = self.scaled.x_max * libm::exp(log);
        x.is_finite().then_some(x)
    }

    /// Between which x the curve may be at a level; none for a level that it never has.
    ///
    /// # Formula
    ///
    /// ```text
    /// w = ln z = (ln y − ln A)/b        u²(w) = (u²(A)/A² + w²·u²(b) + 2w·u(A, b)/A)/b²
    /// x = x_max·exp(w ± k·u(w))
    /// ```
    ///
    /// On the logarithm, as that is where the x of a power law scatters evenly. It is the tangent's
    /// interval: rough where the exponent is known badly.
    ///
    /// # Errors
    ///
    /// [`StatsError::Overflow`].
    pub fn may_reach(&self, level: f64, factor: f64) -> Result<Option<Interval>, StatsError> {
        let Some(log) = self.log_at(level) else {
            return Ok(None);
        };
        let half = factor * self.u_of_log(log);
        let what = "x of a power law";
        let x = |log: f64| finite(what, self.scaled.x_max * libm::exp(log));
        Ok(Some(Interval {
            low: x(log - half)?,
            high: x(log + half)?,
        }))
    }

    /// The lower end of [`PowerFit::may_reach`]; none for a level that the curve never has.
    pub fn lowest_reach(&self, level: f64, factor: f64) -> Option<f64> {
        let log = self.log_at(level)?;
        let x = self.scaled.x_max * libm::exp(log - factor * self.u_of_log(log));
        x.is_finite().then_some(x)
    }

    /// u(w).
    fn u_of_log(&self, log: f64) -> f64 {
        let [[of_a, of_ab], [_, of_b]] = self.scaled.covariance;
        let a = self.scaled.factor;
        let variance = of_a / a / a + log * log * of_b + 2.0 * log * of_ab / a;
        variance.max(0.0).sqrt() / self.exponent
    }

    fn log_at(&self, level: f64) -> Option<f64> {
        let ratio = level / self.scaled.factor;
        (ratio > 0.0 && ratio.is_finite()).then(|| libm::log(ratio) / self.exponent)
    }
}

/// The law in z, x over the largest x, where its numbers are of ordinary size.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Scaled {
    x_max: f64,
    factor: f64,
    exponent: f64,
    /// Of factor and exponent.
    covariance: [[f64; 2]; 2],
}

impl Scaled {
    fn power(&self, x: f64) -> f64 {
        libm::pow(x / self.x_max, self.exponent)
    }

    fn variance_along(&self, [a, b]: [f64; 2]) -> f64 {
        let [[aa, ab], [_, bb]] = self.covariance;
        (a * a * aa + 2.0 * a * b * ab + b * b * bb).max(0.0)
    }
}

struct Samples<'a> {
    /// ln z; none where x is 0.
    logs: &'a [Option<f64>],
    y: &'a [f64],
}

/// What an exponent comes to.
struct Sides {
    factor: f64,
    /// The squares left over.
    left: f64,
    /// Σ rᵢ·zᵢᵇ·ln zᵢ times the factor: 0 where the squares are least.
    pull: f64,
}

impl Samples<'_> {
    /// zᵇ, zᵇ·ln z and y of each sample.
    fn rows(&self, exponent: f64) -> impl Iterator<Item = (f64, f64, f64)> {
        self.logs.iter().zip(self.y).map(move |(log, y)| match log {
            Some(log) => {
                let power = libm::exp(exponent * log);
                (power, power * log, *y)
            }
            None => (0.0, 0.0, *y),
        })
    }

    fn sides(&self, exponent: f64) -> Result<Sides, StatsError> {
        let what = "power law";
        let (mut py, mut pp) = (0.0, 0.0);
        for (power, _, y) in self.rows(exponent) {
            py += power * y;
            pp += power * power;
        }
        // The sample at x_max alone makes pp at least 1.
        let factor = finite(what, py / pp)?;
        let (mut left, mut pull) = (0.0, 0.0);
        for (power, tilt, y) in self.rows(exponent) {
            let residual = y - factor * power;
            left += residual * residual;
            pull += residual * factor * tilt;
        }
        Ok(Sides {
            factor,
            left: finite(what, left)?,
            pull: finite(what, pull)?,
        })
    }
}

/// The best exponent of a grid, then halving between its neighbours.
fn best_exponent(samples: &Samples<'_>) -> Result<f64, StatsError> {
    let (from, to) = (libm::log(EXPONENTS.low), libm::log(EXPONENTS.high));
    let step = (to - from) / STEPS as f64;
    let exponent = |n: usize| libm::exp(from + step * n as f64);
    let mut best = (0, f64::INFINITY);
    for n in 0..=STEPS {
        let left = samples.sides(exponent(n))?.left;
        if left < best.1 {
            best = (n, left);
        }
    }
    let none = StatsError::NoBestFit {
        what: "exponent of a power law",
        low: EXPONENTS.low,
        high: EXPONENTS.high,
    };
    if best.0 == 0 || best.0 == STEPS {
        return Err(none);
    }
    let (mut low, mut high) = (exponent(best.0 - 1), exponent(best.0 + 1));
    // The squares fall while the pull is upwards.
    if samples.sides(low)?.pull < 0.0 || samples.sides(high)?.pull > 0.0 {
        return Err(none);
    }
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if samples.sides(middle)?.pull > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(f64::midpoint(low, high))
}

/// s²·(JᵀJ)⁻¹.
fn covariance(
    samples: &Samples<'_>,
    factor: f64,
    exponent: f64,
    variance: f64,
) -> Result<[[f64; 2]; 2], StatsError> {
    let what = "power law";
    let (mut aa, mut ab, mut bb) = (0.0, 0.0, 0.0);
    for (power, tilt, _) in samples.rows(exponent) {
        aa += power * power;
        ab += power * factor * tilt;
        bb += factor * tilt * factor * tilt;
    }
    let determinant = aa * bb - ab * ab;
    if determinant <= 0.0 {
        return Err(StatsError::NoBestFit {
            what: "exponent of a power law",
            low: EXPONENTS.low,
            high: EXPONENTS.high,
        });
    }
    let by = variance / determinant;
    Ok([
        [finite(what, bb * by)?, finite(what, -ab * by)?],
        [finite(what, -ab * by)?, finite(what, aa * by)?],
    ])
}
