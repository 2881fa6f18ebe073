//! Groups side by side: by how much they differ, how sure that is, and whether one is no worse than another.
//!
//! What is compared are units that do not depend on each other. Several readings of one unit are repeats: they are
//! made into one value for it before they come here, or the units would count as more than they are
//! ([`anova::design_effect`] tells how much more). A difference is always that of the first group less the second.

pub mod anova;
mod claim;
pub mod permutation;
pub mod rank;
pub mod welch;

pub use claim::{Margin, Verdict, Worse};

use crate::{
    confidence::Confidence,
    error::{StatsError, check},
};

/// What a test holds against "no difference".
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Alternative {
    /// The groups differ, either way.
    Differ,
    /// The first group lies higher.
    Higher,
    /// The first group lies lower.
    Lower,
}

/// Refuses a group that `check` refuses, and fewer than two groups; gives the number of samples in all.
fn check_groups(
    what: &'static str,
    groups: &[&[f64]],
    least_each: usize,
) -> Result<usize, StatsError> {
    at_least(what, groups.len(), 2)?;
    for group in groups {
        check(what, group, least_each)?;
    }
    Ok(groups.iter().map(|group| group.len()).sum())
}

fn at_least(what: &'static str, got: usize, least: usize) -> Result<(), StatsError> {
    if got < least {
        Err(StatsError::TooFew { what, got, least })
    } else {
        Ok(())
    }
}

/// Refuses a confidence under one half, with which a claim and its contrary could both be shown.
fn one_sided(confidence: Confidence) -> Result<f64, StatsError> {
    within("confidence", confidence.share(), 0.5, 1.0)
}

/// Refuses what lies outside `low` to `high`, NaN included.
pub(crate) fn within(
    what: &'static str,
    given: f64,
    low: f64,
    high: f64,
) -> Result<f64, StatsError> {
    if low <= given && given <= high {
        Ok(given)
    } else {
        Err(StatsError::OutOfRange {
            what,
            given,
            low,
            high,
        })
    }
}
