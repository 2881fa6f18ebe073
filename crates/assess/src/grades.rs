//! Wear grades counted: a grade is ordinal, so its distribution stands beside every mean.

use ringland_card::{
    Standing,
    entry::{Body, Look},
};

/// How many looks gave each grade: none, none to trace, trace … severe, eleven steps in all.
pub type GradeCounts = [usize; 11];

/// By section of the plan: how many looks that stand gave each grade.
///
/// Each rater's current look counts once, whatever its cause. Looks on other scales are no grades.
pub fn grade_distribution(standing: &Standing<'_>) -> Vec<GradeCounts> {
    let mut sections = vec![[0; 11]; standing.plan.sections.len()];
    for (leaf, looks) in standing.index.leaves().iter().zip(&standing.looks) {
        for entry in looks {
            if let Body::Rating {
                look: Look::Grade(grade),
                ..
            } = &entry.body
            {
                sections[leaf.section][grade.half_steps()] += 1;
            }
        }
    }
    sections
}
