//! What another file of a card would bring to it: looked at before it is merged.
//!
//! Merging takes nothing away and writes nothing over, so this is no list of conflicts to be settled: it says what a
//! rater is going to see on the card that was not there before.

use std::collections::{BTreeMap, BTreeSet};

use crate::{
    card::{Card, MergeError},
    entry::{At, Body, Entry, Fact, FactField},
    plan::LeafId,
    standing::Standing,
};

/// What an entry is, as far as somebody asks who merges.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Brought {
    /// A rating or a measurement.
    Look,
    /// A reading of a gauge.
    Reading,
    /// A fact.
    Fact,
    /// A remark.
    Remark,
    /// A photo.
    Photo,
    /// A mark on a photo.
    Mark,
    /// A cause.
    Cause,
    /// A correction of an earlier entry, or its removal.
    Correction,
    /// Another plan.
    Plan,
    /// A seal.
    Seal,
    /// A gauge, a size sheet, or what only a newer version knows.
    Else,
}

impl Brought {
    /// What an entry is.
    pub fn of(entry: &Entry) -> Self {
        match &entry.body {
            Body::Void { .. } => Self::Correction,
            _ if entry.supersedes.is_some() => Self::Correction,
            Body::Rating { .. } | Body::Measurement { .. } => Self::Look,
            Body::Reading { .. } => Self::Reading,
            Body::Fact { .. } => Self::Fact,
            Body::Remark { .. } => Self::Remark,
            Body::Photo { .. } => Self::Photo,
            Body::Mark { .. } => Self::Mark,
            Body::Cause { .. } => Self::Cause,
            Body::Plan { .. } => Self::Plan,
            Body::Seal { .. } => Self::Seal,
            Body::Gauge { .. } | Body::Sizes { .. } | Body::Other(_) => Self::Else,
        }
    }
}

/// A fact that both files state, each otherwise.
#[derive(Clone, Debug, PartialEq)]
pub struct FactApart {
    /// What it is about.
    pub field: FactField,
    /// As it stands here.
    pub here: Fact,
    /// As it stands there.
    pub there: Fact,
    /// What holds once they are merged: the last in order, unless either file has it taken out.
    pub then: Option<Fact>,
}

/// What would come in.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Coming {
    /// How many entries of each kind are not here yet.
    pub entries: BTreeMap<Brought, usize>,
    /// The leaves that somebody looked at here and somebody else there, in plan order.
    pub both: Vec<LeafId>,
    /// The leaves that the same rater answered anew there, in plan order: their last answer holds.
    pub anew: Vec<LeafId>,
    /// The facts on which the two differ, by field.
    pub facts: Vec<FactApart>,
}

impl Coming {
    /// What `there` would bring to `here`.
    ///
    /// # Errors
    ///
    /// [`MergeError`] where the two cannot be merged.
    pub fn of(here: &Card, there: &Card) -> Result<Self, MergeError> {
        let merged = here.merge(there)?;
        let new: Vec<&Entry> = there
            .entries()
            .filter(|entry| here.entry(entry.id).is_none())
            .collect();
        let mut entries = BTreeMap::new();
        for entry in &new {
            *entries.entry(Brought::of(entry)).or_insert(0) += 1;
        }
        let (ours, theirs) = (here.standing(), there.standing());
        let (both, anew) = looked_at_twice(&ours, &new);
        Ok(Self {
            entries,
            both,
            anew,
            facts: facts_apart(&ours, &theirs, &merged.standing()),
        })
    }

    /// How many entries would come in.
    pub fn len(&self) -> usize {
        self.entries.values().sum()
    }

    /// Whether everything is here already.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }
}

/// The leaves with a new look by another rater, and those with a new one by the same.
fn looked_at_twice(ours: &Standing<'_>, new: &[&Entry]) -> (Vec<LeafId>, Vec<LeafId>) {
    let (mut both, mut anew) = (BTreeSet::new(), BTreeSet::new());
    for entry in new {
        let Some((leaf, raters)) = who_looked(ours, entry) else {
            continue;
        };
        if raters.iter().any(|rater| *rater != entry.rater) {
            both.insert(leaf);
        }
        if raters.contains(entry.rater.as_str()) {
            anew.insert(leaf);
        }
    }
    (both.into_iter().collect(), anew.into_iter().collect())
}

/// Where an entry looks at something, and who has looked at the same here; a reading is of one spot.
fn who_looked<'c>(ours: &Standing<'c>, entry: &Entry) -> Option<(LeafId, BTreeSet<&'c str>)> {
    let find = |at: &At| ours.index.find(ours.plan, at);
    match &entry.body {
        Body::Rating { at, .. } | Body::Measurement { at, .. } => {
            let leaf = find(at)?;
            let looks = ours.looks[leaf.0].iter();
            Some((leaf, looks.map(|known| known.rater.as_str()).collect()))
        }
        Body::Reading { reading } => {
            let leaf = find(&reading.at)?;
            let read = ours.readings[leaf.0].keys();
            let same = read
                .filter(|(as_new, spot, _)| *as_new == reading.as_new && **spot == reading.spot);
            Some((leaf, same.map(|(.., rater)| *rater).collect()))
        }
        _ => None,
    }
}

fn facts_apart(
    ours: &Standing<'_>,
    theirs: &Standing<'_>,
    merged: &Standing<'_>,
) -> Vec<FactApart> {
    let fields = ours.facts.keys().filter_map(|field| {
        let (here, there) = (ours.fact(*field)?, theirs.fact(*field)?);
        (here != there).then(|| FactApart {
            field: *field,
            here: here.clone(),
            there: there.clone(),
            then: merged.fact(*field).cloned(),
        })
    });
    fields.collect()
}
