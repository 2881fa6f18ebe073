//! Who looked, how much, and how far two raters of the same thing are apart.

use std::collections::BTreeMap;

use ringland_card::{
    Standing,
    entry::{Body, Look},
};
use ringland_stats::spread::{mean, sample_sd};

use crate::assessment::Assessment;

/// What one rater's standing entries come to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RaterLooks {
    /// Who.
    pub name: String,
    /// Ratings that give a score.
    pub ratings: usize,
    /// Measured sizes.
    pub measurements: usize,
    /// Answers that nothing was inspected.
    pub not_inspected: usize,
}

/// Two raters on what both of them rated.
#[derive(Clone, Debug, PartialEq)]
pub struct RaterPair {
    /// The first, by number in [`Assessment::raters`].
    pub a: usize,
    /// The second.
    pub b: usize,
    /// Characteristics in positions that both rated.
    pub both: usize,
    /// Mean of a's score less b's, in score.
    pub difference: f64,
    /// Standard deviation of the differences, in score; none for fewer than two.
    pub scatter: Option<f64>,
}

/// By rater, in order of their names: what they looked at.
pub fn rater_looks(standing: &Standing<'_>) -> Vec<RaterLooks> {
    let mut raters: BTreeMap<&str, RaterLooks> = BTreeMap::new();
    for entry in standing.looks.iter().flatten() {
        let rater = raters.entry(&entry.rater).or_insert_with(|| RaterLooks {
            name: entry.rater.clone(),
            ..RaterLooks::default()
        });
        match &entry.body {
            Body::Rating {
                look: Look::NotInspected(_),
                ..
            } => rater.not_inspected += 1,
            Body::Measurement { .. } => rater.measurements += 1,
            _ => rater.ratings += 1,
        }
    }
    raters.into_values().collect()
}

/// Every two raters who rated something both, in order of their names.
///
/// # Formula
///
/// ```text
/// d̄ = Σ (s_a − s_b)/n        over the n leaves that both rated
/// s_d² = Σ (d − d̄)²/(n − 1)
/// ```
///
/// A first look at agreement; it says nothing of whether a difference is more than chance.
pub fn rater_pairs(result: &Assessment) -> Vec<RaterPair> {
    let mut differences: BTreeMap<(usize, usize), Vec<f64>> = BTreeMap::new();
    for leaf in &result.leaves {
        let rated = || {
            leaf.looks
                .iter()
                .filter_map(|look| Some((look.rater?, look.scored.score)))
        };
        for (a, of_a) in rated() {
            for (b, of_b) in rated().filter(|(b, _)| *b > a) {
                differences.entry((a, b)).or_default().push(of_a - of_b);
            }
        }
    }
    differences
        .into_iter()
        .filter_map(|((a, b), apart)| {
            Some(RaterPair {
                a,
                b,
                both: apart.len(),
                difference: mean(&apart).ok()?,
                scatter: sample_sd(&apart).ok(),
            })
        })
        .collect()
}
