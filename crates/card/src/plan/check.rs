//! A plan that contradicts itself is refused, with the place.

use std::collections::BTreeSet;

use super::{CapRule, Criterion, Part, Place, Plan, Repeatability, Section, Trigger};
use crate::{
    layout::LayoutError,
    scale::{Method, Scale, ScaleError},
};

/// Where a plan contradicts itself.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlanError {
    /// A layout that no engine has.
    #[error("layout: {0}")]
    Layout(#[from] LayoutError),
    /// A scale that contradicts itself.
    #[error("scale `{scale}`: {why}")]
    Scale {
        /// The scale.
        scale: String,
        /// What is wrong with it.
        why: ScaleError,
    },
    /// A figure outside its range.
    #[error("{place}: {what} is {given}: allowed is {low} to {high}")]
    OutOfRange {
        /// Where in the plan.
        place: String,
        /// Which figure.
        what: &'static str,
        /// What it holds.
        given: f64,
        /// The lowest allowed.
        low: f64,
        /// The highest allowed.
        high: f64,
    },
    /// Children whose weights are all zero.
    #[error("{place}: every weight is 0, so nothing could be scored")]
    NoWeight {
        /// Where in the plan.
        place: String,
    },
    /// Something that needs at least one thing in it.
    #[error("{place}: holds nothing")]
    Empty {
        /// Where in the plan.
        place: String,
    },
    /// A name used twice.
    #[error("{place}: `{id}` stands twice")]
    Twice {
        /// Where in the plan.
        place: String,
        /// The name.
        id: String,
    },
    /// A scale that the plan does not have.
    #[error("{place}: there is no scale `{scale}` in the plan")]
    NoScale {
        /// Where in the plan.
        place: String,
        /// The scale.
        scale: String,
    },
    /// A repeatability in a unit that the scale does not have.
    #[error("{place}: a repeatability in {unit} does not fit a scale by {method}")]
    Repeatability {
        /// Where in the plan.
        place: String,
        /// The unit given.
        unit: &'static str,
        /// The scale's method.
        method: &'static str,
    },
    /// A cap on or in a node that does not exist.
    #[error("cap rule `{rule}`: there is no section or part `{node}` in the plan")]
    CapNode {
        /// The rule.
        rule: String,
        /// The node it names.
        node: String,
    },
    /// A cap that no look can set off.
    #[error("cap rule `{rule}`: what it looks at in `{within}` is not rated as its trigger asks")]
    CapTrigger {
        /// The rule.
        rule: String,
        /// Where it looks.
        within: String,
    },
    /// A section or part whose id would be mistaken for a path.
    #[error("{place}: `{id}` has a `/`, which parts a section from its part")]
    Slash {
        /// Where in the plan.
        place: &'static str,
        /// The id.
        id: String,
    },
    /// A criterion whose anchor does not lie between its limit and its best credit.
    #[error(
        "criterion {number}: the anchor {anchor} must lie between the limit {limit} and the best credit {best}"
    )]
    Criterion {
        /// Which criterion, from 1.
        number: usize,
        /// Its anchor.
        anchor: f64,
        /// Its failing limit.
        limit: f64,
        /// Its best credit.
        best: f64,
    },
    /// More than a plan may hold.
    #[error("the plan asks for {given} ratings: allowed is {MOST_LEAVES} at most")]
    TooLarge {
        /// Ratings asked for.
        given: usize,
    },
}

/// The most ratings one plan may ask for.
pub const MOST_LEAVES: usize = 20_000;

fn within(
    place: &str,
    what: &'static str,
    given: f64,
    low: f64,
    high: f64,
) -> Result<(), PlanError> {
    if given >= low && given <= high {
        Ok(())
    } else {
        Err(PlanError::OutOfRange {
            place: place.to_owned(),
            what,
            given,
            low,
            high,
        })
    }
}

/// The largest weight: far beyond any use, and small enough that sums stay exact to the digit shown.
const MOST_WEIGHT: f64 = 1e6;

/// Weights of siblings: none negative, not all zero, and at least one sibling.
fn weights(place: &str, weights: impl Iterator<Item = f64>) -> Result<(), PlanError> {
    let (mut sum, mut count) = (0.0, 0usize);
    for weight in weights {
        within(place, "weight", weight, 0.0, MOST_WEIGHT)?;
        sum += weight;
        count += 1;
    }
    match (count, sum > 0.0) {
        (0, _) => Err(PlanError::Empty {
            place: place.to_owned(),
        }),
        (_, false) => Err(PlanError::NoWeight {
            place: place.to_owned(),
        }),
        _ => Ok(()),
    }
}

fn once<'a>(place: &str, ids: impl Iterator<Item = &'a str>) -> Result<(), PlanError> {
    let mut seen = BTreeSet::new();
    for id in ids {
        if !seen.insert(id) {
            return Err(PlanError::Twice {
                place: place.to_owned(),
                id: id.to_owned(),
            });
        }
    }
    Ok(())
}

impl Plan {
    /// Refuses a plan that contradicts itself.
    ///
    /// # Errors
    ///
    /// [`PlanError`] with the first place found.
    pub fn check(&self) -> Result<(), PlanError> {
        self.layout.check()?;
        for (id, scale) in &self.scales {
            scale.check().map_err(|why| PlanError::Scale {
                scale: id.to_string(),
                why,
            })?;
        }
        let leaves = self.leaf_count();
        if leaves > MOST_LEAVES {
            return Err(PlanError::TooLarge { given: leaves });
        }
        weights("plan", self.sections.iter().map(|section| section.weight))?;
        once(
            "plan",
            self.sections.iter().map(|section| section.id.as_str()),
        )?;
        for section in &self.sections {
            no_slash("section", section.id.as_str())?;
            self.check_section(section)?;
        }
        once(
            "plan",
            self.places().flat_map(|(.., place)| {
                place.positions.iter().map(|position| position.id.as_str())
            }),
        )?;
        within("plan", "u_bias", self.u_bias, 0.0, 10.0)?;
        for (id, factor) in &self.location_factors {
            within(
                &format!("location factor `{id}`"),
                "factor",
                *factor,
                0.0,
                MOST_WEIGHT,
            )?;
        }
        once("cap rules", self.caps.iter().map(|rule| rule.id.as_str()))?;
        self.caps.iter().try_for_each(|rule| self.check_cap(rule))?;
        (1..)
            .zip(&self.criteria)
            .try_for_each(|(number, criterion)| criterion.check(number))
    }

    fn check_section(&self, section: &Section) -> Result<(), PlanError> {
        let place = format!("section `{}`", section.id);
        weights(&place, section.parts.iter().map(|part| part.weight))?;
        once(&place, section.parts.iter().map(|part| part.id.as_str()))?;
        section
            .parts
            .iter()
            .try_for_each(|part| no_slash("part", part.id.as_str()))?;
        section
            .parts
            .iter()
            .try_for_each(|part| self.check_part(section, part))
    }

    fn check_part(&self, section: &Section, part: &Part) -> Result<(), PlanError> {
        let place = format!("part `{}/{}`", section.id, part.id);
        weights(&place, part.places.iter().map(|place| place.weight))?;
        once(&place, part.places.iter().map(|place| place.id.as_str()))?;
        part.places
            .iter()
            .try_for_each(|place| self.check_place(place))
    }

    fn check_place(&self, place: &Place) -> Result<(), PlanError> {
        let name = format!("place `{}`", place.id);
        if place.positions.is_empty() {
            return Err(PlanError::Empty { place: name });
        }
        weights(&name, place.looks.iter().map(|look| look.weight))?;
        once(&name, place.looks.iter().map(|look| look.id.as_str()))?;
        for look in &place.looks {
            let name = format!("{name}, characteristic `{}`", look.id);
            let Some(scale) = self.scales.get(&look.scale) else {
                return Err(PlanError::NoScale {
                    place: name,
                    scale: look.scale.to_string(),
                });
            };
            check_repeatability(&name, look.u_rep, scale)?;
        }
        Ok(())
    }

    fn check_cap(&self, rule: &CapRule) -> Result<(), PlanError> {
        within(
            &format!("cap rule `{}`", rule.id),
            "cap",
            rule.cap,
            0.0,
            10.0,
        )?;
        for node in [&rule.node, &rule.within] {
            if !self.sections.iter().any(|section| section.has_node(node)) {
                return Err(PlanError::CapNode {
                    rule: rule.id.to_string(),
                    node: node.clone(),
                });
            }
        }
        let fits = |scale: &Scale| match &rule.when {
            Trigger::GradeAtLeast(_) => scale.method() == Method::Grade,
            Trigger::PercentOver(percent) => {
                scale.method() == Method::Extent && (0.0..=100.0).contains(percent)
            }
            Trigger::CountOver(count) => scale.method() == Method::Count && *count >= 0,
            Trigger::StateIn(states) => match scale {
                Scale::State { states: known } => states
                    .iter()
                    .all(|state| known.iter().any(|known| known.id == *state)),
                _ => false,
            },
        };
        let mut looks = self
            .places()
            .filter(|(section, part, _)| rule.looks_in(section, part))
            .flat_map(|(.., place)| &place.looks)
            .filter(|look| look.id == rule.characteristic)
            .peekable();
        let any = looks.peek().is_some();
        if any && looks.all(|look| self.scales.get(&look.scale).is_some_and(fits)) {
            Ok(())
        } else {
            Err(PlanError::CapTrigger {
                rule: rule.id.to_string(),
                within: rule.within.clone(),
            })
        }
    }
}

impl Section {
    /// Whether a node path names this section or one of its parts.
    pub(super) fn has_node(&self, node: &str) -> bool {
        match node.split_once('/') {
            None => node == self.id.as_str(),
            Some((section, part)) => {
                section == self.id.as_str() && self.parts.iter().any(|p| p.id.as_str() == part)
            }
        }
    }
}

impl Criterion {
    fn check(&self, number: usize) -> Result<(), PlanError> {
        let Self {
            weight,
            anchor,
            limit,
            best,
            ..
        } = *self;
        within(
            &format!("criterion {number}"),
            "weight",
            weight,
            0.0,
            MOST_WEIGHT,
        )?;
        if (best < anchor && anchor < limit) || (limit < anchor && anchor < best) {
            return Ok(());
        }
        Err(PlanError::Criterion {
            number,
            anchor,
            limit,
            best,
        })
    }
}

fn no_slash(place: &'static str, id: &str) -> Result<(), PlanError> {
    if id.contains('/') {
        Err(PlanError::Slash {
            place,
            id: id.to_owned(),
        })
    } else {
        Ok(())
    }
}

impl CapRule {
    /// Whether the rule looks at the characteristics of this part.
    pub fn looks_in(&self, section: &Section, part: &Part) -> bool {
        match self.within.split_once('/') {
            None => self.within == section.id.as_str(),
            Some((s, p)) => s == section.id.as_str() && p == part.id.as_str(),
        }
    }
}

fn check_repeatability(place: &str, u_rep: Repeatability, scale: &Scale) -> Result<(), PlanError> {
    let method = scale.method();
    let misfit = |unit| {
        Err(PlanError::Repeatability {
            place: place.to_owned(),
            unit,
            method: method.as_str(),
        })
    };
    match (u_rep, method) {
        (Repeatability::Score(u), _) => within(place, "u_rep", u, 0.0, 10.0),
        (Repeatability::Percent(u), Method::Extent | Method::Area | Method::MeritArea) => {
            within(place, "u_rep", u, 0.0, 100.0)
        }
        (Repeatability::Percent(_), _) => misfit("percent"),
        (Repeatability::Count(u), Method::Count) => within(place, "u_rep", u, 0.0, 1000.0),
        (Repeatability::Count(_), _) => misfit("counts"),
    }
}
