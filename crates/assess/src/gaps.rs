//! What a card does not rest on: what was not inspected and why, and what is still open.

use ringland_card::{
    Standing,
    entry::{Body, Look, NotInspected},
    plan::{LeafId, PlanIndex},
};

use crate::assessment::Answer;

/// The leaves that nobody inspected for one reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotSeen {
    /// Why.
    pub reason: NotInspected,
    /// The leaves, in plan order.
    pub leaves: Vec<LeafId>,
}

/// A part with leaves that nobody has answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OpenPart {
    /// Index of the section in the plan.
    pub section: usize,
    /// Index of the part in its section.
    pub part: usize,
    /// Leaves that nobody has answered.
    pub open: usize,
    /// Leaves in all.
    pub asked: usize,
}

/// What was not inspected, by reason in the order in which reasons are offered.
///
/// `answers` are those of the standing. Where raters gave several reasons, the last in the order of
/// entries counts.
pub fn not_seen(standing: &Standing<'_>, answers: &[Answer]) -> Vec<NotSeen> {
    let reason_of = |leaf: LeafId| {
        let last = standing.looks[leaf.0]
            .iter()
            .max_by_key(|entry| entry.order())?;
        match &last.body {
            Body::Rating {
                look: Look::NotInspected(reason),
                ..
            } => Some(*reason),
            _ => None,
        }
    };
    let mut by_reason: Vec<NotSeen> = NotInspected::ALL
        .map(|reason| NotSeen {
            reason,
            leaves: Vec::new(),
        })
        .into();
    for (number, answer) in answers.iter().enumerate() {
        let leaf = LeafId(number);
        if *answer == Answer::NotInspected
            && let Some(reason) = reason_of(leaf)
            && let Some(seen) = by_reason.iter_mut().find(|seen| seen.reason == reason)
        {
            seen.leaves.push(leaf);
        }
    }
    by_reason.retain(|seen| !seen.leaves.is_empty());
    by_reason
}

/// The parts that are not done, in strip-down order.
pub fn open_parts(index: &PlanIndex, answers: &[Answer]) -> Vec<OpenPart> {
    let mut parts: Vec<OpenPart> = Vec::new();
    for (leaf, answer) in index.leaves().iter().zip(answers) {
        // What is not measured is told with the measurements.
        if leaf.gauged {
            continue;
        }
        let known = |part: &OpenPart| (part.section, part.part) == (leaf.section, leaf.part);
        if !parts.last().is_some_and(known) {
            parts.push(OpenPart {
                section: leaf.section,
                part: leaf.part,
                open: 0,
                asked: 0,
            });
        }
        if let Some(part) = parts.last_mut() {
            part.asked += 1;
            part.open += usize::from(*answer == Answer::Open);
        }
    }
    parts.retain(|part| part.open > 0);
    parts
}
