//! A card: a plan, and the set of entries made under it.

use std::{
    collections::{BTreeMap, BTreeSet, btree_map},
    ops::Bound,
};

use crate::{
    entry::{Body, Entry, MOST_LAMPORT, OrderKey},
    gauging::{GaugeError, SizeError},
    ids::{CardId, DeviceId, EntryId},
    look::{LookError, check_body},
    photo::{MarkError, Photo, PhotoDigest, Picture, PictureError},
    plan::{Plan, PlanError, PlanIndex},
    seal::{LONGEST_SEALED, Seal},
    standing::{Dead, Standing},
};

/// The longest text of a remark, a reason or a fact, in characters.
pub const LONGEST_TEXT: usize = 10_000;
/// The longest name of a rater, in characters.
pub const LONGEST_RATER: usize = 200;
/// The most entries one card may hold.
pub const MOST_ENTRIES: usize = 200_000;
/// The most changes of plan one card may hold: each may be large, and each entry is held against them.
pub const MOST_PLANS: usize = 200;
/// The most raters that one card may have: each one's look is kept beside the others'.
pub const MOST_RATERS: usize = 64;

/// One strip-down of one engine.
///
/// Everything shown is a function of the plan and the entries. There are two ways to change a card:
/// [`Card::append`] and [`Card::merge`]; neither removes anything.
#[derive(Clone, Debug)]
pub struct Card {
    id: CardId,
    first_plan: Plan,
    entries: BTreeMap<OrderKey, Entry>,
    order_of: BTreeMap<EntryId, OrderKey>,
    /// Every rater named, as long as they are no more than allowed and one.
    raters: Vec<Box<str>>,
    plan_entry: Option<OrderKey>,
    index: PlanIndex,
    pub(crate) residue: Option<serde_json::Value>,
}

/// Two cards are equal when they are the same card with the same plan and the same entries.
impl PartialEq for Card {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
            && self.first_plan == other.first_plan
            && self.entries == other.entries
            && self.residue == other.residue
    }
}

/// Why an entry was refused. The card is as it was.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AppendError {
    /// An id that the card already has.
    #[error("entry {id} is on the card already")]
    KnownId {
        /// The id.
        id: EntryId,
    },
    /// A look that does not fit the plan.
    #[error(transparent)]
    Look(#[from] LookError),
    /// A plan that contradicts itself.
    #[error("the new plan: {0}")]
    Plan(#[from] PlanError),
    /// A gauge that contradicts itself.
    #[error(transparent)]
    Gauge(#[from] GaugeError),
    /// A size sheet that contradicts itself.
    #[error("the size sheet: {0}")]
    Sizes(#[from] SizeError),
    /// A photo that cannot be one, or that nobody could show.
    #[error("the photo: {0}")]
    Picture(#[from] PictureError),
    /// A mark that contradicts itself, or lies beside its photo.
    #[error("the mark: {0}")]
    Mark(#[from] MarkError),
    /// A mark on what is no photo.
    #[error("entry {target} is no photo: only photos are marked")]
    NotAPhoto {
        /// The entry meant.
        target: EntryId,
    },
    /// A Lamport counter that other readers could not keep exact.
    #[error("the Lamport counter is {given}: allowed is {MOST_LAMPORT} at most")]
    Lamport {
        /// The counter.
        given: u64,
    },
    /// A rater's name that is empty or too long.
    #[error("the rater's name has {given} characters: allowed is 1 to {LONGEST_RATER}")]
    Rater {
        /// Its length.
        given: usize,
    },
    /// A text that is too long.
    #[error("the text has {given} characters: allowed is {LONGEST_TEXT} at most")]
    LongText {
        /// Its length.
        given: usize,
    },
    /// A figure that is negative or no number.
    #[error("{given} is not a distance, a time or a volume: allowed is 0 or more")]
    FactFigure {
        /// The figure, in SI units.
        given: f64,
    },
    /// A void or a correction of an entry that is not there.
    #[error("entry {target} is not on the card")]
    UnknownTarget {
        /// The entry meant.
        target: EntryId,
    },
    /// A void of a void.
    #[error("entry {target} is itself a void: make the entry anew instead")]
    VoidOfVoid {
        /// The entry meant.
        target: EntryId,
    },
    /// A correction that comes before what it corrects.
    #[error("entry {id} would correct {target}, which does not come before it")]
    NotEarlier {
        /// The correcting entry.
        id: EntryId,
        /// The entry meant.
        target: EntryId,
    },
    /// More entries than a card may hold.
    #[error("the card holds {MOST_ENTRIES} entries, the most allowed")]
    Full,
    /// More raters than one card may have.
    #[error("the card has entries by {MOST_RATERS} raters, the most allowed")]
    FullOfRaters,
    /// More changes of plan than a card may hold.
    #[error("the plan has been changed {MOST_PLANS} times on this card, the most allowed")]
    FullOfPlans,
}

/// Why two cards cannot be merged. Both are as they were.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum MergeError {
    /// Two different cards.
    #[error("these are two cards, {ours} and {theirs}: only files of one card can be merged")]
    OtherCard {
        /// This card.
        ours: CardId,
        /// The other.
        theirs: CardId,
    },
    /// The same card begun under different plans.
    #[error("the two files of card {id} do not begin with the same plan: one of them was altered")]
    PlanDiffers {
        /// The card.
        id: CardId,
    },
    /// One entry with two contents.
    #[error("entry {id} differs between the two files: one of them was altered")]
    EntryDiffers {
        /// The entry.
        id: EntryId,
    },
    /// Fields of a newer version that differ.
    #[error("the two files of card {id} differ in fields that this version does not know")]
    UnknownFieldsDiffer {
        /// The card.
        id: CardId,
    },
    /// More entries than a card may hold.
    #[error("together the files hold {given} entries: allowed is {MOST_ENTRIES} at most")]
    Full {
        /// Entries in both.
        given: usize,
    },
    /// More raters than one card may have.
    #[error("together the files have more than {MOST_RATERS} raters, the most allowed")]
    FullOfRaters,
    /// More changes of plan than a card may hold.
    #[error("together the files change the plan {given} times: allowed is {MOST_PLANS} at most")]
    FullOfPlans {
        /// Changes of plan in both.
        given: usize,
    },
    /// An entry that does not go with what the other file holds.
    #[error("entry {id}: {why}")]
    Misfit {
        /// The entry.
        id: EntryId,
        /// Why it does not go.
        why: AppendError,
    },
}

impl Card {
    /// A new card with nothing on it.
    ///
    /// # Errors
    ///
    /// [`PlanError`] when the plan contradicts itself.
    pub fn new(id: CardId, plan: Plan) -> Result<Self, PlanError> {
        plan.check()?;
        let index = PlanIndex::of(&plan);
        Ok(Self {
            id,
            first_plan: plan,
            entries: BTreeMap::new(),
            order_of: BTreeMap::new(),
            raters: Vec::new(),
            plan_entry: None,
            index,
            residue: None,
        })
    }

    /// Its id.
    pub fn id(&self) -> CardId {
        self.id
    }

    /// The plan that the card began with.
    pub fn first_plan(&self) -> &Plan {
        &self.first_plan
    }

    /// The plan that holds: the last plan entry in order, or the first plan.
    pub fn plan(&self) -> &Plan {
        match self
            .plan_entry
            .and_then(|key| self.entries.get(&key))
            .map(|entry| &entry.body)
        {
            Some(Body::Plan { plan }) => plan,
            _ => &self.first_plan,
        }
    }

    /// The leaves of the plan that holds.
    pub fn index(&self) -> &PlanIndex {
        &self.index
    }

    /// All entries in order.
    pub fn entries(&self) -> btree_map::Values<'_, OrderKey, Entry> {
        self.entries.values()
    }

    /// How many entries there are.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether nothing has been written yet.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// The entry of that id.
    pub fn entry(&self, id: EntryId) -> Option<&Entry> {
        self.entries.get(self.order_of.get(&id)?)
    }

    /// The Lamport counter for the next entry.
    pub fn next_lamport(&self) -> u64 {
        self.entries
            .last_key_value()
            .map_or(1, |(key, _)| key.lamport + 1)
    }

    /// The last entry of a device, or of any device.
    pub fn last_entry(&self, device: Option<DeviceId>) -> Option<&Entry> {
        self.entries
            .values()
            .rev()
            .find(|entry| device.is_none_or(|device| entry.device == device))
    }

    /// What holds now: each rater's current looks, facts, causes, remarks.
    pub fn standing(&self) -> Standing<'_> {
        Standing::of(self)
    }

    /// Whether an entry could be written on the card.
    ///
    /// # Errors
    ///
    /// [`AppendError`] with what is wrong with it.
    pub fn check(&self, entry: &Entry) -> Result<(), AppendError> {
        if self.order_of.contains_key(&entry.id) {
            return Err(AppendError::KnownId { id: entry.id });
        }
        if self.entries.len() >= MOST_ENTRIES {
            return Err(AppendError::Full);
        }
        if matches!(entry.body, Body::Plan { .. }) && self.plans_written().count() >= MOST_PLANS {
            return Err(AppendError::FullOfPlans);
        }
        if self.is_full_for(&entry.rater) {
            return Err(AppendError::FullOfRaters);
        }
        check_alone(entry)?;
        check_body(self.plan(), &self.index, &entry.body)?;
        self.check_targets(entry)
    }

    /// Writes an entry on the card.
    ///
    /// # Errors
    ///
    /// [`AppendError`] with what was wrong; the card is as it was.
    pub fn append(&mut self, entry: Entry) -> Result<(), AppendError> {
        self.check(&entry)?;
        let touches_plan = matches!(entry.body, Body::Plan { .. } | Body::Void { .. });
        self.take(entry);
        if touches_plan {
            self.find_plan();
        }
        Ok(())
    }

    fn check_targets(&self, entry: &Entry) -> Result<(), AppendError> {
        if let Body::Void { entry: target, .. } = &entry.body
            && self.entry(*target).is_none()
        {
            return Err(AppendError::UnknownTarget { target: *target });
        }
        if let Some(target) = photo_meant(&entry.body)
            && self.entry(target).is_none()
        {
            return Err(AppendError::UnknownTarget { target });
        }
        if let Some(target) = entry.supersedes
            && self.entry(target).is_none()
        {
            return Err(AppendError::UnknownTarget { target });
        }
        self.check_known_targets(entry)
    }

    /// Checks what an entry points at as far as the card has it.
    pub(crate) fn check_known_targets(&self, entry: &Entry) -> Result<(), AppendError> {
        if let Body::Void { entry: target, .. } = &entry.body
            && let Some(Entry {
                body: Body::Void { .. },
                ..
            }) = self.entry(*target)
        {
            return Err(AppendError::VoidOfVoid { target: *target });
        }
        if let Some(target) = photo_meant(&entry.body)
            && let Some(photo) = self.entry(target)
        {
            let Body::Photo { photo, .. } = &photo.body else {
                return Err(AppendError::NotAPhoto { target });
            };
            check_on_picture(&entry.body, &photo.picture)?;
        }
        let pointed = match &entry.body {
            Body::Void { entry: target, .. } => [Some(*target), None],
            body => [photo_meant(body), entry.supersedes],
        };
        let later = pointed
            .into_iter()
            .flatten()
            .filter_map(|target| self.entry(target))
            .find(|target| target.order() >= entry.order());
        match later {
            Some(target) => Err(AppendError::NotEarlier {
                id: entry.id,
                target: target.id,
            }),
            None => Ok(()),
        }
    }

    /// The union of two files of one card: commutative, associative, idempotent.
    ///
    /// # Errors
    ///
    /// [`MergeError`] when they are not files of one card, or one of them was altered.
    pub fn merge(&self, other: &Self) -> Result<Self, MergeError> {
        if self.id != other.id {
            return Err(MergeError::OtherCard {
                ours: self.id,
                theirs: other.id,
            });
        }
        if self.first_plan != other.first_plan {
            return Err(MergeError::PlanDiffers { id: self.id });
        }
        if self.residue != other.residue {
            return Err(MergeError::UnknownFieldsDiffer { id: self.id });
        }
        let mut merged = self.clone();
        for entry in other.entries.values() {
            match merged.entry(entry.id) {
                Some(known) if known == entry => {}
                Some(_) => return Err(MergeError::EntryDiffers { id: entry.id }),
                None => merged.take(entry.clone()),
            }
        }
        if merged.len() > MOST_ENTRIES {
            return Err(MergeError::Full {
                given: merged.len(),
            });
        }
        if merged.has_too_many_raters() {
            return Err(MergeError::FullOfRaters);
        }
        let plans = merged.plans_written().count();
        if plans > MOST_PLANS {
            return Err(MergeError::FullOfPlans { given: plans });
        }
        // Either file may name entries that only the other has; a merged card must open again.
        for entry in merged.entries() {
            merged
                .check_known_targets(entry)
                .map_err(|why| MergeError::Misfit { id: entry.id, why })?;
        }
        merged.find_plan();
        Ok(merged)
    }

    /// Puts an entry into its place without looking at it.
    pub(crate) fn take(&mut self, entry: Entry) {
        if self.raters.len() <= MOST_RATERS && !self.has_rater(&entry.rater) {
            self.raters.push(entry.rater.as_str().into());
        }
        self.order_of.insert(entry.id, entry.order());
        self.entries.insert(entry.order(), entry);
    }

    /// The same card without entries that turned out not to belong, before anybody has seen it.
    pub(crate) fn without(mut self, out: &BTreeSet<EntryId>) -> Self {
        self.order_of = BTreeMap::new();
        self.raters = Vec::new();
        let entries = std::mem::take(&mut self.entries).into_values();
        for entry in entries.filter(|entry| !out.contains(&entry.id)) {
            self.take(entry);
        }
        self
    }

    /// The entry at that place in the order.
    pub(crate) fn entry_at(&self, key: &OrderKey) -> Option<&Entry> {
        self.entries.get(key)
    }

    /// The first entry after that place in the order.
    pub(crate) fn entry_after(&self, key: Option<OrderKey>) -> Option<&Entry> {
        let from = key.map_or(Bound::Unbounded, Bound::Excluded);
        let mut rest = self.entries.range((from, Bound::Unbounded));
        rest.next().map(|(_, entry)| entry)
    }

    /// Whether a rater has written on the card.
    fn has_rater(&self, rater: &str) -> bool {
        self.raters.iter().any(|known| **known == *rater)
    }

    /// Whether more raters have written on the card than may.
    pub(crate) fn has_too_many_raters(&self) -> bool {
        self.raters.len() > MOST_RATERS
    }

    /// Whether a rater is one more than the card may have.
    pub(crate) fn is_full_for(&self, rater: &str) -> bool {
        self.raters.len() >= MOST_RATERS && !self.has_rater(rater)
    }

    /// Every photo that an entry names, whether it stands or was taken out; named twice, it is here once.
    pub fn photos_named(&self) -> BTreeMap<PhotoDigest, &Photo> {
        let photos = self.entries().filter_map(|entry| match &entry.body {
            Body::Photo { photo, .. } => Some((photo.digest, &**photo)),
            _ => None,
        });
        photos.collect()
    }

    /// Every plan that an entry brought, in order, whether it still holds or not.
    pub(crate) fn plans_written(&self) -> impl Iterator<Item = &Plan> {
        self.entries().filter_map(|entry| match &entry.body {
            Body::Plan { plan } => Some(&**plan),
            _ => None,
        })
    }

    /// Finds the plan that holds, anew.
    pub(crate) fn find_plan(&mut self) {
        let dead = Dead::of(self);
        let last = self
            .entries
            .iter()
            .rev()
            .find(|(_, entry)| matches!(entry.body, Body::Plan { .. }) && !dead.has(entry.id))
            .map(|(key, _)| *key);
        if last != self.plan_entry {
            self.plan_entry = last;
            self.index = PlanIndex::of(self.plan());
        }
    }
}

/// The photo that an entry is about.
fn photo_meant(body: &Body) -> Option<EntryId> {
    match body {
        Body::Mark { on, .. } => Some(*on),
        Body::Rating { look, .. } => look.read_off().map(|read| read.photo),
        _ => None,
    }
}

/// Whether what an entry says of a photo lies on it.
fn check_on_picture(body: &Body, picture: &Picture) -> Result<(), AppendError> {
    match body {
        Body::Mark { mark, .. } => Ok(mark.check_on(picture)?),
        Body::Rating { at, look } => match look.read_off() {
            Some(read) => Ok(read
                .region
                .check_on(picture)
                .map_err(|why| LookError::ReadOff {
                    at: at.to_string(),
                    why,
                })?),
            None => Ok(()),
        },
        _ => Ok(()),
    }
}

/// A seal that does not hold may stand on a card, and is said to be broken; but not one that nobody could show.
fn check_seal(seal: &Seal) -> Result<(), AppendError> {
    let given = seal.name.chars().count();
    if !(1..=LONGEST_RATER).contains(&given) {
        return Err(AppendError::Rater { given });
    }
    let texts = [&seal.digest, &seal.key, &seal.signature];
    let longest = texts.iter().map(|text| text.chars().count()).max();
    match longest {
        Some(given) if given > LONGEST_SEALED => Err(AppendError::LongText { given }),
        _ => Ok(()),
    }
}

/// What can be said of an entry without its card.
pub(crate) fn check_alone(entry: &Entry) -> Result<(), AppendError> {
    if entry.lamport > MOST_LAMPORT {
        return Err(AppendError::Lamport {
            given: entry.lamport,
        });
    }
    let rater = entry.rater.chars().count();
    if !(1..=LONGEST_RATER).contains(&rater) {
        return Err(AppendError::Rater { given: rater });
    }
    let text = match &entry.body {
        Body::Remark { text, .. } | Body::Void { reason: text, .. } => Some(text.as_str()),
        Body::Fact { fact } => fact.text(),
        _ => None,
    };
    let given = text.map_or(0, |text| text.chars().count());
    if given > LONGEST_TEXT {
        return Err(AppendError::LongText { given });
    }
    match &entry.body {
        Body::Fact { fact } => match fact.si() {
            Some(given) if !(given >= 0.0 && given.is_finite()) => {
                Err(AppendError::FactFigure { given })
            }
            _ => Ok(()),
        },
        Body::Plan { plan } => Ok(plan.check()?),
        Body::Gauge { gauge } => Ok(gauge.check()?),
        Body::Sizes { sheet } => Ok(sheet.check()?),
        Body::Photo { photo, .. } => Ok(photo.picture.check()?),
        Body::Mark { mark, .. } => Ok(mark.check()?),
        Body::Seal { seal } => check_seal(seal),
        _ => Ok(()),
    }
}
