//! Straight lines through the samples of several units: is there one slope, and how far do the units'
//! slopes scatter?
//!
//! The unit is the one that counts: ten readings of one unit are no ten units.

use crate::{
    confidence::{Confidence, Dof, Interval},
    distribution::{f_above, two_sided_factor},
    error::{StatsError, check_pairs, finite},
    regression::line::{Intercept, Sums},
    trend::Run,
};

/// A slope with its standard error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slope {
    /// Units of y for each unit of x.
    pub value: f64,
    /// Its standard error.
    pub se: f64,
    /// The degrees of freedom of the standard error.
    pub dof: Dof,
}

impl Slope {
    /// Between which values it lies.
    ///
    /// # Errors
    ///
    /// [`StatsError::Overflow`].
    pub fn interval(&self, confidence: Confidence) -> Result<Interval, StatsError> {
        let k = two_sided_factor(confidence, self.dof)?;
        Interval::around("slope", self.value, k * self.se)
    }
}

/// How the units' slopes were weighed in their mean.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weighting {
    /// By what each is known to and how far the units scatter.
    Precision,
    /// All alike: there are too few samples within units to tell how well each slope is known.
    Equal,
}

/// The slopes of units as draws from one population.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Between {
    /// Units that have a slope.
    pub units: usize,
    /// τ: the standard deviation of the units' true slopes. With [`Weighting::Equal`] the scatter within
    /// units is in it.
    pub sd: f64,
    /// The mean slope, with the scatter between units in its standard error.
    pub mean: Slope,
    /// How it was weighed.
    pub weighting: Weighting,
}

impl Between {
    /// Between which values the slope of one more unit is to be expected; none for fewer than three units.
    ///
    /// # Formula
    ///
    /// ```text
    /// b̄ ± t(m − 2)·√(τ² + u²(b̄))
    /// ```
    ///
    /// # Errors
    ///
    /// [`StatsError::Overflow`].
    ///
    /// # Source
    ///
    /// J. P. T. Higgins, S. G. Thompson and D. J. Spiegelhalter, *A re-evaluation of random-effects
    /// meta-analysis*, J. Royal Stat. Soc. A 172 (2009).
    pub fn next_unit(&self, confidence: Confidence) -> Result<Option<Interval>, StatsError> {
        let Some(dof) = Dof::left(self.units, 2) else {
            return Ok(None);
        };
        let half = two_sided_factor(confidence, dof)? * libm::hypot(self.sd, self.mean.se);
        Interval::around("slope of one more unit", self.mean.value, half).map(Some)
    }
}

/// What several units say together.
#[derive(Clone, Debug, PartialEq)]
pub struct UnitsFit {
    /// By unit: its own slope, where its samples have one.
    pub slopes: Vec<Option<f64>>,
    /// The slope common to all, each unit at a height of its own (at 0 for lines through (0, 0)); its
    /// standard error knows of no scatter between units.
    pub common: Option<Slope>,
    /// How probable slopes so far apart are where all units have one slope; none where it cannot be told.
    pub p_one_slope: Option<f64>,
    /// The slopes as draws from one population; none for fewer than two slopes.
    pub between: Option<Between>,
}

impl UnitsFit {
    /// Whether the units' slopes differ by more than chance would have it; none where it cannot be told.
    pub fn differ(&self, confidence: Confidence) -> Option<bool> {
        Some(self.p_one_slope? < 1.0 - confidence.share())
    }
}

/// Compares the slopes of several units and pools them.
///
/// # Formula
///
/// ```text
/// common slope  b = Σᵤ Sxyᵤ/Σᵤ Sxxᵤ        RSS₁ = Σᵤ (Syyᵤ − b·Sxyᵤ)
///               s² = RSS₁/ν₁    u²(b) = s²/Σᵤ Sxxᵤ    ν₁ = Σ nᵤ − units − 1    (zero: Σ nᵤ − 1)
/// own slopes    bᵤ = Sxyᵤ/Sxxᵤ    RSS₂ = Σᵤ RSSᵤ    ν₂ = ν₁ + 1 − m    m units that have a slope
/// one slope?    F = ((RSS₁ − RSS₂)/(m − 1))/(RSS₂/ν₂)
///
/// between       vᵤ = (RSS₂/ν₂)/Sxxᵤ    wᵤ = 1/vᵤ    b₀ = Σ wb/Σ w    Q = Σ w·(b − b₀)²
///               τ² = max(0, (Q − (m − 1))/(Σ w − Σ w²/Σ w))
///               w′ = 1/(v + τ²)    b̄ = Σ w′b/Σ w′    h = Σ w′·(b − b̄)²/(m − 1)
///               u²(b̄) = max(1, h)/Σ w′    with m − 1 degrees of freedom
/// where RSS₂ or ν₂ is 0: b̄ the plain mean, τ the standard deviation of the bᵤ, u(b̄) = τ/√m
/// ```
///
/// # Errors
///
/// [`StatsError::TooFew`] without a unit, [`StatsError::Lengths`] when the rows of a unit do not pair,
/// [`StatsError::NotFinite`], [`StatsError::Overflow`].
///
/// # Source
///
/// Common slope: analysis of covariance, textbook. Between: R. DerSimonian and N. Laird, *Meta-analysis
/// in clinical trials*, Controlled Clin. Trials 7 (1986), with the interval of G. Knapp and J. Hartung
/// 2003, never narrower than without it (C. Röver, G. Knapp and T. Friede 2015); held against statsmodels.
pub fn compare_units(units: &[Run<'_>], intercept: Intercept) -> Result<UnitsFit, StatsError> {
    let what = "common slope";
    if units.is_empty() {
        return Err(StatsError::TooFew {
            what,
            got: 0,
            least: 1,
        });
    }
    let mut sums = Vec::with_capacity(units.len());
    for Run { x, y } in units {
        check_pairs(what, x, y, 1)?;
        sums.push(match Sums::of(x, y, intercept) {
            Ok(sums) => Some(sums),
            Err(StatsError::NoSpread { .. }) => None,
            Err(why) => return Err(why),
        });
    }
    let samples: usize = units.iter().map(|unit| unit.x.len()).sum();
    let sloped: Vec<Sums> = sums.iter().flatten().copied().collect();
    // A unit without a slope has a height of its own all the same.
    let heights = match intercept {
        Intercept::Free => units.len(),
        Intercept::Zero => 0,
    };
    let flat = flat_squares(units, &sums, intercept)?;
    let pooled = Pooled::of(&sloped, flat, samples, heights)?;
    Ok(UnitsFit {
        slopes: sums.iter().map(|sums| sums.map(|s| s.slope)).collect(),
        common: pooled.common()?,
        p_one_slope: pooled.p_one_slope()?,
        between: pooled.between(&sloped)?,
    })
}

/// The squares about their own heights of units that have no slope.
fn flat_squares(
    units: &[Run<'_>],
    sums: &[Option<Sums>],
    intercept: Intercept,
) -> Result<f64, StatsError> {
    let mut squares = 0.0;
    for (unit, _) in units.iter().zip(sums).filter(|(_, sums)| sums.is_none()) {
        let height = match intercept {
            Intercept::Free => crate::spread::mean(unit.y)?,
            Intercept::Zero => 0.0,
        };
        squares += unit
            .y
            .iter()
            .map(|y| (y - height) * (y - height))
            .sum::<f64>();
    }
    finite("common slope", squares)
}

/// The sums over units.
struct Pooled {
    units: usize,
    slope: f64,
    sxx: f64,
    /// The squares left over by one slope for all, and by each unit's own.
    left_by_one: f64,
    left_by_own: f64,
    dof_of_one: Option<Dof>,
    dof_of_own: Option<Dof>,
}

impl Pooled {
    fn of(sloped: &[Sums], flat: f64, samples: usize, heights: usize) -> Result<Self, StatsError> {
        let what = "common slope";
        let sxx = finite(what, sloped.iter().map(|s| s.sxx).sum())?;
        let sxy: f64 = sloped.iter().map(|s| s.sxy).sum();
        let slope = if sxx > 0.0 {
            finite(what, sxy / sxx)?
        } else {
            0.0
        };
        let own: f64 = sloped.iter().map(|s| s.left).sum();
        // About its own slope a unit leaves RSSᵤ, about another one (b − bᵤ)²·Sxxᵤ more.
        let apart: f64 = sloped
            .iter()
            .map(|s| (slope - s.slope) * (slope - s.slope) * s.sxx)
            .sum();
        Ok(Self {
            units: sloped.len(),
            slope,
            sxx,
            left_by_one: finite(what, own + apart + flat)?,
            left_by_own: finite(what, own + flat)?,
            dof_of_one: Dof::left(samples, heights + 1),
            dof_of_own: Dof::left(samples, heights + sloped.len()),
        })
    }

    fn common(&self) -> Result<Option<Slope>, StatsError> {
        let Some(dof) = self.dof_of_one.filter(|_| self.sxx > 0.0) else {
            return Ok(None);
        };
        let se = (self.left_by_one / dof.get() / self.sxx).sqrt();
        Ok(Some(Slope {
            value: self.slope,
            se: finite("common slope", se)?,
            dof,
        }))
    }

    /// The variance of y within units, where it can be told and is not nothing.
    fn variance(&self) -> Option<f64> {
        let variance = self.left_by_own / self.dof_of_own?.get();
        (variance > 0.0).then_some(variance)
    }

    fn p_one_slope(&self) -> Result<Option<f64>, StatsError> {
        let (Some(variance), Some(lower), Some(upper)) =
            (self.variance(), self.dof_of_own, Dof::left(self.units, 1))
        else {
            return Ok(None);
        };
        let f = (self.left_by_one - self.left_by_own) / upper.get() / variance;
        f_above(f, upper, lower).map(Some)
    }

    fn between(&self, sloped: &[Sums]) -> Result<Option<Between>, StatsError> {
        let Some(dof) = Dof::left(self.units, 1) else {
            return Ok(None);
        };
        let slopes: Vec<f64> = sloped.iter().map(|s| s.slope).collect();
        match self.variance() {
            None => alike(&slopes, dof),
            Some(variance) => {
                let variances: Vec<f64> = sloped.iter().map(|s| variance / s.sxx).collect();
                by_precision(&slopes, &variances, dof)
            }
        }
        .map(Some)
    }
}

fn alike(slopes: &[f64], dof: Dof) -> Result<Between, StatsError> {
    let sd = crate::spread::sample_sd(slopes)?;
    Ok(Between {
        units: slopes.len(),
        sd,
        mean: Slope {
            value: crate::spread::mean(slopes)?,
            se: sd / (slopes.len() as f64).sqrt(),
            dof,
        },
        weighting: Weighting::Equal,
    })
}

fn by_precision(slopes: &[f64], variances: &[f64], dof: Dof) -> Result<Between, StatsError> {
    let what = "mean slope";
    let weighed = |tau2: f64| -> Result<(Vec<f64>, f64, f64, f64), StatsError> {
        let weights: Vec<f64> = variances.iter().map(|v| 1.0 / (v + tau2)).collect();
        let all = finite(what, weights.iter().sum())?;
        let mean = crate::spread::weighted_mean(slopes, &weights)?;
        let spread: f64 = slopes
            .iter()
            .zip(&weights)
            .map(|(b, w)| w * (b - mean) * (b - mean))
            .sum();
        Ok((weights, all, mean, finite(what, spread)?))
    };
    let (weights, all, _, q) = weighed(0.0)?;
    let squares: f64 = weights.iter().map(|w| w * w).sum();
    let tau2 = finite(what, (q - dof.get()) / (all - squares / all))?.max(0.0);
    let (_, all, mean, spread) = weighed(tau2)?;
    let wider = (spread / dof.get()).max(1.0);
    Ok(Between {
        units: slopes.len(),
        sd: tau2.sqrt(),
        mean: Slope {
            value: mean,
            se: finite(what, (wider / all).sqrt())?,
            dof,
        },
        weighting: Weighting::Precision,
    })
}
