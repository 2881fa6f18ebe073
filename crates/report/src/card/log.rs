//! What was written on the card, by leaf and by what became of it.

use std::collections::BTreeMap;

use ringland_card::{Body, Card, Entry, EntryId, Standing, plan::LeafId};

/// What became of an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Became {
    /// It stands.
    Stands,
    /// This later entry corrects it.
    Corrected(EntryId),
    /// This void takes it out.
    TakenOut(EntryId),
}

/// Who wrote what about each leaf, and what became of it.
#[derive(Clone, Debug, Default)]
pub struct Log {
    /// By leaf: the looks of raters that stand, in order of their names.
    looks: Vec<Vec<EntryId>>,
    /// By leaf: every rating, measurement and cause ever written about it, the first first.
    history: Vec<Vec<EntryId>>,
    /// By leaf: the remarks about it or its position that stand.
    remarks: Vec<Vec<EntryId>>,
    voided: BTreeMap<EntryId, EntryId>,
    corrected: BTreeMap<EntryId, EntryId>,
    /// Every correction and every void, in order.
    changes: Vec<EntryId>,
    /// Remarks that stand, in order.
    all_remarks: Vec<EntryId>,
    /// Ratings and measurements that the plan has no place for.
    outside: Vec<EntryId>,
}

impl Log {
    /// Reads a card through once.
    pub fn of(card: &Card, standing: &Standing<'_>) -> Self {
        let ids = |entries: &[&Entry]| entries.iter().map(|entry| entry.id).collect::<Vec<_>>();
        let leaves = standing.looks.len();
        let mut log = Self {
            looks: standing.looks.iter().map(|looks| ids(looks)).collect(),
            history: vec![Vec::new(); leaves],
            remarks: vec![Vec::new(); leaves],
            all_remarks: ids(&standing.remarks),
            outside: ids(&standing.outside),
            ..Self::default()
        };
        for entry in card.entries() {
            if let Body::Void { entry: target, .. } = &entry.body {
                log.voided.insert(*target, entry.id);
            }
        }
        for entry in card.entries() {
            log.take(card, entry, standing.dead.has(entry.id));
        }
        log
    }

    fn take(&mut self, card: &Card, entry: &Entry, dead: bool) {
        if let Some(target) = entry.supersedes {
            self.changes.push(entry.id);
            // A correction that was itself corrected still corrects; one that was taken out does not.
            if !self.voided.contains_key(&entry.id) {
                self.corrected.insert(target, entry.id);
            }
        }
        match &entry.body {
            Body::Void { .. } => self.changes.push(entry.id),
            Body::Remark { .. } if dead => {}
            body => {
                for leaf in leaves_of(card, body) {
                    let list = match body {
                        Body::Remark { .. } => &mut self.remarks,
                        _ => &mut self.history,
                    };
                    list[leaf.0].push(entry.id);
                }
            }
        }
    }

    /// The looks of raters that stand at a leaf, in order of their names.
    pub fn looks(&self, leaf: LeafId) -> &[EntryId] {
        self.looks.get(leaf.0).map_or(&[], Vec::as_slice)
    }

    /// Everything ever said of a leaf, the first first.
    pub fn history(&self, leaf: LeafId) -> &[EntryId] {
        self.history.get(leaf.0).map_or(&[], Vec::as_slice)
    }

    /// The remarks about a leaf or its position that stand.
    pub fn remarks(&self, leaf: LeafId) -> &[EntryId] {
        self.remarks.get(leaf.0).map_or(&[], Vec::as_slice)
    }

    /// Every correction and every void, in order.
    pub fn changes(&self) -> &[EntryId] {
        &self.changes
    }

    /// Every remark that stands, in order.
    pub fn all_remarks(&self) -> &[EntryId] {
        &self.all_remarks
    }

    /// Ratings and measurements that the plan has no place for.
    pub fn outside(&self) -> &[EntryId] {
        &self.outside
    }

    /// What became of an entry.
    pub fn became(&self, entry: EntryId) -> Became {
        match (self.voided.get(&entry), self.corrected.get(&entry)) {
            (Some(void), _) => Became::TakenOut(*void),
            (None, Some(by)) => Became::Corrected(*by),
            (None, None) => Became::Stands,
        }
    }
}

/// The leaves that the body of an entry is about; of a whole position all of them.
fn leaves_of(card: &Card, body: &Body) -> Vec<LeafId> {
    let (plan, index) = (card.plan(), card.index());
    let about = match body {
        Body::Rating { at, .. } | Body::Measurement { at, .. } => {
            return index.find(plan, at).into_iter().collect();
        }
        Body::Cause { about, .. }
        | Body::Remark {
            about: Some(about), ..
        } => about,
        _ => return Vec::new(),
    };
    let here = |leaf: &LeafId| {
        let only = about.characteristic.as_ref();
        let look = index.leaf(*leaf).map(|leaf| leaf.characteristic(plan));
        only.is_none_or(|only| look.is_some_and(|look| look.id == *only))
    };
    index
        .of_position(plan, about.position.as_str())
        .map(LeafId)
        .filter(here)
        .collect()
}
