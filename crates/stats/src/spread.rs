//! Mean and scatter of a row of samples, and its quantiles.

use crate::error::{StatsError, check, check_pairs, finite};

/// The arithmetic mean, in the unit of the samples.
///
/// # Formula
///
/// ```text
/// x̄ = Σ xᵢ / n
/// ```
///
/// # Errors
///
/// [`StatsError::TooFew`] for no samples, [`StatsError::NotFinite`], [`StatsError::Overflow`].
pub fn mean(samples: &[f64]) -> Result<f64, StatsError> {
    check("mean", samples, 1)?;
    // Rounding must not make equal samples differ from their mean: of equals the first is taken elsewhere.
    if are_equal(samples) {
        return Ok(samples[0]);
    }
    finite("mean", samples.iter().sum::<f64>() / samples.len() as f64)
}

fn are_equal(samples: &[f64]) -> bool {
    samples
        .windows(2)
        .all(|pair| pair[0].total_cmp(&pair[1]).is_eq())
}

/// The weighted mean, in the unit of the samples.
///
/// # Formula
///
/// ```text
/// x̄ = Σ wᵢxᵢ / Σ wᵢ        wᵢ ≥ 0, of any unit
/// ```
///
/// # Errors
///
/// [`StatsError::Lengths`] when there is not one weight a sample, [`StatsError::TooFew`] for no samples,
/// [`StatsError::NotFinite`], [`StatsError::OutOfRange`] for a weight below 0, [`StatsError::NoWeight`]
/// when all are 0, [`StatsError::Overflow`].
pub fn weighted_mean(samples: &[f64], weights: &[f64]) -> Result<f64, StatsError> {
    check_pairs("weighted mean", samples, weights, 1)?;
    if let Some(&given) = weights.iter().find(|weight| **weight < 0.0) {
        return Err(StatsError::OutOfRange {
            what: "weight",
            given,
            low: 0.0,
            high: f64::INFINITY,
        });
    }
    let all: f64 = weights.iter().sum();
    if all > 0.0 {
        let sum: f64 = samples.iter().zip(weights).map(|(x, w)| x * w).sum();
        finite("weighted mean", sum / finite("weighted mean", all)?)
    } else {
        Err(StatsError::NoWeight)
    }
}

/// The standard deviation of a sample, in the unit of the samples.
///
/// # Formula
///
/// ```text
/// s = √( Σ (xᵢ − x̄)² / (n − 1) )
/// ```
///
/// Worked in two passes, the mean first, so that a large common part of the samples does no harm.
///
/// # Errors
///
/// [`StatsError::TooFew`] under two samples, [`StatsError::NotFinite`], [`StatsError::Overflow`].
pub fn sample_sd(samples: &[f64]) -> Result<f64, StatsError> {
    check("standard deviation", samples, 2)?;
    let middle = mean(samples)?;
    let squares: f64 = samples.iter().map(|x| (x - middle) * (x - middle)).sum();
    let variance = squares / (samples.len() - 1) as f64;
    finite("standard deviation", variance.sqrt())
}

/// The least and the greatest of the samples, and what lies between, in the unit of the samples.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The least sample.
    pub min: f64,
    /// The greatest sample.
    pub max: f64,
    /// max − min.
    pub width: f64,
}

/// The range of the samples.
///
/// # Formula
///
/// ```text
/// R = max xᵢ − min xᵢ
/// ```
///
/// # Errors
///
/// [`StatsError::TooFew`] for no samples, [`StatsError::NotFinite`], [`StatsError::Overflow`].
pub fn range(samples: &[f64]) -> Result<Range, StatsError> {
    check("range", samples, 1)?;
    let min = samples.iter().copied().fold(f64::INFINITY, f64::min);
    let max = samples.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let width = finite("range", max - min)?;
    Ok(Range { min, max, width })
}

/// The quantile at a share `p` of the samples, 0 to 1, in the unit of the samples.
///
/// # Formula
///
/// ```text
/// h = (n − 1)·p        Q = x₍⌊h⌋₎ + (h − ⌊h⌋)·(x₍⌊h⌋₊₁₎ − x₍⌊h⌋₎)        x₍₀₎ ≤ x₍₁₎ ≤ … in order
/// ```
///
/// The samples need not be in order. 0 gives the least, 1 the greatest, 1/2 the median.
///
/// # Errors
///
/// [`StatsError::TooFew`] for no samples, [`StatsError::NotFinite`], [`StatsError::OutOfRange`] when `p`
/// is outside 0 to 1 or not a number, [`StatsError::Overflow`].
///
/// # Source
///
/// R. J. Hyndman and Y. Fan, *Sample quantiles in statistical packages*, The American Statistician 50
/// (1996), type 7: the default of numpy and of R.
pub fn quantile(samples: &[f64], p: f64) -> Result<f64, StatsError> {
    check("quantile", samples, 1)?;
    if !(0.0..=1.0).contains(&p) {
        return Err(StatsError::OutOfRange {
            what: "p",
            given: p,
            low: 0.0,
            high: 1.0,
        });
    }
    let sorted = sorted(samples);
    let h = (sorted.len() - 1) as f64 * p;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "h is between 0 and n − 1, and its whole part is meant"
    )]
    let below = (h as usize).min(sorted.len() - 1);
    let above = (below + 1).min(sorted.len() - 1);
    let part = h - below as f64;
    finite(
        "quantile",
        sorted[below] + part * (sorted[above] - sorted[below]),
    )
}

/// The samples from least to greatest.
pub(crate) fn sorted(samples: &[f64]) -> Vec<f64> {
    let mut sorted = samples.to_vec();
    sorted.sort_unstable_by(f64::total_cmp);
    sorted
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Twenty readings and their figures, worked with numpy 2.4.6:
    ///
    /// ```python
    /// x = [12,14,15,15,16,17,18,18,19,20,21,22,24,25,28,30,33,38,45,60]
    /// np.mean(x), np.std(x, ddof=1), np.percentile(x, [25,50,75,80,90,95,98])
    /// ```
    const READINGS: [f64; 20] = [
        12.0, 14.0, 15.0, 15.0, 16.0, 17.0, 18.0, 18.0, 19.0, 20.0, 21.0, 22.0, 24.0, 25.0, 28.0,
        30.0, 33.0, 38.0, 45.0, 60.0,
    ];

    #[track_caller]
    fn close(got: Result<f64, StatsError>, want: f64, within: f64) {
        let got = got.unwrap();
        assert!((got - want).abs() <= within, "got {got}, want {want}");
    }

    #[test]
    fn twenty_readings() {
        close(mean(&READINGS), 24.5, 0.0);
        close(sample_sd(&READINGS), 11.936_234, 5e-7);
        assert_eq!(
            range(&READINGS),
            Ok(Range {
                min: 12.0,
                max: 60.0,
                width: 48.0
            })
        );
        for (percent, want) in [
            (25.0, 16.75),
            (50.0, 20.5),
            (75.0, 28.5),
            (80.0, 30.6),
            (90.0, 38.7),
            (95.0, 45.75),
            (98.0, 54.3),
        ] {
            close(quantile(&READINGS, percent / 100.0), want, 1e-12);
        }
    }

    #[test]
    fn quantile_takes_samples_in_any_order() {
        let mut turned = READINGS;
        turned.reverse();
        assert_eq!(quantile(&turned, 0.9), quantile(&READINGS, 0.9));
        assert_eq!(quantile(&turned, 0.0), Ok(12.0));
        assert_eq!(quantile(&turned, 1.0), Ok(60.0));
        assert_eq!(quantile(&[7.0], 0.3), Ok(7.0));
    }

    /// By hand: (2·1 + 1·4)/3.
    #[test]
    fn weights_count() {
        assert_eq!(weighted_mean(&[1.0, 4.0], &[2.0, 1.0]), Ok(2.0));
        assert_eq!(weighted_mean(&[1.0, 4.0], &[0.0, 1.0]), Ok(4.0));
        assert_eq!(weighted_mean(&[1.0], &[0.0]), Err(StatsError::NoWeight));
    }

    #[test]
    fn refusals_name_what_was_wrong() {
        let say = |refused: Result<f64, StatsError>| refused.unwrap_err().to_string();
        assert_eq!(say(mean(&[])), "the mean takes at least 1 samples, got 0");
        assert_eq!(
            say(sample_sd(&[1.0])),
            "the standard deviation takes at least 2 samples, got 1"
        );
        assert_eq!(
            say(mean(&[1.0, f64::INFINITY])),
            "sample 1 is inf: a finite number is needed"
        );
        assert_eq!(say(quantile(&[1.0], 1.5)), "p is 1.5: allowed is 0 to 1");
        assert_eq!(
            say(weighted_mean(&[1.0], &[])),
            "1 samples cannot be paired with 0"
        );
        assert_eq!(
            say(mean(&[f64::MAX, 1e308])),
            "the mean of these samples is too large to be worked out"
        );
        assert!(quantile(&[1.0], f64::NAN).is_err());
        assert!(weighted_mean(&[1.0, 2.0], &[1.0, -1.0]).is_err());
    }
}
