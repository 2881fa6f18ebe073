//! Damage that holds a section down whatever its mean says.

use super::super::{CapRule, Plan, Trigger};
use crate::{
    grade::Grade,
    ids::{CapId, CharacteristicId, StateId},
};

/// The rules that something in the plan can set off.
pub(super) fn of(plan: &Plan) -> Vec<CapRule> {
    all()
        .into_iter()
        .filter(|rule| {
            plan.places().any(|(section, part, place)| {
                rule.looks_in(section, part)
                    && place
                        .looks
                        .iter()
                        .any(|look| look.id == rule.characteristic)
            })
        })
        .collect()
}

#[rustfmt::skip] // a table: one rule a line
fn all() -> [CapRule; 12] {
    [
        // id, section held down, cap, where to look, characteristic, what sets it off
        cap("lobe_pitted", "camshaft", 5.0, "camshaft/lobes", "pitted", over(10.0)),
        cap("lobe_worn", "camshaft", 4.0, "camshaft/lobes", "wear", at_least(Grade::Heavy)),
        cap("rocker_roller_seized", "rocker_gear", 4.0, "rocker_gear/rocker_arms", "roller_turns", state("seized")),
        cap("follower_roller_seized", "followers", 4.0, "followers/followers", "roller_turns", state("seized")),
        cap("liner_scuffed", "liners", 4.0, "liners/liners", "scuffed", over(5.0)),
        cap("land_broken", "pistons", 4.0, "pistons/pistons", "ring_lands_whole", state("broken")),
        cap("ring_broken", "rings", 4.0, "rings/rings", "whole", state("broken")),
        cap("ring_hot_stuck", "rings", 4.0, "rings/rings", "mobility", state("hot_stuck")),
        cap("rod_shell_wiped", "rod_bearings", 4.0, "rod_bearings/rod_shells", "wiping", at_least(Grade::Medium)),
        cap("rod_shell_fatigued", "rod_bearings", 4.0, "rod_bearings/rod_shells", "fatigued", over(10.0)),
        cap("main_shell_wiped", "main_bearings", 4.0, "main_bearings/main_shells", "wiping", at_least(Grade::Medium)),
        cap("main_shell_fatigued", "main_bearings", 4.0, "main_bearings/main_shells", "fatigued", over(10.0)),
    ]
}

fn cap(
    id: &str,
    node: &str,
    cap: f64,
    within: &str,
    characteristic: &str,
    when: Trigger,
) -> CapRule {
    CapRule {
        id: CapId::fixed(id),
        label: None,
        node: node.to_owned(),
        cap,
        within: within.to_owned(),
        characteristic: CharacteristicId::fixed(characteristic),
        when,
    }
}

fn over(percent: f64) -> Trigger {
    Trigger::PercentOver(percent)
}

fn at_least(grade: Grade) -> Trigger {
    Trigger::GradeAtLeast(grade)
}

fn state(id: &str) -> Trigger {
    Trigger::StateIn(vec![StateId::fixed(id)])
}
