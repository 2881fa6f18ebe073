//! Curves through paired samples by least squares, with what they say of the next sample.
//!
//! All of them take the scatter of y about the curve as normal, of one size everywhere, and x as exact.

mod choice;
mod line;
mod polynomial;
mod power;
mod ratio;
mod units;

pub use choice::{CLEARLY, Choice, Compared, Curve, Why, compare};
pub use line::{Intercept, LineFit, fit_line};
pub use polynomial::{Coefficient, HIGHEST_DEGREE, PolynomialFit, fit_polynomial};
pub use power::{EXPONENTS, PowerFit, fit_power};
pub use ratio::{Estimate, Possible, possible_ratios};
pub use units::{Between, Slope, UnitsFit, Weighting, compare_units};
