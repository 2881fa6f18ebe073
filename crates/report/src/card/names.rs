//! What a node of the roll-up is called, and what was said of a leaf.

use ringland_assess::NodeKind;
use ringland_card::{
    Body, Entry, EntryId, Look, Scale,
    plan::{Leaf, LeafId},
};

use super::Sheet;
use crate::words::lowered;

impl Sheet<'_> {
    /// What a node is called beside its siblings.
    pub(super) fn node_name(&self, number: usize) -> String {
        let (plan, index, words) = (self.card.plan(), self.card.index(), self.words);
        let Some((id, leaf)) = self.first_leaf(number) else {
            return String::new();
        };
        let section = &plan.sections[leaf.section];
        match self.tree.nodes()[number].kind {
            NodeKind::Engine => words.card.engine.to_owned(),
            NodeKind::Section => words.section_name(section).to_owned(),
            NodeKind::Part => words.part_name(&section.parts[leaf.part]).to_owned(),
            NodeKind::Position => words.position(plan, index, id).unwrap_or_default(),
            NodeKind::Leaf(_) => words
                .characteristic_name(leaf.characteristic(plan))
                .to_owned(),
        }
    }

    /// Section and part: `Camshaft › Lobes`; one of them where both are called the same.
    pub(super) fn part_name(&self, section: usize, part: usize) -> String {
        let section = &self.card.plan().sections[section];
        let name = self.words.section_name(section);
        let part = self.words.part_name(&section.parts[part]);
        if name == part {
            name.to_owned()
        } else {
            [name, part].join(" › ")
        }
    }

    /// A leaf by its full name: position and characteristic.
    pub(super) fn leaf_name(&self, id: LeafId) -> String {
        self.words
            .leaf(self.card.plan(), self.card.index(), id)
            .unwrap_or_default()
    }

    /// What an entry says of a leaf, without saying where.
    pub(super) fn said(&self, entry: &Entry) -> String {
        let words = self.words;
        match &entry.body {
            Body::Rating { at, look } => {
                self.look_said(self.card.index().find(self.card.plan(), at), look)
            }
            Body::Measurement { value, .. } => {
                words.names.measured(&words.numbers.short(*value, 6))
            }
            Body::Cause { cause, about } => {
                let cause = lowered(words.cause(*cause));
                match about.characteristic {
                    Some(_) => words.pad.cause_kept(&cause),
                    None => words.pad.cause_of_position(&cause),
                }
            }
            Body::Remark { text, .. } => text.clone(),
            _ => String::new(),
        }
    }

    fn look_said(&self, id: Option<LeafId>, look: &Look) -> String {
        let plan = self.card.plan();
        let leaf = id.and_then(|id| self.card.index().leaf(id));
        let scale = leaf.and_then(|leaf| plan.scale(&leaf.characteristic(plan).scale));
        match scale {
            Some(scale) => self.words.look(look, scale),
            None => self.words.look(look, &Scale::State { states: Vec::new() }),
        }
    }

    /// What raters saw at a leaf: one saying where they agree, else each with the rater before it.
    pub(super) fn seen(&self, leaf: LeafId) -> Vec<String> {
        let entry = |id: &EntryId| self.card.entry(*id);
        let entries = self.log.looks(leaf).iter().filter_map(entry);
        let all: Vec<(&str, String)> = entries
            .map(|entry| (entry.rater.as_str(), self.said(entry)))
            .collect();
        match all.as_slice() {
            [] => Vec::new(),
            [(_, first), rest @ ..] if rest.iter().all(|(_, other)| other == first) => {
                vec![first.clone()]
            }
            all => all
                .iter()
                .map(|(who, said)| self.words.names.rating(who, said))
                .collect(),
        }
    }

    /// The first leaf below a node.
    pub(super) fn first_leaf(&self, mut number: usize) -> Option<(LeafId, Leaf)> {
        loop {
            let node = &self.tree.nodes()[number];
            if let NodeKind::Leaf(id) = node.kind {
                return Some((id, *self.card.index().leaf(id)?));
            }
            number = *node.children.first()?;
        }
    }
}
