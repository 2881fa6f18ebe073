//! What many draws come to.

use super::BLOCK;
use crate::{
    confidence::{Confidence, Interval},
    error::{StatsError, check, finite},
    spread,
};

/// The distribution of a result, in its unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Summary {
    /// The mean of the draws.
    pub mean: f64,
    /// The standard uncertainty: the standard deviation of the draws.
    pub u: f64,
    /// As many draws below as above.
    pub symmetric: Interval,
    /// The shortest that holds the same share of the draws.
    pub shortest: Interval,
}

/// Puts draws into order and summarises them.
///
/// # Formula
///
/// ```text
/// q = ⌊c·M + 1/2⌋        symmetric: y₍r₎ to y₍r+q₎, r = ⌊(M − q + 1)/2⌋
/// shortest: the least y₍r+q₎ − y₍r₎ over r = 1 … M − q
/// ```
///
/// # Errors
///
/// [`StatsError::TooFew`] under two draws or where c·M leaves no draw outside, [`StatsError::NotFinite`],
/// [`StatsError::Overflow`].
///
/// # Source
///
/// JCGM 101:2008 7.6 and 7.7.
pub fn summarise(draws: &mut [f64], confidence: Confidence) -> Result<Summary, StatsError> {
    let what = "coverage interval";
    check(what, draws, 2)?;
    draws.sort_unstable_by(f64::total_cmp);
    let m = draws.len();
    let inside = whole(confidence.share() * m as f64 + 0.5);
    if inside >= m {
        return Err(StatsError::TooFew {
            what,
            got: m,
            least: whole(1.0 / (1.0 - confidence.share())) + 1,
        });
    }
    let interval = |r: usize| Interval {
        low: draws[r - 1],
        high: draws[r - 1 + inside],
    };
    let mut shortest = interval(1);
    for r in 2..=m - inside {
        let other = interval(r);
        if other.high - other.low < shortest.high - shortest.low {
            shortest = other;
        }
    }
    Ok(Summary {
        mean: finite(what, spread::mean(draws)?)?,
        u: spread::sample_sd(draws)?,
        symmetric: interval((m - inside).div_ceil(2)),
        shortest,
    })
}

/// The draw that a share p of them does not exceed; draws may be infinite.
///
/// A sample brackets it, one pass sets the bracket apart, and only there is it sought: most draws are looked
/// at once. Where the bracket missed it, which does not happen to draws in the order drawn, all are sought through.
///
/// # Errors
///
/// [`StatsError::TooFew`] without draws, [`StatsError::OutOfRange`] when p is not within 0 and 1.
pub fn quantile_of_draws(draws: &[f64], p: f64) -> Result<f64, StatsError> {
    if !(0.0..=1.0).contains(&p) {
        return Err(StatsError::OutOfRange {
            what: "p",
            given: p,
            low: 0.0,
            high: 1.0,
        });
    }
    let m = draws.len();
    if m == 0 {
        return Err(StatsError::TooFew {
            what: "quantile of draws",
            got: 0,
            least: 1,
        });
    }
    let place = whole(p * m as f64).min(m - 1);
    Ok(bracketed(draws, place).unwrap_or_else(|| nth(draws.to_vec(), place)))
}

/// The draw in a place of their order; the place is one of theirs.
fn nth(mut draws: Vec<f64>, place: usize) -> f64 {
    let (_, draw, _) = draws.select_nth_unstable_by(place, f64::total_cmp);
    *draw
}

/// The same by way of a bracket; none where there are few draws or it is not in the bracket.
fn bracketed(draws: &[f64], place: usize) -> Option<f64> {
    const SAMPLE: usize = 1024;
    /// Standard errors of the sample's own quantile on either side.
    const WIDE: f64 = 4.0;
    let step = draws.len() / SAMPLE;
    if step < 8 {
        return None;
    }
    let sample: Vec<f64> = draws.iter().copied().step_by(step).collect();
    let p = place as f64 / draws.len() as f64;
    let middle = p * sample.len() as f64;
    let half = WIDE * (middle * (1.0 - p)).sqrt() + 1.0;
    let above = whole(middle + half);
    let high = if above < sample.len() {
        nth(sample.clone(), above)
    } else {
        f64::INFINITY
    };
    let low = if middle > half {
        nth(sample, whole(middle - half))
    } else {
        f64::NEG_INFINITY
    };
    let mut below = 0;
    let mut inside = Vec::with_capacity(draws.len() / 8);
    let mut kept = [0.0; BLOCK];
    for block in draws.chunks(BLOCK) {
        below += block.iter().filter(|draw| **draw < low).count();
        // Written whether it is to be kept or not, as a branch would be guessed wrong too often.
        let mut n = 0;
        for &draw in block {
            kept[n] = draw;
            n += usize::from(low <= draw) * usize::from(draw <= high);
        }
        inside.extend_from_slice(&kept[..n]);
    }
    let place = place.checked_sub(below)?;
    (place < inside.len()).then(|| nth(inside, place))
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "of a number that is not below 0 the whole part is meant"
)]
fn whole(x: f64) -> usize {
    x as usize
}
