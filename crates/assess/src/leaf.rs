//! The score of a leaf: the mean of each rater's current look.

use ringland_card::{
    Standing,
    entry::{Body, Entry, Look},
    ids::EntryId,
    plan::{LeafId, Trigger},
};

use crate::{
    gauging::finding::{counts, finding},
    look::{LookScore, score_entry, share_score},
    tree::Tree,
};

/// One rater's scored look.
#[derive(Clone, Debug, PartialEq)]
pub struct ScoredLook {
    /// The entry.
    pub entry: EntryId,
    /// The rater's number in [`raters`]; none for a measurement, which has no rater's bias.
    pub rater: Option<usize>,
    /// What it is worth.
    pub scored: LookScore,
}

/// The score of one characteristic in one position.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LeafScore {
    /// The scored looks, one of each rater.
    pub looks: Vec<ScoredLook>,
    /// Their mean; none where there is none.
    pub score: Option<f64>,
    /// Whether it takes no part in the roll-up: a size that the card's sheet does not know.
    pub left_out: bool,
    /// By cap rule that looks at the leaf: whether a look sets it off.
    set_off: Vec<bool>,
}

impl LeafScore {
    /// Whether a look sets off the rule that stands at this place among those that look at the leaf.
    pub(crate) fn sets_off(&self, place: usize) -> bool {
        self.set_off.get(place).copied().unwrap_or(false)
    }
}

/// The names of all whose ratings stand, in order.
pub fn raters<'c>(standing: &Standing<'c>) -> Vec<&'c str> {
    let mut names: Vec<&str> = standing
        .looks
        .iter()
        .flatten()
        .filter(|entry| matches!(entry.body, Body::Rating { .. }))
        .map(|entry| entry.rater.as_str())
        .collect();
    names.sort_unstable();
    names.dedup();
    names
}

/// Scores every leaf, in the order of the plan.
pub fn score_leaves(standing: &Standing<'_>, tree: &Tree, raters: &[&str]) -> Vec<LeafScore> {
    (0..tree.leaf_count())
        .map(|leaf| score_leaf(standing, tree, raters, LeafId(leaf)))
        .collect()
}

fn score_leaf(standing: &Standing<'_>, tree: &Tree, raters: &[&str], id: LeafId) -> LeafScore {
    if standing.index.leaves()[id.0].gauged {
        return score_size(standing, id);
    }
    let entries = &standing.looks[id.0];
    if entries.is_empty() {
        return LeafScore::default();
    }
    let characteristic = standing.index.leaves()[id.0].characteristic(standing.plan);
    let Some(scale) = standing.plan.scale(&characteristic.scale) else {
        return LeafScore::default();
    };
    let looks: Vec<ScoredLook> = entries
        .iter()
        .filter_map(|entry| {
            let scored = score_entry(entry, characteristic, scale)?;
            let rater = match entry.body {
                Body::Rating { .. } => raters.binary_search(&entry.rater.as_str()).ok(),
                _ => None,
            };
            Some(ScoredLook {
                entry: entry.id,
                rater,
                scored,
            })
        })
        .collect();
    let score = (!looks.is_empty())
        .then(|| looks.iter().map(|look| look.scored.score).sum::<f64>() / looks.len() as f64);
    let set_off = tree
        .watched_by(id)
        .iter()
        .map(|rule| {
            let when = &standing.plan.caps[*rule].when;
            entries.iter().any(|entry| meets(entry, when))
        })
        .collect();
    LeafScore {
        looks,
        score,
        left_out: false,
        set_off,
    }
}

/// The score of a size that was read with a gauge: of the share of the wear allowance that is used. It has
/// no rater's bias.
fn score_size(standing: &Standing<'_>, id: LeafId) -> LeafScore {
    if !counts(standing, id) {
        return LeafScore {
            left_out: true,
            ..LeafScore::default()
        };
    }
    let scored = finding(standing, id).and_then(|found| {
        let spot = found.spots.iter().find(|spot| spot.spot == found.at);
        let entry = *spot.or(found.spots.first())?.entries.first()?;
        Some(ScoredLook {
            entry,
            rater: None,
            scored: share_score(found.share.as_ref()?),
        })
    });
    LeafScore {
        score: scored.as_ref().map(|look| look.scored.score),
        looks: scored.into_iter().collect(),
        ..LeafScore::default()
    }
}

fn meets(entry: &Entry, when: &Trigger) -> bool {
    let Body::Rating { look, .. } = &entry.body else {
        return false;
    };
    match (when, look) {
        (Trigger::GradeAtLeast(least), Look::Grade(grade)) => grade >= least,
        (Trigger::PercentOver(most), Look::Percent(percent)) => percent > most,
        (Trigger::CountOver(most), Look::Count(count)) => count > most,
        (Trigger::StateIn(states), Look::State(state)) => states.contains(state),
        _ => false,
    }
}
