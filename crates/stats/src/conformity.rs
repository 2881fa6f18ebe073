//! Is a quantity within its limits, given how well it is known?
//!
//! After JCGM 106:2012 (probability of conformity, risks) and ISO 14253-1 (a verdict only where the
//! uncertainty allows one).

use crate::{
    confidence::{Confidence, Dof},
    distribution::{normal_cdf, t_cdf, t_quantile},
    error::{StatsError, finite},
    uncertainty::Standard,
};

/// The values that conform.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tolerance {
    /// Up to an upper limit.
    AtMost(f64),
    /// From a lower limit on.
    AtLeast(f64),
    /// Between two limits.
    Between {
        /// The lower limit.
        low: f64,
        /// The upper limit.
        high: f64,
    },
}

impl Tolerance {
    fn low(self) -> f64 {
        match self {
            Self::AtMost(_) => f64::NEG_INFINITY,
            Self::AtLeast(low) | Self::Between { low, .. } => low,
        }
    }

    fn high(self) -> f64 {
        match self {
            Self::AtLeast(_) => f64::INFINITY,
            Self::AtMost(high) | Self::Between { high, .. } => high,
        }
    }

    fn contains(self, value: f64) -> bool {
        self.low() <= value && value <= self.high()
    }
}

/// What can be said of a quantity and its limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It conforms, at the confidence asked for.
    Within,
    /// It does not conform, at the confidence asked for.
    Beyond,
    /// Neither can be said with this uncertainty.
    CannotSay,
}

impl Verdict {
    /// The worst of several: beyond where one is, within where all are; none of none.
    pub fn worst(verdicts: impl IntoIterator<Item = Self>) -> Option<Self> {
        let rank = |verdict: &Self| match verdict {
            Self::Within => 0,
            Self::CannotSay => 1,
            Self::Beyond => 2,
        };
        verdicts.into_iter().max_by_key(rank)
    }
}

/// A verdict with what it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conformity {
    /// How probable it is that the quantity conforms, 0 to 1.
    pub probability: f64,
    /// What can be said.
    pub verdict: Verdict,
    /// The standard uncertainty at which just something could be said of this value; none for a value on
    /// a limit, of which nothing can be said however well it is known.
    pub sufficient_u: Option<f64>,
}

/// How probable it is that a quantity conforms.
///
/// # Formula
///
/// ```text
/// p = F((high − y)/u) − F((low − y)/u)        F Student's t for the degrees of freedom, Φ for infinite
/// ```
///
/// With u = 0 it is 1 within and on the limits, 0 outside.
///
/// # Source
///
/// JCGM 106:2012 7.3 and 7.4; Student's t: 7.2.2 NOTE, from memory.
pub fn probability_of_conformity(y: f64, standard: Standard, tolerance: Tolerance) -> f64 {
    let Standard { u, dof } = standard;
    if u <= 0.0 {
        return f64::from(u8::from(tolerance.contains(y)));
    }
    let below = |limit: f64| {
        if limit.is_finite() {
            t_cdf((limit - y) / u, dof)
        } else {
            f64::from(u8::from(limit > 0.0))
        }
    };
    // The tails, which are small where it matters, rather than what lies between them.
    let under = below(tolerance.low());
    let over = if tolerance.high().is_finite() {
        t_cdf((y - tolerance.high()) / u, dof)
    } else {
        0.0
    };
    (1.0 - under - over).clamp(0.0, 1.0)
}

/// Decides on a value and its limits.
///
/// # Formula
///
/// ```text
/// within      p ≥ c
/// beyond      1 − p ≥ c
/// else        cannot say
/// sufficient  one limit L:  |L − y|/k, k the quantile c of Student's t
///             two limits:   within them, the u at which p = c; outside, as for the nearer limit
/// ```
///
/// With 95 % this is the guard band 1.65·u of ISO 14253-1:2017 (from memory).
///
/// # Errors
///
/// [`StatsError::OutOfRange`] when the uncertainty is below 0, the limits are the wrong way round, or the
/// confidence is under 1/2; [`StatsError::NotFinite`] for a value or limit that is not finite.
pub fn conformity(
    y: f64,
    standard: Standard,
    tolerance: Tolerance,
    confidence: Confidence,
) -> Result<Conformity, StatsError> {
    checked(y, standard, tolerance, confidence)?;
    let probability = probability_of_conformity(y, standard, tolerance);
    let asked = confidence.share();
    let verdict = if probability >= asked {
        Verdict::Within
    } else if 1.0 - probability >= asked {
        Verdict::Beyond
    } else {
        Verdict::CannotSay
    };
    Ok(Conformity {
        probability,
        verdict,
        sufficient_u: sufficient(y, standard.dof, tolerance, confidence)?,
    })
}

fn checked(
    y: f64,
    standard: Standard,
    tolerance: Tolerance,
    confidence: Confidence,
) -> Result<(), StatsError> {
    let limits = match tolerance {
        Tolerance::AtMost(limit) | Tolerance::AtLeast(limit) => [limit, limit],
        Tolerance::Between { low, high } => [low, high],
    };
    for (place, given) in [y, limits[0], limits[1]].into_iter().enumerate() {
        if !given.is_finite() {
            return Err(StatsError::NotFinite { place, given });
        }
    }
    let range = |what, given, low| StatsError::OutOfRange {
        what,
        given,
        low,
        high: f64::INFINITY,
    };
    if standard.u.is_nan() || standard.u < 0.0 {
        return Err(range("standard uncertainty", standard.u, 0.0));
    }
    if limits[1] < limits[0] {
        return Err(range("upper limit", limits[1], limits[0]));
    }
    if confidence.share() < 0.5 {
        return Err(StatsError::OutOfRange {
            what: "confidence of a verdict",
            given: confidence.share(),
            low: 0.5,
            high: 1.0,
        });
    }
    Ok(())
}

fn sufficient(
    y: f64,
    dof: Dof,
    tolerance: Tolerance,
    confidence: Confidence,
) -> Result<Option<f64>, StatsError> {
    let (to_low, to_high) = ((y - tolerance.low()).abs(), (tolerance.high() - y).abs());
    let nearest = to_low.min(to_high);
    let by_one = nearest / t_quantile(confidence.share(), dof)?;
    if nearest <= 0.0 {
        return Ok(None);
    }
    if !tolerance.contains(y) || to_low.max(to_high).is_infinite() {
        // At a confidence of 1/2 any uncertainty will do.
        return Ok(by_one.is_finite().then_some(by_one));
    }
    // Between half the risk on each side and all of it on the nearer one.
    let two_sided = t_quantile(confidence.below_upper_end(), dof)?;
    let (mut enough, mut too_much) = (nearest / two_sided, by_one.min(f64::MAX));
    for _ in 0..200 {
        let u = f64::midpoint(enough, too_much);
        let p = probability_of_conformity(y, Standard { u, dof }, tolerance);
        if p >= confidence.share() {
            enough = u;
        } else {
            too_much = u;
        }
    }
    Ok(Some(enough))
}

/// A quantity's spread over all items, before one is measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prior {
    /// Its mean.
    pub mean: f64,
    /// Its standard deviation.
    pub sd: f64,
}

/// What a rule of acceptance costs over many items.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Risks {
    /// The share of items that conform.
    pub conforming: f64,
    /// The consumer's: the share of items that do not conform and are accepted.
    pub consumer: f64,
    /// The producer's: the share of items that conform and are rejected.
    pub producer: f64,
}

/// The global risks of accepting what reads within `acceptance`, measured with the standard uncertainty `u`.
///
/// # Formula
///
/// ```text
/// consumer  ∫ outside the tolerance  φ((η − m)/s)/s · P(reading within acceptance | η) dη
/// producer  ∫ within the tolerance   φ((η − m)/s)/s · P(reading outside acceptance | η) dη
/// P(reading ≤ a | η) = Φ((a − η)/u)
/// ```
///
/// By Gauss and Legendre's rule on panels no wider than half of u and of s, out to 9 s.
///
/// # Errors
///
/// [`StatsError::OutOfRange`] unless s and u are above 0 and finite, and u is more than a thousandth of s
/// (below that there is no risk to speak of).
///
/// # Source
///
/// JCGM 106:2012 9.5.
pub fn global_risks(
    prior: Prior,
    u: f64,
    tolerance: Tolerance,
    acceptance: Tolerance,
) -> Result<Risks, StatsError> {
    for (what, given, low) in [
        ("standard deviation of the items", prior.sd, 0.0),
        ("standard uncertainty", u, prior.sd / 1000.0),
    ] {
        if !(given > low && given.is_finite()) {
            return Err(StatsError::OutOfRange {
                what,
                given,
                low,
                high: f64::MAX,
            });
        }
    }
    let reach = 9.0 * prior.sd;
    let (from, to) = (prior.mean - reach, prior.mean + reach);
    let low = tolerance.low().clamp(from, to);
    let high = tolerance.high().clamp(low, to);
    let widest = 0.5 * u.min(prior.sd);
    let density = |eta: f64| {
        let z = (eta - prior.mean) / prior.sd;
        libm::exp(-0.5 * z * z) / (prior.sd * (2.0 * std::f64::consts::PI).sqrt())
    };
    let accepted = |eta: f64| {
        normal_cdf((acceptance.high() - eta) / u) - normal_cdf((acceptance.low() - eta) / u)
    };
    let both = |eta: f64| density(eta) * accepted(eta);
    let neither = |eta: f64| density(eta) * (1.0 - accepted(eta));
    let z = |limit: f64| normal_cdf((limit - prior.mean) / prior.sd);
    Ok(Risks {
        conforming: z(tolerance.high()) - z(tolerance.low()),
        consumer: finite(
            "consumer's risk",
            integral(both, from, low, widest) + integral(both, high, to, widest),
        )?,
        producer: finite("producer's risk", integral(neither, low, high, widest))?,
    })
}

/// Five points of Gauss and Legendre's rule on (−1, 1) and their weights.
const GAUSS: [(f64, f64); 5] = [
    (0.0, 0.568_888_888_888_888_9),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
    (0.906_179_845_938_664, 0.236_926_885_056_189_1),
];

fn integral(f: impl Fn(f64) -> f64, from: f64, to: f64, widest: f64) -> f64 {
    let width = to - from;
    if width <= 0.0 {
        return 0.0;
    }
    let panels = (width / widest).ceil().max(1.0);
    let half = 0.5 * width / panels;
    let mut sum = 0.0;
    let mut middle = from + half;
    while middle < to {
        let panel: f64 = GAUSS
            .iter()
            .map(|(at, weight)| weight * f(middle + half * at))
            .sum();
        sum += panel;
        middle += 2.0 * half;
    }
    sum * half
}
