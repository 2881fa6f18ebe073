//! Rows of a scale's table in the making: levels, states, breakpoints.

use super::{
    EditError, Plan, PlanItem,
    rows::{label, unused},
};
use crate::{
    ids::{LevelId, ScaleId, StateId},
    scale::{Breakpoint, CLEAN, DepositLevel, MeritLevel, Scale, StateScore},
};

impl Plan {
    /// Adds a level or a state to a scale, where its figure puts it among the others, and gives its item.
    ///
    /// Levels stand worst first, states best first, as the pad offers them.
    ///
    /// # Errors
    ///
    /// [`EditError::NotThere`] where the scale has neither; [`EditError`] for a name that is none. Then
    /// the plan is as it was.
    pub fn add_level(
        &mut self,
        scale: &ScaleId,
        name: &str,
        figure: f64,
    ) -> Result<PlanItem, EditError> {
        let name = label(name)?;
        let owner = self.scales.get_mut(scale).ok_or(EditError::NotThere)?;
        let known = owner.named_rows();
        let taken = |id: &str| id == CLEAN || known.iter().any(|(known, _)| *known == id);
        let id = unused(&name, taken);
        match owner {
            Scale::Area { levels } => {
                let place = levels.iter().position(|level| level.factor < figure);
                let id = LevelId::fixed(&id);
                let level = DepositLevel {
                    id: id.clone(),
                    label: Some(name),
                    factor: figure,
                };
                levels.insert(place.unwrap_or(levels.len()), level);
                Ok(PlanItem::Level(scale.clone(), id))
            }
            Scale::MeritArea { levels } => {
                let place = levels.iter().position(|level| level.merit > figure);
                let id = LevelId::fixed(&id);
                let level = MeritLevel {
                    id: id.clone(),
                    label: Some(name),
                    merit: figure,
                };
                levels.insert(place.unwrap_or(levels.len()), level);
                Ok(PlanItem::Level(scale.clone(), id))
            }
            Scale::State { states } => {
                let place = states.iter().position(|state| state.score < figure);
                let id = StateId::fixed(&id);
                let state = StateScore {
                    id: id.clone(),
                    label: Some(name),
                    score: figure,
                };
                states.insert(place.unwrap_or(states.len()), state);
                Ok(PlanItem::State(scale.clone(), id))
            }
            _ => Err(EditError::NotThere),
        }
    }

    /// Adds a breakpoint to a scale, in its place among the others, and gives its item.
    ///
    /// # Errors
    ///
    /// [`EditError::NotThere`] where the scale has no breakpoints.
    pub fn add_point(&mut self, scale: &ScaleId, point: Breakpoint) -> Result<PlanItem, EditError> {
        let points = self.points_mut(scale)?;
        let place = points.iter().position(|known| known.x > point.x);
        let place = place.unwrap_or(points.len());
        points.insert(place, point);
        Ok(PlanItem::Point(scale.clone(), place))
    }

    pub(super) fn remove_point(&mut self, scale: &ScaleId, number: usize) -> Result<(), EditError> {
        let points = self.points_mut(scale)?;
        if number >= points.len() {
            return Err(EditError::NotThere);
        }
        points.remove(number);
        Ok(())
    }

    fn points_mut(&mut self, scale: &ScaleId) -> Result<&mut Vec<Breakpoint>, EditError> {
        match self.scales.get_mut(scale) {
            Some(Scale::Extent { points } | Scale::Count { points }) => Ok(points),
            _ => Err(EditError::NotThere),
        }
    }
}

impl Scale {
    /// The name that the plan's author gave a level or a state, to be changed.
    pub(super) fn label_mut(&mut self, row: &str) -> Option<&mut Option<String>> {
        match self {
            Self::Area { levels } => {
                let level = levels.iter_mut().find(|level| level.id.as_str() == row)?;
                Some(&mut level.label)
            }
            Self::MeritArea { levels } => {
                let level = levels.iter_mut().find(|level| level.id.as_str() == row)?;
                Some(&mut level.label)
            }
            Self::State { states } => {
                let state = states.iter_mut().find(|state| state.id.as_str() == row)?;
                Some(&mut state.label)
            }
            _ => None,
        }
    }
}
