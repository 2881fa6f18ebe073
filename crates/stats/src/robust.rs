//! A middle and a scatter that strays do not move, and the strays themselves.

use crate::{
    error::{StatsError, check, finite},
    spread::{mean, sorted},
};

/// A sample whose modified z-score lies further from 0 than this is called an outlier.
///
/// Source: Iglewicz and Hoaglin 1993, as the NIST/SEMATECH e-Handbook 1.3.5.17 recommends it.
pub const OUTLIER: f64 = 3.5;

/// What the median of |x − median| is of a standard deviation, for a normal distribution: Φ⁻¹(3/4).
const MAD_OF_SD: f64 = 0.6745;

/// What a standard deviation is of the mean of |x − median|, for a normal distribution: √(π/2).
const SD_OF_MEAN_DEVIATION: f64 = 1.253_314;

/// The median, in the unit of the samples: the middle one in order, midway between the two middle ones
/// of an even number.
///
/// # Errors
///
/// [`StatsError::TooFew`] for no samples, [`StatsError::NotFinite`].
pub fn median(samples: &[f64]) -> Result<f64, StatsError> {
    check("median", samples, 1)?;
    let sorted = sorted(samples);
    let half = sorted.len() / 2;
    Ok(if sorted.len() % 2 == 1 {
        sorted[half]
    } else {
        f64::midpoint(sorted[half - 1], sorted[half])
    })
}

/// The median absolute deviation from the median, in the unit of the samples, not scaled.
///
/// # Formula
///
/// ```text
/// MAD = median |xᵢ − median x|
/// ```
///
/// # Errors
///
/// [`StatsError::TooFew`] for no samples, [`StatsError::NotFinite`], [`StatsError::Overflow`].
pub fn mad(samples: &[f64]) -> Result<f64, StatsError> {
    median(&deviations(samples)?)
}

/// How far each sample strays from the median, in robust standard deviations (no unit).
///
/// # Formula
///
/// ```text
/// MAD > 0:   Mᵢ = 0.6745·(xᵢ − median x) / MAD
/// MAD = 0:   Mᵢ = (xᵢ − median x) / (1.253314·Σ |xⱼ − median x| / n)
/// all equal: Mᵢ = 0
/// ```
///
/// The second line stands in where more than half of the samples are equal. There a sample that alone
/// differs among n strays by n/1.253314 however little it differs: the reader must see by how much.
/// A sample is called an outlier past [`OUTLIER`]. It is to be looked at, never to be left out for it.
///
/// # Errors
///
/// [`StatsError::TooFew`] for no samples, [`StatsError::NotFinite`], [`StatsError::Overflow`].
///
/// # Source
///
/// B. Iglewicz and D. C. Hoaglin, *How to detect and handle outliers*, ASQC 1993, section 3.3, as in the
/// NIST/SEMATECH e-Handbook 1.3.5.17 (from memory). The second line: common practice of statistics
/// packages, whose manuals print it with this constant.
pub fn modified_z(samples: &[f64]) -> Result<Vec<f64>, StatsError> {
    let middle = median(samples)?;
    let deviations = deviations(samples)?;
    let (of_median, of_mean) = (median(&deviations)?, mean(&deviations)?);
    let sd = if of_median > 0.0 {
        of_median / MAD_OF_SD
    } else {
        SD_OF_MEAN_DEVIATION * of_mean
    };
    if sd > 0.0 {
        samples
            .iter()
            .map(|x| finite("modified z-score", (x - middle) / sd))
            .collect()
    } else {
        Ok(vec![0.0; samples.len()])
    }
}

fn deviations(samples: &[f64]) -> Result<Vec<f64>, StatsError> {
    let middle = median(samples)?;
    samples
        .iter()
        .map(|x| finite("deviation from the median", (x - middle).abs()))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn all_close(got: &[f64], want: &[f64], within: f64) {
        assert_eq!(got.len(), want.len());
        for (got, want) in got.iter().zip(want) {
            assert!((got - want).abs() <= within, "got {got}, want {want}");
        }
    }

    /// By hand: in order 1 2 4 7 9 the middle is 4, deviations 3 2 0 3 5, in order 0 2 3 3 5.
    #[test]
    fn median_and_mad_by_hand() {
        let samples = [9.0, 1.0, 4.0, 7.0, 2.0];
        assert_eq!(median(&samples), Ok(4.0));
        assert_eq!(mad(&samples), Ok(3.0));
        assert_eq!(median(&[3.0, 1.0, 2.0, 10.0]), Ok(2.5));
    }

    /// By hand from the formula: median 4, MAD 3, so 9 scores 0.6745·5/3.
    #[test]
    fn scores_by_the_median_deviation() {
        let scores = modified_z(&[9.0, 1.0, 4.0, 7.0, 2.0]).unwrap();
        all_close(
            &scores,
            &[
                0.6745 * 5.0 / 3.0,
                -0.6745,
                0.0,
                0.6745,
                -0.6745 * 2.0 / 3.0,
            ],
            1e-12,
        );
    }

    /// By hand from the formula: five equal and one 3 lower have MAD 0 and mean deviation 1/2, so the
    /// odd one scores −3/(1.253314/2) = −6/1.253314 = −4.78731 (five decimals).
    #[test]
    fn more_than_half_equal_falls_back_on_the_mean_deviation() {
        let scores = modified_z(&[9.0, 9.0, 6.0, 9.0, 9.0, 9.0]).unwrap();
        all_close(&scores, &[0.0, 0.0, -4.787_31, 0.0, 0.0, 0.0], 5e-6);
        assert!(scores[2].abs() > OUTLIER);
    }

    #[test]
    fn all_equal_never_strays() {
        assert_eq!(modified_z(&[5.0; 4]), Ok(vec![0.0; 4]));
        assert_eq!(modified_z(&[5.0]), Ok(vec![0.0]));
    }

    #[test]
    fn bad_samples_are_refused() {
        for samples in [&[][..], &[1.0, f64::NAN], &[f64::NEG_INFINITY]] {
            assert!(median(samples).is_err());
            assert!(mad(samples).is_err());
            assert!(modified_z(samples).is_err());
        }
        assert_eq!(
            modified_z(&[f64::MAX, f64::MAX, f64::MIN]),
            Err(StatsError::Overflow {
                what: "deviation from the median"
            })
        );
    }
}
