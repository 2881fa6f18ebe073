//! How much of a score hangs on the plan's own weights and scale tables.

use std::collections::BTreeMap;

use rand::{Rng, RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use ringland_card::{
    plan::{LeafId, Plan, PlanIndex},
    scale::Method,
};
use ringland_stats::spread::quantile;

use crate::{
    leaf::LeafScore,
    rollup::RollUp,
    tree::{NodeKind, Tree},
};

/// Draws in all, wherever the spread is shown.
pub const DRAWS: usize = 1000;
/// The seed: the same card gives the same figures everywhere.
pub const SEED: u64 = 1;
/// The largest factor by which a weight is drawn up or down.
pub const WEIGHT_FACTOR: f64 = 2.0;
/// The largest power by which a scale table is bent.
pub const TABLE_POWER: f64 = 1.5;

/// The score under other weights and tables.
#[derive(Clone, Debug, PartialEq)]
pub struct Dependence {
    /// The score of each draw, in the order drawn.
    pub draws: Vec<f64>,
    /// 2.5 % of the draws lie below.
    pub low: f64,
    /// 97.5 % of the draws lie below.
    pub high: f64,
}

/// Draws weights and tables around the plan's and gives the spread of the engine's score.
///
/// Each weight is multiplied by a factor between 1/2 and 2, log-uniform; each grade, extent, count
/// and state table is bent by s → 10·(s/10)^γ, γ log-uniform between 2/3 and 3/2, so that 0, 10 and
/// the order stay. Caps act where they act under the plan. The same seed gives the same draws.
///
/// Gives nothing where nothing is rated.
pub fn dependence(
    plan: &Plan,
    index: &PlanIndex,
    tree: &Tree,
    leaves: &[LeafScore],
    rolled: &RollUp,
    seed: u64,
    draws: usize,
) -> Option<Dependence> {
    rolled.engine().score?;
    let mut drawing = Drawing::new(plan, index, seed);
    drawing.go_on(tree, leaves, rolled, draws);
    drawing.spread()
}

/// Draws under way: the same as [`dependence`], a few at a time, so that a screen stays awake.
#[derive(Clone, Debug)]
pub struct Drawing {
    rng: ChaCha8Rng,
    /// How many scales the plan has.
    scales: usize,
    /// By leaf: the number of its scale, where that one bends.
    bends: Vec<Option<usize>>,
    drawn: Vec<f64>,
}

impl Drawing {
    /// Nothing drawn yet.
    pub fn new(plan: &Plan, index: &PlanIndex, seed: u64) -> Self {
        let scales: Vec<&ringland_card::ScaleId> = plan.scales.keys().collect();
        let bends = index
            .leaves()
            .iter()
            .map(|leaf| {
                let id = &leaf.characteristic(plan).scale;
                let bends = matches!(
                    plan.scale(id)?.method(),
                    Method::Grade | Method::Extent | Method::Count | Method::State
                );
                bends.then(|| scales.binary_search(&id).ok()).flatten()
            })
            .collect();
        Self {
            rng: ChaCha8Rng::seed_from_u64(seed),
            scales: scales.len(),
            bends,
            drawn: Vec::new(),
        }
    }

    /// How many have been drawn.
    pub fn len(&self) -> usize {
        self.drawn.len()
    }

    /// Whether none has been drawn.
    pub fn is_empty(&self) -> bool {
        self.drawn.is_empty()
    }

    /// Draws so many more; where nothing is rated, nothing.
    pub fn go_on(&mut self, tree: &Tree, leaves: &[LeafScore], rolled: &RollUp, draws: usize) {
        let Self {
            rng,
            scales,
            bends,
            drawn,
        } = self;
        let (factor, power) = (libm::log(WEIGHT_FACTOR), libm::log(TABLE_POWER));
        let scores = Scores::of(leaves, bends);
        drawn.extend((0..draws).filter_map(|_| {
            let powers: Vec<f64> = (0..*scales).map(|_| log_uniform(rng, power)).collect();
            let bent = scores.bent(&powers);
            let weights = || log_uniform(rng, factor);
            draw(tree, rolled, weights, |leaf| {
                scores.of_leaf[leaf.0].map(|score| bent[score])
            })
        }));
    }

    /// The spread of what has been drawn; none where nothing was.
    pub fn spread(self) -> Option<Dependence> {
        let (low, high) = (
            quantile(&self.drawn, 0.025).ok()?,
            quantile(&self.drawn, 0.975).ok()?,
        );
        Some(Dependence {
            draws: self.drawn,
            low,
            high,
        })
    }
}

/// The scores that leaves have, each once for each scale: a thousand leaves have a few dozen between them, and bending
/// is what takes the time.
struct Scores {
    /// A score and the number of its scale, where that one bends.
    each: Vec<(f64, Option<usize>)>,
    /// By leaf: which of them it has.
    of_leaf: Vec<Option<usize>>,
}

impl Scores {
    fn of(leaves: &[LeafScore], bends: &[Option<usize>]) -> Self {
        let mut each = Vec::new();
        let mut known = BTreeMap::new();
        let of_leaf = leaves
            .iter()
            .zip(bends)
            .map(|(leaf, &scale)| {
                let score = leaf.score?;
                Some(*known.entry((score.to_bits(), scale)).or_insert_with(|| {
                    each.push((score, scale));
                    each.len() - 1
                }))
            })
            .collect();
        Self { each, of_leaf }
    }

    fn bent(&self, powers: &[f64]) -> Vec<f64> {
        let bend = |&(score, scale): &(f64, Option<usize>)| match scale {
            Some(scale) => 10.0 * libm::pow(score / 10.0, powers[scale]),
            None => score,
        };
        self.each.iter().map(bend).collect()
    }
}

fn draw(
    tree: &Tree,
    rolled: &RollUp,
    mut factor: impl FnMut() -> f64,
    bent: impl Fn(LeafId) -> Option<f64>,
) -> Option<f64> {
    let nodes = tree.nodes();
    let weights: Vec<f64> = nodes.iter().map(|node| node.weight * factor()).collect();
    let mut scores: Vec<Option<f64>> = vec![None; nodes.len()];
    for number in (0..nodes.len()).rev() {
        scores[number] = if let NodeKind::Leaf(leaf) = nodes[number].kind {
            bent(leaf)
        } else {
            let (mut sum, mut rated) = (0.0, 0.0);
            for &child in &nodes[number].children {
                if let Some(score) = scores[child] {
                    sum += weights[child] * score;
                    rated += weights[child];
                }
            }
            // The last digit of a mean of tens may lie above ten.
            (rated > 0.0).then(|| (sum / rated).min(10.0))
        };
        if let (Some(score), Some(bite)) = (scores[number], rolled.nodes[number].cap) {
            scores[number] = Some(score.min(bite.cap));
        }
    }
    scores[0]
}

/// A factor between 1/most and most, log-uniform, of the logarithm of the most.
fn log_uniform(rng: &mut impl Rng, ln_most: f64) -> f64 {
    libm::exp(ln_most * (2.0 * rng.random::<f64>() - 1.0))
}
