//! A plan that contradicts itself is refused, with the place; its author is told of every place.

use std::{collections::BTreeSet, ops::ControlFlow};

use super::{
    CapRule, Characteristic, Criterion, Field, Part, Place, Plan, PlanItem, Repeatability, Section,
    Trigger,
};
use crate::{
    layout::LayoutError,
    scale::{MOST_ROWS, Method, ScaleError},
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
    /// A place that is looked at for more than anybody sees.
    #[error("{place}: has {given} characteristics: allowed is {MOST_LOOKS} at most")]
    Crowded {
        /// Where in the plan.
        place: String,
        /// Characteristics given.
        given: usize,
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
    /// A surface that is not one of the same place that is rated by eye.
    #[error("{place}: names `{given}` as rated by eye on its surface: {}", surfaces(.allowed.as_deref()))]
    SameSurface {
        /// Where in the plan.
        place: String,
        /// What it names.
        given: String,
        /// What else is rated by eye in the place, where anything is.
        allowed: Option<String>,
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
    /// More of one kind than a plan may hold.
    #[error("{}: there are {given}, allowed is {} at most", .what.place(), .what.most())]
    TooMany {
        /// Of what.
        what: Several,
        /// How many there are.
        given: usize,
    },
    /// Names and the like that come to more than anybody reads.
    #[error("the plan's texts have {given} bytes in all: allowed is {MOST_TEXT} at most")]
    TooMuchText {
        /// How long they are together.
        given: usize,
    },
    /// More than a plan may hold.
    #[error("the plan asks for {given} ratings: allowed is {MOST_LEAVES} at most")]
    TooLarge {
        /// Ratings asked for.
        given: usize,
    },
}

fn surfaces(allowed: Option<&str>) -> String {
    allowed.map_or_else(
        || "nothing else is rated by eye in this place".to_owned(),
        |allowed| format!("allowed of this place is {allowed}"),
    )
}

/// What a plan may hold only so many of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Several {
    /// Scales.
    Scales,
    /// Cap rules: each is held against every place.
    Caps,
    /// States that set one cap rule off.
    States,
    /// Location factors.
    Factors,
    /// Criteria.
    Criteria,
}

impl Several {
    /// The most there may be.
    pub fn most(self) -> usize {
        match self {
            Self::Scales | Self::Caps => 250,
            Self::States => MOST_ROWS,
            Self::Factors | Self::Criteria => 100,
        }
    }

    /// The place in the plan.
    pub fn place(self) -> &'static str {
        match self {
            Self::Scales => "scales",
            Self::Caps => "cap rules",
            Self::States => "states of a cap rule",
            Self::Factors => "location factors",
            Self::Criteria => "criteria",
        }
    }
}

/// The most that a plan's names, versions, columns and paths come to together, in bytes: 1 MiB.
pub const MOST_TEXT: usize = 1 << 20;

/// The most characteristics that one place may be looked at for.
pub const MOST_LOOKS: usize = 100;

/// The most ratings one plan may ask for.
pub const MOST_LEAVES: usize = 20_000;

/// One contradiction of a plan in the making, and where it is to be put right.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// The item.
    pub item: PlanItem,
    /// The field of it, where it is one.
    pub field: Option<Field>,
    /// What is wrong.
    pub why: PlanError,
}

/// The most contradictions told of one plan: more than anybody reads.
pub const MOST_PROBLEMS: usize = 100;

/// The contradictions found so far; the search breaks off when there are enough.
struct Found {
    problems: Vec<Problem>,
    most: usize,
}

type Search = ControlFlow<()>;

impl Found {
    fn tell(&mut self, item: PlanItem, field: Option<Field>, why: PlanError) -> Search {
        self.problems.push(Problem { item, field, why });
        if self.problems.len() < self.most {
            Search::Continue(())
        } else {
            Search::Break(())
        }
    }

    /// A figure of an item within its range, as `place` names it.
    fn within(
        &mut self,
        (place, item): (&str, &dyn Fn() -> PlanItem),
        (field, what): (Field, &'static str),
        given: f64,
        [low, high]: [f64; 2],
    ) -> Search {
        if given >= low && given <= high {
            return Search::Continue(());
        }
        let why = PlanError::OutOfRange {
            place: place.to_owned(),
            what,
            given,
            low,
            high,
        };
        self.tell(item(), Some(field), why)
    }

    /// Weights of siblings: none negative, not all zero, and at least one sibling.
    fn weights(
        &mut self,
        (place, owner): (&str, &dyn Fn() -> PlanItem),
        weights: &mut dyn ExactSizeIterator<Item = f64>,
        child: &dyn Fn(usize) -> PlanItem,
    ) -> Search {
        if weights.len() == 0 {
            let place = place.to_owned();
            return self.tell(owner(), None, PlanError::Empty { place });
        }
        let (mut sum, before) = (0.0, self.problems.len());
        for (n, weight) in weights.enumerate() {
            let item = || child(n);
            let field = (Field::Weight, "weight");
            self.within((place, &item), field, weight, [0.0, MOST_WEIGHT])?;
            sum += weight;
        }
        if sum > 0.0 || self.problems.len() > before {
            return Search::Continue(());
        }
        let place = place.to_owned();
        self.tell(owner(), Some(Field::Weight), PlanError::NoWeight { place })
    }

    fn once(
        &mut self,
        place: &str,
        ids: &mut dyn Iterator<Item = &str>,
        item: &dyn Fn(usize) -> PlanItem,
    ) -> Search {
        let mut seen = BTreeSet::new();
        for (n, id) in ids.enumerate() {
            if !seen.insert(id) {
                let why = PlanError::Twice {
                    place: place.to_owned(),
                    id: id.to_owned(),
                };
                self.tell(item(n), None, why)?;
            }
        }
        Search::Continue(())
    }

    fn no_slash(&mut self, place: &'static str, id: &str, item: &dyn Fn() -> PlanItem) -> Search {
        if !id.contains('/') {
            return Search::Continue(());
        }
        let id = id.to_owned();
        self.tell(item(), None, PlanError::Slash { place, id })
    }
}

/// The largest weight: far beyond any use, and small enough that sums stay exact to the digit shown.
const MOST_WEIGHT: f64 = 1e6;

impl Plan {
    /// Refuses a plan that contradicts itself.
    ///
    /// # Errors
    ///
    /// [`PlanError`] with the first place found.
    pub fn check(&self) -> Result<(), PlanError> {
        match self.first_problems(1).pop() {
            Some(problem) => Err(problem.why),
            None => Ok(()),
        }
    }

    /// Refuses a plan of more than anybody looks through, even one in the making.
    ///
    /// # Errors
    ///
    /// [`PlanError`] with what there is too much of.
    pub fn check_size(&self) -> Result<(), PlanError> {
        self.check_counts()?;
        let leaves = self.leaf_count();
        if leaves > MOST_LEAVES {
            return Err(PlanError::TooLarge { given: leaves });
        }
        for (id, scale) in &self.scales {
            if let Err(why @ ScaleError::TooLong { .. }) = scale.check() {
                let scale = id.to_string();
                return Err(PlanError::Scale { scale, why });
            }
        }
        let crowded = self
            .places()
            .find(|(.., place)| place.looks.len() > MOST_LOOKS);
        match crowded {
            Some((.., place)) => Err(PlanError::Crowded {
                place: format!("place `{}`", place.id),
                given: place.looks.len(),
            }),
            None => Ok(()),
        }
    }

    /// Refuses more of a kind than a plan may hold, and more text.
    fn check_counts(&self) -> Result<(), PlanError> {
        let states = self.caps.iter().map(CapRule::states).max();
        for (what, given) in [
            (Several::Scales, self.scales.len()),
            (Several::Caps, self.caps.len()),
            (Several::States, states.unwrap_or_default()),
            (Several::Factors, self.location_factors.len()),
            (Several::Criteria, self.criteria.len()),
        ] {
            if given > what.most() {
                return Err(PlanError::TooMany { what, given });
            }
        }
        let given = self.text_bytes();
        if given > MOST_TEXT {
            return Err(PlanError::TooMuchText { given });
        }
        Ok(())
    }

    /// How long the plan's texts are together that are no ids.
    fn text_bytes(&self) -> usize {
        let label = |label: &Option<String>| label.as_ref().map_or(0, String::len);
        let sections = self.sections.iter().map(|section| label(&section.label));
        let parts = self.sections.iter().flat_map(|section| &section.parts);
        let parts = parts.map(|part| label(&part.label));
        let places = self.places().map(|(.., place)| {
            let looks = place.looks.iter().map(|look| label(&look.label));
            let columns = place.positions.iter().map(|position| position.column.len());
            label(&place.label) + looks.chain(columns).sum::<usize>()
        });
        let caps = self
            .caps
            .iter()
            .map(|rule| label(&rule.label) + rule.node.len() + rule.within.len());
        let scales = self.scales.values().map(|scale| {
            let rows = scale.named_rows().into_iter();
            let rows = rows.map(|(_, name)| name.map_or(0, String::len));
            rows.sum::<usize>() + scale.name().map_or(0, str::len)
        });
        let named = sections
            .chain(parts)
            .chain(places)
            .chain(caps)
            .chain(scales);
        self.name.len() + self.version.len() + named.sum::<usize>()
    }

    /// Every contradiction, for the plan's author; the first [`MOST_PROBLEMS`] where there are more.
    ///
    /// Of each scale the first. None are found exactly where [`Plan::check`] passes.
    pub fn problems(&self) -> Vec<Problem> {
        self.first_problems(MOST_PROBLEMS)
    }

    fn first_problems(&self, most: usize) -> Vec<Problem> {
        let mut found = Found {
            problems: Vec::new(),
            most,
        };
        // Broken off or gone through, what was found is what is told.
        let _broken_off = self.search(&mut found);
        found.problems
    }

    fn search(&self, found: &mut Found) -> Search {
        if let Err(why) = self.layout.check() {
            found.tell(PlanItem::Plan, Some(Field::Layout), why.into())?;
        }
        if let Err(why) = self.check_counts() {
            let _told = found.tell(PlanItem::Plan, None, why);
            // The rest may be larger than anybody waits for.
            return Search::Break(());
        }
        for (id, scale) in &self.scales {
            if let Err(why) = scale.check() {
                let scale = id.to_string();
                let item = PlanItem::Scale(id.clone());
                found.tell(item, None, PlanError::Scale { scale, why })?;
            }
        }
        let leaves = self.leaf_count();
        if leaves > MOST_LEAVES {
            let why = PlanError::TooLarge { given: leaves };
            let _told = found.tell(PlanItem::Plan, None, why);
            return Search::Break(());
        }
        let plan = || PlanItem::Plan;
        let section = |n: usize| self.sections[n].item();
        let mut weights = self.sections.iter().map(|section| section.weight);
        found.weights(("plan", &plan), &mut weights, &section)?;
        let mut ids = self.sections.iter().map(|section| section.id.as_str());
        found.once("plan", &mut ids, &section)?;
        for section in &self.sections {
            found.no_slash("section", section.id.as_str(), &|| section.item())?;
            self.search_section(found, section)?;
        }
        self.search_positions(found)?;
        let u_bias = (Field::UBias, "u_bias");
        found.within(("plan", &plan), u_bias, self.u_bias, [0.0, 10.0])?;
        for (id, factor) in &self.location_factors {
            let (place, item) = (format!("location factor `{id}`"), || {
                PlanItem::LocationFactor(id.clone())
            });
            let field = (Field::Factor, "factor");
            found.within((&place, &item), field, *factor, [0.0, MOST_WEIGHT])?;
        }
        let cap = |n: usize| PlanItem::Cap(self.caps[n].id.clone());
        let mut ids = self.caps.iter().map(|rule| rule.id.as_str());
        found.once("cap rules", &mut ids, &cap)?;
        for rule in &self.caps {
            self.search_cap(found, rule)?;
        }
        for (number, criterion) in self.criteria.iter().enumerate() {
            criterion.search(found, number)?;
        }
        Search::Continue(())
    }

    fn search_positions(&self, found: &mut Found) -> Search {
        let positions = || {
            self.places().flat_map(|(section, part, place)| {
                let all = place.positions.iter();
                all.map(move |position| (section, part, place, position))
            })
        };
        let item = |n: usize| match positions().nth(n) {
            Some((section, part, place, position)) => {
                place.item(section, part).position(&position.id)
            }
            None => PlanItem::Plan,
        };
        found.once(
            "plan",
            &mut positions().map(|(.., position)| position.id.as_str()),
            &item,
        )
    }

    fn search_section(&self, found: &mut Found, section: &Section) -> Search {
        let place = format!("section `{}`", section.id);
        let part = |n: usize| section.parts[n].item(section);
        let mut weights = section.parts.iter().map(|part| part.weight);
        found.weights((&place, &|| section.item()), &mut weights, &part)?;
        let mut ids = section.parts.iter().map(|part| part.id.as_str());
        found.once(&place, &mut ids, &part)?;
        for part in &section.parts {
            found.no_slash("part", part.id.as_str(), &|| part.item(section))?;
        }
        for part in &section.parts {
            self.search_part(found, section, part)?;
        }
        Search::Continue(())
    }

    fn search_part(&self, found: &mut Found, section: &Section, part: &Part) -> Search {
        let name = format!("part `{}/{}`", section.id, part.id);
        let place = |n: usize| part.places[n].item(section, part);
        let mut weights = part.places.iter().map(|place| place.weight);
        found.weights((&name, &|| part.item(section)), &mut weights, &place)?;
        let mut ids = part.places.iter().map(|place| place.id.as_str());
        found.once(&name, &mut ids, &place)?;
        for place in &part.places {
            self.search_place(found, &|| place.item(section, part), place)?;
        }
        Search::Continue(())
    }

    fn search_place(
        &self,
        found: &mut Found,
        item: &dyn Fn() -> PlanItem,
        place: &Place,
    ) -> Search {
        let name = format!("place `{}`", place.id);
        let look = |n: usize| item().look(&place.looks[n].id);
        if place.positions.is_empty() {
            let place = name.clone();
            found.tell(item(), None, PlanError::Empty { place })?;
        }
        let given = place.looks.len();
        if given > MOST_LOOKS {
            let place = name.clone();
            found.tell(item(), None, PlanError::Crowded { place, given })?;
        }
        let mut weights = place.looks.iter().map(|look| look.weight);
        found.weights((&name, item), &mut weights, &look)?;
        let mut ids = place.looks.iter().map(|look| look.id.as_str());
        found.once(&name, &mut ids, &look)?;
        for look in &place.looks {
            let name = format!("{name}, characteristic `{}`", look.id);
            let item = || item().look(&look.id);
            self.search_look(found, (&name, &item), look)?;
            if let Some(why) = self.surface_problem(&name, place, look) {
                found.tell(item(), None, why)?;
            }
        }
        Search::Continue(())
    }

    fn search_look(
        &self,
        found: &mut Found,
        (name, item): (&str, &dyn Fn() -> PlanItem),
        look: &Characteristic,
    ) -> Search {
        let Some(scale) = self.scales.get(&look.scale) else {
            let why = PlanError::NoScale {
                place: name.to_owned(),
                scale: look.scale.to_string(),
            };
            return found.tell(item(), Some(Field::Scale), why);
        };
        let method = scale.method();
        let (given, most) = match (look.u_rep, method) {
            (Repeatability::Score(u), _) => (u, 10.0),
            (Repeatability::Percent(u), Method::Extent | Method::Area | Method::MeritArea) => {
                (u, 100.0)
            }
            (Repeatability::Count(u), Method::Count) => (u, 1000.0),
            (misfit, _) => {
                let why = PlanError::Repeatability {
                    place: name.to_owned(),
                    unit: match misfit {
                        Repeatability::Count(_) => "counts",
                        _ => "percent",
                    },
                    method: method.as_str(),
                };
                return found.tell(item(), Some(Field::URep), why);
            }
        };
        found.within((name, item), (Field::URep, "u_rep"), given, [0.0, most])
    }

    fn search_cap(&self, found: &mut Found, rule: &CapRule) -> Search {
        let item = || PlanItem::Cap(rule.id.clone());
        let name = format!("cap rule `{}`", rule.id);
        found.within((&name, &item), (Field::Cap, "cap"), rule.cap, [0.0, 10.0])?;
        let mut nodes = true;
        for (field, node) in [(Field::Node, &rule.node), (Field::Within, &rule.within)] {
            if !self.sections.iter().any(|section| section.has_node(node)) {
                nodes = false;
                let why = PlanError::CapNode {
                    rule: rule.id.to_string(),
                    node: node.clone(),
                };
                found.tell(item(), Some(field), why)?;
            }
        }
        if !nodes || self.is_rated_as(rule) {
            return Search::Continue(());
        }
        let why = PlanError::CapTrigger {
            rule: rule.id.to_string(),
            within: rule.within.clone(),
        };
        let field = match self.cap_look(rule) {
            Some(_) => Field::When,
            None => Field::Characteristic,
        };
        found.tell(item(), Some(field), why)
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

impl CapRule {
    /// How many states set it off.
    fn states(&self) -> usize {
        match &self.when {
            Trigger::StateIn(states) => states.len(),
            _ => 0,
        }
    }
}

impl Criterion {
    fn search(&self, found: &mut Found, place: usize) -> Search {
        let Self {
            weight,
            anchor,
            limit,
            best,
            ..
        } = *self;
        let (number, item) = (place + 1, || PlanItem::Criterion(place));
        let name = format!("criterion {number}");
        let field = (Field::Weight, "weight");
        found.within((&name, &item), field, weight, [0.0, MOST_WEIGHT])?;
        if (best < anchor && anchor < limit) || (limit < anchor && anchor < best) {
            return Search::Continue(());
        }
        let why = PlanError::Criterion {
            number,
            anchor,
            limit,
            best,
        };
        found.tell(item(), Some(Field::Anchor), why)
    }
}
