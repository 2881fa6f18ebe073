//! Words of what another file of a card would bring.

use super::{Words, catalogue::words};
use ringland_card::{Brought, Card, Coming, coming::FactApart, plan::LeafId};

use crate::format::UnitPrefs;

/// How many places are named at once.
const MOST: usize = 8;

words! {
    /// What comes in, before it is merged.
    Merging {
        title(name: &str) = "Merge this file into {name}?";
        lead = "Nothing that is here is written over or lost. This comes to it";
        looks(n: usize) = "{n} {n?rating:ratings}";
        readings(n: usize) = "{n} {n?reading:readings} of a gauge";
        facts(n: usize) = "{n} {n?fact:facts}";
        remarks(n: usize) = "{n} {n?remark:remarks}";
        photos(n: usize) = "{n} {n?photo:photos}";
        marks(n: usize) = "{n} {n?mark:marks} on photos";
        causes(n: usize) = "{n} {n?cause:causes}";
        corrections(n: usize) = "{n} {n?correction or removal:corrections and removals}";
        seals(n: usize) = "{n} {n?seal:seals}";
        plans(n: usize) = "{n} {n?change:changes} of the plan";
        others(n: usize) = "{n} {n?gauge, sheet or the like:gauges, sheets and the like}";
        both(n: usize, places: &str) = "{n} {n?was:were} looked at by somebody else here, and both looks stand: {places}";
        anew(n: usize, places: &str) = "{n} {n?was:were} answered by the same rater on both, and the last answer holds: {places}";
        apart(field: &str, here: &str, there: &str, then: &str) = "{field}: here “{here}”, in the file “{there}”. Then “{then}” holds, until somebody enters another";
        apart_none(field: &str, here: &str, there: &str) = "{field}: here “{here}”, in the file “{there}”. Then neither holds, as both were taken out";
        more(places: &str, n: usize) = "{places} and {n} more";
        take = "Merge";
        take_all(n: usize) = "Merge all ({n})";
        leave = "Leave the card as it is";
        left(name: &str) = "Nothing was merged into {name}";
    }
}

impl Words {
    /// What comes in, a line for each thing to know; `here` is the card that it would come to.
    pub fn coming(&self, here: &Card, coming: &Coming, units: UnitPrefs) -> Vec<String> {
        let m = &self.merging;
        let counts = coming.entries.iter().map(|(what, n)| match what {
            Brought::Look => m.looks(*n),
            Brought::Reading => m.readings(*n),
            Brought::Fact => m.facts(*n),
            Brought::Remark => m.remarks(*n),
            Brought::Photo => m.photos(*n),
            Brought::Mark => m.marks(*n),
            Brought::Cause => m.causes(*n),
            Brought::Correction => m.corrections(*n),
            Brought::Plan => m.plans(*n),
            Brought::Seal => m.seals(*n),
            Brought::Else => m.others(*n),
        });
        let mut said = vec![counts.collect::<Vec<_>>().join(", ")];
        let places = |leaves: &[LeafId]| self.places(here, leaves);
        if !coming.both.is_empty() {
            said.push(m.both(coming.both.len(), &places(&coming.both)));
        }
        if !coming.anew.is_empty() {
            said.push(m.anew(coming.anew.len(), &places(&coming.anew)));
        }
        said.extend(coming.facts.iter().map(|apart| self.apart(apart, units)));
        said
    }

    fn apart(&self, apart: &FactApart, units: UnitPrefs) -> String {
        let field = self.fact_name(apart.field);
        let value = |fact| self.fact_value(fact, units);
        let (here, there) = (value(&apart.here), value(&apart.there));
        match &apart.then {
            Some(then) => self.merging.apart(field, &here, &there, &value(then)),
            None => self.merging.apart_none(field, &here, &there),
        }
    }

    /// The names of some leaves, as many as an eye takes in.
    fn places(&self, card: &Card, leaves: &[LeafId]) -> String {
        let named = leaves.iter().take(MOST);
        let named: Vec<String> = named
            .filter_map(|leaf| self.leaf(card.plan(), card.index(), *leaf))
            .collect();
        let named = named.join("; ");
        match leaves.len().saturating_sub(MOST) {
            0 => named,
            more => self.merging.more(&named, more),
        }
    }
}
