//! What holds the engine down: its worst leaves.

use ringland_card::plan::LeafId;

use crate::{
    rollup::RollUp,
    tree::{NodeKind, Tree},
};

/// The `most` rated leaves with the lowest scores, the lowest first, in plan order among equals.
///
/// A leaf that the roll-up leaves out is not among them. Cost: n log n in the leaves.
pub fn worst_leaves(tree: &Tree, rolled: &RollUp, most: usize) -> Vec<(LeafId, f64)> {
    let rated: Vec<(LeafId, f64)> = tree
        .nodes()
        .iter()
        .zip(&rolled.nodes)
        .filter_map(|(node, score)| match node.kind {
            NodeKind::Leaf(leaf) => Some((leaf, score.score?)),
            _ => None,
        })
        .collect();
    let scores: Vec<f64> = rated.iter().map(|(_, score)| *score).collect();
    let first = lowest_first(&scores).into_iter().take(most);
    first.map(|number| rated[number]).collect()
}

/// The places of figures in a row, the lowest first, equals in the order of the row.
///
/// One sort for everything that is shown in an order: each kind of sort weighs some kilobytes in the
/// browser.
pub(crate) fn lowest_first(figures: &[f64]) -> Vec<usize> {
    let mut places: Vec<usize> = (0..figures.len()).collect();
    places.sort_by(|a, b| figures[*a].total_cmp(&figures[*b]));
    places
}
