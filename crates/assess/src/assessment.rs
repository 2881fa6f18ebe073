//! Everything that is worked out of one card.

use ringland_card::{Standing, entry::Cause, plan::LeafId};

use crate::{
    leaf::{LeafScore, raters, score_leaves},
    rollup::{RollUp, roll_up},
    tree::Tree,
};

/// A rated leaf that is left out of the roll-up in service, and why.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Exclusion {
    /// The leaf.
    pub leaf: LeafId,
    /// What is answerable for it.
    pub cause: Cause,
}

/// Whether a leaf has been looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Answer {
    /// Nobody has looked.
    Open,
    /// Everyone who answered said that it was not inspected.
    NotInspected,
    /// Rated or measured.
    Rated,
}

/// The roll-up of one card, twice, with what it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Assessment {
    /// Whose looks stand, in order of their names.
    pub raters: Vec<String>,
    /// By leaf: whether it has been looked at.
    pub answers: Vec<Answer>,
    /// By leaf: what is answerable for it.
    pub causes: Vec<Cause>,
    /// By leaf of the plan.
    pub leaves: Vec<LeafScore>,
    /// All causes.
    pub all: RollUp,
    /// Only what the oil answers for.
    pub in_service: RollUp,
    /// Rated leaves that the second leaves out, in plan order.
    pub exclusions: Vec<Exclusion>,
}

/// Works a card out. Cost: linear in the plan and the looks.
///
/// `tree` is that of the standing's plan.
pub fn assess(standing: &Standing<'_>, tree: &Tree) -> Assessment {
    let raters = raters(standing);
    let leaves = score_leaves(standing, tree, &raters);
    let ids = || (0..leaves.len()).map(LeafId);
    let causes: Vec<Cause> = ids().map(|leaf| standing.cause(leaf)).collect();
    let answers = ids()
        .map(
            |leaf| match (&leaves[leaf.0].score, standing.answered(leaf)) {
                (None, false) => Answer::Open,
                (None, true) if standing.not_inspected(leaf) => Answer::NotInspected,
                // Or measured, and no sheet says what that is worth.
                _ => Answer::Rated,
            },
        )
        .collect();
    let all = roll_up(standing.plan, tree, &leaves, raters.len(), |_| true);
    let exclusions = ids()
        .filter(|leaf| causes[leaf.0].excludes() && leaves[leaf.0].score.is_some())
        .map(|leaf| Exclusion {
            leaf,
            cause: causes[leaf.0],
        })
        .collect();
    let in_service = if causes.iter().any(|cause| cause.excludes()) {
        roll_up(standing.plan, tree, &leaves, raters.len(), |leaf| {
            !causes[leaf.0].excludes()
        })
    } else {
        all.clone()
    };
    Assessment {
        raters: raters.into_iter().map(str::to_owned).collect(),
        answers,
        causes,
        leaves,
        all,
        in_service,
        exclusions,
    }
}
