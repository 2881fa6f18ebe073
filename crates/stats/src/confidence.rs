//! How sure, on how much knowledge, and between which values.

use crate::error::StatsError;

/// A confidence, or a coverage probability: strictly between 0 and 1.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Confidence(f64);

impl Confidence {
    /// 95 %.
    pub const P95: Self = Self(0.95);
    /// 99 %.
    pub const P99: Self = Self(0.99);

    /// A confidence as a share of 1.
    ///
    /// # Errors
    ///
    /// [`StatsError::OutOfRange`] at or outside 0 and 1, and for what is not a number.
    pub fn new(share: f64) -> Result<Self, StatsError> {
        if share > 0.0 && share < 1.0 {
            Ok(Self(share))
        } else {
            Err(StatsError::OutOfRange {
                what: "confidence",
                given: share,
                low: 0.0,
                high: 1.0,
            })
        }
    }

    /// As a share of 1.
    pub fn share(self) -> f64 {
        self.0
    }

    /// The probability below the upper end of the two-sided interval: (1 + c)/2.
    pub(crate) fn below_upper_end(self) -> f64 {
        f64::midpoint(1.0, self.0)
    }
}

/// Degrees of freedom: above 0, and infinite for what is known as well as a distribution can be.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Dof(f64);

impl Dof {
    /// As few as a single difference leaves.
    pub const ONE: Self = Self(1.0);
    /// No doubt about the standard uncertainty itself.
    pub const INFINITE: Self = Self(f64::INFINITY);

    /// So many degrees of freedom, a whole number or not.
    ///
    /// # Errors
    ///
    /// [`StatsError::OutOfRange`] at or below 0, and for what is not a number.
    pub fn new(degrees: f64) -> Result<Self, StatsError> {
        if degrees > 0.0 {
            Ok(Self(degrees))
        } else {
            Err(StatsError::OutOfRange {
                what: "degrees of freedom",
                given: degrees,
                low: 0.0,
                high: f64::INFINITY,
            })
        }
    }

    /// What `samples` leave over after `parameters` were fitted to them; none where nothing is left.
    pub(crate) fn left(samples: usize, parameters: usize) -> Option<Self> {
        let left = samples.checked_sub(parameters)?;
        (left > 0).then_some(Self(left as f64))
    }

    /// The number, which may be infinite.
    pub fn get(self) -> f64 {
        self.0
    }

    /// Cut to the whole number below, as JCGM 100 G.4.2 has it, but never under 1.
    #[must_use]
    pub fn truncated(self) -> Self {
        Self(self.0.floor().max(1.0))
    }
}

/// All values from one to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// The lower end.
    pub low: f64,
    /// The upper end.
    pub high: f64,
}

impl Interval {
    /// `middle` ± `half`.
    pub(crate) fn around(what: &'static str, middle: f64, half: f64) -> Result<Self, StatsError> {
        let (low, high) = (middle - half, middle + half);
        if low.is_finite() && high.is_finite() {
            Ok(Self { low, high })
        } else {
            Err(StatsError::Overflow { what })
        }
    }

    /// Whether a value lies in it, its ends included.
    pub fn contains(self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }
}
