//! Why samples were refused, and the checks that all functions share.

/// Why a figure cannot be worked out of these samples.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum StatsError {
    /// Fewer samples than the figure takes.
    #[error("the {what} takes at least {least} samples, got {got}")]
    TooFew {
        /// The figure asked for.
        what: &'static str,
        /// Samples given.
        got: usize,
        /// Samples needed.
        least: usize,
    },
    /// A sample that is not a number, or infinite.
    #[error("sample {place} is {given}: a finite number is needed")]
    NotFinite {
        /// Which sample, from 0.
        place: usize,
        /// The sample.
        given: f64,
    },
    /// Two rows of samples that do not pair.
    #[error("{first} samples cannot be paired with {second}")]
    Lengths {
        /// Samples in the first row.
        first: usize,
        /// Samples in the second row.
        second: usize,
    },
    /// A row in which every sample is the same.
    #[error("all {n} samples of {row} are equal, so the {what} is not defined")]
    NoSpread {
        /// The figure asked for.
        what: &'static str,
        /// The row.
        row: &'static str,
        /// Samples in it.
        n: usize,
    },
    /// An argument outside its range.
    #[error("{what} is {given}: allowed is {low} to {high}")]
    OutOfRange {
        /// The argument.
        what: &'static str,
        /// Its value.
        given: f64,
        /// The lowest allowed.
        low: f64,
        /// The highest allowed.
        high: f64,
    },
    /// Weights of which none is above 0.
    #[error("the weights sum to 0, so there is no weighted mean")]
    NoWeight,
    /// A search that ends at the end of what is searched.
    #[error("no {what} from {low} to {high} fits better than those at the ends")]
    NoBestFit {
        /// What was sought.
        what: &'static str,
        /// The lowest searched.
        low: f64,
        /// The highest searched.
        high: f64,
    },
    /// Finite samples whose figure is too large for an `f64`.
    #[error("the {what} of these samples is too large to be worked out")]
    Overflow {
        /// The figure asked for.
        what: &'static str,
    },
    /// Four points that no projective map is of.
    #[error(
        "the {row} are not the corners of a convex quadrilateral in order, or three of them lie on one line"
    )]
    NotConvex {
        /// Which four.
        row: &'static str,
    },
    /// A point that a projective map takes to infinity, or that lies on the other side of those that it does.
    #[error("the point {x}, {y} lies on the horizon of the projective map, or beyond it")]
    BeyondHorizon {
        /// Its x.
        x: f64,
        /// Its y.
        y: f64,
    },
}

/// Refuses fewer than `least` samples, NaN and infinities.
pub(crate) fn check(what: &'static str, samples: &[f64], least: usize) -> Result<(), StatsError> {
    if samples.len() < least {
        return Err(StatsError::TooFew {
            what,
            got: samples.len(),
            least,
        });
    }
    match samples.iter().position(|sample| !sample.is_finite()) {
        Some(place) => Err(StatsError::NotFinite {
            place,
            given: samples[place],
        }),
        None => Ok(()),
    }
}

/// Refuses what `check` refuses, in either row, and rows that do not pair.
pub(crate) fn check_pairs(
    what: &'static str,
    x: &[f64],
    y: &[f64],
    least: usize,
) -> Result<(), StatsError> {
    if x.len() != y.len() {
        return Err(StatsError::Lengths {
            first: x.len(),
            second: y.len(),
        });
    }
    check(what, x, least)?;
    check(what, y, least)
}

/// Refuses a result that left the range of an `f64`.
pub(crate) fn finite(what: &'static str, result: f64) -> Result<f64, StatsError> {
    if result.is_finite() {
        Ok(result)
    } else {
        Err(StatsError::Overflow { what })
    }
}
