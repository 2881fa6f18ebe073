//! The built-in plan: what a thorough strip-down of a heavy-duty diesel lays out and looks at, in the
//! order the hands meet it.
//!
//! Weights, tables, breakpoints, caps and repeatabilities are **the project's own defaults**: no
//! standard fixes them for field teardowns. They go into the card as data and are printed with every
//! result, so that a user can change them and a reader can argue with them.
//!
//! One table makes two plans: rows marked [`short`](table::Row::short) stand in both.
//!
//! # What is looked at where, and why not everywhere
//!
//! Looking at everything everywhere would ask for over 800 ratings of an inline six, a third of them
//! said twice. The full plan keeps every part and gives each of two mating surfaces the looks that it
//! alone can answer:
//!
//! - The unloaded half of a bearing is looked at for overlay left and for wiping: starvation wipes
//!   either half, but fatigue takes load, and tracks, embedment and corrosion are judged on the half
//!   that carries it.
//! - A rod shell's back sits in the big-end bore, so its fretting is rated there, on the rod.
//! - Scoring of a camshaft bearing is rated on the journal; it runs through both.
//! - Machining marks are looked for on ground faces that slide; a roller rocker has a swivel foot.
//! - Valves of one cylinder and one kind are rated as a pair; the tulip deposit only on the intake side.
//! - Side wear is not graded by eye on an oil ring.
//! - One head carries one deck, rated as one area.
//!
//! # What is measured
//!
//! Every size that a gauge reads on the bench stands beside what is rated there, on a scale that says how
//! it is read ([`gauged`]). It counts in the score only where the card's size sheet knows what a new part
//! measures and where the wear limit is; no size ships with the plan.
//!
//! The short plan further takes the loaded shells only, the rocker station with the highest load of
//! each cylinder, the exhaust valves, the camshaft and rod journals, fewer looks on lower rings, and
//! the gears of the main train.

mod ancillaries;
mod bottom_end;
mod caps;
mod cylinders;
mod engine;
mod gauged;
mod scales;
mod table;
mod top_end;

#[cfg(test)]
mod tests;

use self::{engine::Engine, table::SectionRow};
use super::{Depth, Plan};
use crate::layout::{Layout, LayoutError};

/// The plan's name as it stands in the card.
const NAME: &str = "Ringland built-in";
/// Its version: raised whenever a position, a look, a weight or a table changes.
const VERSION: &str = "2";
/// Standard uncertainty of a rater's bias, in score, where no rater study says better.
const U_BIAS: f64 = 0.3;

/// The built-in plan of an engine.
///
/// Weights are relative among siblings; scores run from 0 to 10. All figures are the project's own
/// defaults (see `plan/builtin`).
///
/// # Errors
///
/// [`LayoutError`] when no engine has that layout.
pub fn builtin(layout: &Layout, depth: Depth) -> Result<Plan, LayoutError> {
    layout.check()?;
    let engine = Engine::of(layout);
    let sections: Vec<_> = strip_down(&engine)
        .into_iter()
        .filter_map(|section| section.at(depth))
        .collect();
    let mut plan = Plan {
        name: NAME.to_owned(),
        version: VERSION.to_owned(),
        depth,
        layout: layout.clone(),
        scales: scales::used_by(&sections),
        caps: Vec::new(),
        sections,
        u_bias: U_BIAS,
        location_factors: std::collections::BTreeMap::new(),
        criteria: Vec::new(),
        residue: None,
    };
    plan.caps = caps::of(&plan);
    Ok(plan)
}

/// The sections, top end to bottom end.
fn strip_down(engine: &Engine) -> [SectionRow; 16] {
    [
        top_end::top_deck(engine),
        top_end::rocker_gear(engine),
        top_end::camshaft(engine),
        top_end::followers(engine),
        top_end::valves(engine),
        cylinders::liners(engine),
        cylinders::pistons(engine),
        cylinders::rings(engine),
        cylinders::pins_and_rods(engine),
        bottom_end::rod_bearings(engine),
        bottom_end::main_bearings(engine),
        bottom_end::crankshaft(engine),
        bottom_end::gear_train(engine),
        ancillaries::oil_system(engine),
        ancillaries::turbocharger(engine),
        ancillaries::seals(engine),
    ]
}
