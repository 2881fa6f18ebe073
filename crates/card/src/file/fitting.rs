//! Whether the entries of a card fit its plans and each other, step by step: each look must fit one of
//! the plans, as it was made under one of them, and what points at another entry must be able to.

use std::{collections::BTreeSet, task::Poll};

use super::read::FileError;
use crate::{
    card::{AppendError, Card},
    entry::{Body, Entry, OrderKey},
    ids::EntryId,
    look::check_body,
    plan::PlanIndex,
};

/// How many bytes of a file one entry counts for where it is only looked at.
const ENTRY_BYTES: usize = 128;

/// How many entries make a step of so many bytes.
pub(super) fn entries_in(bytes: usize) -> usize {
    bytes.div_ceil(ENTRY_BYTES)
}

/// The entries of a card being held against its plans and each other.
#[derive(Debug)]
pub(super) struct Fitting {
    /// The last entry looked at.
    last: Option<OrderKey>,
    done: usize,
    /// The leaves of the plan that entries are held against now.
    index: PlanIndex,
    /// The entries that bring a plan, and how many of them have been gone through.
    plans: Vec<OrderKey>,
    plans_done: usize,
    /// What fits none of the plans gone through, and how many of these have been held against the next.
    misfits: Vec<OrderKey>,
    tried: usize,
    left: usize,
    /// Whether what does not fit is to be left out; otherwise the first such entry ends it.
    leaves_out: bool,
    left_out: BTreeSet<EntryId>,
}

impl Fitting {
    /// Begins with the first entry; the first that does not fit is an error.
    pub(super) fn new(card: &Card) -> Self {
        Self {
            last: None,
            done: 0,
            index: PlanIndex::of(card.first_plan()),
            plans: Vec::new(),
            plans_done: 0,
            misfits: Vec::new(),
            tried: 0,
            left: 0,
            leaves_out: false,
            left_out: BTreeSet::new(),
        }
    }

    /// The same, but what does not fit is to be left out.
    pub(super) fn leaving_out(card: &Card) -> Self {
        Self {
            leaves_out: true,
            ..Self::new(card)
        }
    }

    /// What does not belong on the card.
    pub(super) fn left_out(self) -> BTreeSet<EntryId> {
        self.left_out
    }

    /// How many entries have been looked at.
    pub(super) fn done(&self) -> usize {
        self.done
    }

    /// Goes on for as many entries as count for so many bytes.
    ///
    /// What does not fit the first plan is tried against the later ones, one plan at a time: a file with
    /// many plans must not hold an index of each at once, nor the reason for each entry.
    pub(super) fn step(&mut self, card: &Card, bytes: usize) -> Result<Poll<()>, FileError> {
        for _ in 0..entries_in(bytes) {
            let Some(entry) = card.entry_after(self.last) else {
                return self.later_plan(card, bytes);
            };
            let (key, id) = (entry.order(), entry.id);
            self.last = Some(key);
            self.done += 1;
            if let Err(why) = self.check_targets(card, entry) {
                if !self.leaves_out {
                    return Err(FileError::Misfit { id, why });
                }
                self.left_out.insert(id);
                continue;
            }
            if matches!(entry.body, Body::Plan { .. }) {
                self.plans.push(key);
            }
            if check_body(card.first_plan(), &self.index, &entry.body).is_err() {
                self.misfits.push(key);
            }
        }
        Ok(Poll::Pending)
    }

    fn later_plan(&mut self, card: &Card, bytes: usize) -> Result<Poll<()>, FileError> {
        let plan = self.plans.get(self.plans_done);
        let plan = plan.and_then(|key| match &card.entry_at(key)?.body {
            Body::Plan { plan } => Some(&**plan),
            _ => None,
        });
        let Some(plan) = plan.filter(|_| !self.misfits.is_empty()) else {
            return self.end(card);
        };
        if self.tried == 0 {
            self.index = PlanIndex::of(plan);
        }
        let until = self.misfits.len();
        let until = until.min(self.tried.saturating_add(entries_in(bytes)));
        for place in self.tried..until {
            let entry = card.entry_at(&self.misfits[place]);
            if entry.is_some_and(|entry| check_body(plan, &self.index, &entry.body).is_err()) {
                self.misfits.swap(self.left, place);
                self.left += 1;
            }
        }
        self.tried = until;
        if self.tried == self.misfits.len() {
            self.misfits.truncate(self.left);
            (self.tried, self.left) = (0, 0);
            self.plans_done += 1;
        }
        Ok(Poll::Pending)
    }

    fn end(&mut self, card: &Card) -> Result<Poll<()>, FileError> {
        let misfits = std::mem::take(&mut self.misfits);
        if self.leaves_out {
            self.left_out.extend(misfits.iter().map(|key| key.id));
            return Ok(Poll::Ready(()));
        }
        let plan = card.first_plan();
        let first = misfits.first().and_then(|key| card.entry_at(key));
        let why = first.and_then(|entry| {
            let why = check_body(plan, &PlanIndex::of(plan), &entry.body).err()?;
            let (id, why) = (entry.id, AppendError::Look(why));
            Some(FileError::Misfit { id, why })
        });
        why.map_or(Ok(Poll::Ready(())), Err)
    }

    /// What an entry points at, where that is not left out.
    fn check_targets(&self, card: &Card, entry: &Entry) -> Result<(), AppendError> {
        match card.check_known_targets(entry) {
            Err(
                AppendError::VoidOfVoid { target }
                | AppendError::NotEarlier { target, .. }
                | AppendError::NotAPhoto { target },
            ) if self.left_out.contains(&target) => Ok(()),
            checked => checked,
        }
    }
}
