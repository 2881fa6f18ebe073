//! What was written beside the looks: remarks, corrections and removals, looks outside the plan.

use ringland_card::{Body, Entry, EntryId};

use super::{BLOCK, Sheet, block, tree::Fill};
use crate::markup::{Cell, Html, Table};

/// Corrections shown before the rest is asked for.
const FIRST: usize = 8;
/// Remarks shown at once: a card may have so many that a page would be long in making.
const REMARKS: usize = 200;

impl Sheet<'_> {
    fn entries(&self, ids: &[EntryId]) -> impl Iterator<Item = &Entry> {
        ids.iter().filter_map(|id| self.card.entry(*id))
    }

    /// Remarks that stand, the rest asked for where there are many unless it is `whole`; nothing where there is none.
    pub fn remarks(&self, whole: bool) -> String {
        let mut html = Html::new();
        html.markup(&self.remarks_from(0, whole));
        block(BLOCK, self.words.card.remarks, "", html)
    }

    /// The remarks from that one on, as many as are shown at once; or `whole`, all of them.
    pub(super) fn remarks_from(&self, from: usize, whole: bool) -> String {
        let words = self.words;
        let left = self.log.all_remarks().get(from..).unwrap_or_default();
        let count = if whole { left.len() } else { REMARKS };
        let mut html = Html::new();
        for entry in self.entries(&left[..count.min(left.len())]) {
            let Body::Remark { about, text } = &entry.body else {
                continue;
            };
            let what = match about {
                Some(about) => words.about(self.card.plan(), about),
                None => words.card.engine.to_owned(),
            };
            let by = words.pad.by(&entry.rater, &self.when(entry));
            html.open("div class=\"remark-said\"")
                .el("b", &what)
                .el("p", text)
                .el("p class=\"fine\"", &by)
                .close("div");
        }
        if left.len() > count {
            let next = Fill::Remarks(from + count);
            self.fold(&mut html, words.common.more, next, false);
        }
        html.done()
    }

    /// Corrections and removals, the last first; where there are many, the rest asked for.
    pub fn corrections(&self, whole: bool) -> String {
        let words = self.words;
        let all = self.log.changes().len();
        let mut html = Html::new();
        if all == 0 {
            html.el("p", words.card.log_corrections_none);
        } else {
            let most = if whole { all } else { FIRST };
            html.table(&self.changes(most));
            if all > most {
                let title = words.common.show_all(all);
                self.fold(&mut html, &title, Fill::Corrections, false);
            }
        }
        block(BLOCK, words.card.log_corrections, words.card.log_hint, html)
    }

    /// Every correction and removal in one table.
    pub(super) fn all_corrections(&self) -> String {
        let mut html = Html::new();
        html.table(&self.changes(usize::MAX));
        html.done()
    }

    fn changes(&self, most: usize) -> Table {
        let words = self.words;
        let mut table = Table::new("table--log", words.card.log_caption)
            .quiet()
            .words(words.card.when)
            .words(words.card.who)
            .words(words.card.what);
        let last_first: Vec<EntryId> = self
            .log
            .changes()
            .iter()
            .rev()
            .take(most)
            .copied()
            .collect();
        for entry in self.entries(&last_first) {
            let now = words.entry(self.card, entry, self.units);
            let what = match entry.supersedes.and_then(|old| self.card.entry(old)) {
                Some(old) => words.card.corrected_from(&now, &self.before(entry, old)),
                None => now,
            };
            table.rows.push(vec![
                Cell::Words(self.when(entry)),
                Cell::Words(entry.rater.clone()),
                Cell::Words(what),
            ]);
        }
        table
    }

    /// What was said before: only the saying where both are of the same place.
    fn before(&self, now: &Entry, old: &Entry) -> String {
        match (&now.body, &old.body) {
            (Body::Rating { at: here, .. }, Body::Rating { at: there, .. }) if here == there => {
                self.said(old)
            }
            _ => self.words.entry(self.card, old, self.units),
        }
    }

    /// Ratings and measurements that the plan now has no place for; nothing where there is none.
    pub fn outside(&self) -> String {
        let words = self.words;
        let ids = self.log.outside();
        let mut html = Html::new();
        for entry in self.entries(ids) {
            let by = words.pad.by(&entry.rater, &self.when(entry));
            html.open("div class=\"remark-said\"")
                .el("p", &words.entry(self.card, entry, self.units))
                .el("p class=\"fine\"", &by)
                .close("div");
        }
        block(
            BLOCK,
            words.card.outside,
            &words.card.plan_outside(ids.len()),
            html,
        )
    }
}
