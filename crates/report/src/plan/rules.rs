//! Cap rules, criteria, what is said of raters, and location factors.

use ringland_card::{
    CharacteristicId, Grade, Scale, StateId,
    plan::{CapRule, Field, PlanItem, Trigger},
};

use super::{PlanSheet, field_id};
use crate::{
    format::NBSP,
    markup::Html,
    words::{capitalised, lowered},
};

impl PlanSheet<'_> {
    /// The cap rules, those that are off among them.
    pub fn caps(&self) -> String {
        let mut html = Html::new();
        let nodes = self.node_options();
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
                if let Some(label) = &rule.label {
                    self.text(&mut html, &item, Field::Label, label);
                }
                self.cap_fields(&mut html, &item, rule, &nodes);
                html.close("div");
            }
            html.close("div");
        }
        self.add_cap(&mut html);
        html.done()
    }

    fn cap_fields(
        &self,
        html: &mut Html,
        item: &PlanItem,
        rule: &CapRule,
        nodes: &[(String, String)],
    ) {
        for (field, node) in [(Field::Within, &rule.within), (Field::Node, &rule.node)] {
            let chosen = (node.as_str(), node.as_str());
            if field == Field::Node {
                self.cap_look(html, item, rule);
                self.cap_trigger(html, item, rule);
            }
            self.choice(html, item, field, nodes, chosen);
        }
        self.figure(html, item, Field::Cap, Some(rule.cap));
    }

    /// What a rule looks at. One whose trigger does not fit that can be chosen anew, which sets the
    /// trigger anew.
    fn cap_look(&self, html: &mut Html, item: &PlanItem, rule: &CapRule) {
        let looks = self.plan.cap_looks(&rule.within).into_iter();
        let looks: Vec<(&str, String)> = looks
            .map(|look| {
                let name = self.words.characteristic_name(look);
                (look.id.as_str(), name.to_owned())
            })
            .collect();
        let id = rule.characteristic.as_str();
        let name = self.words.look_name(self.plan, id);
        let chosen = if self.plan.is_rated_as(rule) { id } else { "" };
        self.choice(html, item, Field::Characteristic, &looks, (chosen, &name));
    }

    /// What sets a rule off: a figure, a grade, or states to tick.
    fn cap_trigger(&self, html: &mut Html, item: &PlanItem, rule: &CapRule) {
        match &rule.when {
            Trigger::PercentOver(percent) => {
                self.figure(html, item, Field::When, Some(*percent));
                html.el("span class=\"fine plan-row__unit\"", &[NBSP, "%"].concat());
            }
            Trigger::CountOver(count) => {
                self.figure(html, item, Field::When, Some(*count as f64));
            }
            Trigger::GradeAtLeast(grade) => {
                let grades = Grade::ALL.map(|grade| {
                    let name = lowered(&self.words.grade(grade));
                    (grade.as_str(), self.words.names.or_worse(&name))
                });
                let chosen = (grade.as_str(), grade.as_str());
                self.choice(html, item, Field::When, &grades, chosen);
            }
            Trigger::StateIn(states) => self.states(html, item, rule, states),
        }
    }

    fn states(&self, html: &mut Html, item: &PlanItem, rule: &CapRule, states: &[StateId]) {
        let look = self.plan.cap_look(rule);
        let scale = look.and_then(|look| self.plan.scale(&look.scale));
        let mut all: Vec<(&StateId, &str)> = Vec::new();
        if let Some(scale @ Scale::State { states }) = scale {
            let known = states.iter().map(|state| &state.id);
            all.extend(known.map(|id| (id, self.words.state(scale, id))));
        }
        // One that the scale has no more can still be taken out.
        let gone = states.iter();
        let gone = gone.filter(|state| all.iter().all(|(known, _)| known != state));
        let gone: Vec<_> = gone.map(|state| (state, state.as_str())).collect();
        all.extend(gone);
        let said = self.said(item, Field::When);
        html.with(
            "div class=\"plan-field plan-field--wide\" role=\"group\"",
            &[("aria-label", &said)],
        );
        let title = capitalised(self.words.plan_field(Field::When));
        html.el("span class=\"plan-field__name\"", &title);
        html.open("span class=\"plan-chips\"");
        for (number, (state, name)) in all.into_iter().enumerate() {
            // What is wrong with the field stands at the first.
            let mut id = field_id(item, Field::When);
            if number > 0 {
                id.extend([":", state.as_str()]);
            }
            let element = if states.contains(state) {
                "input type=\"checkbox\" data-choose checked"
            } else {
                "input type=\"checkbox\" data-choose"
            };
            html.open("label class=\"plan-chip\"");
            html.with(
                element,
                &[
                    ("id", &id),
                    ("data-item", &item.to_string()),
                    ("data-field", Field::When.as_str()),
                    ("value", state.as_str()),
                ],
            );
            html.el("span", name).close("label");
        }
        html.close("span").close("div");
    }

    /// The criteria of the merit sum.
    pub fn criteria(&self) -> String {
        let (words, mut html) = (&self.words.plans, Html::new());
        if self.plan.criteria.is_empty() {
            html.el("p", words.no_criteria);
        }
        for (number, criterion) in self.plan.criteria.iter().enumerate() {
            let item = PlanItem::Criterion(number);
            html.open("div class=\"plan-row\"");
            html.with(
                "span class=\"plan-line__name\" tabindex=\"-1\"",
                &[("id", &item.to_string())],
            );
            html.text(&self.words.plan_fields.criterion(number + 1));
            html.close("span").open("div class=\"plan-row__fields\"");
            let figure = criterion.figure.as_str();
            self.choice(
                &mut html,
                &item,
                Field::Figure,
                &self.trade_options(),
                (figure, figure),
            );
            for (field, figure) in [
                (Field::Weight, criterion.weight),
                (Field::Best, criterion.best),
                (Field::Anchor, criterion.anchor),
                (Field::Limit, criterion.limit),
            ] {
                self.figure(&mut html, &item, field, Some(figure));
            }
            self.act(&mut html, "remove", &item, words.remove);
            html.close("div").close("div");
        }
        self.add_criterion(&mut html);
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
                &self.words.look_name(self.plan, look.as_str()),
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
