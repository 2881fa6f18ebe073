//! The plan's leaves in a row, and the way from a name to its leaf.

use std::collections::BTreeMap;

use super::{Characteristic, Plan};
use crate::entry::At;

/// A leaf's place in the row: strip-down order, then position, then characteristic.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LeafId(pub usize);

/// Where a leaf stands in its plan: indices into sections, parts, places, positions and looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Leaf {
    /// Index of the section.
    pub section: usize,
    /// Index of the part in its section.
    pub part: usize,
    /// Index of the place in its part.
    pub place: usize,
    /// Index of the position in its place.
    pub position: usize,
    /// Index of the characteristic in its place.
    pub look: usize,
    /// Whether it is read with a gauge rather than rated by eye.
    pub gauged: bool,
}

/// The leaves of a plan, by number and by name. Made once for a plan; finding a leaf costs a
/// logarithm of the number of positions.
#[derive(Clone, Debug, Default)]
pub struct PlanIndex {
    leaves: Vec<Leaf>,
    first_of_position: BTreeMap<String, usize>,
}

impl PlanIndex {
    /// Lays a plan's leaves in a row.
    pub fn of(plan: &Plan) -> Self {
        let mut index = Self::default();
        for (section, s) in plan.sections.iter().enumerate() {
            for (part, p) in s.parts.iter().enumerate() {
                for (place, site) in p.places.iter().enumerate() {
                    let gauged = |look: &Characteristic| plan.is_gauged(look);
                    let gauged: Vec<bool> = site.looks.iter().map(gauged).collect();
                    for (position, at) in site.positions.iter().enumerate() {
                        index
                            .first_of_position
                            .insert(at.id.as_str().to_owned(), index.leaves.len());
                        let looks = gauged.iter().enumerate();
                        index.leaves.extend(looks.map(|(look, gauged)| Leaf {
                            section,
                            part,
                            place,
                            position,
                            look,
                            gauged: *gauged,
                        }));
                    }
                }
            }
        }
        index
    }

    /// All leaves in order.
    pub fn leaves(&self) -> &[Leaf] {
        &self.leaves
    }

    /// The leaf of that number.
    pub fn leaf(&self, id: LeafId) -> Option<&Leaf> {
        self.leaves.get(id.0)
    }

    /// The leaf with that name in `plan`, which must be the plan that the index was made of.
    pub fn find(&self, plan: &Plan, at: &At) -> Option<LeafId> {
        let first = *self.first_of_position.get(at.position.as_str())?;
        let looks = &leaf_place(plan, self.leaves.get(first)?)?.looks;
        let look = looks.iter().position(|look| look.id == at.characteristic)?;
        Some(LeafId(first + look))
    }

    /// The leaves of a position: a run of numbers, empty where the plan has no such position.
    pub fn of_position(&self, plan: &Plan, position: &str) -> std::ops::Range<usize> {
        let Some(&first) = self.first_of_position.get(position) else {
            return 0..0;
        };
        let looks = self
            .leaves
            .get(first)
            .and_then(|leaf| leaf_place(plan, leaf))
            .map_or(0, |place| place.looks.len());
        first..first + looks
    }
}

fn leaf_place<'a>(plan: &'a Plan, leaf: &Leaf) -> Option<&'a super::Place> {
    plan.sections
        .get(leaf.section)?
        .parts
        .get(leaf.part)?
        .places
        .get(leaf.place)
}

impl Leaf {
    /// The place of the leaf in the plan that its index was made of.
    pub fn place<'a>(&self, plan: &'a Plan) -> &'a super::Place {
        &plan.sections[self.section].parts[self.part].places[self.place]
    }

    /// The characteristic of the leaf.
    pub fn characteristic<'a>(&self, plan: &'a Plan) -> &'a super::Characteristic {
        &self.place(plan).looks[self.look]
    }

    /// The position of the leaf.
    pub fn position<'a>(&self, plan: &'a Plan) -> &'a super::Position {
        &self.place(plan).positions[self.position]
    }

    /// The leaf's name.
    pub fn at(&self, plan: &Plan) -> At {
        At {
            position: self.position(plan).id.clone(),
            characteristic: self.characteristic(plan).id.clone(),
        }
    }

    /// The leaf's path in the roll-up: section, part, position, characteristic.
    pub fn path(&self, plan: &Plan) -> String {
        let section = &plan.sections[self.section];
        let part = &section.parts[self.part];
        format!(
            "{}/{}/{}/{}",
            section.id,
            part.id,
            self.position(plan).id,
            self.characteristic(plan).id
        )
    }
}
