//! Sizes and grades of the same surface that do not go together.

use ringland_card::{
    entry::At,
    plan::{LeafId, Plan, PlanIndex},
};

use super::finding::Finding;
use crate::leaf::LeafScore;

/// An eye's score from which on a surface was seen as all but new.
const AS_NEW: f64 = 9.0;
/// An eye's score up to which a surface was seen as heavily worn.
const WORN: f64 = 2.5;
/// The share of the allowance from which on a part has worn much.
const MUCH: f64 = 0.5;
/// The share of the allowance up to which it has hardly worn.
const LITTLE: f64 = 0.1;

/// A size that does not go with the grade of its surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SecondLook {
    /// The size.
    pub measured: LeafId,
    /// What was rated by eye.
    pub seen: LeafId,
    /// The eye's score.
    pub score: f64,
    /// The share of the allowance that is used.
    pub share: f64,
}

impl SecondLook {
    /// Whether it has worn more than the eye saw, or less.
    pub fn has_worn_more(&self) -> bool {
        self.share >= MUCH
    }
}

/// The sizes that do not go with what was seen, in plan order. The rule is the project's own: seen as none or
/// trace with half of the allowance gone, or as heavy or worse with a tenth of it.
pub fn second_looks(
    plan: &Plan,
    index: &PlanIndex,
    findings: &[Option<Finding>],
    leaves: &[LeafScore],
) -> Vec<SecondLook> {
    let found = findings.iter().flatten();
    found
        .filter_map(|finding| {
            let share = finding.share.as_ref()?.si;
            let place = index.leaf(finding.leaf)?;
            let seen = At {
                position: place.position(plan).id.clone(),
                characteristic: place.characteristic(plan).same_surface.clone()?,
            };
            let seen = index.find(plan, &seen)?;
            let score = leaves.get(seen.0)?.score?;
            let apart = (score >= AS_NEW && share >= MUCH) || (score <= WORN && share <= LITTLE);
            apart.then_some(SecondLook {
                measured: finding.leaf,
                seen,
                score,
                share,
            })
        })
        .collect()
}
