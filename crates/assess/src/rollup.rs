//! The roll-up: score, coverage, bounds, worst leaf, caps and uncertainty at every node.

use ringland_card::plan::{LeafId, Plan};

use crate::{
    leaf::LeafScore,
    tree::{NodeKind, Tree},
};

/// A cap rule that held a node down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CapBite {
    /// The rule, by number in the plan.
    pub rule: usize,
    /// The most the node may score.
    pub cap: f64,
    /// The first leaf that set the rule off.
    pub set_off_by: LeafId,
}

/// What the roll-up says of one node.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NodeScore {
    /// Score s, 0 to 10; none where nothing below is rated.
    pub score: Option<f64>,
    /// The weighted mean before caps on this node.
    pub mean: Option<f64>,
    /// Standard uncertainty u of the mean, in score.
    pub u: Option<f64>,
    /// Share of the plan below that has been rated, by weight, 0 to 1.
    pub coverage: f64,
    /// Lowest score the full plan could still give: every unrated leaf 0.
    pub low: f64,
    /// Highest score the full plan could still give: every unrated leaf 10.
    pub high: f64,
    /// The rated leaf with the lowest score below.
    pub worst: Option<(LeafId, f64)>,
    /// The cap that bit.
    pub cap: Option<CapBite>,
    /// Whether nothing below takes part in the score: sizes that the card's sheet does not know.
    pub left_out: bool,
}

impl NodeScore {
    /// The 95 % interval s ± U with U = 2u, held within 0 to 10; none where there is no score.
    pub fn interval(&self) -> Option<(f64, f64)> {
        let (s, u) = (self.score?, self.u?);
        Some(((s - 2.0 * u).max(0.0), (s + 2.0 * u).min(10.0)))
    }
}

/// The roll-up of a whole tree.
#[derive(Clone, Debug, PartialEq)]
pub struct RollUp {
    /// By node of the tree.
    pub nodes: Vec<NodeScore>,
}

impl RollUp {
    /// The engine's.
    pub fn engine(&self) -> &NodeScore {
        &self.nodes[0]
    }
}

/// What a cap rule found among the leaves it looks at.
#[derive(Clone, Copy, Debug, Default)]
struct Watch {
    set_off_by: Option<LeafId>,
    open: bool,
}

/// Rolls leaf scores up the tree.
///
/// `counts` says which leaves take part; one that does not is unrated here. Cost: linear in nodes
/// times raters.
///
/// # Formula
///
/// ```text
/// s    = Σ wᵢsᵢ / Σ wᵢ            over rated children, then min(s, caps set off)
/// cov  = Σ wᵢ·covᵢ / Σ wᵢ         over all children but those left out
/// u²   = Σᵢ cᵢ²·u_rep,i² + Σ_rater (Σ_{i of rater} cᵢ)²·u_bias²,   cᵢ = ∂s/∂sᵢ before caps
/// ```
///
/// Source of the last line: JCGM 100:2008 (GUM) 5.2.2, with correlation 1 between the looks of one
/// rater in the bias and 0 in the repeatability.
pub fn roll_up(
    plan: &Plan,
    tree: &Tree,
    leaves: &[LeafScore],
    raters: usize,
    counts: impl Fn(LeafId) -> bool,
) -> RollUp {
    let watches = watch(plan, tree, leaves, &counts);
    let mut pass = Pass {
        plan,
        tree,
        watches,
        raters,
        scores: vec![UNRATED; tree.nodes().len()],
        scatter: vec![0.0; tree.nodes().len()],
        bias: vec![0.0; tree.nodes().len() * raters],
    };
    for number in (0..tree.nodes().len()).rev() {
        match tree.nodes()[number].kind {
            NodeKind::Leaf(leaf) if leaves[leaf.0].left_out => {
                pass.scores[number].left_out = true;
            }
            NodeKind::Leaf(leaf) if counts(leaf) => pass.leaf(number, leaf, &leaves[leaf.0]),
            NodeKind::Leaf(_) => {}
            _ => pass.inner(number),
        }
    }
    RollUp { nodes: pass.scores }
}

const UNRATED: NodeScore = NodeScore {
    score: None,
    mean: None,
    u: None,
    coverage: 0.0,
    low: 0.0,
    high: 10.0,
    worst: None,
    cap: None,
    left_out: false,
};

fn watch(
    plan: &Plan,
    tree: &Tree,
    leaves: &[LeafScore],
    counts: &impl Fn(LeafId) -> bool,
) -> Vec<Watch> {
    let mut watches = vec![Watch::default(); plan.caps.len()];
    for (number, leaf) in leaves.iter().enumerate() {
        let id = LeafId(number);
        for (place, rule) in tree.watched_by(id).iter().enumerate() {
            let watch = &mut watches[*rule];
            if leaf.score.is_none() || !counts(id) {
                watch.open |= plan.caps[*rule].when.can_be_met();
            } else if leaf.sets_off(place) && watch.set_off_by.is_none() {
                watch.set_off_by = Some(id);
            }
        }
    }
    watches
}

/// One pass from the leaves to the engine.
struct Pass<'t> {
    plan: &'t Plan,
    tree: &'t Tree,
    watches: Vec<Watch>,
    raters: usize,
    scores: Vec<NodeScore>,
    /// By node: Σ cᵢ²·u_rep,i².
    scatter: Vec<f64>,
    /// By node and rater: Σ cᵢ.
    bias: Vec<f64>,
}

impl Pass<'_> {
    fn leaf(&mut self, number: usize, id: LeafId, leaf: &LeafScore) {
        let Some(score) = leaf.score else { return };
        let share = 1.0 / leaf.looks.len() as f64;
        for look in &leaf.looks {
            self.scatter[number] += share * share * look.scored.u_rep * look.scored.u_rep;
            if let Some(rater) = look.rater {
                self.bias[number * self.raters + rater] += share;
            }
        }
        self.scores[number] = NodeScore {
            score: Some(score),
            mean: Some(score),
            u: Some(self.u(number)),
            coverage: 1.0,
            low: score,
            high: score,
            worst: Some((id, score)),
            cap: None,
            left_out: false,
        };
    }

    fn inner(&mut self, number: usize) {
        let tree = self.tree;
        let node = &tree.nodes()[number];
        let (mut all, mut rated, mut sum) = (0.0, 0.0, 0.0);
        let mut out = NodeScore {
            low: 0.0,
            high: 0.0,
            ..UNRATED
        };
        for &child in &node.children {
            let weight = tree.nodes()[child].weight;
            let below = &self.scores[child];
            if below.left_out {
                continue;
            }
            all += weight;
            out.coverage += weight * below.coverage;
            out.low += weight * below.low;
            out.high += weight * below.high;
            if let Some(score) = below.score {
                rated += weight;
                sum += weight * score;
            }
            out.worst = match (out.worst, below.worst) {
                (Some(known), Some(new)) if new.1 >= known.1 => Some(known),
                (known, new) => new.or(known),
            };
        }
        // All below is left out, or what remains has no weight: nothing below it counts.
        if all <= 0.0 {
            self.scores[number].left_out = true;
            return;
        }
        out.coverage /= all;
        out.low /= all;
        out.high /= all;
        if rated > 0.0 {
            out.mean = Some(sum / rated);
            self.add_up(number, rated);
            out.u = Some(self.u(number));
        }
        out.score = out.mean;
        self.cap(&node.caps, &mut out);
        self.scores[number] = out;
    }

    /// Carries scatter and bias of the rated children up, each with its share of the weight.
    fn add_up(&mut self, number: usize, rated: f64) {
        let tree = self.tree;
        for &child in &tree.nodes()[number].children {
            if self.scores[child].score.is_some() {
                let share = tree.nodes()[child].weight / rated;
                self.scatter[number] += share * share * self.scatter[child];
                for rater in 0..self.raters {
                    self.bias[number * self.raters + rater] +=
                        share * self.bias[child * self.raters + rater];
                }
            }
        }
    }

    fn u(&self, number: usize) -> f64 {
        let u_bias = self.plan.u_bias;
        let bias = &self.bias[number * self.raters..(number + 1) * self.raters];
        let common: f64 = bias.iter().map(|sum| sum * sum * u_bias * u_bias).sum();
        (self.scatter[number] + common).sqrt()
    }

    fn cap(&self, rules: &[usize], out: &mut NodeScore) {
        for &rule in rules {
            let cap = self.plan.caps[rule].cap;
            let watch = self.watches[rule];
            if watch.open || watch.set_off_by.is_some() {
                out.low = out.low.min(cap);
            }
            if let Some(set_off_by) = watch.set_off_by {
                out.high = out.high.min(cap);
                if out.score.is_some_and(|score| cap < score) {
                    out.score = Some(cap);
                    out.cap = Some(CapBite {
                        rule,
                        cap,
                        set_off_by,
                    });
                }
            }
        }
    }
}
