//! The rows of the wear map that stand out, the most first.
//!
//! A choice of what to show first and nothing more: no row is judged here, and with many rows some will
//! stand out by chance.

use ringland_card::plan::LeafId;

use crate::patterns::{MapRow, Outlier, Patterns, Spread, Trend};

/// The strays of all rows, the furthest from their row's median first.
pub fn strays(rows: &[MapRow], patterns: &Patterns) -> Vec<(LeafId, Outlier)> {
    let mut strays: Vec<(LeafId, Outlier)> = rows
        .iter()
        .zip(&patterns.rows)
        .flat_map(|(row, pattern)| {
            let of = |stray: &Outlier| Some((*row.leaves.get(stray.place)?, *stray));
            pattern.outliers.iter().filter_map(of)
        })
        .collect();
    strays.sort_by(|a, b| b.1.from_median.abs().total_cmp(&a.1.from_median.abs()));
    strays
}

/// The `most` rows whose scores lie furthest apart, by number in `rows`; rows all alike are left out.
pub fn widest(patterns: &Patterns, most: usize) -> Vec<(usize, Spread)> {
    let mut rows: Vec<(usize, Spread)> = patterns
        .rows
        .iter()
        .enumerate()
        .filter_map(|(number, row)| Some((number, row.spread?)))
        .filter(|(_, spread)| spread.range > 0.0)
        .collect();
    rows.sort_by(|a, b| b.1.range.total_cmp(&a.1.range));
    rows.truncate(most);
    rows
}

/// The `most` rows whose trend is the least likely to be chance, by number in `rows`, and in how many
/// rows a trend was looked for.
pub fn clearest_trends(patterns: &Patterns, most: usize) -> (Vec<(usize, Trend)>, usize) {
    let mut rows: Vec<(usize, Trend)> = patterns
        .rows
        .iter()
        .enumerate()
        .filter_map(|(number, row)| Some((number, row.trend?)))
        .collect();
    let looked = rows.len();
    rows.sort_by(|a, b| a.1.p.total_cmp(&b.1.p));
    rows.truncate(most);
    (rows, looked)
}
