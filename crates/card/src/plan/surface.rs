//! What a size names as rated by eye on its own surface: something of the same place, and by eye.

use super::{Characteristic, Place, Plan, PlanError};
use crate::{ids::CharacteristicId, scale::Scale};

impl Plan {
    /// What is wrong with the surface that a characteristic of a place names, which `name` tells.
    pub(super) fn surface_problem(
        &self,
        name: &str,
        place: &Place,
        look: &Characteristic,
    ) -> Option<PlanError> {
        let given = look.same_surface.as_ref()?;
        let others = place.looks.iter().filter(|other| other.id != look.id);
        let mut allowed = others.filter(|other| self.is_by_eye(other));
        if allowed.clone().any(|other| other.id == *given) {
            return None;
        }
        let first = allowed.next().map(|look| look.id.to_string());
        Some(PlanError::SameSurface {
            place: name.to_owned(),
            given: given.to_string(),
            allowed: allowed.fold(first, |list, look| {
                list.map(|list| format!("{list}, {}", look.id))
            }),
        })
    }

    /// Whether it is rated by eye; on a scale that the plan lacks it may be.
    fn is_by_eye(&self, look: &Characteristic) -> bool {
        !matches!(
            self.scale(&look.scale),
            Some(Scale::Gauged(_) | Scale::Measured { .. })
        )
    }
}

impl Place {
    /// Lets those that name a characteristic go without one, as it is not there any more.
    pub(super) fn forget_surface(&mut self, gone: &CharacteristicId) {
        for look in &mut self.looks {
            look.same_surface.take_if(|named| named == gone);
        }
    }

    /// Lets what named a characteristic in another plan name it again, as it is back; that itself names
    /// nothing that is not there.
    pub(super) fn recall_surface(&mut self, other: &Self, back: &CharacteristicId) {
        let known: Vec<CharacteristicId> = self.looks.iter().map(|look| look.id.clone()).collect();
        for look in &mut self.looks {
            if look.id == *back {
                look.same_surface.take_if(|named| !known.contains(named));
            } else if look.same_surface.is_none() {
                let named = other.looks.iter().find(|from| from.id == look.id);
                let named = named.and_then(|from| from.same_surface.clone());
                look.same_surface = named.filter(|named| named == back);
            }
        }
    }
}
