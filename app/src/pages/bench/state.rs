//! What the Bench is looking at, and the acts that both fingers and keys set off.

use leptos::prelude::*;
use ringland_card::{
    About, At, Body, EntryId, Look, NotInspected, Scale,
    entry::Cause,
    plan::{LeafId, PlanIndex},
};
use ringland_report::words::UNDONE;

use super::walk;
use crate::{
    app::announce,
    order::by_key,
    store::{
        CardStore, Prefs,
        open::{Draft, Kept, Open, Refused},
        prefs::use_words,
        use_card, use_prefs,
    },
};

/// What the pad shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Mode {
    /// The pad of the characteristic's scale.
    Rate,
    /// The reasons for not having looked.
    NotInspected,
    /// The causes.
    Cause,
    /// Words about the position.
    Remark,
    /// Photos of the position.
    Photos,
    /// Everything ever said here.
    History,
    /// Who rates.
    Rater,
}

/// A `Copy` handle on the state of the Bench.
#[derive(Clone, Copy)]
pub(super) struct Bench {
    /// The leaf on the pad.
    pub leaf: RwSignal<Option<LeafId>>,
    /// The section on the map; none for the whole engine.
    pub section: RwSignal<Option<usize>>,
    /// What the pad shows.
    pub mode: RwSignal<Mode>,
    /// Why the last act was refused.
    pub refused: RwSignal<Option<Refused>>,
    /// The open card.
    pub store: CardStore,
    prefs: Prefs,
    order: Memo<Vec<LeafId>>,
    progress: Memo<(usize, usize)>,
}

/// Provides the state of the Bench to everything below.
pub(super) fn provide_bench() -> Bench {
    let (store, prefs) = (use_card(), use_prefs());
    let order = Memo::new(move |_| {
        let walk = prefs.walk();
        store
            .structure(|open| walk::order(open.card.plan(), open.card.index(), walk))
            .unwrap_or_default()
    });
    let progress = Memo::new(move |before: Option<&(usize, usize)>| {
        // Counted is what is kept.
        if let (Kept::Writing, Some(before)) = (store.kept(), before) {
            return *before;
        }
        let blind = prefs.blind();
        let count = store.whole(|open| {
            let leaves = open.card.index().leaves().iter().enumerate();
            let by_eye = leaves.filter(|(_, leaf)| !leaf.gauged);
            let is_open = |(leaf, _): &(usize, _)| open.is_open(LeafId(*leaf), blind.as_deref());
            let all = open.card.plan().rating_count();
            (all - by_eye.filter(is_open).count(), all)
        });
        count.unwrap_or_default()
    });
    let bench = Bench {
        leaf: RwSignal::new(None),
        section: RwSignal::new(None),
        mode: RwSignal::new(Mode::Rate),
        refused: RwSignal::new(None),
        store,
        prefs,
        order,
        progress,
    };
    provide_context(bench);
    bench
}

/// The state of the Bench.
pub(super) fn use_bench() -> Bench {
    expect_context()
}

impl Bench {
    /// Puts a leaf on the pad and its section on the map.
    pub(super) fn select(self, leaf: LeafId) {
        let section = self
            .store
            .peek(|open| open.card.index().leaf(leaf).map(|leaf| leaf.section));
        if let Some(section) = section.flatten() {
            self.leaf.set(Some(leaf));
            change(self.section, Some(section));
            change(self.mode, Mode::Rate);
            change(self.refused, None);
        }
    }

    /// Shows the whole engine.
    pub(super) fn whole_engine(self) {
        self.section.set(None);
        self.leaf.set(None);
        self.mode.set(Mode::Rate);
    }

    /// How many leaves have been looked at, and how many there are.
    pub(super) fn progress(self) -> (usize, usize) {
        self.progress.get()
    }

    /// Opens a section at its first open leaf.
    pub(super) fn open_section(self, section: usize) {
        let still_open = self.still_open();
        let first = self.order.with_untracked(|order| {
            self.store.peek(|open| {
                let mut within = order.iter().copied().filter(|leaf| {
                    open.card
                        .index()
                        .leaf(*leaf)
                        .is_some_and(|leaf| leaf.section == section)
                });
                let first = within.clone().next();
                within.find(|leaf| still_open(open, *leaf)).or(first)
            })
        });
        if let Some(leaf) = first.flatten() {
            self.select(leaf);
        }
    }

    /// Opens the first leaf of the walk that nobody has answered.
    pub(super) fn open_first(self) {
        let still_open = self.still_open();
        let first = self.order.with_untracked(|order| {
            let last = *order.last()?;
            let open = self
                .store
                .peek(|open| walk::next_open(order, last, |leaf| still_open(open, leaf)))?;
            open.or(order.first().copied())
        });
        if let Some(first) = first {
            self.select(first);
        }
    }

    /// Reads the scale of a leaf.
    pub(super) fn scale_of<T>(self, leaf: LeafId, read: impl FnOnce(&Scale) -> T) -> Option<T> {
        self.store
            .peek(|open| {
                let plan = open.card.plan();
                let scale = &open.card.index().leaf(leaf)?.characteristic(plan).scale;
                plan.scale(scale).map(read)
            })
            .flatten()
    }

    /// What to call a leaf, seen from another: only what changes.
    pub(super) fn name_from(self, from: LeafId, to: LeafId) -> Option<String> {
        let words = use_words();
        self.store
            .peek(|open| {
                let (plan, index) = (open.card.plan(), open.card.index());
                let (a, b) = (index.leaf(from)?, index.leaf(to)?);
                let same_row =
                    (a.section, a.part, a.place, a.look) == (b.section, b.part, b.place, b.look);
                Some(if same_row {
                    words.column(b.place(plan).axis, &b.position(plan).column)
                } else {
                    words.row_name(b.place(plan), b.characteristic(plan))
                })
            })
            .flatten()
    }

    /// The leaf after this one that nobody has answered, or the one after it in the walk.
    pub(super) fn next_of(self, leaf: LeafId) -> Option<LeafId> {
        let still_open = self.still_open();
        self.order.with(|order| {
            let open = self
                .store
                .peek(|open| walk::next_open(order, leaf, |leaf| still_open(open, leaf)))
                .flatten();
            open.filter(|next| *next != leaf)
                .or_else(|| walk::after(order, leaf))
        })
    }

    /// Goes on to the next leaf.
    pub(super) fn go_on(self) {
        if let Some(next) = self
            .leaf
            .get_untracked()
            .and_then(|leaf| self.next_of(leaf))
        {
            self.select(next);
        }
    }

    /// Goes back one in the walk.
    pub(super) fn go_back(self) {
        let back = self
            .leaf
            .get_untracked()
            .and_then(|leaf| self.order.with_untracked(|order| walk::before(order, leaf)));
        if let Some(back) = back {
            self.select(back);
        }
    }

    /// Goes along the row, or to the row above or below, without rating.
    pub(super) fn go(self, columns: isize, rows: isize) {
        let Some(from) = self.leaf.get_untracked() else {
            return;
        };
        let to = self
            .store
            .peek(|open| neighbour(open.card.index(), from, columns, rows))
            .flatten();
        if let Some(to) = to {
            self.select(to);
        }
    }

    /// Keeps a look at the leaf on the pad and goes on.
    pub(super) fn rate(self, leaf: LeafId, look: Look) {
        self.keep_looks(vec![leaf], look);
    }

    /// Keeps that nobody looked, and why, and goes on.
    pub(super) fn not_inspected(self, leaf: LeafId, why: NotInspected, whole_row: bool) {
        let leaves = if whole_row {
            self.open_of_row(leaf)
        } else {
            vec![leaf]
        };
        self.keep_looks(leaves, Look::NotInspected(why));
    }

    /// Says of the leaf on the pad what was said of the last one in its row.
    pub(super) fn same_as_last(self, leaf: LeafId) {
        if let Some((_, look)) = self.last_in_row(leaf) {
            self.rate(leaf, look.without_photo());
        }
    }

    /// Says of every open leaf of the row what was said of the last one.
    pub(super) fn row_alike(self, leaf: LeafId) {
        if let Some((_, look)) = self.last_in_row(leaf) {
            let leaves = self.open_of_row(leaf);
            if !leaves.is_empty() {
                self.keep_looks(leaves, look.without_photo());
            }
        }
    }

    /// The leaf that "the last" means, and what this rater said of it: the leaf itself where it is
    /// answered, else the nearest answered one before it in the row, else the nearest after it.
    pub(super) fn last_in_row(self, leaf: LeafId) -> Option<(LeafId, Look)> {
        let rater = self.prefs.rater();
        self.store
            .peek(|open| {
                let row = walk::row(open.card.index(), leaf);
                let here = row.iter().position(|other| *other == leaf)?;
                row[..=here]
                    .iter()
                    .rev()
                    .chain(&row[here + 1..])
                    .find_map(|other| {
                        let (_, look) = open.look_of(*other, &rater)?;
                        Some((*other, look.clone()))
                    })
            })
            .flatten()
    }

    /// The open leaves of a row.
    pub(super) fn open_of_row(self, leaf: LeafId) -> Vec<LeafId> {
        let still_open = self.still_open();
        self.store
            .peek(|open| {
                let mut row = walk::row(open.card.index(), leaf);
                row.retain(|leaf| still_open(open, *leaf));
                row
            })
            .unwrap_or_default()
    }

    /// Tells whether a leaf is still to be looked at; for one who rates blind, also what only others have.
    fn still_open(self) -> impl Fn(&Open, LeafId) -> bool {
        let blind = self.prefs.blind();
        move |open, leaf| open.is_open(leaf, blind.as_deref())
    }

    /// Whether what others said of a leaf is hidden now; the caller runs again when that may change.
    pub(super) fn hides(self, leaf: LeafId) -> bool {
        let blind = self.prefs.blind();
        blind.is_some() && self.store.whole(|open| open.hides(leaf, blind.as_deref())) == Some(true)
    }

    /// What this rater last said of a leaf.
    pub(super) fn mine(self, leaf: LeafId) -> Option<(EntryId, Look)> {
        let rater = self.prefs.rater();
        self.store
            .peek(|open| {
                let (entry, look) = open.look_of(leaf, &rater)?;
                Some((entry, look.clone()))
            })
            .flatten()
    }

    fn keep_looks(self, leaves: Vec<LeafId>, look: Look) {
        let rater = self.prefs.rater();
        let last = leaves.last().copied();
        let drafts = move || {
            self.store.peek(|open| {
                leaves
                    .iter()
                    .filter_map(|leaf| {
                        let at = at(open, *leaf)?;
                        let body = Body::Rating {
                            at,
                            look: look.clone(),
                        };
                        let supersedes = open.look_of(*leaf, &rater).map(|(entry, _)| entry);
                        Some(Draft { body, supersedes })
                    })
                    .collect()
            })
        };
        self.keep(drafts, move || {
            if let Some(last) = last {
                self.leaf.set(Some(last));
                self.go_on();
            }
        });
    }

    /// Keeps a cause for the characteristic on the pad, or for the whole position.
    pub(super) fn set_cause(self, leaf: LeafId, cause: Cause, whole_position: bool) {
        let body = move |about| Body::Cause { about, cause };
        self.keep_about(leaf, whole_position, body, || {});
    }

    /// Keeps words about the position on the pad; `then` runs once they are on disk.
    pub(super) fn remark(self, leaf: LeafId, text: String, then: impl FnOnce() + 'static) {
        let body = move |about| Body::Remark {
            about: Some(about),
            text,
        };
        self.keep_about(leaf, false, body, then);
    }

    fn keep_about(
        self,
        leaf: LeafId,
        whole: bool,
        body: impl FnOnce(About) -> Body + 'static,
        then: impl FnOnce() + 'static,
    ) {
        let drafts = move || {
            let at = self.store.peek(|open| at(open, leaf)).flatten()?;
            let characteristic = (!whole).then_some(at.characteristic);
            Some(vec![
                body(About {
                    position: at.position,
                    characteristic,
                })
                .into(),
            ])
        };
        self.keep(drafts, move || {
            then();
            self.mode.set(Mode::Rate);
        });
    }

    /// Takes an entry out of account.
    pub(super) fn void(self, entry: EntryId, reason: String) {
        self.keep(
            move || Some(vec![Body::Void { entry, reason }.into()]),
            || {},
        );
    }

    /// Takes the last step back.
    pub(super) fn undo(self) {
        let store = self.store;
        store.after(move || async move {
            let words = use_words();
            match store.undo(UNDONE).await {
                Ok(()) => announce(words.bench.undone),
                Err(refused) => self.refuse(refused),
            }
        });
    }

    /// Makes what was taken back anew.
    pub(super) fn redo(self) {
        let store = self.store;
        store.after(move || async move {
            if let Err(refused) = store.redo().await {
                self.refuse(refused);
            }
        });
    }

    /// Keeps entries one act after the other; `then` runs once they are on disk.
    fn keep(
        self,
        drafts: impl FnOnce() -> Option<Vec<Draft>> + 'static,
        then: impl FnOnce() + 'static,
    ) {
        self.keep_boxed(Box::new(drafts), Box::new(then));
    }

    fn keep_boxed(self, drafts: Box<dyn FnOnce() -> Option<Vec<Draft>>>, then: Box<dyn FnOnce()>) {
        let store = self.store;
        store.after(move || async move {
            let Some(drafts) = drafts() else { return };
            match store.keep(drafts).await {
                Ok(()) => {
                    self.refused.set(None);
                    then();
                }
                Err(refused) => self.refuse(refused),
            }
        });
    }

    fn refuse(self, refused: Refused) {
        if refused == Refused::NoRater {
            self.mode.set(Mode::Rater);
        }
        self.refused.set(Some(refused));
    }
}

/// Sets what has changed: the map of a section is not drawn anew for each leaf on it.
fn change<T: PartialEq + Send + Sync + 'static>(signal: RwSignal<T>, to: T) {
    if signal.with_untracked(|now| *now != to) {
        signal.set(to);
    }
}

fn at(open: &Open, leaf: LeafId) -> Option<At> {
    open.card
        .index()
        .leaf(leaf)
        .map(|leaf| leaf.at(open.card.plan()))
}

/// The leaf so many columns and rows from another on its section's map.
fn neighbour(index: &PlanIndex, from: LeafId, columns: isize, rows: isize) -> Option<LeafId> {
    let here = index.leaf(from)?;
    let along = walk::row(index, from);
    let column = along.iter().position(|leaf| *leaf == from)?;
    if rows == 0 {
        return along.get(column.checked_add_signed(columns)?).copied();
    }
    // The first leaf of each row of the section, in the order of the map.
    let heads = (0..index.leaves().len()).map(LeafId).filter(|id| {
        index
            .leaf(*id)
            .is_some_and(|leaf| leaf.section == here.section && leaf.position == 0 && !leaf.gauged)
    });
    let heads = by_key(heads, |id| {
        index
            .leaf(*id)
            .map(|leaf| [leaf.part, leaf.place, leaf.look])
    });
    let row = heads.iter().position(|head| along.first() == Some(head))?;
    let target = walk::row(index, *heads.get(row.checked_add_signed(rows)?)?);
    target
        .get(column.min(target.len().saturating_sub(1)))
        .copied()
}
