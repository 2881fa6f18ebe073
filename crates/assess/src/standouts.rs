//! The rows of the wear map that stand out, the most first.
//!
//! A choice of what to show first and nothing more: no row is judged here, and with many rows some will
//! stand out by chance.

use ringland_card::plan::LeafId;

use crate::{
    patterns::{MapRow, Outlier, Patterns, Spread, Trend},
    worst::lowest_first,
};

/// The strays of all rows, the furthest from their row's median first.
pub fn strays(rows: &[MapRow], patterns: &Patterns) -> Vec<(LeafId, Outlier)> {
    let strays: Vec<(LeafId, Outlier)> = rows
        .iter()
        .zip(&patterns.rows)
        .flat_map(|(row, pattern)| {
            let of = |stray: &Outlier| Some((*row.leaves.get(stray.place)?, *stray));
            pattern.outliers.iter().filter_map(of)
        })
        .collect();
    in_order(&strays, |stray| -stray.1.from_median.abs(), usize::MAX)
}

/// The `most` rows whose scores lie furthest apart, by number in `rows`; rows all alike are left out.
pub fn widest(patterns: &Patterns, most: usize) -> Vec<(usize, Spread)> {
    let rows: Vec<(usize, Spread)> = patterns
        .rows
        .iter()
        .enumerate()
        .filter_map(|(number, row)| Some((number, row.spread?)))
        .filter(|(_, spread)| spread.range > 0.0)
        .collect();
    in_order(&rows, |row| -row.1.range, most)
}

/// The `most` rows whose trend is the least likely to be chance, by number in `rows`, and in how many
/// rows a trend was looked for.
pub fn clearest_trends(patterns: &Patterns, most: usize) -> (Vec<(usize, Trend)>, usize) {
    let rows: Vec<(usize, Trend)> = patterns
        .rows
        .iter()
        .enumerate()
        .filter_map(|(number, row)| Some((number, row.trend?)))
        .collect();
    (in_order(&rows, |row| row.1.p, most), rows.len())
}

/// The first `most` by a figure, the lowest first, equals in the order given.
fn in_order<T: Copy>(all: &[T], figure: impl Fn(&T) -> f64, most: usize) -> Vec<T> {
    let figures: Vec<f64> = all.iter().map(figure).collect();
    let first = lowest_first(&figures).into_iter().take(most);
    first.map(|number| all[number]).collect()
}
