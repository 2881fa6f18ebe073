//! Facts and entries in words, for the log and the history.

use ringland_card::{
    At, Card, Entry, Plan,
    entry::{About, Body, Fact, FactField},
};

use super::{Words, lowered};
use crate::format::{NBSP, UnitPrefs};

impl Words {
    /// What a fact is about: "Oil grade".
    pub fn fact_name(&self, field: FactField) -> &'static str {
        let facts = &self.facts;
        match field {
            FactField::Name => facts.name,
            FactField::Fleet => facts.fleet,
            FactField::Vehicle => facts.vehicle,
            FactField::Model => facts.model,
            FactField::Serial => facts.serial,
            FactField::Site => facts.site,
            FactField::Duty => facts.duty,
            FactField::Distance => facts.distance,
            FactField::RunningTime => facts.running_hours,
            FactField::Fuel => facts.fuel,
            FactField::Oil => facts.oil,
            FactField::OilGrade => facts.oil_grade,
            FactField::OilCategory => facts.oil_category,
            FactField::DrainDistance => facts.drain_distance,
            FactField::DrainTime => facts.drain_hours,
            FactField::Sump => facts.sump,
            FactField::Reason => facts.reason,
        }
    }

    /// What to write into a fact's field.
    pub fn fact_hint(&self, field: FactField) -> &'static str {
        let facts = &self.facts;
        match field {
            FactField::Name => facts.name_hint,
            FactField::Fleet => facts.fleet_hint,
            FactField::Vehicle => facts.vehicle_hint,
            FactField::Model => facts.model_hint,
            FactField::Serial => facts.serial_hint,
            FactField::Site => facts.site_hint,
            FactField::Duty => facts.duty_hint,
            FactField::Distance => facts.distance_hint,
            FactField::RunningTime => facts.running_hours_hint,
            FactField::Fuel => facts.fuel_hint,
            FactField::Oil => facts.oil_hint,
            FactField::OilGrade => facts.oil_grade_hint,
            FactField::OilCategory => facts.oil_category_hint,
            FactField::DrainDistance => facts.drain_distance_hint,
            FactField::DrainTime => facts.drain_hours_hint,
            FactField::Sump => facts.sump_hint,
            FactField::Reason => facts.reason_hint,
        }
    }

    /// What a fact says, figures in the reader's units.
    pub fn fact_value(&self, fact: &Fact, units: UnitPrefs) -> String {
        let numbers = self.numbers;
        match fact {
            Fact::DistanceM(distance) | Fact::DrainDistanceM(distance) => {
                numbers.distance(*distance, units)
            }
            Fact::RunningTimeS(time) | Fact::DrainTimeS(time) => numbers.hours(*time),
            Fact::FuelM3(volume) | Fact::SumpM3(volume) => numbers.volume(*volume, units),
            text => text.text().unwrap_or_default().to_owned(),
        }
    }

    /// What an entry says, in a line, for the log: "Cylinder 3, top ring · face wear: light". Who and
    /// when stand in the entry.
    pub fn entry(&self, card: &Card, entry: &Entry, units: UnitPrefs) -> String {
        let plan = card.plan();
        let names = &self.names;
        match &entry.body {
            Body::Fact { fact } => {
                names.fact(self.fact_name(fact.field()), &self.fact_value(fact, units))
            }
            Body::Rating { at, look } => {
                let said = match scale_of(plan, at) {
                    Some(scale) => self.look(look, scale),
                    None => self.look(look, &ringland_card::Scale::State { states: Vec::new() }),
                };
                names.rating(&self.at(Some(plan), &at.to_string()), &said)
            }
            Body::Measurement { at, value } => {
                let value = names.measured(&self.numbers.short(*value, 6));
                names.rating(&self.at(Some(plan), &at.to_string()), &value)
            }
            Body::Reading { reading } => {
                let (at, said) = (
                    self.at(Some(plan), &reading.at.to_string()),
                    self.reading_said(reading),
                );
                let said = if reading.as_new {
                    self.gauging.entry_new(&said)
                } else {
                    said
                };
                match self.spot(&reading.spot) {
                    whole if whole.is_empty() => names.rating(&at, &said),
                    spot => self.gauging.entry_reading(&at, &spot, &said),
                }
            }
            Body::Gauge { gauge } => {
                let step = self.numbers.as_typed(gauge.resolution.as_str());
                let step = [&step, NBSP, gauge.unit.sign()].concat();
                self.gauging.entry_gauge(&gauge.name, &step)
            }
            Body::Sizes { sheet } => self.gauging.entry_sizes(&sheet.name, sheet.sizes.len()),
            Body::Remark { about: None, text } => names.remark_engine(text),
            Body::Remark {
                about: Some(about),
                text,
            } => names.remark(&self.about(plan, about), text),
            Body::Photo { photo, .. } => self.photo_entry(card, entry, photo),
            Body::Mark { on, mark } => self.mark_entry(card, card.entry(*on), mark),
            Body::Cause { about, cause } => {
                names.cause(&lowered(self.cause(*cause)), &self.about(plan, about))
            }
            Body::Seal { seal } => self.seals.entry(&seal.name),
            Body::Plan { plan } => names.new_plan(&plan.name, &plan.version),
            Body::Void {
                entry: target,
                reason,
            } => {
                let what = match card.entry(*target) {
                    // A void never names a void, so this goes no deeper.
                    Some(target) if !matches!(target.body, Body::Void { .. }) => {
                        self.entry(card, target, units)
                    }
                    _ => names.gone.to_owned(),
                };
                names.void_of(&what, self.void_reason(reason))
            }
            Body::Other(_) => names.other.to_owned(),
        }
    }

    /// Why something was taken out: what the program wrote itself in the reader's words, what a person
    /// wrote as it is.
    pub fn void_reason<'a>(&self, written: &'a str) -> &'a str {
        match written {
            UNDONE => self.bench.undone_reason,
            CLEARED => self.facts.cleared_reason,
            _ => written,
        }
    }

    /// What a remark or a cause is about.
    pub fn about(&self, plan: &Plan, about: &About) -> String {
        match &about.characteristic {
            Some(look) => self.at(
                Some(plan),
                &[about.position.as_str(), look.as_str()].join("/"),
            ),
            None => self.position_called(Some(plan), about.position.as_str()),
        }
    }
}

/// What is written as the reason where a step is taken back. What the program writes into a file by
/// itself is the same whatever language is on the screen.
pub const UNDONE: &str = Words::ENGLISH.bench.undone_reason;
/// What is written as the reason where a fact is left open again; see [`UNDONE`].
pub const CLEARED: &str = Words::ENGLISH.facts.cleared_reason;

fn scale_of<'p>(plan: &'p Plan, at: &At) -> Option<&'p ringland_card::Scale> {
    let place = plan.places().map(|(.., place)| place).find(|place| {
        place
            .positions
            .iter()
            .any(|position| position.id == at.position)
    })?;
    let look = place
        .looks
        .iter()
        .find(|look| look.id == at.characteristic)?;
    plan.scale(&look.scale)
}
