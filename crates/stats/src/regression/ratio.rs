//! The values that the ratio of two uncertain quantities may have: Fieller's theorem.

use crate::error::{StatsError, finite};

/// A quantity with its standard uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// The best value.
    pub value: f64,
    /// Its standard uncertainty.
    pub u: f64,
}

/// The values that are compatible with what was seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Possible {
    /// From `low` to `high`: the divisor is distinguishable from 0.
    Between {
        /// The least.
        low: f64,
        /// The greatest.
        high: f64,
    },
    /// Up to `below` and from `above` on: the divisor may be 0 or of either sign.
    Outside {
        /// The greatest of the lower part.
        below: f64,
        /// The least of the upper part.
        above: f64,
    },
    /// From here on: the divisor is just on the edge.
    From(f64),
    /// Up to here: the divisor is just on the edge.
    UpTo(f64),
    /// Every value: what was seen excludes none.
    Everywhere,
    /// None: the divisor is exactly 0 and the dividend is not.
    Nowhere,
}

impl Possible {
    /// The same, `by` further up.
    #[must_use]
    pub fn shifted(self, by: f64) -> Self {
        self.map(|end| end + by)
    }

    /// The same, so many times as far from 0; `by` is above 0.
    #[must_use]
    pub fn scaled(self, by: f64) -> Self {
        self.map(|end| end * by)
    }

    /// With every end moved by a function that keeps their order.
    fn map(self, moved: impl Fn(f64) -> f64) -> Self {
        match self {
            Self::Between { low, high } => Self::Between {
                low: moved(low),
                high: moved(high),
            },
            Self::Outside { below, above } => Self::Outside {
                below: moved(below),
                above: moved(above),
            },
            Self::From(low) => Self::From(moved(low)),
            Self::UpTo(high) => Self::UpTo(moved(high)),
            Self::Everywhere | Self::Nowhere => self,
        }
    }

    /// The least of its values at or above `from`; none where there are none.
    pub fn first_from(self, from: f64) -> Option<f64> {
        match self {
            Self::Between { low, high } => (from <= high).then_some(low.max(from)),
            Self::Outside { below, above } => {
                Some(if from <= below { from } else { above.max(from) })
            }
            Self::From(low) => Some(low.max(from)),
            Self::UpTo(high) => (from <= high).then_some(from),
            Self::Everywhere => Some(from),
            Self::Nowhere => None,
        }
    }
}

/// Fieller's set for the ratio ρ of a dividend g and a divisor b.
///
/// # Formula
///
/// ```text
/// all ρ with (g − ρ·b)² ≤ k²·(u²(g) − 2ρ·u(g, b) + ρ²·u²(b))
/// that is    A·ρ² − 2B·ρ + C ≤ 0
/// A = b² − k²·u²(b)        B = g·b − k²·u(g, b)        C = g² − k²·u²(g)
/// A > 0: between the two roots; A < 0: outside of them, or everywhere where there are none
/// ```
///
/// `covariance` is u(g, b), `factor` is k: Student's t, or a quantile of the normal distribution where
/// the uncertainties are known well.
///
/// # Errors
///
/// [`StatsError::Overflow`] when a number is not finite or grows too large.
///
/// # Source
///
/// E. C. Fieller, *Some problems in interval estimation*, J. Royal Stat. Soc. B 16 (1954).
pub fn possible_ratios(
    dividend: Estimate,
    divisor: Estimate,
    covariance: f64,
    factor: f64,
) -> Result<Possible, StatsError> {
    let what = "ratio";
    let squared = factor * factor;
    let a = finite(
        what,
        divisor.value * divisor.value - squared * divisor.u * divisor.u,
    )?;
    let b = finite(what, dividend.value * divisor.value - squared * covariance)?;
    let c = finite(
        what,
        dividend.value * dividend.value - squared * dividend.u * dividend.u,
    )?;
    if a == 0.0 {
        return on_the_edge(b, c);
    }
    let discriminant = finite(what, b * b - a * c)?;
    if discriminant < 0.0 && a < 0.0 {
        return Ok(Possible::Everywhere);
    }
    // For A > 0 the ratio itself is in the set: below 0 by rounding only.
    let root = discriminant.max(0.0).sqrt();
    // The root without cancellation first, the other from their product C/A.
    let far = b + root.copysign(b);
    let (one, other) = (far / a, if far == 0.0 { 0.0 } else { c / far });
    let low = finite(what, one.min(other))?;
    let high = finite(what, one.max(other))?;
    Ok(if a > 0.0 {
        Possible::Between { low, high }
    } else {
        Possible::Outside {
            below: low,
            above: high,
        }
    })
}

/// −2B·ρ + C ≤ 0.
fn on_the_edge(b: f64, c: f64) -> Result<Possible, StatsError> {
    if b == 0.0 {
        return Ok(if c > 0.0 {
            Possible::Nowhere
        } else {
            Possible::Everywhere
        });
    }
    let end = finite("ratio", c / (2.0 * b))?;
    Ok(if b > 0.0 {
        Possible::From(end)
    } else {
        Possible::UpTo(end)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn set(g: (f64, f64), b: (f64, f64), factor: f64) -> Possible {
        let estimate = |(value, u)| Estimate { value, u };
        possible_ratios(estimate(g), estimate(b), 0.0, factor).unwrap()
    }

    /// By hand: g = 6 without doubt over b = 3 ± 1 lies between 6/4 and 6/2.
    #[test]
    fn an_exact_dividend_by_hand() {
        assert_eq!(
            set((6.0, 0.0), (3.0, 1.0), 1.0),
            Possible::Between {
                low: 1.5,
                high: 3.0
            }
        );
    }

    /// By hand: b = 1 ± 2 runs from −1 to 3, so 6/b is 2 or more, or −6 or less.
    #[test]
    fn a_divisor_that_may_be_nothing_leaves_two_ends_open() {
        let got = set((6.0, 0.0), (1.0, 2.0), 1.0);
        assert_eq!(
            got,
            Possible::Outside {
                below: -6.0,
                above: 2.0
            }
        );
        assert_eq!(got.first_from(0.0), Some(2.0));
        assert_eq!(got.first_from(-7.0), Some(-7.0));
    }

    #[test]
    fn the_odd_cases_are_typed() {
        assert_eq!(set((1.0, 2.0), (0.0, 1.0), 1.0), Possible::Everywhere);
        assert_eq!(set((6.0, 0.0), (0.0, 0.0), 1.0), Possible::Nowhere);
        assert_eq!(set((0.0, 0.0), (0.0, 0.0), 1.0), Possible::Everywhere);
        // b = 2 ± 2 runs from 0 to 4: 6/b is 1.5 or more.
        assert_eq!(set((6.0, 0.0), (2.0, 2.0), 1.0), Possible::From(1.5));
        assert_eq!(set((6.0, 0.0), (-2.0, 2.0), 1.0), Possible::UpTo(-1.5));
        assert_eq!(Possible::UpTo(3.0).first_from(4.0), None);
    }

    #[test]
    fn what_is_too_large_is_refused() {
        let huge = Estimate {
            value: f64::MAX,
            u: f64::MAX,
        };
        assert!(possible_ratios(huge, huge, 0.0, 2.0).is_err());
    }
}
