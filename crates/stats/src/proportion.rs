//! Shares of a whole number: so many of so many, and the difference of two such shares.

use crate::{
    compare::within,
    confidence::{Confidence, Interval},
    distribution::{beta_quantile, normal_quantile},
    error::StatsError,
};

/// So many of so many.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Share {
    hits: u64,
    of: u64,
}

impl Share {
    /// `hits` of `of`.
    ///
    /// # Errors
    ///
    /// [`StatsError::TooFew`] of none, [`StatsError::OutOfRange`] for more hits than there are in all.
    pub fn new(hits: u64, of: u64) -> Result<Self, StatsError> {
        if of == 0 {
            return Err(StatsError::TooFew {
                what: "share",
                got: 0,
                least: 1,
            });
        }
        within("hits", hits as f64, 0.0, of as f64)?;
        Ok(Self { hits, of })
    }

    /// p = x/n, 0 to 1.
    pub fn value(self) -> f64 {
        self.hits as f64 / self.of as f64
    }
}

/// An interval for the true share that is near its confidence on average, small numbers included.
///
/// # Formula
///
/// ```text
/// (p + z²/2n ± z·√( (p(1 − p) + z²/4n)/n )) / (1 + z²/n)        z leaves (1 − c)/2 above it
/// ```
///
/// # Errors
///
/// None that a [`Share`] and a [`Confidence`] could bring.
///
/// # Source
///
/// E. B. Wilson, *Probable inference, the law of succession, and statistical inference*, J. Am. Stat. Assoc. 22
/// (1927); method 3 of R. G. Newcombe 1998, without continuity correction.
pub fn wilson(share: Share, confidence: Confidence) -> Result<Interval, StatsError> {
    let z = normal_quantile(confidence.below_upper_end())?;
    let (n, p) = (share.of as f64, share.value());
    let more = z * z / n;
    let half = z * ((p * (1.0 - p) + more / 4.0) / n).sqrt();
    let ends = |low: f64, high: f64| Interval {
        low: (low / (1.0 + more)).clamp(0.0, 1.0),
        high: (high / (1.0 + more)).clamp(0.0, 1.0),
    };
    let middle = p + more / 2.0;
    let found = ends(middle - half, middle + half);
    // Exactly, where rounding would leave a remnant.
    Ok(Interval {
        low: if share.hits == 0 { 0.0 } else { found.low },
        high: if share.hits == share.of {
            1.0
        } else {
            found.high
        },
    })
}

/// An interval that holds the true share at least as often as its confidence says, whatever that share is.
///
/// # Formula
///
/// ```text
/// low  = B(α/2; x, n − x + 1), 0 for x = 0        high = B(1 − α/2; x + 1, n − x), 1 for x = n
/// B the quantile of the beta distribution, α = 1 − c
/// ```
///
/// None of n gives 1 − (α/2)^(1/n) above; at one-sided confidence c, ask for 2c − 1.
///
/// # Errors
///
/// None that a [`Share`] and a [`Confidence`] could bring.
///
/// # Source
///
/// C. J. Clopper and E. S. Pearson, *The use of confidence or fiducial limits illustrated in the case of the
/// binomial*, Biometrika 26 (1934).
pub fn clopper_pearson(share: Share, confidence: Confidence) -> Result<Interval, StatsError> {
    let (x, n) = (share.hits as f64, share.of as f64);
    let tail = 1.0 - confidence.below_upper_end();
    let low = if share.hits == 0 {
        0.0
    } else {
        beta_quantile(tail, x, n - x + 1.0)?
    };
    let high = if share.hits == share.of {
        1.0
    } else {
        1.0 - beta_quantile(tail, n - x, x + 1.0)?
    };
    Ok(Interval { low, high })
}

/// A difference of two shares and its interval, −1 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShareDifference {
    /// d = p₁ − p₂.
    pub value: f64,
    /// Its interval.
    pub interval: Interval,
}

/// The difference of two shares that do not depend on each other, of the first less the second.
///
/// # Formula
///
/// ```text
/// d − √( (p₁ − l₁)² + (u₂ − p₂)² ) to d + √( (u₁ − p₁)² + (p₂ − l₂)² )        l to u as of [`wilson`]
/// ```
///
/// # Errors
///
/// None that shares and a [`Confidence`] could bring.
///
/// # Source
///
/// R. G. Newcombe, *Interval estimation for the difference between independent proportions*, Statistics in Medicine
/// 17 (1998), method 10.
pub fn newcombe(
    first: Share,
    second: Share,
    confidence: Confidence,
) -> Result<ShareDifference, StatsError> {
    let (p, q) = (first.value(), second.value());
    let (one, two) = (wilson(first, confidence)?, wilson(second, confidence)?);
    let value = p - q;
    Ok(ShareDifference {
        value,
        interval: Interval {
            low: value - libm::hypot(p - one.low, two.high - q),
            high: value + libm::hypot(one.high - p, q - two.low),
        },
    })
}
