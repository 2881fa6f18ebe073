//! The uncertainty of a result that is worked out of uncertain quantities.
//!
//! After JCGM 100:2008 (GUM): standard uncertainties from repeats (type A) or from what else is known
//! (type B), put together by the result's sensitivity to each.

use crate::{
    confidence::{Confidence, Dof},
    distribution::two_sided_factor,
    error::{StatsError, check, finite},
    spread,
};

/// A standard uncertainty with what it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standard {
    /// u, in the unit of the quantity.
    pub u: f64,
    /// Its degrees of freedom.
    pub dof: Dof,
}

impl Standard {
    /// A standard uncertainty that is itself not in doubt.
    pub fn known(u: f64) -> Self {
        Self {
            u,
            dof: Dof::INFINITE,
        }
    }

    /// Of a quantity that lies within ± `half`, anywhere alike: half/√3.
    ///
    /// Source: JCGM 100:2008 4.3.7.
    pub fn rectangular(half: f64) -> Self {
        Self::known(half / 3.0_f64.sqrt())
    }

    /// Of a quantity that lies within ± `half`, likelier in the middle: half/√6.
    ///
    /// Source: JCGM 100:2008 4.3.9.
    pub fn triangular(half: f64) -> Self {
        Self::known(half / 6.0_f64.sqrt())
    }

    /// Of a quantity whose expanded uncertainty was given with its coverage factor: U/k.
    ///
    /// Source: JCGM 100:2008 4.3.3.
    pub fn expanded(expanded: f64, factor: f64) -> Self {
        Self::known(expanded / factor)
    }
}

/// The mean of repeated readings, with the standard uncertainty of that mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Repeats {
    /// The mean.
    pub mean: f64,
    /// Its standard uncertainty s/√n with n − 1 degrees of freedom.
    pub standard: Standard,
}

/// The mean of repeated readings (type A).
///
/// # Errors
///
/// [`StatsError::TooFew`] under two readings, [`StatsError::NotFinite`], [`StatsError::Overflow`].
///
/// # Source
///
/// JCGM 100:2008 4.2.
pub fn repeats(readings: &[f64]) -> Result<Repeats, StatsError> {
    check("mean of repeats", readings, 2)?;
    let n = readings.len() as f64;
    Ok(Repeats {
        mean: spread::mean(readings)?,
        standard: Standard {
            u: spread::sample_sd(readings)? / n.sqrt(),
            dof: Dof::new(n - 1.0)?,
        },
    })
}

/// One quantity that goes into a result.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Component<L> {
    /// What it is.
    pub label: L,
    /// Its standard uncertainty, in its own unit.
    pub standard: Standard,
    /// c: how many units the result moves for each unit of it.
    pub sensitivity: f64,
}

/// Two quantities that do not vary independently.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Correlation {
    /// The place of one among the components.
    pub one: usize,
    /// The place of the other.
    pub other: usize,
    /// r, −1 to 1.
    pub r: f64,
}

/// A line of a budget.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row<L> {
    /// The component.
    pub component: Component<L>,
    /// c·u, in the unit of the result; its sign is that of c.
    pub contribution: f64,
    /// (c·u)² as a share of the result's variance, without the correlations; 0 where there is no variance.
    pub share: f64,
}

/// The uncertainty of a result, and what it is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Budget<L> {
    /// The components, in the order given.
    pub rows: Vec<Row<L>>,
    /// u: the combined standard uncertainty.
    pub u: f64,
    /// Its effective degrees of freedom; none where correlated components have finite ones, for which
    /// there is no formula.
    pub dof: Option<Dof>,
}

/// An expanded uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expanded {
    /// k.
    pub factor: f64,
    /// U = k·u.
    pub uncertainty: f64,
    /// The degrees of freedom that k was taken for: the effective ones, truncated.
    pub dof: Dof,
}

/// Puts the components of a result together.
///
/// # Formula
///
/// ```text
/// u² = Σᵢ cᵢ²uᵢ² + 2·Σᵢ<ⱼ cᵢcⱼ·uᵢuⱼ·rᵢⱼ
/// ν  = u⁴/Σᵢ (cᵢuᵢ)⁴/νᵢ        (Welch–Satterthwaite)
/// ```
///
/// # Errors
///
/// [`StatsError::OutOfRange`] for an uncertainty below 0, a correlation outside −1 to 1 or of a place that is
/// not there, and for correlations that contradict each other (a variance below 0); [`StatsError::Overflow`].
///
/// # Source
///
/// JCGM 100:2008 5.1.2, 5.2.2 and G.4.1.
pub fn combine<L>(
    components: Vec<Component<L>>,
    correlations: &[Correlation],
) -> Result<Budget<L>, StatsError> {
    let what = "combined standard uncertainty";
    let mut contributions = Vec::with_capacity(components.len());
    for component in &components {
        let u = component.standard.u;
        if u.is_nan() || u < 0.0 {
            return Err(StatsError::OutOfRange {
                what: "standard uncertainty",
                given: u,
                low: 0.0,
                high: f64::INFINITY,
            });
        }
        contributions.push(finite(what, component.sensitivity * u)?);
    }
    let independent: f64 = contributions.iter().map(|c| c * c).sum();
    let variance = independent + covariances(&contributions, correlations)?;
    // What correlations take away may leave a rounding below nothing.
    if variance < -1e-9 * independent {
        return Err(StatsError::OutOfRange {
            what: "variance under these correlations",
            given: variance,
            low: 0.0,
            high: f64::INFINITY,
        });
    }
    let variance = finite(what, variance)?.max(0.0);
    let dof = effective_dof(&components, &contributions, correlations, variance);
    let share = |contribution: f64| {
        if variance > 0.0 {
            contribution * contribution / variance
        } else {
            0.0
        }
    };
    Ok(Budget {
        rows: components
            .into_iter()
            .zip(contributions)
            .map(|(component, contribution)| Row {
                component,
                contribution,
                share: share(contribution),
            })
            .collect(),
        u: variance.sqrt(),
        dof,
    })
}

impl<L> Budget<L> {
    /// The expanded uncertainty for a two-sided interval; none where there are no effective degrees of
    /// freedom.
    ///
    /// k is Student's t for the effective degrees of freedom cut to a whole number.
    ///
    /// # Errors
    ///
    /// [`StatsError::Overflow`].
    ///
    /// # Source
    ///
    /// JCGM 100:2008 G.4.2 and G.6.4.
    pub fn expanded(&self, confidence: Confidence) -> Result<Option<Expanded>, StatsError> {
        let Some(dof) = self.dof.map(Dof::truncated) else {
            return Ok(None);
        };
        let factor = two_sided_factor(confidence, dof)?;
        Ok(Some(Expanded {
            factor,
            uncertainty: finite("expanded uncertainty", factor * self.u)?,
            dof,
        }))
    }
}

fn covariances(contributions: &[f64], correlations: &[Correlation]) -> Result<f64, StatsError> {
    let mut sum = 0.0;
    for &Correlation { one, other, r } in correlations {
        let (Some(a), Some(b)) = (contributions.get(one), contributions.get(other)) else {
            return Err(StatsError::OutOfRange {
                what: "place of a correlated component",
                given: one.max(other) as f64,
                low: 0.0,
                high: contributions.len() as f64 - 1.0,
            });
        };
        if !(-1.0..=1.0).contains(&r) {
            return Err(StatsError::OutOfRange {
                what: "correlation",
                given: r,
                low: -1.0,
                high: 1.0,
            });
        }
        sum += 2.0 * a * b * r;
    }
    Ok(sum)
}

fn effective_dof<L>(
    components: &[Component<L>],
    contributions: &[f64],
    correlations: &[Correlation],
    variance: f64,
) -> Option<Dof> {
    let correlated = |place: usize| {
        correlations
            .iter()
            .any(|c| c.r.abs() > 0.0 && (c.one == place || c.other == place))
    };
    let mut sum = 0.0;
    for (place, (component, contribution)) in components.iter().zip(contributions).enumerate() {
        let dof = component.standard.dof.get();
        if dof.is_finite() && contribution.abs() > 0.0 {
            if correlated(place) {
                return None;
            }
            // As shares of the variance, which keeps fourth powers of small numbers from vanishing.
            let share = contribution * contribution / variance;
            sum += share * share / dof;
        }
    }
    Dof::new(1.0 / sum).ok()
}
