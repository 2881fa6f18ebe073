//! The distributions that the other figures rest on, from `statrs`: held against scipy in
//! `tests/distributions.rs`.

use statrs::{
    distribution::{ContinuousCDF, FisherSnedecor, Normal, StudentsT},
    function::{beta::checked_beta_reg, gamma::checked_gamma_ur},
};

use crate::{
    confidence::{Confidence, Dof},
    error::{StatsError, finite},
};

/// Φ(z): how probable a standard normal value at or below z is.
///
/// # Formula
///
/// ```text
/// Φ(z) = erfc(−z/√2)/2
/// ```
pub fn normal_cdf(z: f64) -> f64 {
    0.5 * libm::erfc(-z * std::f64::consts::FRAC_1_SQRT_2)
}

/// Φ⁻¹(p): the standard normal value that lies above a share p of all.
///
/// # Errors
///
/// [`StatsError::OutOfRange`] when p is not strictly between 0 and 1.
pub fn normal_quantile(p: f64) -> Result<f64, StatsError> {
    Ok(Normal::standard().inverse_cdf(probability(p)?))
}

/// How probable a value of Student's t at or below `t` is.
pub fn t_cdf(t: f64, dof: Dof) -> f64 {
    students_t(dof).map_or_else(|| normal_cdf(t), |student| student.cdf(t))
}

/// The value of Student's t that lies above a share p of all.
///
/// Above a thousand degrees of freedom by Fisher's expansion about the normal quantile, as the inverse of the
/// incomplete beta function loses its digits there.
///
/// # Errors
///
/// [`StatsError::OutOfRange`] when p is not strictly between 0 and 1.
///
/// # Source
///
/// Abramowitz and Stegun 26.7.5.
pub fn t_quantile(p: f64, dof: Dof) -> Result<f64, StatsError> {
    let p = probability(p)?;
    match students_t(dof) {
        Some(student) if dof.get() <= MANY => Ok(student.inverse_cdf(p)),
        _ => Ok(near_normal(normal_quantile(p)?, dof.get())),
    }
}

/// From here on Student's t is close enough to the normal distribution for an expansion about it.
const MANY: f64 = 1000.0;

fn near_normal(z: f64, dof: f64) -> f64 {
    let z2 = z * z;
    let first = (z2 + 1.0) / 4.0;
    let second = ((5.0 * z2 + 16.0) * z2 + 3.0) / 96.0;
    let third = (((3.0 * z2 + 19.0) * z2 + 17.0) * z2 - 15.0) / 384.0;
    let fourth = ((((79.0 * z2 + 776.0) * z2 + 1482.0) * z2 - 1920.0) * z2 - 945.0) / 92_160.0;
    z * (1.0 + (first + (second + (third + fourth / dof) / dof) / dof) / dof)
}

/// How probable a value of F above `f` is, with `upper` and `lower` degrees of freedom of the two
/// mean squares.
///
/// # Errors
///
/// [`StatsError::OutOfRange`] when a number of degrees is infinite or `f` is not a number.
pub fn f_above(f: f64, upper: Dof, lower: Dof) -> Result<f64, StatsError> {
    let refused = |given| StatsError::OutOfRange {
        what: "F or its degrees of freedom",
        given,
        low: 0.0,
        high: f64::MAX,
    };
    if f.is_nan() {
        return Err(refused(f));
    }
    let distribution = FisherSnedecor::new(upper.get(), lower.get())
        .map_err(|_infinite| refused(upper.get().max(lower.get())))?;
    Ok(if f > 0.0 { distribution.sf(f) } else { 1.0 })
}

/// The value of F that lies above a share p of all, with `upper` and `lower` degrees of freedom.
///
/// # Errors
///
/// [`StatsError::OutOfRange`] when p is not strictly between 0 and 1 or a number of degrees is infinite.
pub fn f_quantile(p: f64, upper: Dof, lower: Dof) -> Result<f64, StatsError> {
    let (a, b) = (upper.get() / 2.0, lower.get() / 2.0);
    // Of the smaller share, as 1 − z would lose its digits.
    let ratio = if p > 0.5 {
        let z = beta_quantile(1.0 - probability(p)?, b, a)?;
        (1.0 - z) / z
    } else {
        let z = beta_quantile(p, a, b)?;
        z / (1.0 - z)
    };
    finite("quantile of F", ratio * lower.get() / upper.get())
}

/// The value of a beta distribution with parameters a and b that lies above a share p of all.
///
/// By halving, over the exponent first, so that values near 0 keep their digits: `statrs`'s own inverse does not come
/// to an end for every p.
///
/// # Errors
///
/// [`StatsError::OutOfRange`] when p is not strictly between 0 and 1, or a or b not above 0 and finite.
pub(crate) fn beta_quantile(p: f64, a: f64, b: f64) -> Result<f64, StatsError> {
    let p = probability(p)?;
    let refused = |given| StatsError::OutOfRange {
        what: "parameter of a beta distribution",
        given,
        low: 0.0,
        high: f64::MAX,
    };
    for given in [a, b] {
        if !given.is_finite() {
            return Err(refused(given));
        }
    }
    let below = |x| checked_beta_reg(a, b, x).map_err(|_not_above_0| refused(a.min(b)));
    let (mut low, mut high) = (0.0, 1.0);
    // The bits of doubles above 0 are in the order of the doubles: 62 halvings bring any two together.
    for _ in 0..62 {
        let middle = f64::from_bits(u64::midpoint(f64::to_bits(low), f64::to_bits(high)));
        if below(middle)? < p {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(high)
}

/// How probable a value of χ² above `x` is.
///
/// # Formula
///
/// ```text
/// Q(ν/2, x/2), the upper regularised gamma function
/// ```
///
/// # Errors
///
/// [`StatsError::OutOfRange`] when the degrees of freedom or `x` are infinite, or `x` is not a number.
pub fn chi_squared_above(x: f64, dof: Dof) -> Result<f64, StatsError> {
    let refused = |given| StatsError::OutOfRange {
        what: "χ² or its degrees of freedom",
        given,
        low: 0.0,
        high: f64::MAX,
    };
    for given in [x, dof.get()] {
        if !given.is_finite() {
            return Err(refused(given));
        }
    }
    if x <= 0.0 {
        return Ok(1.0);
    }
    checked_gamma_ur(dof.get() / 2.0, x / 2.0).map_err(|_not_above_0| refused(dof.get()))
}

/// The factor k of a two-sided interval: Student's t that leaves (1 − c)/2 above it.
pub(crate) fn two_sided_factor(confidence: Confidence, dof: Dof) -> Result<f64, StatsError> {
    t_quantile(confidence.below_upper_end(), dof)
}

fn probability(p: f64) -> Result<f64, StatsError> {
    if p > 0.0 && p < 1.0 {
        Ok(p)
    } else {
        Err(StatsError::OutOfRange {
            what: "p",
            given: p,
            low: 0.0,
            high: 1.0,
        })
    }
}

/// None for infinite degrees of freedom, and for so many that the normal distribution is the same to
/// the last digits.
fn students_t(dof: Dof) -> Option<StudentsT> {
    const AS_GOOD_AS_NORMAL: f64 = 1e9;
    if dof.get() < AS_GOOD_AS_NORMAL {
        StudentsT::new(0.0, 1.0, dof.get()).ok()
    } else {
        None
    }
}
