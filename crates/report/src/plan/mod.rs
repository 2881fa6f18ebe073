//! A plan in the making as HTML: its rows, scales and rules with their fields, what is wrong and what
//! differs from its parent.
//!
//! | what | where |
//! |---|---|
//! | sections, and what a section has in it | [`PlanSheet::rows`], [`PlanSheet::inside`] |
//! | scales with their tables | [`PlanSheet::scales`], [`PlanSheet::inside`] |
//! | cap rules, criteria, raters, location factors | [`PlanSheet::caps`], [`PlanSheet::criteria`] |
//! | what is wrong, what differs | [`PlanSheet::problems`], [`PlanSheet::differences`] |
//! | the editor's page whole; the list of plans | [`PlanSheet::page`], [`list`](list::list) |
//! | a card under another plan | [`under`] |
//!
//! A field says by `data-item` and `data-field` what of the plan it holds, a button by `data-act` what
//! it does. Sections and scales stand closed and empty, with `data-fill` saying what belongs in them.

mod add;
mod field;
pub mod list;
mod lists;
mod page;
mod rows;
mod rules;
mod scales;
#[cfg(test)]
mod tests;
pub mod under;

use ringland_card::{Plan, plan::PlanItem};

pub use self::{
    add::{AXES, MAKES, MATERIALS, NEW_CAP, NEW_CRITERION, NEW_SIZE, QUANTITIES, WEARS},
    field::field_id,
    lists::Mark,
    page::PagePart,
};
use crate::{markup::Html, words::Words};

/// A plan beside the one that it was derived from.
#[derive(Clone, Debug)]
pub struct PlanSheet<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// The plan that it is shown beside.
    pub parent: &'a Plan,
    /// The words.
    pub words: &'static Words,
    /// The plan with the parent's rows that it lacks.
    both: Plan,
    /// These rows.
    off: Vec<PlanItem>,
}

impl<'a> PlanSheet<'a> {
    /// Lays a plan beside another.
    pub fn new(plan: &'a Plan, parent: &'a Plan, words: &'static Words) -> Self {
        let (both, off) = plan.with_rows_of(parent);
        Self {
            plan,
            parent,
            words,
            both,
            off,
        }
    }

    fn is_off(&self, item: &PlanItem) -> bool {
        self.off.contains(item)
    }

    /// What belongs in a `details` that is opened, by its `data-fill`.
    pub fn inside(&self, fill: &str) -> String {
        match PlanItem::parse(fill) {
            Some(PlanItem::Section(section)) => self.section(&section),
            Some(PlanItem::Scale(scale)) => self.scale(&scale),
            _ => String::new(),
        }
    }
}

/// The `data-fill` of the `details` in which an item stands; none where it stands open.
pub fn fold_of(item: &PlanItem) -> Option<String> {
    let fold = match item {
        PlanItem::Section(section)
        | PlanItem::Part(section, _)
        | PlanItem::Place(section, ..)
        | PlanItem::Position(section, ..)
        | PlanItem::Look(section, ..) => PlanItem::Section(section.clone()),
        PlanItem::Scale(scale)
        | PlanItem::Grade(scale, _)
        | PlanItem::Level(scale, _)
        | PlanItem::State(scale, _)
        | PlanItem::Point(scale, _) => PlanItem::Scale(scale.clone()),
        _ => return None,
    };
    Some(fold.to_string())
}

/// A `details` that is filled when it is opened.
fn fold(html: &mut Html, item: &PlanItem, name: &str, more: &str) {
    html.with(
        "details class=\"plan-fold\"",
        &[("data-fill", &item.to_string())],
    );
    html.open("summary class=\"plan-fold__head\"");
    html.el("b", name).text(" ");
    html.el("span class=\"fine num\"", more);
    html.close("summary").close("details");
}
