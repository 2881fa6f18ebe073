//! The order of what stands beside each other in a plan in the making: of rows on the wear map, of
//! levels and states on the pad.

use super::{EditError, Plan, PlanItem};
use crate::scale::Scale;

/// Which way something moves among what stands beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Towards the first.
    Up,
    /// Towards the last.
    Down,
}

impl Plan {
    /// Moves an item past the one beside it.
    ///
    /// # Errors
    ///
    /// [`EditError::AtEnd`] where nothing is beside it that way; [`EditError::NotThere`] for an item that
    /// the plan lacks or that has no place in an order.
    pub fn move_item(&mut self, item: &PlanItem, way: Way) -> Result<(), EditError> {
        let shifted = match item {
            PlanItem::Section(id) => shift(&mut self.sections, way, |known| known.id == *id),
            PlanItem::Part(section, id) => {
                let owner = self.section_mut(section).ok_or(EditError::NotThere)?;
                shift(&mut owner.parts, way, |known| known.id == *id)
            }
            PlanItem::Place(section, part, id) => {
                let owner = self.section_mut(section);
                let owner = owner.and_then(|section| section.part_mut(part));
                let owner = owner.ok_or(EditError::NotThere)?;
                shift(&mut owner.places, way, |known| known.id == *id)
            }
            PlanItem::Look(section, part, place, id) => {
                let owner = self.place_mut(section, part, place);
                let owner = owner.ok_or(EditError::NotThere)?;
                shift(&mut owner.looks, way, |known| known.id == *id)
            }
            PlanItem::Cap(id) => shift(&mut self.caps, way, |known| known.id == *id),
            PlanItem::Level(scale, id) => match self.scales.get_mut(scale) {
                Some(Scale::Area { levels }) => shift(levels, way, |known| known.id == *id),
                Some(Scale::MeritArea { levels }) => shift(levels, way, |known| known.id == *id),
                _ => None,
            },
            PlanItem::State(scale, id) => match self.scales.get_mut(scale) {
                Some(Scale::State { states }) => shift(states, way, |known| known.id == *id),
                _ => None,
            },
            _ => None,
        };
        match shifted {
            Some(true) => Ok(()),
            Some(false) => Err(EditError::AtEnd),
            None => Err(EditError::NotThere),
        }
    }
}

/// Moves the first such item past the one beside it, and says whether there was one that way.
fn shift<T>(items: &mut [T], way: Way, is: impl Fn(&T) -> bool) -> Option<bool> {
    let place = items.iter().position(is)?;
    let beside = match way {
        Way::Up => place.checked_sub(1),
        Way::Down => Some(place + 1),
    };
    let beside = beside.filter(|beside| *beside < items.len());
    if let Some(beside) = beside {
        items.swap(place, beside);
    }
    Some(beside.is_some())
}
