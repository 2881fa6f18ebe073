//! Straight line or power law, and why.

use crate::{
    error::StatsError,
    regression::{line::LineFit, power::PowerFit},
};

/// A power law is taken only where its criterion is lower than the line's by more than this.
///
/// Source: K. P. Burnham and D. R. Anderson, *Multimodel inference*, Sociol. Methods Res. 33 (2004):
/// models within 2 of the best have substantial support. The simpler of two such is taken.
pub const CLEARLY: f64 = 2.0;

/// A curve that was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Curve {
    /// The straight line.
    Line,
    /// The power law.
    PowerLaw,
}

/// Why a curve was chosen.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// Its criterion is clearly lower.
    Better {
        /// The other curve's criterion less its own.
        by: f64,
    },
    /// The criteria are too close to tell: the line is simpler.
    AsGoodAndSimpler {
        /// The line's criterion less the power law's.
        apart: f64,
    },
    /// Too few samples for the criterion: the line is simpler.
    TooFewToTell {
        /// Samples.
        got: usize,
        /// Samples needed.
        least: usize,
    },
    /// There is no power law through these samples.
    NoPowerLaw(StatsError),
}

/// Two criteria, where there are enough samples for them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compared {
    /// AICc of the line.
    pub line: f64,
    /// AICc of the power law.
    pub power_law: f64,
}

/// What was chosen and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The curve.
    pub curve: Curve,
    /// The reason.
    pub why: Why,
    /// The criteria, where both could be worked out.
    pub criteria: Option<Compared>,
}

/// Chooses between a straight line and a power law through the same samples.
///
/// # Formula
///
/// ```text
/// AICc = n·ln(RSS/n) + 2k + 2k(k + 1)/(n − k − 1)
/// k    the numbers fitted, s among them: line 3 (2 through (0, 0)), power law 3
/// ```
///
/// Both on the squares of y itself, so that the criteria can be held against each other. A sum of squares
/// that is nothing but rounding counts as the rounding of an `f64`, so that two curves that both run
/// through every sample are alike.
///
/// # Source
///
/// C. M. Hurvich and C.-L. Tsai, *Regression and time series model selection in small samples*,
/// Biometrika 76 (1989).
pub fn compare(line: &LineFit, power: Result<&PowerFit, StatsError>) -> Choice {
    let power = match power {
        Ok(power) => power,
        Err(why) => {
            return Choice {
                curve: Curve::Line,
                why: Why::NoPowerLaw(why),
                criteria: None,
            };
        }
    };
    let least = POWER_PARAMETERS + 2;
    if line.n < least {
        return Choice {
            curve: Curve::Line,
            why: Why::TooFewToTell { got: line.n, least },
            criteria: None,
        };
    }
    let floor = (line.squares_of_y() * f64::EPSILON * f64::EPSILON).max(f64::MIN_POSITIVE);
    let criterion = |squares: f64, k: usize| aicc(line.n, k, squares.max(floor));
    let criteria = Compared {
        line: criterion(line.residual_squares, line.intercept_is.parameters() + 1),
        power_law: criterion(power.residual_squares, POWER_PARAMETERS),
    };
    let apart = criteria.line - criteria.power_law;
    let (curve, why) = if apart > CLEARLY {
        (Curve::PowerLaw, Why::Better { by: apart })
    } else if apart < -CLEARLY {
        (Curve::Line, Why::Better { by: -apart })
    } else {
        (Curve::Line, Why::AsGoodAndSimpler { apart })
    };
    Choice {
        curve,
        why,
        criteria: Some(criteria),
    }
}

/// Factor, exponent and s.
const POWER_PARAMETERS: usize = 3;

fn aicc(n: usize, k: usize, squares: f64) -> f64 {
    let (n, k) = (n as f64, k as f64);
    n * libm::log(squares / n) + 2.0 * k + 2.0 * k * (k + 1.0) / (n - k - 1.0)
}
