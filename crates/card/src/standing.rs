//! What holds on a card now, worked out from the set of its entries.
//!
//! - An entry is out of account when a void names it, or when an entry that is not itself voided
//!   supersedes it. Taking a correction back by a void so brings the corrected entry back.
//! - Of one rater's entries on one characteristic in one position, the last in order holds.
//!   Different raters' looks all hold.
//! - Of the facts of one field, the last in order holds; so with causes, where one given for a whole
//!   position covers each of its characteristics.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    card::Card,
    entry::{Body, Cause, Entry, Fact, FactField, Look},
    gauging::{Gauge, SizeSheet, Spot},
    ids::{EntryId, GaugeId},
    look::{check_body, check_on},
    plan::{LeafId, Plan, PlanIndex},
};

/// The entries that are out of account.
#[derive(Clone, Debug, Default)]
pub struct Dead(BTreeSet<EntryId>);

impl Dead {
    /// Finds a card's voided and superseded entries.
    pub fn of(card: &Card) -> Self {
        let voided: BTreeSet<EntryId> = card
            .entries()
            .filter_map(|entry| match entry.body {
                Body::Void { entry, .. } => Some(entry),
                _ => None,
            })
            .collect();
        let superseded: Vec<EntryId> = card
            .entries()
            .filter(|entry| !voided.contains(&entry.id))
            .filter_map(|entry| entry.supersedes)
            .collect();
        let mut dead = voided;
        dead.extend(superseded);
        Self(dead)
    }

    /// Whether an entry is out of account.
    pub fn has(&self, id: EntryId) -> bool {
        self.0.contains(&id)
    }
}

/// The readings of one leaf that hold: by when, where on the grid, and rater.
pub type Readings<'c> = BTreeMap<(bool, &'c Spot, &'c str), &'c Entry>;

/// What holds on a card now.
#[derive(Clone, Debug)]
pub struct Standing<'c> {
    /// The plan that holds.
    pub plan: &'c Plan,
    /// Its leaves.
    pub index: &'c PlanIndex,
    /// By leaf: each rater's current rating or measurement, in order of the raters' names.
    pub looks: Vec<Vec<&'c Entry>>,
    /// By leaf: the current readings of each rater, by spot and rater.
    pub readings: Vec<Readings<'c>>,
    /// The gauges.
    pub gauges: BTreeMap<GaugeId, &'c Entry>,
    /// The entry with the size sheet that the engine is held against.
    pub sizes: Option<&'c Entry>,
    /// By leaf: the entry that names its cause.
    pub causes: Vec<Option<&'c Entry>>,
    /// The facts.
    pub facts: BTreeMap<FactField, &'c Entry>,
    /// The remarks, in order.
    pub remarks: Vec<&'c Entry>,
    /// The photos, in order.
    pub photos: Vec<&'c Entry>,
    /// By the entry of the photo: the marks on it, in order.
    pub marks: BTreeMap<EntryId, Vec<&'c Entry>>,
    /// Ratings and measurements that the plan now has no place for: kept, not scored.
    pub outside: Vec<&'c Entry>,
    /// What is out of account.
    pub dead: Dead,
}

impl<'c> Standing<'c> {
    /// Works out what holds on a card.
    pub fn of(card: &'c Card) -> Self {
        Self::under(card, card.plan(), card.index())
    }

    /// Works out what would hold on a card under a given plan, which `index` is made of. The card stays
    /// as it is.
    pub fn under(card: &'c Card, plan: &'c Plan, index: &'c PlanIndex) -> Self {
        let leaves = index.leaves().len();
        let mut standing = Self {
            plan,
            index,
            looks: vec![Vec::new(); leaves],
            readings: vec![Readings::new(); leaves],
            gauges: BTreeMap::new(),
            sizes: None,
            causes: vec![None; leaves],
            facts: BTreeMap::new(),
            remarks: Vec::new(),
            photos: Vec::new(),
            marks: BTreeMap::new(),
            outside: Vec::new(),
            dead: Dead::of(card),
        };
        for entry in card.entries() {
            if !standing.dead.has(entry.id) {
                standing.count(entry);
            }
        }
        // Only now: a rater's last look counts or does not; it never gives way to an earlier one.
        if !standing.outside.is_empty() {
            let mut looks = std::mem::take(&mut standing.looks);
            for looks in &mut looks {
                looks.retain(|entry| standing.fits(entry));
            }
            standing.looks = looks;
            let mut readings = std::mem::take(&mut standing.readings);
            for readings in &mut readings {
                readings.retain(|_, entry| standing.fits(entry));
            }
            standing.readings = readings;
        }
        standing
    }

    /// Whether a part was measured.
    pub fn is_measured(&self) -> bool {
        self.readings.iter().any(|readings| !readings.is_empty())
    }

    fn fits(&self, entry: &Entry) -> bool {
        check_body(self.plan, self.index, &entry.body).is_ok()
    }

    /// The same where the leaf has been found.
    fn fits_on(&self, leaf: LeafId, entry: &Entry) -> bool {
        let scale = &self.index.leaves()[leaf.0].characteristic(self.plan).scale;
        let scale = self.plan.scale(scale);
        scale.is_some_and(|scale| check_on(scale, &entry.body).is_ok())
    }

    fn count(&mut self, entry: &'c Entry) {
        match &entry.body {
            Body::Rating { at, .. } | Body::Measurement { at, .. } => {
                let leaf = self.index.find(self.plan, at);
                if let Some(leaf) = leaf {
                    keep_last(&mut self.looks[leaf.0], entry);
                }
                if !leaf.is_some_and(|leaf| self.fits_on(leaf, entry)) {
                    self.outside.push(entry);
                }
            }
            Body::Reading { reading } => {
                let leaf = self.index.find(self.plan, &reading.at);
                if let Some(leaf) = leaf {
                    let key = (reading.as_new, &reading.spot, entry.rater.as_str());
                    self.readings[leaf.0].insert(key, entry);
                }
                if !leaf.is_some_and(|leaf| self.fits_on(leaf, entry)) {
                    self.outside.push(entry);
                }
            }
            Body::Gauge { gauge } => {
                self.gauges.insert(gauge.id, entry);
            }
            Body::Sizes { .. } => self.sizes = Some(entry),
            Body::Cause { about, .. } => {
                let leaves = self.index.of_position(self.plan, about.position.as_str());
                for leaf in leaves {
                    let look = self.index.leaves()[leaf].characteristic(self.plan);
                    if about
                        .characteristic
                        .as_ref()
                        .is_none_or(|only| *only == look.id)
                    {
                        self.causes[leaf] = Some(entry);
                    }
                }
            }
            Body::Fact { fact } => {
                self.facts.insert(fact.field(), entry);
            }
            Body::Remark { .. } => self.remarks.push(entry),
            Body::Photo { .. } => self.photos.push(entry),
            Body::Mark { on, .. } => self.marks.entry(*on).or_default().push(entry),
            Body::Plan { .. } | Body::Seal { .. } | Body::Void { .. } | Body::Other(_) => {}
        }
    }

    /// The fact of that field.
    pub fn fact(&self, field: FactField) -> Option<&'c Fact> {
        match &self.facts.get(&field)?.body {
            Body::Fact { fact } => Some(fact),
            _ => None,
        }
    }

    /// The text of a fact.
    pub fn text(&self, field: FactField) -> Option<&'c str> {
        self.fact(field)?.text()
    }

    /// The figure of a fact in SI units.
    pub fn si(&self, field: FactField) -> Option<f64> {
        self.fact(field)?.si()
    }

    /// What is answerable for what was seen at a leaf; in service where nobody said otherwise.
    pub fn cause(&self, leaf: LeafId) -> Cause {
        match self
            .causes
            .get(leaf.0)
            .copied()
            .flatten()
            .map(|entry| &entry.body)
        {
            Some(Body::Cause { cause, .. }) => *cause,
            _ => Cause::InService,
        }
    }

    /// The gauge of that id.
    pub fn gauge(&self, id: GaugeId) -> Option<&'c Gauge> {
        match &self.gauges.get(&id)?.body {
            Body::Gauge { gauge } => Some(gauge),
            _ => None,
        }
    }

    /// The size sheet that the engine is held against.
    pub fn size_sheet(&self) -> Option<&'c SizeSheet> {
        match &self.sizes?.body {
            Body::Sizes { sheet } => Some(sheet),
            _ => None,
        }
    }

    /// Whether a leaf has been answered: rated, measured, or not inspected for a reason.
    pub fn answered(&self, leaf: LeafId) -> bool {
        let looked = self.looks.get(leaf.0);
        let read = self.readings.get(leaf.0);
        looked.is_some_and(|looks| !looks.is_empty())
            || read.is_some_and(|readings| readings.keys().any(|(as_new, ..)| !as_new))
    }

    /// Whether everyone who answered a leaf said that it was not inspected.
    pub fn not_inspected(&self, leaf: LeafId) -> bool {
        let read = self.readings.get(leaf.0);
        let unread = read.is_none_or(|readings| readings.keys().all(|(as_new, ..)| *as_new));
        self.looks.get(leaf.0).is_some_and(|looks| {
            unread
                && !looks.is_empty()
                && looks.iter().all(|entry| {
                    matches!(
                        entry.body,
                        Body::Rating {
                            look: Look::NotInspected(_),
                            ..
                        }
                    )
                })
        })
    }
}

/// Puts a rater's look among the others', in place of an earlier one of the same rater.
fn keep_last<'c>(looks: &mut Vec<&'c Entry>, entry: &'c Entry) {
    match looks.binary_search_by(|known| known.rater.cmp(&entry.rater)) {
        Ok(known) => looks[known] = entry,
        Err(place) => looks.insert(place, entry),
    }
}
