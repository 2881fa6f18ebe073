//! What is claimed of a difference, and what became of it.

use crate::error::StatsError;

/// Which way a difference is for the worse.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Worse {
    /// The first group is worse where it lies higher: wear.
    Higher,
    /// The first group is worse where it lies lower: a score.
    Lower,
}

impl Worse {
    /// How much worse the first group is by a difference, in its unit; and back, as it is its own inverse.
    pub(super) fn turn(self, difference: f64) -> f64 {
        match self {
            Self::Higher => difference,
            Self::Lower => -difference,
        }
    }
}

/// The margin Δ by which a group may be worse: above 0, in the unit of the samples.
///
/// It is chosen before the samples are looked at.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Margin(f64);

impl Margin {
    /// A margin.
    ///
    /// # Errors
    ///
    /// [`StatsError::OutOfRange`] at or below 0, when infinite and for what is not a number.
    pub fn new(delta: f64) -> Result<Self, StatsError> {
        if delta > 0.0 && delta.is_finite() {
            Ok(Self(delta))
        } else {
            Err(StatsError::OutOfRange {
                what: "margin",
                given: delta,
                low: f64::MIN_POSITIVE,
                high: f64::MAX,
            })
        }
    }

    /// Δ, in the unit of the samples.
    pub fn get(self) -> f64 {
        self.0
    }
}

/// What became of a claim.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Shown, at the confidence asked for.
    Supported,
    /// Neither shown nor contradicted: with so few samples, or so much scatter, nothing can be said.
    NotShown,
    /// The contrary is shown, at the confidence asked for.
    Contradicted,
}

impl Verdict {
    /// Contradicted where both are, which only a confidence under one half could bring.
    pub(super) fn of(supported: bool, contradicted: bool) -> Self {
        match (supported, contradicted) {
            (_, true) => Self::Contradicted,
            (true, false) => Self::Supported,
            (false, false) => Self::NotShown,
        }
    }
}
