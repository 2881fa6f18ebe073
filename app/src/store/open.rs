//! The open card, behind one door.
//!
//! Readers are named by what wakes them: [`CardStore::position`] by a change of one position,
//! [`CardStore::whole`] by every change. The one way to change the card is [`CardStore::keep`]: the
//! entries are checked, then written to disk, and only then put on the card that everything shows.

use std::{future::Future, rc::Rc, task::Poll, time::Duration};

use leptos::{prelude::*, task::spawn_local};
use ringland_assess::{Answer, Assessment, NodeKind, Tree, assess};
use ringland_card::{
    AppendError, Areas, Body, Card, CardId, Entry, EntryId, Look, MergeError, Plan, Standing,
    plan::LeafId,
};
use ringland_report::{wear_map::capping, words::Words};

use super::{jobs::Jobs, prefs::Prefs, summary::Summary};
use crate::{
    persist::{
        Db, KeepError, Read, StoredCard,
        tabs::{alone, tell},
    },
    platform,
    slices::Slices,
};

/// How long nothing more is kept before the Shelf is told.
const MOMENT: Duration = Duration::from_millis(700);

/// An entry to be: what it says, and what it corrects.
#[derive(Clone, Debug)]
pub struct Draft {
    /// What it says.
    pub body: Body,
    /// The entry it corrects.
    pub supersedes: Option<EntryId>,
}

impl From<Body> for Draft {
    fn from(body: Body) -> Self {
        Self {
            body,
            supersedes: None,
        }
    }
}

/// Why something was not kept. What was on the card is as it was.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Refused {
    /// It cannot be on this card.
    #[error(transparent)]
    Append(#[from] AppendError),
    /// The browser did not keep it.
    #[error(transparent)]
    Keep(#[from] KeepError),
    /// Nobody has said who rates.
    #[error("nobody has said who rates")]
    NoRater,
    /// The card is only to be looked at.
    #[error("this card is only to be looked at")]
    ReadOnly,
    /// No card is open.
    #[error("no card is open")]
    NoCard,
}

/// A refusal in kind words.
pub fn refusal(words: &Words, plan: &Plan, refused: &Refused) -> String {
    match refused {
        Refused::Append(error) => words.append_error(plan, error),
        Refused::Keep(error) => error.said(words),
        Refused::NoRater => words.facts.rater_needed.to_owned(),
        Refused::ReadOnly => words.bench.altered.to_owned(),
        Refused::NoCard => words.common.cannot_open.to_owned(),
    }
}

/// How the last attempt to keep something went.
#[derive(Clone, Debug, PartialEq)]
pub enum Kept {
    /// Nothing was to be kept yet.
    Nothing,
    /// Being written.
    Writing,
    /// On disk since then, milliseconds since 1970.
    At(i64),
    /// Not kept.
    Not(Refused),
}

/// A card with everything worked out of it.
#[derive(Clone, Debug)]
pub struct Open {
    /// Its record.
    pub stored: StoredCard,
    /// The card.
    pub card: Card,
    /// Records of entries that could not be read and stay aside.
    pub unreadable: usize,
    /// The tree of its plan.
    pub tree: Tree,
    /// What is worked out of it.
    pub result: Assessment,
    /// By leaf: the looks that stand. Kept, as finding them costs as much as working the card out.
    looks: Vec<Vec<EntryId>>,
}

impl From<Read> for Open {
    fn from(read: Read) -> Self {
        let Read {
            stored,
            card,
            unreadable,
        } = read;
        let tree = Tree::of(card.plan());
        let standing = card.standing();
        let result = assess(&standing, &tree);
        let looks = looks(&standing);
        Self {
            stored,
            card,
            unreadable,
            tree,
            result,
            looks,
        }
    }
}

impl Open {
    /// The looks at a leaf that stand, one of each rater.
    pub fn looks(&self, leaf: LeafId) -> impl Iterator<Item = &Entry> {
        let ids = self.looks.get(leaf.0).into_iter().flatten();
        ids.filter_map(|id| self.card.entry(*id))
    }

    /// What a rater last said of a leaf.
    pub fn look_of(&self, leaf: LeafId, rater: &str) -> Option<(EntryId, &Look)> {
        let entry = self.looks(leaf).find(|entry| entry.rater == rater)?;
        match &entry.body {
            Body::Rating { look, .. } => Some((entry.id, look)),
            _ => None,
        }
    }

    /// Whether what others said of a leaf is hidden from a rater who rates blind: until their own
    /// look is in.
    pub fn hides(&self, leaf: LeafId, blind: Option<&str>) -> bool {
        blind.is_some_and(|rater| {
            let mut others = self.looks(leaf).peekable();
            others.peek().is_some() && others.all(|entry| entry.rater != rater)
        })
    }

    /// How many leaves are hidden so.
    pub fn hidden(&self, blind: Option<&str>) -> usize {
        let leaves = (0..self.result.leaves.len()).map(LeafId);
        leaves.filter(|leaf| self.hides(*leaf, blind)).count()
    }

    /// Whether a leaf is still to be looked at: by anybody, or by the one who rates blind.
    pub fn is_open(&self, leaf: LeafId, blind: Option<&str>) -> bool {
        self.result.answers[leaf.0] == Answer::Open || self.hides(leaf, blind)
    }

    /// What the Shelf shows of it.
    pub fn summary(&self) -> Summary {
        Summary {
            unreadable: self.unreadable,
            ..Summary::of(&self.card, &self.card.standing(), &self.tree, &self.result)
        }
    }

    /// The node of a leaf's position.
    pub fn position_of(&self, leaf: LeafId) -> usize {
        let node = self.tree.node_of(leaf);
        self.tree.nodes()[node].parent.unwrap_or(node)
    }
}

/// What was done last on this tablet and can be taken back: the entries made together.
#[derive(Clone, Debug)]
struct Step {
    entries: Vec<EntryId>,
}

/// A `Copy` handle on the open card: components carry it, nothing else.
#[derive(Clone, Copy)]
pub struct CardStore {
    open: StoredValue<Option<Open>>,
    /// By node of the tree: wakes who shows that position.
    positions: StoredValue<Vec<ArcTrigger>>,
    whole: Trigger,
    structure: Trigger,
    /// The positions that the last change touched, as nodes of the tree.
    changed: RwSignal<Vec<usize>>,
    kept: RwSignal<Kept>,
    /// The leaf on the pad of a Bench that is being made anew.
    stay: StoredValue<Option<LeafId>>,
    proposed: StoredValue<Option<(CardId, LeafId, Areas)>>,
    undo: RwSignal<Vec<Step>>,
    redo: RwSignal<Vec<Vec<Draft>>>,
    jobs: StoredValue<Jobs, LocalStorage>,
    db: StoredValue<Option<Rc<Db>>, LocalStorage>,
    prefs: Prefs,
}

/// Provides the open card to everything below.
pub fn provide_card(prefs: Prefs) -> CardStore {
    let store = CardStore {
        open: StoredValue::new(None),
        positions: StoredValue::new(Vec::new()),
        whole: Trigger::new(),
        structure: Trigger::new(),
        changed: RwSignal::new(Vec::new()),
        kept: RwSignal::new(Kept::Nothing),
        stay: StoredValue::new(None),
        proposed: StoredValue::new(None),
        undo: RwSignal::new(Vec::new()),
        redo: RwSignal::new(Vec::new()),
        jobs: StoredValue::new_local(Jobs::default()),
        db: StoredValue::new_local(None),
        prefs,
    };
    provide_context(store);
    store
}

/// The open card.
pub fn use_card() -> CardStore {
    expect_context()
}

impl CardStore {
    /// Hands over the database once it is open.
    pub fn set_db(self, db: Rc<Db>) {
        self.db.set_value(Some(db));
    }

    /// What is set on this tablet.
    pub(super) fn prefs(self) -> Prefs {
        self.prefs
    }

    /// The database, where the browser has one for us.
    pub fn db(self) -> Option<Rc<Db>> {
        self.db.get_value()
    }

    /// Opens a card from the database; the one open before is closed.
    ///
    /// # Errors
    ///
    /// [`KeepError`] when it is not there or damaged.
    pub async fn load(self, id: CardId) -> Result<(), KeepError> {
        if self.is_open(id) {
            return Ok(());
        }
        let db = self.db().ok_or(KeepError::Missing)?;
        let open = Open::from(db.card(id).await?);
        let damaged = open.unreadable > 0;
        self.show(open);
        if damaged {
            // The Shelf may not know of it yet.
            self.keep_summary(&db);
        }
        Ok(())
    }

    /// Another tab has written on a card: takes in what is new, where it is the open one.
    pub async fn hear(self, id: CardId) {
        let Some(db) = self.db().filter(|_| self.is_open(id)) else {
            return;
        };
        let _alone = alone(id).await;
        // A card that is gone stays on the screen; what is then to be kept on it is refused, and said so.
        if let Ok(read) = db.card(id).await {
            self.take_in(read);
        }
    }

    /// Takes in what was read of the open card. Nothing that it has goes: the two are merged.
    fn take_in(self, read: Read) {
        let merged = self.peek(|open| {
            let same = open.stored == read.stored && open.card.len() == read.card.len();
            (!same).then(|| {
                let merged = open.card.merge(&read.card)?;
                let replanned = open.card.plan() != merged.plan();
                Ok::<_, MergeError>((replanned, merged))
            })
        });
        match merged.flatten() {
            None => {}
            Some(Ok((replanned, card))) => self.change(
                replanned,
                Box::new(move |open| {
                    open.stored = read.stored;
                    open.card = card;
                    open.unreadable = read.unreadable;
                }),
            ),
            // Another file took its place.
            Some(Err(_)) => self.show(read.into()),
        }
    }

    /// Shows a card; wakes everything.
    fn show(self, open: Open) {
        self.open.set_value(Some(open));
        self.kept.set(Kept::Nothing);
        self.undo.set(Vec::new());
        self.redo.set(Vec::new());
        self.show_plan();
        self.whole.notify();
    }

    /// Wakes who shows the plan, which has positions of its own.
    fn show_plan(self) {
        let triggers = self.peek(|open| {
            let nodes = open.tree.nodes().iter();
            nodes.map(|_| ArcTrigger::new()).collect()
        });
        self.positions.set_value(triggers.unwrap_or_default());
        self.structure.notify();
    }

    /// Closes the open card, so that it is read anew when it is next opened.
    pub fn close(self) {
        self.open.set_value(None);
        self.positions.set_value(Vec::new());
    }

    /// Whether that card is the open one.
    pub fn is_open(self, id: CardId) -> bool {
        self.open
            .with_value(|open| open.as_ref().is_some_and(|open| open.card.id() == id))
    }

    /// Reads the card without being woken by anything.
    pub fn peek<T>(self, read: impl FnOnce(&Open) -> T) -> Option<T> {
        self.open.with_value(|open| open.as_ref().map(read))
    }

    /// Does something with the card step by step, in slices; none where it is closed meanwhile.
    pub async fn in_slices<W, T>(
        self,
        mut work: W,
        step: impl Fn(&mut W, &Card, usize) -> Poll<T>,
    ) -> Option<T> {
        let id = self.peek(|open| open.card.id())?;
        let step = |bytes| {
            let here =
                |open: &Open| (open.card.id() == id).then(|| step(&mut work, &open.card, bytes));
            match self.peek(here).flatten() {
                None => Poll::Ready(None),
                Some(step) => step.map(Some),
            }
        };
        let done = Slices::default().run(step).await;
        done.ok().flatten()
    }

    /// Reads the card; the caller runs again after every change.
    pub fn whole<T>(self, read: impl FnOnce(&Open) -> T) -> Option<T> {
        self.whole.track();
        self.peek(read)
    }

    /// Reads the card; the caller runs again when that position (a node of the tree) changes.
    pub fn position<T>(self, node: usize, read: impl FnOnce(&Open) -> T) -> Option<T> {
        if let Some(trigger) = self.positions.with_value(|all| all.get(node).cloned()) {
            trigger.track();
        }
        self.peek(read)
    }

    /// Reads what the plan says; the caller runs again when another card or plan is shown.
    pub fn structure<T>(self, read: impl FnOnce(&Open) -> T) -> Option<T> {
        self.structure.track();
        self.peek(read)
    }

    /// The positions that the last change touched, as nodes of the tree; the caller runs again after
    /// every change.
    pub fn changed(self) -> Vec<usize> {
        self.changed.get()
    }

    /// Remembers which leaf is on the pad, for a Bench that is made anew, as for another language.
    pub fn stay_at(self, leaf: Option<LeafId>) {
        self.stay.set_value(leaf);
    }

    /// The leaf remembered, once.
    pub fn take_stay(self) -> Option<LeafId> {
        self.stay.try_update_value(Option::take).flatten()
    }

    /// Remembers areas that were read off a photo, until the rater has kept them, changed or not, or left them.
    pub fn propose(self, leaf: LeafId, areas: Areas) {
        if let Some(card) = self.peek(|open| open.card.id()) {
            self.proposed.set_value(Some((card, leaf, areas)));
        }
    }

    /// The areas proposed for a leaf.
    pub fn proposed(self, leaf: LeafId) -> Option<Areas> {
        let here = self.peek(|open| open.card.id())?;
        self.proposed.with_value(|proposed| match proposed {
            Some((card, at, areas)) if (*card, *at) == (here, leaf) => Some(areas.clone()),
            _ => None,
        })
    }

    /// Forgets the areas proposed for a leaf.
    pub fn forget_proposed(self, leaf: LeafId) {
        if self.proposed(leaf).is_some() {
            self.proposed.set_value(None);
        }
    }

    /// How the last attempt to keep something went.
    pub fn kept(self) -> Kept {
        self.kept.get()
    }

    /// Whether the card is only to be looked at.
    pub fn read_only(self) -> bool {
        self.peek(|open| open.stored.altered).unwrap_or(true)
    }

    /// Does one thing after the other, in the order asked: a look is on disk before the next begins.
    pub fn after<F: Future<Output = ()> + 'static>(self, job: impl FnOnce() -> F + 'static) {
        self.jobs.with_value(|jobs| jobs.after(job));
    }

    /// Whether something asked for is still under way.
    pub fn busy(self) -> bool {
        self.jobs.with_value(Jobs::busy)
    }

    /// Keeps entries, all or none: checked, shown, and on disk before it returns.
    ///
    /// Call it inside [`CardStore::after`] where more than one thing may be under way.
    ///
    /// # Errors
    ///
    /// [`Refused`]; then the card and the disk are as they were.
    pub async fn keep(self, drafts: Vec<Draft>) -> Result<(), Refused> {
        let kept = self.try_keep(drafts).await;
        match &kept {
            Ok(entries) => {
                let entries = entries.clone();
                self.undo.update(|undo| undo.push(Step { entries }));
                self.redo.set(Vec::new());
            }
            Err(refused) => self.kept.set(Kept::Not(refused.clone())),
        }
        kept.map(|_entries| ())
    }

    /// Whether anything can be written on the card by whoever rates.
    ///
    /// # Errors
    ///
    /// [`Refused::ReadOnly`], [`Refused::NoRater`].
    pub fn may_write(self) -> Result<(), Refused> {
        if self.read_only() {
            return Err(Refused::ReadOnly);
        }
        if self.prefs.rater().is_empty() {
            return Err(Refused::NoRater);
        }
        Ok(())
    }

    async fn try_keep(self, drafts: Vec<Draft>) -> Result<Vec<EntryId>, Refused> {
        self.may_write()?;
        let rater = self.prefs.rater();
        let db = self.db().ok_or(KeepError::Missing)?;
        let entries = self
            .peek(|open| {
                let first = open.card.next_lamport();
                let entries: Vec<Entry> = (first..)
                    .zip(drafts)
                    .map(|(lamport, draft)| self.entry(lamport, &rater, draft))
                    .collect();
                entries
                    .iter()
                    .try_for_each(|entry| open.card.check(entry))?;
                Ok::<_, AppendError>(entries)
            })
            .ok_or(Refused::NoCard)??;
        let id = self.peek(|open| open.card.id()).ok_or(Refused::NoCard)?;
        self.kept.set(Kept::Writing);
        // Seen at once: the disk takes longer than an eye waits.
        self.put_on(&entries);
        match self.write(&db, id, entries).await {
            Ok(ids) => {
                tell(id);
                self.kept.set(Kept::At(platform::now().as_millisecond()));
                self.keep_summary_soon(&db, id);
                Ok(ids)
            }
            Err(error) => Err(error.into()),
        }
    }

    /// Writes entries that are on the open card to disk, while no other tab writes on it. Those that
    /// cannot be kept come off the card.
    async fn write(
        self,
        db: &Db,
        id: CardId,
        entries: Vec<Entry>,
    ) -> Result<Vec<EntryId>, KeepError> {
        let _alone = alone(id).await;
        let ids: Vec<EntryId> = entries.iter().map(|entry| entry.id).collect();
        let others =
            |open: &Open| (open.card.len() + open.unreadable).saturating_sub(entries.len());
        let known = self.peek(others);
        let kept = match db.keep_entries(id, known, &entries).await {
            Ok(true) => Ok(()),
            Ok(false) => self.write_after(db, id, entries).await,
            Err(error) => Err(error),
        };
        if kept.is_err() {
            self.take_off(id, &ids);
        }
        kept.map(|()| ids)
    }

    /// The same after another tab has written: what it wrote is taken in first, and the entries' counters
    /// go on from there.
    async fn write_after(
        self,
        db: &Db,
        id: CardId,
        mut entries: Vec<Entry>,
    ) -> Result<(), KeepError> {
        let read = db.card(id).await?;
        let ids: Vec<EntryId> = entries.iter().map(|entry| entry.id).collect();
        self.take_off(id, &ids);
        self.take_in(read);
        let first = self.peek(|open| open.card.next_lamport()).unwrap_or(1);
        for (lamport, entry) in (first..).zip(&mut entries) {
            entry.lamport = lamport;
        }
        let fit = self.peek(|open| entries.iter().all(|entry| open.card.check(entry).is_ok()));
        if fit != Some(true) {
            // Another file has taken the card's place, and they have no place on it.
            return Err(KeepError::Missing);
        }
        self.put_on(&entries);
        db.keep_entries(id, None, &entries).await.map(|_kept| ())
    }

    fn entry(self, lamport: u64, rater: &str, draft: Draft) -> Entry {
        let id = platform::entry_id();
        let device = self.prefs.device();
        let entry = Entry::new(id, device, lamport, platform::now(), rater, draft.body);
        match draft.supersedes {
            Some(corrected) => entry.superseding(corrected),
            None => entry,
        }
    }

    /// Puts checked entries on the open card.
    fn put_on(self, entries: &[Entry]) {
        let entries = entries.to_vec();
        self.change(
            self.changes_plan(&entries),
            Box::new(|open| {
                for entry in entries {
                    // Checked before.
                    let _taken = open.card.append(entry);
                }
            }),
        );
    }

    /// Takes entries off the open card again that the disk did not take.
    fn take_off(self, id: CardId, off: &[EntryId]) {
        let here = |open: &Open| -> Vec<Entry> {
            let on = off.iter().filter_map(|id| open.card.entry(*id));
            on.cloned().collect()
        };
        let on = self
            .peek(|open| (open.card.id() == id).then(|| here(open)))
            .flatten();
        let Some(on) = on.filter(|on| !on.is_empty()) else {
            return;
        };
        let off = off.to_vec();
        self.change(
            self.changes_plan(&on),
            Box::new(move |open| {
                if let Some(card) = without(&open.card, &off) {
                    open.card = card;
                }
            }),
        );
    }

    fn changes_plan(self, entries: &[Entry]) -> bool {
        self.peek(|open| entries.iter().any(|entry| changes_plan(open, entry)))
            .unwrap_or_default()
    }

    /// Changes the open card, works it out and wakes who shows what changed.
    fn change(self, replanned: bool, change: Box<dyn FnOnce(&mut Open)>) {
        let changed = self.open.try_update_value(|open| {
            let open = open.as_mut()?;
            change(open);
            if replanned {
                open.tree = Tree::of(open.card.plan());
            }
            let standing = open.card.standing();
            let after = assess(&standing, &open.tree);
            open.looks = looks(&standing);
            let changed = changed_positions(open, &after);
            open.result = after;
            Some(changed)
        });
        if replanned {
            self.show_plan();
        }
        let Some(Some(changed)) = changed else { return };
        self.positions.with_value(|triggers| {
            for node in &changed {
                if let Some(trigger) = triggers.get(*node) {
                    trigger.notify();
                }
            }
        });
        self.changed.set(changed);
        self.whole.notify();
    }

    /// Keeps what the Shelf shows of a card once nothing more has come for a moment.
    fn keep_summary_soon(self, db: &Rc<Db>, id: CardId) {
        let (db, kept) = (Rc::clone(db), self.kept.get_untracked());
        set_timeout(
            move || {
                if self.is_open(id) && self.kept.get_untracked() == kept {
                    self.keep_summary(&db);
                }
            },
            MOMENT,
        );
    }

    fn keep_summary(self, db: &Rc<Db>) {
        let Some((id, summary)) = self.peek(|open| (open.card.id(), open.summary())) else {
            return;
        };
        let db = Rc::clone(db);
        spawn_local(async move {
            // The Shelf counts the entries and works the summary out again where it is behind.
            let _kept = db.keep_summary(id, &summary).await;
        });
    }

    /// Whether there is something to take back.
    pub fn can_undo(self) -> bool {
        self.undo.with(|undo| !undo.is_empty())
    }

    /// Whether something was taken back.
    pub fn can_redo(self) -> bool {
        self.redo.with(|redo| !redo.is_empty())
    }

    /// Takes the last step back: a void for each of its entries; what a void took out is made anew.
    ///
    /// # Errors
    ///
    /// [`Refused`]; then nothing was taken back.
    pub async fn undo(self, reason: &str) -> Result<(), Refused> {
        let Some(step) = self.undo.with_untracked(|undo| undo.last().cloned()) else {
            return Ok(());
        };
        let back = self
            .peek(|open| {
                let entries = step.entries.iter().filter_map(|id| open.card.entry(*id));
                entries
                    .filter_map(|entry| taking_back(open, entry, reason))
                    .collect()
            })
            .unwrap_or_default();
        let again: Vec<Draft> = self
            .peek(|open| {
                step.entries
                    .iter()
                    .filter_map(|id| open.card.entry(*id))
                    .map(|entry| Draft {
                        body: entry.body.clone(),
                        supersedes: entry.supersedes,
                    })
                    .collect()
            })
            .unwrap_or_default();
        match self.try_keep(back).await {
            Ok(_entries) => {
                self.undo.update(|undo| {
                    undo.pop();
                });
                self.redo.update(|redo| redo.push(again));
                Ok(())
            }
            Err(refused) => {
                self.kept.set(Kept::Not(refused.clone()));
                Err(refused)
            }
        }
    }

    /// Makes what was taken back last anew.
    ///
    /// # Errors
    ///
    /// [`Refused`]; then nothing was made.
    pub async fn redo(self) -> Result<(), Refused> {
        let Some(drafts) = self.redo.with_untracked(|redo| redo.last().cloned()) else {
            return Ok(());
        };
        let entries = self.try_keep(drafts).await?;
        self.redo.update(|redo| {
            redo.pop();
        });
        self.undo.update(|undo| undo.push(Step { entries }));
        Ok(())
    }
}

/// A card as it was before it was given these entries.
fn without(card: &Card, off: &[EntryId]) -> Option<Card> {
    let mut before = Card::new(card.id(), card.first_plan().clone()).ok()?;
    for entry in card.entries().filter(|entry| !off.contains(&entry.id)) {
        before.append(entry.clone()).ok()?;
    }
    Some(before)
}

/// Whether an entry brings another plan, or takes one back.
fn changes_plan(open: &Open, entry: &Entry) -> bool {
    match &entry.body {
        Body::Plan { .. } => true,
        Body::Void { entry, .. } => {
            let voided = open.card.entry(*entry);
            voided.is_some_and(|voided| matches!(voided.body, Body::Plan { .. }))
        }
        _ => false,
    }
}

/// The entry that takes another back.
fn taking_back(open: &Open, entry: &Entry, reason: &str) -> Option<Draft> {
    match &entry.body {
        Body::Void { entry: voided, .. } => {
            let voided = open.card.entry(*voided)?;
            Some(Draft {
                body: voided.body.clone(),
                supersedes: voided.supersedes,
            })
        }
        _ => Some(
            Body::Void {
                entry: entry.id,
                reason: reason.to_owned(),
            }
            .into(),
        ),
    }
}

fn looks(standing: &Standing<'_>) -> Vec<Vec<EntryId>> {
    let ids = |looks: &Vec<&Entry>| looks.iter().map(|entry| entry.id).collect();
    standing.looks.iter().map(ids).collect()
}

/// The positions that look different after a change: another score, another answer or cause, another
/// cap.
fn changed_positions(open: &Open, after: &Assessment) -> Vec<usize> {
    let before = &open.result;
    if before.leaves.len() != after.leaves.len() {
        return (0..open.tree.nodes().len()).collect();
    }
    let differs = |leaf: &usize| {
        before.leaves[*leaf] != after.leaves[*leaf]
            || before.answers[*leaf] != after.answers[*leaf]
            || before.causes[*leaf] != after.causes[*leaf]
    };
    let leaves = (0..after.leaves.len()).filter(differs).map(LeafId);
    // A cap may come to be set off by another leaf, which says so in its cell.
    let capping = [capping(before), capping(after)].concat();
    let mut changed: Vec<usize> = leaves
        .chain(capping)
        .map(|leaf| open.position_of(leaf))
        .collect();
    changed.extend(
        open.tree
            .nodes()
            .iter()
            .enumerate()
            .filter_map(|(number, node)| {
                let capped = before.all.nodes.get(number)?.cap != after.all.nodes.get(number)?.cap;
                (capped && node.kind != NodeKind::Engine).then_some(number)
            }),
    );
    changed.dedup();
    changed
}
