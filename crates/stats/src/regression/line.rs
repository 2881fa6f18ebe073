//! A straight line by least squares, what it says of the next sample, and where it reaches a level.

use crate::{
    confidence::{Confidence, Dof, Interval},
    distribution::two_sided_factor,
    error::{StatsError, check_pairs, finite},
    regression::ratio::{Estimate, Possible, possible_ratios},
};

/// Where the line may start.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Intercept {
    /// Anywhere: the intercept is fitted.
    Free,
    /// At nothing: the line goes through (0, 0).
    Zero,
}

impl Intercept {
    /// How many numbers are fitted.
    pub fn parameters(self) -> usize {
        match self {
            Self::Free => 2,
            Self::Zero => 1,
        }
    }
}

/// A straight line y = intercept + slope·x through paired samples.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineFit {
    /// How the intercept came about.
    pub intercept_is: Intercept,
    /// Pairs of samples.
    pub n: usize,
    /// y at x = 0, in the unit of y.
    pub intercept: f64,
    /// Its standard error; 0 where the line was made to go through (0, 0).
    pub se_intercept: f64,
    /// Units of y for each unit of x.
    pub slope: f64,
    /// Its standard error.
    pub se_slope: f64,
    /// The covariance of intercept and slope.
    pub covariance: f64,
    /// s: the standard deviation of y about the line, in the unit of y.
    pub residual_sd: f64,
    /// The degrees of freedom of s: n less the numbers fitted.
    pub dof: Dof,
    /// What share of the squares the line takes away: about the mean for a free intercept, about 0 for
    /// one through (0, 0). None where there were no squares.
    pub r_squared: Option<f64>,
    /// The sum of squares left over, in the unit of y squared.
    pub residual_squares: f64,
    sums: Sums,
}

/// Fits a straight line.
///
/// # Formula
///
/// ```text
/// free:  b = Σ(xᵢ − x̄)(yᵢ − ȳ)/Sxx    a = ȳ − b·x̄    Sxx = Σ(xᵢ − x̄)²    ν = n − 2
/// zero:  b = Σxᵢyᵢ/Sxx                a = 0           Sxx = Σxᵢ²          ν = n − 1
/// s²    = Σ(yᵢ − a − b·xᵢ)²/ν
/// u²(b) = s²/Sxx       u²(a) = s²·(1/n + x̄²/Sxx)      u(a, b) = −s²·x̄/Sxx
/// R²    = 1 − Σ(yᵢ − a − b·xᵢ)²/Σ(yᵢ − ȳ)²            zero: Σyᵢ² below
/// ```
///
/// The means are taken off first, so that a large common part of x or y does no harm.
///
/// # Errors
///
/// [`StatsError::Lengths`] when the rows do not pair, [`StatsError::TooFew`] where nothing is left to
/// tell the scatter by, [`StatsError::NotFinite`], [`StatsError::NoSpread`] when all x are equal (or all
/// are 0, for a line through (0, 0)), [`StatsError::Overflow`].
///
/// # Source
///
/// JCGM 100:2008 H.3; held against NIST StRD Norris and NoInt1.
pub fn fit_line(x: &[f64], y: &[f64], intercept_is: Intercept) -> Result<LineFit, StatsError> {
    let what = "straight line";
    check_pairs(what, x, y, intercept_is.parameters() + 1)?;
    let sums = Sums::of(x, y, intercept_is)?;
    let Some(dof) = Dof::left(sums.n, intercept_is.parameters()) else {
        return Err(StatsError::TooFew {
            what,
            got: sums.n,
            least: intercept_is.parameters() + 1,
        });
    };
    let variance = sums.left / dof.get();
    let slope_variance = variance / sums.sxx;
    let lever = sums.x_mean * sums.x_mean / sums.sxx;
    Ok(LineFit {
        intercept_is,
        n: sums.n,
        intercept: sums.intercept()?,
        se_intercept: finite(what, (variance * (sums.share_of_mean + lever)).sqrt())?,
        slope: sums.slope,
        se_slope: finite(what, slope_variance.sqrt())?,
        // From 0, so that a mean of 0 gives 0 and not −0.
        covariance: finite(what, 0.0 - slope_variance * sums.x_mean)?,
        residual_sd: variance.sqrt(),
        dof,
        r_squared: (sums.syy > 0.0).then(|| 1.0 - sums.left / sums.syy),
        residual_squares: sums.left,
        sums,
    })
}

impl LineFit {
    /// y on the line.
    pub fn at(&self, x: f64) -> f64 {
        self.sums.y_mean + self.slope * (x - self.sums.x_mean)
    }

    /// The standard error of the line at x.
    ///
    /// # Formula
    ///
    /// ```text
    /// u = s·√(1/n + (x − x̄)²/Sxx)        zero: s·|x|/√Sxx
    /// ```
    pub fn se_at(&self, x: f64) -> f64 {
        let away = x - self.sums.x_mean;
        self.residual_sd * (self.sums.share_of_mean + away * away / self.sums.sxx).sqrt()
    }

    /// Between which values the line runs at x.
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
    /// # Formula
    ///
    /// ```text
    /// y(x) ± t·s·√(1 + 1/n + (x − x̄)²/Sxx)
    /// ```
    ///
    /// # Errors
    ///
    /// [`StatsError::Overflow`].
    pub fn prediction(&self, x: f64, confidence: Confidence) -> Result<Interval, StatsError> {
        let k = two_sided_factor(confidence, self.dof)?;
        let half = k * libm::hypot(self.residual_sd, self.se_at(x));
        Interval::around("prediction interval", self.at(x), half)
    }

    /// Between which values the slope lies.
    ///
    /// # Errors
    ///
    /// [`StatsError::Overflow`].
    pub fn slope_interval(&self, confidence: Confidence) -> Result<Interval, StatsError> {
        let k = two_sided_factor(confidence, self.dof)?;
        Interval::around("slope", self.slope, k * self.se_slope)
    }

    /// Σ yᵢ².
    pub(super) fn squares_of_y(&self) -> f64 {
        self.sums.syy + self.n as f64 * self.sums.y_mean * self.sums.y_mean
    }

    /// The x at which the line is at a level; none for a level line.
    pub fn reaches(&self, level: f64) -> Option<f64> {
        let x = self.sums.x_mean + (level - self.sums.y_mean) / self.slope;
        x.is_finite().then_some(x)
    }

    /// Every x at which the line may be at a level: those whose confidence band holds the level.
    ///
    /// The factor is that of the band: Student's t for what the line leaves free, two-sided or one-sided
    /// as the reader means it.
    ///
    /// # Errors
    ///
    /// [`StatsError::Overflow`].
    ///
    /// # Source
    ///
    /// Fieller, as [`possible_ratios`]: the mean of y and the slope do not depend on each other.
    pub fn may_reach(&self, level: f64, factor: f64) -> Result<Possible, StatsError> {
        let rise = Estimate {
            value: level - self.sums.y_mean,
            u: self.residual_sd * self.sums.share_of_mean.sqrt(),
        };
        let slope = Estimate {
            value: self.slope,
            u: self.se_slope,
        };
        Ok(possible_ratios(rise, slope, 0.0, factor)?.shifted(self.sums.x_mean))
    }
}

/// The sums that a line is made of, about the point that it turns about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sums {
    pub(super) n: usize,
    /// Where the line turns: the means, or (0, 0).
    pub(super) x_mean: f64,
    pub(super) y_mean: f64,
    /// What the variance of the line at the turning point is of s²: 1/n, or 0.
    share_of_mean: f64,
    pub(super) sxx: f64,
    pub(super) sxy: f64,
    pub(super) syy: f64,
    pub(super) slope: f64,
    /// The squares left over.
    pub(super) left: f64,
}

impl Sums {
    /// Of paired samples that were checked.
    pub(super) fn of(x: &[f64], y: &[f64], intercept: Intercept) -> Result<Self, StatsError> {
        let what = "straight line";
        let n = x.len();
        let (x_mean, y_mean, share_of_mean) = match intercept {
            Intercept::Free => (mean(x)?, mean(y)?, 1.0 / n as f64),
            Intercept::Zero => (0.0, 0.0, 0.0),
        };
        let (mut sxx, mut sxy, mut syy) = (0.0, 0.0, 0.0);
        for (x, y) in x.iter().zip(y) {
            let (x, y) = (x - x_mean, y - y_mean);
            sxx += x * x;
            sxy += x * y;
            syy += y * y;
        }
        finite(what, sxx)?;
        finite(what, syy)?;
        if sxx <= 0.0 {
            return Err(StatsError::NoSpread { what, row: "x", n });
        }
        let slope = finite(what, sxy / sxx)?;
        let left: f64 = x
            .iter()
            .zip(y)
            .map(|(x, y)| (y - y_mean) - slope * (x - x_mean))
            .map(|residual| residual * residual)
            .sum();
        Ok(Self {
            n,
            x_mean,
            y_mean,
            share_of_mean,
            sxx,
            sxy,
            syy,
            slope,
            left: finite(what, left)?,
        })
    }

    fn intercept(&self) -> Result<f64, StatsError> {
        finite("straight line", self.y_mean - self.slope * self.x_mean)
    }
}

/// The mean, corrected by the mean of what it leaves over, so that it is right to the last digit.
fn mean(samples: &[f64]) -> Result<f64, StatsError> {
    let first = crate::spread::mean(samples)?;
    let left = samples.iter().map(|x| x - first).sum::<f64>() / samples.len() as f64;
    finite("mean", first + left)
}
