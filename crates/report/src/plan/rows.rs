//! Sections, parts, places and what is looked at, with weights and switches.

use ringland_card::{
    Plan, SectionId,
    plan::{Characteristic, Field, Part, Place, PlanItem, Repeatability, Section},
};

use super::{PlanSheet, fold};
use crate::markup::Html;

impl PlanSheet<'_> {
    /// Every section, closed, in strip-down order; those that are off among them.
    pub fn rows(&self) -> String {
        let mut html = Html::new();
        for section in &self.both.sections {
            let name = self.words.section_name(section);
            let (item, all) = (section.item(), rows_of(section));
            let more = if self.is_off(&item) {
                self.words.plans.off.to_owned()
            } else {
                let on = find(self.plan, &section.id).map_or(0, rows_of);
                self.words.plans.n_rows(on, all)
            };
            fold(&mut html, &item, name, &more);
        }
        self.add(&mut html, &PlanItem::Plan);
        html.done()
    }

    pub(super) fn section(&self, id: &SectionId) -> String {
        let mut html = Html::new();
        let Some(section) = find(&self.both, id) else {
            return String::new();
        };
        html.open("div class=\"plan-rows\"");
        let item = section.item();
        let sections: Vec<PlanItem> = self.both.sections.iter().map(Section::item).collect();
        let row = Row {
            class: "div class=\"plan-row plan-row--section\"",
            item: &item,
            siblings: &sections,
            name: self.words.section_name(section),
            weight: section.weight,
            label: section.label.as_deref(),
            look: None,
        };
        if self.row(&mut html, &row) {
            for part in &section.parts {
                self.rows_of_part(&mut html, section, part);
            }
            self.add(&mut html, &item);
        }
        html.close("div");
        html.done()
    }

    fn rows_of_part(&self, html: &mut Html, section: &Section, part: &Part) {
        let item = part.item(section);
        let parts = section.parts.iter();
        let parts: Vec<PlanItem> = parts.map(|part| part.item(section)).collect();
        let row = Row {
            class: "div class=\"plan-row plan-row--part\"",
            item: &item,
            siblings: &parts,
            name: self.words.part_name(part),
            weight: part.weight,
            label: part.label.as_deref(),
            look: None,
        };
        if self.row(html, &row) {
            for place in &part.places {
                self.place(html, (section, part), place);
            }
            self.add(html, &item);
        }
    }

    fn place(&self, html: &mut Html, (section, part): (&Section, &Part), place: &Place) {
        let item = place.item(section, part);
        let places = part.places.iter();
        let places: Vec<PlanItem> = places.map(|place| place.item(section, part)).collect();
        let row = Row {
            class: "div class=\"plan-row plan-row--place\"",
            item: &item,
            siblings: &places,
            name: self.words.place_name(place),
            weight: place.weight,
            label: place.label.as_deref(),
            look: None,
        };
        if !self.row(html, &row) {
            return;
        }
        self.positions(html, &item, place);
        let looks = place.looks.iter();
        let looks: Vec<PlanItem> = looks
            .map(|look| place.look_item(section, part, look))
            .collect();
        for (look, item) in place.looks.iter().zip(&looks) {
            let row = Row {
                class: "div class=\"plan-row plan-row--look\"",
                item,
                siblings: &looks,
                name: self.words.characteristic_name(look),
                weight: look.weight,
                label: look.label.as_deref(),
                look: Some(look),
            };
            self.row(html, &row);
        }
        self.add(html, &item);
    }

    /// A box for each position of a place; none where there is just one.
    fn positions(&self, html: &mut Html, item: &PlanItem, place: &Place) {
        if place.positions.len() < 2 {
            return;
        }
        let words = &self.words.plans;
        let what = self.words.plan_item(&self.both, self.parent, item);
        html.with(
            "div class=\"plan-row plan-row--look plan-chips\" role=\"group\"",
            &[("aria-label", &words.of(words.positions, &what))],
        );
        html.el("span class=\"plan-field__name\"", words.positions);
        for position in &place.positions {
            let name = self.words.position_name(place, position);
            html.open("label class=\"plan-chip num\"");
            self.tick(html, &item.position(&position.id), &words.is_on(&name));
            html.el("span", self.words.column_head(&position.column));
            html.close("label");
        }
        html.close("div");
    }

    /// One row, and whether it is on.
    fn row(&self, html: &mut Html, row: &Row<'_>) -> bool {
        let (item, on) = (row.item, !self.is_off(row.item));
        html.open(row.class);
        self.switch(html, item, row.name);
        if on {
            html.open("div class=\"plan-row__fields\"");
            if let Some(label) = row.label {
                self.text(html, item, Field::Label, label);
            }
            self.figure(html, item, Field::Weight, Some(row.weight));
            if let Some(look) = row.look {
                let (Repeatability::Score(u) | Repeatability::Percent(u) | Repeatability::Count(u)) =
                    look.u_rep;
                let scale = self.plan.scale(&look.scale);
                let name = self.words.scale_name(&look.scale, scale);
                let chosen = (look.scale.as_str(), name);
                self.choice(html, item, Field::Scale, &self.scale_options(), chosen);
                self.figure(html, item, Field::URep, Some(u));
                html.el(
                    "span class=\"fine plan-row__unit\"",
                    self.words.u_rep_unit(look.u_rep),
                );
            }
            html.close("div");
            self.moves(html, item, row.siblings);
        }
        html.close("div");
        on
    }
}

/// A row of the page: what it is about, what stands beside that, and what it says.
struct Row<'r> {
    class: &'static str,
    item: &'r PlanItem,
    siblings: &'r [PlanItem],
    name: &'r str,
    weight: f64,
    label: Option<&'r str>,
    look: Option<&'r Characteristic>,
}

fn find<'p>(plan: &'p Plan, id: &SectionId) -> Option<&'p Section> {
    plan.sections.iter().find(|section| section.id == *id)
}

/// Places times what is looked at in them.
fn rows_of(section: &Section) -> usize {
    let places = section.parts.iter().flat_map(|part| &part.places);
    places.map(|place| place.looks.len()).sum()
}
