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
        let name = self.words.section_name(section);
        if self.row(
            &mut html,
            "div class=\"plan-row plan-row--section\"",
            &item,
            name,
            (section.weight, section.label.as_deref()),
            None,
        ) {
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
        let name = self.words.part_name(part);
        if self.row(
            html,
            "div class=\"plan-row plan-row--part\"",
            &item,
            name,
            (part.weight, part.label.as_deref()),
            None,
        ) {
            for place in &part.places {
                self.place(html, (section, part), place);
            }
            self.add(html, &item);
        }
    }

    fn place(&self, html: &mut Html, (section, part): (&Section, &Part), place: &Place) {
        let item = place.item(section, part);
        let name = self.words.place_name(place);
        if self.row(
            html,
            "div class=\"plan-row plan-row--place\"",
            &item,
            name,
            (place.weight, place.label.as_deref()),
            None,
        ) {
            for look in &place.looks {
                let item = place.look_item(section, part, look);
                let name = self.words.characteristic_name(look);
                self.row(
                    html,
                    "div class=\"plan-row plan-row--look\"",
                    &item,
                    name,
                    (look.weight, look.label.as_deref()),
                    Some(look),
                );
            }
            self.add(html, &item);
        }
    }

    /// One row, and whether it is on.
    fn row(
        &self,
        html: &mut Html,
        class: &'static str,
        item: &PlanItem,
        name: &str,
        (weight, label): (f64, Option<&str>),
        look: Option<&Characteristic>,
    ) -> bool {
        let on = !self.is_off(item);
        html.open(class);
        self.switch(html, item, name);
        if on {
            html.open("div class=\"plan-row__fields\"");
            if let Some(label) = label {
                self.text(html, item, Field::Label, label);
            }
            self.figure(html, item, Field::Weight, Some(weight));
            if let Some(look) = look {
                let (Repeatability::Score(u) | Repeatability::Percent(u) | Repeatability::Count(u)) =
                    look.u_rep;
                self.scale_choice(html, item, &look.scale);
                self.figure(html, item, Field::URep, Some(u));
                html.el(
                    "span class=\"fine plan-row__unit\"",
                    self.words.u_rep_unit(look.u_rep),
                );
            }
            html.close("div");
        }
        html.close("div");
        on
    }
}

fn find<'p>(plan: &'p Plan, id: &SectionId) -> Option<&'p Section> {
    plan.sections.iter().find(|section| section.id == *id)
}

/// Places times what is looked at in them.
fn rows_of(section: &Section) -> usize {
    let places = section.parts.iter().flat_map(|part| &part.places);
    places.map(|place| place.looks.len()).sum()
}
