//! Where a histogram of shades parts into classes.
//!
//! A threshold t belongs to the class below it: class 0 is every shade up to and with t.

use crate::error::StatsError;

/// How many shades there are.
const SHADES: usize = 256;
/// The most classes that are told apart.
pub const MOST_CLASSES: usize = 5;

/// How many pixels have each of 256 shades.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Histogram([u64; SHADES]);

impl Default for Histogram {
    fn default() -> Self {
        Self([0; SHADES])
    }
}

impl FromIterator<u8> for Histogram {
    fn from_iter<I: IntoIterator<Item = u8>>(shades: I) -> Self {
        let mut counts = [0; SHADES];
        for shade in shades {
            counts[usize::from(shade)] += 1;
        }
        Self(counts)
    }
}

impl Histogram {
    /// A histogram of counts that were made elsewhere, the count of shade 0 first.
    pub fn of_counts(counts: [u64; SHADES]) -> Self {
        Self(counts)
    }

    /// The pixels of each shade, from shade 0.
    pub fn shades(&self) -> impl Iterator<Item = u64> {
        self.0.into_iter()
    }

    /// How many pixels there are.
    pub fn total(&self) -> u64 {
        self.0.iter().sum()
    }

    /// How many pixels each class has that these thresholds part, in rising order.
    pub fn counts(&self, thresholds: &[u8]) -> Vec<u64> {
        let mut counts = vec![0; thresholds.len() + 1];
        for (shade, count) in self.0.iter().enumerate() {
            let class = thresholds
                .iter()
                .filter(|threshold| usize::from(**threshold) < shade);
            counts[class.count()] += count;
        }
        counts
    }

    /// How many shades have any pixel.
    fn shades_present(&self) -> usize {
        self.0.iter().filter(|count| **count > 0).count()
    }
}

/// The threshold that parts a histogram into two classes as far from each other as can be.
///
/// # Formula
///
/// ```text
/// t = argmax ω₀(t)·ω₁(t)·(μ₀(t) − μ₁(t))²
/// ```
///
/// with ω the share of pixels of a class and μ its mean shade; of several the lowest.
///
/// # Errors
///
/// [`StatsError::TooFew`] where there are not two shades.
///
/// # Source
///
/// N. Otsu, *A threshold selection method from gray-level histograms*, IEEE Trans. Syst. Man Cybern. 9 (1979) 62-66.
pub fn otsu(histogram: &Histogram) -> Result<u8, StatsError> {
    let thresholds = multi_otsu(histogram, 2)?;
    Ok(thresholds[0])
}

/// The thresholds that part a histogram into so many classes with the least variance within them; of several the
/// lowest.
///
/// # Formula
///
/// ```text
/// (t₁ … tₖ₋₁) = argmax Σⱼ Sⱼ²/Pⱼ
/// ```
///
/// with Pⱼ the pixels of class j and Sⱼ the sum of their shades, which is the same as the least variance within. Found
/// exactly, class by class, from the best that ends at each shade.
///
/// # Errors
///
/// [`StatsError::OutOfRange`] for other than 2 to 5 classes, [`StatsError::TooFew`] where there are fewer shades
/// than classes.
///
/// # Source
///
/// P.-S. Liao, T.-S. Chen, P.-C. Chung, *A fast algorithm for multilevel thresholding*, J. Inf. Sci. Eng. 17 (2001)
/// 713-727, for what is maximised.
pub fn multi_otsu(histogram: &Histogram, classes: usize) -> Result<Vec<u8>, StatsError> {
    if !(2..=MOST_CLASSES).contains(&classes) {
        return Err(StatsError::OutOfRange {
            what: "the number of classes",
            given: classes as f64,
            low: 2.0,
            high: MOST_CLASSES as f64,
        });
    }
    if histogram.shades_present() < classes {
        return Err(StatsError::TooFew {
            what: "threshold",
            got: histogram.shades_present(),
            least: classes,
        });
    }
    let sums = Sums::of(histogram);
    // best[end]: what the classes so far, the last of them ending with that shade, come to; `ends` where each began.
    let mut best: Vec<f64> = (0..SHADES).map(|end| sums.class(0, end)).collect();
    let mut ends: Vec<Vec<u8>> = Vec::new();
    for class in 1..classes {
        let (next, from) = sums.one_more(&best, class);
        best = next;
        ends.push(from);
    }
    let mut end = SHADES - 1;
    let mut thresholds = Vec::new();
    for from in ends.iter().rev() {
        let threshold = from[end];
        thresholds.push(threshold);
        end = usize::from(threshold);
    }
    thresholds.reverse();
    Ok(thresholds)
}

/// Sums of a histogram up to each shade.
struct Sums {
    /// Pixels up to and with a shade, from 0 before the first.
    pixels: Vec<f64>,
    /// Their shades summed.
    shades: Vec<f64>,
}

impl Sums {
    fn of(histogram: &Histogram) -> Self {
        let (mut pixels, mut shades) = (vec![0.0], vec![0.0]);
        let (mut count, mut sum) = (0.0, 0.0);
        for (shade, of_shade) in histogram.0.iter().enumerate() {
            count += *of_shade as f64;
            sum += *of_shade as f64 * shade as f64;
            pixels.push(count);
            shades.push(sum);
        }
        Self { pixels, shades }
    }

    /// S²/P of the class of shades `from` to `end`; 0 where it has no pixel.
    fn class(&self, from: usize, end: usize) -> f64 {
        let pixels = self.pixels[end + 1] - self.pixels[from];
        let shades = self.shades[end + 1] - self.shades[from];
        if pixels > 0.0 {
            shades * shades / pixels
        } else {
            0.0
        }
    }

    /// The best with one class more, by the shade that it ends with, and the threshold before that class.
    fn one_more(&self, best: &[f64], classes: usize) -> (Vec<f64>, Vec<u8>) {
        let mut next = vec![f64::NEG_INFINITY; SHADES];
        let mut from = vec![0; SHADES];
        for end in classes..SHADES {
            let before = best.iter().enumerate().take(end).skip(classes - 1);
            for (threshold, before) in before {
                let sum = before + self.class(threshold + 1, end);
                if sum > next[end] {
                    next[end] = sum;
                    from[end] = u8::try_from(threshold).unwrap_or(u8::MAX);
                }
            }
        }
        (next, from)
    }
}

/// The variance within the classes that these thresholds part, in squared shades: each class's variance by its share
/// of the pixels.
///
/// Without thresholds all shades are one class, so this is their variance.
///
/// # Formula
///
/// ```text
/// σ² = Σⱼ Pⱼ·σⱼ² / Σⱼ Pⱼ = (Σ n·v² − Σⱼ Sⱼ²/Pⱼ) / Σ n
/// ```
///
/// with n pixels of shade v. The thresholds stand in rising order; one that is not above those before it is passed over.
///
/// # Errors
///
/// [`StatsError::TooFew`] where there is no pixel.
pub fn within_class_variance(histogram: &Histogram, thresholds: &[u8]) -> Result<f64, StatsError> {
    let total = histogram.total() as f64;
    if total <= 0.0 {
        return Err(StatsError::TooFew {
            what: "variance within classes",
            got: 0,
            least: 1,
        });
    }
    let sums = Sums::of(histogram);
    let squares: f64 = histogram
        .0
        .iter()
        .zip(0_u16..)
        .map(|(count, shade)| {
            let shade = f64::from(shade);
            *count as f64 * shade * shade
        })
        .sum();
    let ends = thresholds.iter().map(|threshold| usize::from(*threshold));
    let mut from = 0;
    let mut explained = 0.0;
    for end in ends.chain([SHADES - 1]) {
        if end >= from {
            explained += sums.class(from, end);
            from = end + 1;
        }
    }
    // Where each class is one shade, rounding could leave a little less than nothing.
    Ok(((squares - explained) / total).max(0.0))
}
