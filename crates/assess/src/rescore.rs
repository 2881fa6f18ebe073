//! A card under another plan, beside its own: the scores of both, what no longer counts, what is open.
//!
//! The card stays as it is. To move it to the plan for good is an entry of its own.

use std::collections::BTreeMap;

use ringland_card::{
    Card, Standing,
    plan::{LeafId, Plan, PlanIndex},
};

use crate::{
    assessment::{Answer, Assessment, assess},
    tree::{NodeKind, Tree},
};

/// A node of either plan's tree, told by its path.
#[derive(Clone, Debug, PartialEq)]
pub struct Beside {
    /// Its way down from the engine.
    pub path: String,
    /// Its number in the tree of the card's own plan; none where that lacks it.
    pub own: Option<usize>,
    /// Its number in the tree of the other plan; none where that lacks it.
    pub other: Option<usize>,
}

/// A card scored under another plan.
#[derive(Clone, Debug)]
pub struct Rescored {
    /// The leaves of the other plan.
    pub index: PlanIndex,
    /// The tree of the other plan.
    pub tree: Tree,
    /// What the card comes to under it.
    pub result: Assessment,
    /// Every node above the leaves: those of the other plan in its order, then those that it lacks.
    pub nodes: Vec<Beside>,
    /// Leaves of the card's own plan of which something that was said there, a rating or a reading, has
    /// no place under the other: it has no such leaf, another scale or another grid there. What was said stays on the card.
    pub no_longer: Vec<LeafId>,
    /// Leaves of the other plan that are open and that the card's own plan does not hold open.
    pub newly_open: Vec<LeafId>,
}

/// Scores a card under another plan. `tree` and `result` are those of the card under its own.
///
/// Cost: linear in both plans and the entries, but for a logarithm in finding nodes and leaves.
pub fn rescore(card: &Card, tree: &Tree, result: &Assessment, plan: &Plan) -> Rescored {
    let index = PlanIndex::of(plan);
    let other_tree = Tree::of(plan);
    let (now, then) = (Standing::of(card), Standing::under(card, plan, &index));
    let other = assess(&then, &other_tree);
    let in_other = |leaf: LeafId| {
        let at = card.index().leaf(leaf)?.at(card.plan());
        index.find(plan, &at)
    };
    let in_own = |leaf: &LeafId| {
        let at = index.leaf(*leaf)?.at(plan);
        Some(result.answers[card.index().find(card.plan(), &at)?.0])
    };
    let no_longer = (0..card.index().leaves().len())
        .map(LeafId)
        .filter(|leaf| said(&now, *leaf) > in_other(*leaf).map_or(0, |leaf| said(&then, leaf)))
        .collect();
    let newly_open = leaves_that(&other.answers, Answer::Open)
        .filter(|leaf| in_own(leaf) != Some(Answer::Open))
        .collect();
    Rescored {
        nodes: beside(tree, &other_tree),
        no_longer,
        newly_open,
        tree: other_tree,
        result: other,
        index,
    }
}

/// How many ratings and readings there are of a leaf.
fn said(standing: &Standing<'_>, leaf: LeafId) -> usize {
    standing.looks[leaf.0].len() + standing.readings[leaf.0].len()
}

fn leaves_that(answers: &[Answer], wanted: Answer) -> impl Iterator<Item = LeafId> {
    let all = answers.iter().enumerate();
    all.filter(move |(_, answer)| **answer == wanted)
        .map(|(number, _)| LeafId(number))
}

fn beside(own: &Tree, other: &Tree) -> Vec<Beside> {
    let mut only_own = paths(own);
    let mut all: Vec<Beside> = above_leaves(other)
        .map(|(number, path)| Beside {
            path: path.to_owned(),
            own: only_own.remove(path),
            other: Some(number),
        })
        .collect();
    all.extend(
        above_leaves(own)
            .filter(|(_, path)| only_own.contains_key(path))
            .map(|(number, path)| Beside {
                path: path.to_owned(),
                own: Some(number),
                other: None,
            }),
    );
    all
}

fn paths(tree: &Tree) -> BTreeMap<&str, usize> {
    // Put in one by one: collecting a map brings a sort with it, which the browser has to load.
    let mut paths = BTreeMap::new();
    for (number, path) in above_leaves(tree) {
        paths.insert(path, number);
    }
    paths
}

fn above_leaves(tree: &Tree) -> impl Iterator<Item = (usize, &str)> {
    let all = tree.nodes().iter().enumerate();
    all.filter(|(_, node)| !matches!(node.kind, NodeKind::Leaf(_)))
        .map(|(number, node)| (number, node.path.as_str()))
}
