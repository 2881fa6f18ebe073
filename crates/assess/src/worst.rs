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
    let mut rated: Vec<(LeafId, f64)> = tree
        .nodes()
        .iter()
        .zip(&rolled.nodes)
        .filter_map(|(node, score)| match node.kind {
            NodeKind::Leaf(leaf) => Some((leaf, score.score?)),
            _ => None,
        })
        .collect();
    // The sort is stable, so that equals stay in plan order.
    rated.sort_by(|a, b| a.1.total_cmp(&b.1));
    rated.truncate(most);
    rated
}
