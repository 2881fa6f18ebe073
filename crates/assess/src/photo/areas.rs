//! From the shades of a region to shares of its area.

use ringland_card::{
    LevelId, Scale,
    photo::{Cut, PhotoAreas, Shade, ShadeClass},
    scale::CLEAN,
};
use ringland_stats::{StatsError, threshold::multi_otsu};

use super::count::ShadeCount;

/// How far each cut is moved to see what hangs on it, in shades of 256.
///
/// The project's own figure, no standard's: some three hundredths of the whole scale, by which two people who set a cut
/// by eye may well differ.
pub const MOVED_SHADES: u8 = 8;

/// Where the shades of a region part into so many classes of pixels: the start of a reading, which the rater corrects.
///
/// Where no pixel has the shades after a cut, any of them parts the same classes; the middle one is taken, which is as far
/// from either class as can be.
///
/// # Errors
///
/// [`StatsError`] for other than 2 to 5 classes, and where there are fewer shades than classes.
pub fn part(count: &ShadeCount, classes: usize) -> Result<Vec<u8>, StatsError> {
    let pixels: Vec<u64> = count.pixels.shades().collect();
    let middle = |cut: u8| {
        let after = pixels.get(usize::from(cut) + 1..).unwrap_or_default();
        let empty = after.iter().take_while(|pixels| **pixels == 0).count();
        // What lies above the last cut has a pixel, so that the run ends within the shades.
        cut.saturating_add(u8::try_from(empty / 2).unwrap_or_default())
    };
    let cuts = multi_otsu(&count.pixels, classes)?;
    Ok(cuts.into_iter().map(middle).collect())
}

/// The levels of a scale by area, the worst first, and clean last; nothing for other scales.
pub fn levels(scale: &Scale) -> Vec<LevelId> {
    let mut levels: Vec<LevelId> = scale.levels().into_iter().cloned().collect();
    if !levels.is_empty() {
        levels.extend(LevelId::new(CLEAN).ok());
    }
    levels
}

/// The level that each class begins with, from the lowest shade to the highest: the start of a reading, which the rater
/// corrects.
///
/// The darkest is the worst and the lightest clean, those between evenly spread over the levels. By colour the greyest is
/// clean, and what has more of it is the mildest level and those before it, as metal has none and lacquer has.
pub fn first_levels(shade: Shade, levels: &[LevelId], classes: usize) -> Vec<LevelId> {
    let last = levels.len().saturating_sub(1);
    let place = |class: usize| match shade {
        Shade::Lightness if classes > 1 => (class * last + (classes - 1) / 2) / (classes - 1),
        _ => last.saturating_sub(class),
    };
    let level = |class| levels.get(place(class)).cloned();
    (0..classes).filter_map(level).collect()
}

/// What one class, or the area between a cut and a moved one, has of the whole, in percent.
fn percent(count: &ShadeCount, above: Option<u8>, up_to: u8) -> f64 {
    let total: f64 = count.area.iter().sum();
    let first = above.map_or(0, |above| usize::from(above) + 1);
    let part: f64 = count
        .area
        .get(first..=usize::from(up_to))
        .unwrap_or_default()
        .iter()
        .sum();
    // Rounding must not make more than the whole of it.
    (100.0 * part / total).clamp(0.0, 100.0)
}

/// The shares of the classes that cuts in rising order part, each with its level from the lowest shade to the highest.
///
/// The last class is what the others leave, so that they come to 100.
pub fn classes(count: &ShadeCount, cuts: &[u8], levels: &[LevelId]) -> Vec<ShadeClass> {
    let from = std::iter::once(None).chain(cuts.iter().copied().map(Some));
    let to = cuts.iter().copied().chain([u8::MAX]);
    let mut left = 100.0;
    let last = cuts.len();
    from.zip(to)
        .zip(levels)
        .enumerate()
        .map(|(number, ((from, to), level))| {
            let share = if number == last {
                left
            } else {
                percent(count, from, to).min(left)
            };
            left -= share;
            ShadeClass {
                level: level.clone(),
                percent: share,
            }
        })
        .collect()
}

/// The cuts with what of the area lies within [`MOVED_SHADES`] on either side of each, as far as the next cut.
pub fn cuts(count: &ShadeCount, cuts: &[u8]) -> Vec<Cut> {
    let place = |number: usize| cuts.get(number).copied();
    let cut = |(number, at): (usize, &u8)| {
        // A cut moved beyond the lowest shade leaves its class nothing, and none is moved past the next.
        let before = number.checked_sub(1).and_then(place);
        let low = at.checked_sub(MOVED_SHADES).max(before);
        let high = at
            .saturating_add(MOVED_SHADES)
            .min(place(number + 1).unwrap_or(u8::MAX));
        Cut {
            at: *at,
            below: percent(count, low, *at),
            above: percent(count, Some(*at), high),
        }
    };
    cuts.iter().enumerate().map(cut).collect()
}

/// The standard uncertainty that where the shades part leaves in something that each class adds to by its share.
///
/// `slope` is what a percent of a level adds to it.
///
/// # Formula
///
/// ```text
/// u² = Σⱼ ((bⱼ + aⱼ)/2·|cⱼ₊₁ − cⱼ|)²/3
/// ```
///
/// with bⱼ and aⱼ the percent that cut j moves as it goes down and up, and cⱼ the slope of the class below it: each cut may
/// as well lie anywhere between, and they are moved one by one.
///
/// # Source
///
/// JCGM 100:2008, 4.3.7 (rectangular distribution) and 5.1.2.
pub fn parting_scatter(read: &PhotoAreas, slope: impl Fn(&LevelId) -> f64) -> f64 {
    let beside = read.classes.windows(2);
    let squares = read.cuts.iter().zip(beside).map(|(cut, beside)| {
        let half = f64::midpoint(cut.below, cut.above);
        let moved = half * (slope(&beside[1].level) - slope(&beside[0].level));
        moved * moved / 3.0
    });
    libm::sqrt(squares.sum::<f64>())
}

/// The same of the share of each class: the cuts beside it move it.
///
/// # Formula
///
/// ```text
/// u(pⱼ)² = h(j−1)² /3 + h(j)²/3,  h(j) = (bⱼ + aⱼ)/2
/// ```
pub fn class_scatter(cuts: &[Cut]) -> Vec<f64> {
    let square = |cut: Option<&Cut>| {
        let half = cut.map_or(0.0, |cut| f64::midpoint(cut.below, cut.above));
        half * half / 3.0
    };
    (0..=cuts.len())
        .map(|class| {
            let before = class.checked_sub(1).and_then(|before| cuts.get(before));
            libm::sqrt(square(before) + square(cuts.get(class)))
        })
        .collect()
}
