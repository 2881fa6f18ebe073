//! Cap rules of a plan in the making.

use super::{
    CapRule, Characteristic, EditError, Field, Part, Plan, PlanItem, Section, Trigger,
    rows::{label, unused},
};
use crate::{
    grade::Grade,
    ids::{CapId, StateId},
    scale::Scale,
};

/// The most that what a new rule holds down may score, and the extent above which it does: its author's
/// to set.
const NEW_CAP: f64 = 5.0;
const NEW_PERCENT: f64 = 10.0;

impl Plan {
    /// Every section and part by its path, in strip-down order: what a cap rule can hold down, and where
    /// it can look.
    pub fn nodes(&self) -> Vec<String> {
        let of = |section: &Section| {
            let parts = section.parts.iter();
            let parts = parts.map(|part| [section.id.as_str(), part.id.as_str()].join("/"));
            [section.id.to_string()]
                .into_iter()
                .chain(parts)
                .collect::<Vec<_>>()
        };
        self.sections.iter().flat_map(of).collect()
    }

    /// What a cap rule that looks within a node can look at, each once, in strip-down order: what is
    /// rated there by grade, by extent, by count or by state, everywhere alike.
    pub fn cap_looks(&self, within: &str) -> Vec<&Characteristic> {
        let mut found: Vec<&Characteristic> = Vec::new();
        for look in self.looks_within(within) {
            let known = found.iter().any(|known| known.id == look.id);
            let start = self.trigger_for(look);
            if !known
                && start.is_some_and(|when| self.is_rated_for(within, look.id.as_str(), &when))
            {
                found.push(look);
            }
        }
        found
    }

    /// What a cap rule looks at, as it first stands there; none where it does not.
    pub fn cap_look(&self, rule: &CapRule) -> Option<&Characteristic> {
        let mut looks = self.looks_within(&rule.within).into_iter();
        looks.find(|look| look.id == rule.characteristic)
    }

    /// Whether what a cap rule looks at is there and rated as its trigger asks.
    pub fn is_rated_as(&self, rule: &CapRule) -> bool {
        self.is_rated_for(&rule.within, rule.characteristic.as_str(), &rule.when)
    }

    fn is_rated_for(&self, within: &str, characteristic: &str, when: &Trigger) -> bool {
        let mut looks = self.looks_within(within);
        looks.retain(|look| look.id.as_str() == characteristic);
        let fits = |look: &&Characteristic| self.scale(&look.scale).is_some_and(|s| when.fits(s));
        !looks.is_empty() && looks.iter().all(fits)
    }

    fn looks_within(&self, within: &str) -> Vec<&Characteristic> {
        self.places()
            .filter(|(section, part, _)| is_within(within, section, part))
            .flat_map(|(.., place)| &place.looks)
            .collect()
    }

    /// The trigger that a rule on a characteristic starts with; none for what sets no rule off.
    fn trigger_for(&self, look: &Characteristic) -> Option<Trigger> {
        Some(match self.scale(&look.scale)? {
            Scale::Grade { .. } => Trigger::GradeAtLeast(Grade::Heavy),
            Scale::Extent { .. } => Trigger::PercentOver(NEW_PERCENT),
            Scale::Count { .. } => Trigger::CountOver(0),
            Scale::State { states } => Trigger::StateIn(vec![states.last()?.id.clone()]),
            Scale::Area { .. }
            | Scale::MeritArea { .. }
            | Scale::Measured { .. }
            | Scale::Gauged(_) => return None,
        })
    }

    /// Adds a cap rule on a node that looks within it, at the first of [`Plan::cap_looks`], and gives its
    /// item. Its figures are to start from.
    ///
    /// # Errors
    ///
    /// [`EditError::NothingToCap`] where nothing there sets a rule off; [`EditError`] for a name that is
    /// none. Then the plan is as it was.
    pub fn add_cap(&mut self, name: &str, node: &str) -> Result<PlanItem, EditError> {
        let name = label(name)?;
        let look = *self
            .cap_looks(node)
            .first()
            .ok_or(EditError::NothingToCap)?;
        let when = self.trigger_for(look).ok_or(EditError::NothingToCap)?;
        let taken = |id: &str| self.caps.iter().any(|rule| rule.id.as_str() == id);
        let id = CapId::fixed(&unused(&name, taken));
        let rule = CapRule {
            id: id.clone(),
            label: Some(name),
            node: node.to_owned(),
            cap: NEW_CAP,
            within: node.to_owned(),
            characteristic: look.id.clone(),
            when,
        };
        self.caps.push(rule);
        Ok(PlanItem::Cap(id))
    }

    pub(super) fn cap_mut(&mut self, id: &CapId) -> Option<&mut CapRule> {
        self.caps.iter_mut().find(|rule| rule.id == *id)
    }

    pub(super) fn choose_of_cap(
        &mut self,
        id: &CapId,
        field: Field,
        name: &str,
    ) -> Result<(), EditError> {
        let known = self.caps.iter().find(|rule| rule.id == *id);
        let mut rule = known.ok_or(EditError::NotThere)?.clone();
        match field {
            Field::Node | Field::Within if self.nodes().iter().any(|node| node == name) => {
                let held = match field {
                    Field::Node => &mut rule.node,
                    _ => &mut rule.within,
                };
                name.clone_into(held);
            }
            Field::Characteristic => {
                let looks = self.cap_looks(&rule.within);
                let look = looks.into_iter().find(|look| look.id.as_str() == name);
                rule.characteristic = look.ok_or(EditError::NotThere)?.id.clone();
            }
            Field::When => rule.when.choose(name)?,
            _ => return Err(EditError::NotThere),
        }
        if matches!(field, Field::Within | Field::Characteristic) && !self.is_rated_as(&rule) {
            // The same thing may be rated otherwise there.
            let start = self.cap_look(&rule).and_then(|look| self.trigger_for(look));
            rule.when = start.unwrap_or(rule.when);
        }
        *self.cap_mut(id).ok_or(EditError::NotThere)? = rule;
        Ok(())
    }
}

impl Trigger {
    /// Chooses the grade, or puts a state in or out.
    fn choose(&mut self, name: &str) -> Result<(), EditError> {
        match self {
            Self::GradeAtLeast(grade) => {
                let mut all = Grade::ALL.into_iter();
                let found = all.find(|known| known.as_str() == name);
                *grade = found.ok_or(EditError::NotThere)?;
            }
            Self::StateIn(states) => {
                let state = StateId::new(name).map_err(|_no_id| EditError::NotThere)?;
                match states.iter().position(|known| *known == state) {
                    Some(place) => drop(states.remove(place)),
                    None => states.push(state),
                }
            }
            Self::PercentOver(_) | Self::CountOver(_) => return Err(EditError::NotThere),
        }
        Ok(())
    }

    /// Whether what is rated on a scale can be held against it.
    fn fits(&self, scale: &Scale) -> bool {
        match (self, scale) {
            (Self::GradeAtLeast(_), Scale::Grade { .. }) => true,
            (Self::PercentOver(percent), Scale::Extent { .. }) => (0.0..=100.0).contains(percent),
            (Self::CountOver(count), Scale::Count { .. }) => *count >= 0,
            (Self::StateIn(states), Scale::State { states: known }) => {
                let is_known = |state: &StateId| known.iter().any(|known| known.id == *state);
                !states.is_empty() && states.iter().all(is_known)
            }
            _ => false,
        }
    }
}

impl CapRule {
    /// Whether the rule looks at the characteristics of this part.
    pub fn looks_in(&self, section: &Section, part: &Part) -> bool {
        is_within(&self.within, section, part)
    }

    /// Sets the figure above which the rule is set off.
    pub(super) fn set_threshold(&mut self, figure: f64) -> Result<(), EditError> {
        match &mut self.when {
            Trigger::PercentOver(percent) => *percent = figure,
            Trigger::CountOver(count) => {
                *count = whole(figure).ok_or(EditError::NotWhole { given: figure })?;
            }
            Trigger::GradeAtLeast(_) | Trigger::StateIn(_) => return Err(EditError::NotThere),
        }
        Ok(())
    }
}

/// Whether a part is the node of that path, or one of a section's.
fn is_within(path: &str, section: &Section, part: &Part) -> bool {
    match path.split_once('/') {
        None => path == section.id.as_str(),
        Some((s, p)) => s == section.id.as_str() && p == part.id.as_str(),
    }
}

/// A whole number of a size at which every whole number is a double.
fn whole(figure: f64) -> Option<i64> {
    const MOST: f64 = (1u64 << 53) as f64;
    #[expect(clippy::cast_possible_truncation, reason = "whole and within 2^53")]
    (figure.fract() == 0.0 && figure.abs() <= MOST).then_some(figure as i64)
}
