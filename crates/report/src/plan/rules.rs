//! Cap rules, what is said of raters, and location factors.

use ringland_card::{
    CharacteristicId, Scale,
    plan::{Field, PlanItem, Trigger},
};

use super::PlanSheet;
use crate::{format::NBSP, markup::Html};

impl PlanSheet<'_> {
    /// The cap rules, those that are off among them.
    pub fn caps(&self) -> String {
        let mut html = Html::new();
        for rule in &self.both.caps {
            let item = PlanItem::Cap(rule.id.clone());
            html.open("div class=\"plan-row\"");
            self.switch(&mut html, &item, self.words.cap_name(rule));
            if !self.is_off(&item) {
                let said = self.words.cap_rule(self.plan, rule);
                let of = item.to_string();
                html.with("p class=\"fine plan-row__said\"", &[("data-said", &of)]);
                html.text(&said).close("p");
                html.open("div class=\"plan-row__fields\"");
                self.figure(&mut html, &item, Field::Cap, Some(rule.cap));
                match rule.when {
                    Trigger::PercentOver(percent) => {
                        self.figure(&mut html, &item, Field::When, Some(percent));
                        html.el("span class=\"fine plan-row__unit\"", &[NBSP, "%"].concat());
                    }
                    Trigger::CountOver(count) => {
                        self.figure(&mut html, &item, Field::When, Some(count as f64));
                    }
                    Trigger::GradeAtLeast(_) | Trigger::StateIn(_) => {}
                }
                html.close("div");
            }
            html.close("div");
        }
        html.done()
    }

    /// What the cap rule of an item says, where the plan has it.
    pub fn rule_said(&self, item: &str) -> String {
        let mut rules = self.plan.caps.iter();
        let rule = rules.find(|rule| PlanItem::Cap(rule.id.clone()).to_string() == item);
        rule.map_or(String::new(), |rule| self.words.cap_rule(self.plan, rule))
    }

    /// The bias of a rater.
    pub fn raters(&self) -> String {
        let mut html = Html::new();
        self.figure(
            &mut html,
            &PlanItem::Plan,
            Field::UBias,
            Some(self.plan.u_bias),
        );
        html.done()
    }

    /// A factor for every land and groove: what is rated by deposit area on the pistons.
    pub fn location_factors(&self) -> String {
        let mut html = Html::new();
        for look in self.lands_and_grooves() {
            let item = PlanItem::LocationFactor(look.clone());
            html.open("div class=\"plan-line\"");
            html.el(
                "span class=\"plan-line__name\"",
                &self.words.look_name(look.as_str()),
            );
            let factor = self.plan.location_factors.get(&look).copied();
            self.figure(&mut html, &item, Field::Factor, factor);
            html.close("div");
        }
        html.done()
    }

    /// Lands and grooves of the pistons, and what else has a factor already.
    fn lands_and_grooves(&self) -> Vec<CharacteristicId> {
        let pistons = self.plan.places().flat_map(|(.., place)| &place.looks);
        let by_area = |scale: &Scale| matches!(scale, Scale::Area { .. });
        let lands_and_grooves = pistons.filter(|look| {
            let id = look.id.as_str();
            (id.starts_with("land_") || id.starts_with("groove_"))
                && self.plan.scale(&look.scale).is_some_and(by_area)
        });
        let lands_and_grooves = lands_and_grooves.map(|look| &look.id);
        let mut all: Vec<CharacteristicId> = Vec::new();
        for look in lands_and_grooves.chain(self.plan.location_factors.keys()) {
            if !all.contains(look) {
                all.push(look.clone());
            }
        }
        all
    }
}
