//! The difference of two means by Student's t, and whether it stays within a margin.

use super::{Alternative, Margin, Verdict, Worse, at_least, one_sided};
use crate::{
    confidence::{Confidence, Dof, Interval},
    distribution::{t_cdf, t_quantile, two_sided_factor},
    error::{StatsError, check, check_pairs, finite},
    spread::{mean, sample_sd},
};

/// A group by its first two moments.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moments {
    /// n: how many samples.
    pub n: usize,
    /// x̄: their mean.
    pub mean: f64,
    /// s: their standard deviation, in the same unit; 0 for a single sample, of which none is known.
    pub sd: f64,
}

impl Moments {
    /// The moments of samples.
    ///
    /// # Errors
    ///
    /// [`StatsError::TooFew`] for no samples, [`StatsError::NotFinite`], [`StatsError::Overflow`].
    pub fn of(samples: &[f64]) -> Result<Self, StatsError> {
        check("mean of a group", samples, 1)?;
        let sd = if samples.len() > 1 {
            sample_sd(samples)?
        } else {
            0.0
        };
        Ok(Self {
            n: samples.len(),
            mean: mean(samples)?,
            sd,
        })
    }

    fn check(&self, what: &'static str, least: usize) -> Result<(), StatsError> {
        at_least(what, self.n, least)?;
        check(what, &[self.mean, self.sd], 2)?;
        super::within("standard deviation", self.sd, 0.0, f64::MAX)?;
        Ok(())
    }

    /// s²/n.
    fn of_mean(&self) -> f64 {
        self.sd * self.sd / self.n as f64
    }

    /// Σ (x − x̄)².
    fn squares(&self) -> f64 {
        self.sd * self.sd * (self.n - 1) as f64
    }
}

/// A difference that is distributed as Student's t about the true one.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct Difference {
    /// d: that of the first less the second, in the unit of the samples.
    pub value: f64,
    /// SE: its standard error, above 0, in the same unit.
    pub se: f64,
    /// ν: the degrees of freedom of the standard error.
    pub dof: Dof,
}

impl Difference {
    pub(super) fn new(
        what: &'static str,
        value: f64,
        se: f64,
        dof: Dof,
        n: usize,
    ) -> Result<Self, StatsError> {
        if finite(what, se)? > 0.0 {
            Ok(Self {
                value: finite(what, value)?,
                se,
                dof,
            })
        } else {
            Err(StatsError::NoSpread {
                what,
                row: "each group",
                n,
            })
        }
    }

    /// t = (d − δ)/SE, no unit: how many standard errors it lies above a difference δ.
    pub fn t(&self, delta: f64) -> f64 {
        (self.value - delta) / self.se
    }

    /// How probable a difference as far from δ would be if δ were the true one.
    ///
    /// # Formula
    ///
    /// ```text
    /// Differ: 2·P(T > |t|)     Higher: P(T > t)     Lower: P(T < t)     t = (d − δ)/SE, T with ν degrees
    /// ```
    pub fn p(&self, delta: f64, alternative: Alternative) -> f64 {
        let t = self.t(delta);
        match alternative {
            Alternative::Differ => (2.0 * t_cdf(-t.abs(), self.dof)).min(1.0),
            Alternative::Higher => t_cdf(-t, self.dof),
            Alternative::Lower => t_cdf(t, self.dof),
        }
    }

    /// d ± t·SE, t leaving (1 − c)/2 above it: the two-sided interval, in the unit of the samples.
    ///
    /// # Errors
    ///
    /// [`StatsError::Overflow`].
    pub fn interval(&self, confidence: Confidence) -> Result<Interval, StatsError> {
        let factor = two_sided_factor(confidence, self.dof)?;
        Interval::around("interval of a difference", self.value, factor * self.se)
    }

    /// d ± t·SE, t leaving 1 − c above it: each end is a one-sided bound at the confidence.
    fn bounds(&self, confidence: Confidence) -> Result<Interval, StatsError> {
        let factor = t_quantile(one_sided(confidence)?, self.dof)?;
        Interval::around("bound of a difference", self.value, factor * self.se)
    }
}

/// The difference of two means, whatever the scatter of either group.
///
/// # Formula
///
/// ```text
/// d = x̄₁ − x̄₂        SE² = v₁ + v₂,  vᵢ = sᵢ²/nᵢ        ν = (v₁ + v₂)²/(v₁²/(n₁ − 1) + v₂²/(n₂ − 1))
/// ```
///
/// A group of equal samples is taken as it is: the other one's scatter is then the whole of SE.
///
/// # Errors
///
/// [`StatsError::TooFew`] for a group under two samples, which says nothing of its scatter,
/// [`StatsError::NotFinite`], [`StatsError::NoSpread`] when both groups are of equal samples, [`StatsError::Overflow`].
///
/// # Source
///
/// B. L. Welch, *The generalization of "Student's" problem when several different population variances are
/// involved*, Biometrika 34 (1947); ν as F. E. Satterthwaite 1946.
pub fn welch(first: &[f64], second: &[f64]) -> Result<Difference, StatsError> {
    welch_of(Moments::of(first)?, Moments::of(second)?)
}

/// [`welch`] of groups known by their moments only.
///
/// # Errors
///
/// As [`welch`]; [`StatsError::OutOfRange`] for a standard deviation below 0.
pub fn welch_of(first: Moments, second: Moments) -> Result<Difference, StatsError> {
    let what = "Welch difference";
    first.check(what, 2)?;
    second.check(what, 2)?;
    let (one, two) = (first.of_mean(), second.of_mean());
    let se = finite(what, one + two)?.sqrt();
    // As shares of SE², so that squares of small variances do not vanish.
    let share = if se > 0.0 { one / (one + two) } else { 0.5 };
    let dof = 1.0
        / (share * share / (first.n - 1) as f64
            + (1.0 - share) * (1.0 - share) / (second.n - 1) as f64);
    let value = first.mean - second.mean;
    Difference::new(what, value, se, Dof::new(dof)?, first.n + second.n)
}

/// The difference of two means of groups that are taken to scatter alike.
///
/// # Formula
///
/// ```text
/// d = x̄₁ − x̄₂        SE² = s²·(1/n₁ + 1/n₂)        s² = ((n₁ − 1)·s₁² + (n₂ − 1)·s₂²)/ν        ν = n₁ + n₂ − 2
/// ```
///
/// A group may be a single sample: the other one then stands for the scatter of both.
///
/// # Errors
///
/// [`StatsError::TooFew`] for an empty group or under three samples in all, [`StatsError::NotFinite`],
/// [`StatsError::NoSpread`] when both groups are of equal samples, [`StatsError::Overflow`].
///
/// # Source
///
/// Student 1908; textbook.
pub fn pooled(first: &[f64], second: &[f64]) -> Result<Difference, StatsError> {
    pooled_of(Moments::of(first)?, Moments::of(second)?)
}

/// [`pooled`] of groups known by their moments only.
///
/// # Errors
///
/// As [`pooled`]; [`StatsError::OutOfRange`] for a standard deviation below 0.
pub fn pooled_of(first: Moments, second: Moments) -> Result<Difference, StatsError> {
    let what = "pooled difference";
    first.check(what, 1)?;
    second.check(what, 1)?;
    let n = first.n + second.n;
    at_least(what, n, 3)?;
    let dof = (n - 2) as f64;
    let variance = (first.squares() + second.squares()) / dof;
    let se = (variance * (1.0 / first.n as f64 + 1.0 / second.n as f64)).sqrt();
    let value = first.mean - second.mean;
    Difference::new(what, value, se, Dof::new(dof)?, n)
}

/// The mean difference of samples that pair: the same unit twice, or two of one kind.
///
/// # Formula
///
/// ```text
/// dᵢ = xᵢ − yᵢ        d = d̄        SE = s_d/√n        ν = n − 1
/// ```
///
/// # Errors
///
/// [`StatsError::Lengths`] when the rows do not pair, [`StatsError::TooFew`] under two pairs,
/// [`StatsError::NotFinite`], [`StatsError::NoSpread`] when all pairs differ alike, [`StatsError::Overflow`].
///
/// # Source
///
/// Student 1908; textbook.
pub fn paired(first: &[f64], second: &[f64]) -> Result<Difference, StatsError> {
    let what = "paired difference";
    check_pairs(what, first, second, 2)?;
    let apart: Vec<f64> = first.iter().zip(second).map(|(x, y)| x - y).collect();
    for difference in &apart {
        finite(what, *difference)?;
    }
    let se = sample_sd(&apart)? / (apart.len() as f64).sqrt();
    let dof = Dof::new((apart.len() - 1) as f64)?;
    Difference::new(what, mean(&apart)?, se, dof, apart.len())
}

/// Whether the first group is no worse by Δ or more.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NonInferiority {
    /// The one-sided bound on the difference towards the worse, in the unit of the samples: it decides.
    pub bound: f64,
    /// How probable a difference at least as good would be if the first group were worse by just Δ.
    pub p: f64,
    /// What became of the claim.
    pub verdict: Verdict,
}

/// The claim that the first group is worse by less than Δ.
///
/// # Formula
///
/// ```text
/// w = d where higher is worse, −d where lower is        t leaves 1 − c above it
///
/// supported:     w + t·SE < Δ        so that a true w of Δ is called supported in 1 − c of all cases at most
/// contradicted:  w − t·SE > Δ        worse by more than Δ, as surely
/// not shown:     else
/// p = P(T < (w − Δ)/SE)
/// ```
///
/// "Not shown" says nothing for either side. The confidence is one-sided: 95 % goes with a two-sided interval of 90 %.
///
/// # Errors
///
/// [`StatsError::OutOfRange`] for a confidence below one half, [`StatsError::Overflow`].
///
/// # Source
///
/// Textbook: S. Wellek, *Testing statistical hypotheses of equivalence and noninferiority*, 2nd edition 2010.
pub fn non_inferiority(
    difference: Difference,
    margin: Margin,
    worse: Worse,
    confidence: Confidence,
) -> Result<NonInferiority, StatsError> {
    let bounds = difference.bounds(confidence)?;
    let (best, worst) = match worse {
        Worse::Higher => (bounds.low, bounds.high),
        Worse::Lower => (bounds.high, bounds.low),
    };
    let (delta, better) = match worse {
        Worse::Higher => (margin.get(), Alternative::Lower),
        Worse::Lower => (-margin.get(), Alternative::Higher),
    };
    Ok(NonInferiority {
        bound: worst,
        p: difference.p(delta, better),
        verdict: Verdict::of(
            worse.turn(worst) < margin.get(),
            worse.turn(best) > margin.get(),
        ),
    })
}

/// Whether the groups differ by less than Δ, either way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Equivalence {
    /// The interval between the two one-sided bounds, of confidence 2c − 1, in the unit of the samples: it decides.
    pub interval: Interval,
    /// The larger of the two one-sided p-values.
    pub p: f64,
    /// What became of the claim.
    pub verdict: Verdict,
}

/// The claim that the groups differ by less than Δ either way: two one-sided tests.
///
/// # Formula
///
/// ```text
/// d − t·SE to d + t·SE        t leaves 1 − c above it
///
/// supported: all of it within −Δ to Δ        contradicted: all of it outside        not shown: else
/// p = max( P(T < (d − Δ)/SE), P(T > (d + Δ)/SE) )
/// ```
///
/// # Errors
///
/// [`StatsError::OutOfRange`] for a confidence below one half, [`StatsError::Overflow`].
///
/// # Source
///
/// D. J. Schuirmann, *A comparison of the two one-sided tests procedure and the power approach for assessing the
/// equivalence of average bioavailability*, J. Pharmacokin. Biopharm. 15 (1987).
pub fn equivalence(
    difference: Difference,
    margin: Margin,
    confidence: Confidence,
) -> Result<Equivalence, StatsError> {
    let interval = difference.bounds(confidence)?;
    let delta = margin.get();
    let below = difference.p(delta, Alternative::Lower);
    let above = difference.p(-delta, Alternative::Higher);
    Ok(Equivalence {
        interval,
        p: below.max(above),
        verdict: Verdict::of(
            interval.low > -delta && interval.high < delta,
            interval.low > delta || interval.high < -delta,
        ),
    })
}
