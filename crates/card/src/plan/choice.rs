//! Fields of a plan in the making that hold one of several things, each chosen by its name.

use super::{EditError, Field, Plan, PlanItem, TradeFigure};
use crate::ids::ScaleId;

impl Plan {
    /// Chooses what a field holds, by the name that this has in the plan.
    ///
    /// | item | field | is chosen by |
    /// |---|---|---|
    /// | characteristic | scale | a scale's id; see [`Plan::set_scale`] |
    /// | cap rule | node, within | the path of a section or a part |
    /// | cap rule | characteristic | one of [`Plan::cap_looks`]; a trigger that does not fit it is set anew |
    /// | cap rule | when | a grade; or a state, which goes in, or out where it is in |
    /// | criterion | figure | a trade figure |
    ///
    /// # Errors
    ///
    /// [`EditError::NotThere`] where the plan has no such item or no such thing to choose.
    pub fn choose(&mut self, item: &PlanItem, field: Field, name: &str) -> Result<(), EditError> {
        match (item, field) {
            (PlanItem::Look(..), Field::Scale) => {
                let scale = ScaleId::new(name).map_err(|_no_id| EditError::NotThere)?;
                self.set_scale(item, &scale)
            }
            (PlanItem::Cap(rule), _) => self.choose_of_cap(rule, field, name),
            (PlanItem::Criterion(number), Field::Figure) => {
                let figure = TradeFigure::parse(name).ok_or(EditError::NotThere)?;
                let criterion = self.criteria.get_mut(*number);
                criterion.ok_or(EditError::NotThere)?.figure = figure;
                Ok(())
            }
            _ => Err(EditError::NotThere),
        }
    }
}
