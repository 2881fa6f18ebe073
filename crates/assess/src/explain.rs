//! How the score of one node was made: the roll-up taken apart again, for whoever checks it.
//!
//! Nothing is worked out in another way than by [`roll_up`](crate::rollup::roll_up): these are the
//! figures that it adds up, node by node, which is more than it keeps.

use ringland_card::plan::{LeafId, Plan};

use crate::{
    leaf::LeafScore,
    rollup::RollUp,
    tree::{NodeKind, Tree},
};

/// One child in the weighted mean of its parent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Term {
    /// The child, by number in the tree.
    pub node: usize,
    /// w: its weight among its siblings.
    pub weight: f64,
    /// w/Σw over the rated siblings, 0 to 1; none where it is not rated.
    pub share: Option<f64>,
    /// s: its score; none where it is not rated.
    pub score: Option<f64>,
    /// w·s; none where it is not rated.
    pub product: Option<f64>,
}

/// A cap rule on a node, and what it found.
#[derive(Clone, Debug, PartialEq)]
pub struct CapFound {
    /// The rule, by number in the plan.
    pub rule: usize,
    /// The most that the node may score where the rule is set off.
    pub cap: f64,
    /// The leaves that set it off, in plan order.
    pub set_off_by: Vec<LeafId>,
    /// Unrated leaves that could still set it off.
    pub open: usize,
    /// Whether it is the rule that held the node down.
    pub bit: bool,
}

/// How the score of one node was made.
///
/// # Formula
///
/// ```text
/// s before caps = Σ w·s / Σ w         over rated children
/// u² = u_looks² + u_raters²
/// u_looks²  = Σᵢ cᵢ²·u_rep,i²         over the looks below
/// u_raters² = Σ_rater (Σ_{i of rater} cᵢ)²·u_bias²
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Made {
    /// The children that take part, in plan order; none below a leaf.
    pub terms: Vec<Term>,
    /// Σ w over all children.
    pub weight: f64,
    /// Σ w over the rated children.
    pub weight_rated: f64,
    /// Σ w·s over the rated children.
    pub sum: f64,
    /// `u_looks`: what the scatter of repeated looks adds to u, in score.
    pub u_looks: f64,
    /// `u_raters`: what the raters' biases add to u, in score.
    pub u_raters: f64,
    /// By rater: the sum of the coefficients of their looks, 0 to 1.
    pub rater_shares: Vec<f64>,
    /// The cap rules on the node, in plan order.
    pub caps: Vec<CapFound>,
}

/// Takes the score of a node apart.
///
/// `rolled` is the roll-up of `leaves` over `tree`; `raters` is how many raters there are. Cost:
/// linear in the nodes below, and in all leaves for each cap rule on the node.
pub fn explain(
    plan: &Plan,
    tree: &Tree,
    leaves: &[LeafScore],
    rolled: &RollUp,
    raters: usize,
    node: usize,
) -> Made {
    let mut made = Made {
        terms: Vec::new(),
        weight: 0.0,
        weight_rated: 0.0,
        sum: 0.0,
        u_looks: 0.0,
        u_raters: 0.0,
        rater_shares: vec![0.0; raters],
        caps: caps_on(plan, tree, leaves, rolled, node),
    };
    made.weight_rated = rated_weight(tree, rolled, node);
    for &child in &tree.nodes()[node].children {
        if rolled.nodes[child].left_out {
            continue;
        }
        let weight = tree.nodes()[child].weight;
        let score = rolled.nodes[child].score;
        let product = score.map(|score| weight * score);
        made.weight += weight;
        made.sum += product.unwrap_or(0.0);
        made.terms.push(Term {
            node: child,
            weight,
            share: score
                .filter(|_| made.weight_rated > 0.0)
                .map(|_| weight / made.weight_rated),
            score,
            product,
        });
    }
    spread(plan, tree, leaves, rolled, node, &mut made);
    made
}

fn rated_weight(tree: &Tree, rolled: &RollUp, node: usize) -> f64 {
    tree.nodes()[node]
        .children
        .iter()
        .filter(|child| rolled.nodes[**child].score.is_some())
        .map(|child| tree.nodes()[*child].weight)
        .sum()
}

/// Follows each rated look's coefficient down from the node and adds up the two terms of u.
fn spread(
    plan: &Plan,
    tree: &Tree,
    leaves: &[LeafScore],
    rolled: &RollUp,
    node: usize,
    made: &mut Made,
) {
    let mut squares = 0.0;
    let mut below = vec![(node, 1.0)];
    while let Some((number, coefficient)) = below.pop() {
        if rolled.nodes[number].score.is_none() {
            continue;
        }
        if let NodeKind::Leaf(leaf) = tree.nodes()[number].kind {
            let looks = &leaves[leaf.0].looks;
            let share: f64 = coefficient / looks.len() as f64;
            for look in looks {
                squares += share * share * look.scored.u_rep * look.scored.u_rep;
                if let Some(sum) = look
                    .rater
                    .and_then(|rater| made.rater_shares.get_mut(rater))
                {
                    *sum += share;
                }
            }
        } else {
            let rated = rated_weight(tree, rolled, number);
            let children = tree.nodes()[number].children.iter();
            below.extend(
                children.map(|&child| (child, coefficient * tree.nodes()[child].weight / rated)),
            );
        }
    }
    let common: f64 = made.rater_shares.iter().map(|sum| sum * sum).sum();
    made.u_looks = squares.sqrt();
    made.u_raters = common.sqrt() * plan.u_bias;
}

fn caps_on(
    plan: &Plan,
    tree: &Tree,
    leaves: &[LeafScore],
    rolled: &RollUp,
    node: usize,
) -> Vec<CapFound> {
    let bit = rolled.nodes[node].cap.map(|bite| bite.rule);
    let found = |&rule: &usize| {
        let mut found = CapFound {
            rule,
            cap: plan.caps[rule].cap,
            set_off_by: Vec::new(),
            open: 0,
            bit: bit == Some(rule),
        };
        for (number, leaf) in leaves.iter().enumerate() {
            let id = LeafId(number);
            let Some(place) = tree.watched_by(id).iter().position(|other| *other == rule) else {
                continue;
            };
            if rolled.nodes[tree.node_of(id)].score.is_none() {
                found.open += 1;
            } else if leaf.sets_off(place) {
                found.set_off_by.push(id);
            }
        }
        found
    };
    tree.nodes()[node].caps.iter().map(found).collect()
}
